//! The notebook: every reading and observation of a visit, in order.

use plant::FaultKind;
use serde::{Deserialize, Serialize};

pub use crate::action::Move;
use crate::measured::{Measured, Trust};
pub use crate::running::Running;

use crate::margin::Margin;
use crate::note::Note;
use crate::refusal::Refusal;
use crate::sight::Observation;

/// One line of the notebook: a move, when it was made, and what came of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Entry {
    /// Number, from 1; evidence is cited by it.
    pub number: u32,
    /// The move.
    pub action: Move,
    /// Plant time when it began, s.
    pub started_s: f64,
    /// Plant time when it was done, s.
    pub finished_s: f64,
    /// What ran when it was done.
    pub running: Running,
    /// What came of it.
    pub outcome: Outcome,
    /// What was seen, felt, said or answered, in order of importance.
    pub notes: Vec<Note>,
}

/// What came of a move.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Outcome {
    /// Done; nothing to read.
    Done,
    /// A number was read.
    Read(Reading),
    /// Something was seen.
    Seen(Vec<Observation>),
    /// The site's state forbids it. It cost its minutes.
    Refused(Refusal),
    /// The repair was looked at.
    Verified(Verification),
}

/// A number from an instrument.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// What was measured, and where.
    pub quantity: Measured,
    /// Value in the quantity's SI unit (Pa gauge, K, V, kg), rounded to the instrument's resolution.
    pub value: f64,
    /// One standard deviation of the instrument at this value, same unit.
    pub uncertainty: f64,
    /// Whether the instrument had settled and the plant had run long enough for the value to mean anything: the truth,
    /// for marks and for weighing.
    pub trust: Trust,
    /// The same as far as it could be told when it was taken: whether the display moved, whether the compressor was
    /// heard, and ice only as the coil was last seen.
    pub shown: Trust,
    /// Which piece of the bag read it (gauge, clamp, probe, meter by what it measures): what one piece shows wrong, it
    /// shows wrong each time.
    pub piece: u8,
}

/// What verification found.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Verification {
    /// How long the compressor had then run without a stop, s.
    pub ran_for_s: f64,
    /// Superheat at the outdoor suction service valve.
    pub superheat: Margin,
    /// Subcooling at the liquid service valve.
    pub subcooling: Margin,
    /// Return less supply dry bulb, K.
    pub temperature_split_k: f64,
    /// Ice on the coil, kg.
    pub frost_mass_kg: f64,
    /// Faults that are still there.
    pub faults_left: Vec<FaultKind>,
    /// Whether the last minutes were steady.
    pub steady: bool,
}
