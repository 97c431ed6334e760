//! The state of one pressure level: flash, liquid volume, air, and how much may leave it.

use std::cell::OnceCell;

use media::refrigerant::{Fluid, Isobar, Phase, Refrigerant, Saturation};

use crate::tangent::{Bounds, Stretch, Tangent};

/// Gas constant of air, J/(kg K). Nitrogen, which is booked with it as gas that does not condense, has 296.8: the same
/// mass of it would stand 3 % higher. What people set and read is its pressure, so only the mass is off.
pub(crate) const AIR_GAS_CONSTANT: f64 = 287.05;
/// Gas constant of water vapour, J/(kg K).
pub(crate) const STEAM_GAS_CONSTANT: f64 = 461.5;
/// Ratio of the molar masses of water and dry air (ASHRAE Handbook, Fundamentals, 2017, chapter 1).
pub(crate) const WATER_TO_AIR_MOLAR_MASS: f64 = 0.621_945;
/// Gas that a level full of liquid is left with, m³: what does not condense has a finite pressure there (numerical).
const LAST_BUBBLE_M3: f64 = 1.0e-5;
/// Liquid from which on what leaves a level is liquid, m³ (numerical).
pub(crate) const SEALED_M3: f64 = 1.0e-6;
/// Density that no flow takes a level below, kg/m³ (a fraction of a pascal).
const TRACE_KG_M3: f64 = 1.0e-5;

/// Share a of a level's heat capacity that an explicit exchange may move in one step for each kelvin. Alone it would ring
/// without end from 2 on. Beside a coil whose exchange is as large as can be (r in [`implicit_exchange`] without bound) the
/// difference e to the walls follows e'' = (1/2 - a) e' - (1/2 - a) e, which rings without end from a = 1 on and is at
/// rest at once with a = 1/2.
const EXPLICIT_SHARE: f64 = 0.5;

/// Heat capacity of refrigerant gas that is never undercut, and of a level full of liquid, J/(kg K) (numerical: an implicit exchange
/// bears a capacity that is wrong by a factor of two).
const LEAST_J_KG_K: f64 = 300.0;
const LIQUID_J_KG_K: f64 = 800.0;

/// Rise of temperature that the last liquid of a level must outlast for its boiling to count as capacity, K (numerical: what an
/// exchange may be off in a step).
const LASTING_K: f64 = 2.0;

/// Share of the last change of a level's temperature that an implicit exchange counts on, see [`implicit_exchange`].
const COUNTED_ON: f64 = 0.5;

/// A conductance and a temperature of the refrigerant with which an exchange of a step is implicit in the level's own
/// temperature, W/K and K.
///
/// The level ends a step at T + dt (S - Q)/C, with S all else that flows. In the last step S was Q_last + C (T - T_last)/dt;
/// half of the change is counted on, b = 1/2, so Q = UA (T + dt (Q_last - Q)/C + b (T - T_last) - T_wall). SteadyState, Q is
/// Q_last and Q = UA (T - T_wall) exactly, whatever the step. On the way, with r = UA dt/C large, as in a coil that holds a
/// little gas, the two roots have the magnitude sqrt(1 - b) = 0.71: what rings is gone in some steps. With b = 0 they
/// would lie at one, and the flows, which follow the pressure, would drive them out; with b = 1, exact for a right C, a C that
/// is wrong by a third would do so. With b = 1/2 the capacity may be wrong by a factor of two.
pub(crate) fn implicit_exchange(
    conductance_w_k: f64,
    refrigerant_k: f64,
    capacity_j_k: f64,
    last_w: f64,
    changed_k: f64,
    dt_s: f64,
) -> (f64, f64) {
    let share = dt_s / capacity_j_k.max(1.0e-3);
    let expected_k = refrigerant_k + share * last_w + counted_on_k(changed_k);
    (conductance_w_k / (1.0 + conductance_w_k * share), expected_k)
}

/// The part of a level's last change of temperature that an exchange counts on, K.
pub(crate) fn counted_on_k(changed_k: f64) -> f64 {
    COUNTED_ON * changed_k
}

/// Mass from which on a level is followed along a tangent, kg, and how far its mass, as a share of it, and its energy beyond that of
/// so much gas, J for each kilogram, may be from where it was flashed at first.
const FOLLOWED_FROM_KG: f64 = 0.05;
const NEAR_SHARE: f64 = 2.0e-3;
const NEAR_J_KG: f64 = 100.0;
/// By how much its numbers may be off: the pressure by 1 Pa, temperatures by 5e-5 K, the others by some millionths.
const FINE: [f64; 14] =
    [1.0, 5.0e-5, 1.0e-3, 1.0e-6, 5.0e-5, 5.0e-5, 1.0e-3, 1.0e-4, 0.2, 0.2, 1.0e-3, 1.0e-3, 1.0e-2, 1.0e-2];
