//! Faults: each is a change to a physical parameter, never a scripted reading.

use serde::{Deserialize, Serialize};

use crate::system::{Metering, System};

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
    // Air side.
    /// Dirt in the filter. Severity is the share of the filter's open area that is lost; above 0.9 the medium
    /// gives way and collapses onto the coil, which it covers in part. There it stays until somebody takes it off, whatever
    /// is put into the slot.
    LoadedFilter,
    /// No filter in the slot for a long time, and a coil face matted with dirt. Severity is the share of the passage that is
    /// lost. The slot stays empty until somebody fits a filter.
    MattedCoilFace,
    /// The return duct has fallen in. Severity is the share of its area that is lost.
    CollapsedReturnDuct,
    /// Supply registers closed or blocked. Severity is the share of their area that is shut.
    ClosedSupplies,
    /// Dirt in the blades of the blower wheel. Severity 1 halves the air that the wheel moves (a caked wheel
    /// costs a third to a half; common practice, no source).
    DirtyBlowerWheel,
    /// Blower on too low a speed tap. Severity 1 is the lowest tap.
    WrongSpeedTap,
    // Blower and controls.
    /// Run capacitor of the blower has lost capacitance. Severity is the share lost; 1 is open.
    WeakBlowerCapacitor,
    /// The blower motor does not turn; it draws locked-rotor current until its protector opens.
    SeizedBlowerMotor,
    /// The winding of the blower motor is open.
    OpenBlowerWinding,
    /// ECM blower with line power and command, but a dead module. No effect on a PSC motor.
    DeadBlowerModule,
    /// ECM blower with line power, but no command reaches it. No effect on a PSC motor.
    NoBlowerCommand,
    /// The blower relay on the board does not close.
    OpenBlowerRelay,
    /// The control board does nothing: no blower; the call for the compressor still passes.
    DeadBoard,
    /// The thermostat does not send G.
    ThermostatNoG,
    /// The thermostat does not send Y.
    ThermostatNoY,
    /// The conductor from Y to the outdoor unit is broken.
    BrokenYConductor,
    /// Where the cable enters the outdoor unit its sheath is worn through and the Y conductor touches the common one. As
    /// soon as Y is energised the low-voltage fuse melts, and so does every new one.
    ShortedYConductor,
    /// The low-voltage fuse blew some time ago, of a surge that is past: a new one holds.
    BlownControlFuse,
    /// The control transformer is open.
    OpenTransformer,
    /// The condensate float switch has opened and stays so.
    OpenCondensateSwitch,
    /// The contacts of the contactor are welded: the outdoor unit runs whenever it has line power.
    WeldedContactor,
    /// The coil of the contactor is open.
    OpenContactorCoil,
    // Refrigerant side.
    /// A hole. Severity 0 to 1 is a hole of 0.02 to 1 mm, on a logarithmic scale.
    RefrigerantLeak,
    /// Installed with too little refrigerant and tight. Severity is the share of the plate's charge missing from the start.
    Undercharged,
    /// Too much refrigerant. Severity is the share of the plate's charge in excess from the start.
    Overcharged,
    /// Air in the circuit. Severity 1 is 40 g.
    NonCondensables,
    /// The liquid line is kinked between the outdoor service valve and the drier. Severity is the share of its area that is lost.
    KinkedLiquidLine,
    /// The suction line is kinked at the bend before the outdoor unit, ahead of the service valve. Severity is the share of its
    /// area that is lost.
    KinkedSuctionLine,
    /// The liquid-line drier is plugged. Severity is the share of its passage that is lost.
    PluggedDrier,
    /// The metering device cannot open far: a stuck valve keeps at most `1 - severity` of its stroke, an
    /// orifice at most `1 - severity` of its area (debris).
    MeteringStuckThrottled,
    /// The valve cannot close: it keeps at least `severity` of its stroke. No effect on an orifice.
    MeteringStuckOpen,
    /// The sensing bulb is bare in the cold air of the coil cabinet. Severity is the share of the
    /// bulb's heat exchange that goes to that air instead of the suction line.
    BulbBareInColdAir,
    /// The sensing bulb is loose on the line, in warm air. Severity is the share of its heat exchange that goes to
    /// the air around the cabinet.
    BulbLoose,
    /// The bulb has lost its charge. Severity is the share of the bulb's pressure lost.
    BulbChargeLost,
    /// The fixed orifice is too small. Severity is the share of the right area missing. No effect on a valve.
    OrificeTooSmall,
    /// The fixed orifice is too large. Severity is the area in excess over the right area. No effect on a valve.
    OrificeTooLarge,
    // Outdoor unit.
    /// Dirt on the outdoor coil. Severity is the share of its airflow lost.
    FouledCondenser,
    /// Run capacitor of the outdoor fan has lost capacitance. Severity is the share lost; 1 is open.
    WeakFanCapacitor,
    /// The outdoor fan motor does not turn.
    DeadFanMotor,
    /// The compressor leaks inside (valves, scroll tips). Severity is the share of its flow that leaks back.
    LeakingCompressor,
    /// Run capacitor of the compressor has lost capacitance. Severity is the share lost; 1 is open.
    WeakCompressorCapacitor,
}

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

