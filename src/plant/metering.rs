//! Metering device and the path to it: drier, liquid line, valve, solved as one monotone root.

mod flashing;
mod laminar;
mod short_tube;
mod stream;
mod valve;

use media::refrigerant::{Isobar, Refrigerant};

use crate::level::LevelState;
use crate::root::Bracket;
use crate::system::Metering;
use crate::tangent::{Bounds, OF_STEP, Tangent, near_nothing};

pub(crate) use flashing::Critical;
use laminar::Laminar;
use short_tube::ShortTube;
use stream::Stream;

/// Discharge coefficient of a metering device for gas that flows back through it (typ. of a sharp edge).
const BACK_DISCHARGE: f64 = 0.6;

/// A metering device as it stands.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Device {
    /// Expansion valve with an open area, m².
    Valve { area_m2: f64 },
    /// Fixed orifice.
    ShortTube(ShortTube),
}

impl Device {
    /// The device with a share of its area open.
    pub(crate) fn of(metering: &Metering, open_share: f64) -> Device {
        match *metering {
            Metering::Txv { area_m2, .. } => Device::Valve { area_m2: area_m2 * open_share },
            Metering::Orifice { bore_m, length_m } => {
                Device::ShortTube(ShortTube { bore_m: bore_m * libm::sqrt(open_share.max(0.0)), length_m })
            }
        }
    }

    /// Gas that flows back from a higher pressure behind the device, kg/s, negative.
    fn back_kg_s(&self, density_kg_m3: f64, inlet_pa: f64, evaporator_pa: f64) -> f64 {
        let area_m2 = match *self {
            Device::Valve { area_m2 } => area_m2,
            Device::ShortTube(tube) => core::f64::consts::FRAC_PI_4 * tube.bore_m * tube.bore_m,
        };
        BACK_DISCHARGE * area_m2 * libm::sqrt(2.0 * density_kg_m3) * Laminar::root(inlet_pa - evaporator_pa)
    }

    fn is_shut(&self) -> bool {
        match *self {
            Device::Valve { area_m2 } => area_m2 <= 0.0,
            Device::ShortTube(tube) => tube.bore_m <= 0.0,
        }
    }
}

/// The path from the condenser to the evaporator at one instant.
pub(crate) struct LiquidPath<'a> {
    pub fluid: &'a Refrigerant,
    pub critical: Critical,
    /// Total pressure at the condenser outlet, Pa.
    pub condenser_pa: f64,
    /// What stands there, and the states at that pressure where it is another.
    pub condenser: &'a LevelState,
    pub elsewhere: Option<&'a Isobar<'a>>,
    /// Density at the condenser outlet, kg/m³.
    pub outlet_density_kg_m3: f64,
    /// Enthalpy of the liquid line, J/kg.
    pub line_enthalpy_j_kg: f64,
    /// Of a kink between the service valve and the drier.
    pub kink_resistance: f64,
    pub drier_resistance: f64,
    pub line_resistance: f64,
    /// Total pressure in the evaporator, Pa.
    pub evaporator_pa: f64,
    /// Density of the gas in the evaporator, which leaves before the liquid does where it stands higher, kg/m³.
    pub back_kg_m3: f64,
    pub device: Device,
}

/// How far the search for the flow goes.
#[derive(Clone, Copy, Debug)]
pub(crate) struct RootLimits {
    pub steps: u32,
    pub tolerance_kg_s: f64,
}

impl RootLimits {
    /// As far as a step needs, which starts from the flow of the last one.
    pub(crate) const STEP: RootLimits = RootLimits { steps: 7, tolerance_kg_s: 1.0e-7 };
    /// To rounding.
    pub(crate) const FINE: RootLimits = RootLimits { steps: 80, tolerance_kg_s: 1.0e-14 };
}

/// Solved flow.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Flow {
    pub flow_kg_s: f64,
    /// At the drier's inlet, behind a kink.
    pub after_kink_pa: f64,
    pub after_drier_pa: f64,
    pub valve_inlet_pa: f64,
    pub line_density_kg_m3: f64,
}

