//! The filter.

use plant::{FilterSlot, InFilterSlot, Work};

use super::{Step, act, pass};
use crate::moves::Move;
use crate::notebook::Observation;
use crate::timing::{FILTER_COST, base_s};

pub(super) fn plan(action: &Move) -> Vec<Step> {
    let third_s = base_s(action) / 3.0;
    let pulled = act(|visit, task| {
        let (observation, sentence) = visit.filter_as_seen();
        task.note(sentence);
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
            task.note("A new filter is in, arrow with the air.");
            task.see(seen);
        }),
        _ => act(|visit, _| visit.inputs.filter = FilterSlot::Fitted),
    };
    vec![pass(third_s), pulled, pass(third_s), back, pass(third_s)]
}

impl crate::visit::Visit {
    /// The filter in the hand, or the slot without one. Thresholds are shares of open area lost (engineering values).
    fn filter_as_seen(&self) -> (Observation, &'static str) {
        let loading = match self.plant.in_filter_slot() {
            InFilterSlot::Nothing => {
                return (
                    Observation::FilterMissing,
                    "The slot is empty; lint hangs from its rails, and there is no filter to pull.",
                );
            }
            InFilterSlot::Frame => {
                return (
                    Observation::FilterCollapsed,
                    "The frame comes out bent; the medium is torn off it and has been sucked onto the coil.",
                );
            }
            InFilterSlot::Filter { loading } => loading,
        };
        if loading > 0.6 {
            (
                Observation::FilterMatted,
                "The filter is matted shut with lint; held to the light, nothing comes through.",
            )
        } else if loading > 0.2 {
            (
                Observation::FilterDirty,
                "The filter carries a grey coat; held to the light, it still shows through.",
            )
        } else {
            (Observation::FilterClean, "The filter is clean; you can see through it.")
        }
    }
}
