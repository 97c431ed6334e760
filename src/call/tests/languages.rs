//! Texts of a call by language.
#![allow(clippy::unwrap_used, reason = "a test that meets an error has failed")]

use call::{CallMistake, built_in, read};

/// A built-in call with another title.
fn titled(title: &str) -> String {
    let (_, text) = built_in()[0];
    let start = text.find("title: ").unwrap();
    let end = start + text[start..].find(",\n").unwrap();
    format!("{}title: {title}{}", &text[..start], &text[end..])
}

#[test]
fn a_text_is_plain_or_has_a_language_each() {
    let plain = read(&titled("\"Ice\""), "a.ron").unwrap();
    assert_eq!(plain.title.in_language("es"), "Ice");
    let both = read(&titled("{\"en-US\": \"Ice\", \"es\": \"Hielo\"}"), "a.ron").unwrap();
    let said = ["en-US", "es", "es-MX", "fr"].map(|language| both.title.in_language(language));
    assert_eq!(said, ["Ice", "Hielo", "Hielo", "Ice"]);
    assert_ne!(plain.digest(), both.digest());
}

#[test]
fn american_english_is_asked_for_and_every_language_is_checked() {
    let long = "x".repeat(81);
    let key = || "title".to_owned();
    for (title, kind) in [
        ("{\"es\": \"Hielo\"}".to_owned(), CallMistake::NoEnglish { key: key() }),
        ("{\"en-US\": \"Ice\", \"es\": \" \"}".to_owned(), CallMistake::Empty { key: key() }),
        (
            format!("{{\"en-US\": \"Ice\", \"es\": \"{long}\"}}"),
            CallMistake::TooLong { key: key(), characters: 81, most: 80 },
        ),
        (
            "{\"en-US\": \"Ice\", \"in Spanish\": \"Hielo\"}".to_owned(),
            CallMistake::NoLanguage { key: key(), language: "in Spanish".to_owned() },
        ),
    ] {
        let problems = read(&titled(&title), "a.ron").unwrap_err();
        assert_eq!(problems.told.iter().map(|one| &one.kind).collect::<Vec<_>>(), [&kind], "{title}");
    }
}
