//! The plant: all state in one value that can be saved.

use serde::{Deserialize, Serialize};

use crate::air::{Face, FilterState, InFilterSlot, Slot, Statics};
use crate::condenser::CondenserFilms;
use crate::contents::{Level, LineLevel};
use crate::control::Control;
use crate::draught::Draught;
use crate::evaporator::{CoilFilms, mean_k};
use crate::fault::{Charge, Effects, hole_diameter_m};
use crate::frost::{CoilWater, Frost};
use crate::limit::Limiter;
use crate::metering::opens_at_k;
use crate::pan::Pan;
use crate::rows::ROWS;
use crate::service::{Service, Tally};
use crate::sump::{SUMP_J_KG, dissolved_kg, oil_saturation_pa};
use crate::system::RefrigerantName;
use crate::tangents::Tangents;
use crate::watch::SteadyWatch;
use crate::wear::Wear;
use crate::{Fault, FaultKind, LeakPlace, LeftBehind, Readout, Room, System, Weather};

/// A residential split system with its house and weather. Saved, loaded and stepped on it gives the same
/// bytes as never saved.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Plant {
    pub(crate) system: System,
    pub(crate) room: Room,
    pub(crate) weather: Weather,
    pub(crate) faults: Vec<Fault>,
    pub(crate) time_s: f64,
    pub(crate) high: Level,
    pub(crate) line: LineLevel,
    pub(crate) low: Level,
    pub(crate) condenser_wall_k: f64,
    /// Walls of the coil's rows, in the direction of the air.
    pub(crate) coil_walls_k: [f64; ROWS],
    pub(crate) motor_k: f64,
    /// Scrolls, muffler plate and dome of the compressor.
    pub(crate) dome_k: f64,
    /// Refrigerant in the sump of the compressor, dissolved in oil or as liquid.
    pub(crate) sump_kg: f64,
    pub(crate) bulb_k: f64,
    /// Metal of the air handler behind the coil.
    pub(crate) cabinet_k: f64,
    pub(crate) frost: Frost,
    pub(crate) filter: FilterState,
    pub(crate) pan: Pan,
    pub(crate) control: Control,
    pub(crate) last: Last,
    pub(crate) slow: Slow,
    /// No state: what the laws of the coils were last worked out for.
    pub(crate) condenser_films: CondenserFilms,
    pub(crate) coil_films: CoilFilms,
    /// Likewise: laws that are followed along their tangents.
    pub(crate) tangents: Tangents,
    pub(crate) ledger: Ledger,
    pub(crate) energy: EnergyLedger,
    pub(crate) watch: SteadyWatch,
    pub(crate) wear: Wear,
    pub(crate) service: Service,
    /// How often a bound by what one step may move has acted.
    pub(crate) limiter: Limiter,
    pub(crate) readout: Readout,
}

/// Values of the last step that start the next one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Last {
    pub valve_flow_kg_s: f64,
    pub outlet_flow_kg_s: f64,
    pub compressor_flow_kg_s: f64,
    /// Out of the suction line into the shell.
    pub suction_flow_kg_s: f64,
    /// The part of it that came in at the suction service port.
    pub joined_flow_kg_s: f64,
    pub compressor_power_w: f64,
    pub discharge_enthalpy_j_kg: f64,
    /// At the suction port, Pa; 0 before the first step.
    pub suction_pa: f64,
    pub suction_outdoor_k: f64,
    pub evaporator_outlet_k: f64,
    pub evaporator_outlet_enthalpy_j_kg: f64,
    pub outlet_density_kg_m3: f64,
    pub outlet_enthalpy_j_kg: f64,
    /// Heat from the high side to the condenser's wall and from each row of the coil's wall to the low side, W.
    pub condenser_to_wall_w: f64,
    pub coil_from_wall_w: [f64; ROWS],
    /// Temperatures of the two sides.
    pub high_k: f64,
    pub low_k: f64,
}

