//! What stops a machine, when, when it comes back, and what the gauges show meanwhile.

use plant::{Course, Protection, Spells, SteadyState, Stops};
use serde_json::{Map, Value};
use words::Words;

use super::arguments::UnitSystem;
use super::steady_row::{Quantity, Row};

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

pub(crate) fn averaged(settled: &SteadyState) -> Averaged {
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
        row("cli-row-suction-pressure-at-rest", "resting_suction_gauge_pressure", suction_pa),
        row("cli-row-liquid-pressure-at-rest", "resting_liquid_gauge_pressure", liquid_pa),
    ]
}

/// Keys and values for JSON; null where there is nothing to tell.
pub(crate) fn json(settled: &SteadyState, units: UnitSystem) -> Map<String, Value> {
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
    put("stopped_by", stopped_by.map_or(Value::Null, |one| one.kebab().into()));
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
pub(crate) fn sentences(settled: &SteadyState, units: UnitSystem) -> Vec<String> {
    let words = Words::from(units);
    let course = &settled.course;
    let mut lines = Vec::new();
    let Told { stopped_by, spells, stopped_after_s } = told(course);
    if course.started_s.is_none() {
        lines.push(words.label("cli-does-not-start"));
    }
    if let (Some(spells), Some(after_s)) = (spells, stopped_after_s) {
        lines.push(what_stops(course, stopped_by, after_s, words));
        lines.push(what_follows(course, spells, words));
    }
    if course.resting_pa.is_some() {
        let [suction, liquid] = resting_rows(course, units).map(|row| row.value_text());
        lines.push(words.fill("cli-at-rest", &[("suction", suction), ("liquid", liquid)]));
    }
    if runs_too_short(course) {
        lines.push(words.label("cli-runs-too-short"));
    }
    if !settled.steady {
        lines.push(why_not_steady(settled, words));
    }
    lines
}

fn what_stops(course: &Course, stopped_by: Option<Protection>, after_s: f64, words: Words) -> String {
    let since = if course.started_s.is_some() { "start" } else { "call" }.to_owned();
    let after = duration(after_s);
    let Some(protection) = stopped_by else {
        return words.fill("cli-stops", &[("since", since), ("after", after)]);
    };
    let how = if course.compressor.times == 0 {
        "opens"
    } else if protection.stops() == Stops::Compressor {
        "stops"
    } else {
        "first"
    };
    words.fill(
        "cli-protection",
        &[
            ("how", how.to_owned()),
            ("protection", words.say(&protection)),
            ("since", since),
            ("after", after),
        ],
    )
}

fn what_follows(course: &Course, spells: &Spells, words: Words) -> String {
    let what = if course.compressor.times > 0 { "compressor" } else { "protection" }.to_owned();
    let Some(first_s) = spells.first_off_for_s else {
        return words.fill("cli-comes-back-never", &[("what", what)]);
    };
    let later = duration(first_s);
    match (spells.mean_on_s(), spells.mean_off_s()) {
        (Some(on_s), Some(off_s)) => words.fill(
            "cli-comes-back-in-turns",
            &[("what", what), ("later", later), ("on", duration(on_s)), ("off", duration(off_s))],
        ),
        _ => words.fill("cli-comes-back", &[("what", what), ("later", later)]),
    }
}

/// Ice of which there is enough to see it, and refrigerant that a scale shows, kg.
const ICE_SEEN_KG: f64 = 0.01;
const LEAKED_SEEN_KG: f64 = 1.0e-3;

fn why_not_steady(settled: &SteadyState, words: Words) -> String {
    let mut reasons = Vec::new();
    if settled.course.compressor.times > 0 {
        reasons.push("cli-why-cycles");
    } else if settled.course.acted().next().is_some() {
        reasons.push("cli-why-protection");
    }
    if settled.readout.frost_mass_kg > ICE_SEEN_KG {
        reasons.push("cli-why-ice");
    }
    if settled.plant.ledger().leaked_kg > LEAKED_SEEN_KG {
        reasons.push("cli-why-leak");
    }
    // Nobody is at the equipment: what was let off went through its relief device.
    if settled.plant.ledger().vented_kg > LEAKED_SEEN_KG {
        reasons.push("cli-why-relief");
    }
    if reasons.is_empty() {
        let runs = settled.course.started_s.is_some();
        reasons.push(if runs { "cli-why-moving" } else { "cli-why-off" });
    }
    let reasons: Vec<String> = reasons.into_iter().map(|key| words.label(key)).collect();
    let means = match averaged(settled) {
        Averaged::Running => "running",
        Averaged::TenMinutes => "ten-minutes",
        Averaged::AtRest => "at-rest",
    };
    words.fill("cli-not-steady", &[("why", words.list(&reasons)), ("means", means.to_owned())])
}

/// A time as people say it.
fn duration(seconds: f64) -> String {
    match seconds {
        s if s < 120.0 => format!("{s:.0} s"),
        s if s < 7200.0 => format!("{:.0} min", s / 60.0),
        s => format!("{:.1} h", s / 3600.0),
    }
}