impl LiquidPath<'_> {
    /// Pressure behind the kink, Pa, and density there, kg/m³: what flashes in the kink is lighter in the drier.
    fn behind_kink(&self, stream: &Stream<'_>, m: f64) -> (f64, f64) {
        if self.kink_resistance <= 0.0 {
            return (self.condenser_pa, self.outlet_density_kg_m3);
        }
        let pressure_pa =
            (self.condenser_pa - self.kink_resistance * m * m / self.outlet_density_kg_m3).max(2.0e3);
        let before = stream.at(self.condenser_pa).density_kg_m3();
        let behind = stream.at(pressure_pa).density_kg_m3();
        (pressure_pa, self.outlet_density_kg_m3 * (behind / before).min(1.0))
    }

    /// Flow that the device passes, and the state before it, if `m` flowed through drier and line.
    fn device_flow(&self, stream: &Stream<'_>, m: f64) -> (f64, Flow) {
        let (after_kink, drier_density) = self.behind_kink(stream, m);
        let after_drier = (after_kink - self.drier_resistance * m * m / drier_density).max(2.0e3);
        let in_line = stream.at(after_drier).density_kg_m3();
        let inlet_pa = (after_drier - self.line_resistance * m * m / in_line).max(2.0e3);
        let inlet = stream.at(inlet_pa);
        let flow = if inlet_pa < self.evaporator_pa {
            self.device.back_kg_s(self.back_kg_m3, inlet_pa, self.evaporator_pa)
        } else {
            match &self.device {
                Device::Valve { area_m2 } => {
                    valve::flow_kg_s(*area_m2, &inlet, inlet_pa, self.evaporator_pa, &self.critical)
                }
                Device::ShortTube(tube) => {
                    tube.flow_kg_s(stream, &inlet, inlet_pa, self.evaporator_pa, &self.critical)
                }
            }
        };
        let state = Flow {
            flow_kg_s: flow,
            after_kink_pa: after_kink,
            after_drier_pa: after_drier,
            valve_inlet_pa: inlet_pa,
            line_density_kg_m3: 0.5 * (in_line + inlet.density_kg_m3()),
        };
        (flow, state)
    }

    /// The flow at which path and device agree, kg/s; negative (from the evaporator back) when the
    /// evaporator stands higher. `last_kg_s` starts the search.
    pub(crate) fn solve(&self, last_kg_s: f64, search: RootLimits) -> Flow {
        let stream = Stream::from(
            self.fluid,
            self.elsewhere.unwrap_or_else(|| self.condenser.isobar_of_all()),
            self.line_enthalpy_j_kg,
        );
        let mut at_root = Flow::default();
        let mut gap = |m: f64| {
            let (flow, state) = self.device_flow(&stream, m);
            at_root = Flow { flow_kg_s: m, ..state };
            flow - m
        };
        let is_open = !self.device.is_shut();
        // device(m) - m falls, and device(m) does not rise: the flow lies between m and device(m).
        if is_open && last_kg_s > LEAST_KG_S {
            let near = gap(last_kg_s);
            if near.abs() < search.tolerance_kg_s {
                return at_root;
            }
            let far = last_kg_s + near;
            if far > LEAST_KG_S
                && let Ok(bracket) = Bracket::of((last_kg_s, near), (far, gap(far)))
            {
                bracket.root(bracket.secant(), search.steps - 1, search.tolerance_kg_s, gap);
                return at_root;
            }
        }
        let (open, state) = self.device_flow(&stream, 0.0);
        if open <= 0.0 || !is_open {
            return state;
        }
        // It is positive at 0 and negative at `open`.
        let start = last_kg_s.clamp(0.02 * open, 0.98 * open);
        let near = gap(start);
        if near.abs() < search.tolerance_kg_s {
            return at_root;
        }
        let far = if near > 0.0 { (open, gap(open)) } else { (0.0, open) };
        if let Ok(bracket) = Bracket::of((start, near), far) {
            bracket.root(bracket.secant(), search.steps - 1, search.tolerance_kg_s, gap);
        }
        at_root
    }
}

