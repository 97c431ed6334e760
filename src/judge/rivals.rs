//! Rival plants: the same arrival and the same moves with another fault, to see whether the readings
//! could have come from it.

use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};

use plant::{Fault, FaultKind, LeakPlace, StepError};
use visit::{Entry, Move, Visit};

use crate::outcomes::{differ, is_sound_evidence};

/// Severities at which a rival is tried.
const SEVERITIES: [f64; 4] = [0.5, 0.7, 0.3, 0.9];
/// Shares of the data plate's charge at which a leak is tried.
const CHARGE_SHARES: [f64; 4] = [0.75, 0.85, 0.65, 0.55];
/// Severity of the hole of a leak that is tried by its charge: so small that the charge stays put meanwhile.
const RIVAL_HOLE_SEVERITY: f64 = 0.05;

/// What became of one rival kind.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct RivalVerdict {
    /// The kind.
    pub(crate) kind: FaultKind,
    /// The form of it that would have given the same cited readings; `None` when excluded in every form.
    pub(crate) survivor: Option<Form>,
    /// Entries that told the forms apart, in order, each once.
    pub(crate) told_by: Vec<u32>,
}

/// One form of a rival: kind, place, how bad.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Form {
    pub(crate) kind: FaultKind,
    pub(crate) place: Option<LeakPlace>,
    /// Severity, or for a leak the share of the data plate's charge that is left.
    pub(crate) amount: f64,
}

impl Form {
    /// As a noun with its size.
    pub(crate) fn label(&self) -> String {
        let percent = self.amount * 100.0;
        match self.place {
            Some(place) => {
                format!("{} ({}, {percent:.0} % of the charge left)", self.kind.label(), place.label())
            }
            None => format!("{} ({percent:.0} %)", self.kind.label()),
        }
    }
}

/// Tries every kind in every form, and says which cited entries exclude it.
///
/// Forms are independent of each other and are worked on all cores; the answer does not depend on how many.
pub(crate) fn verdicts(
    visit: &Visit,
    kinds: &[FaultKind],
    cited: &[u32],
) -> Result<Vec<RivalVerdict>, StepError> {
    let evidence: Vec<&Entry> = visit
        .notebook()
        .iter()
        .filter(|entry| cited.contains(&entry.number) && is_sound_evidence(&entry.outcome))
        .collect();
    let searched: Vec<LeakPlace> = evidence
        .iter()
        .filter_map(|entry| match &entry.action {
            Move::SearchLeak(place, _) => Some(*place),
            _ => None,
        })
        .collect();
    let jobs: Vec<Form> = kinds.iter().flat_map(|kind| forms(*kind, &searched)).collect();
    let results = work(&jobs, |form| first_difference(visit, form, &evidence));

    let mut told = Vec::with_capacity(jobs.len());
    for result in results {
        told.push(result.transpose()?);
    }
    Ok(kinds
        .iter()
        .map(|kind| {
            let mut verdict = RivalVerdict { kind: *kind, survivor: None, told_by: Vec::new() };
            for (form, told) in jobs.iter().zip(&told).filter(|(form, _)| form.kind == *kind) {
                match told {
                    Some(Some(entry)) => verdict.told_by.push(*entry),
                    Some(None) => {
                        verdict.survivor = Some(*form);
                        break;
                    }
                    None => break,
                }
            }
            verdict.told_by.sort_unstable();
            verdict.told_by.dedup();
            verdict
        })
        .collect())
}

/// The forms of a kind that have to be tried. A pinhole reads the same wherever it is, but for a search at its
/// place: a place where nobody searched stands for all others, and only when every place was searched is each tried.
fn forms(kind: FaultKind, searched: &[LeakPlace]) -> Vec<Form> {
    if !kind.needs_place() {
        return SEVERITIES.iter().map(|amount| Form { kind, place: None, amount: *amount }).collect();
    }
    let unsearched = LeakPlace::ALL.into_iter().find(|place| !searched.contains(place));
    let places = unsearched.map_or_else(|| LeakPlace::ALL.to_vec(), |place| vec![place]);
    CHARGE_SHARES
        .iter()
        .flat_map(|amount| places.iter().map(|place| Form { kind, place: Some(*place), amount: *amount }))
        .collect()
}

type Told = Result<Option<u32>, StepError>;

