//! What a row of the moves holds. Each field is required: the compiler names the one that is missing.

use call::{Duration, Milestone};

use crate::action::Move;
use crate::cycle::Signal;
use crate::hazard::Caution;
use crate::limits::Value;
use crate::measured::Measured;
use crate::place::{Location, Panel};
use crate::refusal::Refusal;
use crate::visit::{Act, Step, Visit};

/// Everything that is to be said of a move.
pub(crate) struct Row {
    /// Where it is made.
    pub at: At,
    /// What must be open, and what is told where it is not.
    pub panel: Option<(Panel, Refusal)>,
    /// What is told where the hoses are off; `None` if it needs none.
    pub hoses: Option<Refusal>,
    /// What must be dead.
    pub dead: Dead,
    /// The quantities that it was given, with their limits.
    pub values: Vec<Value>,
    /// What it takes where it is made, s. For moves that end when an instrument says so it is what they commonly take.
    pub takes_s: f64,
    /// What it costs in parts and material, money of the price list; what was asked for where a scale decides.
    pub price: f64,
    /// What is to be minded where it is.
    pub caution: Option<Caution>,
    /// What the system lacks for it.
    pub lacks: Rule,
    /// What else of the site's state refuses it.
    pub refusal: Rule,
    /// What is done, step by step, once nothing refuses it.
    pub plan: fn(&Visit, &Move) -> Vec<Step>,
    /// How it ends.
    pub end: End,
    /// The milestone that it makes.
    pub reaches: Reaches,
    /// What it does with the refrigerant circuit.
    pub circuit: OnCircuit,
    /// What it does to the system and the site.
    pub effect: Effect,
}

/// Why a move can't be made; `None` if it can.
pub(crate) type Rule = fn(&Visit, &Move) -> Option<Refusal>;

/// Nothing refuses it.
pub(crate) fn never(_: &Visit, _: &Move) -> Option<Refusal> {
    None
}

/// Where a move is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum At {
    /// Anywhere, and with one hand: gauges send to it, and one waits and thinks anywhere.
    Anywhere,
    /// On one side of the wall.
    Side(Location),
    /// With the hand at the sensing bulb.
    Bulb,
    /// Where an instrument is put on. Once it is in place, it is read from anywhere, at a glance.
    Instrument {
        /// Where that is.
        location: Location,
        /// What it measures there.
        quantity: Measured,
    },
}

/// What must be dead for a move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dead {
    /// Nothing.
    Nothing,
    /// The outdoor unit, since the circuit is cut.
    OutdoorForCircuit,
    /// The blower stands.
    BlowerStands,
    /// The air handler.
    AirHandler,
    /// The outdoor unit.
    OutdoorUnit,
    /// What the probes of a meter lie on.
    AtProbes,
}

/// What a move does with the refrigerant circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OnCircuit {
    /// Nothing that lets refrigerant out or in.
    Untouched,
    /// Hoses are moved, or refrigerant goes into the recovery cylinder.
    Handles,
    /// Pumps and nitrogen carry off what no recovery takes out.
    LetsOff,
    /// The evacuated circuit is filled.
    Fills,
    /// Refrigerant goes into a circuit that holds some.
    Adds,
    /// The circuit is opened.
    Opens,
}

/// What a move does to the system and the site.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Effect {
    /// It looks or measures and changes nothing but the site.
    Tells {
        /// On what it hangs that starts and stops.
        hangs_on: &'static [Signal],
        /// Whether what it shows changes by itself.
        kept: Kept,
    },
    /// It holds the sensing bulb warm or cold.
    TestsBulb,
    /// It asks, reads what is printed, or says what is wrong.
    Talks,
    /// It changes what the thermostat wants.
    Sets,
    /// It throws a switch.
    Switches,
    /// Time passes.
    Waits,
    /// It opens and closes, discharges, and puts back.
    Prepares,
    /// It makes the place safe.
    Secures,
    /// It connects, pumps and tests on the circuit.
    Serves,
    /// It changes what is in the circuit.
    ChangesContents,
    /// It changes a part.
    Repairs,
    /// It proves the repair.
    Proves,
    /// It ends the visit.
    Leaves,
}

/// Whether what a test shows stays while nothing is worked on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    /// Waiting and another setting change nothing of it.
    Stays,
    /// They can change it.
    Drifts,
}

/// The milestone that a move makes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Reaches {
    /// None by itself; what is read or seen may.
    Nothing,
    /// This one, by being made.
    Done(Milestone),
    /// This one, if it goes well.
    IfWell(Milestone),
}

/// How a move ends.
#[derive(Clone, Copy, Debug)]
pub(crate) enum End {
    /// By itself.
    Own,
    /// It can be ended at any time: the move as it was then.
    AnyTime(fn(&Move, Duration) -> Move),
    /// The same, and after so long it is ended.
    Within {
        /// Longest it may take, s.
        seconds: f64,
        /// What is done at its end.
        act: Act,
        /// The move as it was then.
        again: fn(&Move, Duration) -> Move,
    },
}

/// What hangs on nothing that runs.
pub(crate) const NOTHING_RUNS: &[Signal] = &[];
/// What hangs on the call for cooling and on the blower: control voltage and air.
pub(crate) const CALL_AND_AIR: &[Signal] = &[Signal::Call, Signal::Blower];

/// A look or a measurement that the whole system moves.
pub(crate) const TELLS: Effect = Effect::Tells { hangs_on: &Signal::ALL, kept: Kept::Drifts };
/// One that hangs on the call and on the air.
pub(crate) const TELLS_OF_AIR: Effect = Effect::Tells { hangs_on: CALL_AND_AIR, kept: Kept::Drifts };
/// One that hangs on nothing that runs, and stays.
pub(crate) const TELLS_AT_REST: Effect = Effect::Tells { hangs_on: NOTHING_RUNS, kept: Kept::Stays };
