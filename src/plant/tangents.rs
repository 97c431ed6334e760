//! The laws of a plant that are followed along their tangents.

use serde::{Deserialize, Serialize};

use crate::condenser::CondenserTangent;
use crate::evaporator::CoilTangents;
use crate::level::LevelTangent;
use crate::metering::PathTangent;
use crate::shell::ShellTangent;
use crate::tangent::{Bounds, OF_STEP, Stretch, Tangent};

/// Temperature and quality at a place by pressure, Pa, and enthalpy, J/kg, how far these may be from where they were looked up, and by how
/// much it may be off.
pub(crate) type PlaceTangent = Tangent<2, 2, 0>;
pub(crate) const PLACE: Bounds<2, 2> =
    Bounds { near: [2000.0, 100.0], fine: [5.0e-5, 1.0e-6], of_step: OF_STEP };

/// The stretches of such a place: liquid, two phases, vapour.
pub(crate) fn stretch_by_quality(quality: f64) -> Stretch {
    Some(u8::from(quality > 0.0) + u8::from(quality >= 1.0))
}

/// Pressure of both levels from which on laws are followed, Pa: near a vacuum the steps in pressure that stand beside them are no small
/// ones.
pub(crate) const FOLLOWED_FROM_PA: f64 = 1.5e5;

/// Each law where it was last worked out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Tangents {
    pub high: LevelTangent,
    pub low: LevelTangent,
    /// Temperature and quality at the service valve of the suction line and in the liquid line, by pressure and enthalpy.
    pub at_valve: PlaceTangent,
    pub in_line: PlaceTangent,
    /// Pressure of the bulb.
    pub bulb: Tangent<1, 1, 1>,
    /// Temperatures read along the liquid line: service valve, before the drier, after it, at the metering device.
    pub liquid: [Tangent<2, 1, 0>; 4],
    /// Wet bulbs of return and supply air.
    pub wet_bulbs: [Tangent<2, 1, 0>; 2],
    pub shell: ShellTangent,
    pub path: PathTangent,
    pub condenser: CondenserTangent,
    pub coil: CoilTangents,
}

impl Tangents {
    /// Every law is worked out in the next step.
    pub(crate) fn forget(&mut self) {
        let Tangents { high, low, at_valve, in_line, bulb, liquid, wet_bulbs, shell, path, condenser, coil } =
            self;
        high.forget();
        low.forget();
        at_valve.forget();
        in_line.forget();
        bulb.forget();
        liquid.iter_mut().for_each(Tangent::forget);
        wet_bulbs.iter_mut().for_each(Tangent::forget);
        shell.forget();
        path.forget();
        condenser.forget();
        coil.forget();
    }

    /// Every law worked out whenever it is asked for.
    pub(crate) fn exact() -> Tangents {
        Tangents {
            high: Tangent::exact(),
            low: Tangent::exact(),
            at_valve: Tangent::exact(),
            in_line: Tangent::exact(),
            bulb: Tangent::exact(),
            liquid: [Tangent::exact(); 4],
            wet_bulbs: [Tangent::exact(); 2],
            shell: Tangent::exact(),
            path: Tangent::exact(),
            condenser: Tangent::exact(),
            coil: CoilTangents::exact(),
        }
    }
}

#[cfg(test)]
mod agree;
#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Inputs, Plant, Room, System, Weather, advance};

    /// Two hours at held conditions, every law followed or every law worked out: what is read agrees. A copy made on the way and a
    /// saved plant go on as the plant does.
    #[test]
    fn a_plant_settles_where_its_laws_say() {
        for name in
            ["split-3-ton-r410a-txv", "split-3-ton-r22-orifice", "split-2-ton-r454b-txv-ecm-high-efficiency"]
        {
            let system = System::built_in(name).expect("built in");
            let room = Room::Held { dry_bulb_k: 299.8, humidity_ratio: 0.0112 };
            let mut followed = Plant::new(&system, room, Weather::held(308.15), system.plate_charge_kg, &[]);
            let mut exact = Plant { tangents: Tangents::exact(), ..followed.clone() };
            let mut inputs = Inputs::default();
            inputs.thermostat.set_point_k = 285.0;
            advance(&mut exact, &inputs, 7200.0).expect("finite");
            advance(&mut followed, &inputs, 5400.0).expect("finite");
            let text = ron::to_string(&followed).expect("saved");
            let mut saved: Plant = ron::from_str(&text).expect("loaded");
            let mut copy = followed.clone();
            for one in [&mut followed, &mut saved, &mut copy] {
                advance(one, &inputs, 1800.0).expect("finite");
            }
            assert!(followed == saved && followed == copy, "{name}");
            let (followed, exact) = (followed.readout(), exact.readout());
            for (now, expected) in [
                (followed.suction_line_outdoor_k, exact.suction_line_outdoor_k),
                (followed.discharge_k, exact.discharge_k),
                (followed.supply_wet_bulb_k, exact.supply_wet_bulb_k),
                (followed.liquid_indoor_k, exact.liquid_indoor_k),
                (followed.winding_k, exact.winding_k),
            ] {
                approx::assert_abs_diff_eq!(now, expected, epsilon = 1.0e-4);
            }
            for (now, expected) in [
                (followed.suction_pressure_pa, exact.suction_pressure_pa),
                (followed.liquid_pressure_pa, exact.liquid_pressure_pa),
            ] {
                approx::assert_abs_diff_eq!(now, expected, epsilon = 1.0);
            }
        }
    }
}