/// Works the jobs on the cores there are. A job is left out (`None`) only when an earlier form of the same
/// kind has survived, so that the first survivor of a kind is always the same one.
fn work(jobs: &[Form], try_form: impl Fn(&Form) -> Told + Sync) -> Vec<Option<Told>> {
    let next = AtomicUsize::new(0);
    let results: Mutex<Vec<Option<Told>>> = Mutex::new(jobs.iter().map(|_| None).collect());
    let workers = std::thread::available_parallelism().map_or(1, |cores| cores.get()).min(jobs.len());
    std::thread::scope(|scope| {
        for _ in 0..workers {
            scope.spawn(|| {
                loop {
                    let index = next.fetch_add(1, Ordering::Relaxed);
                    let Some(form) = jobs.get(index) else { break };
                    let survived = {
                        let results = results.lock().unwrap_or_else(PoisonError::into_inner);
                        jobs[..index].iter().zip(results.iter()).any(|(earlier, result)| {
                            earlier.kind == form.kind && matches!(result, Some(Ok(None)))
                        })
                    };
                    if !survived {
                        let told = try_form(form);
                        results.lock().unwrap_or_else(PoisonError::into_inner)[index] = Some(told);
                    }
                }
            });
        }
    });
    results.into_inner().unwrap_or_else(PoisonError::into_inner)
}

/// Works the visit on the rival's plant up to the last cited entry; the first cited entry that differs.
fn first_difference(visit: &Visit, form: &Form, evidence: &[&Entry]) -> Told {
    let Some(last) = evidence.last() else { return Ok(None) };
    let (faults, charge_kg) = rival_plant(visit, form);
    let mut rival = Visit::start_with(visit.call(), visit.seed(), &faults, charge_kg)?;
    // Gaps between the moves, not times of day: a move may take longer on the rival.
    let mut previous_end_s = rival.time_s();
    for entry in visit.notebook().iter().take_while(|entry| entry.number <= last.number) {
        let gap_s = entry.started_s - previous_end_s;
        if gap_s > 0.0 {
            rival.let_time_pass(gap_s)?;
        }
        previous_end_s = entry.finished_s;
        let predicted = rival.perform(&entry.action)?;
        let is_cited = evidence.iter().any(|cited| cited.number == entry.number);
        if is_cited && differ(&entry.outcome, &predicted.outcome) {
            return Ok(Some(entry.number));
        }
    }
    Ok(None)
}

/// Faults and charge of the rival. The true faults are gone; without its leak the plant holds the data plate's
/// charge, otherwise it holds what the call gave it.
fn rival_plant(visit: &Visit, form: &Form) -> (Vec<Fault>, f64) {
    let plate_kg = visit.call().system.plate_charge_kg;
    let truly_leaks = visit.seeded().faults.iter().any(|fault| fault.kind == FaultKind::RefrigerantLeak);
    let (severity, charge_kg) = match form.kind {
        FaultKind::RefrigerantLeak => (RIVAL_HOLE_SEVERITY, form.amount * plate_kg),
        _ if truly_leaks => (form.amount, plate_kg),
        _ => (form.amount, visit.seeded().charge_kg),
    };
    (vec![Fault { kind: form.kind, place: form.place, severity, onset_s: 0.0 }], charge_kg)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_survivor_does_not_depend_on_the_number_of_cores() {
        let jobs: Vec<Form> = FaultKind::ALL.iter().flat_map(|kind| forms(*kind, &[])).collect();
        // Of each kind, every form from the third on survives.
        let results = work(&jobs, |form| {
            let index = forms(form.kind, &[]).iter().position(|other| other == form);
            Ok((index.expect("a form of the kind") < 2).then_some(7))
        });
        for kind in FaultKind::ALL {
            let of_kind: Vec<_> = jobs
                .iter()
                .zip(&results)
                .filter(|(form, _)| form.kind == kind)
                .map(|(_, told)| told)
                .collect();
            assert!(matches!(of_kind[..3], [Some(Ok(Some(7))), Some(Ok(Some(7))), Some(Ok(None))]));
        }
    }

    #[test]
    fn a_leak_is_tried_where_nobody_searched() {
        let places = |searched: &[LeakPlace]| {
            let mut places: Vec<_> =
                forms(FaultKind::RefrigerantLeak, searched).iter().filter_map(|form| form.place).collect();
            places.sort_unstable();
            places.dedup();
            places
        };
        assert_eq!(places(&[]), [LeakPlace::IndoorCoil]);
        assert_eq!(places(&[LeakPlace::IndoorCoil]), [LeakPlace::SuctionServiceValve]);
        assert_eq!(places(&LeakPlace::ALL), LeakPlace::ALL);
        assert_eq!(forms(FaultKind::LoadedFilter, &[]).len(), SEVERITIES.len());
    }
}
