//! Documents that must keep up with the code.

use std::fs;
use std::path::Path;

use media::units::kelvin_from_fahrenheit;
use plant::{Plant, Room, System, Weather};

fn read(name: &str) -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).expect(name)
}

#[test]
fn the_table_of_faults_has_a_row_for_every_kind() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/faults.md");
    let text = fs::read_to_string(path).expect("docs/faults.md");
    for kind in plant::FaultKind::ALL {
        let rows = text
            .lines()
            .filter(|line| {
                let first = line.trim_start_matches('|').split('|').next().unwrap_or_default();
                first.trim().trim_end_matches('*') == format!("{kind:?}")
            })
            .collect::<Vec<_>>();
        assert_eq!(rows.len(), 1, "{kind:?}: {rows:?}");
        let starred = rows[0].contains(&format!("{kind:?}*"));
        assert_eq!(starred, kind.is_all_or_nothing(), "{kind:?}: the star");
    }
}

/// What recovery leaves is one number for hazards, marks and documents.
#[test]
fn what_recovery_leaves_is_what_the_documents_say() {
    let service = read("docs/service.md");
    let air_k = kelvin_from_fahrenheit(77.0);
    let mut missing = Vec::new();
    for name in System::names() {
        let system = System::built_in(name).expect("built in");
        let room = Room::Held { dry_bulb_k: air_k, humidity_ratio: 0.01 };
        let plant = Plant::new(&system, room, Weather::held(air_k), system.plate_charge_kg, &[]);
        let left_g = 1000.0 * plant.left_by_recovery_kg();
        let row = format!("| `{name}` | {left_g:.0} |");
        if !service.contains(&row) {
            missing.push(row);
        }
        if name == "split-3-ton-r410a-txv" {
            let words = format!("({left_g:.0} g on three tons of R-410A");
            assert!(read("docs/marks.md").contains(&words), "docs/marks.md lacks {words}");
        }
    }
    assert!(missing.is_empty(), "docs/service.md lacks these rows:\n{}", missing.join("\n"));
}
