//! What must hold after every move: numbers, bounds, and the ledgers of mass and energy.

use plant::{Ledger, Plant, Readout};
use visit::{Outcome, Visit};

/// Mass that the ledger may not account for, as a share of all that ever was in the circuit: rounding.
const MASS_SHARE: f64 = 1.0e-9;
/// Air, nitrogen and water in the circuit that their accounts may not tell, kg: rounding.
const TALLY_KG: f64 = 1.0e-9;
/// Energy that the ledger may not account for, as a share of all that passed: rounding.
const ENERGY_SHARE: f64 = 1.0e-9;

/// The largest value of something over all cases, and where it was.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extreme {
    /// What.
    pub name: &'static str,
    /// Value.
    pub value: f64,
    /// Case in which it was.
    pub case: u64,
}

/// The largest values seen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Extremes {
    list: Vec<Extreme>,
}

impl Extremes {
    fn see(&mut self, case: u64, name: &'static str, value: f64) {
        match self.list.iter_mut().find(|known| known.name == name) {
            Some(known) if value > known.value => *known = Extreme { name, value, case },
            Some(_) => {}
            None => self.list.push(Extreme { name, value, case }),
        }
    }

    /// Takes over what others have seen.
    pub fn merge(&mut self, other: &Extremes) {
        for seen in &other.list {
            self.see(seen.case, seen.name, seen.value);
        }
    }

    /// In the order in which they were first looked at.
    #[must_use]
    pub fn list(&self) -> &[Extreme] {
        &self.list
    }
}

/// Holds one visit to the laws, move after move.
pub(super) struct Watch {
    case: u64,
    entries: usize,
    ledger: Ledger,
    pub(super) extremes: Extremes,
}

impl Watch {
    pub(super) fn new(case: u64, visit: &Visit) -> Watch {
        Watch { case, entries: 0, ledger: *visit.plant().ledger(), extremes: Extremes::default() }
    }

    /// The first law that does not hold.
    pub(super) fn check(&mut self, visit: &Visit) -> Result<(), String> {
        let plant = visit.plant();
        finite(plant)?;
        within_bounds(plant.readout())?;
        self.mass(plant)?;
        self.energy(plant)?;
        self.notebook(visit)?;
        self.remember(plant.readout());
        Ok(())
    }

    fn mass(&mut self, plant: &Plant) -> Result<(), String> {
        let (now, before) = (*plant.ledger(), self.ledger);
        for (name, now_kg, before_kg) in [
            ("added", now.added_kg, before.added_kg),
            ("recovered", now.recovered_kg, before.recovered_kg),
            ("leaked", now.leaked_kg, before.leaked_kg),
            ("vented", now.vented_kg, before.vented_kg),
            ("lost with hoses", now.hoses_kg, before.hoses_kg),
        ] {
            if now_kg < before_kg {
                return Err(format!("refrigerant {name} fell from {before_kg} kg to {now_kg} kg"));
            }
        }
        let gap = plant.ledger_gap_kg().abs() / (now.initial_kg + now.added_kg);
        self.extremes.see(self.case, "mass gap, share of the refrigerant", gap);
        if gap > MASS_SHARE {
            return Err(format!(
                "the ledger of refrigerant is off by {:e} kg: {now:?}",
                plant.ledger_gap_kg()
            ));
        }
        self.ledger = now;
        for (name, account_kg, there_kg) in [
            ("gas", plant.gas_tally().balance_kg(), plant.air_in_circuit_kg()),
            ("water", plant.water_tally().balance_kg(), plant.water_kg()),
        ] {
            if (account_kg - there_kg).abs() > TALLY_KG {
                return Err(format!(
                    "{there_kg} kg of {name} in the circuit, {account_kg} kg by the account"
                ));
            }
        }
        Ok(())
    }

    fn energy(&mut self, plant: &Plant) -> Result<(), String> {
        let e = plant.energy();
        let passed_j = e.from_room_air_j.abs()
            + e.compressor_j.abs()
            + e.to_outdoor_air_j.abs()
            + e.from_line_air_j.abs()
            + e.to_melting_j.abs()
            + e.with_refrigerant_j.abs()
            + plant.stored_energy_j().abs();
        let gap = plant.energy_gap_j().abs() / passed_j;
        self.extremes.see(self.case, "energy gap, share of what passed", gap);
        if gap > ENERGY_SHARE {
            return Err(format!("the ledger of energy is off by {:e} J: {e:?}", plant.energy_gap_j()));
        }
        Ok(())
    }

