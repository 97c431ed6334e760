mod common;
use common::*;
use plant::{System, FaultKind, Inputs, Mode, FanSetting, FilterSlot, CoilStage, advance};
use media::units::*;

#[test]
fn explore() {
    for wet in [56.0, 58.0, 59.0, 60.0, 61.0, 62.0, 63.0, 64.0, 67.0, 70.0] {
        let s = settle(&txv(), &conditions(95.0, 80.0, wet));
        let r = s.readout;
        println!("{wet} Q {:.0} SHR {:.4} Te {:.2}F SH {:.2} SC {:.2} water {:.3} {:?}", r.gross_cooling_w, r.sensible_cooling_w / r.gross_cooling_w, fahrenheit_from_kelvin(r.evaporating_k), r.superheat_k*1.8, r.subcooling_k*1.8, r.coil_water_kg, r.coil_stage);
    }
}

#[test]
fn freeze_explore() {
    for name in ["split-3-ton-r410a-txv","split-3-ton-r410a-orifice","split-3-ton-r22-txv","split-3-ton-r22-orifice","split-3-ton-r32-txv-ecm","split-3-ton-r454b-txv","split-3-ton-r410a-txv-small-condenser"] {
        let system = System::built_in(name).unwrap();
        let mut plant = new_plant(&system, 78.0, 72.0, 62.0, &[fault(FaultKind::LoadedFilter, 0.9)]);
        let inputs = cooling_to_f(40.0);
        for h in 1..=8 {
            advance(&mut plant, &inputs, 3600.0).unwrap();
            let r = plant.readout();
            println!("{name} {h} h ice {:.2} kg iced {:.2} open {:.3} flow {:.3} suction {:.0} psig SH {:.1} water {:.2} runs {}", r.frost_mass_kg, r.iced_share, r.open_share, r.airflow_m3_s, (r.suction_pressure_pa-101325.0)/6894.8, r.superheat_k, r.coil_water_kg, plant.compressor_runs());
        }
        let mut fan = Inputs::default();
        fan.thermostat.mode = Mode::Off;
        let still = fan.clone();
        fan.thermostat.fan = FanSetting::On;
        fan.filter = FilterSlot::Removed;
        for (what, inputs) in [("fan", fan), ("still", still)] {
            let mut p = plant.clone();
            let mut stage = p.readout().coil_stage;
            for m in 0..1000 {
                advance(&mut p, &inputs, 60.0).unwrap();
                let r = p.readout();
                if r.coil_stage != stage || m % (if what=="fan" {15} else {120}) == 14 { println!("   {what} {m} min {:?} ice {:.2} iced {:.2} open {:.2} flow {:.3} wall {:.1} F suction {:.0} water {:.2}", r.coil_stage, r.frost_mass_kg, r.iced_share, r.open_share, r.airflow_m3_s, fahrenheit_from_kelvin(r.coil_surface_k), (r.suction_pressure_pa-101325.0)/6894.8, r.coil_water_kg); }
                stage = r.coil_stage;
                if stage == CoilStage::Dry { break; }
            }
        }
    }
}

#[test]
fn starved_explore() {
    for (name, charge, out, room, wet) in [("split-3-ton-r410a-txv", 0.6, 72.0, 72.0, 62.0),("split-3-ton-r410a-txv", 0.7, 68.0, 70.0, 60.0),("split-3-ton-r410a-txv", 0.65, 75.0, 70.0, 60.0),("split-3-ton-r410a-orifice", 0.65, 72.0, 72.0, 62.0),("split-3-ton-r410a-orifice", 0.75, 70.0, 70.0, 60.0)] {
        let system = System::built_in(name).unwrap();
        let weather = plant::Weather::held(kelvin_from_fahrenheit(out));
        let mut plant = plant::Plant::new(&system, held_room(room, wet), weather, system.plate_charge_kg*charge, &[]);
        let inputs = cooling_to_f(40.0);
        println!("{name} {charge} {out} {room}/{wet}");
        for h in 1..=10 {
            advance(&mut plant, &inputs, 3600.0).unwrap();
            let r = plant.readout();
            println!("  {h} h ice {:.2} kg iced {:.2} open {:.3} flow {:.3} suction {:.0} psig Te {:.0} F SH {:.1} F water {:.2} runs {} liquid line {:.2} cond {:.2} evap {:.2}", r.frost_mass_kg, r.iced_share, r.open_share, r.airflow_m3_s, (r.suction_pressure_pa-101325.0)/6894.8, fahrenheit_from_kelvin(r.evaporating_k), r.superheat_k*1.8, r.coil_water_kg, plant.compressor_runs(), r.charge_liquid_line_kg, r.charge_condenser_kg, r.charge_evaporator_kg);
        }
    }
}

#[test]
fn debug_starved() {
        let system = System::built_in("split-3-ton-r410a-orifice").unwrap();
        let weather = plant::Weather::held(kelvin_from_fahrenheit(72.0));
        let mut plant = plant::Plant::new(&system, held_room(72.0, 62.0), weather, system.plate_charge_kg*0.65, &[]);
        let inputs = cooling_to_f(40.0);
        for h in 0..20 {
            advance(&mut plant, &inputs, 900.0).unwrap();
            advance(&mut plant, &inputs, 0.25).unwrap();
            let r = plant.readout();
            println!("  {h} q ice {:.2} kg Q {:.0} S {:.0} opening {:.2}", r.frost_mass_kg, r.gross_cooling_w, r.sensible_cooling_w, r.metering_opening);
        }
}
