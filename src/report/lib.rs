//! What people read afterwards: the review of a visit, and the lines of its notebook.
//!
//! [`Review`] holds the facts of a judged visit (SI inside, keys carry their unit) and goes to JSON as it is;
//! [`Review::to_text`] writes it out in the units that the reader wants. [`ReviewFigures`] holds what is shown beside the
//! marks: the plant's course, its cycle, the suspects, what would have happened next. [`html::page`] makes one file
//! of both. [`entry_line`] writes one notebook entry. Nothing here computes a mark or changes a visit.

mod course;
mod cycle;
mod dossier;
pub mod html;
mod notebook;
mod path;
mod posterior;
mod review;
mod ruled;
mod run_on;
mod text;
mod timeline;

pub use course::{Course, EntryMoment};
pub use cycle::{Corner, Cycle, CycleMoment, Cycles};
pub use dossier::ReviewFigures;
pub use notebook::entry_line;
pub use path::{PathStep, SoundPath, StepGain};
pub use posterior::{AfterEntry, PosteriorHistory};
pub use review::{AreaMarks, BalanceLine, RefrigerantBalance, Review, TimelineLine, WrongThing};
pub use ruled::{
    Change, Effect, NOTICEABLE, RULED_OUT_FACTOR, Ruling, Shift, Shifts, carries_evidence, doubt_of,
    doubt_text, doubt_then, rulings, rulings_of_evidence,
};
pub use run_on::{Fact, FateSample, Outlook, OutlookLine, OutlookValue, Projection, USUAL_HOURS};
pub use timeline::{MovePoint, MoveSort, NumberPlace, PosteriorRow, RowOf, Timeline, number_places};
pub use words::Words;
