//! The filter.

use call::Milestone;
use plant::{FilterSlot, InFilterSlot, Work};

use super::row::{TELLS_AT_REST, never};
use super::{At, Dead, Effect, End, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::note::FilterNote;
use crate::place::Location;
use crate::sight::Observation;
use crate::timing::FILTER_COST;
use crate::visit::{Act, Step, Task, Visit, act, pass};

/// The filter is pulled, looked at and put back.
pub(super) fn inspect() -> Row {
    Row {
        at: At::Side(Location::Indoors),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 120.0,
        price: 0.0,
        caution: None,
        lacks: never,
        refusal: never,
        plan: |_, action| pulled_and(action, |visit, _| visit.inputs.filter = FilterSlot::Fitted),
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: TELLS_AT_REST,
    }
}

/// A new filter.
pub(super) fn replace() -> Row {
    Row {
        at: At::Side(Location::Indoors),
        panel: None,
        hoses: None,
        dead: Dead::BlowerStands,
        values: Vec::new(),
        takes_s: 180.0,
        price: FILTER_COST,
        caution: None,
        lacks: never,
        refusal: never,
        plan: |_, action| pulled_and(action, put_new_one_in),
        end: End::Own,
        reaches: Reaches::IfWell(Milestone::PartReplaced),
        circuit: OnCircuit::Untouched,
        effect: Effect::Repairs,
    }
}

fn pulled_and(action: &Move, back: Act) -> Vec<Step> {
    let third_s = action.takes_s() / 3.0;
    let pulled = act(|visit, task| {
        let (observation, note) = visit.filter_as_seen();
        task.note(note);
        task.see(vec![observation]);
        visit.inputs.filter = FilterSlot::Removed;
    });
    vec![pass(third_s), pulled, pass(third_s), act(back), pass(third_s)]
}

fn put_new_one_in(visit: &mut Visit, task: &mut Task) {
    let (observation, _) = visit.filter_as_seen();
    let outcome = visit.plant.apply(Work::ReplaceFilter);
    visit.inputs.filter = FilterSlot::Fitted;
    visit.site.filters_replaced += 1;
    visit.site.cost += FILTER_COST;
    let mut seen = vec![observation];
    // A clean filter was no fault, whatever dust came out with it; where none was, none was changed.
    seen.extend(match observation {
        Observation::FilterClean => vec![Observation::PartWasSound],
        Observation::FilterMissing => Vec::new(),
        _ => super::leak::part(&outcome),
    });
    task.note(FilterNote::NewOneIn);
    task.see(seen);
}

impl crate::visit::Visit {
    /// The filter in the hand, or the slot without one. Thresholds are shares of open area lost (engineering values).
    fn filter_as_seen(&self) -> (Observation, FilterNote) {
        let loading = match self.plant.in_filter_slot() {
            InFilterSlot::Nothing => {
                return (Observation::FilterMissing, FilterNote::SlotEmpty);
            }
            InFilterSlot::Frame => {
                return (Observation::FilterCollapsed, FilterNote::FrameBent);
            }
            InFilterSlot::Filter { loading } => loading,
        };
        if loading > 0.6 {
            (Observation::FilterMatted, FilterNote::Plugged)
        } else if loading > 0.2 {
            (Observation::FilterDirty, FilterNote::Dirty)
        } else {
            (Observation::FilterClean, FilterNote::Clean)
        }
    }
}
