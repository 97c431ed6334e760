//! Checking: from a file as written to a call that the rest of the program can rely on.

use std::collections::BTreeSet;

use plant::{FaultKind, HouseModel, LeakPlace, System, ThermostatSettings};
use quantity::{Amount, Bounds, Duration, Temperature, Unit};
use ron_file::{Manner, Nearest, OldName, Reading, TextOrTexts, write_line};
use serde::Serialize;

use crate::names::OLD_NAMES;
use crate::problem::{Advice, CallMistake, CallProblems, Meaning};
use crate::raw::{EXAMPLES, Pair, RawCall, RawFault, RawHouse, RawPrerequisite, RawWeather, VERSION};
use crate::spec::{Call, FaultSpec, HouseSpec, Milestone, Prerequisite, Range, Solved, WeatherSpec};
use crate::text::{ENGLISH, Text, is_language};

/// Whether a text is meant as a call: it has what only calls have, and nothing of what only records have.
pub fn is_call(text: &str) -> bool {
    let reading = Reading::<CallMistake>::new(text);
    let has = |keys: [&str; 2]| keys.map(|key| reading.has(key));
    has(["complaint", "system"]) == [true; 2] && has(["events", "notebook_digest"]) == [false; 2]
}

/// Reads and checks a call file. The call's id is the file's name without folder and ending.
///
/// # Errors
/// All mistakes that can be told at once, in the order of the file.
pub fn read(text: &str, file_name: &str) -> Result<Call, CallProblems> {
    read_with_notes(text, file_name).map(|(call, _)| call)
}

/// The same, with the names of older files that were read as those of today.
///
/// # Errors
/// Those of [`read`].
pub fn read_with_notes(text: &str, file_name: &str) -> Result<(Call, Vec<OldName>), CallProblems> {
    let mut reading = Reading::new(text);
    let raw = reading.value::<RawCall>(&Manner { examples: EXAMPLES, old_names: OLD_NAMES });
    let mut check = Check { reading };
    let call = raw.map(|raw| check.call(raw, text, file_name));
    let old_names = check.reading.finish(file_name)?;
    // A file without problems has a value, and a system that is known.
    match call.flatten() {
        Some(call) => Ok((call, old_names)),
        None => Err(CallProblems { file: file_name.to_owned(), told: Vec::new(), more: 0 }),
    }
}

/// The lowest and highest air temperature that the property functions and the plant are meant for: 10 and 40 °C.
const AIR_K: Bounds = Bounds::new(283.15, 313.15);
/// Means of the outdoor air: -10 to 45 °C.
const OUTDOOR_K: Bounds = Bounds::new(263.15, 318.15);
/// Dew points: -20 to 30 °C.
const DEW_POINT_K: Bounds = Bounds::new(253.15, 303.15);
/// What a thermostat can be set to: 10 to 35 °C.
const SET_POINT_K: Bounds = Bounds::new(283.15, 308.15);
const SWING_K: Bounds = Bounds::new(0.0, 15.0);
/// Longest history, and latest onset: 72 h.
const HISTORY_S: Bounds = Bounds::new(0.0, 72.0 * 3600.0);
const PAR_TIME_S: Bounds = Bounds::new(300.0, 86_400.0);
const PROVEN_FOR_S: Bounds = Bounds::new(60.0, 7200.0);
const FROST_KG: Bounds = Bounds::new(0.0, 1.0);
const SEVERITY: Bounds = Bounds::new(0.0, 1.0);
const WEIGHT: Bounds = Bounds::new(0.01, 1000.0);

/// Most entries of a list.
const MOST_ENTRIES: usize = 1000;

/// A value as a file writes it.
fn key(value: &impl Serialize) -> String {
    write_line(value)
}

fn keys<T: Serialize>(values: impl IntoIterator<Item = T>) -> Vec<String> {
    values.into_iter().map(|value| key(&value)).collect()
}

/// The key at the end of a path, without an index.
fn key_of(path: &str) -> String {
    let last = path.rsplit('.').next().unwrap_or(path);
    last.split('[').next().unwrap_or(last).to_owned()
}

struct Check<'t> {
    reading: Reading<'t, CallMistake>,
}

