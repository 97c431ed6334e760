//! What can be wrong with a moves file or a visit record, as facts. Names are as the file writes them.

use quantity::Amount;
use ron_file::{Mistake, Problems};
use serde::{Deserialize, Serialize};

/// Everything that is wrong with a moves file or a record.
pub type FileProblems = Problems<FileMistake>;

/// What a move asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Asked {
    /// A wait.
    Wait,
    /// The longest that a pump or a charge is tried.
    Limit,
    /// The pressure of nitrogen.
    TestPressure,
    /// To what refrigerant is recovered.
    Recovery,
    /// To what the circuit is evacuated.
    Vacuum,
    /// Superheat or subcooling.
    ChargeTarget,
    /// Refrigerant.
    Refrigerant,
    /// The thermostat's set point.
    SetPoint,
}

/// A mistake in a moves file or a record.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum FileMistake {
    /// One of writing.
    Written(Mistake),
    /// Nothing on a site can have such a quantity.
    Impossible {
        /// What is asked for.
        asked: Asked,
        /// The quantity.
        amount: Amount,
        /// Lowest.
        low: Amount,
        /// Highest.
        high: Amount,
    },
    /// Both probes are on one terminal.
    SameTerminal {
        /// The terminal.
        terminal: String,
    },
    /// Work that has a move of its own.
    OwnMove {
        /// The work.
        work: String,
        /// The move.
        instead: String,
    },
    /// Entry 0 is cited; the first is 1.
    NoEntry,
    /// There are more moves or events than anyone makes.
    TooManyEvents {
        /// How many.
        events: usize,
        /// Most of them.
        most: usize,
    },
    /// The file is a call.
    IsCall,
    /// The record is of a newer version of the program.
    Newer {
        /// Version of the record.
        version: u32,
        /// The one that is read.
        read: u32,
    },
    /// The record is of an older version, whose notebook was kept otherwise.
    Older {
        /// Version of the record.
        version: u32,
        /// The one that is read.
        read: u32,
    },
    /// This is no digest.
    NoDigest,
    /// This is no name of a call.
    NoName,
}

impl From<Mistake> for FileMistake {
    fn from(mistake: Mistake) -> FileMistake {
        FileMistake::Written(mistake)
    }
}
