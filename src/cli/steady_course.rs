//! What stops a machine, when, when it comes back, and what the gauges show meanwhile.

use plant::{Course, Protection, Settled, Spells, Stops};
use serde_json::{Map, Value};

use super::UnitSystem;
use super::names;
use super::steady_rows::{Quantity, Row};

/// What there is to tell of a run.
struct Told<'a> {
    stopped_by: Option<Protection>,
    /// The spells of what stops and comes back; `None`: nothing stops.
    spells: Option<&'a Spells>,
    /// From the start of the compressor (from the call, where it does not start), s.
    stopped_after_s: Option<f64>,
}

/// What the values of a settled state are means over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Averaged {
    /// Ten minutes.
    TenMinutes,
    /// Whole runs of the compressor, without the rests between: what its cycles give on average is less.
    Running,
    /// Ten minutes at rest: it stopped for good.
    AtRest,
}

pub(crate) fn averaged(settled: &Settled) -> Averaged {
    if settled.steady || settled.course.compressor.times == 0 {
        Averaged::TenMinutes
    } else if settled.readout.compressor_flow_kg_s > 0.0 {
        Averaged::Running
    } else {
        Averaged::AtRest
    }
}

/// Whether it stops again before superheat and subcooling say anything.
pub(crate) fn runs_too_short(course: &Course) -> bool {
    course.compressor.mean_on_s().is_some_and(|on_s| on_s < visit::START_UP_S)
}

/// The compressor if it stopped; else the protection that opened first.
fn told(course: &Course) -> Told<'_> {
    let stopped_by = course.stopped_by();
    let spells = if course.compressor.times > 0 {
        Some(&course.compressor)
    } else {
        stopped_by.map(|protection| course.of(protection))
    };
    let begun_s = course.started_s.unwrap_or_default();
    let stopped_after_s =
        spells.and_then(|spells| spells.first_off_s).map(|off_s| (off_s - begun_s).max(0.0));
    Told { stopped_by, spells, stopped_after_s }
}

/// The resting gauges as rows, in the units asked for; without a rest there is no number.
fn resting_rows(course: &Course, units: UnitSystem) -> [Row; 2] {
    let (suction_pa, liquid_pa) = course.resting_pa.unzip();
    let row = |label, name, value_pa| Row::of(label, name, Quantity::GaugePressure, value_pa, units);
    [
        row("Suction pressure at rest", "resting_suction_gauge_pressure", suction_pa),
        row("Liquid pressure at rest", "resting_liquid_gauge_pressure", liquid_pa),
    ]
}

/// Keys and values for JSON; null where there is nothing to tell.
pub(crate) fn json(settled: &Settled, units: UnitSystem) -> Map<String, Value> {
    let course = &settled.course;
    let Told { stopped_by, spells, stopped_after_s } = told(course);
    let seconds =
        |value: Option<f64>| value.and_then(serde_json::Number::from_f64).map_or(Value::Null, Value::Number);
    let mut object = Map::new();
    let mut put = |key: &str, value: Value| {
        object.insert(key.to_owned(), value);
    };
    let means_over = match averaged(settled) {
        Averaged::TenMinutes => "ten_minutes",
        Averaged::Running => "running",
        Averaged::AtRest => "rest",
    };
    put("means_over", means_over.into());
    put("compressor_starts", Value::Bool(course.started_s.is_some()));
    put("stopped_by", stopped_by.map_or(Value::Null, |one| names::protection(one).into()));
    put("stopped_after_s", seconds(stopped_after_s));
    put("runs_again_after_s", seconds(spells.and_then(|spells| spells.first_off_for_s)));
    put("mean_on_s", seconds(spells.and_then(Spells::mean_on_s)));
    put("mean_off_s", seconds(spells.and_then(Spells::mean_off_s)));
    for row in resting_rows(course, units) {
        put(&row.key(), row.json());
    }
    object
}

