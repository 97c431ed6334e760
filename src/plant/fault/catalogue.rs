//! The catalogue of faults: one row for each kind says what it is, in the plant and for all that stands above it.
//!
//! What people call a kind stands in assets/locale/en-US/faults.ftl under its name; what an eye sees of it, in src/visit/sight.rs.

use super::effects::{Holes, leave, parameters, reach};
use super::place::{LeakPlace, hole_diameter_m};
use super::row::{Charge, Equipment, FELT, FaultGroup, LeftBehind, Severity, former, kinds};
use crate::Work;
use crate::electric::Capacitor;
use crate::pan::Drain;

parameters! {
    /// The faults as the physical parameters they change, at one instant.
    Effects {
        filter_loading: f64 = 0.0,
        /// The slot has long been without a filter.
        filter_missing: bool = false,
        /// Share of the passage through the coil that dirt leaves.
        coil_face_share: f64 = 1.0,
        /// Share of the area of return duct and supplies that is open.
        return_share: f64 = 1.0,
        supply_share: f64 = 1.0,
        /// Air that the blower wheel moves over that of a clean one.
        wheel_share: f64 = 1.0,
        opening_max: f64 = 1.0,
        opening_min: f64 = 0.0,
        /// Area of a fixed orifice over the right one.
        orifice_share: f64 = 1.0,
        bulb_exposure: f64 = 0.0,
        bulb_warm_exposure: f64 = 0.0,
        /// Pressure of the bulb over that of a full charge.
        bulb_charge_share: f64 = 1.0,
        /// Share of the passage of drier and liquid line that is open.
        drier_share: f64 = 1.0,
        line_share: f64 = 1.0,
        /// Share of the suction line's area that a kink leaves open.
        suction_share: f64 = 1.0,
        /// Share of the outdoor airflow that is left.
        condenser_air_share: f64 = 1.0,
        /// Share of the compressor's flow that leaks back.
        compressor_leak: f64 = 0.0,
        holes: Holes = Holes::default(),
        /// The drain of the pan under the indoor coil.
        drain: Drain = Drain::Open,
        wiring: Wiring = Wiring::default(),
    }
}

parameters! {
    /// The part of it that the wiring reads.
    Wiring {
        blower_seized: bool = false,
        blower_winding_open: bool = false,
        /// The module of an ECM passes no current; no command reaches it.
        module_dead: bool = false,
        command_open: bool = false,
        relay_open: bool = false,
        board_dead: bool = false,
        thermostat_g_open: bool = false,
        thermostat_y_open: bool = false,
        /// The conductor from Y to the outdoor unit: broken; touching the common one.
        y_open: bool = false,
        y_to_common: bool = false,
        fuse_open: bool = false,
        primary_open: bool = false,
        float_switch_open: bool = false,
        contacts_welded: bool = false,
        contactor_coil_open: bool = false,
        contactor_coil_shorted: bool = false,
        /// The outdoor fan motor is burnt off inside at its common lead.
        fan_open: bool = false,
        /// Share of the capacitance lost, by [`Capacitor`].
        capacitance_lost: [f64; 3] = [0.0; 3],
        /// How far below the right speed tap the blower is, 1 at the lowest.
        tap_too_low: f64 = 0.0,
    }
}

impl Wiring {
    fn lose(&mut self, capacitor: Capacitor, severity: f64) {
        reach(&mut self.capacitance_lost[capacitor.index()], severity);
    }

    /// Share of the label's capacitance that is left, 0 to 1.
    pub(crate) fn capacitance_share(&self, capacitor: Capacitor) -> f64 {
        1.0 - self.capacitance_lost[capacitor.index()]
    }
}

/// How a kind of fault changes the parameters: by its severity, 0 to 1, and for a leak its place.
pub(crate) type Effect = fn(&mut Effects, f64, Option<LeakPlace>);

/// The effect of a state of the charge: what was filled in is none of a part's parameters.
fn of_the_charge(_: &mut Effects, _: f64, _: Option<LeakPlace>) {}

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
    const NONE: Special = Special { charge: Charge::Untouched, leaves: None, same_readings_as: None };
}

