//! What people set from outside the plant, held constant over one step.

use serde::{Deserialize, Serialize};

/// Everything that is set from outside.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Inputs {
    /// Thermostat on the wall.
    pub thermostat: ThermostatSettings,
    /// Outdoor disconnect beside the condensing unit.
    pub outdoor_disconnect: Switch,
    /// Service switch at the air handler (blower, transformer).
    pub indoor_service_switch: Switch,
    /// Whether the filter has been pulled out of its slot.
    pub filter: FilterSlot,
    /// What is done with the sensing bulb.
    pub bulb: BulbHandling,
    /// What hangs on the suction service port.
    pub suction_port: PortConnection,
    /// What hangs on the liquid service port.
    pub liquid_port: PortConnection,
    /// How the space around the air handler is aired.
    pub ventilation: Ventilation,
}

impl Default for Inputs {
    /// Cooling to 24 °C, everything switched on, filter left alone, nothing connected.
    fn default() -> Self {
        Inputs {
            thermostat: ThermostatSettings { mode: Mode::Cool, fan: FanSetting::Auto, set_point_k: 297.15 },
            outdoor_disconnect: Switch::Closed,
            indoor_service_switch: Switch::Closed,
            filter: FilterSlot::Fitted,
            bulb: BulbHandling::AsInstalled,
            suction_port: PortConnection::Capped,
            liquid_port: PortConnection::Capped,
            ventilation: Ventilation::AsFound,
        }
    }
}

/// Settings of the thermostat.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ThermostatSettings {
    /// Off or cooling.
    pub mode: Mode,
    /// Blower only with cooling, or always.
    pub fan: FanSetting,
    /// Set point, K.
    pub set_point_k: f64,
}

/// Thermostat mode.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Mode {
    /// No call for cooling.
    Off,
    /// Calls for cooling above the set point.
    Cool,
}

/// Thermostat fan setting.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum FanSetting {
    /// With the call for cooling.
    Auto,
    /// Always.
    On,
}

/// A switch or a disconnect.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Switch {
    /// Conducts (a disconnect that is in).
    Closed,
    /// Does not conduct (a disconnect that is out).
    Open,
}

/// What is done at the filter slot. Whether there is a filter in it is the plant's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum FilterSlot {
    /// What belongs there is in place: the filter, if the plant has one.
    Fitted,
    /// What was in it has been pulled out.
    Removed,
}

/// What is done with the sensing bulb of an expansion valve.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum BulbHandling {
    /// As it is mounted.
    AsInstalled,
    /// Off the line, held in a warm hand.
    HeldInHand,
    /// Off the line, in a cup of ice and water.
    InIceWater,
    /// Off the line, hanging in room air.
    HungInRoomAir,
}

/// What is connected to a service port, and open to it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum PortConnection {
    /// Cap on.
    Capped,
    /// A gauge hose, closed at the manifold.
    Gauge,
    /// A cylinder of the system's refrigerant that is held at a temperature and never runs empty, through the hose.
    Cylinder {
        /// Which phase is drawn.
        phase: CylinderPhase,
        /// Temperature of the cylinder, K.
        temperature_k: f64,
        /// How far the manifold valve is open, 0 to 1.
        opening: f64,
    },
    /// The charging cylinder beside the unit, through the hose: it cools as vapour is drawn, and can run empty.
    ChargingCylinder {
        /// Which phase is drawn.
        phase: CylinderPhase,
        /// How far the manifold valve is open, 0 to 1.
        opening: f64,
    },
    /// A recovery machine that pulls down to atmospheric pressure, into the recovery cylinder. It stops when liquid
    /// fills 80 % of that.
    RecoveryMachine,
    /// The same, down to an absolute pressure, Pa.
    RecoveryMachineTo {
        /// Where it stops, Pa.
        pressure_pa: f64,
    },
    /// A vacuum pump.
    VacuumPump,
    /// A nitrogen cylinder behind its regulator, through the hose. Nothing flows back.
    Nitrogen {
        /// Absolute pressure that the regulator is set to, Pa.
        regulated_pa: f64,
        /// How far the manifold valve is open, 0 to 1.
        opening: f64,
    },
    /// A hose that is open to the air.
    OpenHose {
        /// How far the manifold valve is open, 0 to 1.
        opening: f64,
    },
}

/// How the space around the air handler is aired.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Ventilation {
    /// As it was found, doors closed.
    #[default]
    AsFound,
    /// Doors and windows open, a fan set up.
    Open,
}

/// Phase drawn from a cylinder.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum CylinderPhase {
    /// Upright: vapour.
    Vapour,
    /// Inverted: liquid.
    Liquid,
}
