//! The visit: one learner's work on one call, from arrival to closed ticket.
//!
//! [`Visit`] holds plant, site and notebook; [`Visit::perform`] makes a [`Move`]. [`Record`] is the file of
//! a visit, and [`replay`] makes the same visit from it again, byte by byte. What the site forbids, what an
//! instrument shows, what is seen and what a move takes are a file each.

mod again;
mod coil;
mod cycle;
mod event;
mod forbid;
mod forbid_service;
mod forecast;
mod hazard;
mod instruments;
mod limits;
mod margin;
mod mend;
mod milestones;
mod moves;
mod moves_file;
mod note;
mod notebook;
mod observe;
mod offers;
mod perform;
mod random;
mod record;
mod recording;
mod refusal;
mod sight;
mod site;
mod timing;
mod trend;
mod visit;

pub use again::{Onlooker, make_again};
pub use call::{Duration, Mass, Pressure, Temperature, TemperatureDifference};
pub use coil::CoilAsSeen;
pub use cycle::{Cycle, Signal};
pub use event::{CannotHappen, Event, Happening, MESSAGE_MOST, Timed, Wrong};
pub use hazard::{Caution, Hazard, caution};
pub use instruments::{Instrument, InstrumentKind, LiveReading, START_UP_S, instrument};
pub use limits::scale_tells;
pub use margin::{Absence, Margin, ShownMargin};
pub use moves::{
    AirPoint, Bulb, ChargeBy, CylinderUse, Declaration, LeakMethod, Location, Move, Panel, PipePoint, Place,
    Port,
};
pub use moves_file::{moves_text, read_moves};
pub use note::{Note, PlateNote};
pub use notebook::{Entry, Measured, Observation, Outcome, Reading, Running, Trust, Verification};
pub use offers::Offer;
pub use perform::{
    AreaNote, BulbNote, ChargeNote, FilterNote, GaugeNote, LeakNote, MeterNote, NitrogenNote, Progress,
    RecoveryNote, SiteNote, VacuumNote, VerifyNote, WorkNote,
};
pub use record::{CallName, RECORD_VERSION, Record, ReplayError, moves_in, replay, replay_before};
pub use recording::{
    At, ICED_KG, LOOK_S, Look, Moment, Recorded, Recording, Sample, compressor_runs, is_iced,
};
pub use refusal::Refusal;
pub use sight::Sight;
pub use site::{BulbState, Circuit, Gauges, Site};
pub use timing::{minutes, price};
pub use visit::{ShadowPace, VISIT_LIMIT_S, Visit};
