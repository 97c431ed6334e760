//! What can be wrong with a text as RON and with what it says of a type, as facts.

use serde::{Deserialize, Serialize};

/// What opens and has to be closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Bracket {
    /// `(`.
    Round,
    /// `[`.
    Square,
    /// `{`.
    Curly,
    /// `"`.
    Quote,
    /// `/*`.
    Comment,
}

impl Bracket {
    pub(crate) fn of(open: u8) -> Bracket {
        match open {
            b'(' => Bracket::Round,
            b'[' => Bracket::Square,
            _ => Bracket::Curly,
        }
    }
}

/// What should stand in a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Wanted {
    /// A number.
    Number,
    /// A whole number from a bound to another.
    Whole,
    /// A text in double quotes.
    Text,
    /// A character in single quotes.
    Character,
    /// `true` or `false`.
    YesOrNo,
    /// A list in square brackets.
    List,
    /// A map in curly brackets.
    Map,
    /// Round brackets with keys.
    Keyed,
    /// Round brackets with values that have no keys.
    Values,
    /// A name.
    Name,
    /// Nothing: `()`.
    Nothing,
    /// A text, or a map of language to text.
    TextOrTexts,
}

/// In what a key stands.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Inside {
    /// In the file's outermost brackets.
    File,
    /// In the value of a key.
    Of(String),
}

/// Something to write instead.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Example {
    /// None is known.
    None,
    /// A key with its value.
    Of(String),
}

/// The known names nearest to one that is not known.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Nearest {
    /// None is near.
    None,
    /// Up to three, the nearest first.
    Names {
        /// The names.
        names: Vec<String>,
    },
}

impl Nearest {
    /// The known names nearest to a written one.
    pub fn of(written: &str, known: &[&str]) -> Nearest {
        let names = crate::nearest(written, known);
        if names.is_empty() {
            Nearest::None
        } else {
            Nearest::Names { names: names.into_iter().map(str::to_owned).collect() }
        }
    }
}

/// A mistake of writing. Names and texts are as they are written in the file, with hidden characters by their number.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Mistake {
    /// The text is longer than is read.
    TooLong {
        /// Its length.
        bytes: usize,
        /// What is read.
        most: usize,
    },
    /// There are more values in it than are read.
    TooMany {
        /// How many are read.
        most: usize,
    },
    /// Brackets stand deeper within each other than is read.
    TooDeep {
        /// How deep they may stand.
        most: usize,
    },
    /// There is nothing in the text.
    Nothing,
    /// A character belongs to no value.
    Character {
        /// The character.
        found: String,
    },
    /// A character steers what shows it: a control character, or one that turns the direction of writing.
    Hidden {
        /// Its number, as `U+001B`.
        code: String,
    },
    /// What opens here is never closed.
    Unclosed(Bracket),
    /// A closing bracket closes nothing.
    ClosesNothing,
    /// A comma or a closing bracket is missing before this.
    CommaMissing,
    /// A colon is missing after a key.
    ColonMissing {
        /// The key.
        key: String,
    },
    /// A key has no value.
    ValueMissing {
        /// The key.
        key: String,
    },
    /// There is more after the end.
    AfterTheEnd,
    /// A backslash before a letter that it does not go with.
    Escape,
    /// A key is not known.
    UnknownKey {
        /// The key.
        key: String,
        /// In what.
        inside: Inside,
        /// Known keys near to it that are not there yet.
        nearest: Nearest,
        /// Every known key.
        known: Vec<String>,
    },
    /// A key is missing.
    MissingKey {
        /// The key.
        key: String,
        /// In what.
        inside: Inside,
        /// How it could be written.
        example: Example,
    },
    /// A key is there twice.
    DoubledKey {
        /// The key.
        key: String,
    },
    /// A value has no key where each needs one.
    NoKey,
    /// A value has a key where none belongs.
    KeyTooMuch {
        /// The key.
        key: String,
    },
    /// A name is not known.
    UnknownName {
        /// The name.
        name: String,
        /// Known names near to it.
        nearest: Nearest,
        /// Every known name.
        known: Vec<String>,
    },
    /// A value is of another sort.
    WrongSort {
        /// What should stand there.
        wanted: Wanted,
        /// What is written.
        written: String,
        /// How it could be written.
        example: Example,
    },
    /// A number is none that can be reckoned with: infinite, or not a number.
    NotFinite {
        /// What is written.
        written: String,
    },
    /// There are more or fewer values in brackets than belong there.
    Count {
        /// How many belong there.
        wanted: usize,
        /// How many there are.
        found: usize,
    },
    /// A name goes without brackets.
    NoBrackets {
        /// The name.
        name: String,
    },
    /// A name needs brackets with a value behind it.
    NeedsValue {
        /// The name.
        name: String,
        /// How it could be written.
        example: Example,
    },
    /// A value was not taken, and there is no better reason.
    NotTaken {
        /// What is written.
        written: String,
    },
}

impl Mistake {
    pub(crate) fn hidden(hidden: char) -> Mistake {
        Mistake::Hidden { code: format!("U+{:04X}", u32::from(hidden)) }
    }
}

/// Where in a text something stands.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Place {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// Keys and numbers that lead there: `faults[1].severity[0]`; empty for the whole.
    pub path: String,
}

/// One thing that is wrong with a file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Problem<K> {
    /// Where.
    pub place: Place,
    /// What.
    pub kind: K,
}

/// Everything that is wrong with a file, in its order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Problems<K> {
    /// The file, as the caller named it.
    pub file: String,
    /// The first of them.
    pub told: Vec<Problem<K>>,
    /// How many more there are.
    pub more: usize,
}

impl<K> Problems<K> {
    /// The one problem of a file as a whole.
    pub fn whole(file: &str, kind: K) -> Problems<K> {
        let place = Place { line: 1, column: 1, path: String::new() };
        Problems { file: file.to_owned(), told: vec![Problem { place, kind }], more: 0 }
    }

    /// The same with kinds of another type.
    pub fn map<L>(self, other: impl Fn(K) -> L) -> Problems<L> {
        let told =
            self.told.into_iter().map(|one| Problem { place: one.place, kind: other(one.kind) }).collect();
        Problems { file: self.file, told, more: self.more }
    }
}

/// An old name that was read as the one of today.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct OldName {
    /// As it is written.
    pub old: String,
    /// Its name of today.
    pub new: String,
}
