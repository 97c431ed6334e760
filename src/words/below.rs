//! Whether anything below this crate is worded: no text with a blank in it stands there that somebody could read.

use std::collections::BTreeMap;

use crate::sources::{Literal, literals_in, root};

/// The crates below, from the bottom up.
const BELOW: [&str; 9] =
    ["media", "quantity", "ron_file", "plant", "call", "visit", "store", "diagnosis", "judge"];

/// What only a programmer reads: what a panic says.
const OF_PANICS: [&str; 9] = [
    "panic",
    "assert",
    "assert_eq",
    "assert_ne",
    "debug_assert",
    "debug_assert_eq",
    "debug_assert_ne",
    "unreachable",
    "unimplemented",
];

/// Files with texts that are not worded above yet, or that nobody reads, with the reason. A file that holds none any more is to be taken out.
const STAY: [(&str, &str); 11] = [
    ("src/plant/system/catalogue.rs", "what is wrong with a system that is compiled in"),
    ("src/plant/fault.rs", "names of kinds and what their severity means"),
    ("src/plant/event.rs", "what a step error displays"),
    ("src/plant/electric/data.rs", "names of motors and capacitors"),
    ("src/plant/electric/terminals.rs", "names of terminals and conductors"),
    ("src/plant/states.rs", "names of states that a step error says"),
    ("src/plant/tangent.rs", "what a derivative expects, for those who load one"),
    ("src/plant/tangents/agree.rs", "what differs, for those who compare derivatives"),
    ("src/call/raw.rs", "examples of values as a file writes them"),
    ("src/media/refrigerant/table.rs", "the head of a data file"),
    ("src/visit/instruments.rs", "names of random streams"),
];

/// A format without what is filled in.
fn outside_braces(text: &str) -> String {
    let mut depth = 0_usize;
    let mut outside = String::new();
    for letter in text.chars() {
        match letter {
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            _ if depth == 0 => outside.push(letter),
            _ => {}
        }
    }
    outside
}

fn is_read(one: &Literal) -> bool {
    let given_to = one.given_to.as_deref().unwrap_or_default();
    let is_of_panic = OF_PANICS.contains(&given_to);
    let has_words =
        |text: &str| text.split(' ').filter(|word| word.contains(char::is_alphabetic)).count() > 1;
    has_words(&outside_braces(&one.text)) && !is_of_panic
}

#[test]
fn nothing_below_is_worded() {
    let mut texts: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let mut counts = Vec::new();
    for crate_name in BELOW {
        let mut count = 0;
        for one in literals_in(&root().join("src").join(crate_name)).into_iter().filter(is_read) {
            let (file, line) = one.place.rsplit_once(':').expect("a place has a line");
            texts.entry(file.to_owned()).or_default().push(format!("{file}:{line}: {:?}", one.text));
            count += 1;
        }
        counts.push(format!("{crate_name} {count}"));
    }
    println!("texts with words: {}", counts.join(", "));
    let stale: Vec<&str> =
        STAY.iter().map(|(file, _)| *file).filter(|file| !texts.contains_key(*file)).collect();
    assert!(stale.is_empty(), "they hold no text any more: take {stale:?} out of the list");
    let worded: Vec<String> = texts
        .into_iter()
        .filter(|(file, _)| STAY.iter().all(|(stays, _)| stays != file))
        .flat_map(|(_, texts)| texts)
        .collect();
    assert!(worded.is_empty(), "{} texts below words:\n{}", worded.len(), worded.join("\n"));
}

#[test]
fn a_sentence_is_told_from_a_key_and_from_a_panic() {
    let source = r#"fn one() { format!("the plant broke down"); panic!("not so good"); f("sound_key", "kPa", "{x} {y}"); }"#;
    let found = crate::sources::literals_of_text(source, "one.rs");
    let read: Vec<&str> = found.iter().filter(|one| is_read(one)).map(|one| one.text.as_str()).collect();
    assert_eq!(read, ["the plant broke down"]);
}
