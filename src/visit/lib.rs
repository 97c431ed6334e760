//! The visit: one learner's work on one call, from arrival to closed ticket.
//!
//! [`Visit`] holds plant, site and notebook; [`Visit::perform`] makes a [`Move`]. [`Record`] is the file of
//! a visit, and [`replay`] makes the same visit from it again, byte by byte. What the site forbids, what an
//! instrument shows, what is seen and what a move takes are a file each.

mod action;
mod again;
mod arrival;
mod clock;
mod coil;
mod cycle;
mod event;
mod eye;
mod file_mistake;
mod forecast;
mod happen;
mod hazard;
mod instruments;
mod limits;
mod margin;
mod measured;
mod milestones;
mod moves;
mod moves_file;
mod note;
mod notebook;
mod observe;
mod offers;
mod perform;
mod place;
mod random;
mod record;
mod recording;
mod refusal;
mod refusing;
mod running;
mod sight;
mod site;
mod site_map;
mod tick;
mod timing;
mod trend;
mod truth;
mod visit;

pub use action::{Declaration, Move};
pub use again::{Onlooker, make_again};
pub use arrival::ShadowPace;
pub use coil::CoilAsSeen;
pub use cycle::{Cycle, Signal};
pub use event::{CannotHappen, Event, Happening, MESSAGE_MOST, Timed, Wrong};
pub use file_mistake::{Asked, FileMistake, FileProblems};
pub use hazard::{Caution, Hazard};
pub use instruments::{Instrument, InstrumentKind, LiveReading};
pub use limits::{Limit, Limited, scale_tells};
pub use margin::{Absence, Margin, ShownMargin};
pub use measured::{Measured, Quantity, Trust, Unit, instrument};
pub use milestones::{MilestoneRow, Needed, Way, milestone_row};
pub use moves::{Dead, Effect, Kept, OnCircuit, caution};
pub use moves_file::{moves_text, read_moves, read_moves_with_notes};
pub use note::{
    AreaNote, BulbNote, ChargeNote, FilterNote, GaugeNote, LeakNote, MeterNote, NitrogenNote, Note,
    PlateNote, RecoveryNote, SiteNote, VacuumNote, VerifyNote, WorkNote,
};
pub use notebook::{Entry, Outcome, Reading, Verification};
pub use offers::Offer;
pub use perform::Progress;
pub use place::{
    AirPoint, Bulb, ChargeBy, CylinderUse, LeakMethod, Location, Panel, PipePoint, Place, Port, StaticTap,
};
pub use quantity::{Duration, Mass, Pressure, Temperature, TemperatureDifference};
pub use record::{Breakdown, CallName, RECORD_VERSION, Record, ReplayError, moves_in, replay, replay_before};
pub use recording::{
    At, ICED_KG, LOOK_S, Look, Moment, Recorded, Recording, Sample, compressor_runs, is_iced,
};
pub use refusal::Refusal;
pub use running::{Running, START_UP_S};
pub use sight::{Hides, Observation, Sight};
pub use site::{BulbState, Circuit, Gauges, Site};
pub use site_map::terminal_location;
pub use tick::VISIT_LIMIT_S;
pub use timing::{minutes, price};
pub use visit::Visit;