/// Values that change slowly and are computed once a second.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Slow {
    pub due_in_s: f64,
    pub outdoor_k: f64,
    /// Saturation pressure at the temperature of the compressor's oil, Pa.
    pub oil_saturation_pa: f64,
    /// Superheat at which the valve opens, see [`opens_at_k`].
    pub valve_opens_k: f64,
    pub room_k: f64,
    pub humidity_ratio: f64,
    /// Air that reaches the filter.
    pub return_k: f64,
    pub return_humidity_ratio: f64,
    /// Share of it that the return duct draws in from the attic.
    pub return_leak_share: f64,
    pub airflow_m3_s: f64,
    pub blower_power_w: f64,
    pub statics: Statics,
    pub draught: Draught,
    pub face: Face,
    /// Since the last slow step: sensible heat and water taken from the air by the coil, J and kg.
    pub sensible_j: f64,
    pub water_kg: f64,
    pub blower_j: f64,
    /// Heat from the air handler's metal to the air, J.
    pub cabinet_j: f64,
    /// Heat from the room's air to the lines that run through it, J.
    pub to_lines_j: f64,
    pub elapsed_s: f64,
}

/// Where all refrigerant went, kg. `initial + added = in the circuit + trapped + recovered + leaked + vented + lost with hoses`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Ledger {
    /// In the circuit at the start.
    pub initial_kg: f64,
    /// Put in from cylinders.
    pub added_kg: f64,
    /// Taken out by the recovery machine.
    pub recovered_kg: f64,
    /// Lost through leaks.
    pub leaked_kg: f64,
    /// Let out by work on an opened circuit, the relief device or the vacuum pump.
    pub vented_kg: f64,
    /// Lost with the hoses of gauges when they came off.
    pub hoses_kg: f64,
    /// Standing in the hoses now.
    pub trapped_kg: f64,
}

/// Energy that crossed the boundary of refrigerant and metal since the start, J. `initial + from_room_air +
/// compressor + from_line_air + with_refrigerant = stored + to_outdoor_air + to_melting`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct EnergyLedger {
    /// Held by refrigerant and metal at the start.
    pub initial_j: f64,
    /// From room air through the coil (sensible, latent, freezing of vapour).
    pub from_room_air_j: f64,
    /// Electric energy of the compressor.
    pub compressor_j: f64,
    /// From condenser and compressor shell to outdoor air.
    pub to_outdoor_air_j: f64,
    /// From the air around suction and liquid line.
    pub from_line_air_j: f64,
    /// Into ice that melted on the coil, less what water on its fins gave when it froze; water drains at 0 °C.
    pub to_melting_j: f64,
    /// Brought in with refrigerant from cylinders, less what left with refrigerant that was recovered, leaked, vented
    /// or went into hoses.
    pub with_refrigerant_j: f64,
}

