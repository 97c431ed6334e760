//! Texts of a call: in American English, and in other languages if the author has them.

use std::collections::BTreeMap;

use ron_file::TextOrTexts;
use serde::{Deserialize, Serialize};

/// The language that every text has, as BCP 47 writes it.
pub const ENGLISH: &str = "en-US";

/// A text that learners read, in one or more languages.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(from = "TextOrTexts", into = "TextOrTexts")]
pub struct Text {
    english: String,
    others: BTreeMap<String, String>,
}

impl Text {
    /// A text in American English alone.
    pub fn english(text: impl Into<String>) -> Text {
        Text { english: text.into(), others: BTreeMap::new() }
    }

    /// The text in a language (`es`, `en-US`), or else in American English. A language without a region serves those with one.
    pub fn in_language(&self, language: &str) -> &str {
        let of = |language: &str| self.others.get(language).map(String::as_str);
        let without_region = language.split('-').next().unwrap_or(language);
        match language {
            ENGLISH => &self.english,
            _ => of(language).or_else(|| of(without_region)).unwrap_or(&self.english),
        }
    }

    /// Every language that the text has, with the text.
    pub fn all(&self) -> impl Iterator<Item = (&str, &str)> {
        let others = self.others.iter().map(|(language, text)| (language.as_str(), text.as_str()));
        std::iter::once((ENGLISH, self.english.as_str())).chain(others)
    }

    /// As a file has it, without blanks around.
    pub(crate) fn of(written: &TextOrTexts) -> Text {
        match written {
            TextOrTexts::Text(text) => Text::english(text.trim()),
            TextOrTexts::Texts(texts) => {
                let mut others: BTreeMap<String, String> =
                    texts.iter().map(|(language, text)| (language.clone(), text.trim().to_owned())).collect();
                Text { english: others.remove(ENGLISH).unwrap_or_default(), others }
            }
        }
    }
}

impl From<TextOrTexts> for Text {
    fn from(written: TextOrTexts) -> Text {
        Text::of(&written)
    }
}

impl From<Text> for TextOrTexts {
    fn from(text: Text) -> TextOrTexts {
        if text.others.is_empty() {
            return TextOrTexts::Text(text.english);
        }
        let mut texts = text.others;
        texts.insert(ENGLISH.to_owned(), text.english);
        TextOrTexts::Texts(texts)
    }
}

/// Whether something can be the name of a language: letters and digits in groups of one to eight (RFC 5646, section 2.1).
pub(crate) fn is_language(tag: &str) -> bool {
    let is_group = |group: &str| {
        (1..=8).contains(&group.len()) && group.bytes().all(|byte| byte.is_ascii_alphanumeric())
    };
    tag.split('-').all(is_group) && tag.starts_with(|letter: char| letter.is_ascii_alphabetic())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_language_of_the_reader_is_taken_else_english() {
        let texts = [("en-US", " Ice "), ("es", "Hielo"), ("fr-CA", "Glace")];
        let texts = texts.map(|(language, text)| (language.to_owned(), text.to_owned()));
        let text = Text::of(&TextOrTexts::Texts(texts.into()));
        for (language, said) in [
            ("en-US", "Ice"),
            ("es", "Hielo"),
            ("es-MX", "Hielo"),
            ("fr-CA", "Glace"),
            ("fr", "Ice"),
            ("de", "Ice"),
        ] {
            assert_eq!(text.in_language(language), said, "{language}");
        }
        assert_eq!(text.all().count(), 3);
        assert_eq!(Text::of(&TextOrTexts::Text("Ice".into())).in_language("es"), "Ice");
    }

    #[test]
    fn languages_are_told_from_other_words() {
        assert!(["en-US", "es", "zh-Hant-TW", "es-419"].into_iter().all(is_language));
        assert!(
            ["", "en_US", "-es", "spanishlanguage", "es-", "1a", "español"]
                .into_iter()
                .all(|tag| !is_language(tag))
        );
    }
}
