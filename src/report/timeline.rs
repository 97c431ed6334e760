//! Moves and suspects over the minutes of a visit: what the figure of it shows, on screen and on paper.

use diagnosis::Hypothesis;
use judge::{Area, Reason};
use serde::{Deserialize, Serialize};
use visit::{Outcome, Trust, Visit};

use crate::cycle::declaration;
use crate::posterior::PosteriorHistory;
use crate::review::Review;
use crate::ruled::carries_evidence;

/// Hypotheses that are shown one by one.
const ROWS: usize = 6;

/// The figure's contents.
#[derive(Clone, Debug, PartialEq)]
pub struct Timeline {
    /// Length of the visit, min.
    pub last_min: f64,
    /// Every move, in order.
    pub moves: Vec<MovePoint>,
    /// The suspects that matter, the likeliest at the end first, then all others together; empty without suspects.
    pub rows: Vec<PosteriorRow>,
}

/// One move on the line of minutes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MovePoint {
    /// Number of its entry.
    pub entry: u32,
    /// When it began, min after arrival.
    pub minute: f64,
    /// What it was.
    pub sort: MoveSort,
    /// Whether a rule of the sound order was broken by it.
    pub broke_order: bool,
}

/// What a move was, as far as the figure tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MoveSort {
    /// A reading that can be relied on.
    SoundReading,
    /// A reading in doubt.
    DoubtfulReading,
    /// Something was seen, heard or felt.
    Sight,
    /// Work, talk, waiting.
    Deed,
    /// The site forbade it.
    Refused,
}

/// Whom a row of the figure is about.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum RowOf {
    /// One suspect.
    Hypothesis(Hypothesis),
    /// All that have no row of their own.
    Others {
        /// How many.
        count: usize,
    },
}

/// One suspect over the visit.
#[derive(Clone, Debug, PartialEq)]
pub struct PosteriorRow {
    /// Whom it is about.
    pub who: RowOf,
    /// Minutes and probabilities; each holds until the next. From arrival to the end of the visit.
    pub steps: Vec<[f64; 2]>,
    /// Whether it is what was wrong.
    pub is_true: bool,
    /// Whether the learner declared it last.
    pub is_declared: bool,
}

impl PosteriorRow {
    /// Probability at the end.
    pub fn at_end(&self) -> f64 {
        self.steps.last().map_or(0.0, |step| step[1])
    }
}

impl Timeline {
    /// Most rows of suspects, unless the true and the declared one come on top.
    pub const MOST_ROWS: usize = ROWS + 1;

    /// The figure of a visit; without suspects it has the moves alone.
    pub fn of(visit: &Visit, review: &Review, chances: Option<&PosteriorHistory>) -> Timeline {
        let minute = |time_s: f64| (time_s - visit.arrival_s()) / 60.0;
        let broken: Vec<u32> = review.order_breaks().iter().map(|(entry, _)| *entry).collect();
        let moves = visit
            .notebook()
            .iter()
            .map(|entry| MovePoint {
                entry: entry.number,
                minute: minute(entry.started_s),
                sort: sort(&entry.outcome),
                broke_order: broken.contains(&entry.number),
            })
            .collect();
        let last_min = minute(visit.time_s());
        Timeline {
            last_min,
            moves,
            rows: chances.map_or(Vec::new(), |chances| rows(visit, chances, last_min)),
        }
    }
}

fn sort(outcome: &Outcome) -> MoveSort {
    match outcome {
        Outcome::Read(_) if !carries_evidence(outcome) => MoveSort::Deed,
        Outcome::Read(reading) if reading.trust == Trust::Sound => MoveSort::SoundReading,
        Outcome::Read(_) => MoveSort::DoubtfulReading,
        Outcome::Seen(_) => MoveSort::Sight,
        Outcome::Done | Outcome::Verified(_) => MoveSort::Deed,
        Outcome::Refused(_) => MoveSort::Refused,
    }
}

