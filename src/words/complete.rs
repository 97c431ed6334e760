//! Whether every fact has words, and every word a fact.

use std::collections::{BTreeMap, BTreeSet};

use serde_reflection::{ContainerFormat, Format, Named, Registry, Tracer, TracerConfig, VariantFormat};

use crate::by_key;
use crate::key::kebab;
use crate::messages::messages;

/// The form of every fact, and of what facts hold.
fn facts() -> Registry {
    let mut tracer = Tracer::new(TracerConfig::default());
    macro_rules! trace {
        ($($fact:ty),* $(,)?) => {
            $(tracer.trace_simple_type::<$fact>().unwrap_or_else(|error| panic!("{}: {error:?}", stringify!($fact)));)*
        };
    }
    // A type that is forgotten here is named by the tracer.
    trace!(
        visit::Absence,
        visit::AirPoint,
        visit::AreaNote,
        visit::Bulb,
        visit::BulbNote,
        visit::Caution,
        visit::ChargeBy,
        visit::ChargeNote,
        visit::CylinderUse,
        visit::FilterNote,
        visit::GaugeNote,
        visit::InstrumentKind,
        visit::LeakMethod,
        visit::LeakNote,
        visit::Location,
        visit::Measured,
        visit::MeterNote,
        visit::Move,
        visit::NitrogenNote,
        visit::Note,
        visit::Observation,
        visit::Panel,
        visit::PipePoint,
        visit::Place,
        visit::PlateNote,
        visit::Port,
        visit::RecoveryNote,
        visit::Refusal,
        visit::ShownMargin,
        visit::Sight,
        visit::StaticTap,
        visit::SiteNote,
        visit::VacuumNote,
        visit::VerifyNote,
        visit::WorkNote,
        visit::Hazard,
        visit::Trust,
        diagnosis::Purpose,
        diagnosis::Hypothesis,
        judge::Area,
        judge::Danger,
        judge::NoEvidence,
        judge::ProofDoubt,
        judge::Reason,
        judge::Remnant,
        judge::Undone,
        report::BalanceLine,
        report::CycleMoment,
        report::Effect,
        report::OutlookLine,
        report::OutlookValue,
        report::RowOf,
        report::StepGain,
        report::WrongThing,
        call::Advice,
        call::CallMistake,
        call::Meaning,
        quantity::Amount,
        quantity::Unit,
        quantity::typed::Untaken,
        ron_file::Bracket,
        ron_file::Example,
        ron_file::Inside,
        ron_file::Mistake,
        ron_file::Nearest,
        ron_file::Wanted,
        store::JournalError,
        store::calls::CallFault,
        store::files::FileFault,
        visit::Asked,
        visit::Breakdown,
        visit::CannotHappen,
        visit::FileMistake,
        visit::ReplayError,
        call::Duration,
        call::Mass,
        call::Milestone,
        call::Pressure,
        call::Question,
        call::Temperature,
        call::TemperatureDifference,
        plant::Capacitor,
        plant::Conductor,
        plant::FanSetting,
        plant::FaultGroup,
        plant::FaultKind,
        plant::LeakPlace,
        plant::LeftBehind,
        plant::Mode,
        plant::Motor,
        plant::Protection,
        plant::RefrigerantName,
        plant::SafetyClass,
        plant::Switch,
        plant::Terminal,
        plant::Work,
    );
    tracer.registry().expect("every fact was traced to its end")
}

/// Names that a value fills in, and the message that says it.
struct Told {
    names: BTreeSet<String>,
    is_said: bool,
}

struct Check<'a> {
    registry: &'a Registry,
    messages: &'a BTreeMap<String, BTreeSet<String>>,
    used: BTreeSet<String>,
    missing: Vec<String>,
    /// Types of the elements of lists.
    elements: BTreeSet<String>,
}

