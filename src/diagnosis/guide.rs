//! A way through a visit by the next best test, and from there through the repair to the proof.

use call::{Duration, Mass, Milestone, Temperature};
use plant::{Capacitor, FanSetting, Fault, FaultKind, LeakPlace, LeftBehind, Mode, Switch, Work};
use serde::{Deserialize, Serialize};
use visit::{CoilAsSeen, Declaration, Move, Panel, Place, Visit};

use crate::hypotheses::{Hypotheses, Stoppable};
use crate::order::{Reach, ahead_of, melting, reach, wanted_before};
use crate::part::{action_of, work_for};
use crate::progress::{Done, Progress, Within};
use crate::tests_ahead::{Test, When};

/// Expected gain below which nothing is worth doing, bit.
const WORTH_DOING_BITS: f64 = 0.02;
/// Most tests of one visit.
const MOST_TESTS: usize = 60;
/// Most entries of a notebook that is filled in search of the cause.
const MOST_ENTRIES: usize = 60;
/// Entries that one test takes at most, with what comes before it and what is put back.
const LONGEST_TEST: usize = 8;
/// Most waits of half an hour for the thaw.
const MOST_THAWS: usize = 12;
/// Probability from which the likeliest part is declared.
pub const SURE: f64 = 0.95;
/// Probability below which no part is declared while anything can still be told, however cheap a wrong one is: a declaration is
/// a word given to the customer (engineering value).
const LEAST_SURE: f64 = 0.8;
/// Plant time after which a sound path goes on to the repair with what is known, min.
const SOUND_LIMIT_MIN: f64 = 300.0;
/// Gain from which an entry is cited as evidence, bit.
const WORTH_CITING_BITS: f64 = 0.05;
/// Rivals below this probability are named as ruled out.
const RULED_OUT: f64 = 0.02;
/// Rivals that a declaration names at most.
const MOST_RIVALS: usize = 3;

/// What a step of a way is for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Purpose {
    /// The test that was expected to tell most for its minutes.
    Tests {
        /// Expected gain, bit.
        expected_bits: f64,
    },
    /// Makes the next test possible.
    Prepares,
    /// The order that the call asks for has it before what comes next.
    KeepsOrder,
    /// Melts the ice and runs the plant up, for what only a running plant shows.
    RunsUp,
    /// Puts back what a test had switched off.
    PutsBack,
    /// Says what is wrong.
    Declares,
    /// Makes the plant safe to work on.
    MakesSafe,
    /// Takes the cause away.
    Repairs(FaultKind),
    /// Closes and fills the circuit after it was opened.
    Fills,
    /// Proves the repair, or ends the visit.
    Proves,
}

/// Whether one part stands out.
pub fn is_sure(suspects: &Hypotheses) -> bool {
    suspects.likeliest_part().1 >= SURE
}

/// Whether the likeliest part is to be declared rather than tested any more: what a wrong one costs, as often as it would be wrong,
/// is less than the next test takes. One that is sure is tested on where the test can be expected to save more than it takes.
pub fn is_worth_declaring(suspects: &Hypotheses, visit: &Visit, next: &Test) -> bool {
    let (part, probability) = suspects.likeliest_part();
    let told_share = next.gain_bits / suspects.open_bits().max(f64::MIN_POSITIVE);
    let wrong_min = part.wrong_min(visit.call().system.plate_charge_kg);
    declares(probability, wrong_min, next.minutes, told_share)
}

/// `told_share` of what is open the next test is expected to tell.
fn declares(probability: f64, wrong_min: Option<f64>, next_min: f64, told_share: f64) -> bool {
    let at_stake_min = wrong_min.map(|wrong_min| (1.0 - probability) * wrong_min);
    if probability >= SURE {
        return at_stake_min.is_none_or(|at_stake_min| at_stake_min * told_share.min(1.0) < next_min);
    }
    probability >= LEAST_SURE && at_stake_min.is_some_and(|at_stake_min| at_stake_min < next_min)
}