fn rows(visit: &Visit, chances: &PosteriorHistory, last_min: f64) -> Vec<PosteriorRow> {
    let faults: Vec<plant::Fault> = visit.ever_wrong().into_iter().cloned().collect();
    let truth = chances.truth(&faults);
    let declared = declaration(visit.notebook()).and_then(|(_, declaration)| chances.declared(declaration));
    let always: Vec<usize> = truth.into_iter().chain(declared).collect();
    let shown = chances.leading(ROWS, &always);
    let over_time = |pick: &dyn Fn(&[f64]) -> f64| {
        let mut steps = vec![[0.0, pick(&chances.before)]];
        for weighed in &chances.entries {
            let Some(entry) = visit.notebook().iter().find(|entry| entry.number == weighed.entry) else {
                continue;
            };
            steps.push([(entry.finished_s - visit.arrival_s()) / 60.0, pick(&weighed.after)]);
        }
        let end = steps.last().map_or(0.0, |step| step[1]);
        steps.push([last_min, end]);
        steps
    };
    let mut rows: Vec<PosteriorRow> = shown
        .iter()
        .map(|&index| PosteriorRow {
            who: RowOf::Hypothesis(chances.suspects[index].clone()),
            steps: over_time(&|probabilities| probabilities[index]),
            is_true: truth == Some(index),
            is_declared: declared == Some(index),
        })
        .collect();
    let others = chances.suspects.len() - shown.len();
    if others > 0 {
        rows.push(PosteriorRow {
            who: RowOf::Others { count: others },
            steps: over_time(&|probabilities| {
                let shown: f64 = shown.iter().map(|index| probabilities[*index]).sum();
                (probabilities.iter().sum::<f64>() - shown).clamp(0.0, 1.0)
            }),
            is_true: false,
            is_declared: false,
        });
    }
    rows
}

/// Where the number of a move stands over its shape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NumberPlace {
    /// Its middle along the axis.
    pub middle: f64,
    /// Its line, 0 next to the shapes.
    pub line: usize,
}

/// Places for numbers over shapes at `x` with a `width` each, in order along the axis, on so many `lines`: one that
/// would lie on its neighbour goes a line up, or a little to the right.
pub fn number_places(shapes: impl Iterator<Item = (f64, f64)>, lines: usize) -> Vec<NumberPlace> {
    let mut ends = vec![f64::MIN; lines.max(1)];
    shapes
        .map(|(x, width)| {
            let wanted = x - width / 2.0;
            let all = 0..ends.len();
            let line = all
                .clone()
                .find(|line| ends[*line] <= wanted)
                .unwrap_or_else(|| all.min_by(|a, b| ends[*a].total_cmp(&ends[*b])).unwrap_or(0));
            let from = wanted.max(ends[line]);
            ends[line] = from + width;
            NumberPlace { middle: from + width / 2.0, line }
        })
        .collect()
}

impl Review {
    /// Entries at which a rule of the sound order was broken, with the reason.
    pub fn order_breaks(&self) -> Vec<(u32, &Reason)> {
        self.areas
            .iter()
            .filter(|area| area.area == Area::Order)
            .flat_map(|area| &area.marks)
            .filter(|mark| mark.points < mark.of - 1.0e-9)
            .filter_map(|mark| Some((mark.entry?, &mark.reason)))
            .collect()
    }

    /// The breaks of each entry together, in the order of the entries. What the call says of a rule stands among the marks.
    pub fn order_breaks_by_entry(&self) -> Vec<(u32, Vec<&Reason>)> {
        let mut by_entry: Vec<(u32, Vec<&Reason>)> = Vec::new();
        for (entry, reason) in self.order_breaks() {
            match by_entry.iter_mut().find(|(known, _)| *known == entry) {
                Some((_, reasons)) => reasons.push(reason),
                None => by_entry.push((entry, vec![reason])),
            }
        }
        by_entry.sort_by_key(|(entry, _)| *entry);
        by_entry
    }
}