impl Plant {
    /// A plant at rest: everything at the temperature of its surroundings, pressures equalised.
    pub fn new(system: &System, room: Room, weather: Weather, charge_kg: f64, faults: &[Fault]) -> Plant {
        let outdoor_k = weather.outdoor_k(0.0);
        let (room_k, humidity_ratio) = room.air();
        let fluid = system.refrigerant.tables();
        let volumes = system.volumes();
        let total = volumes.high_m3 + volumes.line_m3 + volumes.low_m3;
        let charge_kg = (charge_kg * charge_factor(faults)).max(1.0e-3);
        // Saturated at the colder of the two sides, or gas if the charge is too small for liquid.
        let cold_k = outdoor_k.min(room_k);
        let saturation_pa = fluid.dew_pressure_pa(cold_k);
        let gas_density = fluid.at_pt_vapour(saturation_pa, cold_k).density_kg_m3;
        // The oil of a system that has stood holds its share.
        let oil_saturation_pa = oil_saturation_pa(fluid, outdoor_k);
        let sump_kg = dissolved_kg(
            &system.compressor,
            saturation_pa * (charge_kg / total / gas_density).min(1.0),
            oil_saturation_pa,
        )
        .min(0.5 * charge_kg);
        let charge_kg = charge_kg - sump_kg;
        let (pressure, density) = if charge_kg / total < gas_density {
            let at = fluid.at_pt_vapour(saturation_pa * charge_kg / total / gas_density, cold_k);
            (at.pressure_pa, charge_kg / total)
        } else {
            (saturation_pa, charge_kg / total)
        };
        let state = fluid.at_pv(pressure, 1.0 / density);
        let u = state.internal_energy_j_kg();
        let level = |volume: f64| Level {
            mass_kg: density * volume,
            energy_j: density * volume * u,
            pressure_pa: pressure,
            ..Level::default()
        };
        let line = level(volumes.line_m3);
        let mut plant = Plant {
            room,
            weather,
            faults: faults.to_vec(),
            time_s: 0.0,
            high: level(volumes.high_m3),
            line: LineLevel { mass_kg: line.mass_kg, energy_j: line.energy_j, pressure_pa: pressure },
            low: level(volumes.low_m3),
            condenser_wall_k: outdoor_k,
            coil_walls_k: [room_k; ROWS],
            motor_k: outdoor_k,
            dome_k: outdoor_k,
            sump_kg,
            bulb_k: room_k,
            cabinet_k: room_k,
            frost: Frost::default(),
            filter: FilterState::default(),
            pan: Pan::default(),
            control: Control::default(),
            last: Last {
                discharge_enthalpy_j_kg: state.enthalpy_j_kg,
                suction_outdoor_k: outdoor_k,
                evaporator_outlet_k: room_k,
                evaporator_outlet_enthalpy_j_kg: state.enthalpy_j_kg,
                outlet_density_kg_m3: density,
                outlet_enthalpy_j_kg: state.enthalpy_j_kg,
                high_k: state.temperature_k,
                low_k: state.temperature_k,
                ..Last::default()
            },
            slow: Slow {
                outdoor_k,
                oil_saturation_pa,
                valve_opens_k: opens_at_k(fluid, &system.metering),
                room_k,
                humidity_ratio,
                return_k: room_k,
                return_humidity_ratio: humidity_ratio,
                face: Face::default(),
                ..Slow::default()
            },
            condenser_films: CondenserFilms::default(),
            coil_films: CoilFilms::default(),
            tangents: Tangents::default(),
            ledger: Ledger::default(),
            energy: EnergyLedger::default(),
            watch: SteadyWatch::default(),
            limiter: Limiter::default(),
            wear: Wear::default(),
            service: Service::default(),
            readout: Readout::default(),
            system: system.clone(),
        };
        // Air fills both sides alike: the liquid is spread as evenly as everything else in a plant that has just been made.
        let air_kg = AIR_AT_WORST_KG * severity_of(faults, Charge::Gas);
        plant.high.air_kg = air_kg * volumes.high_m3 / (volumes.high_m3 + volumes.low_m3);
        plant.low.air_kg = air_kg - plant.high.air_kg;
        plant.service.gas.initial_kg = plant.air_in_circuit_kg();
        plant.ledger.initial_kg = plant.circuit_kg();
        plant.energy.initial_j = plant.stored_energy_j();
        plant.refresh_readout();
        plant
    }

    /// Mean temperature of the coil's metal, K.
    pub(crate) fn coil_wall_k(&self) -> f64 {
        mean_k(&self.coil_walls_k)
    }

    /// Bounds by what one step may move, and how often each has acted.
    pub fn limiter(&self) -> &Limiter {
        &self.limiter
    }

    /// Water that the coil took from the air: on it as ice and as water, and what ran off.
    pub fn coil_water(&self) -> CoilWater {
        self.frost.water()
    }

    /// The same plant with its ice gone, for forecasts of what it would do after a thaw. No water and no heat are
    /// booked for it, so it is no plant to go on with.
    #[must_use]
    pub fn thawed(&self) -> Plant {
        let mut plant = self.clone();
        plant.frost = plant.frost.thawed(&plant.system.evaporator);
        plant
    }

    /// True values at the end of the last full second.
    pub fn readout(&self) -> &Readout {
        &self.readout
    }

    /// Plant time, s.
    pub fn time_s(&self) -> f64 {
        self.time_s
    }

    /// The equipment.
    pub fn system(&self) -> &System {
        &self.system
    }

    /// The weather.
    pub fn weather(&self) -> &Weather {
        &self.weather
    }

    /// Faults that are still there (set in or not yet).
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// Whether a fault of this kind is there, or something that one has left behind. A low-voltage fuse that has melted counts as
    /// [`FaultKind::BlownControlFuse`].
    pub fn has(&self, kind: FaultKind) -> bool {
        self.faults.iter().any(|f| f.kind == kind) || self.has_been_left(kind)
    }

    /// Whether something is wrong that is no fault of its own: what one of this kind has left behind, or a fuse that another one
    /// has melted.
    pub fn has_been_left(&self, kind: FaultKind) -> bool {
        self.left_behind(kind).is_some()
            || (kind == FaultKind::BlownControlFuse && self.control.electric.fuse.blown)
    }

