//! Golden digests: the facts of every visit that comes with the program, the same on every machine.
//!
//! A digest that differs means another notebook: the plant, an instrument or a fact has changed. If that was meant, write them anew with
//! `RIMEBENCH_GOLDEN=write cargo test --test golden` and say in the commit why they moved.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use visit::Visit;

const DIGESTS: &str = "tests/golden/digests.txt";
const SEEDS: [u64; 2] = [1, 2];

/// One line for each visit of scenarios/visits and each seed: its name, the seed, entries, digest.
fn digests() -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios/visits");
    let mut names: Vec<String> = fs::read_dir(&folder)
        .expect("the folder is there")
        .map(|file| file.expect("a file").file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    let lines: Vec<(String, u64)> =
        names.into_iter().flat_map(|name| SEEDS.map(|seed| (name.clone(), seed))).collect();
    let digests: Vec<String> = std::thread::scope(|scope| {
        let works: Vec<_> =
            lines.iter().map(|(name, seed)| scope.spawn(|| digest(&folder, name, *seed))).collect();
        works.into_iter().map(|work| work.join().expect("it was worked")).collect()
    });
    let mut text = String::new();
    for ((name, seed), digest) in lines.iter().zip(digests) {
        writeln!(text, "{} {seed} {digest}", name.trim_end_matches(".ron")).expect("a string takes it");
    }
    text
}

fn digest(folder: &Path, name: &str, seed: u64) -> String {
    let text = fs::read_to_string(folder.join(name)).expect("it can be read");
    let moves = visit::read_moves(&text, name).expect("it is valid");
    let call = call::built_in()
        .iter()
        .find(|(id, _)| name.starts_with(id))
        .map(|(id, text)| call::read(text, id).expect("it is valid"))
        .expect("each is of a built-in call");
    let mut visit = Visit::start(&call, seed).expect("finite");
    for action in &moves {
        visit.perform(action).expect("finite");
    }
    format!("{} {}", visit.notebook().len(), visit.notebook_digest())
}

#[test]
fn every_visit_has_its_golden_digest() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(DIGESTS);
    let now = digests();
    if std::env::var_os("RIMEBENCH_GOLDEN").is_some_and(|wish| wish == "write") {
        fs::write(&path, &now).expect("it can be written");
    }
    let golden = fs::read_to_string(&path).expect("the digests are there");
    assert_eq!(now, golden, "these visits have another notebook than is written in {DIGESTS}");
}