/// Works a visit by the next best test until another one would cost more than it can save, nothing tells
/// more, or the visit is `limit_min` old or its notebook 60 entries long. Returns what each move was for; `None` if it was stopped.
///
/// # Errors
/// If a plant leaves the finite numbers.
pub fn guide(
    visit: &mut Visit,
    suspects: &mut Hypotheses,
    limit_min: f64,
    progress: &dyn Progress,
) -> Stoppable<Vec<Purpose>> {
    let mut way = Way { visit, suspects, aims: Vec::new(), progress, manner: Strategy::Quickest };
    Ok(way.find(limit_min)?.map(|()| way.aims))
}

/// A sound path: [`guide`] in the order that the call asks for, then the work that takes the true faults away, and the
/// proof. Needs a visit and suspects on arrival. Returns what each move was for; `None` if it was stopped.
///
/// # Errors
/// If a plant leaves the finite numbers.
pub fn sound_path(
    visit: &mut Visit,
    suspects: &mut Hypotheses,
    progress: &dyn Progress,
) -> Stoppable<Vec<Purpose>> {
    let mut way =
        Way { visit, suspects, aims: Vec::new(), progress, manner: Strategy::Ordered { tried: Vec::new() } };
    if way.find(SOUND_LIMIT_MIN)?.is_none() {
        return Ok(None);
    }
    Ok(way.mend()?.map(|()| way.aims))
}

/// The next moves towards a test, itself the last of them if it can be made now. Where the coil has to be looked at or
/// thawed first, the moves end there: what comes next depends on what is seen.
pub fn way_to(visit: &Visit, test: &Test) -> Vec<Move> {
    if test.when == When::RunningClear {
        let mut moves = Vec::new();
        match CoilAsSeen::in_notebook(visit.notebook()) {
            CoilAsSeen::Unseen => {
                if !visit.site().is_open(Panel::CoilCabinet) {
                    moves.push(Move::OpenPanel(Panel::CoilCabinet));
                }
                moves.push(Move::Look(Place::IndoorCoil));
                return moves;
            }
            CoilAsSeen::SomeIce | CoilAsSeen::BlockOfIce => {
                moves.extend([melting(), half_an_hour(), Move::Look(Place::IndoorCoil)]);
                return moves;
            }
            CoilAsSeen::Clear => moves.extend(starting()),
        }
        moves.retain(|action| !is_so_already(visit, action));
        moves.push(Move::Wait(Duration::Minutes(15.0)));
        moves.extend(test.first.iter().cloned());
        moves.push(test.action.clone());
        return moves;
    }
    test.first.iter().cloned().chain([test.action.clone()]).chain(putting_back(&test.first)).collect()
}

/// Whether a switch stands already as a move would set it.
fn is_so_already(visit: &Visit, action: &Move) -> bool {
    match action {
        Move::OutdoorDisconnect(switch) => visit.inputs().outdoor_disconnect == *switch,
        Move::IndoorServiceSwitch(switch) => visit.inputs().indoor_service_switch == *switch,
        _ => false,
    }
}

fn half_an_hour() -> Move {
    Move::Wait(Duration::Minutes(30.0))
}

fn starting() -> [Move; 3] {
    [
        Move::OutdoorDisconnect(Switch::Closed),
        Move::IndoorServiceSwitch(Switch::Closed),
        Move::SetThermostat {
            mode: Mode::Cool,
            fan: FanSetting::Auto,
            set_point: Temperature::Fahrenheit(60.0),
        },
    ]
}

/// Power that was cut for a test comes back, or nothing runs for the next one.
fn putting_back(first: &[Move]) -> Vec<Move> {
    let ends_open = |open: &Move, closed: &Move| {
        first.iter().rev().find(|action| *action == open || *action == closed) == Some(open)
    };
    [Move::OutdoorDisconnect, Move::IndoorServiceSwitch]
        .into_iter()
        .filter(|switch| ends_open(&switch(Switch::Open), &switch(Switch::Closed)))
        .map(|switch| switch(Switch::Closed))
        .collect()
}

struct Way<'a> {
    visit: &'a mut Visit,
    suspects: &'a mut Hypotheses,
    aims: Vec<Purpose>,
    progress: &'a dyn Progress,
    manner: Strategy,
}

