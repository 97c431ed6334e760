//! Motors, capacitors and the control circuit; the blower by the fan laws.

use crate::chamber::{A, at_rest, calling, fault, named, settled, sound, valve};
use crate::check::{Check, Print, Published, Topic};
use plant::{CapacitanceReading, Capacitor, Conductor, FaultKind, Plant, Switch, System, Terminal, advance};

pub fn topic() -> Topic {
    let mut checks = Vec::new();
    let mut worst_locked = (f64::INFINITY, f64::NEG_INFINITY);
    let (mut worst_label, mut worst_control_a, mut highest_v): (f64, f64, f64) = (0.0, 0.0, 0.0);
    for name in System::names() {
        let system = named(name);
        let ratio = system.plate.locked_rotor_a / system.plate.rated_load_a;
        worst_locked = (worst_locked.0.min(ratio), worst_locked.1.max(ratio));
        let mut plant = at_rest(&system, A);
        let mut inputs = calling();
        advance(&mut plant, &inputs, 300.0).expect("finite");
        worst_control_a = worst_control_a.max(plant.current_a(&inputs, Conductor::ControlHot));
        highest_v = highest_v.max(plant.voltage_v(&inputs, Terminal::R, Terminal::C));
        inputs.outdoor_disconnect = Switch::Open;
        inputs.indoor_service_switch = Switch::Open;
        advance(&mut plant, &inputs, 30.0).expect("finite");
        for (capacitor, label_f) in [
            (Capacitor::Compressor, Some(system.plate.compressor_capacitor_f)),
            (Capacitor::OutdoorFan, Some(system.plate.fan_capacitor_f)),
            (Capacitor::Blower, system.plate.blower_capacitor_f),
        ] {
            let Some(label_f) = label_f else { continue };
            plant.discharge_capacitor(capacitor);
            plant.set_capacitor_leads(capacitor, plant::Leads::Off);
            let (a, b) = Plant::capacitor_terminals(capacitor);
            if let CapacitanceReading::Capacitance { farad } = plant.capacitance_f(&inputs, a, b) {
                worst_label = worst_label.max(100.0 * (farad / label_f - 1.0).abs());
            } else {
                worst_label = f64::NAN;
            }
        }
    }
    let between = |low: f64, high: f64| Published::Between { low, high };
    checks.push(
        Check::new(
            "locked rotor over rated load current, least of all systems",
            "",
            1,
            between(4.0, 7.0),
            worst_locked.0,
        )
        .of_table(),
    );
    checks.push(
        Check::new("locked rotor over rated load current, most", "", 1, between(4.0, 7.0), worst_locked.1)
            .of_table(),
    );
    checks.push(
        Check::new("run capacitors off their label, worst", "%", 1, Published::AtMost(6.0), worst_label)
            .of_table(),
    );
    checks.push(Check::new(
        "control circuit of a running system, most",
        "A",
        2,
        Published::AtMost(1.67),
        worst_control_a,
    ));
    checks.push(Check::new(
        "control voltage of a running system, most",
        "V",
        1,
        between(24.0, 30.0),
        highest_v,
    ));
    let transformer = valve().electrical().transformer;
    checks.push(
        Check::new(
            "control transformer at 40 VA (1.67 A)",
            "V",
            1,
            Published::Near { value: 24.0, band: 1.0 },
            transformer.open_v - 40.0 / 24.0 * transformer.inner_ohm,
        )
        .of_table(),
    );
    let system = valve();
    let healthy = sound(&system, A);
    for severity in [0.4, 0.8] {
        let slow = settled(&system, A, 1.0, &[fault(FaultKind::WrongSpeedTap, severity)]).readout;
        let speed = slow.blower_speed / healthy.blower_speed;
        let pressure = plant::Readout::external_static_pa;
        checks.push(
            Check::ratio(
                format!("fan laws at {:.0} % speed: airflow as the speed", 100.0 * speed),
                speed,
                0.03,
                slow.airflow_m3_s / healthy.airflow_m3_s,
            )
            .of_table(),
        );
        checks.push(
            Check::ratio(
                format!("fan laws at {:.0} % speed: external static pressure as its square", 100.0 * speed),
                speed * speed,
                0.03,
                pressure(&slow) / pressure(&healthy),
            )
            .of_table(),
        );
    }
    Topic {
        name: "electric",
        source: "Locked rotor: four to seven times the rated load (common practice, no source). Run capacitors: label, IEC 60252-1, commonly 6 %. \
                 Control circuit: NEC class 2, 40 VA at 24 V, up to 30 V (from memory). Fan laws: any textbook; ducts and coil held, speed by the tap.",
        checks,
        print: Print::Rows,
        tables: String::new(),
        charts: vec![],
    }
}
