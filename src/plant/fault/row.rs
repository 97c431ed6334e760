//! What a row of the catalogue of faults can say of a kind, and how the rows become the kinds.

use serde::{Deserialize, Serialize};

use crate::system::{Metering, System};

/// The part of the equipment that a kind of fault belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum FaultGroup {
    /// Filter, ducts, coil face, blower wheel.
    AirSide,
    /// Blower motor, thermostat and low voltage.
    BlowerAndControls,
    /// Charge, lines and metering device.
    RefrigerantSide,
    /// Condenser, its fan, the compressor.
    OutdoorUnit,
}

/// What a fault leaves behind when the part that it was in has been put right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum LeftBehind {
    /// The medium of a collapsed filter, on the coil.
    MediumOnCoil,
    /// The slot of a filter that had long been missing, still empty.
    EmptySlot,
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
