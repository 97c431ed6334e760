//! What the suspects of a call cost: arriving, following a wait of two hours, weighing one reading.
//!
//! Run with `cargo bench -p bench --bench suspects_speed`. Time on the clock depends on what else the cores do; where
//! the system tells it, the time that all cores spent on it stands beside.

use std::fs;
use std::time::Instant;

use diagnosis::{Hypotheses, Prior};
use visit::{AirPoint, Bulb, Duration, Entry, Move, Visit};

/// How far the window lets the suspects go at once, s.
const SLICE_S: f64 = 60.0;

fn main() {
    let (id, text) = call::built_in().iter().find(|(id, _)| *id == "kiln-street").expect("a built-in call");
    let call = call::read(text, id).expect("a valid call");
    let mut visit = Visit::start(&call, 1).expect("a finite plant");
    let mut suspects = timed("arrival of all suspects", || {
        Hypotheses::arrive(&call, &Prior::Usual, &diagnosis::Unwatched)
            .expect("finite")
            .expect("nobody stops it")
    });
    let (following, all) = suspects.following();
    println!("{following} of {all} shadows follow");
    let wait = visit.perform(&Move::Wait(Duration::Hours(2.0))).expect("a finite plant").clone();
    timed("a wait of two hours: followed and weighed", || {
        follow(&mut suspects, &wait);
        suspects.weigh(&wait, &diagnosis::Unwatched).expect("finite").expect("nobody stops it");
    });
    for point in [AirPoint::Supply, AirPoint::Return] {
        let reading = visit.perform(&Move::ReadAir(point, Bulb::Dry)).expect("a finite plant").clone();
        follow(&mut suspects, &reading);
        timed("one reading, shadows at its time: weighed", || {
            suspects.weigh(&reading, &diagnosis::Unwatched).expect("finite").expect("nobody stops it");
        });
        timed("severities refined after it", || {
            suspects.refine(&diagnosis::Unwatched).expect("finite").expect("nobody stops it");
        });
    }
    timed("best tests compared", || suspects.best_tests(&visit, &diagnosis::Unwatched).expect("finite"));
}

/// The shadows make the move of an entry up to its end, in slices as in the window.
fn follow(suspects: &mut Hypotheses, entry: &Entry) {
    let mut to_s = entry.started_s;
    while to_s < entry.finished_s {
        to_s = (to_s + SLICE_S).min(entry.finished_s);
        let running = Some((&entry.action, entry.started_s));
        suspects.go_on(running, to_s, &diagnosis::Unwatched).expect("finite").expect("nobody stops it");
    }
}

fn timed<T>(what: &str, work: impl FnOnce() -> T) -> T {
    let (begun, cores_before_s) = (Instant::now(), cores_s());
    let done = work();
    let took_s = begun.elapsed().as_secs_f64();
    match (cores_before_s, cores_s()) {
        (Some(before_s), Some(after_s)) => {
            println!("{what:44} {took_s:9.4} s, all cores {:7.2} s", after_s - before_s);
        }
        _ => println!("{what:44} {took_s:9.4} s"),
    }
    done
}

/// Time that all cores spent on this program, s, where the system tells it (Linux, in ticks of 10 ms).
fn cores_s() -> Option<f64> {
    let stat = fs::read_to_string("/proc/self/stat").ok()?;
    let fields: Vec<&str> = stat.rsplit_once(')')?.1.split_whitespace().collect();
    let ticks = |index: usize| fields.get(index)?.parse::<f64>().ok();
    Some((ticks(11)? + ticks(12)?) / 100.0)
}