/// Sentences for people; none where the machine runs on and on.
pub(crate) fn sentences(settled: &Settled, units: UnitSystem) -> Vec<String> {
    let course = &settled.course;
    let mut lines = Vec::new();
    let Told { stopped_by, spells, stopped_after_s } = told(course);
    if course.started_s.is_none() {
        lines.push("The compressor does not start.".to_owned());
    }
    if let (Some(spells), Some(after_s)) = (spells, stopped_after_s) {
        lines.push(what_stops(course, stopped_by, after_s));
        lines.push(what_follows(course, spells));
    }
    if course.resting_pa.is_some() {
        let [suction, liquid] = resting_rows(course, units);
        lines.push(format!(
            "At rest the suction gauge comes to {}, the liquid gauge to {}.",
            suction.value_text(),
            liquid.value_text()
        ));
    }
    if runs_too_short(course) {
        lines.push("It stops too soon after each start for a superheat or a subcooling.".to_owned());
    }
    if !settled.steady {
        lines.push(why_not_steady(settled));
    }
    lines
}

fn what_stops(course: &Course, stopped_by: Option<Protection>, after_s: f64) -> String {
    let since = if course.started_s.is_some() { "the start" } else { "the call" };
    let after = format!("{} after {since}", duration(after_s));
    match stopped_by {
        Some(one) if course.compressor.times > 0 && one.stops() == Stops::Compressor => {
            format!("The {} stops the compressor {after}.", one.label())
        }
        Some(one) if course.compressor.times > 0 => {
            format!("The compressor stops {after}; the first protection to open is the {}.", one.label())
        }
        Some(one) => format!("The {} opens {after}.", one.label()),
        None => format!("The compressor stops {after}; no protection has opened."),
    }
}

fn what_follows(course: &Course, spells: &Spells) -> String {
    let (it, on, off) = if course.compressor.times > 0 {
        ("It runs again", "it runs for", "rests for")
    } else {
        ("It closes again", "it stays closed for", "open for")
    };
    let Some(first_s) = spells.first_off_for_s else {
        return format!("{it} at no time that was simulated.");
    };
    match (spells.mean_on_s(), spells.mean_off_s()) {
        (Some(on_s), Some(off_s)) => format!(
            "{it} {} later; from then on {on} {} and {off} {} on average.",
            duration(first_s),
            duration(on_s),
            duration(off_s)
        ),
        _ => format!("{it} {} later.", duration(first_s)),
    }
}

/// Ice of which there is enough to see it, and refrigerant that a scale shows, kg.
const ICE_SEEN_KG: f64 = 0.01;
const LEAKED_SEEN_KG: f64 = 1.0e-3;

fn why_not_steady(settled: &Settled) -> String {
    let mut reasons = Vec::new();
    if settled.course.compressor.times > 0 {
        reasons.push("it goes on and off");
    } else if settled.course.acted().next().is_some() {
        reasons.push("a protection opens");
    }
    if settled.readout.frost_mass_kg > ICE_SEEN_KG {
        reasons.push("there is ice on the coil");
    }
    if settled.plant.ledger().leaked_kg > LEAKED_SEEN_KG {
        reasons.push("refrigerant leaks");
    }
    // Nobody is at the equipment: what was let off went through its relief device.
    if settled.plant.ledger().vented_kg > LEAKED_SEEN_KG {
        reasons.push("the relief device let refrigerant out");
    }
    let why = match reasons.is_empty() {
        true if settled.course.started_s.is_none() => "it does not run".to_owned(),
        true => "the readings keep moving".to_owned(),
        false => reasons.join(", "),
    };
    let means = match averaged(settled) {
        Averaged::Running => {
            "the values are means over the time in which the compressor runs, not over its cycles"
        }
        Averaged::TenMinutes => "the values are means of ten minutes",
        Averaged::AtRest => "the values are means of ten minutes at rest",
    };
    format!("Not steady: {why}; {means}.")
}

/// A time as people say it.
fn duration(seconds: f64) -> String {
    match seconds {
        s if s < 120.0 => format!("{s:.0} s"),
        s if s < 7200.0 => format!("{:.0} min", s / 60.0),
        s => format!("{:.1} h", s / 3600.0),
    }
}
