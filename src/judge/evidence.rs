//! Evidence: is the declared cause true, and do the cited readings single it out?

use plant::FaultKind;
use suspects::Suspects;
use visit::{Declaration, Entry, Move, Outcome, Trust, Visit};

use crate::mark::{Area, Mark, falling, mark};

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
/// What each earlier wrong declaration costs.
const WRONG_DECLARATION: f64 = 3.0;
const AREA: Area = Area::Evidence;

struct Declared<'a> {
    entry: u32,
    declaration: &'a Declaration,
}

/// The last declaration counts; wrong ones before it cost.
pub(crate) fn marks(visit: &Visit, suspects: &Suspects) -> Vec<Mark> {
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
        return vec![never(CAUSE), never(CITED), never(PROBABLE + RIVALS)];
    };
    let mut items = vec![cause(visit, &declared, last), cited(visit, last)];
    items.extend(weighed(visit, last, suspects));
    items.extend(declared.iter().rev().skip(1).rev().filter(|one| is_wrong(visit, one.declaration)).map(
        |one| Mark {
            area: AREA,
            points: -WRONG_DECLARATION,
            of: 0.0,
            reason: format!("{} was declared first, and was not the cause.", one.declaration.cause.label()),
            entry: Some(one.entry),
        },
    ));
    items
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

fn doubt(trust: Trust) -> &'static str {
    match trust {
        Trust::Sound => "it was sound",
        Trust::Unsettled => "the value was still moving",
        Trust::CompressorStopped => "the compressor was not running",
        Trust::IceOnCoil => "ice stood on the coil",
    }
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
fn weighed(visit: &Visit, last: &Declared, suspects: &Suspects) -> Vec<Mark> {
    let declaration = last.declaration;
    let nothing =
        |reason: &str| vec![mark(AREA, PROBABLE + RIVALS, 0.0, reason.to_owned(), Some(last.entry))];
    if is_wrong(visit, declaration) {
        return nothing("Evidence for a wrong cause rules out nothing.");
    }
    let has_evidence = declaration
        .evidence
        .iter()
        .filter_map(|number| earlier_entry(visit, *number, last.entry))
        .any(|entry| matches!(entry.outcome, Outcome::Read(_)) || is_sound_evidence(&entry.outcome));
    if !has_evidence {
        return nothing("A cause that is declared without its evidence is a guess, however right.");
    }
    let before = last.entry.saturating_sub(1);
    let mut items = vec![probable(visit, last, suspects, before)];
    items.extend(rivals(visit, last, suspects, before));
    items
}

fn probable(visit: &Visit, last: &Declared, suspects: &Suspects, before: u32) -> Mark {
    let chances = suspects.after(before);
    let kind = last.declaration.cause;
    let probability = suspects.chance_where(chances, |suspect| suspect.includes(kind));
    let mut standing: Vec<(String, f64)> = suspects
        .names()
        .iter()
        .zip(chances)
        .filter(|(suspect, chance)| **chance >= STANDS && !suspect.includes(kind))
        .map(|(suspect, chance)| (suspect.to_string(), *chance))
        .collect();
    standing.sort_by(|a, b| b.1.total_cmp(&a.1));
    let mut reason =
        format!("What you had read and seen makes {} {} probable.", kind.label(), percent(probability));
    if !standing.is_empty() {
        let told: Vec<String> =
            standing.iter().take(4).map(|(name, chance)| format!("{name} ({})", percent(*chance))).collect();
        reason += &format!(" Still standing: {}.", told.join(", "));
    }
    if let Some(doubts) = doubts(visit, last.entry) {
        reason += &doubts;
    }
    mark(AREA, PROBABLE, 1.0 - falling(probability, UNSURE, SURE), reason, Some(last.entry))
}

/// Readings that could not tell much, by why.
fn doubts(visit: &Visit, declared: u32) -> Option<String> {
    let mut by_trust: Vec<(Trust, Vec<u32>)> = Vec::new();
    for entry in visit.notebook().iter().filter(|entry| entry.number < declared) {
        let Outcome::Read(reading) = &entry.outcome else { continue };
        if reading.trust == Trust::Sound {
            continue;
        }
        match by_trust.iter_mut().find(|(trust, _)| *trust == reading.trust) {
            Some((_, numbers)) => numbers.push(entry.number),
            None => by_trust.push((reading.trust, vec![entry.number])),
        }
    }
    if by_trust.is_empty() {
        return None;
    }
    let told: Vec<String> =
        by_trust.iter().map(|(trust, numbers)| format!("{} ({})", entries(numbers), doubt(*trust))).collect();
    Some(format!(" Some readings could tell little: {}.", told.join("; ")))
}

/// Whole percent, but never 0 or 100 for what is not.
fn percent(probability: f64) -> String {
    if (0.995..1.0).contains(&probability) {
        return "more than 99 %".to_owned();
    }
    if probability < 0.005 {
        return "less than 1 %".to_owned();
    }
    format!("{:.0} %", probability * 100.0)
}

/// Every rival of the call and every kind that the declaration rules out must have fallen.
fn rivals(visit: &Visit, last: &Declared, suspects: &Suspects, before: u32) -> Vec<Mark> {
    let mut kinds: Vec<FaultKind> =
        visit.call().rivals.iter().chain(&last.declaration.rules_out).copied().collect();
    kinds.sort_unstable();
    kinds.dedup();
    // A kind of the call that is true is no rival, unless it was ruled out.
    kinds.retain(|kind| !is_true(visit, *kind) || last.declaration.rules_out.contains(kind));
    if kinds.is_empty() {
        let reason = "The call has no rivals to rule out.".to_owned();
        return vec![mark(AREA, RIVALS, 1.0, reason, Some(last.entry))];
    }
    let each = RIVALS / kinds.len() as f64;
    kinds
        .into_iter()
        .map(|kind| {
            if is_true(visit, kind) {
                let reason =
                    format!("{} was ruled out, but it is one of the things that are wrong.", kind.label());
                return mark(AREA, each, 0.0, reason, Some(last.entry));
            }
            let alone = suspects.chance_where(suspects.after(before), |suspect| {
                suspect.includes(kind) && !suspect.includes(last.declaration.cause)
            });
            let told_by = told_by(suspects, kind, before);
            let reason = if alone >= STANDS {
                format!("{} is not ruled out: it is {} probable.", kind.label(), percent(alone))
            } else if told_by.is_empty() {
                format!("{} is ruled out.", kind.label())
            } else {
                format!("{} is ruled out, most of all by {}.", kind.label(), entries(&told_by))
            };
            mark(AREA, each, if alone < STANDS { 1.0 } else { 0.0 }, reason, Some(last.entry))
        })
        .collect()
}

/// Entries that took most of a kind's probability away, at most three.
fn told_by(suspects: &Suspects, kind: FaultKind, before: u32) -> Vec<u32> {
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
