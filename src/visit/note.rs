//! What an entry of the notebook tells beside its outcome: facts, never sentences. Words stand in the locale files.

mod area;
mod bulb;
mod charge;
mod controls;
mod filter;
mod leak;
mod measure;
mod meter;
mod nitrogen;
mod recovery;
mod repair;
mod vacuum;
mod verify;

use call::Question;
use plant::RefrigerantName;
use serde::{Deserialize, Serialize};

use crate::sight::Sight;

pub use area::AreaNote;
pub use bulb::BulbNote;
pub use charge::ChargeNote;
pub use controls::SiteNote;
pub use filter::FilterNote;
pub use leak::LeakNote;
pub use measure::GaugeNote;
pub use meter::MeterNote;
pub use nitrogen::NitrogenNote;
pub use recovery::RecoveryNote;
pub use repair::WorkNote;
pub use vacuum::VacuumNote;
pub use verify::VerifyNote;

/// A fact for the learner: what was seen, felt, said or answered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Note {
    /// Seen, heard or felt at a place.
    Sight(Sight),
    /// What the customer answers; the words are the call's.
    Answer(Question),
    /// Printed on the data plate.
    Plate(PlateNote),
    /// Of switches, panels, declarations and the way out.
    Site(SiteNote),
    /// Of the filter.
    Filter(FilterNote),
    /// Of gauges, clamps and probes.
    Gauge(GaugeNote),
    /// Of the meter.
    Meter(MeterNote),
    /// Of the sensing bulb.
    Bulb(BulbNote),
    /// Of leaks and of cutting into the circuit.
    Leak(LeakNote),
    /// Of parts replaced and put right.
    Work(WorkNote),
    /// Of recovery and its cylinder.
    Recovery(RecoveryNote),
    /// Of nitrogen.
    Nitrogen(NitrogenNote),
    /// Of evacuation.
    Vacuum(VacuumNote),
    /// Of charging.
    Charge(ChargeNote),
    /// Of flames, air and the detector.
    Area(AreaNote),
    /// Of proving the repair.
    Verify(VerifyNote),
}

/// A line of the data plate.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum PlateNote {
    /// Refrigerant and factory charge with line set.
    Charge {
        /// Which refrigerant.
        refrigerant: RefrigerantName,
        /// Factory charge, kg.
        charge_kg: f64,
    },
    /// For how long a line the charge is, and what each length more takes.
    Line {
        /// Length of line, m.
        line_length_m: f64,
        /// Charge for each metre more, kg/m.
        adder_kg_m: f64,
    },
    /// An expansion valve, with its target subcooling at the liquid service valve.
    ExpansionValve {
        /// Target subcooling, K.
        subcooling_difference_k: f64,
    },
    /// A fixed orifice, charged by superheat.
    Orifice,
    /// Where the high-pressure switch opens.
    HighPressureSwitch {
        /// Pressure, Pa gauge.
        opens_gauge_pa: f64,
    },
}

macro_rules! notes {
    ($($variant:ident($held:ty)),* $(,)?) => {
        $(impl From<$held> for Note {
            fn from(held: $held) -> Note {
                Note::$variant(held)
            }
        })*
    };
}

notes! {
    Sight(Sight), Answer(Question), Plate(PlateNote), Site(SiteNote), Filter(FilterNote), Gauge(GaugeNote),
    Meter(MeterNote), Bulb(BulbNote), Leak(LeakNote), Work(WorkNote), Recovery(RecoveryNote), Nitrogen(NitrogenNote),
    Vacuum(VacuumNote), Charge(ChargeNote), Area(AreaNote), Verify(VerifyNote),
}