/// How a way is gone.
#[derive(Clone, Debug)]
enum Strategy {
    /// By what tells most for its minutes, whatever the order.
    Quickest,
    /// In the order that the call asks for, with the milestones that were gone for.
    Ordered { tried: Vec<Milestone> },
}

/// Whether something had to be done for the order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kept {
    AsItWas,
    MovesMade,
}

impl Way<'_> {
    /// Makes a move, if this system and this site allow it, and weighs it.
    fn make(&mut self, action: &Move, aim: Purpose) -> Stoppable<()> {
        if self.visit.offer(action.clone()).refused.is_some() {
            return Ok(Some(()));
        }
        self.visit.perform(action)?;
        self.aims.push(aim);
        self.progress.report(Done::Steps(self.aims.len()));
        match self.visit.notebook().last() {
            Some(entry) => self.suspects.follow(entry, &Within(self.progress)),
            None => Ok(Some(())),
        }
    }

    fn make_all(&mut self, moves: impl IntoIterator<Item = Move>, aim: Purpose) -> Stoppable<()> {
        for action in moves {
            if self.make(&action, aim)?.is_none() {
                return Ok(None);
            }
        }
        Ok(Some(()))
    }

    /// Does what the call wants done before some moves, as far as it can be done by then.
    fn keep_order(&mut self, actions: &[Move]) -> Stoppable<Kept> {
        let mut kept = Kept::AsItWas;
        for milestone in actions.iter().flat_map(ahead_of) {
            for any in wanted_before(self.visit, milestone) {
                match self.reach_one(&any)? {
                    None => return Ok(None),
                    Some(Kept::AsItWas) => {}
                    Some(Kept::MovesMade) => kept = Kept::MovesMade,
                }
            }
        }
        Ok(Some(kept))
    }

    /// Goes for the first of some milestones that can be reached, once, unless one of them is reached.
    fn reach_one(&mut self, any: &[Milestone]) -> Stoppable<Kept> {
        let Strategy::Ordered { tried } = &mut self.manner else { return Ok(Some(Kept::AsItWas)) };
        if self.visit.milestones().iter().any(|(reached, _)| any.contains(reached)) {
            return Ok(Some(Kept::AsItWas));
        }
        let ways = any.iter().filter(|one| !tried.contains(one));
        let Some((milestone, way)) = ways.copied().find_map(|one| Some((one, reach(self.visit, one)?)))
        else {
            return Ok(Some(Kept::AsItWas));
        };
        tried.push(milestone);
        for before in wanted_before(self.visit, milestone) {
            if self.reach_one(&before)?.is_none() {
                return Ok(None);
            }
        }
        let made = match way {
            Reach::Thaw => self.thaw(Purpose::KeepsOrder)?,
            Reach::Moves(moves) => self.make_in_order(&moves)?,
            Reach::Running(moves) => {
                if self.keep_order(&moves)?.is_none()
                    || (!self.visit.running().compressor && self.run_up()?.is_none())
                {
                    return Ok(None);
                }
                self.make_in_order(&moves)?
            }
        };
        Ok(made.map(|()| Kept::MovesMade))
    }

    fn make_in_order(&mut self, moves: &[Move]) -> Stoppable<()> {
        if self.keep_order(moves)?.is_none() {
            return Ok(None);
        }
        for action in moves {
            // What is open or connected already is not offered again.
            let first = self.visit.needed_first(action).unwrap_or_default();
            if self.make_all(first.into_iter().chain([action.clone()]), Purpose::KeepsOrder)?.is_none() {
                return Ok(None);
            }
        }
        Ok(Some(()))
    }

    fn find(&mut self, limit_min: f64) -> Stoppable<()> {
        let mut ran_up = false;
        for _ in 0..MOST_TESTS {
            if self.visit.clock_minutes() > limit_min || self.is_full() {
                break;
            }
            self.progress.report(Done::Steps(self.aims.len()));
            let Some(tests) = self.suspects.best_tests(self.visit, &Within(self.progress))? else {
                return Ok(None);
            };
            // Once the plant has been run up, what only a running plant would show shows now or never.
            let best = tests
                .into_iter()
                .filter(|test| test.told_together_bits() > WORTH_DOING_BITS)
                .find(|test| !(ran_up && test.when == When::RunningClear));
            let Some(best) = best else { break };
            if is_worth_declaring(self.suspects, self.visit, &best) {
                break;
            }
            if best.when != When::RunningClear {
                let planned: Vec<Move> = best.first.iter().chain([&best.action]).cloned().collect();
                match self.keep_order(&planned)? {
                    None => return Ok(None),
                    // What comes first tells something as well: another test may be the best now.
                    Some(Kept::MovesMade) => continue,
                    Some(Kept::AsItWas) => {}
                }
            }
            let made = if best.when == When::RunningClear {
                let made = self.run_up()?;
                ran_up = !CoilAsSeen::in_notebook(self.visit.notebook()).is_iced();
                made
            } else {
                self.test(&best)?
            };
            if made.is_none() {
                return Ok(None);
            }
        }
        Ok(Some(()))
    }

    /// Whether another test might go beyond the search's share of the notebook.
    fn is_full(&self) -> bool {
        self.visit.notebook().len() + LONGEST_TEST > MOST_ENTRIES
    }

    /// Makes a test, and the others that its set-up was made for until one part is sure.
    fn test(&mut self, test: &Test) -> Stoppable<()> {
        let was_closed: Vec<Move> = [
            (self.visit.inputs().outdoor_disconnect, Move::OutdoorDisconnect(Switch::Closed)),
            (self.visit.inputs().indoor_service_switch, Move::IndoorServiceSwitch(Switch::Closed)),
        ]
        .into_iter()
        .filter(|(switch, _)| *switch == Switch::Closed)
        .map(|(_, close)| close)
        .collect();
        if self.make_all(test.first.iter().cloned(), Purpose::Prepares)?.is_none()
            || self.make(&test.action, Purpose::Tests { expected_bits: test.gain_bits })?.is_none()
        {
            return Ok(None);
        }
        if test.action.tests_the_bulb() && self.make(&Move::PutBulbBack, Purpose::PutsBack)?.is_none() {
            return Ok(None);
        }
        if let Some(bundle) = &test.bundle {
            let each_bits = (bundle.gain_bits - test.gain_bits).max(0.0) / bundle.others.len().max(1) as f64;
            for action in &bundle.others {
                if is_sure(self.suspects) || self.is_full() {
                    break;
                }
                if !self.keeps_order(action) {
                    continue;
                }
                let first = self.visit.needed_first(action).unwrap_or_default();
                if self.make_all(first, Purpose::Prepares)?.is_none()
                    || self.make(action, Purpose::Tests { expected_bits: each_bits })?.is_none()
                {
                    return Ok(None);
                }
            }
        }
        let back: Vec<Move> =
            was_closed.into_iter().filter(|close| !is_so_already(self.visit, close)).collect();
        self.make_all(back, Purpose::PutsBack)
    }

    /// Whether the call's order wants nothing before a test of a bundle: what it wants may need another set-up.
    fn keeps_order(&self, action: &Move) -> bool {
        let needed = self.visit.needed_first(action).unwrap_or_default();
        matches!(self.manner, Strategy::Quickest)
            || needed
                .iter()
                .chain([action])
                .flat_map(ahead_of)
                .all(|milestone| wanted_before(self.visit, milestone).is_empty())
    }

    /// Looks at the coil, and melts the ice if there is any.
    fn thaw(&mut self, aim: Purpose) -> Stoppable<()> {
        let look = Move::Look(Place::IndoorCoil);
        if self.keep_order(std::slice::from_ref(&look))?.is_none() {
            return Ok(None);
        }
        if !self.visit.site().is_open(Panel::CoilCabinet)
            && self.make(&Move::OpenPanel(Panel::CoilCabinet), aim)?.is_none()
        {
            return Ok(None);
        }
        if self.make(&look, aim)?.is_none() {
            return Ok(None);
        }
        if !CoilAsSeen::in_notebook(self.visit.notebook()).is_iced() {
            return Ok(Some(()));
        }
        let set = &self.visit.inputs().thermostat;
        let melts = (set.mode, set.fan) == (Mode::Off, FanSetting::On);
        if !melts && self.make(&melting(), aim)?.is_none() {
            return Ok(None);
        }
        for _ in 0..MOST_THAWS {
            if self.make_all([half_an_hour(), look.clone()], aim)?.is_none() {
                return Ok(None);
            }
            let given_up = matches!(self.manner, Strategy::Quickest) && self.is_full();
            if given_up || !CoilAsSeen::in_notebook(self.visit.notebook()).is_iced() {
                break;
            }
        }
        Ok(Some(()))
    }

    /// Melts the ice, if there is any, and lets the plant run for 15 minutes.
    fn run_up(&mut self) -> Stoppable<()> {
        if self.thaw(Purpose::RunsUp)?.is_none() {
            return Ok(None);
        }
        let quarter = Move::Wait(Duration::Minutes(15.0));
        self.make_all(starting().into_iter().chain([quarter]), Purpose::RunsUp)
    }

    /// Declares the true faults, takes them away and proves it.
    fn mend(&mut self) -> Stoppable<()> {
        let faults: Vec<plant::Fault> = self.visit.ever_wrong().into_iter().cloned().collect();
        let mut jobs: Vec<(FaultKind, Move)> =
            faults.iter().filter_map(|fault| Some((fault.kind, job(fault.kind, fault.place)?))).collect();
        jobs.extend(faults.iter().filter_map(|fault| Some((fault.kind, self.second_job(fault.kind)?))));
        let opens_circuit = jobs.iter().any(|(_, action)| action.opens_circuit());
        // What is to be read before the declaration, and before the circuit is opened, is read while the plant can run.
        let plate = Mass::Kilograms(self.visit.call().system.plate_charge_kg);
        let mut planned: Vec<Move> =
            faults.iter().map(|fault| Move::Declare(self.declaration(fault))).collect();
        if opens_circuit {
            planned.extend([Move::Recover, Move::WeighIn(plate)]);
        }
        if self.keep_order(&planned)?.is_none() {
            return Ok(None);
        }
        for fault in &faults {
            let declaration = self.declaration(fault);
            if self.make(&Move::Declare(declaration), Purpose::Declares)?.is_none() {
                return Ok(None);
            }
        }
        // Nothing comes off a coil under ice.
        let bares_coil = jobs
            .iter()
            .any(|(_, action)| matches!(action, Move::Repair(Work::CleanCoil | Work::PeelFilterMedium)));
        if bares_coil && self.thaw(Purpose::MakesSafe)?.is_none() {
            return Ok(None);
        }
        if self.make_all(safety(), Purpose::MakesSafe)?.is_none() {
            return Ok(None);
        }
        if opens_circuit && self.make_all([Move::ConnectGauges, Move::Recover], Purpose::MakesSafe)?.is_none()
        {
            return Ok(None);
        }
        for (kind, action) in &jobs {
            if self.make(action, Purpose::Repairs(*kind))?.is_none() {
                return Ok(None);
            }
        }
        if opens_circuit && self.make_all([Move::Evacuate, Move::WeighIn(plate)], Purpose::Fills)?.is_none() {
            return Ok(None);
        }
        let usual = Move::SetThermostat {
            mode: Mode::Cool,
            fan: FanSetting::Auto,
            set_point: Temperature::Fahrenheit(68.0),
        };
        let back = [
            Move::OutdoorDisconnect(Switch::Closed),
            Move::ClosePanel(Panel::BlowerCompartment),
            Move::IndoorServiceSwitch(Switch::Closed),
            usual.clone(),
        ];
        if self.make_all(back, Purpose::PutsBack)?.is_none() {
            return Ok(None);
        }
        match self.keep_order(&[Move::Verify])? {
            None => return Ok(None),
            // For the thaw, the thermostat may stand at off.
            Some(Kept::MovesMade) if self.make(&usual, Purpose::PutsBack)?.is_none() => return Ok(None),
            Some(_) => {}
        }
        let proof =
            [Move::Verify, Move::DisconnectGauges, Move::ClosePanel(Panel::CoilCabinet), Move::CloseTicket];
        self.make_all(proof, Purpose::Proves)
    }

    /// The other half of a repair that has two: the medium of a collapsed filter is taken off the coil, an empty slot gets a
    /// filter.
    fn second_job(&self, kind: FaultKind) -> Option<Move> {
        match kind.row().special.leaves? {
            LeftBehind::MediumOnCoil if self.visit.plant().coil_covered_share() > 0.0 => {
                Some(Move::Repair(Work::PeelFilterMedium))
            }
            LeftBehind::MediumOnCoil => None,
            LeftBehind::EmptySlot => Some(Move::ReplaceFilter),
        }
    }

    /// A fault with the entries that told, and the likeliest rivals that are out.
    fn declaration(&self, fault: &Fault) -> Declaration {
        let evidence = self
            .suspects
            .weighed()
            .iter()
            .filter(|weighed| weighed.gained_bits >= WORTH_CITING_BITS && weighed.doubt.is_none())
            .map(|weighed| weighed.entry)
            .collect();
        let now = self.suspects.probabilities();
        let mut rivals: Vec<(f64, FaultKind)> = self
            .suspects
            .names()
            .iter()
            .zip(self.suspects.before())
            .filter_map(|(suspect, before)| match suspect.causes.as_slice() {
                [cause] if self.suspects.chance_where(&now, |any| any.includes(cause.kind)) < RULED_OUT => {
                    Some((*before, cause.kind))
                }
                _ => None,
            })
            .collect();
        rivals.sort_by(|(a, _), (b, _)| b.total_cmp(a));
        let mut rules_out: Vec<FaultKind> = Vec::new();
        for (_, kind) in rivals {
            let is_true = self.visit.ever_wrong().iter().any(|true_one| true_one.kind == kind);
            if rules_out.len() < MOST_RIVALS && !rules_out.contains(&kind) && !is_true {
                rules_out.push(kind);
            }
        }
        Declaration { cause: fault.kind, place: fault.place, evidence, rules_out }
    }
}

