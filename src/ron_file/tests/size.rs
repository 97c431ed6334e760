//! Large files of nothing but mistakes are read to their end and told up to a number. `cargo test --release -p ron_file --test size -- --nocapture` prints
//! how long each takes.
#![allow(clippy::unwrap_used, reason = "a test that meets an error has failed")]

use std::time::Instant;

use ron_file::{MOST_TOLD, Manner, Mistake, Reading};
use serde::Deserialize;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Thing {
    #[serde(rename = "kind")]
    _kind: Kind,
    #[serde(rename = "severity")]
    _severity: (f64, f64),
}

#[derive(Debug, Deserialize)]
enum Kind {
    LoadedFilter,
    RefrigerantLeak,
}

/// As large as a file may be where it is optimised, a tenth of it elsewhere.
const BYTES: usize = if cfg!(debug_assertions) { 1_600_000 } else { 16_000_000 };

/// How many problems a text has that repeats a part up to its size.
fn problems_of(before: &str, part: &str, after: &str) -> usize {
    let text = format!("{before}{}{after}", part.repeat(BYTES / part.len()));
    let begun = Instant::now();
    let mut reading = Reading::<Mistake>::new(&text);
    let things: Option<Vec<Thing>> = reading.value(&Manner::default());
    drop(things);
    let problems = reading.finish("x.ron").unwrap_err();
    let took_s = begun.elapsed().as_secs_f64();
    println!("{took_s:.3} s for {before}{part}{after}: {}", problems.told.len() + problems.more);
    assert!(problems.told.len() <= MOST_TOLD);
    problems.told.len() + problems.more
}

#[test]
fn files_of_mistakes_are_told_up_to_a_number() {
    assert!(problems_of("[", "(kind: LodedFilter, severity: (0.8, 0.9)),\n", "]") > BYTES / 50);
    assert!(problems_of("[", "(knid: LoadedFilter, severity: (0.8)),\n", "]") > BYTES / 50);
    assert!(problems_of("[", "(kind: LoadedFilter),\n", "]") >= MOST_TOLD);
    assert!(problems_of("[(", "x: 1, ", ")]") >= 1);
    assert!(problems_of("[", "1,", "]") >= 1);
    assert!(problems_of("[", "@", "]") >= BYTES / 16);
    assert_eq!(problems_of("", "[", ""), 1);
    assert_eq!(problems_of("[(kind: ", "A", ", severity: (0, 1))]"), 1);
    assert_eq!(problems_of("[(kind: \"", "s", "\", severity: (0, 1))]"), 1);
    assert_eq!(problems_of("", "/*", ""), 2, "it never ends, and there is no value");
    assert!(problems_of("", "/* */", "") >= 1);
    assert!(problems_of("", "\n", "") >= 1);
    assert!(problems_of("[", "\u{202e}", "]") >= BYTES / 16);
}
