//! Living through one case.

use std::panic::{AssertUnwindSafe, catch_unwind};

use visit::{Move, Record, Visit, replay};

use super::case::Case;
use super::dice::Dice;
use super::laws::{Extremes, Watch};
use super::moves::draw;

/// How long a case is, and how often it is made again from its record.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plan {
    /// Plant time from the start of the history to the end, s.
    pub day_s: f64,
    /// Every how many cases the record is replayed.
    pub replay_every: u64,
}

/// A case that broke no law.
#[derive(Clone, Debug)]
pub struct Lived {
    /// Moves made.
    pub moves: u64,
    /// Plant time, history included, s.
    pub plant_s: f64,
    /// Records made again, 0 or 1.
    pub replays: u64,
    /// The largest values.
    pub extremes: Extremes,
}

/// A case that broke a law.
#[derive(Clone, Debug)]
pub struct Broken {
    /// The case.
    pub case: Case,
    /// Moves made until then, the last one being the one that showed it.
    pub moves: Vec<Move>,
    /// What does not hold.
    pub why: String,
}

/// Lives through a case and holds it to the laws after every move.
///
/// # Errors
/// The first law that does not hold; a panic is one as well.
pub fn live(number: u64, plan: Plan) -> Result<Lived, Box<Broken>> {
    let case = Case::of(number, plan.day_s);
    let mut moves = Vec::new();
    let result = catch_unwind(AssertUnwindSafe(|| day(&case, plan, &mut moves)));
    let why = match result {
        Ok(Ok(lived)) => return Ok(lived),
        Ok(Err(why)) => why,
        Err(payload) => {
            let text = payload.downcast_ref::<String>().map(String::as_str);
            let text = text.or_else(|| payload.downcast_ref::<&str>().copied());
            format!("panic: {}", text.unwrap_or("without a text"))
        }
    };
    Err(Box::new(Broken { case, moves, why }))
}

fn day(case: &Case, plan: Plan, moves: &mut Vec<Move>) -> Result<Lived, String> {
    let call = call::read(&case.call_text, "made-up.ron").map_err(|problems| {
        format!(
            "the call is not valid: {}",
            problems.told.first().map_or(String::new(), |problem| format!("{problem:?}"))
        )
    })?;
    let mut dice = Dice::new(case.number, 1);
    let mut visit = Visit::start(&call, case.seed).map_err(|error| error.to_string())?;
    let mut watch = Watch::new(case.number, &visit);
    watch.check(&visit).map_err(|why| format!("on arrival: {why}"))?;
    while visit.time_s() < plan.day_s {
        if dice.happens(0.2) {
            visit.let_time_pass(dice.between(0.0, 300.0)).map_err(|error| error.to_string())?;
        }
        let action = draw(&visit, plan.day_s - visit.time_s(), &mut dice);
        moves.push(action.clone());
        if matches!(action, Move::Wait(_)) && dice.happens(0.2) {
            // A wait that is cut short.
            visit.begin(&action);
            visit.work(dice.between(1.0, 3600.0)).map_err(|error| error.to_string())?;
            visit.stop_waiting();
        } else {
            visit.perform(&action).map_err(|error| error.to_string())?;
        }
        watch.check(&visit)?;
    }
    if dice.happens(0.5) {
        moves.push(Move::CloseTicket);
        visit.perform(&Move::CloseTicket).map_err(|error| error.to_string())?;
        watch.check(&visit)?;
    }
    let replays = u64::from(case.number.is_multiple_of(plan.replay_every.max(1)));
    if replays > 0 {
        made_again(&visit)?;
    }
    Ok(Lived { moves: moves.len() as u64, plant_s: visit.time_s(), replays, extremes: watch.extremes })
}

/// The record says what was done, and doing it again gives the same bytes of record and plant.
fn made_again(visit: &Visit) -> Result<(), String> {
    let text = visit.record().to_text();
    let read = Record::from_text(&text, "made-up.ron")
        .map_err(|problems| format!("the record can't be read: {problems:?}"))?;
    if read.to_text() != text {
        return Err("the record that was read is not the one that was written".to_owned());
    }
    let again =
        replay(&read, visit.call()).map_err(|error| format!("the record does not replay: {error:?}"))?;
    if again.record().to_text() != text {
        return Err("the replayed visit writes another record".to_owned());
    }
    let state = |visit: &Visit| ron::to_string(visit.plant()).map_err(|error| error.to_string());
    if state(&again)? != state(visit)? {
        return Err("the replayed plant is in another state".to_owned());
    }
    Ok(())
}
