//! A reader, and the messages that are asked for by their key.

use fluent_bundle::FluentArgs;

use crate::locale::{Language, Locale};
use crate::quantity::Units;

/// A reader: the language and the units that are wanted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Words {
    /// In which units quantities are written.
    pub units: Units,
    /// In which language.
    pub language: Language,
}

impl Words {
    /// American English in these units.
    pub fn in_units(units: Units) -> Words {
        Words { units, language: Language::English }
    }

    /// The message of a key that fills nothing in; the key itself if there is none.
    pub fn label(&self, key: &str) -> String {
        self.fill(key, &[])
    }

    /// The message of a key with texts filled in; the key itself if there is none.
    pub fn fill(&self, key: &str, texts: &[(&str, String)]) -> String {
        self.filled(key, FluentArgs::new(), texts)
    }

    /// The message of a key with a count filled in as `count`, which chooses the plural, and texts; the key itself if there is none.
    pub fn count(&self, key: &str, count: usize, texts: &[(&str, String)]) -> String {
        let mut filled_in = FluentArgs::new();
        filled_in.set("count", count);
        self.filled(key, filled_in, texts)
    }

    fn filled(&self, key: &str, mut filled_in: FluentArgs<'_>, texts: &[(&str, String)]) -> String {
        for (name, text) in texts {
            filled_in.set((*name).to_owned(), text.clone());
        }
        self.locale().message(key, &filled_in).unwrap_or_else(|| key.to_owned())
    }

    /// Several as a list: "1, 2 and 3".
    pub fn list(&self, texts: &[String]) -> String {
        self.joined("list", texts)
    }

    /// Several of which one will do: "1, 2 or 3".
    pub(crate) fn any_of(&self, texts: &[String]) -> String {
        self.joined("list-any", texts)
    }

    fn joined(&self, key: &str, texts: &[String]) -> String {
        let Some((last, others)) = texts.split_last() else { return String::new() };
        if others.is_empty() {
            return last.clone();
        }
        self.fill(key, &[("others", others.join(", ")), ("last", last.clone())])
    }

    pub(crate) fn locale(&self) -> &'static Locale {
        Locale::of(self.language)
    }
}
