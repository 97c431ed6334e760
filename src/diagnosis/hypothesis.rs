//! What could be wrong: nothing, one fault, or two at once.

use call::Call;
use plant::{Charge, Fault, FaultKind, LeakPlace, Severity, System};
use serde::{Deserialize, Serialize};

/// Severity of the hole of a leak that is suspected beside another cause: so small that the charge stays put during a visit. How
/// much has been lost by the arrival is the suspect's amount.
const HOLE_SEVERITY: f64 = 0.08;

/// One thing wrong, without how bad it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Cause {
    /// Kind of fault.
    pub kind: FaultKind,
    /// Where, for leaks.
    pub place: Option<LeakPlace>,
}

impl Cause {
    /// Lowest and highest amount that is suspected. An amount is a severity, and for a leak the share of the data
    /// plate's charge that is gone. Milder forms do no harm that anybody would call about.
    pub(crate) fn amounts(self, beside: Beside) -> (f64, f64) {
        let (low, high) = self.amounts_alone();
        match beside {
            Beside::Nothing => (low, high),
            Beside::Another => (low + BESIDE_ANOTHER * (high - low), high),
        }
    }

    fn amounts_alone(self) -> (f64, f64) {
        match self.kind.row().severity {
            Severity::AllOrNothing => (1.0, 1.0),
            Severity::Graded { suspected, .. } => suspected,
        }
    }
}

/// Whether a cause is suspected alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Beside {
    /// Alone.
    Nothing,
    /// With another one. Each of two must be bad enough to matter, or two would always explain what one does.
    Another,
}

/// From which share of the scale of amounts a cause is suspected beside another.
const BESIDE_ANOTHER: f64 = 0.3;

/// Something that could explain what was read: nothing wrong, one cause or two.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Hypothesis {
    /// The causes; none: the plant is sound.
    pub causes: Vec<Cause>,
}

impl Hypothesis {
    /// One cause.
    pub fn single(kind: FaultKind, place: Option<LeakPlace>) -> Hypothesis {
        Hypothesis { causes: vec![Cause { kind, place }] }
    }

    /// Lowest and highest amount of each cause.
    pub fn amounts(&self) -> Vec<(f64, f64)> {
        let beside = if self.causes.len() > 1 { Beside::Another } else { Beside::Nothing };
        self.causes.iter().map(|cause| cause.amounts(beside)).collect()
    }

    /// The suspect whose plants its own are equal to, at equal amounts: shadows are made of that one.
    pub(crate) fn stands_behind(&self, system: &System) -> Hypothesis {
        let [Cause { kind, .. }] = self.causes[..] else { return self.clone() };
        match kind.row().special.same_readings_as {
            Some(other) if other.is_possible_in(system) => Hypothesis::single(other, None),
            _ => self.clone(),
        }
    }

    /// Whether it includes a kind of fault.
    pub fn includes(&self, kind: FaultKind) -> bool {
        self.causes.iter().any(|cause| cause.kind == kind)
    }

    /// Whether refrigerant is missing.
    pub fn is_low_charge(&self) -> bool {
        let takes_away =
            |cause: &Cause| matches!(cause.kind.row().special.charge, Charge::Escapes | Charge::Missing);
        self.causes.iter().any(takes_away)
    }

    /// Faults and charge of a plant in which it is true, for amounts in the order of the causes. `onset_s` is when
    /// it set in; states of the charge hold from the start.
    pub fn plant(&self, system: &System, amounts: &[f64], onset_s: f64) -> (Vec<Fault>, f64) {
        let mut charge_kg = system.plate_charge_kg;
        let faults = self
            .causes
            .iter()
            .zip(amounts)
            .map(|(cause, amount)| match cause.kind.row().special.charge {
                Charge::Escapes => {
                    charge_kg = system.plate_charge_kg * (1.0 - amount);
                    Fault { kind: cause.kind, place: cause.place, severity: HOLE_SEVERITY, onset_s: 0.0 }
                }
                _ => {
                    let kind = cause.kind;
                    let onset_s = if kind.holds_from_the_start() { 0.0 } else { onset_s };
                    Fault { kind, place: None, severity: *amount, onset_s }
                }
            })
            .collect();
        (faults, charge_kg)
    }
}

/// Pairs that are suspected together unless a call says otherwise: what is often found beside what, because both come
/// from neglect or because one hides the other (common practice, no source).
const PAIRS: [(FaultKind, FaultKind); 8] = [
    (FaultKind::LoadedFilter, FaultKind::RefrigerantLeak),
    (FaultKind::LoadedFilter, FaultKind::FouledCondenser),
    (FaultKind::LoadedFilter, FaultKind::DirtyBlowerWheel),
    (FaultKind::LoadedFilter, FaultKind::MeteringRestricted),
    (FaultKind::LoadedFilter, FaultKind::PluggedDrier),
    (FaultKind::DirtyBlowerWheel, FaultKind::RefrigerantLeak),
    (FaultKind::FouledCondenser, FaultKind::RefrigerantLeak),
    (FaultKind::FouledEvaporator, FaultKind::RefrigerantLeak),
];

/// Every suspect of a call: nothing wrong, each kind that the system can have (a leak once for each place), and the
/// likely pairs.
pub fn hypotheses_of(call: &Call) -> Vec<Hypothesis> {
    let mut all = vec![Hypothesis { causes: Vec::new() }];
    for kind in FaultKind::ALL.into_iter().filter(|kind| kind.is_possible_in(&call.system)) {
        if kind.needs_place() {
            all.extend(LeakPlace::ALL.map(|place| Hypothesis::single(kind, Some(place))));
        } else {
            all.push(Hypothesis::single(kind, None));
        }
    }
    for (first, second) in PAIRS {
        if first.is_possible_in(&call.system) && second.is_possible_in(&call.system) {
            all.push(Hypothesis { causes: vec![likely_cause(first), likely_cause(second)] });
        }
    }
    all
}

/// The cause that a kind most likely is: nine in ten leaks are at the indoor coil (common practice, no source).
fn likely_cause(kind: FaultKind) -> Cause {
    Cause { kind, place: kind.needs_place().then_some(LeakPlace::IndoorCoil) }
}
