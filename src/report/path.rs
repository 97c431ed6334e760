//! A sound path: one good way through this very call.

use serde::{Deserialize, Serialize};
use visit::Move;

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
    /// Why, in a sentence.
    pub why: String,
}

impl SoundPath {
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
