//! The visit: one learner's work on one call, from arrival to closed ticket.
//!
//! [`Visit`] holds plant, site and notebook; [`Visit::perform`] makes a [`Move`]. [`Record`] is the file of
//! a visit, and [`replay`] makes the same visit from it again, byte by byte.

mod moves;
mod notebook;

pub use moves::{
    AirPoint, Bulb, Declaration, LeakMethod, Move, Panel, PipePoint, Place, Port,
};
pub use notebook::{Entry, Measured, Observation, Outcome, Reading, Trust, Verification};
pub use call::{Duration, Mass, Temperature};
