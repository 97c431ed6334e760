//! The place itself: flames, air, and what a detector says, where the refrigerant can burn.

use plant::{SafetyClass, Ventilation};

use super::row::never;
use super::{At, Dead, Effect, End, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::hazard::{Caution, Hazard};
use crate::note::AreaNote;
use crate::place::Location;
use crate::visit::{Task, Visit, act, pass};

/// How long a place counts as safe, s: an hour (engineering value).
const SAFE_FOR_S: f64 = 3600.0;
/// Least that a detector rated for class A2L shows, share of the lower flammability limit (typ., from memory).
const DETECTOR_SHARE: f64 = 0.01;
/// Share of the lower flammability limit at which a place is left, and below which a flame is let near (common practice: a
/// quarter).
pub(super) const ALARM_SHARE: f64 = 0.25;

/// Flames out, air in, the detector read.
pub(super) fn make_safe(location: Location) -> Row {
    Row {
        at: At::Side(location),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 300.0,
        price: 0.0,
        caution: Some(Caution::FlammableRefrigerant),
        lacks: never,
        refusal: never,
        plan: |_, action| {
            let takes_s = action.takes_s();
            vec![pass(takes_s / 5.0), act(smell), pass(takes_s * 4.0 / 5.0), act(made_safe)]
        },
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: Effect::Secures,
    }
}

/// The detector goes in first, before anything is switched or opened.
fn smell(visit: &mut Visit, task: &mut Task) {
    let Move::MakeAreaSafe(location) = task.action else { return };
    let share = visit.plant.area().share_of_flammability_limit;
    task.note(match (location, share) {
        (_, None) => AreaNote::DoesNotBurn,
        (Location::Outdoors, Some(_)) => AreaNote::SilentOutdoors,
        (Location::Indoors, Some(share)) if share >= ALARM_SHARE => AreaNote::LeftUntilClear { share },
        (Location::Indoors, Some(share)) if share >= DETECTOR_SHARE => AreaNote::Detected { share },
        (Location::Indoors, Some(_)) => AreaNote::SilentIndoors,
    });
    if location == Location::Indoors {
        visit.inputs.ventilation = Ventilation::Open;
    }
}

fn made_safe(visit: &mut Visit, task: &mut Task) {
    let Move::MakeAreaSafe(location) = task.action else { return };
    let now_s = visit.time_s();
    visit.site.made_safe_s[side(location)] = Some(now_s);
    task.note(match location {
        Location::Indoors => AreaNote::SafeIndoors,
        Location::Outdoors => AreaNote::SafeOutdoors,
    });
}

fn side(location: Location) -> usize {
    match location {
        Location::Indoors => 0,
        Location::Outdoors => 1,
    }
}

impl Visit {
    /// Marks a move that handles a flammable refrigerant where nobody has made the place safe.
    pub(crate) fn looked_for_ignition(&self, mut task: Task) -> Task {
        let is_refused = matches!(task.outcome, crate::notebook::Outcome::Refused(_));
        if is_refused
            || self.plant.system().refrigerant.safety_class() != SafetyClass::A2L
            || !task.action.handles_refrigerant()
        {
            return task;
        }
        let Some(location) = self.location_of(&task.action) else { return task };
        let is_safe =
            self.site.made_safe_s[side(location)].is_some_and(|at_s| self.time_s() - at_s <= SAFE_FOR_S);
        if !is_safe {
            task.hazards.push(Hazard::FlammableGasNearIgnition);
            task.note(AreaNote::NotMadeSafe);
        }
        task
    }
}
