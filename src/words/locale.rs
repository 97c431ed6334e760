//! The locale files: compiled in, parsed once.

use std::sync::OnceLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource};
use unic_langid::langid;

/// A language that the program speaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Language {
    /// American English.
    #[default]
    English,
}

impl Language {
    /// Its name, as BCP 47 writes it.
    pub fn tag(self) -> &'static str {
        match self {
            Language::English => call::ENGLISH,
        }
    }
}

/// The files of American English, each with its name.
pub(crate) const ENGLISH: [(&str, &str); 13] = [
    ("cli", include_str!("../../assets/locale/en-US/cli.ftl")),
    ("cautions", include_str!("../../assets/locale/en-US/cautions.ftl")),
    ("faults", include_str!("../../assets/locale/en-US/faults.ftl")),
    ("marks", include_str!("../../assets/locale/en-US/marks.ftl")),
    ("moves", include_str!("../../assets/locale/en-US/moves.ftl")),
    ("notes", include_str!("../../assets/locale/en-US/notes.ftl")),
    ("page", include_str!("../../assets/locale/en-US/page.ftl")),
    ("parts", include_str!("../../assets/locale/en-US/parts.ftl")),
    ("problems", include_str!("../../assets/locale/en-US/problems.ftl")),
    ("refusals", include_str!("../../assets/locale/en-US/refusals.ftl")),
    ("review", include_str!("../../assets/locale/en-US/review.ftl")),
    ("screen", include_str!("../../assets/locale/en-US/screen.ftl")),
    ("work", include_str!("../../assets/locale/en-US/work.ftl")),
];

/// Messages of one language.
pub(crate) struct Locale {
    bundle: FluentBundle<FluentResource>,
}

impl Locale {
    /// The messages of a language.
    pub(crate) fn of(language: Language) -> &'static Locale {
        static EN_US: OnceLock<Locale> = OnceLock::new();
        match language {
            Language::English => EN_US.get_or_init(|| Locale::read(&ENGLISH)),
        }
    }

    /// What can't be read is left out; the tests of this crate find it.
    fn read(files: &[(&str, &str)]) -> Locale {
        let mut bundle = FluentBundle::new_concurrent(vec![langid!("en-US")]);
        // Marks of direction around what is filled in would stand in copied text and in tests.
        bundle.set_use_isolating(false);
        for (_, text) in files {
            let resource = FluentResource::try_new((*text).to_owned()).unwrap_or_else(|(read, _)| read);
            drop(bundle.add_resource(resource));
        }
        Locale { bundle }
    }

    /// A message with what is filled in; `None` if there is none of that name.
    pub(crate) fn message(&self, key: &str, filled_in: &FluentArgs) -> Option<String> {
        let pattern = self.bundle.get_message(key)?.value()?;
        let mut errors = Vec::new();
        let text = self.bundle.format_pattern(pattern, Some(filled_in), &mut errors).into_owned();
        debug_assert!(errors.is_empty(), "{key}: {errors:?}");
        Some(text)
    }

    /// Whether there is a message of that name.
    pub(crate) fn has(&self, key: &str) -> bool {
        self.bundle.get_message(key).is_some_and(|message| message.value().is_some())
    }
}