/// Flow from which on the last one leads to the next, kg/s (numerical).
const LEAST_KG_S: f64 = 1.0e-4;

/// How far from where the path was solved its arguments may be: pressure, Pa, and density, kg/m³, at the condenser's outlet, enthalpy
/// of the liquid line, J/kg, pressure beyond that of the evaporator, Pa, open share and, where the evaporator stands higher, density of
/// its gas, kg/m³. The flow may be off by 1e-7 kg/s, pressures by 2 Pa, the density by 0.01 kg/m³ and
/// enthalpy beyond that at which it flashes by 1 J/kg.
const PATH: Bounds<6, 6> = Bounds {
    near: [2000.0, 0.5, 80.0, 1000.0, 5.0e-4, 0.1],
    fine: [1.0e-7, 2.0, 2.0, 2.0, 1.0e-2, 1.0],
    of_step: OF_STEP,
};

/// Share of the pressures under a root by which the difference may be off, and open share that hardly counts.
const ROOT_SHARE: f64 = 0.05;
const LITTLE_OPEN: f64 = 1.0e-6;

/// Flow, pressures, density and enthalpy beyond bubble on the path by these arguments, with kink, drier and direction.
pub(crate) type PathTangent = Tangent<6, 6, 3>;
/// In its stretch: vapour comes to the device.
const FLASHES: u8 = 1;

/// How far the search goes for a flow that is followed.
const FOLLOWED: RootLimits = RootLimits { steps: 9, tolerance_kg_s: 1.0e-9 };

impl LiquidPath<'_> {
    /// The same as [`LiquidPath::solve`], followed along a tangent while all moves slowly. `open_share` is that of the device.
    pub(crate) fn follow(
        &self,
        tangent: &mut PathTangent,
        metering: &Metering,
        open_share: f64,
        last_kg_s: f64,
        search: RootLimits,
    ) -> Flow {
        let search = RootLimits {
            tolerance_kg_s: search.tolerance_kg_s.min(FOLLOWED.tolerance_kg_s),
            steps: search.steps.max(FOLLOWED.steps),
        };
        let is_back = self.evaporator_pa > self.condenser_pa;
        let arguments = [
            self.condenser_pa,
            self.outlet_density_kg_m3,
            self.line_enthalpy_j_kg,
            self.condenser_pa - self.evaporator_pa,
            open_share,
            if is_back { self.back_kg_m3 } else { 0.0 },
        ];
        let mut bounds = PATH;
        bounds.near[3] = bounds.near[3].min(ROOT_SHARE * (arguments[3].abs() + Laminar::BELOW_PA));
        bounds.near[4] = near_nothing(bounds.near[4], open_share, LITTLE_OPEN);
        let settings = [self.kink_resistance, self.drier_resistance, f64::from(u8::from(is_back))];
        let mut start_kg_s = last_kg_s;
        let mut law = |a: &[f64; 6]| {
            let &[condenser_pa, outlet_density_kg_m3, line_enthalpy_j_kg, ..] = a;
            let &[.., difference_pa, open_share, back_kg_m3] = a;
            let evaporator_pa = condenser_pa - difference_pa;
            let elsewhere = (condenser_pa != self.condenser_pa).then(|| self.fluid.isobar(condenser_pa));
            let path = LiquidPath {
                condenser_pa,
                elsewhere: elsewhere.as_ref(),
                outlet_density_kg_m3,
                line_enthalpy_j_kg,
                evaporator_pa,
                back_kg_m3: if back_kg_m3 > 0.0 { back_kg_m3 } else { self.back_kg_m3 },
                device: Device::of(metering, open_share),
                ..*self
            };
            let flow = path.solve(start_kg_s, search);
            start_kg_s = flow.flow_kg_s;
            let flashes_from = self.fluid.bubble_enthalpy_j_kg(flow.valve_inlet_pa);
            let numbers = [
                flow.flow_kg_s,
                flow.after_kink_pa,
                flow.after_drier_pa,
                flow.valve_inlet_pa,
                flow.line_density_kg_m3,
                line_enthalpy_j_kg - flashes_from,
            ];
            let back = flow.valve_inlet_pa < evaporator_pa;
            let flashes = line_enthalpy_j_kg > flashes_from;
            (numbers, Some(FLASHES * u8::from(flashes) + 2 * u8::from(back)))
        };
        let mut numbers = tangent.follow(settings, arguments, bounds, &mut law);
        // The first bubbles make the line lighter at once.
        if tangent.has_crossed(numbers[5] > 0.0, FLASHES) {
            tangent.leave();
            numbers = law(&arguments).0;
        }
        let [flow_kg_s, after_kink_pa, after_drier_pa, valve_inlet_pa, line_density_kg_m3, _] = numbers;
        Flow { flow_kg_s, after_kink_pa, after_drier_pa, valve_inlet_pa, line_density_kg_m3 }
    }
}

