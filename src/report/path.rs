//! A sound path: one good way through this very call.

use call::Call;
use diagnosis::{Hypotheses, Hypothesis, Progress, Purpose};
use plant::StepError;
use serde::{Deserialize, Serialize};
use visit::{Entry, Move, Visit};
use words::Words;

/// Moves that lead to the cause, its repair and the proof, in order.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SoundPath {
    /// The steps.
    pub steps: Vec<PathStep>,
}

/// One step of a sound path.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PathStep {
    /// What to do.
    pub action: Move,
    /// What it takes, min.
    pub minutes: f64,
    /// What for.
    pub aim: Purpose,
    /// What it told, if it told anything.
    pub gain: Option<StepGain>,
    /// What came of it.
    pub entry: Option<Entry>,
}

/// What a step told of the suspects.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StepGain {
    /// Information gained, bit.
    pub gained_bits: f64,
    /// The likeliest suspect after it.
    pub leader: Hypothesis,
    /// Its probability before, 0 to 1.
    pub before_probability: f64,
    /// Its probability after, 0 to 1.
    pub after_probability: f64,
}

/// Gain from which an entry is said to have told something, bit.
const TOLD_BITS: f64 = 0.02;

impl SoundPath {
    /// Works a path out for a call and its seed, from the suspects on arrival: minutes of work, so not for the thread
    /// that draws. `None` if it was stopped.
    ///
    /// # Errors
    /// If a plant leaves the finite numbers.
    pub fn work_out(
        call: &Call,
        seed: u64,
        mut arrived: Hypotheses,
        progress: &dyn Progress,
    ) -> Result<Option<SoundPath>, StepError> {
        let mut visit = Visit::start(call, seed)?;
        let aims = diagnosis::sound_path(&mut visit, &mut arrived, progress)?;
        Ok(aims.map(|aims| SoundPath::of(&visit, &aims, &arrived)))
    }

    /// The steps of a visit that was worked by [`diagnosis::sound_path`], with what each was for.
    pub fn of(visit: &Visit, aims: &[Purpose], suspects: &Hypotheses) -> SoundPath {
        let steps = visit
            .notebook()
            .iter()
            .zip(aims)
            .map(|(entry, aim)| PathStep {
                action: entry.action.clone(),
                minutes: (entry.finished_s - entry.started_s) / 60.0,
                aim: *aim,
                gain: gain(entry.number, suspects),
                entry: Some(entry.clone()),
            })
            .collect();
        SoundPath { steps }
    }

    /// What all steps take, min.
    pub fn minutes(&self) -> f64 {
        self.steps.iter().map(|step| step.minutes).sum()
    }

    /// How many steps it has, in words.
    pub fn count_text(&self, words: Words) -> String {
        words.count("review-steps", self.steps.len(), &[])
    }
}

impl PathStep {
    /// Why it is made, and what it told, as sentences.
    pub fn why(&self, words: Words) -> Vec<String> {
        let mut why = vec![words.say(&self.aim)];
        why.extend(self.gain.as_ref().map(|gain| words.say(gain)));
        why
    }
}

/// What an entry did to the suspects, if it did anything.
fn gain(number: u32, suspects: &Hypotheses) -> Option<StepGain> {
    let weighed = suspects.weighed().iter().find(|weighed| weighed.entry == number)?;
    if weighed.gained_bits < TOLD_BITS {
        return None;
    }
    let leads = (0..weighed.after.len()).max_by(|a, b| weighed.after[*a].total_cmp(&weighed.after[*b]))?;
    Some(StepGain {
        gained_bits: weighed.gained_bits,
        leader: suspects.names()[leads].clone(),
        before_probability: suspects.after(number.saturating_sub(1))[leads],
        after_probability: weighed.after[leads],
    })
}