kinds! {
    // Air side.
    /// Dirt in the filter. Severity is the share of the filter's open area that is lost; above 0.9 the medium
    /// gives way and collapses onto the coil, which it covers in part. There it stays until somebody takes it off, whatever
    /// is put into the slot.
    LoadedFilter => Row {
        group: FaultGroup::AirSide,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| reach(&mut e.filter_loading, s),
        repaired_by: &[Work::ReplaceFilter],
        usual: 10.0,
        special: Special { leaves: Some(LeftBehind::MediumOnCoil), ..Special::NONE },
    },
    /// No filter in the slot for a long time, and a coil face matted with dirt. Severity is the share of the passage that is
    /// lost. The slot stays empty until somebody fits a filter.
    FouledEvaporator (formerly MattedCoilFace) => Row {
        group: FaultGroup::AirSide,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| {
            leave(&mut e.coil_face_share, s, 0.03);
            e.filter_missing |= s > 0.0;
        },
        repaired_by: &[Work::CleanCoil],
        usual: 3.0,
        special: Special { leaves: Some(LeftBehind::EmptySlot), ..Special::NONE },
    },
    /// The return duct has fallen in. Severity is the share of its area that is lost.
    CollapsedReturnDuct => Row {
        group: FaultGroup::AirSide,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| leave(&mut e.return_share, s, 0.03),
        repaired_by: &[Work::RestoreReturnDuct],
        usual: 1.0,
        special: Special::NONE,
    },
    /// Supply registers closed or blocked. Severity is the share of their area that is shut.
    ClosedRegisters (formerly ClosedSupplies) => Row {
        group: FaultGroup::AirSide,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| leave(&mut e.supply_share, s, 0.03),
        repaired_by: &[Work::OpenSupplies],
        usual: 3.0,
        special: Special::NONE,
    },
    /// Dirt in the blades of the blower wheel. Severity 1 halves the air that the wheel moves (a caked wheel
    /// costs a third to a half; common practice, no source).
    DirtyBlowerWheel => Row {
        group: FaultGroup::AirSide,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| leave(&mut e.wheel_share, 0.5 * s, 0.5),
        repaired_by: &[Work::CleanBlowerWheel],
        usual: 3.0,
        special: Special::NONE,
    },
    /// Blower on too low a speed tap. Severity 1 is the lowest tap.
    WrongSpeedTap => Row {
        group: FaultGroup::AirSide,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| reach(&mut e.wiring.tap_too_low, s),
        repaired_by: &[Work::SetSpeedTap],
        usual: 1.0,
        special: Special::NONE,
    },
    // Blower and controls.
    /// Run capacitor of the blower has lost capacitance. Severity is the share lost; 1 is open.
    WeakBlowerCapacitor => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::PscBlower,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| e.wiring.lose(Capacitor::Blower, s),
        repaired_by: &[Work::ReplaceBlowerCapacitor],
        usual: 3.0,
        special: Special::NONE,
    },
    /// The blower motor does not turn; it draws locked-rotor current until its protector opens.
    SeizedBlowerMotor => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.blower_seized |= s > 0.0,
        repaired_by: &[Work::ReplaceBlowerMotor],
        usual: 2.0,
        special: Special::NONE,
    },
    /// The winding of the blower motor is open.
    OpenBlowerWinding => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.blower_winding_open |= s > 0.0,
        repaired_by: &[Work::ReplaceBlowerMotor],
        usual: 2.0,
        special: Special::NONE,
    },
    /// ECM blower with line power and command, but a dead module. No effect on a PSC motor.
    DeadBlowerModule => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::EcmBlower,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.module_dead |= s > 0.0,
        repaired_by: &[Work::ReplaceBlowerMotor, Work::ReplaceBlowerModule],
        usual: 2.0,
        special: Special::NONE,
    },
    /// ECM blower with line power, but no command reaches it. No effect on a PSC motor.
    NoBlowerCommand => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::EcmBlower,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.command_open |= s > 0.0,
        repaired_by: &[Work::ReconnectBlowerCommand],
        usual: 1.0,
        special: Special::NONE,
    },
    /// The blower relay on the board does not close.
    OpenBlowerRelay => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::PscBlower,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.relay_open |= s > 0.0,
        repaired_by: &[Work::ReplaceBoard],
        usual: 1.0,
        special: Special::NONE,
    },
    /// The control board does nothing: no blower; the call for the compressor still passes.
    DeadBoard => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.board_dead |= s > 0.0,
        repaired_by: &[Work::ReplaceBoard],
        usual: 1.0,
        special: Special::NONE,
    },
    /// The thermostat does not send G.
    ThermostatNoG => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.thermostat_g_open |= s > 0.0,
        repaired_by: &[Work::ReplaceThermostat],
        usual: 1.0,
        special: Special::NONE,
    },
    /// The thermostat does not send Y.
    ThermostatNoY => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.thermostat_y_open |= s > 0.0,
        repaired_by: &[Work::ReplaceThermostat],
        usual: 1.0,
        special: Special::NONE,
    },
    /// The conductor from Y to the outdoor unit is broken.
    BrokenYConductor => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.y_open |= s > 0.0,
        repaired_by: &[Work::RepairConductor],
        usual: 1.0,
        special: Special::NONE,
    },
    /// Where the cable enters the outdoor unit its sheath is worn through and the Y conductor touches the common one. As
    /// soon as Y is energised the low-voltage fuse melts, and so does every new one.
    ShortedYConductor => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.y_to_common |= s > 0.0,
        repaired_by: &[Work::RepairConductor],
        usual: 3.0,
        special: Special::NONE,
    },
    /// The low-voltage fuse blew some time ago, of a surge that is past: a new one holds.
    BlownControlFuse => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.fuse_open |= s > 0.0,
        repaired_by: &[Work::ReplaceControlFuse],
        usual: 3.0,
        special: Special::NONE,
    },
    /// The control transformer is open.
    OpenTransformer => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.primary_open |= s > 0.0,
        repaired_by: &[Work::ReplaceTransformer],
        usual: 1.0,
        special: Special::NONE,
    },
    /// The condensate float switch has opened and stays so.
    OpenCondensateSwitch => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.float_switch_open |= s > 0.0,
        repaired_by: &[Work::RestoreCondensateSwitch],
        usual: 3.0,
        special: Special::NONE,
    },
    /// The drain of the pan under the indoor coil is plugged: water stands in the pan until its float switch opens.
    PluggedCondensateDrain => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| {
            if s > 0.0 {
                e.drain = Drain::Plugged;
            }
        },
        repaired_by: &[Work::RestoreCondensateSwitch],
        usual: 3.0,
        special: Special::NONE,
    },
    /// The contacts of the contactor are welded: the outdoor unit runs whenever it has line power.
    WeldedContactor => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.contacts_welded |= s > 0.0,
        repaired_by: &[Work::ReplaceContactor],
        usual: 1.0,
        special: Special::NONE,
    },
    /// The coil of the contactor is open.
    OpenContactorCoil => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.contactor_coil_open |= s > 0.0,
        repaired_by: &[Work::ReplaceContactor],
        usual: 1.0,
        special: Special::NONE,
    },
    /// Turns of the contactor's coil have burnt together: what is left of it draws so much that the low-voltage fuse melts as soon
    /// as Y is energised, and so does every new one.
    ShortedContactorCoil => Row {
        group: FaultGroup::BlowerAndControls,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.contactor_coil_shorted |= s > 0.0,
        repaired_by: &[Work::ReplaceContactor],
        usual: 1.0,
        special: Special::NONE,
    },
    // Refrigerant side.
    /// A hole. Severity 0 to 1 is a hole of 0.02 to 1 mm, on a logarithmic scale.
    RefrigerantLeak => Row {
        group: FaultGroup::RefrigerantSide,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: (0.06, 0.6) },
        effect: |e, s, place| e.holes.drill(place, hole_diameter_m(s)),
        repaired_by: &[
            Work::RepairLeak(LeakPlace::IndoorCoil),
            Work::RepairLeak(LeakPlace::SuctionServiceValve),
            Work::RepairLeak(LeakPlace::LiquidLine),
        ],
        usual: 8.0,
        special: Special { charge: Charge::Escapes, same_readings_as: Some(FaultKind::Undercharged), ..Special::NONE },
    },
    /// Installed with too little refrigerant and tight. Severity is the share of the plate's charge missing from the start.
    Undercharged => Row {
        group: FaultGroup::RefrigerantSide,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: (0.06, 0.6) },
        effect: of_the_charge,
        repaired_by: &[],
        usual: 2.0,
        special: Special { charge: Charge::Missing, ..Special::NONE },
    },
    /// Too much refrigerant. Severity is the share of the plate's charge in excess from the start.
    Overcharged => Row {
        group: FaultGroup::RefrigerantSide,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: (0.06, 0.5) },
        effect: of_the_charge,
        repaired_by: &[],
        usual: 2.0,
        special: Special { charge: Charge::Excess, ..Special::NONE },
    },
    /// Air in the circuit. Severity 1 is 40 g.
    NonCondensables => Row {
        group: FaultGroup::RefrigerantSide,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: FELT },
        effect: of_the_charge,
        repaired_by: &[],
        usual: 1.0,
        special: Special { charge: Charge::Gas, ..Special::NONE },
    },
    /// The liquid line is kinked between the outdoor service valve and the drier. Severity is the share of its area that is lost.
    KinkedLiquidLine => Row {
        group: FaultGroup::RefrigerantSide,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| leave(&mut e.line_share, s, 0.01),
        repaired_by: &[Work::ReplaceLiquidLine],
        usual: 1.0,
        special: Special::NONE,
    },
    /// The suction line is kinked at the bend before the outdoor unit, ahead of the service valve. Severity is the share of its
    /// area that is lost.
    KinkedSuctionLine => Row {
        group: FaultGroup::RefrigerantSide,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| leave(&mut e.suction_share, s, 0.01),
        repaired_by: &[Work::ReplaceSuctionLine],
        usual: 1.0,
        special: Special::NONE,
    },
    /// The liquid-line drier is plugged. Severity is the share of its passage that is lost.
    PluggedDrier => Row {
        group: FaultGroup::RefrigerantSide,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| leave(&mut e.drier_share, s, 0.01),
        repaired_by: &[Work::ReplaceMeteringDevice, Work::ReplaceDrier],
        usual: 1.0,
        special: Special::NONE,
    },
    /// The metering device cannot open far: a stuck valve keeps at most `1 - severity` of its stroke, an
    /// orifice at most `1 - severity` of its area (debris).
    MeteringRestricted (formerly MeteringStuckThrottled) => Row {
        group: FaultGroup::RefrigerantSide,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| e.opening_max = e.opening_max.min(1.0 - s),
        repaired_by: &[Work::ReplaceMeteringDevice],
        usual: 2.0,
        special: Special { same_readings_as: Some(FaultKind::OrificeTooSmall), ..Special::NONE },
    },
    /// The valve cannot close: it keeps at least `severity` of its stroke. No effect on an orifice.
    MeteringStuckOpen => Row {
        group: FaultGroup::RefrigerantSide,
        needs: Equipment::Valve,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| reach(&mut e.opening_min, s),
        repaired_by: &[Work::ReplaceMeteringDevice],
        usual: 1.0,
        special: Special::NONE,
    },
    /// The sensing bulb is bare in the cold air of the coil cabinet. Severity is the share of the
    /// bulb's heat exchange that goes to that air instead of the suction line.
    UninsulatedBulb (formerly BulbBareInColdAir) => Row {
        group: FaultGroup::RefrigerantSide,
        needs: Equipment::Valve,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| reach(&mut e.bulb_exposure, s),
        repaired_by: &[Work::ReplaceMeteringDevice, Work::StrapAndInsulateBulb],
        usual: 2.0,
        special: Special::NONE,
    },
    /// The sensing bulb is loose on the line, in warm air. Severity is the share of its heat exchange that goes to
    /// the air around the cabinet.
    BulbLoose => Row {
        group: FaultGroup::RefrigerantSide,
        needs: Equipment::Valve,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| reach(&mut e.bulb_warm_exposure, s),
        repaired_by: &[Work::ReplaceMeteringDevice, Work::StrapAndInsulateBulb],
        usual: 1.0,
        special: Special::NONE,
    },
    /// The bulb has lost its charge. Severity is the share of the bulb's pressure lost.
    BulbChargeLost => Row {
        group: FaultGroup::RefrigerantSide,
        needs: Equipment::Valve,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| leave(&mut e.bulb_charge_share, s, 0.0),
        repaired_by: &[Work::ReplaceMeteringDevice],
        usual: 1.0,
        special: Special::NONE,
    },
    /// The fixed orifice is too small. Severity is the share of the right area missing. No effect on a valve.
    OrificeTooSmall => Row {
        group: FaultGroup::RefrigerantSide,
        needs: Equipment::Orifice,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| e.orifice_share *= (1.0 - s).max(0.02),
        repaired_by: &[Work::ReplaceMeteringDevice],
        usual: 1.0,
        special: Special::NONE,
    },
    /// The fixed orifice is too large. Severity is the area in excess over the right area. No effect on a valve.
    OrificeTooLarge => Row {
        group: FaultGroup::RefrigerantSide,
        needs: Equipment::Orifice,
        severity: Severity::Graded { suspected: (0.1, 0.8) },
        effect: |e, s, _| e.orifice_share *= 1.0 + s,
        repaired_by: &[Work::ReplaceMeteringDevice],
        usual: 1.0,
        special: Special::NONE,
    },
    // Outdoor unit.
    /// Dirt on the outdoor coil. Severity is the share of its airflow lost.
    FouledCondenser => Row {
        group: FaultGroup::OutdoorUnit,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| leave(&mut e.condenser_air_share, s, 0.03),
        repaired_by: &[Work::CleanCondenser],
        usual: 4.0,
        special: Special::NONE,
    },
    /// Run capacitor of the outdoor fan has lost capacitance. Severity is the share lost; 1 is open.
    WeakFanCapacitor => Row {
        group: FaultGroup::OutdoorUnit,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| e.wiring.lose(Capacitor::OutdoorFan, s),
        repaired_by: &[Work::ReplaceFanCapacitor],
        usual: 4.0,
        special: Special::NONE,
    },
    /// The outdoor fan motor does not turn.
    DeadFanMotor => Row {
        group: FaultGroup::OutdoorUnit,
        needs: Equipment::Any,
        severity: Severity::AllOrNothing,
        effect: |e, s, _| e.wiring.fan_open |= s > 0.0,
        repaired_by: &[Work::ReplaceFanMotor],
        usual: 3.0,
        special: Special::NONE,
    },
    /// The compressor leaks inside (valves, scroll tips). Severity is the share of its flow that leaks back.
    CompressorInternalLeak (formerly LeakingCompressor) => Row {
        group: FaultGroup::OutdoorUnit,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: (0.1, 0.7) },
        effect: |e, s, _| reach(&mut e.compressor_leak, s),
        repaired_by: &[Work::ReplaceCompressor],
        usual: 1.0,
        special: Special::NONE,
    },
    /// Run capacitor of the compressor has lost capacitance. Severity is the share lost; 1 is open.
    WeakCompressorCapacitor => Row {
        group: FaultGroup::OutdoorUnit,
        needs: Equipment::Any,
        severity: Severity::Graded { suspected: FELT },
        effect: |e, s, _| e.wiring.lose(Capacitor::Compressor, s),
        repaired_by: &[Work::ReplaceCompressorCapacitor],
        usual: 4.0,
        special: Special::NONE,
    },
}
