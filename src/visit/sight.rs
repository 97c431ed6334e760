//! What is seen, heard and felt at a place, as facts: what the notebook tells, what of it can be compared, and a row for
//! everything out of order that a look finds. `observe.rs` says when the rest is seen.

use plant::{FanSetting, FaultKind, LeakPlace};
use serde::{Deserialize, Serialize};

use crate::eye::Eye;
use crate::place::Place;

/// Something out of order that a look finds; nothing is written down where it is not.
pub(crate) struct Finding {
    /// The look that finds it.
    pub(crate) at: Place,
    /// How much of it there is to be seen now, 0 for nothing: what hides it is counted in. Never from the name of a fault where the
    /// plant has the thing itself.
    pub(crate) degree: fn(&Eye<'_>) -> f64,
    /// From which degrees it is seen, the least first, and what is said of it then (engineering values; no source).
    pub(crate) from: &'static [(f64, Sight)],
    /// As what it is written down.
    pub(crate) seen: Observation,
    /// Whether it may be hidden at another look, though it is still there.
    pub(crate) hides: Hides,
}

/// Whether something that is there may not be seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hides {
    /// Nobody overlooks it.
    Never,
    /// Ice may lie over it.
    UnderIce,
}

/// The least of what is there.
const ANY: f64 = f64::MIN_POSITIVE;

/// What looks find, place by place in the order in which it is told.
pub(crate) const FINDINGS: &[Finding] = &[
    Finding {
        at: Place::SupplyRegister,
        degree: |eye| eye.severity_of(FaultKind::ClosedRegisters),
        from: &[(0.25, Sight::SomeRegistersShut), (MOST, Sight::MostRegistersShut)],
        seen: Observation::RegistersClosed,
        hides: Hides::Never,
    },
    Finding {
        at: Place::ReturnGrille,
        degree: |eye| eye.severity_of(FaultKind::CollapsedReturnDuct),
        from: &[(0.25, Sight::DuctSags), (MOST, Sight::DuctFlat)],
        seen: Observation::ReturnDuctCollapsed,
        hides: Hides::Never,
    },
    // Of a wheel that turns nobody sees the blades.
    Finding {
        at: Place::Blower,
        degree: |eye| eye.severity_if(Eye::sees_blades, FaultKind::DirtyBlowerWheel),
        from: &[(0.2, Sight::BladesPacked)],
        seen: Observation::BlowerWheelDirty,
        hides: Hides::Never,
    },
    Finding {
        at: Place::IndoorCoil,
        degree: |eye| if eye.sees_coil_face() { eye.plant.coil_covered_share() } else { 0.0 },
        from: &[(ANY, Sight::MediumOnCoil)],
        seen: Observation::FilterOnCoil,
        hides: Hides::UnderIce,
    },
    Finding {
        at: Place::IndoorCoil,
        degree: |eye| eye.severity_if(Eye::sees_coil_face, FaultKind::FouledEvaporator),
        from: &[(0.2, Sight::LintOnCoil)],
        seen: Observation::CoilFaceMatted,
        hides: Hides::UnderIce,
    },
    Finding {
        at: Place::IndoorCoil,
        degree: |eye| if eye.plant.float_is_up() { 1.0 } else { 0.0 },
        from: &[(ANY, Sight::FloatUp)],
        seen: Observation::FloatSwitchUp,
        hides: Hides::Never,
    },
    // A film of water stays in every pan.
    Finding {
        at: Place::IndoorCoil,
        degree: |eye| eye.plant.pan_water_kg(),
        from: &[(0.3, Sight::WaterInPan), (1.8, Sight::PanFull)],
        seen: Observation::WaterInPan,
        hides: Hides::Never,
    },
    Finding {
        at: Place::LineSet,
        degree: |eye| eye.severity_of(FaultKind::KinkedLiquidLine),
        from: &[(0.3, Sight::LiquidLineDented), (MOST, Sight::LiquidLineFlat)],
        seen: Observation::LiquidLineKinked,
        hides: Hides::Never,
    },
    Finding {
        at: Place::LineSet,
        degree: |eye| eye.severity_of(FaultKind::KinkedSuctionLine),
        from: &[(0.3, Sight::SuctionLineDented), (MOST, Sight::SuctionLineFlat)],
        seen: Observation::SuctionLineKinked,
        hides: Hides::Never,
    },
    Finding {
        at: Place::OutdoorUnit,
        degree: |eye| eye.severity_of(FaultKind::FouledCondenser),
        from: &[(0.2, Sight::FinsGrey)],
        seen: Observation::OutdoorCoilDirty,
        hides: Hides::Never,
    },
    // The contactor behind its panel: closed contacts over a coil without a call.
    Finding {
        at: Place::OutdoorUnit,
        degree: |eye| eye.severity_if(Eye::sees_contactor_without_call, FaultKind::WeldedContactor),
        from: &[(ANY, Sight::ContactorInWithoutCall)],
        seen: Observation::ContactorInWithoutCall,
        hides: Hides::Never,
    },
    // The low-voltage cable behind the panel, where it comes through the wall of the cabinet.
    Finding {
        at: Place::OutdoorUnit,
        degree: |eye| eye.severity_if(Eye::sees_outdoor_wiring, FaultKind::ShortedYConductor),
        from: &[(ANY, Sight::CableWorn)],
        seen: Observation::CableChafed,
        hides: Hides::Never,
    },
];

