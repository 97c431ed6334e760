//! Bounds by what one step may move rest in ordinary running.

mod common;

use common::{cooling_to_f, new_plant};
use plant::{Bound, Mode, Plant, System, advance};

fn acted(plant: &Plant) -> Vec<(Bound, u32)> {
    let acted = |bound| (bound, plant.limiter().acted(bound));
    Bound::ALL.map(acted).into_iter().filter(|(_, times)| *times > 0).collect()
}

#[test]
fn all_rest_while_a_system_starts_runs_and_stops() {
    for name in System::names() {
        let system = System::built_in(name).expect("built in");
        for outdoor_f in [75.0, 95.0, 110.0] {
            let mut plant = new_plant(&system, outdoor_f, 80.0, 67.0, &[]);
            advance(&mut plant, &cooling_to_f(60.0), 1200.0).expect("finite");
            let mut off = cooling_to_f(60.0);
            off.thermostat.mode = Mode::Off;
            advance(&mut plant, &off, 300.0).expect("finite");
            advance(&mut plant, &cooling_to_f(60.0), 600.0).expect("finite");
            assert_eq!(acted(&plant), [], "{name} at {outdoor_f} °F");
        }
    }
}
