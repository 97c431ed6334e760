//! What each reading ruled out, and what it spoke for.

use diagnosis::Hypothesis;
use serde::{Deserialize, Serialize};
use visit::{Entry, Measured, Outcome, Reading, Trust};
use words::Words;

use crate::posterior::PosteriorHistory;

/// A suspect is ruled out by an entry that makes it so many times less likely (engineering value).
pub const RULED_OUT_FACTOR: f64 = 5.0;
/// Probability from which a suspect is worth naming when it falls (engineering value).
pub const NOTICEABLE: f64 = 0.01;
/// Probability that a suspect must have gained to be named as spoken for (engineering value).
const GAINED: f64 = 0.05;
/// Information below which an entry told nothing, bit (engineering value).
const NOTHING_BITS: f64 = 0.05;

/// What one entry did.
#[derive(Clone, Debug, PartialEq)]
pub struct Ruling {
    /// Number of the entry.
    pub entry: u32,
    /// Information gained, bit.
    pub gained_bits: f64,
    /// Hypotheses that it ruled out, the one that lost most first.
    pub out: Vec<Change>,
    /// Hypotheses that gained by it, the one that gained most first.
    pub up: Vec<Change>,
    /// Why its reading could not be trusted.
    pub doubt: Option<Trust>,
}

/// A suspect's probability before and after an entry.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// Which suspect.
    pub suspect: usize,
    /// Probability before.
    pub before: f64,
    /// Probability after.
    pub after: f64,
}

impl Ruling {
    /// Whether the entry told little or nothing.
    pub fn told_nothing(&self) -> bool {
        self.out.is_empty() && self.up.is_empty() && self.gained_bits < NOTHING_BITS
    }
}

/// Hypotheses that are named at most; the others are counted.
const NAMED: usize = 4;

/// What an entry did, to be told.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Effect {
    /// It ruled suspects out.
    RuledOut(Shifts),
    /// It points to suspects.
    PointsTo(Shifts),
    /// It told no suspects apart.
    Nothing,
    /// It shifted a little.
    Little,
}

/// What became of several suspects.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Shifts {
    /// The first ones by name.
    pub changes: Vec<Shift>,
    /// How many more.
    pub more: usize,
    /// What those were together, 0 to 1.
    pub before_probability: f64,
    /// What those are together, 0 to 1.
    pub after_probability: f64,
}

/// What became of a suspect.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Shift {
    /// The suspect.
    pub suspect: Hypothesis,
    /// Its probability before, 0 to 1.
    pub before_probability: f64,
    /// Its probability after, 0 to 1.
    pub after_probability: f64,
}

impl Shifts {
    fn of(changes: &[Change], chances: &PosteriorHistory) -> Shifts {
        let rest = changes.get(NAMED..).unwrap_or_default();
        Shifts {
            changes: changes
                .iter()
                .take(NAMED)
                .map(|change| Shift {
                    suspect: chances.suspects[change.suspect].clone(),
                    before_probability: change.before,
                    after_probability: change.after,
                })
                .collect(),
            more: rest.len(),
            before_probability: rest.iter().map(|change| change.before).sum(),
            after_probability: rest.iter().map(|change| change.after).sum(),
        }
    }
}

impl Ruling {
    /// What the entry did; its doubt is not among it.
    pub fn effects(&self, chances: &PosteriorHistory) -> Vec<Effect> {
        let mut effects = Vec::new();
        if !self.out.is_empty() {
            effects.push(Effect::RuledOut(Shifts::of(&self.out, chances)));
        }
        if !self.up.is_empty() {
            effects.push(Effect::PointsTo(Shifts::of(&self.up, chances)));
        }
        if effects.is_empty() {
            effects.push(if self.told_nothing() { Effect::Nothing } else { Effect::Little });
        }
        effects
    }
}