    /// Entries since the last look.
    fn notebook(&mut self, visit: &Visit) -> Result<(), String> {
        let mut last_s = match self.entries {
            0 => visit.arrival_s(),
            some => visit.notebook()[some - 1].finished_s,
        };
        for (index, entry) in visit.notebook().iter().enumerate().skip(self.entries) {
            if entry.number as usize != index + 1
                || entry.started_s < last_s
                || entry.finished_s < entry.started_s
            {
                return Err(format!("the notebook is out of order: {entry:?}"));
            }
            last_s = entry.finished_s;
            match &entry.outcome {
                Outcome::Read(reading) => {
                    if !(reading.value.is_finite()
                        && reading.uncertainty.is_finite()
                        && reading.uncertainty > 0.0)
                    {
                        return Err(format!("a reading is no number: {entry:?}"));
                    }
                }
                Outcome::Verified(found) => {
                    let margins =
                        [found.superheat, found.subcooling].into_iter().filter_map(visit::Margin::kelvin);
                    let numbers = [found.ran_for_s, found.temperature_split_k, found.frost_mass_kg];
                    if numbers.into_iter().chain(margins).any(|number| !number.is_finite()) {
                        return Err(format!("a verification holds no number: {entry:?}"));
                    }
                }
                Outcome::Refused(reason) => {
                    return Err(format!(
                        "a move was offered as legal and then refused: {:?}: {reason:?}",
                        entry.action
                    ));
                }
                Outcome::Done | Outcome::Seen(_) => {}
            }
        }
        self.entries = visit.notebook().len();
        if let Some(live) = visit.live().iter().find(|live| !live.value.is_finite()) {
            return Err(format!("a live reading is no number: {live:?}"));
        }
        if !(visit.cost().is_finite() && visit.cost() >= 0.0) {
            return Err(format!("the cost is {}", visit.cost()));
        }
        Ok(())
    }

    fn remember(&mut self, r: &Readout) {
        for (name, value) in [
            ("highest liquid pressure, bar", r.liquid_pressure_pa * 1.0e-5),
            ("hottest discharge, °C", r.discharge_k - 273.15),
            ("hottest winding, °C", r.winding_k - 273.15),
            ("most ice, kg", r.frost_mass_kg),
            ("coldest coil, below 0 °C", 273.15 - r.coil_surface_k),
            ("largest charge, kg", r.charge_total_kg),
        ] {
            self.extremes.see(self.case, name, value);
        }
    }
}

/// Every number of the plant's state, by its written form: what is no number is written as such.
fn finite(plant: &Plant) -> Result<(), String> {
    let text = ron::to_string(plant).map_err(|error| format!("the plant can't be written: {error}"))?;
    let mut name = "";
    for token in text.split([',', '(', ')', '[', ']', '{', '}']) {
        let (key, value) = token.rsplit_once(':').unwrap_or(("", token));
        if !key.is_empty() {
            name = key;
        }
        if matches!(value.trim(), "NaN" | "-NaN" | "inf" | "-inf") {
            return Err(format!("{name} is {value}"));
        }
    }
    Ok(())
}

