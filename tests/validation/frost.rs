//! Frost and thaw.

use crate::chamber::{A, Point, at_rest, at_rest_with, calling, fault, off, orifice, valve};
use crate::check::{Check, Print, Published, Topic};
use crate::picture::{Chart, Series, Style};
use crate::tuned::{HELD_WATER, THAW};
use plant::{FanSetting, FaultKind, FilterSlot, Inputs, Plant, advance, frost_density_kg_m3};

/// Ice on the coil by time, until it is gone, kg by minutes.
fn thaw(mut plant: Plant, inputs: &Inputs, minutes_max: u32) -> Vec<(f64, f64)> {
    let mut curve = vec![(0.0, plant.readout().frost_mass_kg)];
    for minute in 1..=minutes_max {
        advance(&mut plant, inputs, 60.0).expect("finite");
        curve.push((f64::from(minute), plant.readout().frost_mass_kg));
        if plant.readout().frost_mass_kg <= 0.0 {
            break;
        }
    }
    curve
}

/// A cool house on a mild day.
const MILD: Point = Point { outdoor_f: 78.0, dry_f: 70.0, wet_f: 60.0 };

const BARE: &str = "Ice of a starved coil: at 60 % of the charge our valve, wide open, still evaporates at 31 °F, and with all its air the surface of the coil stays above freezing. Ours needs some 27 °F evaporating \
                    before ice takes hold with all the air: at 55 % of the charge the valve ices over within hours, the orifice at 65 %.";

/// Condensate on the fins at rating A, and how fast it goes back when cooling stops and the fan goes on.
fn held_water() -> [Check; 2] {
    let mut plant = at_rest(&valve(), A);
    advance(&mut plant, &calling(), 5400.0).expect("finite");
    let r = plant.readout();
    let latent_kg_s = (r.gross_cooling_w - r.sensible_cooling_w) / 2.50e6;
    let fills_s = r.coil_water_kg / latent_kg_s;
    let mut fan = off();
    fan.thermostat.fan = FanSetting::On;
    advance(&mut plant, &fan, 90.0).expect("finite");
    let before_kg = plant.coil_water().from_air_kg;
    advance(&mut plant, &fan, 60.0).expect("finite");
    let back_kg_s = (before_kg - plant.coil_water().from_air_kg) / 60.0;
    [
        Check::new(
            "water held by the fins, in time of latent capacity at A",
            "s",
            0,
            Published::Near { value: 1000.0, band: 400.0 },
            fills_s,
        )
        .tuned(HELD_WATER),
        Check::ratio(
            "first evaporation under the fan over latent capacity at A",
            1.5,
            0.5,
            back_kg_s / latent_kg_s,
        ),
    ]
}

