//! The air, water and ice side of the indoor coil: dry to wet without a corner, condensate that stays and goes back, ice that
//! closes the coil, moves along it and thaws.

mod common;

use common::{cooling_to_f, fault, held_room, new_plant, txv};
use media::moist_air::{STANDARD_PRESSURE_PA, humidity_ratio_from_wet_bulb, saturation_humidity_ratio};
use media::units::{celsius_from_kelvin, kelvin_from_fahrenheit};
use plant::{
    CoilStage, FanSetting, FaultKind, FilterSlot, HouseModel, Inputs, Mode, Plant, Protection, Room, System,
    Weather, advance, step,
};

const THREE_TONS: [&str; 7] = [
    "split-3-ton-r22-orifice",
    "split-3-ton-r22-txv",
    "split-3-ton-r32-txv-ecm",
    "split-3-ton-r410a-orifice",
    "split-3-ton-r410a-txv",
    "split-3-ton-r410a-txv-small-condenser",
    "split-3-ton-r454b-txv",
];

fn system(name: &str) -> System {
    System::built_in(name).expect("built in")
}

fn off() -> Inputs {
    let mut inputs = Inputs::default();
    inputs.thermostat.mode = Mode::Off;
    inputs
}

fn blowing() -> Inputs {
    let mut inputs = off();
    inputs.thermostat.fan = FanSetting::On;
    inputs.filter = FilterSlot::Removed;
    inputs
}

/// Water that the coil's account cannot explain, kg.
fn water_gap_kg(plant: &Plant) -> f64 {
    let water = plant.coil_water();
    water.from_air_kg - water.ice_kg - water.held_kg - water.drained_kg
}

/// 80 °F indoors, wet bulb from dry to soaked in steps of a quarter of a degree: the latent part begins gently (not by
/// more than 1 % of the capacity in the first step), each step's growth changes by little, and capacity only rises, but for
/// less than one per mille that the first water costs in airflow. Three hours each: what a start leaves on a coil near the dew point
/// goes that slowly.
#[test]
fn latent_heat_has_no_corner() {
    let sweep: Vec<(f64, f64, f64)> = (0..=56)
        .map(|i| {
            let wet_f = 57.0 + 0.25 * f64::from(i);
            let mut plant = new_plant(&txv(), 95.0, 80.0, wet_f, &[]);
            advance(&mut plant, &cooling_to_f(40.0), 10_800.0).expect("finite");
            let r = plant.readout();
            (wet_f, r.gross_cooling_w, r.gross_cooling_w - r.sensible_cooling_w)
        })
        .collect();
    let first = sweep.iter().find(|p| p.2 > 1.0).expect("the coil gets wet");
    println!("first water at {:.2} °F wet bulb, {:.0} W", first.0, first.2);
    assert!((59.0..62.0).contains(&first.0) && first.2 < 0.01 * first.1, "{first:?}");
    for three in sweep.windows(3) {
        let bend = three[2].2 - 2.0 * three[1].2 + three[0].2;
        assert!(bend.abs() < 60.0, "latent heat turns by {bend:.0} W at {:.2} °F", three[1].0);
        assert!(three[1].1 >= three[0].1 * (1.0 - 1.0e-3), "{three:?}");
    }
}

