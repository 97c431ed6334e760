//! The site: what people have opened, connected and taken off, and where the learner stands.

use std::collections::BTreeSet;

use plant::ThermostatSettings;

use crate::place::{Location, Panel};

/// State of the site beside the plant itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Site {
    /// Where the learner stands; walking to the other side costs a minute.
    pub standing: Location,
    /// Panels that are off.
    pub open_panels: BTreeSet<Panel>,
    /// Whether the manifold's hoses are on the service ports.
    pub gauges: Gauges,
    /// State of the refrigerant circuit.
    pub circuit: Circuit,
    /// What is done with the sensing bulb.
    pub bulb: BulbState,
    /// Thermostat as it is set.
    pub thermostat: ThermostatSettings,
    /// Filters put in during the visit.
    pub filters_replaced: u32,
    /// Whether the coil was seen free of ice and no ice has formed since.
    pub coil_seen_clear: bool,
    /// Time since arrival, min.
    pub minutes: f64,
    /// Parts and refrigerant used, in the money of the price list in `timing.rs`.
    pub cost: f64,
    /// When the place was last made safe for a flammable refrigerant, plant time, s: indoors, outdoors.
    pub made_safe_s: [Option<f64>; 2],
    /// Whether the recovery machine's float switch has found its cylinder full. It stays so until another one stands there:
    /// what has cooled and shrunk makes no room.
    pub recovery_cylinder_full: bool,
    /// Whether the ticket is closed.
    pub closed: bool,
}

impl Site {
    /// The site on arrival: all panels on, nothing connected, in the hallway.
    pub(crate) fn on_arrival(thermostat: ThermostatSettings) -> Site {
        Site {
            standing: Location::Indoors,
            open_panels: BTreeSet::new(),
            gauges: Gauges::Off,
            circuit: Circuit::Charged,
            bulb: BulbState::AsFound,
            thermostat,
            filters_replaced: 0,
            coil_seen_clear: false,
            minutes: 0.0,
            cost: 0.0,
            made_safe_s: [None; 2],
            recovery_cylinder_full: false,
            closed: false,
        }
    }

    /// Whether a panel is off.
    pub fn is_open(&self, panel: Panel) -> bool {
        self.open_panels.contains(&panel)
    }
}

/// The manifold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gauges {
    /// In the van.
    Off,
    /// Hoses on both service ports.
    On,
}

/// The refrigerant circuit as the work on it has left it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Circuit {
    /// Closed, with refrigerant in it.
    Charged,
    /// Closed, recovered to atmospheric pressure.
    Recovered,
    /// Opened for work and closed again: air is in it.
    Opened,
    /// Under vacuum.
    Evacuated,
    /// Closed, with nitrogen in it.
    UnderNitrogen,
}

/// The sensing bulb.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BulbState {
    /// As it was found.
    AsFound,
    /// Off the line, in a warm hand.
    InHand,
    /// Off the line, in a cup of ice and water.
    InIceWater,
    /// Off the line, hanging.
    Hanging,
    /// Strapped and insulated during this visit.
    Strapped,
}

impl BulbState {
    /// Whether it is off the suction line.
    pub fn is_off_the_line(self) -> bool {
        matches!(self, BulbState::InHand | BulbState::InIceWater | BulbState::Hanging)
    }
}
