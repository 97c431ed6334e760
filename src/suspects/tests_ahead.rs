//! The next best test: for each look and each measurement that is possible, what it is expected to tell.
//!
//! What each shadow would give is asked of copies of the shadows. The expected gain is the mutual information between
//! suspect and outcome (Shannon 1948; as the worth of an experiment, Lindley 1956), with the instrument's accuracy and
//! the model's error in it. It is set against the minutes of the test and of what has to be done before it.

use std::collections::BTreeMap;

use call::Duration;
use plant::{StepError, Switch, Terminal};
use visit::{CoilAsSeen, Move, Observation, Outcome, Place, Visit, minutes};

use crate::crew::{KeepGoing, Worked, each};
use crate::guide::coil_as_seen;
use crate::phase::{apart_in_cycle, in_phase, runs_alike};
use crate::shadow::Shadow;
use crate::sight::{DETECTOR_FINDS, STAIN_AT_LEAK, leaks_at, looked_at};
use crate::suspects::{Stoppable, Suspects};
use crate::weigh::spread;

/// How long a plant is run up before readings mean something, s: 15 minutes of settling as in the refrigerant charge
/// protocol of California Title 24 RA3.2 (2008).
const RUN_UP_S: f64 = 900.0;
/// Time for what has lost its power to come to rest, s.
const SWITCHED_OFF_S: f64 = 60.0;
/// Thaw of a block of ice with the blower on, and of some frost, min (the plant's own times, docs/validation.md).
const THAW_BLOCK_MIN: f64 = 45.0;
const THAW_SOME_MIN: f64 = 20.0;
/// Ice from which it counts as a block, kg.
const BLOCK_KG: f64 = 1.0;
/// Probability of ice on a coil that nobody has looked at, below which a running plant is taken for one with a clear coil.
const MAYBE_ICED: f64 = 0.05;
/// Shadows that stand for less than this are not asked.
const WORTH_ASKING: f64 = 2.0e-4;
/// Chance that a look shows something else than the shadow says.
const SLIP: f64 = 0.02;
/// A wait from which things may look different, s.
const CHANGED_S: f64 = 600.0;
/// Steps of the scale on which a reading's chances are added up.
const BINS: usize = 48;
/// Minutes that a unit of money is worth when tests are ranked: a technician's hour over a service call's price
/// (engineering value).
const MINUTES_PER_MONEY: f64 = 0.5;

/// When a test can be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum When {
    /// As things are.
    Now,
    /// Once the coil is clear and the plant has run for 15 minutes.
    RunningClear,
    /// A minute after the air handler and with it the control circuit lost their power: what runs on, and how the wheel
    /// looks and turns by hand.
    SwitchedOff,
}

/// A look or a measurement and what it is expected to tell.
#[derive(Clone, Debug, PartialEq)]
pub struct Test {
    /// The move.
    pub action: Move,
    /// Moves that have to be made before it.
    pub first: Vec<Move>,
    /// When it can be made.
    pub when: When,
    /// Expected gain in information about what is wrong, bit.
    pub gain_bits: f64,
    /// What it takes with everything before it, min.
    pub minutes: f64,
    /// What it costs, money of the price list.
    pub cost: f64,
}

impl Test {
    /// Expected gain per minute, with its cost counted as minutes; what tests are ranked by.
    pub fn worth(&self) -> f64 {
        self.gain_bits / (self.minutes + MINUTES_PER_MONEY * self.cost).max(0.25)
    }
}

/// A copy of a shadow to ask, with what it stands for: in all, and of each suspect by its index.
struct Asked {
    probability: f64,
    of: Vec<(usize, f64)>,
    now: Visit,
    running: Option<Visit>,
    gave: Vec<[Option<Outcome>; 3]>,
}

/// What a test would give on one shadow.
struct Given<'a> {
    suspect: usize,
    probability: f64,
    outcome: &'a Outcome,
    /// See [`apart_in_cycle`].
    apart: bool,
}

