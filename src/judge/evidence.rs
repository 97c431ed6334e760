//! Evidence: is the declared cause true, and do the cited readings single it out?

use plant::{FaultKind, StepError};
use visit::{Declaration, Entry, Move, Outcome, Visit};

use crate::mark::{Area, Mark, mark};
use crate::outcomes::is_sound_evidence;
use crate::rivals::{RivalVerdict, verdicts};

/// Points for a true cause.
const CAUSE: f64 = 10.0;
/// Points for citing entries that carry evidence.
const CITED: f64 = 5.0;
/// Points for excluding the rivals.
const RIVALS: f64 = 10.0;
/// What each earlier wrong declaration costs.
const WRONG_DECLARATION: f64 = 3.0;
const AREA: Area = Area::Evidence;

struct Declared<'a> {
    entry: u32,
    declaration: &'a Declaration,
}

/// The last declaration counts; wrong ones before it cost.
pub(crate) fn marks(visit: &Visit) -> Result<Vec<Mark>, StepError> {
    let declared: Vec<Declared> = visit
        .notebook()
        .iter()
        .filter(|entry| !matches!(entry.outcome, Outcome::Refused(_)))
        .filter_map(|entry| match &entry.action {
            Move::Declare(declaration) => Some(Declared { entry: entry.number, declaration }),
            _ => None,
        })
        .collect();
    let Some(last) = declared.last() else {
        let never = |of| mark(AREA, of, 0.0, "No cause was declared.".to_owned(), None);
        return Ok(vec![never(CAUSE), never(CITED), never(RIVALS)]);
    };
    let mut items = vec![cause(visit, &declared, last), cited(visit, last)];
    items.extend(rivals(visit, last)?);
    items.extend(declared.iter().rev().skip(1).rev().filter(|one| is_wrong(visit, one.declaration)).map(
        |one| Mark {
            area: AREA,
            points: -WRONG_DECLARATION,
            of: 0.0,
            reason: format!("{} was declared first, and was not the cause.", one.declaration.cause.label()),
            entry: Some(one.entry),
        },
    ));
    Ok(items)
}

fn is_true(visit: &Visit, kind: FaultKind) -> bool {
    visit.seeded().faults.iter().any(|fault| fault.kind == kind)
}

fn is_wrong(visit: &Visit, declaration: &Declaration) -> bool {
    !is_true(visit, declaration.cause)
}

/// Full for naming every true fault, the last one last; half of a fault's share where its place is wrong.
fn cause(visit: &Visit, declared: &[Declared], last: &Declared) -> Mark {
    let named = last.declaration.cause.label();
    if is_wrong(visit, last.declaration) {
        let reason = format!("{named} was declared, but it is not what is wrong.");
        return mark(AREA, CAUSE, 0.0, reason, Some(last.entry));
    }
    let faults = &visit.seeded().faults;
    let mut share = 0.0;
    let mut missing = Vec::new();
    let mut misplaced = Vec::new();
    for fault in faults {
        let namings: Vec<_> = declared.iter().filter(|one| one.declaration.cause == fault.kind).collect();
        if namings.is_empty() {
            missing.push(fault.kind.label());
        } else if fault.place.is_none() || namings.iter().any(|one| one.declaration.place == fault.place) {
            share += 1.0;
        } else {
            misplaced.push(fault.place.map_or("", |place| place.label()));
            share += 0.5;
        }
    }
    let reason = if !missing.is_empty() {
        format!("{named} is true, but not all that is wrong: {} was never declared.", missing.join(" and "))
    } else if !misplaced.is_empty() {
        format!("{named} is true, but its place is the {}.", misplaced.join(" and the "))
    } else {
        format!("{named} is what is wrong.")
    };
    mark(AREA, CAUSE, share / faults.len().max(1) as f64, reason, Some(last.entry))
}