/// Energy of gas that comes and goes, J/kg (numerical: mass that moves with about so much heat moves a level along one argument).
const GAS_J_KG: f64 = 4.0e5;

/// Flash of a level by its mass and energy: pressure, temperature, entropy, quality, then the saturated states.
pub(crate) type LevelTangent = Tangent<2, 14, 0>;

fn to_numbers(fluid: &Fluid, sat: &Saturation) -> [f64; 14] {
    [
        fluid.pressure_pa,
        fluid.temperature_k,
        fluid.entropy_j_kg_k,
        fluid.quality,
        sat.bubble_k,
        sat.dew_k,
        sat.liquid_density_kg_m3,
        sat.vapour_density_kg_m3,
        sat.liquid_enthalpy_j_kg,
        sat.vapour_enthalpy_j_kg,
        sat.liquid_entropy_j_kg_k,
        sat.vapour_entropy_j_kg_k,
        sat.liquid_cp_j_kg_k,
        sat.vapour_cp_j_kg_k,
    ]
}

/// The states again; density and enthalpy are those of the level to the last digit, as after a flash.
fn from_numbers(numbers: &[f64; 14], level: &crate::contents::Level, volume_m3: f64) -> (Fluid, Saturation) {
    let [pressure_pa, temperature_k, entropy_j_kg_k, quality, ..] = *numbers;
    let v = volume_m3 / level.mass_kg;
    let fluid = Fluid {
        // The quality of vapour has no slope.
        phase: if quality == 1.0 { Phase::Vapour } else { Phase::TwoPhase },
        pressure_pa,
        temperature_k,
        density_kg_m3: 1.0 / v,
        enthalpy_j_kg: level.energy_j / level.mass_kg + pressure_pa * v,
        entropy_j_kg_k,
        quality,
    };
    let sat = Saturation {
        pressure_pa,
        bubble_k: numbers[4],
        dew_k: numbers[5],
        liquid_density_kg_m3: numbers[6],
        vapour_density_kg_m3: numbers[7],
        liquid_enthalpy_j_kg: numbers[8],
        vapour_enthalpy_j_kg: numbers[9],
        liquid_entropy_j_kg_k: numbers[10],
        vapour_entropy_j_kg_k: numbers[11],
        liquid_cp_j_kg_k: numbers[12],
        vapour_cp_j_kg_k: numbers[13],
    };
    (fluid, sat)
}

/// Levels full of liquid and those outside the tables are flashed.
fn stretch(fluid: &Fluid, sat: &Saturation) -> Stretch {
    match fluid.phase {
        _ if sat.pressure_pa != fluid.pressure_pa => None,
        Phase::Vapour => Some(0),
        Phase::TwoPhase => Some(1),
        Phase::Liquid => None,
    }
}

/// Everything one step knows about a pressure level.
pub(crate) struct LevelState {
    pub fluid: Fluid,
    pub sat: Saturation,
    tables: &'static Refrigerant,
    isobar: OnceCell<Isobar<'static>>,
    isobar_of_all: OnceCell<Isobar<'static>>,
    pub liquid_volume_m3: f64,
    /// Partial pressure of gas that does not condense, Pa.
    pub air_pa: f64,
    /// Refrigerant, gas that does not condense and water vapour together, Pa.
    pub total_pa: f64,
    /// Heat capacity of the level at constant volume, J/K: sensible, and in the dome the heat of the vapour that must form.
    pub capacity_j_k: f64,
    /// Largest conductance that an explicit exchange of one step may use, W/K. Nothing that settles in ordinary running may
    /// lean on it: a bound that acts there makes the settled state depend on the step.
    pub exchange_limit_w_k: f64,
}

impl LevelState {
    pub(crate) fn of(
        fluid_tables: &'static Refrigerant,
        level: &crate::contents::Level,
        volume_m3: f64,
        dt_s: f64,
    ) -> LevelState {
        let mass = level.mass_kg.max(1.0e-9);
        let flash = fluid_tables.flash_uv_isobar(level.energy_j / mass, volume_m3 / mass, level.pressure_pa);
        LevelState::flashed(fluid_tables, level, volume_m3, flash, dt_s)
    }