/// What every entry did, in order.
pub fn rulings(chances: &PosteriorHistory) -> Vec<Ruling> {
    let mut before = &chances.before;
    let mut rulings = Vec::with_capacity(chances.entries.len());
    for weighed in &chances.entries {
        let changes = || {
            before.iter().zip(&weighed.after).enumerate().map(|(suspect, (before, after))| Change {
                suspect,
                before: *before,
                after: *after,
            })
        };
        let mut out: Vec<Change> =
            changes().filter(|c| c.before >= NOTICEABLE && c.after * RULED_OUT_FACTOR <= c.before).collect();
        out.sort_by(|a, b| b.before.total_cmp(&a.before));
        let mut up: Vec<Change> = changes().filter(|c| c.after - c.before >= GAINED).collect();
        up.sort_by(|a, b| (b.after - b.before).total_cmp(&(a.after - a.before)));
        rulings.push(Ruling {
            entry: weighed.entry,
            gained_bits: weighed.gained_bits,
            out,
            up,
            doubt: weighed.doubt,
        });
        before = &weighed.after;
    }
    rulings
}

/// Whether an outcome can tell suspects apart: a reading or something seen. What was weighed in says nothing.
pub fn carries_evidence(outcome: &Outcome) -> bool {
    match outcome {
        Outcome::Read(reading) => reading.quantity != Measured::AddedMass,
        Outcome::Seen(_) => true,
        Outcome::Done | Outcome::Refused(_) | Outcome::Verified(_) => false,
    }
}

/// What every entry did that carries evidence: a reading or something seen.
pub fn rulings_of_evidence(notebook: &[Entry], chances: &PosteriorHistory) -> Vec<Ruling> {
    let is_evidence =
        |number: u32| notebook.iter().any(|entry| entry.number == number && carries_evidence(&entry.outcome));
    rulings(chances).into_iter().filter(|ruling| is_evidence(ruling.entry)).collect()
}

/// Why a reading cannot be relied on as far as it could be told when it was taken ([`visit::Reading::shown`]), in a few words;
/// `None` when nothing spoke against it.
pub fn doubt_then(shown: Trust, words: Words) -> Option<String> {
    match shown {
        Trust::Sound => None,
        Trust::IceOnCoil => Some(words.label("review-ice-when-last-seen")),
        Trust::Unsettled | Trust::CompressorStopped => Some(words.say(&shown)),
    }
}

/// Why a reading in doubt weighs little, as a sentence; `None` for a sound one.
pub fn doubt_text(trust: Trust, words: Words) -> Option<String> {
    let key = match trust {
        Trust::Sound => return None,
        Trust::Unsettled => "review-doubt-unsettled",
        Trust::CompressorStopped => "review-doubt-compressor-stopped",
        Trust::IceOnCoil => "review-doubt-ice",
    };
    Some(words.label(key))
}

/// Whether a reading is of the refrigerant side.
pub fn is_refrigerant_side(reading: &Reading) -> bool {
    matches!(reading.quantity, Measured::GaugePressure(_) | Measured::PipeTemperature(_))
}