impl Check<'_> {
    fn has(&mut self, key: &str, names: &BTreeSet<String>) -> bool {
        let Some(filled_in) = self.messages.get(key) else { return false };
        self.used.insert(key.to_owned());
        for name in filled_in.difference(names) {
            self.missing.push(format!("{key} fills in ${name}; there are {names:?}"));
        }
        true
    }

    /// What a value fills in under a name.
    fn held(&mut self, name: &str, format: &Format) -> BTreeSet<String> {
        let mut names: BTreeSet<String> = [name.to_owned(), format!("{name}-id")].into();
        if let Format::Seq(element) = format {
            names.extend(["count", "any", "each"].map(|how| format!("{name}-{how}")));
            if let Format::TypeName(element) = &**element {
                self.elements.insert(element.clone());
            }
        }
        let inner = match format {
            Format::TypeName(inner) => Some(inner),
            Format::Option(inner) | Format::Seq(inner) => match &**inner {
                Format::TypeName(inner) => Some(inner),
                _ => None,
            },
            _ => None,
        };
        if let Some(inner) = inner {
            // A struct's fields are filled in beside it.
            if let Some(ContainerFormat::Struct(fields)) = self.registry.get(inner) {
                for field in fields {
                    names.extend(self.held(&kebab(&field.name), &field.value));
                }
            }
        }
        names
    }

    fn variant(&mut self, type_name: &str, variant: &str, format: &VariantFormat) {
        let key = format!("{}-{}", kebab(type_name), kebab(variant));
        let told = match format {
            VariantFormat::Unit => Told { names: BTreeSet::new(), is_said: false },
            VariantFormat::NewType(held) => self.new_type(&key, held),
            VariantFormat::Tuple(held) => {
                let places = ["first", "second", "third"];
                let names =
                    held.iter().zip(places).flat_map(|(held, place)| self.held(place, held)).collect();
                Told { names, is_said: false }
            }
            VariantFormat::Struct(fields) => {
                let names =
                    fields.iter().flat_map(|field| self.held(&kebab(&field.name), &field.value)).collect();
                Told { names, is_said: false }
            }
            VariantFormat::Variable(_) => panic!("{key} was not traced"),
        };
        let is_said = self.has(&key, &told.names) || told.is_said || is_time(&key);
        if !is_said {
            self.missing.push(key);
        }
    }

    /// A struct is said by a message of its own, if it is said at all. As an element of a list it always is.
    fn structure(&mut self, type_name: &str, fields: &[Named<Format>]) {
        let key = kebab(type_name);
        let names = fields.iter().flat_map(|field| self.held(&kebab(&field.name), &field.value)).collect();
        if !BY_KEY.contains(&key.as_str()) && !self.has(&key, &names) && self.elements.contains(type_name) {
            self.missing.push(key);
        }
    }

    /// A newtype variant is said by its own message, by one for each value that it holds, or by what it holds.
    fn new_type(&mut self, key: &str, held: &Format) -> Told {
        let Format::TypeName(inner) = held else {
            return Told { names: ["value".to_owned()].into(), is_said: false };
        };
        let names = self.held(&kebab(inner), held);
        let Some(ContainerFormat::Enum(variants)) = self.registry.get(inner) else {
            // A struct's own message says the variant that holds it.
            let own = kebab(inner);
            let is_said = !BY_KEY.contains(&own.as_str()) && self.messages.contains_key(&own);
            return Told { names, is_said };
        };
        let variants: Vec<String> = variants.values().map(|variant| kebab(&variant.name)).collect();
        for variant in &variants {
            self.has(&format!("{key}-{variant}"), &names);
        }
        Told { names, is_said: true }
    }
}

/// Times are written by their length (`quantity::asked_for`).
fn is_time(key: &str) -> bool {
    crate::quantity::asked_for(key, 1.0).is_some()
}

/// The tracer knows a variant that has a former name by that name.
fn now_called(variant: &str) -> &str {
    if variant == "Mend" { "Repair" } else { variant }
}

/// Messages that are asked for by their key, beside those whose keys say for what (`asked.rs`).
const BY_KEY: [&str; 19] = [
    "list",
    "list-any",
    "answer-unknown",
    "answer-quoted",
    "reading",
    "seen",
    "refused",
    "verification-steady",
    "verification-moving",
    "verification-ice",
    "verification-no-ice",
    "hindsight-ice",
    "hindsight-no-ice",
    "probability-near-one",
    "probability-near-none",
    "done",
    "not-now",
    "caution-before",
    "in-the-drawing",
];

#[test]
fn every_fact_has_words_and_every_message_a_fact() {
    let (registry, messages) = (facts(), messages());
    let mut check = Check {
        registry: &registry,
        messages: &messages,
        used: BTreeSet::new(),
        missing: Vec::new(),
        elements: BTreeSet::new(),
    };
    for (type_name, container) in &registry {
        let ContainerFormat::Enum(variants) = container else { continue };
        for variant in variants.values() {
            check.variant(type_name, now_called(&variant.name), &variant.value);
        }
    }
    // Twice: a struct of a list may hold a list of structs.
    for _ in 0..2 {
        for (type_name, container) in &registry {
            if let ContainerFormat::Struct(fields) = container {
                check.structure(type_name, fields);
            }
        }
    }
    check.missing.sort();
    check.missing.dedup();
    assert!(check.missing.is_empty(), "without words:\n{}", check.missing.join("\n"));
    let idle: Vec<&String> = messages
        .keys()
        .filter(|key| !check.used.contains(*key) && !BY_KEY.contains(&key.as_str()) && !by_key::is_key(key))
        .collect();
    assert!(idle.is_empty(), "messages that nothing says: {idle:?}");
}
