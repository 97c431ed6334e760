//! Whether each message that is asked for by its key is there, and each that is there asked for.
//!
//! Keys of screens, pages and the command line begin with what they are for. A key whose message fills something in stands in the
//! very call that fills it in, so that the names can be held against each other; keys in tables and branches fill nothing in.

use std::collections::BTreeSet;

use crate::messages::messages;
use crate::sources::{Literal, literals_in, root};

/// How keys begin that are asked for by themselves.
const PREFIXES: [&str; 4] = ["screen-", "page-", "review-", "cli-"];

/// Whether a key is one that is asked for by itself.
pub(crate) fn is_key(key: &str) -> bool {
    PREFIXES.iter().any(|prefix| key.strip_prefix(prefix).is_some_and(|rest| !rest.is_empty()))
}

/// Names that the call of a key fills in; `None` if the key stands outside such a call.
fn filled_in(key: &Literal) -> Option<BTreeSet<String>> {
    let mut names: BTreeSet<String> = key.beside.iter().cloned().collect();
    match key.given_to.as_deref().filter(|_| key.is_first) {
        Some("fill") => Some(names),
        Some("count") => {
            names.insert("count".to_owned());
            Some(names)
        }
        _ => None,
    }
}

#[test]
fn every_key_has_its_message_and_every_message_is_asked_for() {
    let messages = messages();
    let mut asked_for = BTreeSet::new();
    let mut wrong = Vec::new();
    for key in literals_in(&root().join("src")).into_iter().filter(|one| is_key(&one.text)) {
        let Some(wanted) = messages.get(&key.text) else {
            wrong.push(format!("{}: there is no message {}", key.place, key.text));
            continue;
        };
        let given = filled_in(&key).unwrap_or_default();
        if given != *wanted {
            wrong.push(format!("{}: {} wants {wanted:?} and gets {given:?}", key.place, key.text));
        }
        asked_for.insert(key.text);
    }
    let idle = messages.keys().filter(|key| is_key(key) && !asked_for.contains(*key));
    wrong.extend(idle.map(|key| format!("nothing asks for {key}")));
    assert!(wrong.is_empty(), "{} keys or messages:\n{}", wrong.len(), wrong.join("\n"));
}

/// What is given a name that nobody reads: of a widget, a font, a thread, or a file that is compiled in.
const NAMED: [&str; 17] = [
    "FontFamily::Name",
    "Grid::new",
    "Id::new",
    "Panel::bottom",
    "Panel::left",
    "Panel::right",
    "Panel::top",
    "Plot::new",
    "font",
    "id_salt",
    "include_bytes",
    "insert",
    "list",
    "modal",
    "parts::modal",
    // What is printed on a key of the keyboard.
    "Sign",
    "with",
];

/// Whether a literal is none that a person reads.
fn is_no_text(one: &Literal, keys: &BTreeSet<String>) -> bool {
    let given_to = one.given_to.as_deref().unwrap_or_default();
    let is_name = matches!(given_to, "fill" | "count") && one.beside.contains(&one.text);
    let is_named = NAMED.contains(&given_to) && !one.text.contains(' ');
    is_name || is_named || keys.contains(&one.text) || !has_letters(&one.text)
}

/// Whether there is a letter outside the braces of a format.
fn has_letters(text: &str) -> bool {
    let (mut depth, mut is_escaped) = (0, false);
    text.chars().any(|letter| {
        let counts = depth == 0 && !is_escaped;
        is_escaped = letter == '\\' && !is_escaped;
        match letter {
            '{' => depth += 1,
            '}' => depth -= 1,
            _ => {}
        }
        counts && letter.is_alphabetic()
    })
}

#[test]
fn the_screens_hold_no_text_of_their_own() {
    let keys: BTreeSet<String> = messages().into_keys().collect();
    let of_desk = literals_in(&root().join("src/ui")).into_iter().filter(|one| !is_no_text(one, &keys));
    // Besides what is shown, the window names files, variables of the system and parts of the engine.
    let of_desktop = literals_in(&root().join("src/app")).into_iter().filter(|one| one.text.contains(' '));
    let texts: Vec<String> =
        of_desk.chain(of_desktop).map(|one| format!("{}: {:?}", one.place, one.text)).collect();
    assert!(texts.is_empty(), "{} texts that are no messages:\n{}", texts.len(), texts.join("\n"));
}
