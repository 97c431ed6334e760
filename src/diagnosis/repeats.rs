//! Tests that were made already, and whether they could show anything else now.

use visit::{Effect, Entry, Kept, Move, Outcome, Visit};

use crate::hypotheses::Hypotheses;
use crate::phase::runs_alike;

/// A wait from which things may look different, s.
const CHANGED_S: f64 = 600.0;
/// How often a test is made in one state of the plant at most.
const MOST_IN_A_STATE: usize = 2;
/// Of what a test was expected to tell, the share below which it told nothing.
const TOLD_NOTHING: f64 = 0.1;

/// What was made of a test before.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Before {
    /// Nothing in this state of the plant.
    Never,
    /// It would show the same again.
    Same,
    /// It was made; it may show something else now. The number of the last time.
    Earlier(u32),
}

impl Before {
    /// What was made of a test on a visit.
    pub(crate) fn of(visit: &Visit, action: &Move) -> Before {
        let waits = waits_change(action);
        let mut made: Vec<&Entry> = Vec::new();
        // Since the last making.
        let mut waited = false;
        for entry in visit.notebook().iter().rev() {
            let refused = matches!(entry.outcome, Outcome::Refused(_));
            if entry.action == *action && !refused && runs_alike(action, &entry.running, visit.running()) {
                made.push(entry);
            }
            match changed_by(entry) {
                Change::Anything => break,
                Change::Setting if waits => break,
                Change::Wait if made.is_empty() => waited = true,
                Change::Setting | Change::Wait | Change::Nothing => {}
            }
        }
        match made.first() {
            None => Before::Never,
            Some(last) if waits && waited && made.len() < MOST_IN_A_STATE => Before::Earlier(last.number),
            Some(_) => Before::Same,
        }
    }

    /// Whether the test is not worth another try, of which `expected_bits` are expected: last time it told nothing.
    pub(crate) fn told_nothing(self, suspects: &Hypotheses, expected_bits: f64) -> bool {
        let Before::Earlier(number) = self else { return false };
        let told = suspects.weighed().iter().find(|weighed| weighed.entry == number);
        told.is_some_and(|weighed| weighed.gained_bits < TOLD_NOTHING * expected_bits)
    }
}

/// What a move may have changed for the tests after it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Change {
    /// A part, or what is in the circuit.
    Anything,
    /// What the thermostat wants.
    Setting,
    /// What changes by itself.
    Wait,
    /// Nothing: a switch that was thrown and is back again changes nothing by itself.
    Nothing,
}

fn changed_by(entry: &Entry) -> Change {
    match &entry.action {
        _ if matches!(entry.outcome, Outcome::Refused(_)) => Change::Nothing,
        Move::Wait(_) if entry.finished_s - entry.started_s >= CHANGED_S => Change::Wait,
        action => match action.effect() {
            Effect::Sets => Change::Setting,
            Effect::Repairs | Effect::ChangesContents => Change::Anything,
            Effect::Tells { .. }
            | Effect::TestsBulb
            | Effect::Talks
            | Effect::Switches
            | Effect::Waits
            | Effect::Prepares
            | Effect::Secures
            | Effect::Serves
            | Effect::Proves
            | Effect::Leaves => Change::Nothing,
        },
    }
}

/// Whether a wait or another setting can change what a test shows.
fn waits_change(action: &Move) -> bool {
    !matches!(action.effect(), Effect::Tells { kept: Kept::Stays, .. })
}

/// Whether a test is the same on a plant that has been run up.
pub(crate) fn is_same_running(action: &Move) -> bool {
    !waits_change(action)
}

#[cfg(test)]
mod tests {
    use super::*;
    use visit::{Duration, Panel, Place};

    fn after(moves: &[Move]) -> Visit {
        let (id, text) = call::built_in()[0];
        let call = call::read(text, id).expect("a built-in call is valid");
        let call = call::Call { history_s: 600.0, ..call };
        let mut visit = Visit::start(&call, 1).expect("finite");
        for action in moves {
            let entry = visit.perform(action).expect("finite");
            assert!(!matches!(entry.outcome, Outcome::Refused(_)), "{entry:?}");
        }
        visit
    }

    fn wait(minutes: f64) -> Move {
        Move::Wait(Duration::Minutes(minutes))
    }

    #[test]
    fn no_wait_makes_a_filter_or_ohms_news() {
        let filter = Move::InspectFilter;
        assert_eq!(Before::of(&after(&[]), &filter), Before::Never);
        let twice = [filter.clone(), wait(30.0), wait(30.0)];
        assert_eq!(Before::of(&after(&twice), &filter), Before::Same);
        let new = [filter.clone(), Move::ReplaceFilter];
        assert_eq!(Before::of(&after(&new), &filter), Before::Never);
    }

    /// What a wait may change is tried once more, and then only when something else has been set.
    #[test]
    fn a_look_comes_again_once_after_a_wait() {
        let look = Move::Look(Place::SupplyRegister);
        assert_eq!(Before::of(&after(&[look.clone(), wait(5.0)]), &look), Before::Same);
        assert_eq!(Before::of(&after(&[look.clone(), wait(15.0)]), &look), Before::Earlier(1));
        let again = [look.clone(), wait(15.0), look.clone(), wait(15.0), wait(60.0)];
        assert_eq!(Before::of(&after(&again), &look), Before::Same);
        let set = Move::SetThermostat {
            mode: plant::Mode::Cool,
            fan: plant::FanSetting::Auto,
            set_point: visit::Temperature::Fahrenheit(60.0),
        };
        let other = [look.clone(), wait(15.0), look.clone(), set];
        assert_eq!(Before::of(&after(&other), &look), Before::Never);
        // A panel is no change.
        let panel = [look.clone(), Move::OpenPanel(Panel::CoilCabinet)];
        assert_eq!(Before::of(&after(&panel), &look), Before::Same);
    }
}
