//! A text as files may give it: one, or one for each language.

use std::collections::BTreeMap;
use std::fmt;

use serde::de::{MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// By this name the deserializer knows that a text or a map is wanted.
pub(crate) const TEXTS: &str = "ron_file::TextOrTexts";

/// Texts by language, as BCP 47 writes it (`en-US`, `es`).
pub type Texts = BTreeMap<String, String>;

/// A plain text, or texts by language.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TextOrTexts {
    /// One text.
    Text(String),
    /// One for each language: `{"en-US": "Ice", "es": "Hielo"}`.
    Texts(Texts),
}

impl Default for TextOrTexts {
    fn default() -> Self {
        TextOrTexts::Text(String::new())
    }
}

impl<'de> Deserialize<'de> for TextOrTexts {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_newtype_struct(TEXTS, Either)
    }
}

impl Serialize for TextOrTexts {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            TextOrTexts::Text(text) => serializer.serialize_str(text),
            TextOrTexts::Texts(texts) => texts.serialize(serializer),
        }
    }
}

struct Either;

impl<'de> Visitor<'de> for Either {
    type Value = TextOrTexts;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(TEXTS)
    }

    fn visit_str<E>(self, text: &str) -> Result<TextOrTexts, E> {
        Ok(TextOrTexts::Text(text.to_owned()))
    }

    fn visit_string<E>(self, text: String) -> Result<TextOrTexts, E> {
        Ok(TextOrTexts::Text(text))
    }

    /// Other formats know nothing of the name.
    fn visit_newtype_struct<D: Deserializer<'de>>(self, inside: D) -> Result<TextOrTexts, D::Error> {
        inside.deserialize_any(Either)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<TextOrTexts, A::Error> {
        let mut texts = Texts::new();
        while let Some((language, text)) = map.next_entry::<String, String>()? {
            texts.insert(language, text);
        }
        Ok(TextOrTexts::Texts(texts))
    }
}
