//! Faults: each is a change to a physical parameter, never a scripted reading.

use serde::{Deserialize, Serialize};

/// Something wrong with the plant.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fault {
    /// Which physical parameter changes.
    pub kind: FaultKind,
    /// Where, for the kinds that need a place (leaks); `None` otherwise.
    pub place: Option<LeakPlace>,
    /// How bad, 0 = healthy, 1 = the worst the kind can be. The meaning is given by [`FaultKind`].
    pub severity: f64,
    /// Plant time at which it sets in, s. Zero or less: from the start.
    pub onset_s: f64,
}

/// The kinds of fault, in the order in which a technician would look.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum FaultKind {
    /// Dirt in the filter. Severity is the share of the filter's open area that is lost; above 0.9 the
    /// medium gives way and collapses onto the coil, which it covers in part.
    LoadedFilter,
    /// The metering device cannot open far: a stuck valve keeps at most `1 - severity` of its stroke, an
    /// orifice at most `1 - severity` of its area (debris).
    MeteringStuckThrottled,
    /// The valve cannot close: it keeps at least `severity` of its stroke. No effect on an orifice.
    MeteringStuckOpen,
    /// The sensing bulb is bare in the cold air of the coil cabinet. Severity is the share of the
    /// bulb's heat exchange that goes to that air instead of the suction line.
    BulbBareInColdAir,
    /// A hole. Severity 0 to 1 is a hole of 0.02 to 1 mm, on a logarithmic scale.
    RefrigerantLeak,
}

impl FaultKind {
    /// Every kind, in the order of the enumeration.
    pub const ALL: [FaultKind; 5] = [
        FaultKind::LoadedFilter,
        FaultKind::MeteringStuckThrottled,
        FaultKind::MeteringStuckOpen,
        FaultKind::BulbBareInColdAir,
        FaultKind::RefrigerantLeak,
    ];

    /// What a technician calls it.
    pub fn label(self) -> &'static str {
        match self {
            FaultKind::LoadedFilter => "Loaded filter",
            FaultKind::MeteringStuckThrottled => "Metering device stuck throttled",
            FaultKind::MeteringStuckOpen => "Metering valve stuck open",
            FaultKind::BulbBareInColdAir => "Sensing bulb bare in cold cabinet air",
            FaultKind::RefrigerantLeak => "Refrigerant leak",
        }
    }

    /// Whether the kind needs a [`LeakPlace`].
    pub fn needs_place(self) -> bool {
        matches!(self, FaultKind::RefrigerantLeak)
    }
}

/// Where refrigerant escapes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum LeakPlace {
    /// The indoor coil: low side, mostly vapour.
    IndoorCoil,
    /// The suction service valve at the outdoor unit: low side, vapour.
    SuctionServiceValve,
    /// A joint of the liquid line between the units: liquid.
    LiquidLine,
}

impl LeakPlace {
    /// Every place.
    pub const ALL: [LeakPlace; 3] =
        [LeakPlace::IndoorCoil, LeakPlace::SuctionServiceValve, LeakPlace::LiquidLine];

    /// What a technician calls it.
    pub fn label(self) -> &'static str {
        match self {
            LeakPlace::IndoorCoil => "indoor coil",
            LeakPlace::SuctionServiceValve => "suction service valve",
            LeakPlace::LiquidLine => "liquid line joint",
        }
    }
}

/// Diameter of the hole of a leak, m, from its severity: 0.02 mm at 0, 1 mm at 1, logarithmic.
/// Zero severity is no hole. Engineering scale of our own: a pinhole that takes weeks to a rubbed-through tube.
pub(crate) fn hole_diameter_m(severity: f64) -> f64 {
    if severity <= 0.0 { 0.0 } else { 2.0e-5 * libm::pow(50.0, severity.min(1.0)) }
}
