//! What people read afterwards: the review of a visit, and the lines of its notebook.
//!
//! [`Review`] holds the facts of a judged visit (SI inside, keys carry their unit) and goes to JSON as it is;
//! [`Review::to_text`] writes it out in the units that the reader wants. [`entry_line`] writes one notebook
//! entry. Nothing here computes a mark or changes a visit.

mod notebook;
mod review;
mod text;
mod units;

pub use notebook::{entry_line, reading_text};
pub use review::{AreaMarks, RefrigerantBalance, Review, TimelineLine, WrongThing};
pub use units::Units;
