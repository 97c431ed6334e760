//! The filter.

use plant::{FilterSlot, InFilterSlot, Work};
use serde::{Deserialize, Serialize};

use super::{Step, act, pass};
use crate::moves::Move;
use crate::sight::Observation;
use crate::timing::{FILTER_COST, base_s};

/// What a filter and its slot show.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum FilterNote {
    /// There is no filter in the slot.
    SlotEmpty,
    /// The frame is there, its medium torn off.
    FrameBent,
    /// No light comes through.
    Plugged,
    /// Light still comes through.
    Dirty,
    /// It can be seen through.
    Clean,
    /// A new one is in.
    NewOneIn,
}

pub(super) fn plan(action: &Move) -> Vec<Step> {
    let third_s = base_s(action) / 3.0;
    let pulled = act(|visit, task| {
        let (observation, note) = visit.filter_as_seen();
        task.note(note);
        task.see(vec![observation]);
        visit.inputs.filter = FilterSlot::Removed;
    });
    let back = match action {
        Move::ReplaceFilter => act(|visit, task| {
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
        }),
        _ => act(|visit, _| visit.inputs.filter = FilterSlot::Fitted),
    };
    vec![pass(third_s), pulled, pass(third_s), back, pass(third_s)]
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
