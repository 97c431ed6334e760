//! A sound path: one good way through this very call.

use call::Call;
use plant::StepError;
use serde::{Deserialize, Serialize};
use suspects::{Aim, Suspects};
use visit::{Entry, Move, Visit};

use crate::ruled::percent;

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
    /// Why, and what it told, in sentences.
    pub why: String,
    /// What came of it.
    pub entry: Option<Entry>,
}

/// Gain from which an entry is said to have told something, bit.
const TOLD_BITS: f64 = 0.02;

impl SoundPath {
    /// Works a path out for a call and its seed, from the suspects on arrival: minutes of work, so not for the thread
    /// that draws. `watch` is asked now and then with the steps made so far; `None` if it stopped the work.
    ///
    /// # Errors
    /// If a plant leaves the finite numbers.
    pub fn work_out(
        call: &Call,
        seed: u64,
        mut arrived: Suspects,
        watch: &suspects::Watch<'_>,
    ) -> Result<Option<SoundPath>, StepError> {
        let mut visit = Visit::start(call, seed)?;
        let aims = suspects::sound_path(&mut visit, &mut arrived, watch)?;
        Ok(aims.map(|aims| SoundPath::of(&visit, &aims, &arrived)))
    }

    /// The steps of a visit that was worked by [`suspects::sound_path`], with what each was for.
    pub fn of(visit: &Visit, aims: &[Aim], suspects: &Suspects) -> SoundPath {
        let steps = visit
            .notebook()
            .iter()
            .zip(aims)
            .map(|(entry, aim)| PathStep {
                action: entry.action.clone(),
                minutes: (entry.finished_s - entry.started_s) / 60.0,
                why: [reason(*aim), told(entry.number, suspects)].concat(),
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
    pub fn count_text(&self) -> String {
        match self.steps.len() {
            1 => "1 step".to_owned(),
            count => format!("{count} steps"),
        }
    }
}

/// What a step is for.
fn reason(aim: Aim) -> String {
    match aim {
        Aim::Tests { expected_bits } => {
            format!("Expected to tell most for what it takes: {expected_bits:.2} bit.")
        }
        Aim::Prepares => "Makes the next test possible.".to_owned(),
        Aim::KeepsOrder => "A sound order has it before what comes next.".to_owned(),
        Aim::RunsUp => "Towards a plant that runs with a clear coil: only that shows the rest.".to_owned(),
        Aim::PutsBack => "Puts back what was switched off or opened.".to_owned(),
        Aim::Declares => "Says what is wrong, with the readings that single it out.".to_owned(),
        Aim::MakesSafe => "Makes the plant safe to work on.".to_owned(),
        Aim::Mends(kind) => format!("Takes the cause away: {}.", kind.label().to_lowercase()),
        Aim::Fills => "Closes and fills the circuit as the data plate says.".to_owned(),
        Aim::Proves => "Proves the repair and leaves the site in order.".to_owned(),
    }
}

/// What an entry did to the suspects, if it did anything.
fn told(number: u32, suspects: &Suspects) -> String {
    let Some(weighed) = suspects.weighed().iter().find(|weighed| weighed.entry == number) else {
        return String::new();
    };
    if weighed.gained_bits < TOLD_BITS {
        return String::new();
    }
    let leads = (0..weighed.after.len()).max_by(|a, b| weighed.after[*a].total_cmp(&weighed.after[*b]));
    let Some(leads) = leads else { return String::new() };
    let before = suspects.after(number.saturating_sub(1));
    format!(
        " It told {:.2} bit. Likeliest after it: {}, {} (before it {}).",
        weighed.gained_bits,
        suspects.names()[leads].to_string().to_lowercase(),
        percent(weighed.after[leads]),
        percent(before[leads]),
    )
}