/// Supply air is never above saturation: in rating, through a freeze, through a thaw.
#[test]
fn supply_air_is_never_supersaturated() {
    let mut plant = new_plant(&txv(), 78.0, 72.0, 64.0, &[fault(FaultKind::LoadedFilter, 0.9)]);
    let mut wettest = 0.0_f64;
    let mut look = |plant: &mut Plant, inputs: &Inputs, minutes: u32| {
        for _ in 0..60 * minutes {
            advance(plant, inputs, 1.0).expect("finite");
            let r = plant.readout();
            let (t_c, wet_c) =
                (celsius_from_kelvin(r.supply_dry_bulb_k), celsius_from_kelvin(r.supply_wet_bulb_k));
            let w = humidity_ratio_from_wet_bulb(t_c, wet_c, STANDARD_PRESSURE_PA);
            // Before the heat of blower and cabinet.
            let air_kg_s = r.airflow_m3_s * 1.2;
            let coil_c = t_c - (r.gross_cooling_w - r.net_cooling_w) / (air_kg_s * 1020.0).max(1.0);
            if r.airflow_m3_s > 0.02 {
                wettest = wettest.max(w / saturation_humidity_ratio(coil_c, STANDARD_PRESSURE_PA));
                assert!(w < 1.01 * saturation_humidity_ratio(t_c, STANDARD_PRESSURE_PA), "{r:?}");
            }
        }
    };
    look(&mut plant, &cooling_to_f(40.0), 150);
    assert!(plant.readout().frost_mass_kg > 2.0, "{:?}", plant.readout());
    look(&mut plant, &blowing(), 100);
    println!("most humid air off the coil: {wettest:.3} of saturation");
    assert!(wettest > 0.9 && wettest < 1.01, "{wettest}");
}

/// Every gram that the air loses is ice, on the fins, in the pan or back in the air; a house gets back just that.
#[test]
fn water_is_conserved() {
    let w = humidity_ratio_from_wet_bulb(22.2, 17.0, STANDARD_PRESSURE_PA);
    let model = HouseModel {
        internal_moisture_kg_s: 0.0,
        infiltration_kg_s: 0.0,
        supply_leak_share: 0.0,
        return_leak_share: 0.0,
        ..HouseModel::default()
    };
    let tight_kg = model.moisture_capacity_kg;
    let air_k = kelvin_from_fahrenheit(72.0);
    let room = Room::House { model, air_k, structure_k: air_k, humidity_ratio: w };
    let weather = Weather::held(kelvin_from_fahrenheit(80.0));
    let system = txv();
    let mut plant =
        Plant::new(&system, room, weather, system.plate_charge_kg, &[fault(FaultKind::LoadedFilter, 0.9)]);
    let mut seen = Vec::new();
    for (inputs, hours) in [(cooling_to_f(40.0), 3), (blowing(), 2), (cooling_to_f(40.0), 1), (off(), 2)] {
        for _ in 0..60 * hours {
            advance(&mut plant, &inputs, 60.0).expect("finite");
            assert!(water_gap_kg(&plant).abs() < 1e-9, "{:?}", plant.coil_water());
            let stage = plant.readout().coil_stage;
            if seen.last() != Some(&stage) {
                seen.push(stage);
            }
        }
    }
    let missing_kg = tight_kg * (w - plant.room().air().1);
    let water = plant.coil_water();
    println!("{seen:?}; {water:?}; the house lost {missing_kg:.4} kg");
    assert!(water.held_kg >= 0.0 && water.drained_kg > 1.0);
    // The house is booked a second late.
    approx::assert_abs_diff_eq!(water.from_air_kg, missing_kg, epsilon = 2e-3);
}

/// When cooling stops and the fan goes on, water goes back into the house: a day with the fan ON is more humid than one on
/// AUTO by at least two points; the supply is then cooler than the return and as humid as it can make it.
#[test]
fn fan_on_brings_the_water_back() {
    let day = |fan: FanSetting| {
        let system = txv();
        let air_k = kelvin_from_fahrenheit(75.0);
        let room =
            Room::House { model: HouseModel::default(), air_k, structure_k: air_k, humidity_ratio: 0.0105 };
        let weather = Weather {
            mean_k: kelvin_from_fahrenheit(82.0),
            swing_k: 5.0,
            dew_point_k: kelvin_from_fahrenheit(68.0),
            start_hour: 0.0,
            solar_peak_w_m2: 600.0,
        };
        let mut plant = Plant::new(&system, room, weather, system.plate_charge_kg, &[]);
        let mut inputs = cooling_to_f(75.0);
        inputs.thermostat.fan = fan;
        advance(&mut plant, &inputs, 24.0 * 3600.0).expect("finite");
        let mut humidity = 0.0;
        for _ in 0..24 * 60 {
            advance(&mut plant, &inputs, 60.0).expect("finite");
            humidity += plant.readout().room_relative_humidity / (24.0 * 60.0);
        }
        (humidity, plant.coil_water())
    };
    let ((auto, auto_water), (on, on_water)) = (day(FanSetting::Auto), day(FanSetting::On));
    println!("AUTO {auto:.3}, {auto_water:?}; ON {on:.3}, {on_water:?}");
    assert!(on > auto + 0.02 && on < auto + 0.2, "{on} against {auto}");
    assert!(on_water.drained_kg < auto_water.drained_kg);
}