/// From where most of a passage is gone.
const MOST: f64 = 0.7;

impl Observation {
    /// Whether it is something out of order that is only written down where it is there, and what hides it; `None` if it is not.
    pub fn hides(self) -> Option<Hides> {
        FINDINGS.iter().find(|finding| finding.seen == self).map(|finding| finding.hides)
    }
}

/// Something seen, heard or felt, in categories that can be compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Observation {
    /// No ice on the coil or the suction line.
    NoIce,
    /// Frost on part of the coil.
    SomeIce,
    /// The coil is a block of ice.
    BlockOfIce,
    /// The filter is clean.
    FilterClean,
    /// The filter carries dirt.
    FilterDirty,
    /// The filter is matted shut.
    FilterMatted,
    /// The medium of the filter has torn off its frame and gone onto the coil.
    FilterCollapsed,
    /// There is no filter in the slot.
    FilterMissing,
    /// Medium of a collapsed filter lies on the face of the indoor coil.
    FilterOnCoil,
    /// The blower wheel turns.
    BlowerTurning,
    /// The blower wheel stands.
    BlowerStill,
    /// Air at the grille or register is strong.
    AirStrong,
    /// Air is weak.
    AirWeak,
    /// No air.
    AirNone,
    /// The compressor runs.
    CompressorRunning,
    /// The compressor stands.
    CompressorStill,
    /// The outdoor fan runs.
    OutdoorFanRunning,
    /// The outdoor fan stands.
    OutdoorFanStill,
    /// The bulb is strapped and insulated.
    BulbInsulated,
    /// The bulb is bare.
    BulbBare,
    /// Oil stain at a place where refrigerant may escape.
    OilStain(LeakPlace),
    /// No oil stain.
    NoOilStain,
    /// A leak was found at the place.
    LeakFound(LeakPlace),
    /// No leak was found at the place.
    NoLeakFound(LeakPlace),
    /// Suction pressure answered to the warmed bulb.
    BulbAnswered,
    /// Suction pressure did not answer to the warmed bulb.
    BulbDidNotAnswer,
    /// Suction pressure fell with the bulb in ice water: the valve closed down.
    ChilledBulbClosedValve,
    /// Suction pressure held with the bulb in ice water.
    ChilledBulbDidNotCloseValve,
    /// Supply registers are shut or covered.
    RegistersClosed,
    /// The return duct has fallen in.
    ReturnDuctCollapsed,
    /// Dirt mats the face of the indoor coil.
    CoilFaceMatted,
    /// The blades of the blower wheel are full of dirt.
    BlowerWheelDirty,
    /// By hand, with the power off, the blower wheel turns freely.
    WheelTurnsFreely,
    /// By hand, with the power off, the blower wheel does not turn.
    WheelStuck,
    /// The blower turns at a steady, slow speed.
    BlowerSlow,
    /// The blower has power, hums and does not turn.
    BlowerHumming,
    /// The outdoor coil is dirty.
    OutdoorCoilDirty,
    /// The liquid line is folded.
    LiquidLineKinked,
    /// The suction line is folded.
    SuctionLineKinked,
    /// The outdoor fan turns at a steady, slow speed.
    OutdoorFanSlow,
    /// The outdoor fan has power, hums and does not turn.
    OutdoorFanHumming,
    /// The compressor has power, hums and does not turn.
    CompressorHumming,
    /// The low-voltage fuse has blown.
    FuseBlown,
    /// The sheath of the low-voltage cable is worn through where it enters the outdoor unit.
    CableChafed,
    /// The condensate float switch is up.
    FloatSwitchUp,
    /// Water stands in the drain pan.
    WaterInPan,
    /// The bulb is loose on the line.
    BulbLoose,
    /// The contacts of the contactor are closed though nothing calls.
    ContactorInWithoutCall,
    /// An ohmmeter shows no continuity between two terminals.
    NoContinuity(plant::Terminal, plant::Terminal),
    /// A capacitance meter shows nothing that holds a charge between two terminals.
    NoCapacitance(plant::Terminal, plant::Terminal),
    /// The part that was replaced or repaired had been faulty.
    PartWasFaulty(FaultKind),
    /// The part that was replaced or repaired had been sound.
    PartWasSound,
}

