//! What one reading of a value shares: what is known and noted of it while it is read.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use serde::de;

use crate::mistake::{Mistake, Nearest, OldName};
use crate::nearest::nearest;
use crate::noted::{Manner, Noted};
use crate::tree::Tree;

/// A key of a type that must be there: name of the type and of the variant, the type's fields, the key.
pub(crate) type Required = BTreeSet<(&'static str, &'static [&'static str], &'static str)>;

/// Why a value can't be made.
#[derive(Debug)]
pub(crate) enum Stop {
    /// A key is missing, and what misses it can't be gone on with.
    Missing(&'static str),
    /// It was learned that a key must be there.
    Again,
    /// The type does not take what it was given.
    NotTaken,
    /// The same, noted already.
    Noted,
}

impl fmt::Display for Stop {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self:?}")
    }
}

impl std::error::Error for Stop {}

impl de::Error for Stop {
    fn custom<T: fmt::Display>(_: T) -> Stop {
        Stop::NotTaken
    }

    fn missing_field(field: &'static str) -> Stop {
        Stop::Missing(field)
    }
}

/// What one reading of a value shares.
pub(crate) struct Context<'a, 't> {
    pub(crate) tree: &'a Tree<'t>,
    pub(crate) manner: &'a Manner<'a>,
    pub(crate) required: &'a RefCell<Required>,
    noted: RefCell<Noted<Mistake>>,
    old_names: RefCell<Vec<OldName>>,
    guesses: RefCell<Guesses>,
}

impl<'a, 't> Context<'a, 't> {
    pub(crate) fn new(
        tree: &'a Tree<'t>,
        manner: &'a Manner<'a>,
        required: &'a RefCell<Required>,
        noted: Noted<Mistake>,
    ) -> Context<'a, 't> {
        let (old_names, guesses) = (RefCell::default(), RefCell::default());
        Context { tree, manner, required, noted: RefCell::new(noted), old_names, guesses }
    }

    pub(crate) fn into_noted(self) -> (Noted<Mistake>, Vec<OldName>) {
        (self.noted.into_inner(), self.old_names.into_inner())
    }

    pub(crate) fn note(&self, index: usize, mistake: impl FnOnce() -> Mistake) {
        self.noted.borrow_mut().note(self.tree.nodes[index].start as usize, mistake);
    }

    pub(crate) fn is_required(&self, of: Shape, field: &'static str) -> bool {
        self.required.borrow().contains(&(of.name, of.fields, field))
    }

    /// What a struct's visitor made of its keys; a key that it missed is learned.
    pub(crate) fn learned<T>(&self, of: Shape, made: Result<T, Stop>) -> Result<T, Stop> {
        match made {
            Err(Stop::Missing(field)) => {
                let is_new = self.required.borrow_mut().insert((of.name, of.fields, field));
                // A key that was given and is missed all the same would be learned for ever.
                Err(if is_new { Stop::Again } else { Stop::NotTaken })
            }
            other => other,
        }
    }

    /// Which of the known names a written one means: itself, the one of today that it is an old name of, or the nearest one, which is noted.
    pub(crate) fn meant(
        &self,
        written: &str,
        known: &'static [&'static str],
        unknown: impl FnOnce(Nearest) -> (usize, Mistake),
        free: impl FnOnce() -> Vec<&'static str>,
    ) -> Option<&'static str> {
        if let Some(name) = known.iter().find(|name| **name == written) {
            return Some(name);
        }
        let of_today = self.manner.old_names.iter().find(|(old, _)| *old == written);
        if let Some(name) = of_today.and_then(|(_, new)| known.iter().find(|name| *name == new)) {
            let old_name = OldName { old: written.to_owned(), new: (*name).to_owned() };
            let mut old_names = self.old_names.borrow_mut();
            if !old_names.contains(&old_name) {
                old_names.push(old_name);
            }
            return Some(name);
        }
        if self.noted.borrow().is_full() {
            // It is not told any more, but what it means spares mistakes that are none.
            self.noted.borrow_mut().note(0, || Mistake::Nothing);
            return self.guessed(written, known);
        }
        let near = nearest(written, &free());
        let names = near.iter().map(|name| (*name).to_owned()).collect();
        let (index, mistake) =
            unknown(if near.is_empty() { Nearest::None } else { Nearest::Names { names } });
        self.note(index, || mistake);
        near.first().copied()
    }

    /// The nearest known name, looked for once for each written one, and not for more than a few thousand.
    fn guessed(&self, written: &str, known: &'static [&'static str]) -> Option<&'static str> {
        let mut guesses = self.guesses.borrow_mut();
        let key = (known.as_ptr() as usize, written.to_owned());
        if let Some(guess) = guesses.get(&key) {
            return *guess;
        }
        if guesses.len() >= MOST_GUESSES {
            return None;
        }
        let guess = nearest(written, known).first().copied();
        guesses.insert(key, guess);
        guess
    }
}

/// Most different words for which a meaning is looked for when they are not told any more.
const MOST_GUESSES: usize = 5_000;

/// What was guessed: the known names, by where they stand, and the written one, with what it means.
type Guesses = BTreeMap<(usize, String), Option<&'static str>>;

/// The form of a struct or of a variant with keys.
#[derive(Clone, Copy)]
pub(crate) struct Shape {
    /// Name of the type or variant.
    pub name: &'static str,
    /// Its keys.
    pub fields: &'static [&'static str],
}