pub fn topic() -> Topic {
    let mut checks = Vec::new();
    let density = |minutes: f64| frost_density_kg_m3(23.9, 0.5, -5.0, 60.0 * minutes);
    for (minutes, published) in [(10.0, 59.0), (60.0, 146.0)] {
        checks.push(
            Check::new(
                format!("density, 75 °F and 50 % room air, plate at -5 °C, {minutes:.0} min"),
                "kg/m³",
                0,
                Published::Near { value: published, band: 0.3 * published },
                density(minutes),
            )
            .of_table(),
        );
    }
    let mut plant = at_rest(&valve(), MILD);
    plant.inject(fault(FaultKind::LoadedFilter, 0.9));
    advance(&mut plant, &calling(), 8.0 * 3600.0).expect("finite");
    // The disc rests such a machine for half an hour now and then, and its block opens a little; the block is looked at when it is shut.
    for _ in 0..180 {
        if plant.readout().open_share < 0.02 {
            break;
        }
        advance(&mut plant, &calling(), 60.0).expect("finite");
    }
    let mut blowing = off();
    blowing.thermostat.fan = FanSetting::On;
    blowing.filter = FilterSlot::Removed;
    let with_blower = thaw(plant.clone(), &blowing, 480);
    let still = thaw(plant, &off(), 1500);
    let minutes = |curve: &[(f64, f64)]| curve.last().map_or(f64::NAN, |p| p.0);
    let between = |low: f64, high: f64| Published::Between { low, high };
    let ice_kg = with_blower[0].1;
    checks.push(
        Check::new(
            format!("thaw of {ice_kg:.1} kg with the blower on"),
            "min",
            0,
            between(60.0, 120.0),
            minutes(&with_blower),
        )
        .tuned(THAW),
    );
    checks.push(
        Check::new(
            format!("thaw of {ice_kg:.1} kg with everything off"),
            "min",
            0,
            between(360.0, 840.0),
            minutes(&still),
        )
        .tuned(THAW),
    );
    checks.push(Check::new(
        "ice of a coil behind a filter loaded to 0.9, eight hours at 70/60 °F in, 78 °F out, 3 tons",
        "kg",
        1,
        between(4.0, 8.0),
        ice_kg,
    ));
    // Charge that is missing is missing from the start; as a fault that is injected later it would change nothing.
    let mut starved = at_rest_with(&valve(), MILD, 0.6);
    advance(&mut starved, &calling(), 6.0 * 3600.0).expect("finite");
    checks.push(
        Check::new(
            "ice of a starved coil (40 % of the charge missing) after six hours, same weather",
            "kg",
            1,
            Published::AtLeast(1.5),
            starved.readout().frost_mass_kg,
        )
        .known(0.0, 0.5, BARE),
    );
    let mut half = at_rest_with(&orifice(), MILD, 0.5);
    advance(&mut half, &calling(), 2.0 * 3600.0).expect("finite");
    let less = thaw(half, &blowing, 480);
    checks.push(Check::new(
        format!(
            "thaw of less ice ({:.1} kg: orifice, half the charge, two hours) with the blower on",
            less[0].1
        ),
        "min",
        0,
        Published::AtMost(90.0),
        minutes(&less),
    ));
    checks.extend(held_water());
    let times = [5.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0];
    Topic {
        name: "frost",
        source: "Density: Hermes 2014 (from memory), band 30 %; the law is the one that the model ages its frost by, so this shows that it is integrated \
                 rightly, not that it is right. Thaw of a block: one to two hours with the blower, half a day without (shop experience, no source); it chose how late a block opens \
                 and how little comes through the cabinet, so it proves nothing. Less ice than a block: gone within an hour and a half (advice pages of the trade: 30 to 90 \
                 minutes); that chose nothing. Ice: a block on three tons weighs 4 to 8 kg, low charge ends in solid ice too (common practice, no source). \
                 Water: suggested values of the EnergyPlus Input Output Reference after Henderson and Rengarajan 1996 (from memory); the time chose how much water the fins hold, \
                 nothing the ratio.",
        checks,
        print: Print::Rows,
        tables: String::new(),
        charts: vec![
            Chart {
                file: "frost-density",
                title: "Density of frost, 75 °F and 50 % room air, plate at -5 °C".to_owned(),
                x: "minutes".to_owned(),
                y: "kg/m³".to_owned(),
                series: vec![
                    Series::new(
                        "Hermes 2014, band 30 %",
                        Style::Published,
                        vec![(10.0, 59.0), (60.0, 146.0)],
                    )
                    .band_share(0.3)
                    .apart(),
                    Series::new("ours", Style::Ours, times.map(|t| (t, density(t))).to_vec()),
                ],
            },
            Chart {
                file: "thaw",
                title: format!("Thaw of {ice_kg:.1} kg of ice"),
                x: "minutes".to_owned(),
                y: "ice on the coil, kg".to_owned(),
                series: vec![
                    Series::new("ours, blower on", Style::Ours, thin(&with_blower)),
                    Series::new("ours, everything off", Style::OursSecond, thin(&still)),
                ],
            },
        ],
    }
}

/// Every tenth minute and the end.
fn thin(curve: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let last = curve.len() - 1;
    curve.iter().enumerate().filter(|(i, _)| i % 10 == 0 || *i == last).map(|(_, p)| *p).collect()
}