impl Suspects {
    /// Tests that can be made on a visit, the best first; those that are expected to tell next to nothing are left out.
    /// `None` if it was stopped.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn best_tests(&self, visit: &Visit, keep_going: &KeepGoing<'_>) -> Stoppable<Vec<Test>> {
        let candidates = candidates(visit);
        let mut asked: Vec<Asked> = self
            .shadows()
            .into_iter()
            .map(|(of, shadow)| (of.iter().map(|(_, probability)| probability).sum(), of, shadow))
            .filter(|(probability, ..)| *probability >= WORTH_ASKING)
            .map(|(probability, of, shadow): (f64, _, &Shadow)| Asked {
                probability,
                of,
                now: shadow.visit.clone(),
                running: None,
                gave: Vec::new(),
            })
            .collect();
        let ice = KnownIce::of(coil_as_seen(visit), &asked);
        let runs = visit.running().compressor && ice.probability < MAYBE_ICED;
        let run_up_min = RUN_UP_S / 60.0 + ice.thaw_min;
        let worked = each(&mut asked, keep_going, |one| ask(one, &candidates, runs))?;
        if worked == Worked::Stopped {
            return Ok(None);
        }
        let all: f64 = asked.iter().map(|one| one.probability).sum();
        let mut tests = Vec::new();
        for (index, action) in candidates.iter().enumerate() {
            let Some(needed) = visit.needed_first(action) else { continue };
            for (when, way) in [(When::Now, 0), (When::RunningClear, 1), (When::SwitchedOff, 2)] {
                let gave: Vec<Given<'_>> = asked
                    .iter()
                    .filter(|one| when != When::Now || in_phase(action, visit.running(), one.now.running()))
                    .filter_map(|one| Some((one, one.gave.get(index)?[way].as_ref()?)))
                    .flat_map(|(one, outcome)| {
                        let apart = when == When::Now && apart_in_cycle(visit.running(), one.now.running());
                        let given = move |(suspect, probability): &(usize, f64)| Given {
                            suspect: *suspect,
                            probability: *probability,
                            outcome,
                            apart,
                        };
                        one.of.iter().map(given)
                    })
                    .collect();
                let gain_bits = expected_gain_bits(action, &gave, self, all);
                if gain_bits < 1.0e-3 {
                    continue;
                }
                let first: Vec<Move> = if when == When::SwitchedOff {
                    switching_off().into_iter().chain(needed.clone()).collect()
                } else {
                    needed.clone()
                };
                let taken: f64 = first.iter().map(minutes).sum::<f64>() + visit.offer(action.clone()).minutes;
                let minutes = taken + if when == When::RunningClear { run_up_min } else { 0.0 };
                let cost = if needed.contains(&Move::ConnectGauges) { HOSES_COST } else { 0.0 };
                tests.push(Test { action: action.clone(), first, when, gain_bits, minutes, cost });
            }
        }
        tests.sort_by(|a, b| b.worth().total_cmp(&a.worth()));
        Ok(Some(tests))
    }
}

/// Ice on the coil as far as it is known: as it was last seen; before the first look, as the shadows have it.
#[derive(Clone, Copy, Debug, PartialEq)]
struct KnownIce {
    /// Probability that there is some.
    probability: f64,
    /// Expected time until it has melted, min.
    thaw_min: f64,
}

impl KnownIce {
    fn of(seen: CoilAsSeen, asked: &[Asked]) -> KnownIce {
        match seen {
            CoilAsSeen::Clear => KnownIce { probability: 0.0, thaw_min: 0.0 },
            CoilAsSeen::SomeIce => KnownIce { probability: 1.0, thaw_min: THAW_SOME_MIN },
            CoilAsSeen::BlockOfIce => KnownIce { probability: 1.0, thaw_min: THAW_BLOCK_MIN },
            CoilAsSeen::Unseen => {
                let all: f64 = asked.iter().map(|one| one.probability).sum();
                let iced = |one: &&Asked| one.now.is_iced();
                let share = |one: &Asked| one.probability / all;
                KnownIce {
                    probability: asked.iter().filter(iced).map(share).sum(),
                    thaw_min: asked.iter().filter(iced).map(|one| share(one) * thaw_min(&one.now)).sum(),
                }
            }
        }
    }
}

/// Time that the ice of a shadow takes to melt, min.
fn thaw_min(iced: &Visit) -> f64 {
    if iced.truth().frost_mass_kg > BLOCK_KG { THAW_BLOCK_MIN } else { THAW_SOME_MIN }
}

/// Refrigerant that the hoses take with them, at the price list's price per kg times a few grams.
const HOSES_COST: f64 = 1.0;

/// Moves that take the power from the air handler and let everything come to rest.
fn switching_off() -> [Move; 2] {
    [Move::IndoorServiceSwitch(Switch::Open), Move::Wait(Duration::Minutes(1.0))]
}

