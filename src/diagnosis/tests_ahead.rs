//! The next best test: for each look and each measurement that is possible, what it is expected to tell.
//!
//! What each shadow would give is asked of copies of the shadows. The expected gain is the mutual information between
//! the part that a repair would change and the outcome (Shannon 1948; as the worth of an experiment, Lindley 1956), with the
//! instrument's accuracy and the model's error in it (`outcomes`). It is set against the minutes of the test and of what has to
//! be done before it; tests that share that are weighed together (`bundle`).

use plant::{StepError, Switch, Terminal};
use visit::Duration;
use visit::{CoilAsSeen, Entry, Move, Outcome, Place, Visit, minutes};

use crate::bundle::Draws;
use crate::hypotheses::{Hypotheses, Stoppable};
use crate::member::Member;
use crate::outcomes::{Given, Row, Table};
use crate::parallel::{self, Worked};
use crate::part::{MINUTES_PER_MONEY, Part};
use crate::phase::{apart_in_cycle, in_phase};
use crate::progress::Progress;
use crate::repeats::{Before, is_same_running};

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
/// Expected gain below which a test tells next to nothing, bit.
const NEXT_TO_NOTHING_BITS: f64 = 1.0e-3;
/// Tests of one set-up at most.
const MOST_OF_A_BUNDLE: usize = 4;
/// Tests of a set-up that are tried beside the first, those that tell most for their own minutes.
const TRIED_BESIDE: usize = 12;
/// By how much more for its minutes a bundle tells than without its last test, at least: less is what the draws may be off by
/// (engineering value).
const WORTH_TAKING_IN: f64 = 1.02;

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
    /// Expected gain in information about the part that a repair would change, bit.
    pub gain_bits: f64,
    /// What it takes with everything before it, min.
    pub minutes: f64,
    /// What it costs, money of the price list.
    pub cost: f64,
    /// Others that its set-up makes possible as well, if they make it worth more.
    pub bundle: Option<Bundle>,
}

/// Tests that are made after a first one in the same set-up.
#[derive(Clone, Debug, PartialEq)]
pub struct Bundle {
    /// The others, in order.
    pub others: Vec<Move>,
    /// What all of them with the first are expected to tell together, bit.
    pub gain_bits: f64,
    /// What all of them take with everything before, min.
    pub minutes: f64,
    /// What they cost.
    pub cost: f64,
}

impl Test {
    /// Expected gain per minute, with its cost counted as minutes; what tests are ranked by. Of a set-up shared with others that
    /// of all of them, if it is more.
    pub fn worth(&self) -> f64 {
        let alone = worth(self.gain_bits, self.minutes, self.cost);
        self.bundle.as_ref().map_or(alone, |all| alone.max(worth(all.gain_bits, all.minutes, all.cost)))
    }

    /// What it tells with its bundle, bit.
    pub fn told_together_bits(&self) -> f64 {
        self.bundle.as_ref().map_or(self.gain_bits, |all| all.gain_bits.max(self.gain_bits))
    }
}

fn worth(gain_bits: f64, minutes: f64, cost: f64) -> f64 {
    gain_bits / (minutes + MINUTES_PER_MONEY * cost).max(0.25)
}

/// A copy of a shadow to ask, with what it stands for: in all, and of each suspect by its index.
struct Asked {
    probability: f64,
    of: Vec<(usize, f64)>,
    now: Visit,
    running: Option<Visit>,
    gave: Vec<[Option<Outcome>; 3]>,
}

/// A test with what it may give, and what its minutes are made of.
struct Update {
    test: Test,
    table: Table,
    set_up: SetUp,
    /// Minutes of the move itself, and of the walk to it.
    own_min: f64,
    walk_min: f64,
    run_up_min: f64,
}

/// Tests that one set-up can serve.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum SetUp {
    Live,
    DeadIndoors,
    DeadOutdoors,
    Running,
    SwitchedOff,
    /// The bulb off the line: nothing else is read meanwhile.
    BulbOff,
}

impl SetUp {
    /// Those that several tests can share.
    const ALL: [SetUp; 5] =
        [SetUp::Live, SetUp::DeadIndoors, SetUp::DeadOutdoors, SetUp::Running, SetUp::SwitchedOff];

    fn of(action: &Move, when: When) -> SetUp {
        match (when, action) {
            (_, action) if action.tests_the_bulb() => SetUp::BulbOff,
            (When::RunningClear, _) => SetUp::Running,
            (When::SwitchedOff, _) => SetUp::SwitchedOff,
            (When::Now, Move::MeasureResistance { from, to } | Move::MeasureCapacitance { from, to }) => {
                if from.is_outdoors() || to.is_outdoors() {
                    SetUp::DeadOutdoors
                } else {
                    SetUp::DeadIndoors
                }
            }
            (When::Now, _) => SetUp::Live,
        }
    }
}

