//! What is seen, heard and felt at a place, as facts. `observe.rs` says when.

use plant::{FanSetting, LeakPlace};
use serde::{Deserialize, Serialize};

use crate::moves::Place;

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