fn ask(one: &mut Asked, candidates: &[Move], runs: bool) -> Result<(), StepError> {
    if !runs {
        one.running = Some(one.now.run_up(RUN_UP_S)?);
    }
    let mut off = one.now.switched_off(SWITCHED_OFF_S)?;
    one.gave = candidates
        .iter()
        .map(|action| {
            let tells_off = [Move::Look(Place::OutdoorUnit), Move::WatchBlower].contains(action);
            [
                one.now.foresee(action),
                one.running.as_mut().and_then(|running| running.foresee(action)),
                if tells_off { off.foresee(action) } else { None },
            ]
        })
        .collect();
    Ok(())
}

/// Every look and measurement that the site offers, and voltages that only pay in a hunt.
fn candidates(visit: &Visit) -> Vec<Move> {
    let volts = [
        (Terminal::FuseSupply, Terminal::C),
        (Terminal::FuseLoad, Terminal::C),
        (Terminal::FloatSwitchIn, Terminal::C),
        (Terminal::FloatSwitchOut, Terminal::C),
        (Terminal::EcmLine1, Terminal::EcmLine2),
        (Terminal::EcmCommand, Terminal::EcmCommon),
        (Terminal::TransformerPrimary1, Terminal::TransformerPrimary2),
    ]
    .map(|(from, to)| Move::MeasureVoltage { from, to });
    let mut all: Vec<Move> = Vec::new();
    let offered = Place::ALL.into_iter().flat_map(|place| visit.offers(place)).map(|offer| offer.action);
    for action in offered.chain(volts) {
        let known = all.contains(&action) || was_made_so(visit, &action);
        if action.only_tells() && !known {
            all.push(action);
        }
    }
    all
}

/// Whether a test was made already since anything was set, waited for or mended, with the same things running: it would
/// show the same again.
fn was_made_so(visit: &Visit, action: &Move) -> bool {
    for entry in visit.notebook().iter().rev() {
        let refused = matches!(entry.outcome, Outcome::Refused(_));
        if entry.action == *action && !refused && runs_alike(action, &entry.running, visit.running()) {
            return true;
        }
        if changes_something(&entry.action) {
            return false;
        }
    }
    false
}

/// A switch that was thrown and is back again changes nothing by itself.
fn changes_something(action: &Move) -> bool {
    match action {
        Move::Wait(duration) => duration.seconds() >= CHANGED_S,
        _ => matches!(action, Move::SetThermostat { .. } | Move::Mend(_)),
    }
}

/// Mutual information of suspect and outcome, bit, among those of `all` that give one: about the others it says nothing.
fn expected_gain_bits(action: &Move, gave: &[Given<'_>], suspects: &Suspects, all: f64) -> f64 {
    let total: f64 = gave.iter().map(|one| one.probability).sum();
    if total <= 0.0 {
        return 0.0;
    }
    // Rows: suspects; columns: outcomes. Readings share a scale, sights are a column each.
    let mut chances: BTreeMap<usize, BTreeMap<Column, f64>> = BTreeMap::new();
    let scale = Scale::over(gave);
    for one in gave {
        let row = chances.entry(one.suspect).or_default();
        for (column, share) in columns(action, one, &scale, suspects) {
            *row.entry(column).or_default() += one.probability / total * share;
        }
    }
    let mut of_columns: BTreeMap<&Column, f64> = BTreeMap::new();
    for (column, chance) in chances.values().flatten() {
        *of_columns.entry(column).or_default() += chance;
    }
    chances
        .values()
        .map(|row| {
            let of_row: f64 = row.values().sum();
            row.iter()
                .filter(|(_, chance)| **chance > 1.0e-12)
                .map(|(column, chance)| {
                    let apart = of_row * of_columns.get(column).copied().unwrap_or(*chance);
                    chance * libm::log2(chance / apart)
                })
                .sum::<f64>()
        })
        .sum::<f64>()
        .max(0.0)
        * (total / all)
}

/// One possible outcome.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Column {
    /// A reading on a step of the scale.
    Step(usize),
    /// What was seen, sorted.
    Seen(Vec<Observation>),
    /// No number.
    Nothing,
    /// Something that nobody expected.
    Odd,
}

/// Scale of the readings of one test.
struct Scale {
    low: f64,
    step: f64,
}