impl Hypotheses {
    /// Tests that can be made on a visit, the best first; those that are expected to tell next to nothing are left out.
    /// `None` if it was stopped.
    ///
    /// # Errors
    /// If a shadow leaves the finite numbers.
    pub fn best_tests(&self, visit: &Visit, progress: &dyn Progress) -> Stoppable<Vec<Test>> {
        let candidates = candidates(visit);
        let mut asked = self.asked();
        let ice = KnownIce::of(CoilAsSeen::in_notebook(visit.notebook()), &asked);
        let runs = visit.running().compressor && ice.probability < MAYBE_ICED;
        let run_up_min = RUN_UP_S / 60.0 + ice.thaw_min;
        let actions: Vec<Move> = candidates.iter().map(|(action, _)| action.clone()).collect();
        let worked =
            parallel::for_each(&mut asked, parallel::cores(), progress, |one| ask(one, &actions, runs))?;
        if worked == Worked::Stopped {
            return Ok(None);
        }
        let (rows, parts) = self.rows(&asked);
        let mut weighed = Vec::new();
        for (index, (action, before)) in candidates.iter().enumerate() {
            let Some(needed) = visit.needed_first(action) else { continue };
            let seen_before = seen_before(visit, action);
            for (when, way) in [(When::Now, 0), (When::RunningClear, 1), (When::SwitchedOff, 2)] {
                let gave: Vec<Option<Given<'_>>> = asked
                    .iter()
                    .map(|one| {
                        let outcome = one.gave.get(index)?[way].as_ref()?;
                        let now = when == When::Now;
                        if now && !in_phase(action, visit.running(), one.now.running()) {
                            return None;
                        }
                        let before = seen_before.and_then(|entry| entry_of(&one.now, entry.number));
                        let apart = now && apart_in_cycle(visit.running(), one.now.running());
                        Some(Given { outcome, before, apart })
                    })
                    .collect();
                let Some(table) = Table::of(action, &rows, &gave, seen_before) else { continue };
                let gain_bits = table.gain_bits(&rows, parts);
                if gain_bits < NEXT_TO_NOTHING_BITS || before.told_nothing(self, gain_bits) {
                    continue;
                }
                let first: Vec<Move> = if when == When::SwitchedOff {
                    switching_off().into_iter().chain(needed.clone()).collect()
                } else {
                    needed.clone()
                };
                let back_min = if action.tests_the_bulb() { minutes(&Move::PutBulbBack) } else { 0.0 };
                let offered_min = visit.offer(action.clone()).minutes + back_min;
                let own_min = offered_min.min(minutes(action) + back_min);
                let run_up_min = if when == When::RunningClear { run_up_min } else { 0.0 };
                let test_min = first.iter().map(minutes).sum::<f64>() + offered_min + run_up_min;
                let cost = if needed.contains(&Move::ConnectGauges) { HOSES_COST } else { 0.0 };
                weighed.push(Update {
                    test: Test {
                        action: action.clone(),
                        first,
                        when,
                        gain_bits,
                        minutes: test_min,
                        cost,
                        bundle: None,
                    },
                    table,
                    set_up: SetUp::of(action, when),
                    own_min,
                    walk_min: offered_min - own_min,
                    run_up_min,
                });
            }
        }
        for set_up in SetUp::ALL {
            bundle(&mut weighed, set_up, &rows, parts);
        }
        let mut tests: Vec<Test> = weighed.into_iter().map(|one| one.test).collect();
        tests.sort_by(|a, b| b.worth().total_cmp(&a.worth()));
        Ok(Some(tests))
    }

    /// Copies of the shadows that stand for something.
    fn asked(&self) -> Vec<Asked> {
        self.shadows()
            .into_iter()
            .map(|(of, shadow)| (of.iter().map(|(_, probability)| probability).sum(), of, shadow))
            .filter(|(probability, ..)| *probability >= WORTH_ASKING)
            .map(|(probability, of, shadow): (f64, _, &Member)| Asked {
                probability,
                of,
                now: shadow.visit.clone(),
                running: None,
                gave: Vec::new(),
            })
            .collect()
    }

