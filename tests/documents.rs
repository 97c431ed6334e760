//! Documents that must keep up with the code.

use std::fs;
use std::path::Path;

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
