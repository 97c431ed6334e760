//! What the readings made of the suspects, cut down to what a review shows.

use diagnosis::{Hypotheses, Hypothesis};
use plant::Fault;
use serde::{Deserialize, Serialize};
use visit::{Declaration, Trust};

/// Every suspect of a visit with its probability before the first entry and after each.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PosteriorHistory {
    /// The suspects; every list of probabilities has their order.
    pub suspects: Vec<Hypothesis>,
    /// Before the first entry.
    pub before: Vec<f64>,
    /// After each entry, in order.
    pub entries: Vec<AfterEntry>,
}

/// What one notebook entry made of the suspects.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AfterEntry {
    /// Number of the entry.
    pub entry: u32,
    /// Probabilities after it.
    pub after: Vec<f64>,
    /// Information gained, bit.
    pub gained_bits: f64,
    /// Why its reading could not be trusted.
    pub doubt: Option<Trust>,
}

impl PosteriorHistory {
    /// What a review shows of the suspects of a visit.
    pub fn of(suspects: &Hypotheses) -> PosteriorHistory {
        PosteriorHistory {
            suspects: suspects.names().to_vec(),
            before: suspects.before().to_vec(),
            entries: suspects
                .weighed()
                .iter()
                .map(|weighed| AfterEntry {
                    entry: weighed.entry,
                    after: weighed.after.clone(),
                    gained_bits: weighed.gained_bits,
                    doubt: weighed.doubt,
                })
                .collect(),
        }
    }

    /// Probabilities after an entry; those before the first for number 0.
    pub fn after(&self, entry: u32) -> &[f64] {
        self.entries
            .iter()
            .rev()
            .find(|weighed| weighed.entry <= entry)
            .map_or(&self.before, |weighed| &weighed.after)
    }

    /// Probabilities after the last entry.
    pub fn at_end(&self) -> &[f64] {
        self.entries.last().map_or(&self.before, |weighed| &weighed.after)
    }

    /// The suspect that is what was really wrong, if it is among them: a combination that nobody suspected is not.
    pub fn truth(&self, faults: &[Fault]) -> Option<usize> {
        self.suspects.iter().position(|suspect| {
            suspect.causes.len() == faults.len()
                && suspect.causes.iter().all(|cause| {
                    faults.iter().any(|fault| fault.kind == cause.kind && fault.place == cause.place)
                })
        })
    }

    /// The suspect that a declaration names alone. A place that was left out stands for any; the likeliest counts.
    pub fn declared(&self, declaration: &Declaration) -> Option<usize> {
        let end = self.at_end();
        (0..self.suspects.len())
            .filter(|index| match self.suspects[*index].causes.as_slice() {
                [one] => {
                    one.kind == declaration.cause
                        && (declaration.place.is_none() || one.place == declaration.place)
                }
                _ => false,
            })
            .max_by(|a, b| end[*a].total_cmp(&end[*b]))
    }

    /// The suspects to show: those of `always`, and then those that were the likeliest at any time, `count` at most
    /// unless `always` has more. The likeliest at the end come first.
    pub fn leading(&self, count: usize, always: &[usize]) -> Vec<usize> {
        let peak = |index: usize| {
            self.entries.iter().map(|weighed| weighed.after[index]).fold(self.before[index], f64::max)
        };
        let mut shown = always.to_vec();
        shown.sort_unstable();
        shown.dedup();
        let mut others: Vec<usize> =
            (0..self.suspects.len()).filter(|index| !shown.contains(index)).collect();
        others.sort_by(|a, b| peak(*b).total_cmp(&peak(*a)));
        let room = count.saturating_sub(shown.len());
        shown.extend(others.into_iter().take(room));
        let end = self.at_end();
        shown.sort_by(|a, b| end[*b].total_cmp(&end[*a]).then(a.cmp(b)));
        shown
    }
}
