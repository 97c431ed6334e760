//! Checking: from a file as written to a call that the rest of the program can rely on.

use std::collections::BTreeSet;

use media::units;
use plant::{FaultKind, HouseModel, LeakPlace, Metering, System, ThermostatSettings};

use crate::names::nearest;
use crate::plain_text::is_hidden;
use crate::problem::Problem;
use crate::quantity::{Duration, Mass, Temperature, TemperatureDifference};
use crate::raw::{
    Pair, RawCall, RawFault, RawHouse, RawPrerequisite, RawSolved, RawWeather, STAND_INS, VERSION,
};
use crate::ron_text::MOST_PROBLEMS;
use crate::ron_text::{Parsed, parse_ron_on};
use crate::spec::{Call, FaultSpec, HouseSpec, Milestone, Prerequisite, Range, Solved, WeatherSpec};

/// Whether a text is meant as a call: it has what only calls have.
pub fn is_call(text: &str) -> bool {
    #[derive(serde::Deserialize)]
    struct Call {
        #[serde(rename = "complaint")]
        _complaint: serde::de::IgnoredAny,
        #[serde(rename = "system")]
        _system: serde::de::IgnoredAny,
    }
    ron::from_str::<Call>(text).is_ok()
}

/// Reads and checks a call file. The call's id is the file's name without folder and ending.
///
/// # Errors
/// All mistakes that can be told at once, in the order of the file.
pub fn read(text: &str, file_name: &str) -> Result<Call, Vec<Problem>> {
    let mut parsed = parse_ron_on::<RawCall>(text, file_name, STAND_INS);
    let mut problems = std::mem::take(&mut parsed.problems);
    let mut call = None;
    if let Some(raw) = parsed.value.take() {
        let mut check = Check { parsed: &parsed, problems: Vec::new() };
        call = check.call(&raw, text, file_name);
        problems.append(&mut check.problems);
    }
    problems.sort_by_key(|problem| (problem.line, problem.column));
    match call {
        Some(call) if problems.is_empty() => Ok(call),
        _ => Err(problems),
    }
}

/// An allowed span of numbers in the unit in which the file gives them.
struct Allowed {
    low: f64,
    high: f64,
    /// Unit or meaning, after the numbers; may be empty.
    unit: &'static str,
}

const fn allowed(low: f64, high: f64, unit: &'static str) -> Allowed {
    Allowed { low, high, unit }
}

impl Allowed {
    fn text(&self) -> String {
        let unit = if self.unit.is_empty() { String::new() } else { format!(" {}", self.unit) };
        format!("{} to {}{unit}", plain(self.low), plain(self.high))
    }
}

/// A number as a person would write it: no more than six digits.
fn plain(value: f64) -> String {
    if value != 0.0 && value.abs() < 1.0e-3 {
        return format!("{value:e}");
    }
    let rounded = format!("{value:.3}");
    rounded.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// The lowest and highest air temperature that the property functions and the plant are meant for, °C.
const AIR_LOW_C: f64 = 10.0;
const AIR_HIGH_C: f64 = 40.0;
const OUTDOOR_LOW_C: f64 = -10.0;
const OUTDOOR_HIGH_C: f64 = 45.0;
const DEW_POINT_LOW_C: f64 = -20.0;
const DEW_POINT_HIGH_C: f64 = 30.0;
const SWING_HIGH_K: f64 = 15.0;
const LONGEST_HISTORY_S: f64 = 72.0 * 3600.0;

struct Check<'a> {
    parsed: &'a Parsed<RawCall>,
    problems: Vec<Problem>,
}