/// Coils on which it was measured begin to drain after some 1000 s of their latent capacity, and with the compressor off and
/// the fan on the first water goes back at some 1.5 times that rate (EnergyPlus, Input Output Reference, suggested values
/// after Henderson and Rengarajan 1996; from memory; bands 400 s and 0.5). The mass chose the first, nothing the second.
#[test]
fn condensate_fills_the_coil_and_leaves_it_at_published_rates() {
    let mut plant = new_plant(&txv(), 95.0, 80.0, 67.0, &[]);
    let cooling = cooling_to_f(60.0);
    advance(&mut plant, &cooling, 5400.0).expect("finite");
    let r = plant.readout();
    let latent_kg_s = (r.gross_cooling_w - r.sensible_cooling_w) / 2.5e6;
    let fills_s = r.coil_water_kg / latent_kg_s;
    let mut fan = off();
    fan.thermostat.fan = FanSetting::On;
    advance(&mut plant, &fan, 90.0).expect("finite");
    let before_kg = plant.coil_water().from_air_kg;
    advance(&mut plant, &fan, 60.0).expect("finite");
    let back_kg_s = (before_kg - plant.coil_water().from_air_kg) / 60.0;
    let ratio = back_kg_s / latent_kg_s;
    let supply_k = plant.readout().supply_dry_bulb_k;
    println!(
        "held water {fills_s:.0} s of latent capacity, evaporates at {ratio:.2} of it, supply {supply_k:.1} K"
    );
    assert!((fills_s - 1000.0).abs() < 400.0, "{fills_s}");
    assert!((ratio - 1.5).abs() < 0.5, "{ratio}");
    assert!(supply_k < kelvin_from_fahrenheit(80.0) - 2.0, "{supply_k}");
    let mut minutes = 0;
    while plant.readout().coil_stage != CoilStage::Dry {
        advance(&mut plant, &fan, 60.0).expect("finite");
        minutes += 1;
        assert!(minutes < 120, "{:?}", plant.coil_water());
    }
    println!("dry after {minutes} min more");
    assert!(minutes > 5);
}

/// Share of its latent capacity that a coil keeps when it cycles `on_s` and `off_s` under a fan that always runs, after Henderson
/// and Rengarajan 1996 (ASHRAE Transactions 102(1); as in the EnergyPlus Engineering Reference; from memory), with the
/// suggested 1000 s, 1.5 and 45 s.
fn published_latent_share(on_s: f64, off_s: f64) -> f64 {
    let (wet_s, ratio, time_s) = (1000.0, 1.5, 45.0);
    let off_s = off_s.min(2.0 * wet_s / ratio);
    let back_s = ratio * off_s - ratio * ratio / (4.0 * wet_s) * off_s * off_s;
    let mut lost_s = on_s;
    for _ in 0..50 {
        lost_s = back_s - time_s * (libm::exp(-lost_s / time_s) - 1.0);
    }
    ((on_s - lost_s) / (on_s + time_s * (libm::exp(-on_s / time_s) - 1.0))).max(0.0)
}

