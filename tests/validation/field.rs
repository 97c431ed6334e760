//! What a technician may expect: California Title 24 RA3.2 (2008).

use crate::chamber::{A, B, C, Point, at_rest, calling, named, sound, valve};
use crate::check::{Check, Print, Published, Topic};
use crate::tuned::RATING_A;
use plant::{Readout, System, advance};

/// Lowest outdoor temperature at which the charge is checked by superheat or subcooling, °F.
const COLDEST_F: f64 = 55.0;

const COLD: &str = "Subcooling of the valve at the lowest temperature allowed lies half a degree above the tolerance: head is so low there that the valve is wide open and \
                    starves the coil a little (superheat 21 °F); what the coil does not hold stands in the condenser.";
const OIL: &str = "Readings after 15 minutes: these starts are from a machine as cold as the air, whose sump still holds 0.6 kg of refrigerant five minutes after the start on three tons. It gives it back as shell and oil \
                   warm, over half an hour, and what is still dissolved after 15 minutes (50 to 240 g) is missing from the condenser: subcooling is 2 to 10 °F short then and within 3 °F after 30 minutes, superheat of an \
                   orifice 5 °F high. How fast an oil sump warms is typ. here.";

pub fn topic() -> Topic {
    let system = valve();
    let mut checks = Vec::new();
    for (name, at) in [
        ("A", A),
        ("B", B),
        ("C", C),
        ("115 °F out, 80/67 °F in", Point { outdoor_f: 115.0, ..A }),
        ("55 °F out, 75/62 °F in", Point { outdoor_f: COLDEST_F, dry_f: 75.0, wet_f: 62.0 }),
    ] {
        let r = sound(&system, at);
        let mut check = Check::new(
            format!("valve, {name}: subcooling off the plate"),
            "°F",
            1,
            Published::Near { value: 0.0, band: 3.0 },
            1.8 * (r.subcooling_k - system.plate_subcooling_k),
        );
        if at.outdoor_f <= COLDEST_F {
            check = check.known(3.0, 5.0, COLD);
        }
        let at_rating = |check: Check| if name == "A" { check.tuned(RATING_A) } else { check };
        checks.push(at_rating(check));
        checks.push(at_rating(Check::new(
            format!("valve, {name}: superheat"),
            "°F",
            1,
            Published::Between { low: 4.0, high: 25.0 },
            1.8 * r.superheat_k,
        )));
    }
    // After fifteen minutes of running the readings stand within the tolerances that the charge is judged by.
    let drift: Vec<[f64; 3]> = System::names().iter().map(|name| drift_f(&named(name))).collect();
    for (i, (what, tolerance)) in
        [("superheat", 5.0), ("subcooling", 3.0), ("temperature split", 3.0)].into_iter().enumerate()
    {
        let worst = drift.iter().map(|d| d[i]).fold(0.0, f64::max);
        let check = Check::new(
            format!("{what} at 15 min of running against 60 min, worst of all systems"),
            "°F",
            1,
            Published::AtMost(tolerance),
            worst,
        );
        checks.push(match what {
            "superheat" => check.known(5.0, 6.0, OIL),
            "subcooling" => check.known(8.0, 11.0, OIL),
            _ => check,
        });
    }
    Topic {
        name: "field",
        source: "California Title 24 RA3.2 (2008): a right charge shows subcooling within 3 °F of the plate and 4 to 25 °F of superheat with a valve; \
                 readings after 15 minutes of running; not below 55 °F outdoors; temperature split within 3 °F, superheat within 5 °F.",
        checks,
        print: Print::Rows,
        tables: String::new(),
        charts: vec![],
    }
}

/// How far superheat, subcooling and split move from 15 to 60 minutes after the start, °F.
fn drift_f(system: &System) -> [f64; 3] {
    let mut plant = at_rest(system, A);
    let read = |r: &Readout| [r.superheat_k, r.subcooling_k, r.return_dry_bulb_k - r.supply_dry_bulb_k];
    advance(&mut plant, &calling(), 900.0).expect("finite");
    let early = read(plant.readout());
    advance(&mut plant, &calling(), 2700.0).expect("finite");
    let late = read(plant.readout());
    [0, 1, 2].map(|i| 1.8 * (late[i] - early[i]).abs())
}