impl FaultKind {
    /// Every kind, in the order of the enumeration.
    pub const ALL: [FaultKind; 41] = [
        FaultKind::LoadedFilter,
        FaultKind::MattedCoilFace,
        FaultKind::CollapsedReturnDuct,
        FaultKind::ClosedSupplies,
        FaultKind::DirtyBlowerWheel,
        FaultKind::WrongSpeedTap,
        FaultKind::WeakBlowerCapacitor,
        FaultKind::SeizedBlowerMotor,
        FaultKind::OpenBlowerWinding,
        FaultKind::DeadBlowerModule,
        FaultKind::NoBlowerCommand,
        FaultKind::OpenBlowerRelay,
        FaultKind::DeadBoard,
        FaultKind::ThermostatNoG,
        FaultKind::ThermostatNoY,
        FaultKind::BrokenYConductor,
        FaultKind::ShortedYConductor,
        FaultKind::BlownControlFuse,
        FaultKind::OpenTransformer,
        FaultKind::OpenCondensateSwitch,
        FaultKind::WeldedContactor,
        FaultKind::OpenContactorCoil,
        FaultKind::RefrigerantLeak,
        FaultKind::Undercharged,
        FaultKind::Overcharged,
        FaultKind::NonCondensables,
        FaultKind::KinkedLiquidLine,
        FaultKind::KinkedSuctionLine,
        FaultKind::PluggedDrier,
        FaultKind::MeteringStuckThrottled,
        FaultKind::MeteringStuckOpen,
        FaultKind::BulbBareInColdAir,
        FaultKind::BulbLoose,
        FaultKind::BulbChargeLost,
        FaultKind::OrificeTooSmall,
        FaultKind::OrificeTooLarge,
        FaultKind::FouledCondenser,
        FaultKind::WeakFanCapacitor,
        FaultKind::DeadFanMotor,
        FaultKind::LeakingCompressor,
        FaultKind::WeakCompressorCapacitor,
    ];