/// At part load under a fan that always runs a coil loses latent capacity as published (band 0.15), and at half load all.
#[test]
fn latent_capacity_at_part_load_is_as_published() {
    let mut steady = new_plant(&txv(), 95.0, 80.0, 67.0, &[]);
    let mut cooling = cooling_to_f(60.0);
    cooling.thermostat.fan = FanSetting::On;
    let mut resting = off();
    resting.thermostat.fan = FanSetting::On;
    advance(&mut steady, &cooling, 3600.0).expect("finite");
    let r = steady.readout();
    let latent_kg_s = (r.gross_cooling_w - r.sensible_cooling_w) / 2.5e6;
    // Shares of running of 0.5, 0.7 and 0.85 with three starts an hour at most.
    for (on_s, off_s) in [(600.0, 600.0), (1000.0, 428.0), (2000.0, 294.0)] {
        let mut plant = steady.clone();
        let cycle = |plant: &mut Plant| {
            let before_kg = plant.coil_water().from_air_kg;
            advance(plant, &resting, off_s).expect("finite");
            advance(plant, &cooling, on_s).expect("finite");
            plant.coil_water().from_air_kg - before_kg
        };
        for _ in 0..4 {
            cycle(&mut plant);
        }
        let ours = cycle(&mut plant) / (latent_kg_s * (on_s - 45.0));
        let published = published_latent_share(on_s, off_s);
        println!("on {on_s} s, off {off_s} s: {ours:.2}, published {published:.2}");
        approx::assert_abs_diff_eq!(ours, published, epsilon = 0.15);
    }
}

/// Share of the coil that lets air through when it counts as shut: what is left passes an eighth of the air.
const SHUT: f64 = 0.05;

/// A plant frozen by a night behind a loaded filter.
struct Frozen {
    name: &'static str,
    plant: Plant,
}

impl Frozen {
    fn over_night(name: &'static str, system: &System) -> Frozen {
        let mut plant = new_plant(system, 78.0, 72.0, 62.0, &[fault(FaultKind::LoadedFilter, 0.86)]);
        advance(&mut plant, &cooling_to_f(40.0), 7.0 * 3600.0).expect("finite");
        Frozen { name, plant }
    }

    /// Until the coil is one block, as it is at the end of a run where a thermal disc ends them; at most four hours.
    fn until_shut(&mut self) {
        for _ in 0..240 {
            let r = self.plant.readout();
            if r.open_share < SHUT && r.iced_share > 0.96 {
                return;
            }
            advance(&mut self.plant, &cooling_to_f(40.0), 60.0).expect("finite");
        }
    }

    fn airflow_share(&self) -> f64 {
        self.plant.readout().airflow_m3_s / self.plant.system().air.rated_flow_m3_s
    }

    /// Free of ice in one to two hours with the filter out and the blower alone, in seven to fourteen without (common practice
    /// for both, no source: it chose how late a block opens and how little comes through the cabinet). Wet before dry. Two hours are
    /// not told to the minute: where a switch makes the machine come and go, a thousand-millionth of a degree in the air of the
    /// evening moves what the night leaves by 20 g, and its thaw from 119 to 121 min.
    fn thaws_as_practice_knows(&self) {
        let name = self.name;
        let (fan_min, dry_min, stages) = self.thaw(&blowing(), 300);
        let (still_min, _, still_stages) = self.thaw(&off(), 900);
        println!(
            "{name}: {:.1} kg, fan {fan_min} min, dry at {dry_min:?} min, still {:.1} h, {stages:?}",
            self.plant.readout().frost_mass_kg,
            f64::from(still_min) / 60.0
        );
        assert!((60..=122).contains(&fan_min), "{name}: {fan_min} min");
        assert!((420..=840).contains(&still_min), "{name}: {still_min} min");
        assert!(dry_min.is_some_and(|dry| dry > fan_min + 5), "{name}: {dry_min:?}");
        for stages in [&stages, &still_stages] {
            let wet = stages.iter().position(|s| *s == CoilStage::Wet).expect("a wet coil");
            assert!(stages[..wet].iter().all(|s| matches!(s, CoilStage::Iced | CoilStage::Melting)));
        }
    }