/// The doubt of an outcome that is a reading.
pub fn doubt_of(outcome: &Outcome) -> Option<Trust> {
    match outcome {
        Outcome::Read(reading) if reading.trust != Trust::Sound => Some(reading.trust),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::posterior::AfterEntry;
    use diagnosis::Hypothesis;
    use plant::{FaultKind, LeakPlace};

    fn chances(before: &[f64], after: &[&[f64]]) -> PosteriorHistory {
        let kinds = [FaultKind::LoadedFilter, FaultKind::Undercharged, FaultKind::PluggedDrier];
        PosteriorHistory {
            suspects: kinds.map(|kind| Hypothesis::single(kind, None)).to_vec(),
            before: before.to_vec(),
            entries: after
                .iter()
                .zip(1..)
                .map(|(after, entry)| AfterEntry {
                    entry,
                    after: after.to_vec(),
                    gained_bits: 1.0,
                    doubt: None,
                })
                .collect(),
        }
    }

    #[test]
    fn a_suspect_that_falls_by_the_factor_is_ruled_out_by_that_entry_alone() {
        let chances = chances(&[0.5, 0.4, 0.1], &[&[0.88, 0.079, 0.041], &[0.93, 0.06, 0.01]]);
        let rulings = rulings(&chances);
        // 0.4 to 0.079 is a factor above five; 0.1 to 0.041 is not.
        assert_eq!(rulings[0].out, [Change { suspect: 1, before: 0.4, after: 0.079 }]);
        assert_eq!(rulings[0].up.iter().map(|change| change.suspect).collect::<Vec<_>>(), [0]);
        // The second entry is held against the first, not against the start: 0.041 to 0.01 is a factor of four.
        assert!(rulings[1].out.is_empty());
    }

    #[test]
    fn a_suspect_nobody_noticed_is_not_ruled_out() {
        let chances = chances(&[0.6, 0.391, 0.009], &[&[0.6, 0.3999, 0.0001]]);
        assert!(rulings(&chances)[0].out.is_empty());
    }

    #[test]
    fn those_shown_are_the_likeliest_of_any_time_and_the_truth() {
        let chances = chances(&[0.5, 0.4, 0.1], &[&[0.1, 0.85, 0.05], &[0.9, 0.06, 0.04]]);
        assert_eq!(chances.leading(2, &[]), [0, 1]);
        assert_eq!(chances.leading(2, &[2]), [0, 2]);
        assert_eq!(chances.leading(1, &[2, 1]), [1, 2]);
        assert_eq!(chances.after(0), [0.5, 0.4, 0.1]);
        assert_eq!(chances.after(1), [0.1, 0.85, 0.05]);
        assert_eq!(chances.at_end(), [0.9, 0.06, 0.04]);
    }

    #[test]
    fn the_truth_is_found_by_kind_and_place() {
        let mut chances = chances(&[0.5, 0.4, 0.1], &[]);
        chances.suspects[2] = Hypothesis::single(FaultKind::RefrigerantLeak, Some(LeakPlace::LiquidLine));
        let leak = |place| plant::Fault {
            kind: FaultKind::RefrigerantLeak,
            place: Some(place),
            severity: 0.3,
            onset_s: 0.0,
        };
        assert_eq!(chances.truth(&[leak(LeakPlace::LiquidLine)]), Some(2));
        assert_eq!(chances.truth(&[leak(LeakPlace::IndoorCoil)]), None);
        let two = [leak(LeakPlace::LiquidLine), leak(LeakPlace::IndoorCoil)];
        assert_eq!(chances.truth(&two), None, "more was wrong than that suspect says");
    }

    #[test]
    fn a_ruling_tells_what_it_did_to_whom() {
        let chances = chances(&[0.5, 0.4, 0.1], &[&[0.96, 0.03, 0.01], &[0.96, 0.03, 0.01]]);
        let rulings = rulings(&chances);
        let shift = |suspect: usize, before_probability, after_probability| Shift {
            suspect: chances.suspects[suspect].clone(),
            before_probability,
            after_probability,
        };
        let none_more =
            |changes| Shifts { changes, more: 0, before_probability: 0.0, after_probability: 0.0 };
        assert_eq!(
            rulings[0].effects(&chances),
            [
                Effect::RuledOut(none_more(vec![shift(1, 0.4, 0.03), shift(2, 0.1, 0.01)])),
                Effect::PointsTo(none_more(vec![shift(0, 0.5, 0.96)])),
            ]
        );
        assert_eq!(rulings[1].effects(&chances), [Effect::Little], "a bit was gained");
        let quiet = Ruling { gained_bits: 0.0, ..rulings[1].clone() };
        assert_eq!(quiet.effects(&chances), [Effect::Nothing]);
    }

    #[test]
    fn those_beyond_the_first_are_counted_together() {
        let five =
            PosteriorHistory { suspects: vec![Hypothesis { causes: Vec::new() }; 6], ..chances(&[], &[]) };
        let change = |suspect| Change { suspect, before: 0.1, after: 0.01 };
        let shifts = Shifts::of(&[0, 1, 2, 3, 4, 5].map(change), &five);
        assert_eq!((shifts.changes.len(), shifts.more), (4, 2));
        assert!((shifts.before_probability - 0.2).abs() < 1.0e-12);
    }

    #[test]
    fn every_doubt_is_explained() {
        let words = Words::default();
        assert!(doubt_text(Trust::Sound, words).is_none() && doubt_then(Trust::Sound, words).is_none());
        for trust in [Trust::Unsettled, Trust::CompressorStopped, Trust::IceOnCoil] {
            assert!(doubt_text(trust, words).is_some_and(|text| text.contains("counts for little")));
        }
    }
}
