use media::moist_air::{STANDARD_PRESSURE_PA, humidity_ratio_from_wet_bulb};
use media::units::*;
use plant::*;
struct Case {
    plant: Plant,
    inputs: Inputs,
    until: f64,
    bounds: Vec<(f64, f64)>,
}
fn run(c: &Case, dt: Option<f64>) -> (Vec<[f64; 8]>, Strides, Plant, f64) {
    let mut plant = c.plant.clone();
    let mut s = Strides::default();
    let mut out = vec![];
    let t0 = std::time::Instant::now();
    let mut sums = [0.0; 8];
    let mut secs = 0.0;
    let mut k = 0;
    let mut t = 0.0;
    while t < c.until - 1e-6 {
        let upto = if k < c.bounds.len() {
            let (a, b) = c.bounds[k];
            if t < a { a - t } else { b - t }
        } else {
            c.until - t
        };
        let took = match dt {
            None => match s.go(&mut plant, &c.inputs, upto) {
                Ok(x) => x,
                Err(e) => {
                    println!("{e}");
                    break;
                }
            },
            Some(dt) => {
                step(&mut plant, &c.inputs, dt).unwrap();
                dt
            }
        };
        t += took;
        if k < c.bounds.len() && t > c.bounds[k].0 {
            let r = plant.readout();
            let v = [
                r.liquid_pressure_pa,
                r.suction_pressure_pa,
                r.discharge_k,
                r.superheat_k,
                r.supply_dry_bulb_k,
                r.frost_mass_kg * 1000.0,
                r.return_dry_bulb_k,
                r.compressor_power_w,
            ];
            for i in 0..8 {
                sums[i] += v[i] * took;
            }
            secs += took;
            if t >= c.bounds[k].1 - 1e-6 {
                for i in 0..8 {
                    sums[i] /= secs;
                }
                out.push(sums);
                sums = [0.0; 8];
                secs = 0.0;
                k += 1;
            }
        }
    }
    while out.len() < c.bounds.len() {
        out.push([f64::NAN; 8]);
    }
    (out, s, plant, t0.elapsed().as_secs_f64())
}
fn main() {
    let f = |kind, severity| Fault {
        kind,
        place: if kind == FaultKind::RefrigerantLeak { Some(LeakPlace::IndoorCoil) } else { None },
        severity,
        onset_s: 0.0,
    };
    use FaultKind::*;
    let faults: Vec<(&str, Vec<Fault>)> = vec![
        ("sound", vec![]),
        ("under.2", vec![f(Undercharged, 0.2)]),
        ("under.4", vec![f(Undercharged, 0.4)]),
        ("leak.5", vec![f(RefrigerantLeak, 0.5)]),
        ("drier.8", vec![f(PluggedDrier, 0.8)]),
        ("filter.8", vec![f(LoadedFilter, 0.8)]),
        ("fouled.6", vec![f(FouledCondenser, 0.6)]),
        ("throttled.7", vec![f(MeteringStuckThrottled, 0.7)]),
    ];
    let args: Vec<String> = std::env::args().collect();
    let mode = args[1].as_str();
    let verbose = args.len() > 3;
    let names: Vec<String> = if args.len() > 2 && args[2] != "-" {
        args[2].split(',').map(String::from).collect()
    } else {
        System::names().into_iter().map(|s| s.to_string()).collect()
    };
    let w = humidity_ratio_from_wet_bulb(
        celsius_from_fahrenheit(80.0),
        celsius_from_fahrenheit(67.0),
        STANDARD_PRESSURE_PA,
    );
    let (mut steps, mut n, mut worst, mut half_w, mut secs) = (0u64, 0.0, [0.0f64; 8], [0.0f64; 8], 0.0);
    let mut tworst = [0.0f64; 8];
    let mut thalf = [0.0f64; 8];
    for name in &names {
        let system = System::built_in(name).unwrap();
        for (label, fs) in &faults {
            let mut inputs = Inputs::default();
            inputs.thermostat.mode = Mode::Cool;
            let case = if mode == "held" {
                inputs.thermostat.set_point_k = kelvin_from_fahrenheit(40.0);
                Case {
                    plant: Plant::new(
                        &system,
                        Room::Held { dry_bulb_k: kelvin_from_fahrenheit(80.0), humidity_ratio: w },
                        Weather::held(kelvin_from_fahrenheit(95.0)),
                        system.plate_charge_kg,
                        fs,
                    ),
                    inputs,
                    until: 5400.0,
                    bounds: vec![(60.0, 180.0), (300.0, 600.0), (4800.0, 5400.0)],
                }
            } else {
                inputs.thermostat.set_point_k =
                    kelvin_from_fahrenheit(if mode == "cycle" { 80.0 } else { 72.0 });
                Case {
                    plant: Plant::new(
                        &system,
                        Room::House {
                            model: HouseModel::default(),
                            air_k: kelvin_from_fahrenheit(82.0),
                            structure_k: kelvin_from_fahrenheit(80.0),
                            humidity_ratio: w,
                        },
                        Weather {
                            mean_k: kelvin_from_fahrenheit(85.0),
                            swing_k: 6.0,
                            dew_point_k: kelvin_from_fahrenheit(65.0),
                            start_hour: 10.0,
                            solar_peak_w_m2: 800.0,
                        },
                        system.plate_charge_kg,
                        fs,
                    ),
                    inputs,
                    until: 6.0 * 3600.0,
                    bounds: vec![(60.0, 180.0), (300.0, 600.0), (20400.0, 21600.0)],
                }
            };
            let (fine, _, _, _) = run(&case, Some(if mode == "held" { 0.125 } else { 0.25 }));
            let (half, _, _, thf) = run(&case, Some(0.5));
            let (c, s, p, ts) = run(&case, None);
            let last = case.bounds.len() - 1;
            let runs = fine[last][0] - fine[last][1] > 1e5;
            for i in 0..8 {
                let (d, h) = ((c[last][i] - fine[last][i]).abs(), (half[last][i] - fine[last][i]).abs());
                if runs {
                    worst[i] = worst[i].max(d);
                    half_w[i] = half_w[i].max(h);
                }
                for k in 0..last {
                    tworst[i] = tworst[i].max((c[k][i] - fine[k][i]).abs());
                    thalf[i] = thalf[i].max((half[k][i] - fine[k][i]).abs());
                }
            }
            steps += s.made().steps;
            n += 1.0;
            secs += ts;
            if verbose {
                println!(
                    "{name} {label}: p {:.0} {:.0} fr {:.0}| liq {:6.0} suc {:6.0} dis {:6.2} sh {:6.2} sup {:6.3} fr {:6.2} ret {:6.3} W {:5.1} | half liq {:6.0} suc {:6.0} dis {:5.2} W {:5.1}| steps {} leaps {} rej {} {:.1} ms (half {:.0}) gaps {:.0e} {:.0e}",
                    fine[last][0],
                    fine[last][1],
                    fine[last][5],
                    c[last][0] - fine[last][0],
                    c[last][1] - fine[last][1],
                    c[last][2] - fine[last][2],
                    c[last][3] - fine[last][3],
                    c[last][4] - fine[last][4],
                    c[last][5] - fine[last][5],
                    c[last][6] - fine[last][6],
                    c[last][7] - fine[last][7],
                    half[last][0] - fine[last][0],
                    half[last][1] - fine[last][1],
                    half[last][2] - fine[last][2],
                    half[last][7] - fine[last][7],
                    s.made().steps,
                    s.made().leaps,
                    s.made().taken_back,
                    ts * 1e3,
                    thf * 1e3,
                    p.ledger_gap_kg(),
                    p.energy_gap_j()
                );
            }
        }
    }
    println!(
        "{mode}: mean steps {:.0}, {:.1} ms; worst settled {:.0?} half {:.0?} | transients {:.1?} half {:.1?}",
        steps as f64 / n,
        secs / n * 1e3,
        worst,
        half_w,
        tworst,
        thalf
    );
    println!(
        "K: dis {:.2} sh {:.2} sup {:.3} ret {:.3} | trans {:.2} {:.2} {:.2} half {:.2} {:.2} {:.2}",
        worst[2], worst[3], worst[4], worst[6], tworst[2], tworst[3], tworst[4], thalf[2], thalf[3], thalf[4]
    );
}