    /// The same, followed along a tangent while mass and energy move slowly.
    pub(crate) fn followed(
        tangent: &mut LevelTangent,
        tables: &'static Refrigerant,
        level: &crate::contents::Level,
        volume_m3: f64,
        dt_s: f64,
    ) -> LevelState {
        if level.mass_kg < FOLLOWED_FROM_KG {
            return LevelState::of(tables, level, volume_m3, dt_s);
        }
        let mut here = None;
        let arguments = [level.mass_kg, level.energy_j - GAS_J_KG * level.mass_kg];
        let scale_kg = level.mass_kg.min(1.0);
        let near = [NEAR_SHARE * scale_kg, NEAR_J_KG * scale_kg];
        // Every flow follows the pressures: nothing is given away here.
        let bounds = Bounds { near, fine: FINE, of_step: 0.0 };
        let mut guess_pa = tangent.foretells(&arguments).unwrap_or(level.pressure_pa);
        let results = tangent.follow([], arguments, bounds, |&[mass_kg, beyond_j]| {
            let u = GAS_J_KG + beyond_j / mass_kg;
            let flash = tables.flash_uv_isobar(u, volume_m3 / mass_kg, guess_pa);
            let (fluid, sat) = (flash.0, flash.1.saturation());
            guess_pa = fluid.pressure_pa;
            here.get_or_insert(flash);
            (to_numbers(&fluid, &sat), stretch(&fluid, &sat))
        });
        if let Some(flash) = here {
            return LevelState::flashed(tables, level, volume_m3, flash, dt_s);
        }
        let (fluid, sat) = from_numbers(&results, level, volume_m3);
        let (liquid_h, vapour_h) = (sat.liquid_enthalpy_j_kg, sat.vapour_enthalpy_j_kg);
        let stays = match fluid.phase {
            Phase::Vapour => fluid.enthalpy_j_kg >= vapour_h,
            Phase::TwoPhase => {
                (liquid_h..vapour_h).contains(&fluid.enthalpy_j_kg) && (0.0..1.0).contains(&fluid.quality)
            }
            Phase::Liquid => false,
        };
        if stays {
            LevelState::with(tables, level, volume_m3, fluid, sat, dt_s)
        } else {
            LevelState::of(tables, level, volume_m3, dt_s)
        }
    }

    fn flashed(
        tables: &'static Refrigerant,
        level: &crate::contents::Level,
        volume_m3: f64,
        (fluid, isobar): (Fluid, Isobar<'static>),
        dt_s: f64,
    ) -> LevelState {
        let sat = isobar.saturation();
        let state = LevelState::with(tables, level, volume_m3, fluid, sat, dt_s);
        if sat.pressure_pa == fluid.pressure_pa {
            return LevelState { isobar: OnceCell::from(isobar), ..state };
        }
        state
    }

    fn with(
        tables: &'static Refrigerant,
        level: &crate::contents::Level,
        volume_m3: f64,
        fluid: Fluid,
        sat: Saturation,
        dt_s: f64,
    ) -> LevelState {
        let mass = level.mass_kg.max(1.0e-9);
        let liquid_volume_m3 = match fluid.phase {
            Phase::Vapour => 0.0,
            Phase::TwoPhase => mass * (1.0 - fluid.quality) / sat.liquid_density_kg_m3,
            Phase::Liquid => volume_m3,
        };
        let gas_m3 = (volume_m3 - liquid_volume_m3).max(LAST_BUBBLE_M3);
        let air_pa = level.air_kg * AIR_GAS_CONSTANT * fluid.temperature_k / gas_m3;
        let steam_pa = level.steam_kg * STEAM_GAS_CONSTANT * fluid.temperature_k / gas_m3;
        let capacity = if fluid.phase == Phase::TwoPhase {
            let hfg = sat.vapour_enthalpy_j_kg - sat.liquid_enthalpy_j_kg;
            let slope = hfg / (sat.dew_k * (1.0 / sat.vapour_density_kg_m3 - 1.0 / sat.liquid_density_kg_m3));
            let boiling = gas_m3 * sat.vapour_density_kg_m3 / fluid.pressure_pa * slope * hfg;
            // As long as there is liquid to boil.
            let lasting = liquid_volume_m3 * sat.liquid_density_kg_m3 * hfg / LASTING_K;
            mass * 900.0 + boiling.min(lasting)
        } else {
            // That of a perfect gas at constant volume; a real one has somewhat less.
            let gas_j_kg_k =
                sat.vapour_cp_j_kg_k - fluid.pressure_pa / (fluid.density_kg_m3 * fluid.temperature_k);
            mass * if fluid.phase == Phase::Vapour { gas_j_kg_k.max(LEAST_J_KG_K) } else { LIQUID_J_KG_K }
        };
        LevelState {
            fluid,
            sat,
            tables,
            isobar: OnceCell::new(),
            isobar_of_all: OnceCell::new(),
            liquid_volume_m3,
            air_pa,
            total_pa: fluid.pressure_pa + air_pa + steam_pa,
            capacity_j_k: capacity,
            exchange_limit_w_k: EXPLICIT_SHARE * capacity / dt_s,
        }
    }
}

impl LevelState {
    /// Share of the pressure that is the refrigerant's own where there is no liquid; 1 where there is, since what leaves
    /// the level then is liquid.
    pub(crate) fn refrigerant_share(&self) -> f64 {
        if self.liquid_volume_m3 > SEALED_M3 {
            1.0
        } else {
            self.fluid.pressure_pa / self.total_pa.max(1.0e-9)
        }
    }
}

impl LevelState {
    /// The states at the pressure of `sat`, looked up for the first who asks.
    pub(crate) fn isobar(&self) -> &Isobar<'static> {
        self.isobar.get_or_init(|| self.tables.isobar(self.sat.pressure_pa))
    }

