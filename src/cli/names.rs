//! Names of fault kinds and places as written on the command line: lower case with hyphens.

use plant::{FaultKind, LeakPlace, Protection};

/// Name of a fault kind.
pub(crate) fn fault(kind: FaultKind) -> &'static str {
    match kind {
        FaultKind::LoadedFilter => "loaded-filter",
        FaultKind::MattedCoilFace => "matted-coil-face",
        FaultKind::CollapsedReturnDuct => "collapsed-return-duct",
        FaultKind::ClosedSupplies => "closed-supplies",
        FaultKind::DirtyBlowerWheel => "dirty-blower-wheel",
        FaultKind::WrongSpeedTap => "wrong-speed-tap",
        FaultKind::WeakBlowerCapacitor => "weak-blower-capacitor",
        FaultKind::SeizedBlowerMotor => "seized-blower-motor",
        FaultKind::OpenBlowerWinding => "open-blower-winding",
        FaultKind::DeadBlowerModule => "dead-blower-module",
        FaultKind::NoBlowerCommand => "no-blower-command",
        FaultKind::OpenBlowerRelay => "open-blower-relay",
        FaultKind::DeadBoard => "dead-board",
        FaultKind::ThermostatNoG => "thermostat-no-g",
        FaultKind::ThermostatNoY => "thermostat-no-y",
        FaultKind::BrokenYConductor => "broken-y-conductor",
        FaultKind::ShortedYConductor => "shorted-y-conductor",
        FaultKind::BlownControlFuse => "blown-control-fuse",
        FaultKind::OpenTransformer => "open-transformer",
        FaultKind::OpenCondensateSwitch => "open-condensate-switch",
        FaultKind::WeldedContactor => "welded-contactor",
        FaultKind::OpenContactorCoil => "open-contactor-coil",
        FaultKind::RefrigerantLeak => "refrigerant-leak",
        FaultKind::Undercharged => "undercharged",
        FaultKind::Overcharged => "overcharged",
        FaultKind::NonCondensables => "non-condensables",
        FaultKind::KinkedLiquidLine => "kinked-liquid-line",
        FaultKind::KinkedSuctionLine => "kinked-suction-line",
        FaultKind::PluggedDrier => "plugged-drier",
        FaultKind::MeteringStuckThrottled => "metering-stuck-throttled",
        FaultKind::MeteringStuckOpen => "metering-stuck-open",
        FaultKind::BulbBareInColdAir => "bulb-bare-in-cold-air",
        FaultKind::BulbLoose => "bulb-loose",
        FaultKind::BulbChargeLost => "bulb-charge-lost",
        FaultKind::OrificeTooSmall => "orifice-too-small",
        FaultKind::OrificeTooLarge => "orifice-too-large",
        FaultKind::FouledCondenser => "fouled-condenser",
        FaultKind::WeakFanCapacitor => "weak-fan-capacitor",
        FaultKind::DeadFanMotor => "dead-fan-motor",
        FaultKind::LeakingCompressor => "leaking-compressor",
        FaultKind::WeakCompressorCapacitor => "weak-compressor-capacitor",
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

/// Name of a protection.
pub(crate) fn protection(protection: Protection) -> &'static str {
    match protection {
        Protection::HighPressureSwitch => "high-pressure-switch",
        Protection::LowPressureSwitch => "low-pressure-switch",
        Protection::WindingOverload => "winding-overload",
        Protection::ThermalDisc => "thermal-disc",
        Protection::OutdoorFanProtector => "outdoor-fan-protector",
        Protection::BlowerProtector => "blower-protector",
    }
}
