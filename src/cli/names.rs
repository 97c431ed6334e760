//! Names of fault kinds and places as written on the command line: lower case with hyphens.

use plant::{FaultKind, LeakPlace};

/// Name of a fault kind.
pub(crate) fn fault(kind: FaultKind) -> &'static str {
    match kind {
        FaultKind::LoadedFilter => "loaded-filter",
        FaultKind::MeteringStuckThrottled => "metering-stuck-throttled",
        FaultKind::MeteringStuckOpen => "metering-stuck-open",
        FaultKind::BulbBareInColdAir => "bulb-bare-in-cold-air",
        FaultKind::RefrigerantLeak => "refrigerant-leak",
    }
}

/// Name of a place.
pub(crate) fn place(place: LeakPlace) -> &'static str {
    match place {
        LeakPlace::IndoorCoil => "indoor-coil",
        LeakPlace::SuctionServiceValve => "suction-service-valve",
        LeakPlace::LiquidLine => "liquid-line",
    }
}
