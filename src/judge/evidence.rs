//! Evidence: is the declared cause true, and do the cited readings single it out?

use diagnosis::Hypotheses;
use plant::FaultKind;
use visit::{Declaration, Entry, Move, Outcome, Trust, Visit};

use crate::mark::{Area, Mark, falling, mark};
use crate::reason::{Doubtful, NoEvidence, Reason, Standing, Useless};

/// Points for a true cause.
const CAUSE: f64 = 10.0;
/// Points for citing entries that carry evidence.
const CITED: f64 = 5.0;
/// Points for how probable the readings make the cause.
const PROBABLE: f64 = 7.0;
/// Points for leaving none of the call's rivals standing, nor any that the declaration rules out.
const RIVALS: f64 = 3.0;
/// Probabilities of the declared cause that earn everything, and nothing.
const SURE: f64 = 0.9;
const UNSURE: f64 = 0.3;
/// A rival stands from this probability on.
const STANDS: f64 = 0.05;
/// So many of those that stand are told.
const STANDING_TOLD: usize = 4;
/// What each earlier wrong declaration costs.
const WRONG_DECLARATION: f64 = 3.0;
const AREA: Area = Area::Evidence;

struct Declared<'a> {
    entry: u32,
    declaration: &'a Declaration,
}

/// The last declaration counts; wrong ones before it cost.
pub(crate) fn marks(visit: &Visit, suspects: &Hypotheses) -> Vec<Mark> {
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
        let never = |of| mark(AREA, of, 0.0, Reason::NothingDeclared, None);
        return vec![never(CAUSE), never(CITED), never(PROBABLE + RIVALS)];
    };
    let mut items = vec![cause(visit, &declared, last), cited(visit, last)];
    items.extend(weighed(visit, last, suspects));
    items.extend(declared.iter().rev().skip(1).rev().filter(|one| is_wrong(visit, one.declaration)).map(
        |one| Mark {
            area: AREA,
            points: -WRONG_DECLARATION,
            of: 0.0,
            reason: Reason::WronglyDeclaredFirst { cause: one.declaration.cause },
            entry: Some(one.entry),
        },
    ));
    items
}

fn is_true(visit: &Visit, kind: FaultKind) -> bool {
    visit.ever_wrong().iter().any(|fault| fault.kind == kind)
}

fn is_wrong(visit: &Visit, declaration: &Declaration) -> bool {
    !is_true(visit, declaration.cause)
}

/// Full for naming every true fault, the last one last; half of a fault's share where its place is wrong.
fn cause(visit: &Visit, declared: &[Declared], last: &Declared) -> Mark {
    let cause = last.declaration.cause;
    if is_wrong(visit, last.declaration) {
        return mark(AREA, CAUSE, 0.0, Reason::CauseWrong { cause }, Some(last.entry));
    }
    let faults = visit.ever_wrong();
    let mut share = 0.0;
    let mut missing = Vec::new();
    let mut misplaced = Vec::new();
    for fault in &faults {
        let namings: Vec<_> = declared.iter().filter(|one| one.declaration.cause == fault.kind).collect();
        if namings.is_empty() {
            missing.push(fault.kind);
        } else if fault.place.is_none() || namings.iter().any(|one| one.declaration.place == fault.place) {
            share += 1.0;
        } else {
            misplaced.extend(fault.place);
            share += 0.5;
        }
    }
    let reason = if !missing.is_empty() {
        Reason::CauseNotAll { cause, missing }
    } else if !misplaced.is_empty() {
        Reason::CauseMisplaced { cause, places: misplaced }
    } else {
        Reason::CauseRight { cause }
    };
    mark(AREA, CAUSE, share / faults.len().max(1) as f64, reason, Some(last.entry))
}

/// Cited entries must stand in the notebook before the declaration and carry something that was read or seen.
fn cited(visit: &Visit, last: &Declared) -> Mark {
    let evidence = &last.declaration.evidence;
    if evidence.is_empty() {
        return mark(AREA, CITED, 0.0, Reason::NothingCited, Some(last.entry));
    }
    // Entries by what is wrong with them, in the order in which the wrongs were met.
    let mut useless: Vec<Useless> = Vec::new();
    for number in evidence {
        let Some(why) = wrong_with(earlier_entry(visit, *number, last.entry)) else { continue };
        match useless.iter_mut().find(|known| known.why == why) {
            Some(known) => known.entries.push(*number),
            None => useless.push(Useless { entries: vec![*number], why }),
        }
    }
    let bad: usize = useless.iter().map(|one| one.entries.len()).sum();
    let share = 1.0 - bad as f64 / evidence.len() as f64;
    let reason = if useless.is_empty() {
        Reason::CitedSoundly
    } else {
        Reason::CitedInPart { cited: evidence.len(), useless }
    };
    mark(AREA, CITED, share, reason, Some(last.entry))
}

/// Why an entry is no evidence; `None` if it is.
fn wrong_with(entry: Option<&Entry>) -> Option<NoEvidence> {
    let Some(entry) = entry else { return Some(NoEvidence::NotYetThere) };
    if is_sound_evidence(&entry.outcome) {
        return None;
    }
    Some(match &entry.outcome {
        Outcome::Read(reading) => NoEvidence::InDoubt(reading.trust),
        _ => NoEvidence::NothingReadOrSeen,
    })
}

fn earlier_entry(visit: &Visit, number: u32, declaration: u32) -> Option<&Entry> {
    visit.notebook().iter().find(|entry| entry.number == number && entry.number < declaration)
}