/// Cited entries must stand in the notebook before the declaration and carry something that was read or seen.
fn cited(visit: &Visit, last: &Declared) -> Mark {
    let evidence = &last.declaration.evidence;
    if evidence.is_empty() {
        let reason = "The declaration cites no entry of the notebook.".to_owned();
        return mark(AREA, CITED, 0.0, reason, Some(last.entry));
    }
    // Entries by what is wrong with them, in the order in which the wrongs were met.
    let mut wrongs: Vec<(&'static str, Vec<u32>)> = Vec::new();
    for number in evidence {
        let Some(wrong) = wrong_with(earlier_entry(visit, *number, last.entry)) else { continue };
        match wrongs.iter_mut().find(|(known, _)| *known == wrong) {
            Some((_, numbers)) => numbers.push(*number),
            None => wrongs.push((wrong, vec![*number])),
        }
    }
    let bad: usize = wrongs.iter().map(|(_, numbers)| numbers.len()).sum();
    let share = 1.0 - bad as f64 / evidence.len() as f64;
    let reason = if wrongs.is_empty() {
        "Every cited entry carries a sound reading or an observation.".to_owned()
    } else {
        let told: Vec<String> =
            wrongs.iter().map(|(wrong, numbers)| format!("{} ({wrong})", entries(numbers))).collect();
        format!("Of {} cited entries, these exclude nothing: {}.", evidence.len(), told.join("; "))
    };
    mark(AREA, CITED, share, reason, Some(last.entry))
}

/// Why an entry is no evidence; `None` if it is.
fn wrong_with(entry: Option<&Entry>) -> Option<&'static str> {
    let Some(entry) = entry else { return Some("not in the notebook at that time") };
    if is_sound_evidence(&entry.outcome) {
        return None;
    }
    Some(match &entry.outcome {
        Outcome::Read(reading) => doubt(reading.trust),
        _ => "nothing was read or seen",
    })
}

/// "entry 3" or "entries 3, 4 and 7".
fn entries(numbers: &[u32]) -> String {
    match numbers {
        [] => "no entry".to_owned(),
        [one] => format!("entry {one}"),
        [first @ .., last] => {
            let first: Vec<String> = first.iter().map(u32::to_string).collect();
            format!("entries {} and {last}", first.join(", "))
        }
    }
}

fn earlier_entry(visit: &Visit, number: u32, declaration: u32) -> Option<&Entry> {
    visit.notebook().iter().find(|entry| entry.number == number && entry.number < declaration)
}

fn doubt(trust: visit::Trust) -> &'static str {
    match trust {
        visit::Trust::Sound => "it was sound",
        visit::Trust::Unsettled => "the value was still moving",
        visit::Trust::CompressorStopped => "the compressor was not running",
        visit::Trust::IceOnCoil => "ice stood on the coil",
    }
}

/// Every rival of the call and every kind that the declaration rules out is simulated and must be excluded.
fn rivals(visit: &Visit, last: &Declared) -> Result<Vec<Mark>, StepError> {
    if is_wrong(visit, last.declaration) {
        let reason = "Evidence for a wrong cause rules out nothing.".to_owned();
        return Ok(vec![mark(AREA, RIVALS, 0.0, reason, Some(last.entry))]);
    }
    let mut kinds: Vec<FaultKind> =
        visit.call().rivals.iter().chain(&last.declaration.rules_out).copied().collect();
    kinds.sort_unstable();
    kinds.dedup();
    let (true_ones, kinds): (Vec<_>, Vec<_>) = kinds.into_iter().partition(|kind| is_true(visit, *kind));
    let ruled_out_though_true: Vec<_> =
        true_ones.into_iter().filter(|kind| last.declaration.rules_out.contains(kind)).collect();
    let count = kinds.len() + ruled_out_though_true.len();
    if count == 0 {
        let reason = "The call has no rivals to rule out.".to_owned();
        return Ok(vec![mark(AREA, RIVALS, 1.0, reason, Some(last.entry))]);
    }
    let each = RIVALS / count as f64;
    let before: Vec<u32> =
        last.declaration.evidence.iter().copied().filter(|number| *number < last.entry).collect();
    let mut items: Vec<Mark> = verdicts(visit, &kinds, &before)?
        .iter()
        .map(|verdict| {
            let share = if verdict.survivor.is_none() { 1.0 } else { 0.0 };
            mark(AREA, each, share, rival_reason(verdict), Some(last.entry))
        })
        .collect();
    items.extend(ruled_out_though_true.iter().map(|kind| {
        let reason = format!("{} was ruled out, but it is one of the things that are wrong.", kind.label());
        mark(AREA, each, 0.0, reason, Some(last.entry))
    }));
    Ok(items)
}

fn rival_reason(verdict: &RivalVerdict) -> String {
    let kind = verdict.kind.label();
    match &verdict.survivor {
        Some(form) => {
            format!("{kind} is not ruled out: {} would have given the cited readings as well.", form.label())
        }
        None => {
            format!("{kind} is ruled out by {}.", entries(&verdict.told_by))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn entries_are_listed_as_people_do() {
        assert_eq!(entries(&[3]), "entry 3");
        assert_eq!(entries(&[3, 4]), "entries 3 and 4");
        assert_eq!(entries(&[3, 4, 7]), "entries 3, 4 and 7");
    }

    #[test]
    fn an_entry_that_is_not_there_is_no_evidence() {
        assert_eq!(wrong_with(None), Some("not in the notebook at that time"));
    }
}
