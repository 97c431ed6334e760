//! The states of the plant as one table: what a step moves, what must stay finite, and what a general solver integrates.
//!
//! A row is a name, how it is written for people who read a comparison of integrations, the typical size of a change, and
//! where it stands in the plant. A new state is one row; [`States`] then lacks a field where the equations are, and the compiler says so.

use crate::state::Plant;

macro_rules! states {
    ($($field:ident: $name:literal, $scale:literal, |$read:ident| $get:expr, |$plant:ident, $value:ident| $set:expr;)*) => {
        /// Names and units of the states, in order.
        pub const NAMES: [&str; COUNT] = [$($name),*];

        /// Typical size of a change of each state, in its unit: tolerances and differences of an integration are shares of it.
        pub const SCALES: [f64; COUNT] = [$($scale),*];

        /// Number of states.
        pub const COUNT: usize = [$($name),*].len();

        /// A number for each state: its value, or its rate in a second.
        #[derive(Clone, Copy, Debug, PartialEq)]
        pub(crate) struct States {
            $(pub(crate) $field: f64,)*
        }

        impl States {
            /// Of a plant as it stands.
            pub(crate) fn of(plant: &Plant) -> States {
                States { $($field: { let $read = plant; $get },)* }
            }

            /// From numbers in the order of the table.
            pub(crate) fn from_numbers(numbers: &[f64; COUNT]) -> States {
                let [$($field),*] = *numbers;
                States { $($field),* }
            }

            /// In the order of the table.
            pub(crate) fn into_numbers(self) -> [f64; COUNT] {
                let States { $($field),* } = self;
                [$($field),*]
            }

            /// Puts them into a plant, inside the bounds of each: a solver steps over them by its tolerance.
            pub(crate) fn place(&self, plant: &mut Plant) {
                $({
                    let ($plant, $value) = (&mut *plant, self.$field);
                    $set;
                })*
            }

            /// Name of the first state that is no finite number.
            pub(crate) fn not_finite(plant: &Plant) -> Option<&'static str> {
                // Nothing times a number is nothing, and no number times what is none.
                let all = 0.0 $(+ 0.0 * { let $read = plant; $get })*;
                if all == 0.0 {
                    return None;
                }
                [$((stringify!($field), { let $read = plant; $get })),*]
                    .into_iter()
                    .find(|(_, value)| !value.is_finite())
                    .map(|(name, _)| name)
            }
        }
    };
}

