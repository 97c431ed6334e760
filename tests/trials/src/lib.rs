//! Scripted technicians on generated calls: how well the suspects find the cause, and what a manner of working is
//! worth. Figures in docs/evidence.md come from here.

mod calls;
mod routine;

pub use calls::{Case, case};
pub use routine::fixed_routine;