    /// Minutes until the ice is gone, until the coil is dry if it gets there, and the stages seen.
    fn thaw(&self, inputs: &Inputs, most: u32) -> (u32, Option<u32>, Vec<CoilStage>) {
        let mut plant = self.plant.clone();
        let mut stages = vec![];
        let mut clear = None;
        for minute in 1..=most {
            advance(&mut plant, inputs, 60.0).expect("finite");
            let stage = plant.readout().coil_stage;
            if stages.last() != Some(&stage) {
                stages.push(stage);
            }
            if clear.is_none() && plant.readout().frost_mass_kg <= 0.0 {
                clear = Some(minute);
            }
            if stage == CoilStage::Dry {
                return (clear.expect("no ice on a dry coil"), Some(minute), stages);
            }
        }
        (clear.expect("thawed"), None, stages)
    }
}

/// Three tons with and without a low-pressure switch.
fn three_tons(has_switch: bool) -> impl Iterator<Item = &'static str> {
    THREE_TONS
        .into_iter()
        .filter(move |name| system(name).controls.low_pressure_opens_pa.is_some() == has_switch)
}

/// A night behind a loaded filter makes a block of 4 to 8 kg on every system of three tons that no low-pressure switch stops;
/// it shuts the coil. Behind the block the compressor may come and go on its thermal disc, and the ice with it: from the seventh
/// hour on, when it is shut.
#[test]
fn a_block_takes_an_hour_or_two_with_the_fan_and_half_a_day_without() {
    for name in three_tons(false) {
        let mut frozen = Frozen::over_night(name, &system(name));
        frozen.until_shut();
        let r = frozen.plant.readout();
        assert!((4.0..8.0).contains(&r.frost_mass_kg), "{name}: {} kg", r.frost_mass_kg);
        assert!(r.iced_share > 0.95 && r.open_share < SHUT, "{name}: {r:?}");
        assert!(frozen.airflow_share() < 0.125, "{name}: {}", frozen.airflow_share());
        frozen.thaws_as_practice_knows();
    }
}

/// Behind a low-pressure switch the coil freezes as well, but not on a machine that runs: suction falls below its setting (about
/// -17 °C of saturation; it closes again near -3 °C) while some of the coil's face is still open. From then on the machine runs
/// for a minute or two at a time and rests for the switch and its timer. Nothing else stops it; the ice in the end is that of a
/// block. (What a switch's settings lead to; the bands are a good third around what this plant does, no source.)
#[test]
fn a_low_pressure_switch_stops_a_system_whose_coil_freezes() {
    for name in three_tons(true) {
        let mut frozen = Frozen::over_night(name, &system(name));
        let (mut openings, mut was_open, mut ran_s) = (0, false, 0);
        for _ in 0..3600 {
            advance(&mut frozen.plant, &cooling_to_f(40.0), 1.0).expect("finite");
            let plant = &frozen.plant;
            let is_open = plant.is_open(Protection::LowPressureSwitch);
            openings += u32::from(is_open && !was_open);
            was_open = is_open;
            ran_s += u32::from(plant.compressor_runs());
            for other in Protection::ALL {
                let is_switch = other == Protection::LowPressureSwitch;
                assert!(is_switch || !plant.is_open(other), "{name}: {other:?}");
            }
        }
        let r = frozen.plant.readout();
        println!(
            "{name}: {:.2} kg, {openings} openings, ran {ran_s} s of an hour, iced {:.3}, airflow {:.3}",
            r.frost_mass_kg,
            r.iced_share,
            frozen.airflow_share()
        );
        assert!((4.0..8.0).contains(&r.frost_mass_kg), "{name}: {} kg", r.frost_mass_kg);
        assert!(
            (6..=20).contains(&openings) && (300..1800).contains(&ran_s),
            "{name}: {openings}, {ran_s} s"
        );
        assert!(frozen.airflow_share() < 0.25, "{name}: {}", frozen.airflow_share());
        frozen.thaws_as_practice_knows();
        // The same machine without its switch shuts its coil.
        let mut bare = system(name);
        (bare.controls.low_pressure_opens_pa, bare.controls.low_pressure_closes_pa) = (None, None);
        let mut shut = Frozen::over_night(name, &bare);
        shut.until_shut();
        let r = shut.plant.readout();
        println!(
            "{name} without it: {:.2} kg, iced {:.3}, open {:.3}",
            r.frost_mass_kg, r.iced_share, r.open_share
        );
        assert!(r.iced_share > 0.95 && r.open_share < SHUT, "{name}: {r:?}");
    }
}

