//! Scripted technicians on generated calls: how well the suspects find the cause, and what a manner of working is
//! worth. Figures in docs/evidence.md come from here.

mod calls;
mod drawn;
mod guided;
mod manners;
mod numbers;
mod parallel;
mod reliability;
mod repair;
mod routine;

pub use calls::{Case, Draw, case};
pub use diagnosis::{SURE, is_sure};
pub use drawn::{Drawn, drawn};
pub use guided::guided;
pub use manners::{Manner, call_of, marks_of, worked};
pub use numbers::Numbers;
pub use parallel::work_all;
pub use reliability::reliability;
pub use repair::repair;
pub use routine::{Follow, Go, fixed_routine, make, thaw_and_start};