    /// What a technician calls it.
    pub fn label(self) -> &'static str {
        match self {
            FaultKind::LoadedFilter => "Loaded filter",
            FaultKind::MattedCoilFace => "Missing filter, coil face matted",
            FaultKind::CollapsedReturnDuct => "Return duct collapsed",
            FaultKind::ClosedSupplies => "Supply registers closed or blocked",
            FaultKind::DirtyBlowerWheel => "Dirty blower wheel",
            FaultKind::WrongSpeedTap => "Blower on the wrong speed tap",
            FaultKind::WeakBlowerCapacitor => "Weak blower capacitor",
            FaultKind::SeizedBlowerMotor => "Blower motor seized",
            FaultKind::OpenBlowerWinding => "Blower motor winding open",
            FaultKind::DeadBlowerModule => "Blower module dead",
            FaultKind::NoBlowerCommand => "No command to the blower module",
            FaultKind::OpenBlowerRelay => "Blower relay open",
            FaultKind::DeadBoard => "Control board dead",
            FaultKind::ThermostatNoG => "Thermostat sends no G",
            FaultKind::ThermostatNoY => "Thermostat sends no Y",
            FaultKind::BrokenYConductor => "Broken Y conductor",
            FaultKind::ShortedYConductor => "Y conductor shorted to common",
            FaultKind::BlownControlFuse => "Low-voltage fuse blown",
            FaultKind::OpenTransformer => "Transformer open",
            FaultKind::OpenCondensateSwitch => "Condensate switch open",
            FaultKind::WeldedContactor => "Contactor welded",
            FaultKind::OpenContactorCoil => "Contactor coil open",
            FaultKind::RefrigerantLeak => "Refrigerant leak",
            FaultKind::Undercharged => "Installed undercharged",
            FaultKind::Overcharged => "Overcharged",
            FaultKind::NonCondensables => "Non-condensables",
            FaultKind::KinkedLiquidLine => "Liquid line kinked",
            FaultKind::KinkedSuctionLine => "Suction line kinked",
            FaultKind::PluggedDrier => "Filter drier plugged",
            FaultKind::MeteringStuckThrottled => "Metering device stuck throttled",
            FaultKind::MeteringStuckOpen => "Metering valve stuck open",
            FaultKind::BulbBareInColdAir => "Sensing bulb bare in cold cabinet air",
            FaultKind::BulbLoose => "Sensing bulb loose on the line",
            FaultKind::BulbChargeLost => "Sensing bulb charge lost",
            FaultKind::OrificeTooSmall => "Fixed orifice too small",
            FaultKind::OrificeTooLarge => "Fixed orifice too large",
            FaultKind::FouledCondenser => "Outdoor coil fouled",
            FaultKind::WeakFanCapacitor => "Weak outdoor fan capacitor",
            FaultKind::DeadFanMotor => "Outdoor fan motor dead",
            FaultKind::LeakingCompressor => "Leaking compressor",
            FaultKind::WeakCompressorCapacitor => "Weak compressor capacitor",
        }
    }

    /// The part of the equipment it belongs to, for lists.
    pub fn group(self) -> FaultGroup {
        if self < FaultKind::WeakBlowerCapacitor {
            FaultGroup::AirSide
        } else if self < FaultKind::RefrigerantLeak {
            FaultGroup::BlowerAndControls
        } else if self < FaultKind::FouledCondenser {
            FaultGroup::RefrigerantSide
        } else {
            FaultGroup::OutdoorUnit
        }
    }

    /// What its severity means, in parentheses, to stand behind a number or a range.
    pub fn severity_meaning(self) -> &'static str {
        match self {
            FaultKind::LoadedFilter => "(share of the filter's open area lost)",
            FaultKind::MattedCoilFace => "(share of the coil passage shut)",
            FaultKind::CollapsedReturnDuct => "(share of the duct's area lost)",
            FaultKind::ClosedSupplies => "(share of the registers' area shut)",
            FaultKind::DirtyBlowerWheel => "(0 clean to 1, half the wheel's air)",
            FaultKind::WrongSpeedTap => "(0 right tap to 1, the lowest tap)",
            FaultKind::WeakBlowerCapacitor
            | FaultKind::WeakFanCapacitor
            | FaultKind::WeakCompressorCapacitor => "(share of the capacitance lost)",
            FaultKind::SeizedBlowerMotor
            | FaultKind::OpenBlowerWinding
            | FaultKind::DeadBlowerModule
            | FaultKind::NoBlowerCommand
            | FaultKind::OpenBlowerRelay
            | FaultKind::DeadBoard
            | FaultKind::ThermostatNoG
            | FaultKind::ThermostatNoY
            | FaultKind::BrokenYConductor
            | FaultKind::ShortedYConductor
            | FaultKind::BlownControlFuse
            | FaultKind::OpenTransformer
            | FaultKind::OpenCondensateSwitch
            | FaultKind::WeldedContactor
            | FaultKind::OpenContactorCoil
            | FaultKind::DeadFanMotor => "(any above 0)",
            FaultKind::RefrigerantLeak => "(0.02 mm to 1 mm of hole, on a logarithmic scale)",
            FaultKind::Undercharged => "(share of the charge missing)",
            FaultKind::Overcharged => "(share of the charge in excess)",
            FaultKind::NonCondensables => "(0 to 1, 40 g of air)",
            FaultKind::KinkedLiquidLine | FaultKind::KinkedSuctionLine => "(share of the line's area lost)",
            FaultKind::PluggedDrier => "(share of the drier's passage lost)",
            FaultKind::MeteringStuckThrottled => "(share of the stroke or area lost)",
            FaultKind::MeteringStuckOpen => "(share of the stroke that stays open)",
            FaultKind::BulbBareInColdAir => "(share of the bulb's heat exchange with cabinet air)",
            FaultKind::BulbLoose => "(share of the bulb's heat exchange with warm air)",
            FaultKind::BulbChargeLost => "(share of the bulb's pressure lost)",
            FaultKind::OrificeTooSmall => "(share of the right area missing)",
            FaultKind::OrificeTooLarge => "(area in excess over the right one)",
            FaultKind::FouledCondenser => "(share of the outdoor airflow lost)",
            FaultKind::LeakingCompressor => "(share of the compressor's flow that leaks back)",
        }
    }

    /// Whether the kind is there or not, without degrees: any severity above zero is the whole fault.
    pub fn is_all_or_nothing(self) -> bool {
        self.severity_meaning() == "(any above 0)"
    }

    /// Whether the kind is a state of the charge, which holds from the start and has no later onset.
    pub fn holds_from_the_start(self) -> bool {
        matches!(self, FaultKind::Undercharged | FaultKind::Overcharged | FaultKind::NonCondensables)
    }

    /// Whether the kind needs a [`LeakPlace`].
    pub fn needs_place(self) -> bool {
        matches!(self, FaultKind::RefrigerantLeak)
    }

    /// Whether the kind is about a part that only an expansion valve has.
    pub fn needs_valve(self) -> bool {
        matches!(
            self,
            FaultKind::BulbBareInColdAir
                | FaultKind::BulbLoose
                | FaultKind::BulbChargeLost
                | FaultKind::MeteringStuckOpen
        )
    }

    /// Whether a system has the part that the kind is about.
    pub fn is_possible_in(self, system: &System) -> bool {
        let has_valve = matches!(system.metering, Metering::Txv { .. });
        // A PSC blower has a run capacitor, and a relay on the board.
        let has_psc = system.plate.blower_capacitor_f.is_some();
        match self {
            FaultKind::OrificeTooSmall | FaultKind::OrificeTooLarge => !has_valve,
            FaultKind::DeadBlowerModule | FaultKind::NoBlowerCommand => !has_psc,
            FaultKind::WeakBlowerCapacitor | FaultKind::OpenBlowerRelay => has_psc,
            kind => has_valve || !kind.needs_valve(),
        }
    }
}

/// What a fault leaves behind when the part that it was in has been put right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum LeftBehind {
    /// The medium of a collapsed filter, on the coil.
    MediumOnCoil,
    /// The slot of a filter that had long been missing, still empty.
    EmptySlot,
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
