//! What a call wants done before what: the moves that reach a milestone, for a way that keeps the order.

use call::Milestone;
use plant::LeakPlace;
use visit::{LeakMethod, Move, Visit, Way, milestone_row};

/// How a milestone is reached.
pub(crate) enum Reach {
    /// By these moves.
    Moves(Vec<Move>),
    /// By melting the ice and looking.
    Thaw,
    /// By these moves on a plant that has been run up.
    Running(Vec<Move>),
}

/// The milestone that a move is sure to reach, or would break the order by reaching.
pub(crate) fn ahead_of(action: &Move) -> Option<Milestone> {
    action.aims_at()
}

/// What a call's order wants before a milestone and has not got yet, each as the ways that would do.
pub(crate) fn wanted_before(visit: &Visit, milestone: Milestone) -> Vec<Vec<Milestone>> {
    let reached = |one: &Milestone| visit.milestones().iter().any(|(known, _)| known == one);
    visit
        .call()
        .prerequisites
        .iter()
        .filter(|rule| rule.before == milestone && !rule.one_of.iter().any(reached))
        .map(|rule| rule.one_of.clone())
        .collect()
}

/// How a milestone is reached; `None` for those that come by the repair itself.
pub(crate) fn reach(visit: &Visit, milestone: Milestone) -> Option<Reach> {
    let moves = match milestone_row(milestone).way {
        Way::Moves(moves) => moves,
        Way::Running(moves) => return Some(Reach::Running(moves)),
        Way::Thaw => return Some(Reach::Thaw),
        Way::Stop => vec![melting()],
        Way::LeakSearch => leak_places(visit)
            .into_iter()
            .map(|place| Move::SearchLeak(place, LeakMethod::ElectronicDetector))
            .collect(),
        Way::ByTheRepair => return None,
    };
    (!moves.is_empty()).then_some(Reach::Moves(moves))
}

/// Thermostat off, blower on: what melts the ice soonest.
pub(crate) fn melting() -> Move {
    Move::SetThermostat {
        mode: plant::Mode::Off,
        fan: plant::FanSetting::On,
        set_point: visit::Temperature::Fahrenheit(70.0),
    }
}

fn leak_places(visit: &Visit) -> Vec<LeakPlace> {
    visit.ever_wrong().iter().filter_map(|fault| fault.place).collect()
}
