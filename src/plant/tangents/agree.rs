//! Every step of followed laws against the same step with all of them worked out: not where a plant comes to, which a hunting valve
//! decides, but what is made of the state that it is in. So no law can stay behind unseen, however long it is followed.

use super::Tangents;
use crate::{
    BASE_STEP_S, CylinderPhase, FanSetting, Fault, FaultKind, Inputs, LeakPlace, Mode, Plant, PortConnection,
    Room, Switch, System, Weather, step,
};

/// What a step makes of a plant, by how much that may be off at worst, for the some seconds that a plane lasts beyond a corner, and in
/// the mean: pressures, Pa, flows, kg/s, heat into high and low side and power, W, heat from the walls, W, temperatures at two ends, K.
/// Half of what a gauge in steps of 0.1 psi shows is 345 Pa.
const MAY_BE_OFF: [(&str, f64, f64); 8] = [
    ("high side, Pa", 60.0, 0.3),
    ("low side, Pa", 60.0, 0.3),
    ("flow, kg/s", 2.0e-4, 5.0e-7),
    ("heat into the high side, W", 250.0, 0.2),
    ("heat into the low side, W", 20.0, 0.2),
    ("power, W", 1.0, 0.01),
    ("heat from walls, W", 10.0, 0.05),
    ("ends of coil and suction line, K", 0.1, 1.0e-4),
];

/// By how much one is off the other after a step from the same state.
fn off(followed: &Plant, exact: &Plant) -> [f64; MAY_BE_OFF.len()] {
    let by = |of: fn(&Plant) -> f64| (of(followed) - of(exact)).abs();
    let flow = by(|p| p.last.valve_flow_kg_s)
        .max(by(|p| p.last.outlet_flow_kg_s))
        .max(by(|p| p.last.compressor_flow_kg_s))
        .max(by(|p| p.last.suction_flow_kg_s));
    [
        by(|p| p.high.pressure_pa),
        by(|p| p.low.pressure_pa),
        flow,
        by(|p| p.high.energy_j) / BASE_STEP_S,
        by(|p| p.low.energy_j) / BASE_STEP_S,
        by(|p| p.last.compressor_power_w),
        by(|p| p.last.condenser_to_wall_w).max(by(|p| p.last.coil_from_wall_w.iter().sum())),
        by(|p| p.last.evaporator_outlet_k).max(by(|p| p.last.suction_outdoor_k)),
    ]
}

/// A plant on its way, and by how much its steps were off.
struct Watched {
    plant: Plant,
    compared: f64,
    worst: [f64; MAY_BE_OFF.len()],
    sum: [f64; MAY_BE_OFF.len()],
}

impl Watched {
    fn go(&mut self, inputs: &Inputs, seconds: f64) {
        for i in 0..(seconds / BASE_STEP_S) as u32 {
            let mut exact = (i % 5 == 0).then(|| Plant { tangents: Tangents::exact(), ..self.plant.clone() });
            step(&mut self.plant, inputs, BASE_STEP_S).expect("finite");
            if let Some(exact) = &mut exact {
                step(exact, inputs, BASE_STEP_S).expect("finite");
                self.compared += 1.0;
                for (n, by) in off(&self.plant, exact).into_iter().enumerate() {
                    assert!(by.is_finite(), "{} at {} s", MAY_BE_OFF[n].0, self.plant.time_s);
                    self.worst[n] = self.worst[n].max(by);
                    self.sum[n] += by;
                }
            }
        }
    }
}

/// Running, standing, running again, without its compressor, emptied as far as laws are followed, running and standing with what is
/// left, and with some more.
fn through_all(system: &System, fault: Fault) -> Watched {
    let room = Room::Held { dry_bulb_k: 298.0, humidity_ratio: 0.011 };
    let plant = Plant::new(system, room, Weather::held(306.0), system.plate_charge_kg, &[fault]);
    let mut on = Watched { plant, compared: 0.0, worst: Default::default(), sum: Default::default() };
    let mut cooling = Inputs::default();
    cooling.thermostat.mode = Mode::Cool;
    cooling.thermostat.set_point_k = 285.0;
    let mut standing = cooling.clone();
    standing.thermostat.mode = Mode::Off;
    let without_compressor = Inputs { outdoor_disconnect: Switch::Open, ..cooling.clone() };
    let mut emptied = standing.clone();
    emptied.thermostat.fan = FanSetting::On;
    emptied.suction_port = PortConnection::RecoveryMachineTo { pressure_pa: 1.8e5 };
    emptied.liquid_port = emptied.suction_port;
    let mut charged = cooling.clone();
    charged.suction_port =
        PortConnection::Cylinder { phase: CylinderPhase::Vapour, temperature_k: 295.0, opening: 1.0 };
    for (inputs, seconds) in [
        (&cooling, 1500.0),
        (&standing, 900.0),
        (&cooling, 400.0),
        (&without_compressor, 200.0),
        (&emptied, 1200.0),
        (&cooling, 600.0),
        (&standing, 300.0),
        (&charged, 60.0),
        (&cooling, 600.0),
    ] {
        on.go(inputs, seconds);
    }
    on
}

/// With every fault at both ends of its severity.
fn is_what_laws_say(name: &str) {
    let system = System::built_in(name).expect("built in");
    let mut worst = [0.0_f64; MAY_BE_OFF.len()];
    for kind in FaultKind::ALL {
        for severity in [0.02, 1.0] {
            let place = kind.needs_place().then_some(LeakPlace::IndoorCoil);
            let on = through_all(&system, Fault { kind, place, severity, onset_s: 0.0 });
            for (n, (what, at_worst, in_the_mean)) in MAY_BE_OFF.into_iter().enumerate() {
                let mean = on.sum[n] / on.compared;
                assert!(
                    on.worst[n] <= at_worst && mean <= in_the_mean,
                    "{name}, {kind:?} {severity}: {what} off by {} at worst and {mean} in the mean",
                    on.worst[n]
                );
                worst[n] = worst[n].max(on.worst[n]);
            }
        }
    }
    // Nothing to compare would be right too.
    assert!(worst.iter().all(|worst| *worst > 0.0), "{name}: {worst:?}");
}

#[test]
fn with_an_expansion_valve() {
    is_what_laws_say("split-3-ton-r410a-txv");
}

#[test]
fn with_an_orifice() {
    is_what_laws_say("split-3-ton-r22-orifice");
}

#[test]
fn with_a_blend_and_a_commutated_blower() {
    is_what_laws_say("split-2-ton-r454b-txv-ecm-high-efficiency");
}
