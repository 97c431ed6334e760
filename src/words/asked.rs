//! Whether each message that a source asks for by its key is there, and each that is there asked for.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use crate::complete::messages;

/// First words of keys that sources ask for by themselves.
const BEGINNINGS: [&str; 3] = ["page", "review", "cli"];

/// Whether a key is one of those.
pub(crate) fn is_key(key: &str) -> bool {
    key.split_once('-').is_some_and(|(beginning, _)| BEGINNINGS.contains(&beginning))
}

/// Such keys between quotes, in the sources of the program.
fn asked_for() -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("..")];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).expect("the sources can be listed") {
            let path = entry.expect("the sources can be listed").path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let text = fs::read_to_string(&path).expect("a source is text");
                found.extend(text.split('"').filter(|part| is_key(part)).map(str::to_owned));
            }
        }
    }
    found
}

#[test]
fn every_key_has_its_message_and_every_message_is_asked_for() {
    let (messages, asked_for) = (messages(), asked_for());
    let missing: Vec<&String> = asked_for.iter().filter(|key| !messages.contains_key(*key)).collect();
    assert!(missing.is_empty(), "keys without a message: {missing:?}");
    let idle: Vec<&String> = messages.keys().filter(|key| is_key(key) && !asked_for.contains(*key)).collect();
    assert!(idle.is_empty(), "messages that nothing asks for: {idle:?}");
}