impl Scale {
    fn over(gave: &[Given<'_>]) -> Scale {
        let mut low = f64::MAX;
        let mut high = f64::MIN;
        for one in gave {
            if let Outcome::Read(reading) = one.outcome {
                let spread = spread(reading, one.apart);
                low = low.min(reading.value - 3.0 * spread);
                high = high.max(reading.value + 3.0 * spread);
            }
        }
        if high <= low {
            Scale { low: 0.0, step: 1.0 }
        } else {
            Scale { low, step: (high - low) / BINS as f64 }
        }
    }

    /// Shares of a reading's chances on the steps of the scale.
    fn shares(&self, value: f64, spread: f64) -> Vec<(Column, f64)> {
        // A spread narrower than a step falls on the steps around it.
        let spread = spread.max(0.4 * self.step);
        let weights: Vec<f64> = (0..BINS)
            .map(|step| {
                let off = (self.low + (step as f64 + 0.5) * self.step - value) / spread;
                libm::exp(-0.5 * off * off)
            })
            .collect();
        let total: f64 = weights.iter().sum();
        weights
            .iter()
            .enumerate()
            .filter(|(_, weight)| **weight > 1.0e-6 * total)
            .map(|(step, weight)| (Column::Step(step), weight / total))
            .collect()
    }
}

fn columns(action: &Move, one: &Given<'_>, scale: &Scale, suspects: &Suspects) -> Vec<(Column, f64)> {
    match one.outcome {
        Outcome::Read(reading) => scale.shares(reading.value, spread(reading, one.apart)),
        Outcome::Seen(seen) => {
            let mut plain: Vec<Observation> = seen
                .iter()
                .copied()
                .filter(|one| !matches!(one, Observation::OilStain(_) | Observation::NoOilStain))
                .collect();
            plain.sort();
            let place = match action {
                Move::SearchLeak(place, _) => Some(*place),
                look => looked_at(look),
            };
            let leaks = place.is_some_and(|place| leaks_at(&suspects.names()[one.suspect], place));
            match (action, place) {
                (Move::SearchLeak(place, _), _) => {
                    let shows = leaks && plain.contains(&Observation::LeakFound(*place));
                    let finds = if shows { DETECTOR_FINDS } else { 0.003 };
                    vec![
                        (Column::Seen(vec![Observation::LeakFound(*place)]), finds),
                        (Column::Seen(vec![Observation::NoLeakFound(*place)]), 1.0 - finds),
                    ]
                }
                (_, Some(place)) if leaks => {
                    let mut stained = plain.clone();
                    stained.push(Observation::OilStain(place));
                    vec![(Column::Seen(stained), STAIN_AT_LEAK), (Column::Seen(plain), 1.0 - STAIN_AT_LEAK)]
                }
                _ => vec![(Column::Seen(plain), 1.0 - SLIP), (Column::Odd, SLIP)],
            }
        }
        _ => vec![(Column::Nothing, 1.0)],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The coil of the contactor is fed from indoors: both switches are out for its ohms, and they are read once.
    #[test]
    fn the_ohms_of_a_coil_are_read_dead_and_once() {
        let (id, text) = call::built_in()[0];
        let call = call::read(text, id).expect("a built-in call is valid");
        let call = call::Call { history_s: 600.0, ..call };
        let mut visit = Visit::start(&call, 1).expect("finite");
        let ohms = Move::MeasureResistance { from: Terminal::ContactorCoilY, to: Terminal::ContactorCoilC };
        assert!(candidates(&visit).contains(&ohms));
        let first = visit.needed_first(&ohms).expect("it can be reached");
        for action in first.iter().chain([&ohms]) {
            visit.perform(action).expect("finite");
        }
        let outcome = &visit.notebook().last().expect("an entry").outcome;
        assert!(matches!(outcome, Outcome::Read(_)), "{outcome:?} after {first:?}");
        for action in [
            Move::OutdoorDisconnect(Switch::Closed),
            Move::IndoorServiceSwitch(Switch::Closed),
            Move::Wait(Duration::Minutes(5.0)),
        ] {
            visit.perform(&action).expect("finite");
        }
        assert!(!candidates(&visit).contains(&ohms), "the same again");
        visit.perform(&Move::Wait(Duration::Minutes(15.0))).expect("finite");
        assert!(candidates(&visit).contains(&ohms), "after a while it may have changed");
    }
}