/// Something seen, heard or felt.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Sight {
    /// The thermostat's display is dark.
    DisplayDark,
    /// The thermostat is off.
    ThermostatOff {
        /// Setting of the fan.
        fan: FanSetting,
        /// What it reads in the room, K.
        wall_k: f64,
        /// Relative humidity that it shows.
        humidity_share: f64,
    },
    /// It is on cool.
    ThermostatCool {
        /// Setting of the fan.
        fan: FanSetting,
        /// Set point, K.
        set_point_k: f64,
        /// What it reads in the room, K.
        wall_k: f64,
        /// Relative humidity that it shows.
        humidity_share: f64,
    },
    /// Strong air.
    PaperPulledFlat(Place),
    /// Weak air.
    PaperStirs(Place),
    /// No air.
    PaperStill(Place),
    /// Most registers are shut or covered.
    MostRegistersShut,
    /// Some registers are shut or covered.
    SomeRegistersShut,
    /// The return duct lies flat but for a slit.
    DuctFlat,
    /// The return duct sags in on itself.
    DuctSags,
    /// The supply air feels cold.
    AirCold,
    /// It feels cool.
    AirCool,
    /// It feels like the room.
    AirAsRoom,
    /// The cover of the filter slot is on.
    SlotCovered,
    /// Air whistles at its edge.
    CoverWhistles,
    /// The blower panel hides the wheel.
    PanelHidesWheel,
    /// Something hums behind it.
    HumsBehindPanel,
    /// Nothing is heard behind it.
    SilentBehindPanel,
    /// The wheel turns so slowly that its blades can almost be told apart.
    WheelCreeps,
    /// It turns slower than it should, on a hot motor.
    WheelLabors,
    /// It sounds as if it turned in its own air.
    WheelInItsOwnAir,
    /// It turns evenly.
    WheelEven,
    /// It stands still.
    WheelStill,
    /// Its motor hums and grows hot.
    WheelMotorHums,
    /// By hand it does not turn.
    WheelStuck,
    /// By hand it turns freely.
    WheelFree,
    /// Its blades are packed with dust.
    BladesPacked,
    /// The cabinet hides the coil.
    CabinetHidesCoil,
    /// Frost on the suction line at the cabinet.
    LineFrostedAtCabinet,
    /// It sweats there.
    LineSweatsAtCabinet,
    /// It is dry there.
    LineDryAtCabinet,
    /// Water runs from the drain.
    DrainRuns,
    /// The drain has stopped running.
    DrainStopped,
    /// The coil is dry and free of ice.
    CoilDry,
    /// It is wet and free of ice.
    CoilWet,
    /// It is one block of ice.
    CoilBlock,
    /// Frost covers most of its face.
    CoilMostlyFrosted,
    /// Frost covers part of it.
    CoilPartlyFrosted,
    /// A little frost is on it.
    CoilLittleFrost,
    /// The ice is melting.
    IceMelts,
    /// Filter medium lies on the face of the coil.
    MediumOnCoil,
    /// Lint and dust cover it.
    LintOnCoil,
    /// The float switch is at its top.
    FloatUp,
    /// Water stands in the drain pan.
    WaterInPan,
    /// The drain pan is full.
    PanFull,
    /// The bulb is in the cup of ice water.
    BulbInIceWater,
    /// It hangs off the line.
    BulbHangs,
    /// It has no insulation.
    BulbBare,
    /// Its strap has let go.
    BulbLoose,
    /// It is strapped and wrapped.
    BulbStrapped,
    /// A fixed orifice; no bulb.
    OrificeWithoutBulb,
    /// Frost begins at the outlet of the metering device.
    FrostAtOutlet,
    /// Its outlet is cold and wet.
    OutletColdAndWet,
    /// The liquid line is hot.
    LiquidLineHot,
    /// It is warm.
    LiquidLineWarm,
    /// It is no warmer than the air.
    LiquidLineAsAir,
    /// It is colder than the air.
    LiquidLineColder,
    /// It is folded almost flat.
    LiquidLineFlat,
    /// It has a sharp dent.
    LiquidLineDented,
    /// The suction line is folded almost flat under its insulation.
    SuctionLineFlat,
    /// Its insulation is creased and the tube under it dented.
    SuctionLineDented,
    /// The line is colder at the inlet of the drier than at the service valve.
    DrierInletColder,
    /// The outlet of the drier is colder than its inlet.
    DrierOutletColder,
    /// Both feel the same.
    DrierEven,
    /// The compressor runs.
    CompressorRuns,
    /// It does not.
    CompressorStill,
    /// It hums loudly without starting.
    CompressorHums,
    /// The outdoor fan turns so slowly that its blades can be counted.
    FanLazy,
    /// It turns slower than it should, on a hot motor.
    FanLabors,
    /// It blows warm air upwards.
    FanBlowsWarm,
    /// Its air is hardly warmer than the day.
    FanBlowsCool,
    /// It stands still.
    FanStill,
    /// Its motor hums and is hot.
    FanMotorHums,
    /// The fins of the outdoor coil are dirty.
    FinsGrey,
    /// The disconnect is in.
    DisconnectIn,
    /// It is out.
    DisconnectOut,
    /// The low-voltage wires are tight.
    WiresTight,
    /// The transformer hums.
    TransformerHums,
    /// It is silent.
    TransformerSilent,
    /// The window of the low-voltage fuse is black.
    FuseBlack,
    /// The contactor is pulled in though nothing calls.
    ContactorInWithoutCall,
    /// The sheath of the low-voltage cable is worn through.
    CableWorn,
    /// The suction line is white with frost down to the service valve.
    SuctionLineFrosted,
    /// It is cold and sweats.
    SuctionLineSweats,
    /// It is cool and dry.
    SuctionLineCool,
    /// It is as warm as the day.
    SuctionLineWarm,
    /// No oil is seen.
    NoOil,
    /// An oily patch with dust on it.
    Oily(LeakPlace),
}
