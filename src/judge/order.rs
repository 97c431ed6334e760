//! Order: were the prerequisites of the call kept each time?

use call::{Milestone, Prerequisite};
use plant::{FaultKind, Work};
use visit::Visit;

use crate::mark::{Area, Mark, mark};

/// One mark for each rule that was put to the test or had to be; they share the points of the area.
pub(crate) fn marks(visit: &Visit) -> Vec<Mark> {
    let needs_circuit_opened = visit.seeded().faults.iter().any(|fault| opens_circuit(fault.kind));
    let verdicts: Vec<Verdict> = visit
        .call()
        .prerequisites
        .iter()
        .filter_map(|rule| verdict(rule, visit.milestones(), needs_circuit_opened))
        .collect();
    if verdicts.is_empty() {
        let reason = "No rule of the sound order was put to the test.".to_owned();
        return vec![mark(Area::Order, Area::Order.weight(), 0.0, reason, None)];
    }
    let each = Area::Order.weight() / verdicts.len() as f64;
    verdicts.into_iter().map(|v| mark(Area::Order, each, v.share, v.reason, v.entry)).collect()
}

struct Verdict {
    share: f64,
    reason: String,
    entry: Option<u32>,
}

/// `None` for a rule about something that was not done and did not have to be.
fn verdict(
    rule: &Prerequisite,
    milestones: &[(Milestone, u32)],
    needs_circuit_opened: bool,
) -> Option<Verdict> {
    let guarded: Vec<u32> = milestones
        .iter()
        .filter(|(milestone, _)| *milestone == rule.before)
        .map(|(_, entry)| *entry)
        .collect();
    let wanted = one_of(&rule.one_of);
    let before = milestone_label(rule.before);
    if guarded.is_empty() {
        return is_necessary(rule.before, needs_circuit_opened).then(|| Verdict {
            share: 0.0,
            reason: format!("{} was never reached; it needs {wanted} first. {}", capital(before), rule.why),
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
            reason: format!("{} came before {wanted}. {}", capital(before), rule.why),
            entry: Some(*entry),
        },
        None => Verdict {
            share: 1.0,
            reason: format!("{} came first, then {before}.", capital(&wanted)),
            entry: earliest,
        },
    })
}

/// Whether a visit to such a call cannot be sound without the milestone.
fn is_necessary(milestone: Milestone, needs_circuit_opened: bool) -> bool {
    match milestone {
        Milestone::CauseDeclared
        | Milestone::PartReplaced
        | Milestone::RepairVerified
        | Milestone::TicketClosed => true,
        Milestone::Recovered | Milestone::Evacuated | Milestone::WeighedIn => needs_circuit_opened,
        _ => false,
    }
}

/// Whether the repair of a kind opens the refrigerant circuit.
pub(crate) fn opens_circuit(kind: FaultKind) -> bool {
    // A charge that was wrong from the start, or air in it, asks for recovering and weighing in as well.
    kind.holds_from_the_start()
        || matches!(kind, FaultKind::RefrigerantLeak)
        || Work::PARTS
            .iter()
            .any(|work| work.opens_circuit() && work.cures().contains(&kind) && !closed_repair_exists(kind))
}

/// Whether some work cures the kind with the circuit closed.
fn closed_repair_exists(kind: FaultKind) -> bool {
    Work::PARTS.iter().any(|work| !work.opens_circuit() && work.cures().contains(&kind))
}

fn one_of(milestones: &[Milestone]) -> String {
    let labels: Vec<&str> = milestones.iter().map(|milestone| milestone_label(*milestone)).collect();
    labels.join(" or ")
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// A milestone as a noun that fits into a sentence.
fn milestone_label(milestone: Milestone) -> &'static str {
    match milestone {
        Milestone::CustomerAsked => "a question to the customer",
        Milestone::DataPlateRead => "reading the data plate",
        Milestone::CompressorStopped => "stopping the compressor",
        Milestone::FilterInspected => "inspecting the filter",
        Milestone::CoilSeen => "looking at the coil face",
        Milestone::BlowerSeen => "watching the blower wheel",
        Milestone::ThermostatRead => "reading the thermostat",
        Milestone::ControlVoltageMeasured => "measuring the control voltage",
        Milestone::CoilThawed => "a coil free of ice",
        Milestone::GaugesConnected => "connecting the gauges",
        Milestone::PressuresRead => "reading the pressures",
        Milestone::SuperheatMeasured => "measuring superheat",
        Milestone::SubcoolingMeasured => "measuring subcooling",
        Milestone::TemperatureSplitMeasured => "measuring the temperature split",
        Milestone::DrierDropMeasured => "measuring the drop over the drier",
        Milestone::BulbSeen => "looking at the sensing bulb",
        Milestone::BulbTested => "warming or chilling the sensing bulb",
        Milestone::LeakSearched => "a leak search",
        Milestone::LeakFound => "finding the leak",
        Milestone::Recovered => "recovering the refrigerant",
        Milestone::CauseDeclared => "declaring the cause",
        Milestone::PartReplaced => "the repair",
        Milestone::PressureTested => "a pressure test with nitrogen",
        Milestone::Evacuated => "evacuating the circuit",
        Milestone::VacuumHeld => "a vacuum that holds",
        Milestone::WeighedIn => "weighing refrigerant in",
        Milestone::RefrigerantAdded => "adding refrigerant",
        Milestone::RepairVerified => "verifying the repair",
        Milestone::TicketClosed => "closing the ticket",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Milestone::{CoilThawed, GaugesConnected, RefrigerantAdded, WeighedIn};

    fn rule(before: Milestone, one_of: Milestone) -> Prerequisite {
        Prerequisite { before, one_of: vec![one_of], why: "Ice hides the charge.".to_owned() }
    }

    #[test]
    fn a_rule_is_checked_every_time() {
        let rule = rule(GaugesConnected, CoilThawed);
        let kept = verdict(&rule, &[(CoilThawed, 3), (GaugesConnected, 4), (GaugesConnected, 9)], false);
        assert_eq!(kept.expect("tested").share, 1.0);
        let broken = verdict(&rule, &[(GaugesConnected, 2), (CoilThawed, 3), (GaugesConnected, 4)], false)
            .expect("tested");
        assert_eq!((broken.share, broken.entry), (0.0, Some(2)));
        assert!(broken.reason.contains("Ice hides the charge."), "{}", broken.reason);
    }

    #[test]
    fn what_happens_in_one_entry_is_not_before_it() {
        let same =
            verdict(&rule(GaugesConnected, CoilThawed), &[(CoilThawed, 2), (GaugesConnected, 2)], false);
        assert_eq!(same.expect("tested").share, 0.0);
    }

    #[test]
    fn what_was_never_needed_is_left_out() {
        assert!(verdict(&rule(RefrigerantAdded, CoilThawed), &[], true).is_none());
        assert!(verdict(&rule(WeighedIn, CoilThawed), &[], false).is_none());
        assert_eq!(verdict(&rule(WeighedIn, CoilThawed), &[], true).expect("needed").share, 0.0);
    }
}