/// Whether an entry carries something that can be relied on.
fn is_sound_evidence(outcome: &Outcome) -> bool {
    match outcome {
        Outcome::Read(reading) => reading.trust == Trust::Sound,
        Outcome::Seen(seen) => !seen.is_empty(),
        Outcome::Done | Outcome::Refused(_) | Outcome::Verified(_) => false,
    }
}

/// How probable everything read and seen before the declaration makes its cause, and who still stands.
fn weighed(visit: &Visit, last: &Declared, suspects: &Hypotheses) -> Vec<Mark> {
    let declaration = last.declaration;
    let nothing = |reason| vec![mark(AREA, PROBABLE + RIVALS, 0.0, reason, Some(last.entry))];
    if is_wrong(visit, declaration) {
        return nothing(Reason::EvidenceForWrongCause);
    }
    let has_evidence = declaration
        .evidence
        .iter()
        .filter_map(|number| earlier_entry(visit, *number, last.entry))
        .any(|entry| matches!(entry.outcome, Outcome::Read(_)) || is_sound_evidence(&entry.outcome));
    if !has_evidence {
        return nothing(Reason::Guessed);
    }
    let before = last.entry.saturating_sub(1);
    let mut items = vec![probable(visit, last, suspects, before)];
    items.extend(rivals(visit, last, suspects, before));
    items
}

fn probable(visit: &Visit, last: &Declared, suspects: &Hypotheses, before: u32) -> Mark {
    let chances = suspects.after(before);
    let kind = last.declaration.cause;
    let probability = suspects.chance_where(chances, |suspect| suspect.includes(kind));
    let mut standing: Vec<Standing> = suspects
        .names()
        .iter()
        .zip(chances)
        .filter(|(suspect, chance)| **chance >= STANDS && !suspect.includes(kind))
        .map(|(suspect, chance)| Standing { suspect: suspect.clone(), probability: *chance })
        .collect();
    standing.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    standing.truncate(STANDING_TOLD);
    let doubtful = doubtful(visit, last.entry);
    let reason = Reason::CauseProbable { cause: kind, probability, standing, doubtful };
    mark(AREA, PROBABLE, 1.0 - falling(probability, UNSURE, SURE), reason, Some(last.entry))
}

/// Readings that could not tell much, by why.
fn doubtful(visit: &Visit, declared: u32) -> Vec<Doubtful> {
    let mut by_doubt: Vec<Doubtful> = Vec::new();
    for entry in visit.notebook().iter().filter(|entry| entry.number < declared) {
        let Outcome::Read(reading) = &entry.outcome else { continue };
        if reading.trust == Trust::Sound {
            continue;
        }
        match by_doubt.iter_mut().find(|known| known.doubt == reading.trust) {
            Some(known) => known.entries.push(entry.number),
            None => by_doubt.push(Doubtful { entries: vec![entry.number], doubt: reading.trust }),
        }
    }
    by_doubt
}

/// Every rival of the call and every kind that the declaration rules out must have fallen.
fn rivals(visit: &Visit, last: &Declared, suspects: &Hypotheses, before: u32) -> Vec<Mark> {
    let mut kinds: Vec<FaultKind> =
        visit.call().rivals.iter().chain(&last.declaration.rules_out).copied().collect();
    kinds.sort_unstable();
    kinds.dedup();
    // A kind of the call that is true is no rival, unless it was ruled out.
    kinds.retain(|kind| !is_true(visit, *kind) || last.declaration.rules_out.contains(kind));
    if kinds.is_empty() {
        return vec![mark(AREA, RIVALS, 1.0, Reason::NoRivals, Some(last.entry))];
    }
    let each = RIVALS / kinds.len() as f64;
    kinds
        .into_iter()
        .map(|rival| {
            if is_true(visit, rival) {
                return mark(AREA, each, 0.0, Reason::RuledOutButTrue { rival }, Some(last.entry));
            }
            let alone = suspects.chance_where(suspects.after(before), |suspect| {
                suspect.includes(rival) && !suspect.includes(last.declaration.cause)
            });
            if alone >= STANDS {
                let reason = Reason::RivalStands { rival, probability: alone };
                return mark(AREA, each, 0.0, reason, Some(last.entry));
            }
            let reason = Reason::RivalRuledOut { rival, entries: told_by(suspects, rival, before) };
            mark(AREA, each, 1.0, reason, Some(last.entry))
        })
        .collect()
}

/// Entries that took most of a kind's probability away, at most three.
fn told_by(suspects: &Hypotheses, kind: FaultKind, before: u32) -> Vec<u32> {
    let mut earlier = suspects.chance_where(suspects.before(), |suspect| suspect.includes(kind));
    let mut told: Vec<(u32, f64)> = Vec::new();
    for weighed in suspects.weighed().iter().take_while(|weighed| weighed.entry <= before) {
        let now = suspects.chance_where(&weighed.after, |suspect| suspect.includes(kind));
        if now < 0.5 * earlier {
            told.push((weighed.entry, earlier - now));
        }
        earlier = now;
    }
    told.sort_by(|a, b| b.1.total_cmp(&a.1));
    let mut numbers: Vec<u32> = told.into_iter().take(3).map(|(entry, _)| entry).collect();
    numbers.sort_unstable();
    numbers
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_entry_that_is_not_there_is_no_evidence() {
        assert_eq!(wrong_with(None), Some(NoEvidence::NotYetThere));
    }
}