/// A coil starved of charge in a cool house freezes where it boils. What is closed boils no more, boiling and ice move on,
/// suction falls, and in the morning the coil is one block.
#[test]
fn ice_moves_along_a_starved_coil() {
    for (name, charge) in [
        ("split-3-ton-r410a-orifice", 0.50),
        ("split-3-ton-r410a-orifice", 0.55),
        ("split-3-ton-r410a-txv", 0.45),
    ] {
        let system = system(name);
        let room = held_room(70.0, 60.0);
        let weather = Weather::held(kelvin_from_fahrenheit(70.0));
        let mut plant = Plant::new(&system, room, weather, charge * system.plate_charge_kg, &[]);
        let mut course = vec![];
        let mut shut = None;
        for _ in 0..20 {
            advance(&mut plant, &cooling_to_f(40.0), 1800.0).expect("finite");
            let r = plant.readout();
            course.push((r.frost_mass_kg, r.iced_share, r.suction_pressure_pa));
            if shut.is_none() && r.open_share < 0.02 {
                shut = Some(r.clone());
            }
        }
        println!("{name} at {charge}: {course:.2?}");
        // Behind the block the compressor may trip and rest by then.
        let solid = shut.expect("the coil shuts in the night");
        assert!(solid.frost_mass_kg > 4.0 && solid.iced_share > 0.95, "{name} {charge}: {solid:?}");
        assert!(solid.airflow_m3_s < 0.2 * system.air.rated_flow_m3_s, "{name} {charge}: {solid:?}");
        // Hours, not minutes: a part of it first, then more.
        assert!((0.03..0.6).contains(&course[1].1), "{name} {charge}: iced {} after an hour", course[1].1);
        // At its lowest: a look may fall into a rest of the compressor.
        let least_pa = course.iter().map(|at| at.2).fold(f64::INFINITY, f64::min);
        assert!(least_pa < 0.6 * course[1].2, "{name} {charge}: {least_pa} Pa");
    }
}

/// What comes through a frozen coil is what comes around it, and no limit holds the airflow up: behind a block the blower
/// stands near its shut-off.
#[test]
fn a_block_shuts_the_coil_but_for_what_comes_around() {
    // A system that runs on behind its block: on hot days the thermal disc ends it with a hundredth or two of the face open.
    let mut plant = new_plant(
        &system("split-3-ton-r22-orifice"),
        70.0,
        72.0,
        62.0,
        &[fault(FaultKind::LoadedFilter, 0.88)],
    );
    let least_m3_s = (0..300)
        .map(|_| {
            advance(&mut plant, &cooling_to_f(40.0), 60.0).expect("finite");
            plant.readout().airflow_m3_s
        })
        .fold(f64::INFINITY, f64::min);
    // Around a coil that is wholly shut 4.3 % would pass at shut-off.
    assert!(least_m3_s < 0.05 * plant.system().air.rated_flow_m3_s, "{least_m3_s}");
    // Heat and water of the air still add up to what the refrigerant and the ice got.
    let before = *plant.energy();
    for _ in 0..4 * 600 {
        step(&mut plant, &cooling_to_f(40.0), 0.25).expect("finite");
    }
    assert!(plant.energy_gap_j().abs() < 1.0, "{}", plant.energy_gap_j());
    assert!(plant.energy().from_room_air_j > before.from_room_air_j);
}
