//! What a row of the catalogue of faults says of a kind.

use super::effects::Effect;
use super::{FaultGroup, FaultKind, LeftBehind};
use crate::Work;
use crate::system::{Metering, System};

/// What is known of a kind of fault.
pub struct Row {
    /// The part of the equipment it belongs to, for lists.
    pub group: FaultGroup,
    /// The part that a system must have.
    pub needs: Equipment,
    /// What its severity means.
    pub severity: Severity,
    /// What it does to the plant.
    pub(crate) effect: Effect,
    /// Work that removes it; of works that take the same minutes the first is preferred. None for states of the charge:
    /// recovering, evacuating and weighing in remove them.
    pub repaired_by: &'static [Work],
    /// How usual it is where cooling is poor or a coil freezes, over a kind that is neither usual nor rare (common practice,
    /// no source).
    pub usual: f64,
    /// What hardly another kind has.
    pub special: Special,
}

/// What only a few kinds have.
pub struct Special {
    /// What it is to the charge.
    pub charge: Charge,
    /// What stays behind when its part has been put right.
    pub leaves: Option<LeftBehind>,
    /// The kind that does the same to every reading at the same severity (of a leak: at the same charge), where a system can
    /// have it: where refrigerant went out shows on no gauge, and a fixed orifice passes as little when it is too small as with
    /// dirt in it.
    pub same_readings_as: Option<FaultKind>,
}

impl Special {
    /// Nothing special.
    pub(super) const NONE: Special =
        Special { charge: Charge::Untouched, leaves: None, same_readings_as: None };
}

/// What the severity of a kind means.
pub enum Severity {
    /// It is there or not: any severity above zero is the whole fault.
    AllOrNothing,
    /// It has degrees.
    Graded {
        /// From where to where anybody suspects it: milder forms do no harm that anybody would call about. Of a leak and of
        /// states of the charge it is the share of the plate's charge.
        suspected: (f64, f64),
    },
}

/// From where most kinds are felt, to their worst (engineering value).
pub(super) const FELT: (f64, f64) = (0.12, 1.0);

/// A part that not every system has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Equipment {
    /// One that all have.
    Any,
    /// An expansion valve.
    Valve,
    /// A fixed orifice.
    Orifice,
    /// A blower with a run capacitor, and its relay on the board.
    PscBlower,
    /// A blower with a module.
    EcmBlower,
}

impl Equipment {
    /// Whether a system has it.
    pub fn is_in(self, system: &System) -> bool {
        let has_valve = matches!(system.metering, Metering::Txv { .. });
        let has_psc = system.plate.blower_capacitor_f.is_some();
        match self {
            Equipment::Any => true,
            Equipment::Valve => has_valve,
            Equipment::Orifice => !has_valve,
            Equipment::PscBlower => has_psc,
            Equipment::EcmBlower => !has_psc,
        }
    }
}

/// What a kind is to the charge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Charge {
    /// Nothing.
    Untouched,
    /// Refrigerant escapes, at a place.
    Escapes,
    /// A share of the plate's charge is missing, from the start.
    Missing,
    /// A share of it is there in excess, from the start.
    Excess,
    /// Gas that does not condense is in the circuit, from the start.
    Gas,
}

/// Declares the kinds with their rows. A kind that was called otherwise once is still read under that name.
macro_rules! kinds {
    ($($(#[$what:meta])* $kind:ident $((formerly $former:ident))? => $row:expr,)*) => {
        /// The kinds of fault, in the order in which lists have them.
        #[derive(
            Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, strum::VariantArray, strum::IntoStaticStr,
        )]
        #[strum(serialize_all = "kebab-case")]
        pub enum FaultKind {
            $($(#[$what])* $kind,)*
        }

        impl FaultKind {
            /// Every kind.
            pub const ALL: [FaultKind; <FaultKind as strum::VariantArray>::VARIANTS.len()] = [$(FaultKind::$kind),*];

            /// Names in files.
            pub(super) const NAMES: [&'static str; FaultKind::ALL.len()] = [$(stringify!($kind)),*];
            /// The names that kinds had before.
            pub(super) const FORMER_NAMES: [Option<&'static str>; FaultKind::ALL.len()] = [$(former!($($former)?)),*];

            /// What is known of it.
            #[inline]
            pub fn row(self) -> &'static Row {
                match self {
                    $(FaultKind::$kind => {
                        const ROW: Row = $row;
                        &ROW
                    })*
                }
            }
        }
    };
}

macro_rules! former {
    () => {
        None
    };
    ($former:ident) => {
        Some(stringify!($former))
    };
}

pub(super) use {former, kinds};
