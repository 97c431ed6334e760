//! Order: were the prerequisites of the call kept each time?

use call::{Milestone, Prerequisite};
use plant::FaultKind;
use visit::{Needed, Visit, milestone_row};

use crate::mark::{Area, Mark, mark};
use crate::reason::Reason;

/// One mark for each rule that was put to the test or had to be; they share the points of the area.
pub(crate) fn marks(visit: &Visit) -> Vec<Mark> {
    let needs_circuit_opened = visit.ever_wrong().iter().any(|fault| opens_circuit(fault.kind));
    let verdicts: Vec<Verdict> = visit
        .call()
        .prerequisites
        .iter()
        .enumerate()
        .filter_map(|(number, rule)| verdict(number, rule, visit.milestones(), needs_circuit_opened))
        .collect();
    if verdicts.is_empty() {
        return vec![mark(Area::Order, Area::Order.weight(), 0.0, Reason::NoRuleTested, None)];
    }
    let each = Area::Order.weight() / verdicts.len() as f64;
    verdicts.into_iter().map(|v| mark(Area::Order, each, v.share, v.reason, v.entry)).collect()
}

struct Verdict {
    share: f64,
    reason: Reason,
    entry: Option<u32>,
}

/// `None` for a rule about something that was not done and did not have to be.
fn verdict(
    number: usize,
    rule: &Prerequisite,
    milestones: &[(Milestone, u32)],
    needs_circuit_opened: bool,
) -> Option<Verdict> {
    let guarded: Vec<u32> = milestones
        .iter()
        .filter(|(milestone, _)| *milestone == rule.before)
        .map(|(_, entry)| *entry)
        .collect();
    let (before, one_of) = (rule.before, rule.one_of.clone());
    if guarded.is_empty() {
        return is_necessary(rule.before, needs_circuit_opened).then_some(Verdict {
            share: 0.0,
            reason: Reason::NeverReached { rule: number, before, one_of },
            entry: None,
        });
    }
    let earliest = milestones
        .iter()
        .filter(|(milestone, _)| rule.one_of.contains(milestone))
        .map(|(_, entry)| *entry)
        .min();
    let broken = guarded.iter().find(|entry| earliest.is_none_or(|first| first >= **entry));
    Some(match broken {
        Some(entry) => Verdict {
            share: 0.0,
            reason: Reason::OutOfOrder { rule: number, before, one_of },
            entry: Some(*entry),
        },
        None => {
            Verdict { share: 1.0, reason: Reason::InOrder { rule: number, before, one_of }, entry: earliest }
        }
    })
}

/// Whether a visit to such a call cannot be sound without the milestone.
fn is_necessary(milestone: Milestone, needs_circuit_opened: bool) -> bool {
    match milestone_row(milestone).needed {
        Needed::Always => true,
        Needed::WhereCircuitIsOpened => needs_circuit_opened,
        Needed::WhereARuleAsks => false,
    }
}

/// Whether the repair of a kind opens the refrigerant circuit.
pub(crate) fn opens_circuit(kind: FaultKind) -> bool {
    // A charge that was wrong from the start, or air in it, asks for recovering and weighing in as well: no work removes it.
    kind.row().repaired_by.iter().all(|work| work.opens_circuit())
}

#[cfg(test)]
mod tests {
    use super::*;
    use Milestone::{CoilThawed, GaugesConnected, RefrigerantAdded, WeighedIn};

    fn rule(before: Milestone, one_of: Milestone) -> Prerequisite {
        Prerequisite { before, one_of: vec![one_of], why: call::Text::english("Ice hides the charge.") }
    }

    #[test]
    fn a_rule_is_checked_every_time() {
        let rule = rule(GaugesConnected, CoilThawed);
        let kept = verdict(4, &rule, &[(CoilThawed, 3), (GaugesConnected, 4), (GaugesConnected, 9)], false);
        assert_eq!(kept.expect("tested").share, 1.0);
        let broken = verdict(4, &rule, &[(GaugesConnected, 2), (CoilThawed, 3), (GaugesConnected, 4)], false)
            .expect("tested");
        assert_eq!((broken.share, broken.entry), (0.0, Some(2)));
        let reason = Reason::OutOfOrder { rule: 4, before: GaugesConnected, one_of: vec![CoilThawed] };
        assert_eq!(broken.reason, reason);
    }

    #[test]
    fn what_happens_in_one_entry_is_not_before_it() {
        let same =
            verdict(4, &rule(GaugesConnected, CoilThawed), &[(CoilThawed, 2), (GaugesConnected, 2)], false);
        assert_eq!(same.expect("tested").share, 0.0);
    }

    #[test]
    fn what_was_never_needed_is_left_out() {
        assert!(verdict(4, &rule(RefrigerantAdded, CoilThawed), &[], true).is_none());
        assert!(verdict(4, &rule(WeighedIn, CoilThawed), &[], false).is_none());
        assert_eq!(verdict(4, &rule(WeighedIn, CoilThawed), &[], true).expect("needed").share, 0.0);
    }
}
