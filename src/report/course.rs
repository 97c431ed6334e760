//! The plant's true course over a visit: what plots show of its recording.

use plant::Readout;
use serde::{Deserialize, Serialize};
use visit::{At, LOOK_S, Recording, Sample};

/// Shortest time between two samples, s.
const INTERVAL_MIN_S: f64 = 15.0;
/// Samples that are enough for a plot.
const SAMPLES: f64 = 400.0;

/// True values over a visit.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Course {
    /// Samples, oldest first: the first on arrival, the last at the end.
    pub samples: Vec<Sample>,
    /// The plant when each notebook entry was done, in order.
    pub moments: Vec<EntryMoment>,
    /// The plant at the last instant at which the compressor ran, if it ran at all, with that instant in s after
    /// arrival.
    pub last_running: Option<(f64, Readout)>,
}

/// The plant when a notebook entry was done.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EntryMoment {
    /// Number of the entry.
    pub entry: u32,
    /// Time since arrival, s.
    pub since_arrival_s: f64,
    /// True values.
    pub truth: Readout,
}

impl Course {
    /// What a plot needs of a recording: its looks at an interval that leaves enough of them, and its moments.
    pub fn of(recording: &Recording) -> Course {
        let interval_s = ((recording.length_s() / SAMPLES / LOOK_S).ceil() * LOOK_S).max(INTERVAL_MIN_S);
        let looks_between = (interval_s / LOOK_S) as u32;
        let picked = recording.looks().iter().filter(|look| match look.at {
            At::Within(looks) => looks.is_multiple_of(looks_between),
            At::End => true,
        });
        let mut samples: Vec<Sample> = Vec::new();
        let mut due_s = 0.0;
        for look in picked {
            let now_s = look.sample.since_arrival_s;
            if now_s + 1.0e-6 >= due_s {
                samples.push(look.sample);
                due_s = now_s + interval_s;
            }
        }
        if let Some(end) = recording.looks().last()
            && samples.last().is_some_and(|last| last.since_arrival_s < end.sample.since_arrival_s - 1.0e-6)
        {
            samples.push(end.sample);
        }
        let moments = recording.moments().iter().map(|moment| EntryMoment {
            entry: moment.entry,
            since_arrival_s: moment.since_arrival_s,
            truth: moment.truth.clone(),
        });
        Course { samples, moments: moments.collect(), last_running: recording.last_running().cloned() }
    }

    /// The plant when an entry was done.
    pub fn at(&self, entry: u32) -> Option<&EntryMoment> {
        self.moments.iter().find(|moment| moment.entry == entry)
    }

    /// Length of the visit, s.
    pub fn length_s(&self) -> f64 {
        self.samples.last().map_or(0.0, |sample| sample.since_arrival_s)
    }
}
