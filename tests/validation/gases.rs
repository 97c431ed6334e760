//! Air in the circuit; properties of water vapour and refrigerant against printed tables.

use crate::chamber::{A, fault, gross_cop, settled, sound, valve};
use crate::check::{Check, Print, Published, Topic};
use crate::picture::{Chart, Series, Style};
use crate::published::NON_CONDENSABLES;
use media::moist_air::saturation_pressure_pa;
use media::units::{STANDARD_ATMOSPHERE_PA, kelvin_from_fahrenheit, psig_from_pa};
use plant::{FaultKind, System};

/// Air that the circuit holds at atmospheric pressure and 20 °C, kg (1.204 kg/m³).
fn air_at_one_atmosphere_kg(system: &System) -> f64 {
    let volume_m3 = system.condenser.volume_m3
        + system.condenser.discharge_line_volume_m3
        + system.lines.liquid_volume_m3()
        + system.lines.suction_volume_m3()
        + system.evaporator.volume_m3
        + system.compressor.shell_volume_m3;
    1.204 * volume_m3
}

/// Air at the worst severity of the fault, kg (docs/faults.md).
const AIR_AT_WORST_KG: f64 = 0.04;

pub fn topic() -> Topic {
    let system = valve();
    let healthy = sound(&system, A);
    let full_kg = air_at_one_atmosphere_kg(&system);
    let levels = [0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6];
    let runs: Vec<(f64, f64, f64)> = levels
        .iter()
        .map(|level| {
            let severity = level * full_kg / AIR_AT_WORST_KG;
            let faults =
                if *level > 0.0 { vec![fault(FaultKind::NonCondensables, severity)] } else { vec![] };
            let r = settled(&system, A, 1.0, &faults).readout;
            (*level, r.gross_cooling_w / healthy.gross_cooling_w, gross_cop(&r) / gross_cop(&healthy))
        })
        .collect();
    let mut checks = Vec::new();
    for level in [0.2, 0.4, 0.6] {
        let (capacity, cop) = NON_CONDENSABLES.at_a(level);
        let run = runs.iter().find(|r| (r.0 - level).abs() < 1e-9).expect("a run");
        checks.push(Check::ratio(format!("level {level}: capacity"), capacity, 0.05, run.1));
        checks.push(Check::ratio(format!("level {level}: COP"), cop, 0.06, run.2));
    }
    let published: Vec<(f64, f64)> = levels.map(|l| (l, NON_CONDENSABLES.at_a(l).1)).to_vec();
    Topic {
        name: "non-condensables",
        source: "Valve, rating A. Level 1 is the air that the empty circuit holds at atmospheric pressure. Cheung & Braun, NREL \
                 fy16osti/65030, coefficients as coded in the OpenStudio fault measures.",
        checks,
        print: Print::Rows,
        tables: String::new(),
        charts: vec![Chart {
            file: "non-condensables-cop",
            title: "Gross COP against air in the circuit, rating A".to_owned(),
            x: "air over the air that the circuit holds at atmospheric pressure".to_owned(),
            y: "COP over that without air".to_owned(),
            series: vec![
                Series::new("Cheung & Braun, band 0.06", Style::Published, published).band(0.06),
                Series::new("ours, valve", Style::Ours, runs.iter().map(|r| (r.0, r.2)).collect()),
            ],
        }],
    }
}

pub fn water_topic() -> Topic {
    let near = |value: f64, band: f64| Published::Near { value, band };
    let mut checks = Vec::new();
    // IAPWS-IF97 as in ASHRAE Fundamentals, water at saturation (from memory): °C, Pa.
    for (t_c, pressure_pa) in
        [(0.01, 611.7), (20.0, 2339.0), (25.0, 3169.0), (40.0, 7384.0), (50.0, 12_351.0)]
    {
        checks.push(
            Check::new(
                format!("water vapour at {t_c} °C"),
                "Pa",
                1,
                near(pressure_pa, 0.001 * pressure_pa),
                saturation_pressure_pa(t_c),
            )
            .of_table(),
        );
    }
    // CoolProp 8.0.0, atmosphere 14.696 psi; the whole table is held by tests/oracle.
    let fluid = media::refrigerant::Refrigerant::r410a();
    for (dew_f, psig) in [
        (20.0, 78.36),
        (32.0, 101.06),
        (40.0, 118.36),
        (70.0, 201.06),
        (95.0, 295.44),
        (110.0, 365.37),
        (130.0, 476.84),
    ] {
        let ours = psig_from_pa(fluid.dew_pressure_pa(kelvin_from_fahrenheit(dew_f)), STANDARD_ATMOSPHERE_PA);
        checks.push(
            Check::new(
                format!("R-410A dew pressure at {dew_f:.0} °F"),
                "psig",
                2,
                near(psig, 0.001 * (psig + 14.696)),
                ours,
            )
            .of_table(),
        );
    }
    Topic {
        name: "properties",
        source: "Water: IAPWS values as printed in ASHRAE Fundamentals (from memory). R-410A: CoolProp 8.0.0, atmosphere 14.696 psi. Bands 0.1 %.",
        checks,
        print: Print::Rows,
        tables: String::new(),
        charts: vec![],
    }
}
