//! Flow through a short tube against a published correlation, over the states of whole systems.

use crate::chamber::{A, Point, named, settled};
use crate::check::{Check, Print, Published, Topic};
use crate::picture::{Chart, Series, Style};
use plant::{Metering, Readout, RefrigerantName, System};

/// Critical temperature, K, and pressure, Pa: R-410A after Lemmon 2003 as coded in an open property library; R-22 from memory.
fn critical(refrigerant: RefrigerantName) -> (f64, f64) {
    match refrigerant {
        RefrigerantName::R22 => (369.3, 4.99e6),
        _ => (344.494, 4.9012e6),
    }
}

/// Payne & O'Neal 2004 (HVAC&R Research 10(1), 73-87), single-phase part for a subcooled inlet, coefficients as coded in the open heat pump
/// program HPSim: mass flux over sqrt(density of saturated liquid × critical pressure).
fn payne(over_saturation: f64, subcooling: f64, density_ratio: f64, length_over_bore: f64) -> f64 {
    (0.388_11 + 11.427 * over_saturation - 14.194 * subcooling + 1.070_3 * density_ratio
        - 9.192_8e-2 * libm::log(length_over_bore))
        / (1.0 + 21.425 * over_saturation - 581.95 * subcooling * subcooling)
}

/// Flow by the correlation through one square metre, kg/s; none where the inlet is not liquid.
fn flux(system: &System, r: &Readout) -> Option<f64> {
    let fluid = system.refrigerant.tables();
    let (critical_k, critical_pa) = critical(system.refrigerant);
    let density = fluid.at_pt_liquid(r.liquid_pressure_pa, r.liquid_before_drier_k).density_kg_m3;
    let Metering::Orifice { bore_m, length_m } = system.metering else { return None };
    let resistance = system.lines.drier_resistance + system.lines.liquid_resistance();
    let inlet_pa = r.liquid_pressure_pa - resistance * r.metering_flow_kg_s * r.metering_flow_kg_s / density;
    let saturation = fluid.saturation(inlet_pa);
    let subcooling_k = saturation.bubble_k - r.liquid_indoor_k;
    // The correlation's own data begin at a degree or so of subcooling.
    if subcooling_k < 1.0 {
        return None;
    }
    let flash_pa = fluid.bubble_pressure_pa(r.liquid_indoor_k);
    let number = payne(
        (inlet_pa - flash_pa) / critical_pa,
        subcooling_k / critical_k,
        saturation.vapour_density_kg_m3 / saturation.liquid_density_kg_m3,
        length_m / bore_m,
    );
    Some(number * libm::sqrt(saturation.liquid_density_kg_m3 * critical_pa))
}

/// Weathers and charges that make every subcooling and head a learner meets.
fn states(system: &System) -> Vec<Readout> {
    let mut states = Vec::new();
    for outdoor_f in [55.0, 75.0, 95.0, 115.0] {
        for share in [0.9, 1.0, 1.1, 1.2] {
            let r = settled(system, Point { outdoor_f, ..A }, share, &[]).readout;
            states.push(r);
        }
    }
    states
}

/// Ours over the correlation, each over its value at A.
fn ratios(system: &System) -> Vec<(f64, f64)> {
    let at_a = settled(system, A, 1.0, &[]).readout;
    let Some(flux_a) = flux(system, &at_a) else { return Vec::new() };
    states(system)
        .iter()
        .filter_map(|r| {
            flux(system, r).map(|flux| (flux / flux_a, r.metering_flow_kg_s / at_a.metering_flow_kg_s))
        })
        .collect()
}

pub fn topic() -> Topic {
    let mut checks = Vec::new();
    let mut clouds = Vec::new();
    for name in ["split-3-ton-r410a-orifice", "split-3-ton-r22-orifice"] {
        let mut ratios = ratios(&named(name));
        let errors: Vec<f64> = ratios.iter().map(|(theirs, ours)| ours / theirs - 1.0).collect();
        let rms = libm::sqrt(errors.iter().map(|e| e * e).sum::<f64>() / errors.len() as f64);
        let worst = errors.iter().map(|e| e.abs()).fold(0.0, f64::max);
        let states = errors.len();
        checks.push(
            Check::new(
                format!("{name}: states with liquid at the orifice, of 16"),
                "",
                0,
                Published::AtLeast(10.0),
                states as f64,
            )
            .of_table(),
        );
        // The correlation holds most of its own data to within some 5 to 10 %; between states of one orifice less is left.
        checks.push(
            Check::new(
                format!("{name}: flow over that at A, root mean square off the correlation, {states} states"),
                "%",
                1,
                Published::AtMost(4.0),
                100.0 * rms,
            )
            .of_table(),
        );
        checks.push(
            Check::new(
                format!("{name}: flow over that at A, worst"),
                "%",
                1,
                Published::AtMost(8.0),
                100.0 * worst,
            )
            .of_table(),
        );
        ratios.sort_by(|a, b| a.0.total_cmp(&b.0));
        clouds.push((name, ratios));
    }
    let mut series = vec![
        Series::new("the correlation, band 4 %", Style::Guide, vec![(0.6, 0.6), (1.4, 1.4)]).band_share(0.04),
    ];
    for ((name, points), style) in clouds.into_iter().zip([Style::Ours, Style::OursSecond]) {
        series.push(Series::new(name, style, points).apart());
    }
    Topic {
        name: "orifice flow",
        source: "Flow through the orifice of settled systems, 55 to 115 °F outdoors, 90 to 120 % of the charge, over that at A, against the short-tube correlation of \
                 Payne & O'Neal 2004 (HVAC&R Research 10(1)), coefficients as coded in the open program HPSim. Liquid at the inlet only. The plant \
                 uses that correlation: this shows that it is coded right, and counts as a table.",
        checks,
        print: Print::Rows,
        tables: String::new(),
        charts: vec![Chart {
            file: "orifice-flow",
            title: "Flow through a fixed orifice, over that at rating A".to_owned(),
            x: "by the correlation".to_owned(),
            y: "in the settled system".to_owned(),
            series,
        }],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A piston of 1.7 mm passes about what a 3-ton system needs: 20 g/s a ton at 45 °C condensing and 6 K of subcooling.
    #[test]
    fn the_correlation_gives_the_flow_of_a_real_piston() {
        let fluid = media::refrigerant::Refrigerant::r410a();
        let inlet_pa = fluid.bubble_pressure_pa(318.15);
        let saturation = fluid.saturation(inlet_pa);
        let (critical_k, critical_pa) = critical(RefrigerantName::R410A);
        let flash_pa = fluid.bubble_pressure_pa(312.15);
        let number = payne(
            (inlet_pa - flash_pa) / critical_pa,
            6.0 / critical_k,
            saturation.vapour_density_kg_m3 / saturation.liquid_density_kg_m3,
            12.7 / 1.7,
        );
        let area_m2 = 0.25 * std::f64::consts::PI * 1.7e-3 * 1.7e-3;
        let flow = number * libm::sqrt(saturation.liquid_density_kg_m3 * critical_pa) * area_m2;
        assert!((0.04..0.09).contains(&flow), "{flow} kg/s");
    }
}