/// Bulb temperature at which the spring is set, K: some 50 °F, as at rating A (common practice, no source).
const SPRING_SET_AT_K: f64 = 283.15;

/// Superheat at which the spring lets the valve open, K: by how much warmer than the evaporator the bulb is then. 0 for an orifice.
pub(crate) fn opens_at_k(fluid: &Refrigerant, metering: &Metering) -> f64 {
    match metering {
        Metering::Txv { spring_pa, .. } => {
            SPRING_SET_AT_K - fluid.dew_k(fluid.dew_pressure_pa(SPRING_SET_AT_K) - spring_pa)
        }
        Metering::Orifice { .. } => 0.0,
    }
}

/// Pressure of the bulb's cross charge, Pa. Its curve is flatter than the system's, so that the superheat at which the valve opens,
/// `opens_k`, is the same at every evaporating temperature. Above the largest pressure of its gas charge it has that (ASHRAE Handbook,
/// Refrigeration, "Refrigerant-control devices", from memory). A bulb filled with the system's own refrigerant would ask for three
/// times the superheat at -25 °F that it asks for at 45 °F, and starve a frozen coil.
pub(crate) fn bulb_pressure_pa(fluid: &Refrigerant, opens_k: f64, spring_pa: f64, bulb_k: f64) -> f64 {
    fluid.dew_pressure_pa(bulb_k - opens_k) + spring_pa
}

