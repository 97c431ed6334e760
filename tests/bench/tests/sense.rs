//! A fixed sample of machines with one fault or two: every reading is one that real equipment shows, or a protection ends the
//! run in time. All of them: `cargo run --release -p bench --bin sense`.

use bench::sense::{live_all, random_pair, singles};

/// Cases of this test, and their plant time.
const SINGLES: usize = 200;
const PAIRS: u64 = 40;
const HOURS: f64 = 2.0;

#[test]
fn every_reading_makes_sense_or_a_protection_acts() {
    let mut cases = singles();
    cases.truncate(SINGLES);
    cases.extend((0..PAIRS).map(random_pair));
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(2);
    let tally = live_all(&cases, HOURS, threads, |_| {});
    assert_eq!(tally.broken(), 0, "{tally}");
}