    /// Each suspect on each shadow, and how many parts there are.
    fn rows(&self, asked: &[Asked]) -> (Vec<Row<'_>>, usize) {
        let mut parts: Vec<Part> = Vec::new();
        let of_suspects: Vec<usize> = self
            .parts()
            .into_iter()
            .map(|part| {
                parts.iter().position(|known| *known == part).unwrap_or_else(|| {
                    parts.push(part);
                    parts.len() - 1
                })
            })
            .collect();
        let rows = asked
            .iter()
            .enumerate()
            .flat_map(|(shadow, one)| one.of.iter().map(move |of| (shadow, *of)))
            .filter(|(_, (_, probability))| *probability > 0.0)
            .map(|(shadow, (index, probability))| Row {
                suspect: &self.names()[index],
                index,
                part: of_suspects[index],
                probability,
                shadow,
            })
            .collect();
        (rows, parts.len())
    }
}

/// Gives the best test of a set-up the others that make it worth more, as many as that holds for.
fn bundle(weighed: &mut [Update], set_up: SetUp, rows: &[Row<'_>], parts: usize) {
    let mut members: Vec<usize> = (0..weighed.len()).filter(|at| weighed[*at].set_up == set_up).collect();
    let alone = |at: &usize| weighed[*at].test.worth();
    let Some(first) = members.iter().copied().max_by(|a, b| alone(a).total_cmp(&alone(b))) else { return };
    members.retain(|at| *at != first);
    let own = |at: &usize| weighed[*at].test.gain_bits / weighed[*at].own_min.max(0.25);
    members.sort_by(|a, b| own(b).total_cmp(&own(a)));
    members.truncate(TRIED_BESIDE);
    let mut draws = Draws::new(rows, parts);
    let mut taken = vec![first];
    let mut best: Option<Bundle> = None;
    let mut most = weighed[first].test.worth();
    draws.take(&weighed[first].table);
    while taken.len() < MOST_OF_A_BUNDLE {
        let with = members.iter().filter(|at| !taken.contains(at)).map(|at| {
            let all: Vec<&Update> = taken.iter().chain([at]).map(|at| &weighed[*at]).collect();
            let gain_bits = draws.gain_with(&weighed[*at].table);
            let others = all[1..].iter().map(|one| one.test.action.clone()).collect();
            (*at, Bundle { others, gain_bits, minutes: minutes_together(&all), cost: cost_together(&all) })
        });
        let worth_of = |all: &Bundle| worth(all.gain_bits, all.minutes, all.cost);
        let Some((at, all)) = with.max_by(|(_, a), (_, b)| worth_of(a).total_cmp(&worth_of(b))) else {
            break;
        };
        if worth_of(&all) < WORTH_TAKING_IN * most {
            break;
        }
        most = worth_of(&all);
        draws.take(&weighed[at].table);
        taken.push(at);
        best = Some(all);
    }
    weighed[first].test.bundle = best;
}

/// Minutes of tests made one after another: what comes before them once, however many need it.
fn minutes_together(all: &[&Update]) -> f64 {
    let mut first: Vec<&Move> = Vec::new();
    for one in all {
        for action in &one.test.first {
            let needed = one.test.first.iter().filter(|other| *other == action).count();
            let there = first.iter().filter(|other| **other == action).count();
            first.extend(std::iter::repeat_n(action, needed.saturating_sub(there)));
        }
    }
    let most = |of: fn(&Update) -> f64| all.iter().map(|one| of(one)).fold(0.0, f64::max);
    let own: f64 = all.iter().map(|one| one.own_min).sum();
    let before: f64 = first.into_iter().map(minutes).sum();
    before + most(|one| one.walk_min) + most(|one| one.run_up_min) + own
}

/// Hoses are put on once.
fn cost_together(all: &[&Update]) -> f64 {
    all.iter().map(|one| one.test.cost).fold(0.0, f64::max)
}

/// The same look made the last time.
fn seen_before<'a>(visit: &'a Visit, action: &Move) -> Option<&'a Entry> {
    let seen = |entry: &&Entry| entry.action == *action && matches!(entry.outcome, Outcome::Seen(_));
    visit.notebook().iter().rev().find(seen)
}

/// What a shadow gave for the entry of a number.
fn entry_of(shadow: &Visit, number: u32) -> Option<&Entry> {
    shadow.notebook().get(usize::try_from(number).ok()?.checked_sub(1)?)
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
            if action.tests_the_bulb() {
                // It needs a coil that is free of ice and a plant that has run.
                return Ok(match &one.running {
                    Some(running) => [None, running.foresee_bulb_test(action)?, None],
                    None => [one.now.foresee_bulb_test(action)?, None, None],
                });
            }
            let tells_off = [Move::Look(Place::OutdoorUnit), Move::WatchBlower].contains(action);
            Ok([
                one.now.foresee(action),
                if is_same_running(action) {
                    None
                } else {
                    one.running.as_mut().and_then(|running| running.foresee(action))
                },
                if tells_off { off.foresee(action) } else { None },
            ])
        })
        .collect::<Result<_, StepError>>()?;
    Ok(())
}

