//! The place itself: flames, air, and what a detector says, where the refrigerant can burn.

use plant::{SafetyClass, Ventilation};

use super::{Step, Task, act, pass};
use crate::hazard::Hazard;
use crate::moves::{Location, Move};
use crate::timing::base_s;
use crate::visit::Visit;

/// How long a place counts as safe, s: an hour (engineering value).
const SAFE_FOR_S: f64 = 3600.0;
/// Least that a detector rated for class A2L shows, share of the lower flammability limit (typ., from memory).
const DETECTOR_SHARE: f64 = 0.01;
/// Share of the lower flammability limit at which a place is left, and below which a flame is let near (common practice: a
/// quarter).
pub(super) const ALARM_SHARE: f64 = 0.25;

pub(super) fn plan(action: &Move) -> Vec<Step> {
    vec![pass(base_s(action) / 5.0), act(smell), pass(base_s(action) * 4.0 / 5.0), act(made_safe)]
}

/// The detector goes in first, before anything is switched or opened.
fn smell(visit: &mut Visit, task: &mut Task) {
    let Move::MakeAreaSafe(location) = task.action else { return };
    let share = visit.plant.area().share_of_flammability_limit;
    task.note(match (location, share) {
        (_, None) => {
            "This refrigerant is of class A1: it does not burn, but it takes the air away.".to_owned()
        }
        (Location::Outdoors, Some(_)) => {
            "Outdoors the detector stays silent; wind thins out what escapes.".to_owned()
        }
        (Location::Indoors, Some(share)) if share >= DETECTOR_SHARE => format!(
            "At the air handler the detector shows {:.0} % of the lower flammability limit{}",
            100.0 * share,
            if share >= ALARM_SHARE { ": you leave until it has cleared." } else { "." }
        ),
        (Location::Indoors, Some(_)) => "At the air handler the detector stays silent.".to_owned(),
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
        Location::Indoors => {
            "Pilot lights are out, nothing sparks, doors and windows stand open, a fan blows."
        }
        Location::Outdoors => {
            "No flame, no grill, no cigarette within ten feet; the extinguisher stands ready."
        }
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
    pub(super) fn looked_for_ignition(&self, mut task: Task) -> Task {
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
            task.note(
                "This refrigerant burns (class A2L), and nobody has looked for flames, aired the place and checked its \
                 air within the hour. Do that first.",
            );
        }
        task
    }
}