    /// Whether the low-voltage fuse is open: melted while the plant ran, or blown before.
    pub fn control_fuse_is_blown(&self) -> bool {
        let before =
            |f: &Fault| f.kind == FaultKind::BlownControlFuse && f.severity > 0.0 && f.onset_s <= self.time_s;
        self.control.electric.fuse.blown || self.faults.iter().any(before)
    }

    /// What a fault of this kind has left behind, now that the part it was in has been put right. `None` when nothing is left, or
    /// the fault itself is still there.
    pub fn left_behind(&self, kind: FaultKind) -> Option<LeftBehind> {
        if self.faults.iter().any(|f| f.kind == kind) {
            return None;
        }
        kind.row().special.leaves.filter(|left| match left {
            LeftBehind::MediumOnCoil => self.filter.on_coil > 0.0,
            LeftBehind::EmptySlot => self.filter.slot == Slot::Empty,
        })
    }

    /// Add a fault while the plant runs; its onset is a plant time. A filter that is said to be long missing is taken out.
    pub fn inject(&mut self, fault: Fault) {
        if fault.kind.row().special.leaves == Some(LeftBehind::EmptySlot) {
            self.filter.slot = Slot::AsFound;
        }
        self.faults.push(fault);
    }

    /// Take faults of a kind (at a place, if the kind has places) away while the plant runs; what they have done stays done.
    pub fn clear(&mut self, kind: FaultKind, place: Option<LeakPlace>) {
        self.faults.retain(|fault| !(fault.kind == kind && fault.place == place));
    }

    /// Where the refrigerant went.
    pub fn ledger(&self) -> &Ledger {
        &self.ledger
    }

    /// Energy across the boundary since the start.
    pub fn energy(&self) -> &EnergyLedger {
        &self.energy
    }

    /// Energy held by refrigerant, metal and motor, J (refrigerant by the tables' reference state).
    pub fn stored_energy_j(&self) -> f64 {
        self.high.energy_j
            + self.line.energy_j
            + self.low.energy_j
            + self.condenser_wall_k * self.system.condenser.metal_capacity_j_k
            + self.coil_wall_k() * self.system.evaporator.metal_capacity_j_k
            + self.motor_k * self.system.compressor.motor_capacity_j_k
            + self.dome_k * self.system.compressor.dome_capacity_j_k
            + self.sump_kg * SUMP_J_KG
    }

    /// Refrigerant in the circuit, kg.
    pub fn circuit_kg(&self) -> f64 {
        self.high.mass_kg + self.line.mass_kg + self.low.mass_kg + self.sump_kg
    }

    /// Refrigerant in the sump of the compressor, dissolved in oil or as liquid, kg.
    pub fn sump_kg(&self) -> f64 {
        self.sump_kg
    }

    /// Gas that does not condense in the circuit (air, nitrogen), kg.
    pub fn air_in_circuit_kg(&self) -> f64 {
        self.high.air_kg + self.low.air_kg
    }

    /// Where gas that does not condense came from and went.
    pub fn gas_tally(&self) -> &Tally {
        &self.service.gas
    }

    /// Where water came from and went.
    pub fn water_tally(&self) -> &Tally {
        &self.service.water
    }

    /// Refrigerant that the ledger cannot account for, kg: zero but for rounding.
    pub fn ledger_gap_kg(&self) -> f64 {
        let l = &self.ledger;
        (l.initial_kg + l.added_kg)
            - (l.recovered_kg + l.leaked_kg + l.vented_kg + l.hoses_kg + l.trapped_kg)
            - self.circuit_kg()
    }

    /// Energy that the ledger cannot account for, J: zero but for rounding.
    pub fn energy_gap_j(&self) -> f64 {
        let e = &self.energy;
        let came_j =
            e.initial_j + e.from_room_air_j + e.compressor_j + e.from_line_air_j + e.with_refrigerant_j;
        came_j - e.to_outdoor_air_j - e.to_melting_j - self.stored_energy_j()
    }

    /// Whether the thermostat has power and calls for cooling.
    pub fn thermostat_calls(&self) -> bool {
        self.control.y
    }

    /// Whether the compressor runs.
    pub fn compressor_runs(&self) -> bool {
        self.control.compressor_speed > 0.0
    }

    /// How long the compressor has run without a stop, s.
    pub fn compressor_on_for_s(&self) -> f64 {
        self.control.on_for_s
    }

    /// What belongs to the filter slot now, whether or not it is pulled out for a look.
    pub fn in_filter_slot(&self) -> InFilterSlot {
        self.filter.in_slot(&self.effects())
    }

