//! RON files: read with every mistake in one pass, written in one layout.
//!
//! - [`Reading`] reads a text once into a tree with positions, and values of serde's types out of that tree. What does not fit is noted with its
//!   place, and the reading goes on with what stands next to it.
//! - [`Mistake`] is what can be wrong, as a fact; crates above put kinds of their own beside it.
//! - [`OldName`]: names of older files are read as those of today ([`Manner::old_names`]).
//! - [`write`], [`write_line`] and [`replaced`] write.
#![cfg_attr(test, allow(clippy::unwrap_used, reason = "a test that meets an error has failed"))]

mod at;
mod blank;
mod context;
mod de;
mod hidden;
mod mistake;
mod nearest;
mod noted;
mod reading;
mod texts;
mod tree;
mod write;

pub use hidden::{is_hidden, shown};
pub use mistake::{Bracket, Example, Inside, Mistake, Nearest, OldName, Place, Problem, Problems, Wanted};
pub use nearest::nearest;
pub use noted::{MOST_TOLD, Manner};
pub use reading::Reading;
pub use texts::{TextOrTexts, Texts};
pub use write::{replaced, write, write_line};
