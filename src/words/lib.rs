//! Facts in the reader's language and units.
//!
//! Below this crate nothing is worded: visits, marks and reviews hold facts, values with SI numbers. [`Words::say`] finds the message of any of them in
//! the locale files (assets/locale, Project Fluent's format) by the names of its type and variant, so that a fact that is added needs a message and
//! nothing else, and a language is a folder. How names and messages meet is told in `teller.rs`, how numbers become quantities in `quantity.rs`.

#[cfg(test)]
mod below;
#[cfg(test)]
mod by_key;
#[cfg(test)]
mod complete;
mod key;
mod locale;
#[cfg(test)]
mod messages;
mod notebook;
mod problems;
mod quantity;
mod reader;
mod review;
#[cfg(test)]
mod sources;
mod teller;

pub use locale::Language;
pub use notebook::first_upper;
pub use quantity::{Units, capacitance, current, money, resistance, share, span, voltage};
pub use reader::Words;