    /// Share of the coil's face that medium of a collapsed filter covers, 0 to 1; above 0 wherever some lies on it.
    pub fn coil_covered_share(&self) -> f64 {
        self.filter.covered_share()
    }

    /// Share of the bulb's heat exchange that goes to cabinet air, 0 (strapped, insulated) to 1.
    pub fn bulb_exposure(&self) -> f64 {
        self.effects().bulb_exposure
    }

    /// Share of the bulb's heat exchange that goes to the warm air around the cabinet, 0 (strapped) to 1.
    pub fn bulb_looseness(&self) -> f64 {
        self.effects().bulb_warm_exposure
    }

    /// Whether the blower's wheel can't be turned.
    pub fn blower_is_stuck(&self) -> bool {
        self.effects().wiring.blower_seized
    }

    /// Whether the primary of the control transformer is whole.
    pub fn transformer_is_whole(&self) -> bool {
        !self.effects().wiring.primary_open
    }

    /// Diameter of the hole at a place, m (0: none).
    pub fn leak_hole_m(&self, place: LeakPlace) -> f64 {
        self.faults
            .iter()
            .filter(|f| {
                f.kind == FaultKind::RefrigerantLeak && f.place == Some(place) && f.onset_s <= self.time_s
            })
            .map(|f| hole_diameter_m(f.severity))
            .fold(0.0, f64::max)
    }

    /// Damage of the compressor so far.
    pub fn wear(&self) -> &Wear {
        &self.wear
    }

    /// Room state.
    pub fn room(&self) -> &Room {
        &self.room
    }

    /// Refrigerant of the system.
    pub fn refrigerant(&self) -> RefrigerantName {
        self.system.refrigerant
    }

    /// Water that stands in the drain pan, kg.
    pub fn pan_water_kg(&self) -> f64 {
        self.pan.holds_kg(self.frost.drained_kg)
    }

    /// Whether the float of the condensate switch is up: lifted by water, or stuck there.
    pub fn float_is_up(&self) -> bool {
        self.effects().wiring.float_switch_open
    }

    #[inline(always)]
    pub(crate) fn effects(&self) -> Effects {
        let mut effects = Effects::of(&self.faults, self.time_s, &self.system);
        effects.wiring.float_switch_open |= self.pan.is_float_lifted();
        effects
    }

    /// Charge faults are states of the circuit, not of a part: they are gone when the circuit is right again.
    pub(crate) fn retire_charge_faults(&mut self) {
        let share = self.circuit_kg() / self.system.plate_charge_kg;
        let air_kg = self.air_in_circuit_kg();
        let time_s = self.time_s;
        self.faults.retain(|f| {
            f.onset_s > time_s
                || match f.kind.row().special.charge {
                    Charge::Missing => share < 0.97,
                    Charge::Excess => share > 1.03,
                    Charge::Gas => air_kg > 1.0e-3,
                    Charge::Untouched | Charge::Escapes => true,
                }
        });
    }
}

/// Air in the circuit at the worst severity of a fault of [`Charge::Gas`], kg.
const AIR_AT_WORST_KG: f64 = 0.04;

/// Largest severity among the faults that are so to the charge, 0 when there is none.
fn severity_of(faults: &[Fault], charge: Charge) -> f64 {
    faults
        .iter()
        .filter(|f| f.kind.row().special.charge == charge)
        .map(|f| f.severity.clamp(0.0, 1.0))
        .fold(0.0, f64::max)
}

/// What the charge faults make of the charge that a plant starts with. They hold from the start.
fn charge_factor(faults: &[Fault]) -> f64 {
    (1.0 - severity_of(faults, Charge::Missing)) * (1.0 + severity_of(faults, Charge::Excess))
}

/// Volumes of the pressure levels, m³.
pub(crate) struct Volumes {
    pub high_m3: f64,
    pub line_m3: f64,
    pub low_m3: f64,
}

impl System {
    pub(crate) fn volumes(&self) -> Volumes {
        Volumes {
            high_m3: self.condenser.volume_m3 + self.condenser.discharge_line_volume_m3,
            line_m3: self.lines.liquid_volume_m3(),
            low_m3: self.evaporator.volume_m3
                + self.lines.suction_volume_m3()
                + self.compressor.shell_volume_m3,
        }
    }
}
