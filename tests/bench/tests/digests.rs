//! A few random visits come to the same in every manner. As many as wanted: `cargo run --release -p bench --bin digests`.

use bench::digests::{Manner, first_difference, lines};

/// Visits of this test.
const VISITS: u64 = 4;

#[test]
fn visits_are_the_same_on_one_thread_on_two_and_from_their_records() {
    let one = lines(0..VISITS, 1, Manner::Straight);
    assert_eq!(one.len() as u64, VISITS);
    assert!(one.iter().all(|line| line.end.as_ref().is_ok_and(|end| end.entries >= 8)), "{one:#?}");
    for (threads, manner) in [(2, Manner::Straight), (2, Manner::Resumed)] {
        let other = lines(0..VISITS, threads, manner);
        assert_eq!(first_difference(&one, &other), None, "{threads} threads, {manner:?}");
    }
}