states! {
    high_mass_kg: "high-side mass, kg", 1.0, |plant| plant.high.mass_kg, |plant, value| plant.high.mass_kg = value;
    high_energy_j: "high-side energy, J", 2.0e5, |plant| plant.high.energy_j, |plant, value| plant.high.energy_j = value;
    line_mass_kg: "liquid-line mass, kg", 0.3, |plant| plant.line.mass_kg, |plant, value| plant.line.mass_kg = value;
    line_energy_j: "liquid-line energy, J", 1.0e5, |plant| plant.line.energy_j, |plant, value| plant.line.energy_j = value;
    low_mass_kg: "low-side mass, kg", 0.3, |plant| plant.low.mass_kg, |plant, value| plant.low.mass_kg = value;
    low_energy_j: "low-side energy, J", 1.0e5, |plant| plant.low.energy_j, |plant, value| plant.low.energy_j = value;
    condenser_wall_k: "condenser wall, K", 10.0, |plant| plant.condenser_wall_k, |plant, value| plant.condenser_wall_k = value;
    first_coil_wall_k: "coil wall of the first row, K", 10.0, |plant| plant.coil_walls_k[0], |plant, value| plant.coil_walls_k[0] = value;
    motor_k: "motor winding, K", 10.0, |plant| plant.motor_k, |plant, value| plant.motor_k = value;
    bulb_k: "bulb, K", 10.0, |plant| plant.bulb_k, |plant, value| plant.bulb_k = value;
    ice_kg: "ice, kg", 0.1, |plant| plant.frost.mass_kg, |plant, value| plant.frost.mass_kg = value.max(0.0);
    iced_share: "iced share", 0.1, |plant| plant.frost.iced_share, |plant, value| plant.frost.iced_share = value.clamp(0.0, 1.0);
    ice_density_kg_m3: "density of the ice, kg/m³", 50.0, |plant| plant.frost.density_kg_m3, |plant, value| plant.frost.density_kg_m3 = value.max(1.0);
    room_air_k: "room air, K", 10.0, |plant| plant.room.air().0, |plant, value| plant.room.set_air_k(value);
    structure_k: "structure, K", 10.0, |plant| plant.room.structure_k(), |plant, value| plant.room.set_structure_k(value);
    room_humidity_ratio: "room humidity ratio", 0.01, |plant| plant.room.air().1, |plant, value| plant.room.set_humidity_ratio(value);
    compressor_energy_j: "compressor energy, J", 1.0e6, |plant| plant.energy.compressor_j, |plant, value| plant.energy.compressor_j = value;
    from_room_air_j: "heat from room air, J", 1.0e6, |plant| plant.energy.from_room_air_j, |plant, value| plant.energy.from_room_air_j = value;
    liquid_through_compressor_kg: "liquid through the compressor, kg", 10.0, |plant| plant.wear.liquid_kg, |plant, value| plant.wear.liquid_kg = value;
    overheated_k_s: "overheating, K s", 1.0e3, |plant| plant.wear.overheated_k_s, |plant, value| plant.wear.overheated_k_s = value;
    dome_k: "scrolls and dome, K", 10.0, |plant| plant.dome_k, |plant, value| plant.dome_k = value;
    sump_kg: "refrigerant in the sump, kg", 0.1, |plant| plant.sump_kg, |plant, value| plant.sump_kg = value;
    suction_outdoor_k: "suction line outdoors, K", 10.0, |plant| plant.last.suction_outdoor_k, |plant, value| plant.last.suction_outdoor_k = value;
    fan_winding_rise_k: "outdoor fan winding over its air, K", 10.0, |plant| plant.control.winding_rises_k()[0], |plant, value| plant.control.set_fan_winding_rise(value);
    blower_winding_rise_k: "blower winding over its air, K", 10.0, |plant| plant.control.winding_rises_k()[1], |plant, value| plant.control.set_blower_winding_rise(value);
    second_coil_wall_k: "coil wall of the second row, K", 10.0, |plant| plant.coil_walls_k[1], |plant, value| plant.coil_walls_k[1] = value;
    third_coil_wall_k: "coil wall of the third row, K", 10.0, |plant| plant.coil_walls_k[2], |plant, value| plant.coil_walls_k[2] = value;
    closed_share: "closed share", 0.1, |plant| plant.frost.closed_share, |plant, value| plant.frost.closed_share = value.clamp(0.0, plant.frost.iced_share);
    coil_water_kg: "water on the coil, kg", 0.1, |plant| plant.frost.water_kg, |plant, value| plant.frost.water_kg = value.max(0.0);
    cabinet_k: "air handler's metal, K", 10.0, |plant| plant.cabinet_k, |plant, value| plant.cabinet_k = value;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Room, System, Weather};

    fn plant() -> Plant {
        let system = System::built_in("split-3-ton-r410a-txv").expect("built in");
        let room = Room::Held { dry_bulb_k: 299.8, humidity_ratio: 0.011 };
        Plant::new(&system, room, Weather::held(308.15), system.plate_charge_kg, &[])
    }

    #[test]
    fn what_is_read_can_be_put_back() {
        let plant = plant();
        let states = States::of(&plant);
        let mut other = plant.clone();
        States::from_numbers(&[1.0; COUNT]).place(&mut other);
        assert_ne!(States::of(&other), states);
        states.place(&mut other);
        assert_eq!(States::of(&other), states);
        assert_eq!(States::from_numbers(&states.into_numbers()), states);
    }

    #[test]
    fn each_state_that_is_no_number_is_named() {
        let plant = plant();
        assert_eq!(States::not_finite(&plant), None);
        let numbers = States::of(&plant).into_numbers();
        let mut found = 0;
        for index in 0..COUNT {
            let mut bad = numbers;
            bad[index] = f64::INFINITY;
            let mut other = plant.clone();
            States::from_numbers(&bad).place(&mut other);
            found += usize::from(States::not_finite(&other).is_some());
        }
        // A held room keeps its air, and a share is bounded where it is put.
        assert!(found >= COUNT - 5, "{found} of {COUNT}");
    }
}
