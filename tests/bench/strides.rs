//! What long strides save: the histories of shadows with each single fault of a call's system at three severities.
//!
//! Run with `cargo bench -p bench --bench strides`. By the time on the clock, one thread.

use std::time::Instant;

use call::SurroundingShares;
use plant::{Fault, FaultKind, LeakPlace};
use visit::{ShadowPace, Visit};

fn main() {
    for id in ["kiln-street", "ferry-steps"] {
        let Some((_, text)) = call::built_in().iter().find(|(known, _)| *known == id) else { continue };
        let call = call::read(text, id).expect("a valid call");
        let (mut shadows, mut took_s, mut steps, mut leaps, mut taken_back) = (0.0, Vec::new(), 0, 0, 0);
        for kind in FaultKind::ALL.into_iter().filter(|kind| kind.is_possible_in(&call.system)) {
            for severity in [0.2, 0.5, 0.8] {
                let place = kind.needs_place().then_some(LeakPlace::IndoorCoil);
                let faults = [Fault { kind, place, severity, onset_s: 0.0 }];
                let begun = Instant::now();
                let charge_kg = call.system.plate_charge_kg;
                let visit = Visit::start_shadow(
                    &call,
                    SurroundingShares::MIDDLE,
                    &faults,
                    charge_kg,
                    ShadowPace::Strides,
                )
                .expect("a finite plant");
                took_s.push(begun.elapsed().as_secs_f64());
                let made = visit.strides_made().expect("a shadow");
                shadows += 1.0;
                steps += made.steps;
                leaps += made.leaps;
                taken_back += made.taken_back;
            }
        }
        took_s.sort_by(f64::total_cmp);
        let all_s: f64 = took_s.iter().sum();
        println!(
            "{id}: {shadows} histories of {:.1} h; {:.1} s of plant time for each step (half a second before), {:.0} steps, {:.0} leaps and {:.1} taken back each; {:.1} ms on the mean, {:.1} in the middle, {:.1} at most",
            call.history_s / 3600.0,
            shadows * call.history_s / steps as f64,
            steps as f64 / shadows,
            leaps as f64 / shadows,
            taken_back as f64 / shadows,
            1.0e3 * all_s / shadows,
            1.0e3 * took_s[took_s.len() / 2],
            1.0e3 * took_s[took_s.len() - 1],
        );
    }
}