/// Moves that make a plant safe to work on: everything off and discharged, panels open.
pub fn safety() -> Vec<Move> {
    let off = Move::SetThermostat {
        mode: Mode::Off,
        fan: FanSetting::Auto,
        set_point: Temperature::Fahrenheit(70.0),
    };
    let mut moves = vec![
        off,
        Move::OutdoorDisconnect(Switch::Open),
        Move::IndoorServiceSwitch(Switch::Open),
        Move::OpenPanel(Panel::BlowerCompartment),
        Move::OpenPanel(Panel::CoilCabinet),
        Move::OpenPanel(Panel::OutdoorElectrical),
    ];
    let capacitors = [Capacitor::Compressor, Capacitor::OutdoorFan, Capacitor::Blower];
    moves.extend(capacitors.map(Move::DischargeCapacitor));
    moves
}

/// The quickest move that takes a kind of fault away; `None` for faults of the charge.
pub fn job(kind: FaultKind, place: Option<LeakPlace>) -> Option<Move> {
    work_for(kind, place).map(action_of)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A cheap part is tried where another test takes long, a dear one is not; a bare likelihood is no word, and nothing wrong is no
    /// repair. What is sure is tested on only if that is cheap beside what is at stake.
    #[test]
    fn a_part_is_declared_once_being_wrong_costs_less_than_the_next_test() {
        assert!(declares(0.85, Some(30.0), 5.0, 1.0));
        assert!(!declares(0.85, Some(30.0), 4.0, 1.0));
        assert!(!declares(0.94, Some(800.0), 40.0, 1.0));
        assert!(!declares(0.79, Some(10.0), 60.0, 1.0));
        assert!(!declares(0.9, None, 60.0, 1.0));
        assert!(declares(0.96, None, 1.0, 1.0));
        assert!(!declares(0.96, Some(140.0), 1.0, 0.8));
        assert!(declares(0.96, Some(140.0), 1.0, 0.1));
        assert!(declares(0.96, Some(30.0), 2.0, 1.0));
    }
}