    /// The states at the pressure of all that stands in the level, likewise.
    pub(crate) fn isobar_of_all(&self) -> &Isobar<'static> {
        if self.total_pa == self.sat.pressure_pa {
            return self.isobar();
        }
        self.isobar_of_all.get_or_init(|| self.tables.isobar(self.total_pa))
    }

    /// Both saturated states at that pressure.
    pub(crate) fn saturation_of_all(&self) -> Saturation {
        if self.total_pa == self.sat.pressure_pa { self.sat } else { self.isobar_of_all().saturation() }
    }

    /// Enthalpy of the vapour of the level, J/kg: what leaves it as gas.
    pub(crate) fn vapour_enthalpy_j_kg(&self) -> f64 {
        self.fluid.enthalpy_j_kg.max(self.sat.vapour_enthalpy_j_kg)
    }

    /// Its density, kg/m³.
    pub(crate) fn vapour_density_kg_m3(&self) -> f64 {
        self.sat.vapour_density_kg_m3.min(self.fluid.density_kg_m3)
    }

    /// Volume of the gas in a level of this volume, m³; a last bubble stays.
    pub(crate) fn gas_m3(&self, volume_m3: f64) -> f64 {
        (volume_m3 - self.liquid_volume_m3).max(LAST_BUBBLE_M3)
    }
}

/// Mass that may leave a level: a last trace stays, so that its state stays a state, kg.
pub(crate) fn available_kg(mass_kg: f64, volume_m3: f64) -> f64 {
    (mass_kg - TRACE_KG_M3 * volume_m3).max(0.0)
}

#[cfg(test)]
mod tests {
    use crate::{
        BASE_STEP_S, Inputs, Mode, Plant, PortConnection, Room, Switch, System, Weather, advance, step,
    };

    /// Down to some pascals, with walls that hold ten thousand times the heat of the gas: what the gas has for each kilogram never
    /// rings from step to step, on any system.
    #[test]
    fn gas_next_to_a_vacuum_does_not_ring() {
        for name in System::names() {
            let system = System::built_in(name).expect("built in");
            for n in 0..4 {
                let room = Room::Held { dry_bulb_k: 295.0 + 0.07 * f64::from(n), humidity_ratio: 0.009 };
                let mut plant = Plant::new(&system, room, Weather::held(303.0), system.plate_charge_kg, &[]);
                let mut inputs = Inputs::default();
                inputs.thermostat.set_point_k = 285.0;
                advance(&mut plant, &inputs, 600.0).expect("finite");
                inputs.thermostat.mode = Mode::Off;
                inputs.outdoor_disconnect = Switch::Open;
                inputs.suction_port = PortConnection::RecoveryMachine;
                inputs.liquid_port = PortConnection::RecoveryMachine;
                advance(&mut plant, &inputs, 2400.0).expect("finite");
                inputs.suction_port = PortConnection::VacuumPump;
                inputs.liquid_port = PortConnection::VacuumPump;
                let mut last = [0.0; 2];
                for i in 0..7200 {
                    step(&mut plant, &inputs, BASE_STEP_S).expect("finite");
                    let j_kg = plant.low.energy_j / plant.low.mass_kg;
                    let bend: f64 = j_kg - 2.0 * last[0] + last[1];
                    // While the pump is on its first gas, the level is carried along.
                    assert!(i < 200 || bend.abs() < 600.0, "{name}, {n}: {bend} J/kg at {} s", plant.time_s);
                    last = [j_kg, last[0]];
                }
                assert!(plant.low.mass_kg < 2.0e-3, "{name}: {}", plant.low.mass_kg);
            }
        }
    }
}
