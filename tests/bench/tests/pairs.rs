//! Pairs of faults and random legal moves: finite, within bounds, conserved, without a panic, and replayed to the same
//! bytes. The same cases, whole days of them and as many as wanted: `cargo run --release -p bench --bin pairs`.

use std::sync::atomic::{AtomicU64, Ordering};

use bench::pairs::{Plan, live};

/// Cases of this test, with a day cut short.
const CASES: u64 = 48;
const PLAN: Plan = Plan { day_s: 4.0 * 3600.0, replay_every: 6 };

#[test]
fn pairs_of_faults_and_random_moves_break_no_law() {
    let next = AtomicU64::new(0);
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(2);
    let broken: Vec<String> = std::thread::scope(|scope| {
        let workers: Vec<_> = (0..threads)
            .map(|_| {
                scope.spawn(|| {
                    let mut broken = Vec::new();
                    loop {
                        let number = next.fetch_add(1, Ordering::Relaxed);
                        if number >= CASES {
                            return broken;
                        }
                        if let Err(found) = live(number, PLAN) {
                            let last = found.moves.last();
                            broken.push(format!("case {number} after {last:?}: {}", found.why));
                        }
                    }
                })
            })
            .collect();
        workers.into_iter().flat_map(|worker| worker.join().expect("a worker catches panics")).collect()
    });
    assert!(broken.is_empty(), "{} of {CASES} cases broke:\n{}", broken.len(), broken.join("\n"));
}