/// What no air conditioner of this kind can leave. The tables of refrigerants end at 50 bar and above; a relief
/// device opens at the limit of the circuit. Scrolls that start on liquid swallow up to 1 kg/s for a moment; a coil that stood
/// at -40 °C takes up to 70 kW for a second when its blower starts.
fn within_bounds(r: &Readout) -> Result<(), String> {
    let air_k = 240.0..345.0;
    let pipe_k = 170.0..480.0;
    let share = 0.0..1.0 + 1.0e-12;
    let pressure_pa = f64::MIN_POSITIVE..5.5e6;
    let charge_kg = -1.0e-9..20.0;
    let list = [
        ("suction_pressure_pa", r.suction_pressure_pa, &pressure_pa),
        ("liquid_pressure_pa", r.liquid_pressure_pa, &pressure_pa),
        ("evaporator_pressure_pa", r.evaporator_pressure_pa, &pressure_pa),
        ("suction_line_indoor_k", r.suction_line_indoor_k, &pipe_k),
        ("suction_line_outdoor_k", r.suction_line_outdoor_k, &pipe_k),
        ("liquid_service_valve_k", r.liquid_service_valve_k, &pipe_k),
        ("liquid_before_drier_k", r.liquid_before_drier_k, &pipe_k),
        ("liquid_after_drier_k", r.liquid_after_drier_k, &pipe_k),
        ("liquid_indoor_k", r.liquid_indoor_k, &pipe_k),
        ("discharge_k", r.discharge_k, &(200.0..DISCHARGE_MOST_K)),
        ("bulb_k", r.bulb_k, &pipe_k),
        ("metering_opening", r.metering_opening, &share),
        ("metering_flow_kg_s", r.metering_flow_kg_s, &(-0.5..0.5)),
        ("compressor_flow_kg_s", r.compressor_flow_kg_s, &(0.0..1.0)),
        ("return_dry_bulb_k", r.return_dry_bulb_k, &air_k),
        ("supply_dry_bulb_k", r.supply_dry_bulb_k, &air_k),
        ("return_wet_bulb_k", r.return_wet_bulb_k, &(240.0..r.return_dry_bulb_k + 0.01)),
        ("supply_wet_bulb_k", r.supply_wet_bulb_k, &(230.0..r.supply_dry_bulb_k + 0.01)),
        ("cabinet_air_k", r.cabinet_air_k, &(200.0..345.0)),
        ("airflow_m3_s", r.airflow_m3_s, &(0.0..2.0)),
        ("return_static_pa", r.return_static_pa, &(-1000.0..1.0e-9)),
        ("coil_inlet_static_pa", r.coil_inlet_static_pa, &(-1000.0..1.0e-9)),
        ("coil_outlet_static_pa", r.coil_outlet_static_pa, &(-1000.0..1.0e-9)),
        ("supply_static_pa", r.supply_static_pa, &(-1.0e-9..1000.0)),
        ("gross_cooling_w", r.gross_cooling_w, &(-100.0e3..100.0e3)),
        ("sensible_cooling_w", r.sensible_cooling_w, &(-100.0e3..100.0e3)),
        ("compressor_power_w", r.compressor_power_w, &(0.0..40.0e3)),
        ("outdoor_fan_power_w", r.outdoor_fan_power_w, &(0.0..1500.0)),
        ("blower_power_w", r.blower_power_w, &(0.0..3000.0)),
        ("heat_to_outdoors_w", r.heat_to_outdoors_w, &(-60.0e3..80.0e3)),
        ("frost_mass_kg", r.frost_mass_kg, &(0.0..30.0)),
        ("iced_share", r.iced_share, &share),
        ("open_share", r.open_share, &share),
        ("coil_surface_k", r.coil_surface_k, &(180.0..345.0)),
        ("outdoor_k", r.outdoor_k, &(250.0..335.0)),
        ("room_k", r.room_k, &(260.0..335.0)),
        ("room_relative_humidity", r.room_relative_humidity, &(0.0..1.0 + 1.0e-6)),
        ("winding_k", r.winding_k, &(240.0..470.0)),
        ("charge_condenser_kg", r.charge_condenser_kg, &charge_kg),
        ("charge_liquid_line_kg", r.charge_liquid_line_kg, &charge_kg),
        ("charge_evaporator_kg", r.charge_evaporator_kg, &charge_kg),
        ("charge_suction_kg", r.charge_suction_kg, &charge_kg),
        ("charge_total_kg", r.charge_total_kg, &charge_kg),
        ("blower_speed", r.blower_speed, &(0.0..1.5)),
        ("compressor_speed", r.compressor_speed, &share),
        ("outdoor_fan_speed", r.outdoor_fan_speed, &(0.0..1.5)),
    ];
    for (name, value, span) in list {
        if !span.contains(&value) {
            return Err(format!("{name} is {value}, outside {span:?}: {r:?}"));
        }
    }
    Ok(())
}

/// Hottest discharge gas, K: far above what a real compressor lives through. The plant's protections against it are the
/// overload of the windings and the internal relief; a disc against hot gas it has not, see docs/plant.md.
const DISCHARGE_MOST_K: f64 = 773.15;
