//! Random visits to the built-in calls, each made in more than one manner: straight on, and from its own record after every move.
//!
//! A number gives the same call, seed and moves everywhere, and whatever the manner, the machine and how many threads work beside each
//! other, the same line: number, call, seed, entries, and a digest of the notebook and of the plant's state.

mod golden;

use std::fmt;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};

use call::{Call, text_digest};
use visit::{Move, Record, Visit, replay};

use crate::pairs::{Dice, draw};

pub use golden::golden;

/// Purpose of the numbers that are drawn here; [`crate::pairs`] has the purposes 0 and 1.
const PURPOSE: u64 = 2;
/// Fewest moves of a visit, and how many more than that there can be. A few, since every manner makes each.
const MOVES_LEAST: f64 = 8.0;
const MOVES_SPAN: f64 = 8.0;
/// Longest wait, s: half an hour, so that the moves and not the waits fill a visit.
const WAIT_MOST_S: f64 = 1800.0;
/// Longest time without a move between two moves, s.
const REST_MOST_S: f64 = 300.0;
/// The tick of a visit, s.
const TICK_S: f64 = plant::BASE_STEP_S;

/// How a visit is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Manner {
    /// Move after move.
    Straight,
    /// After each move it is written as a record, read back and made again, and goes on from there.
    Resumed,
}

/// What a visit came to. Two manners agree if their lines do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// Number of the visit.
    pub number: u64,
    /// Short name of the call.
    pub call: &'static str,
    /// The seed.
    pub seed: u64,
    /// Entries in the notebook, or what went wrong on the way.
    pub end: Result<End, String>,
}

/// The end of a visit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct End {
    /// Entries in the notebook.
    pub entries: usize,
    /// Digest of the notebook's digest and the plant's state.
    pub digest: String,
}

impl fmt::Display for Line {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {} {} ", self.number, self.call, self.seed)?;
        match &self.end {
            Ok(end) => write!(f, "{} {}", end.entries, end.digest),
            Err(why) => write!(f, "broke: {why}"),
        }
    }
}

/// Makes the visit of a number.
#[must_use]
pub fn line(number: u64, manner: Manner) -> Line {
    let mut dice = Dice::new(number, PURPOSE);
    let (id, text) = *dice.one_of(call::built_in()).expect("calls come with the program");
    let seed = dice.seed();
    let end = call::read(text, id)
        .map_err(|problems| format!("the call is not valid: {problems:?}"))
        .and_then(|call| made(&call, seed, manner, &mut dice));
    Line { number, call: id, seed, end }
}

fn made(call: &Call, seed: u64, manner: Manner, dice: &mut Dice) -> Result<End, String> {
    let mut visit = Visit::start(call, seed).map_err(|error| error.to_string())?;
    let moves = (MOVES_LEAST + MOVES_SPAN * dice.unit()) as usize;
    for _ in 0..moves {
        let action = draw(&visit, WAIT_MOST_S, dice);
        visit.perform(&action).map_err(|error| error.to_string())?;
        if dice.happens(0.2) {
            // In whole ticks: what is credited of one that has not come yet is in no record.
            let ticks = dice.between(0.0, REST_MOST_S / TICK_S).floor();
            visit.let_time_pass(ticks * TICK_S).map_err(|error| error.to_string())?;
        }
        visit = gone_on(visit, manner)?;
    }
    if dice.happens(0.5) {
        visit.perform(&Move::CloseTicket).map_err(|error| error.to_string())?;
        visit = gone_on(visit, manner)?;
    }
    let plant = ron::to_string(visit.plant()).map_err(|error| error.to_string())?;
    let digest = text_digest(&format!("{}{plant}", visit.notebook_digest()));
    Ok(End { entries: visit.notebook().len(), digest })
}

/// The visit with which it goes on.
fn gone_on(visit: Visit, manner: Manner) -> Result<Visit, String> {
    match manner {
        Manner::Straight => Ok(visit),
        Manner::Resumed => {
            let text = visit.record().to_text();
            let record = Record::from_text(&text, "visit.record.ron")
                .map_err(|problems| format!("the record can't be read: {problems:?}"))?;
            replay(&record, visit.call()).map_err(|error| format!("the record does not replay: {error:?}"))
        }
    }
}

/// The visits of some numbers, in their order, so many at a time.
#[must_use]
pub fn lines(numbers: std::ops::Range<u64>, threads: u64, manner: Manner) -> Vec<Line> {
    let next = AtomicU64::new(numbers.start);
    let made = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for _ in 0..threads.max(1) {
            scope.spawn(|| {
                loop {
                    let number = next.fetch_add(1, Ordering::Relaxed);
                    if number >= numbers.end {
                        return;
                    }
                    let line = line(number, manner);
                    made.lock().unwrap_or_else(std::sync::PoisonError::into_inner).push(line);
                }
            });
        }
    });
    let mut lines = made.into_inner().unwrap_or_else(std::sync::PoisonError::into_inner);
    lines.sort_by_key(|line| line.number);
    lines
}

/// The first visit that broke or is not the same in two lists: what each says of it.
#[must_use]
pub fn first_difference<'a>(
    one: &'a [Line],
    other: &'a [Line],
) -> Option<(Option<&'a Line>, Option<&'a Line>)> {
    (0..one.len().max(other.len()))
        .map(|at| (one.get(at), other.get(at)))
        .find(|(one, other)| one != other || one.is_some_and(|line| line.end.is_err()))
}

/// One digest over all lines.
#[must_use]
pub fn digest_of_all(lines: &[Line]) -> String {
    text_digest(&lines.iter().map(|line| format!("{line}\n")).collect::<String>())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sample(number: u64, end: Result<&str, &str>) -> Line {
        let end = end.map(|digest| End { entries: 9, digest: digest.to_owned() }).map_err(str::to_owned);
        Line { number, call: "kiln-street", seed: 7, end }
    }

    #[test]
    fn the_first_difference_is_found() {
        let list = [sample(0, Ok("a")), sample(1, Ok("b"))];
        assert_eq!(first_difference(&list, &list), None);
        let other = [sample(0, Ok("a")), sample(1, Ok("c"))];
        assert_eq!(first_difference(&list, &other), Some((Some(&list[1]), Some(&other[1]))));
        assert_eq!(first_difference(&list, &list[..1]), Some((Some(&list[1]), None)));
        let broken = [sample(0, Err("no"))];
        assert!(
            first_difference(&broken, &broken).is_some(),
            "a visit that breaks in every manner is no agreement"
        );
        assert_ne!(digest_of_all(&list), digest_of_all(&other));
    }
}
