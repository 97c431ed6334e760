//! Faults: each is a change to a physical parameter, never a scripted reading.

mod catalogue;
mod effects;
mod place;
mod row;

use serde::de::{DeserializeSeed, EnumAccess, VariantAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize};

use crate::system::System;

pub(crate) use catalogue::{Effects, Wiring};
pub use catalogue::{FaultKind, Row as FaultRow, Special};
pub use place::LeakPlace;
pub(crate) use place::hole_diameter_m;
pub use row::{Charge, Equipment, FaultGroup, LeftBehind, Severity};

/// Something wrong with the plant.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fault {
    /// Which physical parameter changes.
    pub kind: FaultKind,
    /// Where, for the kinds that need a place (leaks); `None` otherwise.
    pub place: Option<LeakPlace>,
    /// How bad, 0 = healthy, 1 = the worst the kind can be. The meaning is given by [`FaultKind`].
    pub severity: f64,
    /// Plant time at which it sets in, s. Zero or less: from the start.
    pub onset_s: f64,
}

impl FaultKind {
    /// Its name on the command line: lower case with hyphens.
    pub fn kebab(self) -> &'static str {
        self.into()
    }

    /// Its name in files.
    pub fn name(self) -> &'static str {
        Self::NAMES[self as usize]
    }

    /// The first name that it had in files. Draws and digests go by it, so that another name changes neither.
    pub fn first_name(self) -> &'static str {
        Self::FORMER_NAMES[self as usize].unwrap_or(self.name())
    }

    /// The kind that was called so once; `None` if none was, or if it is still called so.
    pub fn formerly(name: &str) -> Option<FaultKind> {
        Self::ALL.into_iter().find(|kind| Self::FORMER_NAMES[*kind as usize] == Some(name))
    }

    /// Whether the kind is there or not, without degrees: any severity above zero is the whole fault.
    pub fn is_all_or_nothing(self) -> bool {
        matches!(self.row().severity, Severity::AllOrNothing)
    }

    /// Whether the kind is a state of the charge, which holds from the start and has no later onset.
    pub fn holds_from_the_start(self) -> bool {
        matches!(self.row().special.charge, Charge::Missing | Charge::Excess | Charge::Gas)
    }

    /// Whether the kind needs a [`LeakPlace`].
    pub fn needs_place(self) -> bool {
        self.row().special.charge == Charge::Escapes
    }

    /// Whether the kind is about a part that only an expansion valve has.
    pub fn needs_valve(self) -> bool {
        self.row().needs == Equipment::Valve
    }

    /// Whether a system has the part that the kind is about.
    pub fn is_possible_in(self, system: &System) -> bool {
        self.row().needs.is_in(system)
    }
}

impl<'de> Deserialize<'de> for FaultKind {
    /// By its name, or by the one that it had before.
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<FaultKind, D::Error> {
        deserializer.deserialize_enum("FaultKind", &Self::NAMES, KindVisitor)
    }
}

/// A kind as a variant without fields.
struct KindVisitor;

impl<'de> Visitor<'de> for KindVisitor {
    type Value = FaultKind;

    fn expecting(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("enum FaultKind")
    }

    fn visit_enum<A: EnumAccess<'de>>(self, data: A) -> Result<FaultKind, A::Error> {
        let (kind, variant) = data.variant_seed(KindName)?;
        variant.unit_variant()?;
        Ok(kind)
    }
}

/// The name of a kind.
struct KindName;

impl<'de> DeserializeSeed<'de> for KindName {
    type Value = FaultKind;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<FaultKind, D::Error> {
        deserializer.deserialize_identifier(self)
    }
}

impl Visitor<'_> for KindName {
    type Value = FaultKind;

    fn expecting(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("variant identifier")
    }

    /// Forms that write numbers for names count from 0.
    fn visit_u64<E: serde::de::Error>(self, number: u64) -> Result<FaultKind, E> {
        let at = usize::try_from(number).ok().and_then(|at| FaultKind::ALL.get(at).copied());
        at.ok_or_else(|| E::invalid_value(serde::de::Unexpected::Unsigned(number), &self))
    }

    fn visit_str<E: serde::de::Error>(self, name: &str) -> Result<FaultKind, E> {
        let known = FaultKind::NAMES.iter().position(|known| *known == name).map(|at| FaultKind::ALL[at]);
        known.or_else(|| FaultKind::formerly(name)).ok_or_else(|| E::unknown_variant(name, &FaultKind::NAMES))
    }
}

impl Effects {
    /// What the faults that have set in do to a system. Those of parts that it does not have do nothing.
    #[inline(always)]
    pub(crate) fn of(faults: &[Fault], time_s: f64, system: &System) -> Effects {
        let mut effects = Effects::default();
        for fault in faults.iter().filter(|fault| fault.onset_s <= time_s) {
            let row = fault.kind.row();
            if row.needs.is_in(system) {
                (row.effect)(&mut effects, fault.severity.clamp(0.0, 1.0), fault.place);
            }
        }
        effects
    }
}
