//! Words of the site: places, panels, ports, points, and the choices that moves are made with.

use serde::{Deserialize, Serialize};

/// A place on the site.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Place {
    /// Thermostat in the hallway.
    Thermostat,
    /// Return grille.
    ReturnGrille,
    /// Supply register.
    SupplyRegister,
    /// Filter slot.
    FilterSlot,
    /// Blower compartment.
    Blower,
    /// Indoor coil cabinet with drain pan.
    IndoorCoil,
    /// Metering device with sensing bulb.
    MeteringDevice,
    /// Line set between the units.
    LineSet,
    /// Liquid-line drier.
    Drier,
    /// Outdoor unit.
    OutdoorUnit,
    /// Outdoor disconnect.
    OutdoorDisconnect,
    /// Low-voltage terminals at the air handler.
    ControlBoard,
}

impl Place {
    /// Every place, indoors first.
    pub const ALL: [Place; 12] = [
        Place::Thermostat,
        Place::ReturnGrille,
        Place::SupplyRegister,
        Place::FilterSlot,
        Place::Blower,
        Place::ControlBoard,
        Place::IndoorCoil,
        Place::MeteringDevice,
        Place::LineSet,
        Place::Drier,
        Place::OutdoorUnit,
        Place::OutdoorDisconnect,
    ];
}

/// Side of the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Location {
    /// In the house, at thermostat or air handler.
    Indoors,
    /// At the outdoor unit.
    Outdoors,
}

/// A panel that can be opened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Panel {
    /// Blower compartment: blower wheel and low-voltage terminals.
    BlowerCompartment,
    /// Coil cabinet: coil face, metering device, bulb.
    CoilCabinet,
    /// Electrical panel of the outdoor unit: contactor.
    OutdoorElectrical,
}

impl Panel {
    /// Every panel.
    pub const ALL: [Panel; 3] = [Panel::BlowerCompartment, Panel::CoilCabinet, Panel::OutdoorElectrical];
}

/// A service port.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Port {
    /// Suction (low side).
    Suction,
    /// Liquid (high side).
    Liquid,
}

/// A point where a pipe thermometer can be clamped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum PipePoint {
    /// Suction line at the outdoor service valve.
    SuctionAtServiceValve,
    /// Suction line beside the sensing bulb.
    SuctionAtBulb,
    /// Liquid line at the outdoor service valve: where subcooling is taken.
    LiquidAtServiceValve,
    /// Liquid line at the inlet of the drier, behind whatever is between it and the service valve.
    LiquidBeforeDrier,
    /// Liquid line at the outlet of the drier.
    LiquidAfterDrier,
    /// Liquid line at the metering device.
    LiquidAtMeteringDevice,
    /// Discharge line of the compressor.
    Discharge,
    /// The sensing bulb.
    SensingBulb,
}

impl PipePoint {
    /// Every point.
    pub const ALL: [PipePoint; 8] = [
        PipePoint::SuctionAtServiceValve,
        PipePoint::SuctionAtBulb,
        PipePoint::LiquidAtServiceValve,
        PipePoint::LiquidBeforeDrier,
        PipePoint::LiquidAfterDrier,
        PipePoint::LiquidAtMeteringDevice,
        PipePoint::Discharge,
        PipePoint::SensingBulb,
    ];
}

/// A point where air is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum AirPoint {
    /// Return air before the filter.
    Return,
    /// Supply air after the blower.
    Supply,
    /// Air entering the outdoor coil.
    Outdoor,
}

/// Dry or wet bulb.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Bulb {
    /// Dry bulb.
    Dry,
    /// Wet bulb.
    Wet,
}

/// How a leak is searched for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum LeakMethod {
    /// Electronic leak detector.
    ElectronicDetector,
    /// Bubble solution.
    Bubbles,
}

/// What a charge is adjusted by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum ChargeBy {
    /// Subcooling at the liquid service valve: systems with an expansion valve.
    Subcooling,
    /// Superheat at the suction service valve: systems with a fixed orifice.
    Superheat,
}

impl ChargeBy {
    /// Gauge and pipe that it is measured with.
    pub fn measured_at(self) -> (Port, PipePoint) {
        match self {
            ChargeBy::Subcooling => (Port::Liquid, PipePoint::LiquidAtServiceValve),
            ChargeBy::Superheat => (Port::Suction, PipePoint::SuctionAtServiceValve),
        }
    }
}

/// What a cylinder is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum CylinderUse {
    /// Charging from it.
    Charging,
    /// Recovering into it.
    Recovery,
}

impl Location {
    /// Both sides of the wall.
    pub const ALL: [Location; 2] = [Location::Indoors, Location::Outdoors];
}

/// Where a hose of the manometer is put: a plugged hole in the duct or the cabinet, or nowhere, which is the room.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, strum::VariantArray,
)]
pub enum StaticTap {
    /// Open to the room.
    Room,
    /// Return plenum, before the filter.
    Return,
    /// Between filter and coil.
    BeforeCoil,
    /// Between coil and blower.
    AfterCoil,
    /// Supply plenum, behind the blower.
    Supply,
}

impl StaticTap {
    /// From where to where the static pressure outside the air handler is taken, filter included: what its plate allows.
    pub const EXTERNAL: (StaticTap, StaticTap) = (StaticTap::Supply, StaticTap::BeforeCoil);
}
