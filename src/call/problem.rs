//! What can be wrong with a call file, as facts. Keys, kinds and milestones are as the file writes them.

use plant::FaultKind;
use quantity::Amount;
use ron_file::{Mistake, Nearest, Problems};
use serde::{Deserialize, Serialize};

/// Everything that is wrong with a call file.
pub type CallProblems = Problems<CallMistake>;

/// What a bounded number is a share of or counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Meaning {
    /// What its unit says.
    Plain,
    /// A share that is never written in percent.
    NoPercent,
    /// A share of the data plate's charge.
    PlateCharge,
    /// A share of the supply air.
    SupplyAir,
    /// A share of the return air.
    ReturnAir,
    /// Kilograms of dry air.
    DryAir,
    /// How bad a fault is.
    Severity(FaultKind),
}

/// What to do about a number that is not allowed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Advice {
    /// Raise it.
    Raise,
    /// Lower it.
    Lower,
    /// It was meant in percent.
    AsShare {
        /// The number that was meant.
        written: f64,
    },
    /// Mind what it is: the time from the start of the simulation until the technician arrives.
    UntilArrival,
    /// Counted from the start of the history.
    FromStart,
    /// The time that a sound visit needs.
    SoundVisit,
    /// How long the plant must run at steady state.
    AtSteadyState,
}

/// A mistake in a call file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum CallMistake {
    /// One of writing.
    Written(Mistake),
    /// A version that this program does not read.
    Version {
        /// The one in the file.
        version: u32,
        /// The one that is read.
        read: u32,
    },
    /// The file's name makes no id.
    FileName {
        /// What it makes.
        id: String,
    },
    /// A text is empty.
    Empty {
        /// Its key.
        key: String,
    },
    /// A text is longer than anybody reads.
    TooLong {
        /// Its key.
        key: String,
        /// Its characters.
        characters: usize,
        /// Most of them.
        most: usize,
    },
    /// A text by language has none in American English.
    NoEnglish {
        /// Its key.
        key: String,
    },
    /// A text is in a language that is none.
    NoLanguage {
        /// Its key.
        key: String,
        /// What stands for the language.
        language: String,
    },
    /// A list has more entries than any call needs.
    TooManyEntries {
        /// Its key.
        key: String,
        /// How many.
        entries: usize,
        /// Most of them.
        most: usize,
    },
    /// A question is answered twice.
    AnsweredTwice {
        /// The question.
        question: String,
    },
    /// No such system.
    UnknownSystem {
        /// Its name.
        name: String,
        /// Names near to it.
        nearest: Nearest,
        /// All of them.
        known: Vec<String>,
    },
    /// A number is out of its bounds.
    OutOfBounds {
        /// Its key.
        key: String,
        /// The number.
        amount: Amount,
        /// Lowest, in the unit of the highest.
        low_written: f64,
        /// Highest.
        high: Amount,
        /// What it is.
        meaning: Meaning,
        /// What to do.
        advice: Advice,
    },
    /// A range has its higher value first.
    HigherFirst {
        /// Its key.
        key: String,
    },
    /// A range has two units.
    TwoUnits {
        /// Its key.
        key: String,
    },
    /// The dew point lies above the coldest outdoor air.
    DewPoint {
        /// The dew point.
        amount: Amount,
        /// The coldest air.
        high: Amount,
    },
    /// There is no fault.
    NoFaults,
    /// A fault is there twice with the same place.
    FaultTwice {
        /// Its kind.
        kind: String,
    },
    /// The system has no part that this could happen to.
    NoSuchPart {
        /// The kind.
        kind: String,
        /// The system.
        system: String,
    },
    /// A kind holds from the start and has no later onset.
    HoldsFromTheStart {
        /// The kind.
        kind: String,
    },
    /// A kind needs a place.
    NeedsPlace {
        /// The kind.
        kind: String,
        /// All places.
        places: Vec<String>,
    },
    /// A kind has no places.
    HasNoPlaces {
        /// The kind.
        kind: String,
        /// The kinds that have places.
        with: Vec<String>,
    },
    /// A place is there twice.
    PlaceTwice,
    /// A prerequisite has no way.
    NoWay,
    /// A milestone cannot come before itself.
    BeforeItself {
        /// The milestone.
        milestone: String,
    },
    /// A prerequisite is there twice.
    PrerequisiteTwice,
    /// The order runs in a circle.
    Circle {
        /// A milestone that is never reached.
        milestone: String,
        /// Those that wait for one another.
        waiting: Vec<String>,
    },
    /// A rival is a fault of the call.
    RivalIsFault {
        /// The kind.
        kind: String,
    },
    /// A kind is there twice.
    KindTwice {
        /// The kind.
        kind: String,
    },
    /// A weight is out of its bounds.
    Weight {
        /// The kind.
        kind: String,
        /// The weight.
        written: f64,
        /// Lowest.
        low: f64,
        /// Highest.
        high: f64,
    },
    /// `cleared` does not name the faults of the call.
    Cleared {
        /// Their kinds.
        kinds: Vec<String>,
    },
}

impl From<Mistake> for CallMistake {
    fn from(mistake: Mistake) -> CallMistake {
        CallMistake::Written(mistake)
    }
}
