//! Built-in calls with words misspelled: nothing panics, and each mistake is told where it stands.
#![allow(clippy::unwrap_used, reason = "a test that meets an error has failed")]

use std::collections::BTreeSet;

use call::{CallProblems, built_in, read};
use proptest::prelude::*;

/// A word of a text outside of quotes and comments: its byte offset and its length.
fn words(text: &str) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let (mut at, bytes) = (0, text.as_bytes());
    while at < bytes.len() {
        if bytes[at] == b'"' {
            at += text[at + 1..].find('"').unwrap() + 2;
        } else if text[at..].starts_with("//") {
            at += text[at..].find('\n').unwrap_or(text.len() - at);
        } else if bytes[at].is_ascii_alphabetic() {
            let length = text[at..].find(|c: char| !c.is_ascii_alphanumeric() && c != '_').unwrap();
            found.push((at, length));
            at += length;
        } else {
            at += 1;
        }
    }
    found
}

/// Ways to misspell a word: a letter left out, doubled, swapped with the next, or another.
fn misspelled(word: &str, way: usize, letter: usize) -> String {
    let mut letters: Vec<char> = word.chars().collect();
    let at = letter % letters.len();
    match way {
        0 => drop(letters.remove(at)),
        1 => letters.insert(at, letters[at]),
        2 if at + 1 < letters.len() => letters.swap(at, at + 1),
        _ => letters[at] = 'q',
    }
    letters.into_iter().collect()
}

fn place_of(text: &str, offset: usize) -> (usize, usize) {
    let before = &text[..offset];
    let line_start = before.rfind('\n').map_or(0, |at| at + 1);
    (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
}

fn places(problems: &CallProblems) -> BTreeSet<(usize, usize)> {
    problems.told.iter().map(|problem| (problem.place.line, problem.place.column)).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn every_misspelled_word_is_found_where_it_stands(
        which in 0_usize..4,
        spoilt in proptest::collection::btree_map(0_usize..10_000, (0_usize..4, 0_usize..40), 1..6),
    ) {
        let (id, text) = built_in()[which];
        let all = words(text);
        let known: BTreeSet<&str> = all.iter().map(|(at, length)| &text[*at..at + length]).collect();
        let chosen: BTreeSet<(usize, usize, usize, usize)> = spoilt
            .into_iter()
            .map(|(word, (way, letter))| {
                let (at, length) = all[word % all.len()];
                (at, length, way, letter)
            })
            .collect();
        let mut mutated = String::new();
        let (mut copied, mut planted) = (0, Vec::new());
        for (at, length, way, letter) in chosen {
            let word = &text[at..at + length];
            let wrong = misspelled(word, way, letter);
            // A word may be chosen twice, or become another or no word.
            if at < copied || wrong == word || wrong.is_empty() || known.contains(wrong.as_str()) {
                continue;
            }
            mutated.push_str(&text[copied..at]);
            planted.push(mutated.len());
            mutated.push_str(&wrong);
            copied = at + length;
        }
        mutated.push_str(&text[copied..]);
        let found = read(&mutated, &format!("{id}.ron")).map_or_else(|problems| places(&problems), |_| BTreeSet::new());
        for offset in planted {
            let place = place_of(&mutated, offset);
            prop_assert!(found.contains(&place), "{place:?} of {found:?}\n{mutated}");
        }
    }

    #[test]
    fn one_misspelled_word_is_found_where_it_stands(which in 0_usize..4, word in 0_usize..10_000, way in 0_usize..4, letter in 0_usize..40) {
        let (id, text) = built_in()[which];
        let all = words(text);
        let (at, length) = all[word % all.len()];
        let wrong = misspelled(&text[at..at + length], way, letter);
        let is_other = !wrong.is_empty() && all.iter().all(|(at, length)| text[*at..at + length] != wrong);
        prop_assume!(is_other);
        let mutated = format!("{}{wrong}{}", &text[..at], &text[at + length..]);
        let problems = read(&mutated, &format!("{id}.ron")).map(|call| call.id).unwrap_err();
        prop_assert!(places(&problems).contains(&place_of(&mutated, at)), "{problems:#?}\n{wrong}");
    }

    #[test]
    fn no_mutated_call_panics(which in 0_usize..4, cut in 0_usize..8_000, take in 0_usize..30, put in "[(){}\\[\\],:a-zA-Z0-9\"'/*#. -]{0,4}") {
        let (id, text) = built_in()[which];
        let on = |at: usize| (0..=at.min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap();
        let (cut, end) = (on(cut), on(cut + take));
        let _ = read(&format!("{}{put}{}", &text[..cut], &text[end..]), &format!("{id}.ron"));
    }
}

/// The very texts that broke an earlier reader: a misspelled first key beside a missing one.
#[test]
fn a_misspelled_first_key_beside_a_missing_one_is_told() {
    let (id, text) = built_in()[0];
    let whole = "(kind: LoadedFilter, severity: (0.84, 0.97), onset: (Hours(0), Hours(0)))";
    for spoilt in [
        (whole, "(knid: LoadedFilter, severity: (0.84, 0.97))"),
        ("mode: Cool, fan: Auto, ", "mod: Cool, "),
        ("house: (", "house: (aire: (Fahrenheit(74), Fahrenheit(76)), "),
    ] {
        assert!(text.contains(spoilt.0), "{}", spoilt.0);
        let problems = read(&text.replacen(spoilt.0, spoilt.1, 1), id).unwrap_err();
        assert!((1..=3).contains(&problems.told.len()), "{problems:#?}");
    }
}