/// Opening of an expansion valve, 0 to 1, before any fault.
pub(crate) fn txv_opening(metering: &Metering, bulb_pressure_pa: f64, evaporator_pa: f64) -> f64 {
    match metering {
        Metering::Txv { spring_pa, gradient_pa, bleed, .. } => {
            ((bulb_pressure_pa - evaporator_pa - spring_pa) / gradient_pa).clamp(*bleed, 1.0)
        }
        Metering::Orifice { .. } => 1.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::RefrigerantName;

    const DEVICES: [Device; 2] = [
        Device::Valve { area_m2: 1.7e-6 },
        Device::ShortTube(ShortTube { bore_m: 1.73e-3, length_m: 12.7e-3 }),
    ];

    /// The valve begins to open at one superheat from -25 to 50 °F; a bulb with the system's own refrigerant would ask for 2.5 times as
    /// much at the cold end.
    #[test]
    fn the_valve_opens_at_one_superheat() {
        for name in RefrigerantName::ALL {
            let fluid = name.tables();
            let metering = Metering::Txv {
                area_m2: 1.7e-6,
                spring_pa: 1.2e5,
                gradient_pa: 1.0e5,
                bleed: 0.0,
                bulb_pressure_max_pa: 1.5e6,
                bulb_time_s: 20.0,
            };
            let opens_k = opens_at_k(fluid, &metering);
            let superheats_k = [241.5, 255.0, 269.0, 283.15].map(|evaporating_k| {
                let evaporator_pa = fluid.dew_pressure_pa(evaporating_k);
                let opening = |superheat_k: f64| {
                    let bulb_pa =
                        bulb_pressure_pa(fluid, opens_k, 1.2e5, evaporating_k + superheat_k).min(1.5e6);
                    txv_opening(&metering, bulb_pa, evaporator_pa)
                };
                assert!(opening(opens_k - 0.1) <= 0.0 && opening(opens_k + 0.3) > 0.0, "{name:?}");
                let own_k = fluid.dew_k(evaporator_pa + 1.2e5) - evaporating_k;
                own_k / opens_k
            });
            assert!(superheats_k[0] > 2.0 && superheats_k[3] < 1.0, "{name:?} {superheats_k:?}");
        }
    }

    /// Whatever device and fluid: less pressure before the device never means more flow, so that the path has one root.
    #[test]
    fn flow_never_rises_as_the_inlet_falls() {
        for name in RefrigerantName::ALL {
            let fluid = name.tables();
            for (device, highest_pa) in
                DEVICES.iter().flat_map(|d| [1.2e6, 2.0e6, 2.8e6, 3.4e6].map(|p| (d, p)))
            {
                for kelvin in [-40.0, -20.0, -8.0, -2.0, 0.0] {
                    let s = fluid.saturation(highest_pa);
                    for quality in [0.0, 0.05, 0.3, 1.0] {
                        if quality > 0.0 && kelvin < 0.0 {
                            continue;
                        }
                        let h = fluid.at_pt_liquid(highest_pa, s.bubble_k + kelvin).enthalpy_j_kg
                            + quality * (s.vapour_enthalpy_j_kg - s.liquid_enthalpy_j_kg);
                        let stream = Stream::of(fluid, highest_pa, h);
                        let flow = |pressure_pa: f64| {
                            let inlet = stream.at(pressure_pa);
                            match device {
                                Device::Valve { area_m2 } => {
                                    valve::flow_kg_s(*area_m2, &inlet, pressure_pa, 3.0e5, &name.critical())
                                }
                                Device::ShortTube(tube) => {
                                    tube.flow_kg_s(&stream, &inlet, pressure_pa, 3.0e5, &name.critical())
                                }
                            }
                        };
                        let mut last = flow(highest_pa);
                        for i in 1..=200 {
                            let pressure_pa = highest_pa + (6.0e5 - highest_pa) * f64::from(i) / 200.0;
                            let now = flow(pressure_pa);
                            // Outside the data's pressures, where liquid is hardly subcooled, the fit bends by some
                            // thousandths; the drop of the path is far steeper, so the root stays one.
                            let inside = (1.3e6..3.4e6).contains(&pressure_pa);
                            let room = if inside { 1e-9 } else { 3e-3 };
                            assert!(
                                now <= last * (1.0 + room),
                                "{name:?} {device:?} {highest_pa} {kelvin} {quality}: {now} after {last} at {pressure_pa}"
                            );
                            last = now;
                        }
                    }
                }
            }
        }
    }

    /// The stream's straight lines against the property tables: temperature, density and the pressure at which it flashes.
    #[test]
    fn a_stream_is_the_liquid_it_stands_for() {
        for name in RefrigerantName::ALL {
            let fluid = name.tables();
            for (highest_pa, kelvin) in [(1.5e6, 3.0), (2.8e6, 7.0), (2.8e6, 25.0), (3.8e6, 15.0)] {
                let top = fluid.at_pt_liquid(highest_pa, fluid.bubble_k(highest_pa) - kelvin);
                let stream = Stream::of(fluid, highest_pa, top.enthalpy_j_kg);
                let line = stream.liquid.expect("liquid");
                let at_flash = fluid.saturation(line.flash_pa).liquid_enthalpy_j_kg;
                assert!((at_flash - top.enthalpy_j_kg).abs() < 100.0, "{name:?} {kelvin}: {at_flash}");
                let middle_pa = 0.5 * (line.flash_pa + highest_pa);
                let expected = fluid.at_ph(middle_pa, top.enthalpy_j_kg);
                let stream::Inlet::Liquid { density_kg_m3, temperature_k, .. } = stream.at(middle_pa) else {
                    panic!("liquid")
                };
                approx::assert_relative_eq!(density_kg_m3, expected.density_kg_m3, max_relative = 2e-3);
                approx::assert_abs_diff_eq!(temperature_k, expected.temperature_k, epsilon = 0.05);
            }
        }
    }
}
