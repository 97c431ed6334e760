//! Golden digests: the facts of every visit that comes with the program, the same on every machine.
//!
//! A digest that differs means another notebook: the plant, an instrument or a fact has changed. If that was meant, write them anew with
//! `RIMEBENCH_GOLDEN=write cargo test --test golden` and say in the commit why they moved.

use std::fs;
use std::path::Path;

const DIGESTS: &str = "tests/golden/digests.txt";

#[test]
fn every_visit_has_its_golden_digest() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(DIGESTS);
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios/visits");
    let now = bench::digests::golden(&folder).expect("each visit can be made");
    if std::env::var_os("RIMEBENCH_GOLDEN").is_some_and(|wish| wish == "write") {
        fs::write(&path, &now).expect("it can be written");
    }
    let golden = fs::read_to_string(&path).expect("the digests are there");
    assert_eq!(now, golden, "these visits have another notebook than is written in {DIGESTS}");
}
