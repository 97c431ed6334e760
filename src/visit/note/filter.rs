//! Notes of the filter.

use serde::{Deserialize, Serialize};

/// What a filter and its slot show.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum FilterNote {
    /// There is no filter in the slot.
    SlotEmpty,
    /// The frame is there, its medium torn off.
    FrameBent,
    /// No light comes through.
    Plugged,
    /// Light still comes through.
    Dirty,
    /// It can be seen through.
    Clean,
    /// A new one is in.
    NewOneIn,
}