impl Check<'_> {
    /// Lists are looked at as far as an author goes.
    fn cut<T>(&mut self, path: &str, list: &mut Vec<T>) {
        if list.len() > MOST_ENTRIES {
            let (key, entries) = (key_of(path), list.len());
            self.reading.note_of_file(CallMistake::TooManyEntries { key, entries, most: MOST_ENTRIES });
            list.truncate(MOST_ENTRIES);
        }
    }

    fn call(&mut self, mut raw: RawCall, text: &str, file_name: &str) -> Option<Call> {
        self.cut("answers", &mut raw.answers);
        self.cut("faults", &mut raw.faults);
        self.cut("prerequisites", &mut raw.prerequisites);
        self.cut("rivals", &mut raw.rivals);
        self.cut("priors", &mut raw.priors);
        if raw.version != VERSION {
            self.reading.report("version", CallMistake::Version { version: raw.version, read: VERSION });
        }
        let id = self.id(file_name);
        let title = self.text("title", &raw.title, 80);
        let complaint = self.text("complaint", &raw.complaint, 2000);
        let answers = self.answers(&raw);
        let system = self.system(&raw.system);
        let house = self.house(&raw.house);
        let weather = self.weather(&raw.weather);
        let set_point_k = self.quantity(
            "thermostat.set_point",
            raw.thermostat.set_point.into(),
            SET_POINT_K,
            Meaning::Plain,
            None,
        );
        let charge_share =
            self.shares("charge_share", raw.charge_share, Bounds::new(0.3, 1.5), Meaning::PlateCharge);
        let history_s = self.quantity(
            "history",
            raw.history.into(),
            HISTORY_S,
            Meaning::Plain,
            Some(Advice::UntilArrival),
        );
        let faults = self.faults(&raw.faults, system.as_ref());
        let prerequisites = self.prerequisites(&raw.prerequisites);
        self.rivals(&raw);
        self.priors(&raw);
        let solved = self.solved(&raw);
        let par_time_s = self.quantity(
            "par_time",
            raw.par_time.into(),
            PAR_TIME_S,
            Meaning::Plain,
            Some(Advice::SoundVisit),
        );
        Some(Call {
            id,
            title,
            complaint,
            answers,
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
            rivals: raw.rivals,
            priors: raw.priors,
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
            self.reading.note_of_file(CallMistake::FileName { id: ron_file::shown(&id) });
        }
        id
    }

    fn text(&mut self, path: &str, written: &TextOrTexts, most: usize) -> Text {
        if let TextOrTexts::Texts(texts) = written {
            for language in texts.keys().filter(|language| !is_language(language)) {
                let language = ron_file::shown(language);
                self.reading.report(path, CallMistake::NoLanguage { key: key_of(path), language });
            }
            if !texts.contains_key(ENGLISH) {
                self.reading.report(path, CallMistake::NoEnglish { key: key_of(path) });
            }
            for (language, text) in texts.iter().filter(|(language, _)| is_language(language)) {
                self.one_text(&format!("{path}.\"{language}\""), path, text, most);
            }
        }
        if let TextOrTexts::Text(text) = written {
            self.one_text(path, path, text, most);
        }
        Text::of(written)
    }

    fn one_text(&mut self, at: &str, path: &str, text: &str, most: usize) {
        let characters = text.chars().count();
        if text.trim().is_empty() {
            self.reading.report(at, CallMistake::Empty { key: key_of(path) });
        } else if characters > most {
            self.reading.report(at, CallMistake::TooLong { key: key_of(path), characters, most });
        }
    }

    fn answers(&mut self, raw: &RawCall) -> Vec<(crate::Question, Text)> {
        let mut seen = BTreeSet::new();
        let mut answers = Vec::new();
        for (index, (question, answer)) in raw.answers.iter().enumerate() {
            let path = format!("answers[{index}]");
            if !seen.insert(*question) {
                self.reading.report(&path, CallMistake::AnsweredTwice { question: key(question) });
            }
            answers.push((*question, self.text(&format!("{path}[1]"), answer, 2000)));
        }
        answers
    }

    fn system(&mut self, name: &str) -> Option<System> {
        let system = System::built_in(name);
        if system.is_none() {
            let names = System::names();
            let nearest = Nearest::of(name, &names);
            let known = names.iter().map(|name| (*name).to_owned()).collect();
            let name = ron_file::shown(name);
            self.reading.report("system", CallMistake::UnknownSystem { name, nearest, known });
        }
        system
    }

    fn house(&mut self, raw: &RawHouse) -> HouseSpec {
        let HouseModel {
            air_to_outdoors_w_k,
            air_to_structure_w_k,
            structure_to_outdoors_w_k,
            air_capacity_j_k,
            structure_capacity_j_k,
            internal_gain_w,
            internal_moisture_kg_s,
            infiltration_kg_s,
            moisture_capacity_kg,
            supply_leak_share,
            return_leak_share,
            duct_to_attic_w_k,
            attic_rise_k_m2_w,
            solar_aperture_m2,
        } = raw.model;
        let checks = [
            ("air_to_outdoors_w_k", air_to_outdoors_w_k, 10.0, 2000.0, Unit::WattPerKelvin),
            ("air_to_structure_w_k", air_to_structure_w_k, 10.0, 20_000.0, Unit::WattPerKelvin),
            ("structure_to_outdoors_w_k", structure_to_outdoors_w_k, 10.0, 2000.0, Unit::WattPerKelvin),
            ("air_capacity_j_k", air_capacity_j_k, 2.0e5, 5.0e7, Unit::JoulePerKelvin),
            ("structure_capacity_j_k", structure_capacity_j_k, 1.0e6, 5.0e8, Unit::JoulePerKelvin),
            ("internal_gain_w", internal_gain_w, 0.0, 10_000.0, Unit::Watt),
            ("internal_moisture_kg_s", internal_moisture_kg_s, 0.0, 0.002, Unit::KilogramPerSecond),
            ("infiltration_kg_s", infiltration_kg_s, 0.0, 1.0, Unit::KilogramPerSecond),
            ("moisture_capacity_kg", moisture_capacity_kg, 100.0, 50_000.0, Unit::Kilogram),
            ("supply_leak_share", supply_leak_share, 0.0, 0.4, Unit::Share),
            ("return_leak_share", return_leak_share, 0.0, 0.4, Unit::Share),
            ("duct_to_attic_w_k", duct_to_attic_w_k, 0.0, 200.0, Unit::WattPerKelvin),
            ("attic_rise_k_m2_w", attic_rise_k_m2_w, 0.0, 0.06, Unit::KelvinPerWattPerSquareMeter),
            ("solar_aperture_m2", solar_aperture_m2, 0.0, 50.0, Unit::SquareMeter),
        ];
        for (name, value, low, high, unit) in checks {
            let meaning = match name {
                "moisture_capacity_kg" => Meaning::DryAir,
                "supply_leak_share" => Meaning::SupplyAir,
                "return_leak_share" => Meaning::ReturnAir,
                _ => Meaning::Plain,
            };
            let (path, bounds) = (format!("house.model.{name}"), Bounds::new(low, high));
            self.quantity(&path, Amount::new(value, unit), bounds, meaning, None);
        }
        HouseSpec {
            model: raw.model.clone(),
            air_k: self.temperatures("house.air", raw.air, AIR_K),
            relative_humidity: self.shares(
                "house.relative_humidity",
                raw.relative_humidity,
                Bounds::new(0.1, 0.95),
                Meaning::NoPercent,
            ),
        }
    }

    fn weather(&mut self, raw: &RawWeather) -> WeatherSpec {
        let mean_k = self.temperatures("weather.mean", raw.mean, OUTDOOR_K);
        let swing_k = self.quantity("weather.swing", raw.swing.into(), SWING_K, Meaning::Plain, None);
        let dew_point = Amount::from(raw.dew_point);
        let dew_point_k = self.quantity("weather.dew_point", dew_point, DEW_POINT_K, Meaning::Plain, None);
        let coldest_k = mean_k.low - swing_k;
        let values_are_sound = ["weather.mean", "weather.swing", "weather.dew_point"]
            .iter()
            .all(|path| self.reading.is_sound(path));
        if values_are_sound && dew_point_k > coldest_k + ROUNDING_K {
            let high = dew_point.unit.of_si(coldest_k);
            self.reading.report("weather.dew_point", CallMistake::DewPoint { amount: dew_point, high });
        }
        for (path, written, high, unit) in [
            ("weather.start_hour", raw.start_hour, 24.0, Unit::Hour),
            ("weather.solar_peak_w_m2", raw.solar_peak_w_m2, 1100.0, Unit::WattPerSquareMeter),
        ] {
            let bounds = Bounds::new(0.0, unit.si_of(high));
            self.quantity(path, Amount::new(written, unit), bounds, Meaning::Plain, None);
        }
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
            self.reading.report("faults", CallMistake::NoFaults);
        }
        for (index, fault) in raw.iter().enumerate() {
            let path = format!("faults[{index}]");
            self.places(&path, fault);
            let mut places: BTreeSet<Option<LeakPlace>> = fault.places.iter().copied().map(Some).collect();
            if places.is_empty() {
                places.insert(None);
            }
            let all = places.len();
            // A kind that could not be read is no kind that is there already.
            let kind_is_sound = self.reading.is_sound(&format!("{path}.kind"));
            let new = places.into_iter().filter(|place| kind_is_sound && seen.insert((fault.kind, *place)));
            if new.count() < all && kind_is_sound {
                self.reading.report(&path, CallMistake::FaultTwice { kind: key(&fault.kind) });
            }
            if let Some(system) = system
                && !fault.kind.is_possible_in(system)
            {
                let (kind, system) = (key(&fault.kind), system.name.clone());
                self.reading.report(&format!("{path}.kind"), CallMistake::NoSuchPart { kind, system });
            }
            let severity_at = format!("{path}.severity");
            let severity = self.shares(&severity_at, fault.severity, SEVERITY, Meaning::Severity(fault.kind));
            let onset_at = format!("{path}.onset");
            let onset_s = self.durations(&onset_at, fault.onset, HISTORY_S, Advice::FromStart);
            if fault.kind.holds_from_the_start() && onset_s.high > 0.0 {
                self.reading.report(&onset_at, CallMistake::HoldsFromTheStart { kind: key(&fault.kind) });
            }
            faults.push(FaultSpec { kind: fault.kind, places: fault.places.clone(), severity, onset_s });
        }
        faults
    }

    fn places(&mut self, path: &str, fault: &RawFault) {
        if !self.reading.is_sound(&format!("{path}.kind")) {
            return;
        }
        let path = format!("{path}.places");
        let kind = key(&fault.kind);
        if fault.kind.needs_place() && fault.places.is_empty() {
            self.reading.report(&path, CallMistake::NeedsPlace { kind, places: keys(LeakPlace::ALL) });
        } else if !fault.kind.needs_place() && !fault.places.is_empty() {
            let with = keys(FaultKind::ALL.into_iter().filter(|kind| kind.needs_place()));
            self.reading.report(&path, CallMistake::HasNoPlaces { kind, with });
        }
        let distinct: BTreeSet<LeakPlace> = fault.places.iter().copied().collect();
        if distinct.len() != fault.places.len() {
            self.reading.report(&path, CallMistake::PlaceTwice);
        }
    }

    fn prerequisites(&mut self, raw: &[RawPrerequisite]) -> Vec<Prerequisite> {
        let mut seen = BTreeSet::new();
        let mut prerequisites = Vec::new();
        for (index, rule) in raw.iter().enumerate() {
            let path = format!("prerequisites[{index}]");
            let why = self.text(&format!("{path}.why"), &rule.why, 400);
            let one_of_at = format!("{path}.one_of");
            if rule.one_of.is_empty() {
                self.reading.report(&one_of_at, CallMistake::NoWay);
            }
            if rule.one_of.contains(&rule.before) {
                self.reading.report(&one_of_at, CallMistake::BeforeItself { milestone: key(&rule.before) });
            }
            let mut one_of = rule.one_of.clone();
            one_of.sort();
            if !seen.insert((rule.before, one_of)) {
                self.reading.report(&path, CallMistake::PrerequisiteTwice);
            }
            prerequisites.push(Prerequisite { before: rule.before, one_of: rule.one_of.clone(), why });
        }
        if self.reading.is_sound("prerequisites") {
            self.circles(raw);
        }
        prerequisites
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
        for (index, rule) in sound {
            if stuck.contains(&rule.before) && waits(rule, &stuck) {
                let (milestone, waiting) = (key(&rule.before), keys(&stuck));
                let path = format!("prerequisites[{index}].one_of");
                self.reading.report(&path, CallMistake::Circle { milestone, waiting });
            }
        }
    }

    fn rivals(&mut self, raw: &RawCall) {
        let wrong: BTreeSet<FaultKind> = raw.faults.iter().map(|fault| fault.kind).collect();
        let faults_are_sound = self.reading.is_sound("faults");
        let mut seen = BTreeSet::new();
        for (index, rival) in raw.rivals.iter().enumerate() {
            let path = format!("rivals[{index}]");
            if faults_are_sound && wrong.contains(rival) {
                self.reading.report(&path, CallMistake::RivalIsFault { kind: key(rival) });
            }
            if !seen.insert(*rival) {
                self.reading.report(&path, CallMistake::KindTwice { kind: key(rival) });
            }
        }
    }

    fn priors(&mut self, raw: &RawCall) {
        let mut seen = BTreeSet::new();
        for (index, (kind, weight)) in raw.priors.iter().enumerate() {
            let path = format!("priors[{index}]");
            if !WEIGHT.holds(*weight) {
                let (kind, written) = (key(kind), *weight);
                let weight = CallMistake::Weight { kind, written, low: WEIGHT.low, high: WEIGHT.high };
                self.reading.report(&path, weight);
            }
            if !seen.insert(*kind) {
                self.reading.report(&path, CallMistake::KindTwice { kind: key(kind) });
            }
        }
    }

    fn solved(&mut self, raw: &RawCall) -> Solved {
        let solved = &raw.solved;
        let wrong: BTreeSet<FaultKind> = raw.faults.iter().map(|fault| fault.kind).collect();
        let cleared: BTreeSet<FaultKind> = solved.cleared.iter().copied().collect();
        let differ = wrong != cleared || cleared.len() != solved.cleared.len();
        if differ && self.reading.is_sound("faults") {
            self.reading.report("solved.cleared", CallMistake::Cleared { kinds: keys(wrong) });
        }
        let charge_share = self.shares(
            "solved.charge_share",
            solved.charge_share,
            Bounds::new(0.5, 1.5),
            Meaning::PlateCharge,
        );
        let frost = solved.frost_mass_max.into();
        let frost_mass_max_kg = self.quantity("solved.frost_mass_max", frost, FROST_KG, Meaning::Plain, None);
        let proven_for_s = self.quantity(
            "solved.proven_for",
            solved.proven_for.into(),
            PROVEN_FOR_S,
            Meaning::Plain,
            Some(Advice::AtSteadyState),
        );
        Solved { cleared: solved.cleared.clone(), charge_share, frost_mass_max_kg, proven_for_s }
    }

    /// A quantity within its bounds, in SI; how a bare advice is wanted says the caller if it is none of higher and lower.
    fn quantity(
        &mut self,
        path: &str,
        amount: Amount,
        bounds: Bounds,
        meaning: Meaning,
        advice: Option<Advice>,
    ) -> f64 {
        let si = amount.si();
        if !bounds.holds(si) {
            let hundredth = amount.written / 100.0;
            let is_percent = amount.unit == Unit::Share && amount.written >= 2.0 && bounds.holds(hundredth);
            let advice = advice.unwrap_or(if is_percent {
                Advice::AsShare { written: hundredth }
            } else if si < bounds.low {
                Advice::Raise
            } else {
                Advice::Lower
            });
            let (Amount { written: low_written, .. }, high) = bounds.ends(amount.unit);
            let key = key_of(path);
            self.reading
                .report(path, CallMistake::OutOfBounds { key, amount, low_written, high, meaning, advice });
        }
        si
    }

    fn shares(&mut self, path: &str, pair: Pair<f64>, bounds: Bounds, meaning: Meaning) -> Range {
        let pair = (Amount::new(pair.0, Unit::Share), Amount::new(pair.1, Unit::Share));
        self.range(path, pair, bounds, meaning, None)
    }

    fn temperatures(&mut self, path: &str, pair: Pair<Temperature>, bounds: Bounds) -> Range {
        self.range(path, (pair.0.into(), pair.1.into()), bounds, Meaning::Plain, None)
    }

    fn durations(&mut self, path: &str, pair: Pair<Duration>, bounds: Bounds, advice: Advice) -> Range {
        self.range(path, (pair.0.into(), pair.1.into()), bounds, Meaning::Plain, Some(advice))
    }

    fn range(
        &mut self,
        path: &str,
        pair: Pair<Amount>,
        bounds: Bounds,
        meaning: Meaning,
        advice: Option<Advice>,
    ) -> Range {
        // Of what is in two units, or the wrong way round, each end alone may be right.
        let is_sound = self.reading.is_sound(path);
        let low = self.quantity(&format!("{path}[0]"), pair.0, bounds, meaning, advice);
        let high = self.quantity(&format!("{path}[1]"), pair.1, bounds, meaning, advice);
        if is_sound && pair.0.unit != pair.1.unit {
            self.reading.report(&format!("{path}[1]"), CallMistake::TwoUnits { key: key_of(path) });
        }
        if is_sound && low > high {
            self.reading.report(path, CallMistake::HigherFirst { key: key_of(path) });
        }
        Range { low, high }
    }
}

/// Rounding that a conversion of units may bring to a temperature, K.
const ROUNDING_K: f64 = 1.0e-6;
