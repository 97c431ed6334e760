//! What a call is, after reading and checking.

use plant::{Fault, FaultKind, HouseModel, LeakPlace, System, Weather};
use serde::{Deserialize, Serialize};

use crate::text::Text;

/// One authored service call, checked. Ranges are still open: a seed closes them ([`crate::Seeded`]).
#[derive(Clone, Debug, PartialEq)]
pub struct Call {
    /// Short name, the file's stem: lower case, digits and hyphens.
    pub id: String,
    /// One line for lists.
    pub title: Text,
    /// What the customer says on the phone.
    pub complaint: Text,
    /// What the customer answers when asked.
    pub answers: Vec<(Question, Text)>,
    /// The equipment.
    pub system: System,
    /// House, and its state on arrival of the technician's simulated day.
    pub house: HouseSpec,
    /// Weather.
    pub weather: WeatherSpec,
    /// How the customer has set the thermostat.
    pub thermostat: plant::ThermostatSettings,
    /// Refrigerant in the system over the data plate's charge, at the start of the history.
    pub charge_share: Range,
    /// What is wrong.
    pub faults: Vec<FaultSpec>,
    /// Plant time simulated before the technician arrives, s.
    pub history_s: f64,
    /// The sound order, as prerequisites.
    pub prerequisites: Vec<Prerequisite>,
    /// Fault kinds that the declaration's evidence must rule out.
    pub rivals: Vec<FaultKind>,
    /// How likely single kinds are before the first reading, as weights against 1 for every kind that is not named;
    /// none: the default of the program.
    pub priors: Vec<(FaultKind, f64)>,
    /// Whether the learner may see the next best test.
    pub hints: Hints,
    /// What counts as solved.
    pub solved: Solved,
    /// Time a sound visit needs, s; twice that earns no mark for time.
    pub par_time_s: f64,
    /// The file's text, kept so that a visit record can carry it.
    pub source: String,
}

/// Whether the learner is told which test would tell most.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Hints {
    /// Never.
    Off,
    /// When asked for.
    #[default]
    OnRequest,
    /// All the time.
    Always,
}

/// Inclusive range that a seed closes to one value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// Lowest value.
    pub low: f64,
    /// Highest value.
    pub high: f64,
}

/// House and its condition at the start of the history; its structure is then as warm as its air.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseSpec {
    /// Parameters.
    pub model: HouseModel,
    /// Air temperature, K.
    pub air_k: Range,
    /// Relative humidity, 0 to 1.
    pub relative_humidity: Range,
}

/// Weather with open ranges.
#[derive(Clone, Debug, PartialEq)]
pub struct WeatherSpec {
    /// Daily mean, K.
    pub mean_k: Range,
    /// Half the daily swing, K.
    pub swing_k: f64,
    /// Dew point, K.
    pub dew_point_k: f64,
    /// Local solar time at the start of the history, h.
    pub start_hour: f64,
    /// Peak sun, W/m².
    pub solar_peak_w_m2: f64,
}

/// A fault with open ranges.
#[derive(Clone, Debug, PartialEq)]
pub struct FaultSpec {
    /// Kind.
    pub kind: FaultKind,
    /// Possible places (one is drawn); empty for kinds without a place.
    pub places: Vec<LeakPlace>,
    /// Severity.
    pub severity: Range,
    /// Onset, s of plant time from the start of the history.
    pub onset_s: Range,
}

/// A rule of the sound order: before any of `before` is done, one of `one_of` must have been done.
#[derive(Clone, Debug, PartialEq)]
pub struct Prerequisite {
    /// The guarded milestone.
    pub before: Milestone,
    /// Any one of these satisfies it.
    pub one_of: Vec<Milestone>,
    /// Why, shown in the review.
    pub why: Text,
}

/// What must be true at closing time.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
    /// All faults of the call must be gone (always so; named so that the file says it).
    pub cleared: Vec<FaultKind>,
    /// Charge over the data plate's charge.
    pub charge_share: Range,
    /// Most ice on the coil, kg.
    pub frost_mass_max_kg: f64,
    /// The plant must have been verified running at steady state for so long, s.
    pub proven_for_s: f64,
}

/// A question for the customer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Question {
    /// When did it start, and how?
    WhenItStarted,
    /// What is the thermostat set to, day and night?
    ThermostatHabits,
    /// When was the filter last changed?
    FilterLastChanged,
    /// Has anybody worked on it, was refrigerant added?
    EarlierService,
    /// Any noises, smells, water?
    NoisesAndWater,
}

impl Question {
    /// Every question.
    pub const ALL: [Question; 5] = [
        Question::WhenItStarted,
        Question::ThermostatHabits,
        Question::FilterLastChanged,
        Question::EarlierService,
        Question::NoisesAndWater,
    ];
}

/// A point on the way through a visit, in whose terms the sound order is written.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, strum::VariantArray,
)]
pub enum Milestone {
    /// A question was put to the customer.
    CustomerAsked,
    /// The data plate was read.
    DataPlateRead,
    /// The compressor was stopped (thermostat off or disconnect pulled).
    CompressorStopped,
    /// The filter was taken out and looked at.
    FilterInspected,
    /// The face of the indoor coil was looked at.
    CoilSeen,
    /// The blower wheel itself was watched.
    BlowerSeen,
    /// The thermostat was read.
    ThermostatRead,
    /// 24 V was measured at Y or G.
    ControlVoltageMeasured,
    /// The coil was seen free of ice with the ice, if any, melted.
    CoilThawed,
    /// Gauges were put on.
    GaugesConnected,
    /// Both pressures were read.
    PressuresRead,
    /// Suction pressure and suction line temperature were read.
    SuperheatMeasured,
    /// Liquid pressure and liquid line temperature were read.
    SubcoolingMeasured,
    /// Return and supply dry bulb were read.
    TemperatureSplitMeasured,
    /// Both sides of the drier were read.
    DrierDropMeasured,
    /// The bulb was looked at.
    BulbSeen,
    /// The bulb was warmed or chilled and the answer of the plant read.
    BulbTested,
    /// A leak search was made.
    LeakSearched,
    /// A leak was found.
    LeakFound,
    /// Refrigerant was recovered to the required vacuum.
    Recovered,
    /// A cause was declared.
    CauseDeclared,
    /// A part was replaced or repaired.
    PartReplaced,
    /// Nitrogen stood on the circuit and held.
    PressureTested,
    /// The circuit was evacuated to the required vacuum.
    Evacuated,
    /// The vacuum held with the pump valved off.
    VacuumHeld,
    /// Refrigerant was weighed in.
    WeighedIn,
    /// Refrigerant was added without recovering and weighing in.
    RefrigerantAdded,
    /// The repair was verified.
    RepairVerified,
    /// The ticket was closed.
    TicketClosed,
}

/// A call with every range closed by a seed.
#[derive(Clone, Debug, PartialEq)]
pub struct Seeded {
    /// The seed.
    pub seed: u64,
    /// House, ready for the plant.
    pub room: plant::Room,
    /// Weather.
    pub weather: Weather,
    /// Charge at the start, kg.
    pub charge_kg: f64,
    /// Faults.
    pub faults: Vec<Fault>,
}