/// Every look and measurement that the site offers, and voltages that only pay in a hunt, with what was made of it before.
fn candidates(visit: &Visit) -> Vec<(Move, Before)> {
    let volts = [
        (Terminal::FuseSupply, Terminal::C),
        (Terminal::FuseLoad, Terminal::C),
        (Terminal::FloatSwitchIn, Terminal::C),
        (Terminal::FloatSwitchOut, Terminal::C),
        (Terminal::TransformerPrimary1, Terminal::TransformerPrimary2),
    ]
    .map(|(from, to)| Move::MeasureVoltage { from, to });
    let mut all: Vec<(Move, Before)> = Vec::new();
    let offered = Place::ALL.into_iter().flat_map(|place| visit.offers(place)).map(|offer| offer.action);
    for action in offered.chain(volts) {
        if !(action.only_tells() || action.tests_the_bulb()) || all.iter().any(|(known, _)| *known == action)
        {
            continue;
        }
        let before = Before::of(visit, &action);
        if before != Before::Same {
            all.push((action, before));
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A test of one of four equal parts' halves, with a panel before it or nothing.
    fn test_of(halves: [f64; 4], first: Vec<Move>) -> Update {
        let chances = halves.into_iter().flat_map(|chance| [chance, 1.0 - chance]).collect();
        let action = Move::InspectFilter;
        Update {
            test: Test {
                minutes: 1.0 + first.iter().map(minutes).sum::<f64>(),
                action,
                first,
                when: When::Now,
                gain_bits: 1.0,
                cost: 0.0,
                bundle: None,
            },
            table: Table::by_hand(2, chances),
            set_up: SetUp::Live,
            own_min: 1.0,
            walk_min: 0.0,
            run_up_min: 0.0,
        }
    }

    /// A panel that serves two tests pays for both; without one the second can as well be made later, and one that tells the same
    /// is worth nothing beside the first.
    #[test]
    fn a_set_up_is_shared_by_what_it_serves() {
        let nobody = crate::hypothesis::Hypothesis { causes: Vec::new() };
        let rows: Vec<Row<'_>> = (0..4)
            .map(|at| Row { suspect: &nobody, index: at, part: at, probability: 0.25, shadow: at })
            .collect();
        let (high, low) = ([1.0, 1.0, 0.0, 0.0], [1.0, 0.0, 1.0, 0.0]);
        let panel = || vec![Move::OpenPanel(visit::Panel::BlowerCompartment)];
        let bundled = |mut weighed: Vec<Update>| {
            bundle(&mut weighed, SetUp::Live, &rows, 4);
            weighed.into_iter().find_map(|one| one.test.bundle)
        };
        let both = bundled(vec![test_of(high, panel()), test_of(low, panel())]).expect("worth more together");
        assert_eq!(both.others.len(), 1);
        assert_eq!(both.minutes, minutes(&panel()[0]) + 2.0, "the panel once");
        assert!((both.gain_bits - 2.0).abs() < 1.0e-9, "{both:?}");
        assert_eq!(bundled(vec![test_of(high, panel()), test_of(high, panel())]), None, "the same twice");
        assert_eq!(bundled(vec![test_of(high, vec![]), test_of(low, vec![])]), None, "nothing to share");
    }

    /// The coil of the contactor is fed from indoors: both switches are out for its ohms, and they are read once.
    #[test]
    fn the_ohms_of_a_coil_are_read_dead_and_once() {
        let (id, text) = call::built_in()[0];
        let call = call::read(text, id).expect("a built-in call is valid");
        let call = call::Call { history_s: 600.0, ..call };
        let mut visit = Visit::start(&call, 1).expect("finite");
        let ohms = Move::MeasureResistance { from: Terminal::ContactorCoilY, to: Terminal::ContactorCoilC };
        let asked = |visit: &Visit| candidates(visit).iter().any(|(action, _)| *action == ohms);
        assert!(asked(&visit));
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
        assert!(!asked(&visit), "the same again");
        visit.perform(&Move::Wait(Duration::Minutes(60.0))).expect("finite");
        assert!(!asked(&visit), "no wait changes ohms");
        visit.perform(&Move::ReplaceFilter).expect("finite");
        assert!(asked(&visit), "something was mended");
    }
}
