//! The review as facts.

use call::Text;
use judge::{Area, Mark, Marks};
use plant::{FaultKind, LeakPlace};
use serde::{Deserialize, Serialize};
use visit::{Move, Note, Outcome, Visit};

/// The review of a judged visit. Values in SI; keys carry their unit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Review {
    /// Call.
    pub call: String,
    /// Its title.
    pub title: Text,
    /// What the customer had said.
    pub complaint: Text,
    /// Seed.
    pub seed: u64,
    /// Whether the ticket was closed.
    pub closed: bool,
    /// Points of 100.
    pub total_points: f64,
    /// Time on site, min.
    pub time_on_site_min: f64,
    /// Time a sound visit needs, min.
    pub par_time_min: f64,
    /// Parts and refrigerant, money.
    pub parts_cost: f64,
    /// What was wrong.
    pub wrong: Vec<WrongThing>,
    /// What was declared last.
    pub declared: Option<FaultKind>,
    /// Marks, area by area.
    pub areas: Vec<AreaMarks>,
    /// Every move.
    pub timeline: Vec<TimelineLine>,
    /// Where the refrigerant went.
    pub refrigerant: RefrigerantBalance,
}

/// Something that was wrong with the plant on arrival.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WrongThing {
    /// Kind.
    pub kind: FaultKind,
    /// Where, for kinds with a place.
    pub place: Option<LeakPlace>,
    /// How bad, 0 to 1; its meaning depends on the kind.
    pub severity: f64,
    /// Whether the plant still has it.
    pub still_there: bool,
}

/// Marks of one area.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AreaMarks {
    /// Area.
    pub area: Area,
    /// Points earned.
    pub points: f64,
    /// Points that could be earned.
    pub of: f64,
    /// Its marks.
    pub marks: Vec<Mark>,
}

/// One move in the timeline.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TimelineLine {
    /// Number of the notebook entry.
    pub entry: u32,
    /// When it began, s after arrival.
    pub since_arrival_s: f64,
    /// The move.
    #[serde(rename = "move")]
    pub action: Move,
    /// What came of it.
    pub outcome: Outcome,
    /// What was noted beside it.
    pub notes: Vec<Note>,
}

/// Refrigerant of the circuit, in at the top, out below; kg.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RefrigerantBalance {
    /// On the data plate.
    pub plate_kg: f64,
    /// At the start of the call's history.
    pub start_kg: f64,
    /// Put in by the technician.
    pub added_kg: f64,
    /// Lost through the leak.
    pub leaked_kg: f64,
    /// Let into the air by opening the circuit, the vacuum pump or the relief device.
    pub vented_kg: f64,
    /// Lost with the hoses of the gauges.
    pub hoses_kg: f64,
    /// Left standing in the hoses.
    pub trapped_kg: f64,
    /// Taken out into a cylinder.
    pub recovered_kg: f64,
    /// In the circuit at the end.
    pub end_kg: f64,
}

/// A line of the refrigerant's balance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum BalanceLine {
    /// On the data plate.
    DataPlate,
    /// At the start of the call's history.
    AtStart,
    /// Put in by the technician.
    PutIn,
    /// Lost through the leak.
    Leaked,
    /// Let into the air.
    Vented,
    /// Lost with the hoses.
    LostWithHoses,
    /// Left standing in the hoses.
    LeftInHoses,
    /// Taken out into a cylinder.
    Recovered,
    /// In the circuit at the end.
    AtEnd,
}

impl RefrigerantBalance {
    /// Its lines in the order in which they are told, kg.
    pub fn lines(&self) -> [(BalanceLine, f64); 9] {
        [
            (BalanceLine::DataPlate, self.plate_kg),
            (BalanceLine::AtStart, self.start_kg),
            (BalanceLine::PutIn, self.added_kg),
            (BalanceLine::Leaked, self.leaked_kg),
            (BalanceLine::Vented, self.vented_kg),
            (BalanceLine::LostWithHoses, self.hoses_kg),
            (BalanceLine::LeftInHoses, self.trapped_kg),
            (BalanceLine::Recovered, self.recovered_kg),
            (BalanceLine::AtEnd, self.end_kg),
        ]
    }
}

impl Review {
    /// Puts a judged visit together.
    pub fn new(visit: &Visit, marks: &Marks) -> Review {
        let call = visit.call();
        let arrival_s = visit.arrival_s();
        let ledger = visit.plant().ledger();
        Review {
            call: call.id.clone(),
            title: call.title.clone(),
            complaint: call.complaint.clone(),
            seed: visit.seed(),
            closed: visit.is_closed(),
            total_points: marks.total,
            time_on_site_min: visit.site().minutes,
            par_time_min: call.par_time_s / 60.0,
            parts_cost: visit.cost(),
            wrong: visit
                .ever_wrong()
                .into_iter()
                .map(|fault| WrongThing {
                    kind: fault.kind,
                    place: fault.place,
                    severity: fault.severity,
                    still_there: visit.plant().has(fault.kind),
                })
                .collect(),
            declared: visit.notebook().iter().rev().find_map(|entry| match &entry.action {
                Move::Declare(declaration) => Some(declaration.cause),
                _ => None,
            }),
            areas: Area::ALL
                .iter()
                .map(|area| AreaMarks {
                    area: *area,
                    points: marks.points_in(*area),
                    of: area.weight(),
                    marks: marks.items_in(*area).cloned().collect(),
                })
                .collect(),
            timeline: visit
                .notebook()
                .iter()
                .map(|entry| TimelineLine {
                    entry: entry.number,
                    since_arrival_s: entry.started_s - arrival_s,
                    action: entry.action.clone(),
                    outcome: entry.outcome.clone(),
                    notes: entry.notes.clone(),
                })
                .collect(),
            refrigerant: RefrigerantBalance {
                plate_kg: call.system.plate_charge_kg,
                start_kg: ledger.initial_kg,
                added_kg: ledger.added_kg,
                leaked_kg: ledger.leaked_kg,
                vented_kg: ledger.vented_kg,
                hoses_kg: ledger.hoses_kg,
                trapped_kg: ledger.trapped_kg,
                recovered_kg: ledger.recovered_kg,
                end_kg: visit.truth().charge_total_kg,
            },
        }
    }

    /// The review as JSON, values in SI.
    ///
    /// # Errors
    /// When a value is not finite (never for a visit whose plant is).
    pub fn to_json(&self) -> Result<String, serde_json::Error> {
        serde_json::to_string_pretty(self)
    }
}