impl Check<'_> {
    fn report(
        &mut self,
        path: &str,
        message: impl Into<String>,
        allowed: impl Into<String>,
        hint: impl Into<String>,
    ) {
        // Each is looked up in the text; nobody reads more.
        if self.problems.len() >= MOST_PROBLEMS {
            return;
        }
        let problem = self.parsed.problem_at(path, message.into(), allowed.into(), hint.into());
        self.problems.extend(problem);
    }

    fn call(&mut self, raw: &RawCall, text: &str, file_name: &str) -> Option<Call> {
        if raw.version != VERSION {
            self.report(
                "version",
                format!("version {} is not allowed", raw.version),
                VERSION.to_string(),
                "this program reads call files of version 1",
            );
        }
        let id = self.id(file_name);
        self.text("title", &raw.title, 80);
        self.text("complaint", &raw.complaint, 2000);
        self.answers(raw);
        let system = self.system(&raw.system);
        let house = self.house(&raw.house);
        let weather = self.weather(&raw.weather);
        let set_point_k =
            self.temperature("thermostat.set_point", "set_point", raw.thermostat.set_point, AIR_LOW_C, 35.0);
        let charge_share = self.pair(
            "charge_share",
            raw.charge_share,
            &allowed(0.3, 1.5, "(share of the data plate's charge)"),
        );
        let history_s = self.duration(
            "history",
            raw.history,
            0.0,
            LONGEST_HISTORY_S,
            "this is the time from the start of the simulation until the technician arrives",
        );
        let faults = self.faults(&raw.faults, system.as_ref());
        let prerequisites = self.prerequisites(&raw.prerequisites);
        self.rivals(raw);
        self.priors(raw);
        let solved = self.solved(raw);
        let par_time_s = self.duration(
            "par_time",
            raw.par_time,
            300.0,
            86_400.0,
            "this is the time that a sound visit needs",
        );
        Some(Call {
            id,
            title: raw.title.trim().to_owned(),
            complaint: raw.complaint.trim().to_owned(),
            answers: raw
                .answers
                .iter()
                .map(|(question, answer)| (*question, answer.trim().to_owned()))
                .collect(),
            system: system?,
            house,
            weather,
            thermostat: ThermostatSettings {
                mode: raw.thermostat.mode,
                fan: raw.thermostat.fan,
                set_point_k,
            },
            charge_share,
            faults,
            history_s,
            prerequisites,
            rivals: raw.rivals.clone(),
            priors: raw.priors.clone(),
            hints: raw.hints,
            solved,
            par_time_s,
            source: text.to_owned(),
        })
    }

    fn id(&mut self, file_name: &str) -> String {
        let base = file_name.rsplit(['/', '\\']).next().unwrap_or(file_name);
        let id = base.strip_suffix(".ron").unwrap_or(base).to_owned();
        let known = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        if id.is_empty() || !id.chars().all(known) || id.starts_with('-') || id.ends_with('-') {
            self.report(
                "",
                format!("the file's name gives the call the id `{id}`, which is not allowed"),
                "lower case letters a to z, digits, and hyphens between them",
                "rename the file, for example `cold-morning.ron`",
            );
        }
        id
    }

    fn text(&mut self, path: &str, text: &str, most: usize) {
        let name = path.rsplit('.').next().unwrap_or(path);
        if text.trim().is_empty() {
            self.report(path, format!("{name} is empty"), "a text", "write at least one sentence");
        } else if text.chars().count() > most {
            let length = text.chars().count();
            self.report(
                path,
                format!("{name} has {length} characters"),
                format!("at most {most}"),
                "make it shorter",
            );
        } else if let Some(hidden) = text.chars().find(|c| is_hidden(*c)) {
            self.report(
                path,
                format!("{name} holds the character U+{:04X}, which steers what shows it", u32::from(hidden)),
                "letters, digits, signs and line breaks",
                "take it out",
            );
        }
    }

    fn answers(&mut self, raw: &RawCall) {
        let mut seen = BTreeSet::new();
        for (index, (question, answer)) in raw.answers.iter().enumerate() {
            if !seen.insert(*question) {
                self.report(
                    &format!("answers[{index}]"),
                    format!("{question:?} is answered twice"),
                    "each question at most once",
                    "put both answers into one",
                );
            }
            self.text(&format!("answers[{index}][1]"), answer, 2000);
        }
    }

    fn system(&mut self, name: &str) -> Option<System> {
        let system = System::built_in(name);
        if system.is_none() {
            let names = System::names();
            let hint = nearest(name, &names).map(|near| format!("did you mean \"{near}\"?"));
            self.report(
                "system",
                format!("there is no system \"{name}\""),
                names.join(", "),
                hint.unwrap_or_default(),
            );
        }
        system
    }

    fn house(&mut self, raw: &RawHouse) -> HouseSpec {
        let model = &raw.model;
        let checks = [
            ("air_to_outdoors_w_k", model.air_to_outdoors_w_k, allowed(10.0, 2000.0, "W/K")),
            ("air_to_structure_w_k", model.air_to_structure_w_k, allowed(10.0, 20_000.0, "W/K")),
            ("structure_to_outdoors_w_k", model.structure_to_outdoors_w_k, allowed(10.0, 2000.0, "W/K")),
            ("air_capacity_j_k", model.air_capacity_j_k, allowed(2.0e5, 5.0e7, "J/K")),
            ("structure_capacity_j_k", model.structure_capacity_j_k, allowed(1.0e6, 5.0e8, "J/K")),
            ("internal_gain_w", model.internal_gain_w, allowed(0.0, 10_000.0, "W")),
            ("internal_moisture_kg_s", model.internal_moisture_kg_s, allowed(0.0, 0.002, "kg/s")),
            ("infiltration_kg_s", model.infiltration_kg_s, allowed(0.0, 1.0, "kg/s")),
            ("moisture_capacity_kg", model.moisture_capacity_kg, allowed(100.0, 50_000.0, "kg of dry air")),
            ("supply_leak_share", model.supply_leak_share, allowed(0.0, 0.4, "(share of the supply air)")),
            ("return_leak_share", model.return_leak_share, allowed(0.0, 0.4, "(share of the return air)")),
            ("duct_to_attic_w_k", model.duct_to_attic_w_k, allowed(0.0, 200.0, "W/K")),
            ("attic_rise_k_m2_w", model.attic_rise_k_m2_w, allowed(0.0, 0.06, "K per W/m²")),
            ("solar_aperture_m2", model.solar_aperture_m2, allowed(0.0, 50.0, "m²")),
        ];
        for (name, value, span) in checks {
            self.number(&format!("house.model.{name}"), name, value, &span);
        }
        HouseSpec {
            model: HouseModel {
                air_to_outdoors_w_k: model.air_to_outdoors_w_k,
                air_to_structure_w_k: model.air_to_structure_w_k,
                structure_to_outdoors_w_k: model.structure_to_outdoors_w_k,
                air_capacity_j_k: model.air_capacity_j_k,
                structure_capacity_j_k: model.structure_capacity_j_k,
                internal_gain_w: model.internal_gain_w,
                internal_moisture_kg_s: model.internal_moisture_kg_s,
                infiltration_kg_s: model.infiltration_kg_s,
                moisture_capacity_kg: model.moisture_capacity_kg,
                supply_leak_share: model.supply_leak_share,
                return_leak_share: model.return_leak_share,
                duct_to_attic_w_k: model.duct_to_attic_w_k,
                attic_rise_k_m2_w: model.attic_rise_k_m2_w,
                solar_aperture_m2: model.solar_aperture_m2,
            },
            air_k: self.temperatures("house.air", raw.air, AIR_LOW_C, AIR_HIGH_C),
            relative_humidity: self.pair(
                "house.relative_humidity",
                raw.relative_humidity,
                &allowed(0.1, 0.95, "(share, not percent)"),
            ),
        }
    }

    fn weather(&mut self, raw: &RawWeather) -> WeatherSpec {
        let problems_before = self.problems.len();
        let mean_k = self.temperatures("weather.mean", raw.mean, OUTDOOR_LOW_C, OUTDOOR_HIGH_C);
        let swing_k = self.swing(raw.swing);
        let dew_point_k = self.temperature(
            "weather.dew_point",
            "dew_point",
            raw.dew_point,
            DEW_POINT_LOW_C,
            DEW_POINT_HIGH_C,
        );
        let coldest_k = mean_k.low - swing_k;
        let values_are_sound = self.problems.len() == problems_before;
        if values_are_sound && dew_point_k > coldest_k + 1.0e-6 {
            let (coldest, _) = in_unit_of(raw.dew_point, coldest_k);
            let (written, unit) = written(raw.dew_point);
            self.report(
                "weather.dew_point",
                format!("dew_point {} {unit} lies above the coldest outdoor air", plain(written)),
                format!("at most {} {unit} (lowest mean less swing)", plain(coldest)),
                "air cannot be colder than its dew point: lower the dew point or the swing",
            );
        }
        self.number("weather.start_hour", "start_hour", raw.start_hour, &allowed(0.0, 24.0, "h"));
        self.number(
            "weather.solar_peak_w_m2",
            "solar_peak_w_m2",
            raw.solar_peak_w_m2,
            &allowed(0.0, 1100.0, "W/m²"),
        );
        WeatherSpec {
            mean_k,
            swing_k,
            dew_point_k,
            start_hour: raw.start_hour,
            solar_peak_w_m2: raw.solar_peak_w_m2,
        }
    }

    fn faults(&mut self, raw: &[RawFault], system: Option<&System>) -> Vec<FaultSpec> {
        let mut seen: BTreeSet<(FaultKind, Option<LeakPlace>)> = BTreeSet::new();
        let mut faults = Vec::new();
        if raw.is_empty() {
            self.report(
                "faults",
                "faults is empty",
                "at least one fault",
                "name what is wrong with the plant",
            );
        }
        for (index, fault) in raw.iter().enumerate() {
            let path = format!("faults[{index}]");
            self.places(&path, fault);
            let mut places: BTreeSet<Option<LeakPlace>> = fault.places.iter().copied().map(Some).collect();
            if places.is_empty() {
                places.insert(None);
            }
            for place in places {
                if !seen.insert((fault.kind, place)) {
                    self.report(
                        &path,
                        format!("{:?} is here twice with the same place", fault.kind),
                        "each kind once, a leak once for each place",
                        "take one of the two out",
                    );
                    break;
                }
            }
            if let Some(System { metering: Metering::Orifice { .. }, name, .. }) = system
                && fault.kind.needs_valve()
            {
                self.report(
                    &format!("{path}.kind"),
                    format!("{:?} cannot happen to the system {name}", fault.kind),
                    "on systems with an expansion valve only",
                    "take a system whose name ends in -txv",
                );
            }
            let severity = self.pair(
                &format!("{path}.severity"),
                fault.severity,
                &allowed(0.0, 1.0, fault.kind.severity_meaning()),
            );
            let onset_s = self.durations(
                &format!("{path}.onset"),
                fault.onset,
                LONGEST_HISTORY_S,
                "this is counted from the start of the history",
            );
            if fault.kind.holds_from_the_start() && onset_s.high > 0.0 {
                self.report(
                    &format!("{path}.onset"),
                    format!("{:?} holds from the start", fault.kind),
                    "0 s",
                    "write `onset: (Hours(0), Hours(0))`",
                );
            }
            faults.push(FaultSpec { kind: fault.kind, places: fault.places.clone(), severity, onset_s });
        }
        faults
    }

    fn places(&mut self, path: &str, fault: &RawFault) {
        let path = format!("{path}.places");
        if fault.kind.needs_place() && fault.places.is_empty() {
            let places: Vec<String> = LeakPlace::ALL.iter().map(|place| format!("{place:?}")).collect();
            self.report(
                &path,
                format!("{:?} needs a place", fault.kind),
                format!("one or more of {}", places.join(", ")),
                "for example `places: [IndoorCoil]`; with several, the seed draws one",
            );
        }
        if !fault.kind.needs_place() && !fault.places.is_empty() {
            self.report(
                &path,
                format!("{:?} has no places", fault.kind),
                "places only for RefrigerantLeak",
                "take `places` out",
            );
        }
        let distinct: BTreeSet<LeakPlace> = fault.places.iter().copied().collect();
        if distinct.len() != fault.places.len() {
            self.report(&path, "a place is here twice", "each place once", "take one of the two out");
        }
    }

    fn prerequisites(&mut self, raw: &[RawPrerequisite]) -> Vec<Prerequisite> {
        let mut seen = BTreeSet::new();
        for (index, rule) in raw.iter().enumerate() {
            let path = format!("prerequisites[{index}]");
            self.text(&format!("{path}.why"), &rule.why, 400);
            if rule.one_of.is_empty() {
                self.report(
                    &format!("{path}.one_of"),
                    "one_of is empty",
                    "at least one milestone",
                    "name what must have been done before",
                );
            }
            if rule.one_of.contains(&rule.before) {
                self.report(
                    &format!("{path}.one_of"),
                    format!("{:?} cannot come before itself", rule.before),
                    "other milestones than `before`",
                    "take it out of one_of",
                );
            }
            let mut one_of = rule.one_of.clone();
            one_of.sort();
            if !seen.insert((rule.before, one_of)) {
                self.report(
                    &path,
                    "the same prerequisite is here twice",
                    "each once",
                    "take one of the two out",
                );
            }
        }
        self.circles(raw);
        raw.iter()
            .map(|rule| Prerequisite {
                before: rule.before,
                one_of: rule.one_of.clone(),
                why: rule.why.trim().to_owned(),
            })
            .collect()
    }

    /// A milestone can be reached if each of its rules has one way that can be reached. What never gets
    /// reachable waits for itself.
    fn circles(&mut self, raw: &[RawPrerequisite]) {
        let sound: Vec<(usize, &RawPrerequisite)> = raw
            .iter()
            .enumerate()
            .filter(|(_, rule)| !rule.one_of.is_empty() && !rule.one_of.contains(&rule.before))
            .collect();
        let mut stuck: BTreeSet<Milestone> = sound.iter().map(|(_, rule)| rule.before).collect();
        let waits = |rule: &RawPrerequisite, stuck: &BTreeSet<Milestone>| {
            rule.one_of.iter().all(|milestone| stuck.contains(milestone))
        };
        loop {
            let still: BTreeSet<Milestone> = sound
                .iter()
                .filter(|(_, rule)| stuck.contains(&rule.before) && waits(rule, &stuck))
                .map(|(_, rule)| rule.before)
                .collect();
            if still == stuck {
                break;
            }
            stuck = still;
        }
        let names: Vec<String> = stuck.iter().map(|milestone| format!("{milestone:?}")).collect();
        for (index, rule) in sound {
            if stuck.contains(&rule.before) && waits(rule, &stuck) {
                self.report(
                    &format!("prerequisites[{index}].one_of"),
                    format!("{:?} can never be reached: the order runs in a circle", rule.before),
                    "an order with a beginning",
                    format!("these wait for one another: {}", names.join(", ")),
                );
            }
        }
    }

    fn rivals(&mut self, raw: &RawCall) {
        let mut seen = BTreeSet::new();
        for (index, rival) in raw.rivals.iter().enumerate() {
            let path = format!("rivals[{index}]");
            if raw.faults.iter().any(|fault| fault.kind == *rival) {
                self.report(
                    &path,
                    format!("{rival:?} is a fault of this call, so it cannot be a rival"),
                    "kinds that are not in `faults`",
                    "take it out",
                );
            }
            if !seen.insert(*rival) {
                self.report(&path, format!("{rival:?} is here twice"), "each kind once", "take one out");
            }
        }
    }

    fn priors(&mut self, raw: &RawCall) {
        let mut seen = BTreeSet::new();
        for (index, (kind, weight)) in raw.priors.iter().enumerate() {
            let path = format!("priors[{index}]");
            if !(0.01..=1000.0).contains(weight) {
                self.report(
                    &path,
                    format!("the weight of {kind:?} is {weight}"),
                    "0.01 to 1000, where a kind that is not named has 1",
                    "nothing is impossible, and nothing is certain, before the first reading",
                );
            }
            if !seen.insert(*kind) {
                self.report(&path, format!("{kind:?} is here twice"), "each kind once", "take one out");
            }
        }
    }

    fn solved(&mut self, raw: &RawCall) -> Solved {
        let solved: &RawSolved = &raw.solved;
        let wrong: BTreeSet<FaultKind> = raw.faults.iter().map(|fault| fault.kind).collect();
        let cleared: BTreeSet<FaultKind> = solved.cleared.iter().copied().collect();
        if wrong != cleared || cleared.len() != solved.cleared.len() {
            let names: Vec<String> = wrong.iter().map(|kind| format!("{kind:?}")).collect();
            self.report(
                "solved.cleared",
                "cleared does not name the faults of this call",
                format!("[{}]", names.join(", ")),
                "a call is solved when all its faults are gone",
            );
        }
        let charge_share = self.pair(
            "solved.charge_share",
            solved.charge_share,
            &allowed(0.5, 1.5, "(share of the data plate's charge)"),
        );
        let frost_mass_max_kg = self.mass("solved.frost_mass_max", solved.frost_mass_max, 1.0);
        let proven_for_s = self.duration(
            "solved.proven_for",
            solved.proven_for,
            60.0,
            7200.0,
            "this is how long the plant must run at steady state",
        );
        Solved { cleared: solved.cleared.clone(), charge_share, frost_mass_max_kg, proven_for_s }
    }

    fn number(&mut self, path: &str, name: &str, value: f64, span: &Allowed) {
        if !(span.low..=span.high).contains(&value) {
            let as_share = value / 100.0;
            let is_percent = value >= 2.0 && (span.low..=span.high).contains(&as_share);
            let hint = if span.unit.starts_with('(') && is_percent {
                format!("a share, not percent: {} % is {}", plain(value), plain(as_share))
            } else if value < span.low {
                "raise it".to_owned()
            } else if value > span.high {
                "lower it".to_owned()
            } else {
                "write a number".to_owned()
            };
            self.report(path, format!("{name} {} is not allowed", plain(value)), span.text(), hint);
        }
    }

    fn pair(&mut self, path: &str, pair: Pair<f64>, span: &Allowed) -> Range {
        let name = path.rsplit('.').next().unwrap_or(path);
        self.number(&format!("{path}[0]"), name, pair.0, span);
        self.number(&format!("{path}[1]"), name, pair.1, span);
        self.order(path, name, pair.0, pair.1);
        Range { low: pair.0, high: pair.1 }
    }

    fn order(&mut self, path: &str, name: &str, low: f64, high: f64) {
        if low > high {
            self.report(
                path,
                format!("{name} has its higher value first"),
                "the lower value, then the higher",
                "swap the two",
            );
        }
    }

    fn same_unit(&mut self, path: &str, name: &str, same: bool) {
        if !same {
            self.report(
                &format!("{path}[1]"),
                format!("{name} is given in two units"),
                "one unit for both values",
                "write both in the unit of the first",
            );
        }
    }

    fn temperature(&mut self, path: &str, name: &str, value: Temperature, low_c: f64, high_c: f64) -> f64 {
        let (number, unit) = written(value);
        let (low, _) = in_unit_of(value, units::kelvin_from_celsius(low_c));
        let (high, _) = in_unit_of(value, units::kelvin_from_celsius(high_c));
        self.number(path, name, number, &allowed(low, high, unit));
        value.kelvin()
    }

    fn temperatures(&mut self, path: &str, pair: Pair<Temperature>, low_c: f64, high_c: f64) -> Range {
        let name = path.rsplit('.').next().unwrap_or(path);
        let low = self.temperature(&format!("{path}[0]"), name, pair.0, low_c, high_c);
        let high = self.temperature(&format!("{path}[1]"), name, pair.1, low_c, high_c);
        self.same_unit(path, name, written(pair.0).1 == written(pair.1).1);
        self.order(path, name, low, high);
        Range { low, high }
    }

    fn swing(&mut self, swing: TemperatureDifference) -> f64 {
        let (value, high, unit) = match swing {
            TemperatureDifference::FahrenheitDifference(value) => {
                (value, units::fahrenheit_difference_from_kelvin_difference(SWING_HIGH_K), "°F of difference")
            }
            TemperatureDifference::CelsiusDifference(value) => (value, SWING_HIGH_K, "°C of difference"),
        };
        self.number("weather.swing", "swing", value, &allowed(0.0, high, unit));
        swing.kelvin()
    }

    fn duration(&mut self, path: &str, value: Duration, low_s: f64, high_s: f64, what: &str) -> f64 {
        let name = key_of(path);
        let (number, seconds, unit) = match value {
            Duration::Seconds(number) => (number, 1.0, "s"),
            Duration::Minutes(number) => (number, 60.0, "min"),
            Duration::Hours(number) => (number, 3600.0, "h"),
        };
        let (low, high) = (low_s / seconds, high_s / seconds);
        if !(low..=high).contains(&number) {
            self.report(
                path,
                format!("{name} {} {unit} is not allowed", plain(number)),
                format!("{} to {} {unit}", plain(low), plain(high)),
                what,
            );
        }
        value.seconds()
    }

    fn durations(&mut self, path: &str, pair: Pair<Duration>, high_s: f64, what: &str) -> Range {
        let low = self.duration(&format!("{path}[0]"), pair.0, 0.0, high_s, what);
        let high = self.duration(&format!("{path}[1]"), pair.1, 0.0, high_s, what);
        let same = std::mem::discriminant(&pair.0) == std::mem::discriminant(&pair.1);
        self.same_unit(path, key_of(path), same);
        self.order(path, key_of(path), low, high);
        Range { low, high }
    }

    fn mass(&mut self, path: &str, value: Mass, high_kg: f64) -> f64 {
        let (number, unit_kg, unit) = match value {
            Mass::Ounces(number) => (number, units::kg_from_oz(1.0), "oz"),
            Mass::Pounds(number) => (number, units::kg_from_lb(1.0), "lb"),
            Mass::Grams(number) => (number, 0.001, "g"),
            Mass::Kilograms(number) => (number, 1.0, "kg"),
        };
        self.number(path, key_of(path), number, &allowed(0.0, high_kg / unit_kg, unit));
        value.kilograms()
    }
}

/// The key at the end of a path, without an index.
fn key_of(path: &str) -> &str {
    let last = path.rsplit('.').next().unwrap_or(path);
    last.split('[').next().unwrap_or(last)
}

fn written(value: Temperature) -> (f64, &'static str) {
    match value {
        Temperature::Fahrenheit(number) => (number, "°F"),
        Temperature::Celsius(number) => (number, "°C"),
    }
}

fn in_unit_of(model: Temperature, kelvin: f64) -> (f64, &'static str) {
    match model {
        Temperature::Fahrenheit(_) => (units::fahrenheit_from_kelvin(kelvin), "°F"),
        Temperature::Celsius(_) => (units::celsius_from_kelvin(kelvin), "°C"),
    }
}
