//! The built-in systems: data files that are part of the program, each read once. The first is the base of the others.

use std::sync::OnceLock;

use serde::Deserialize;

use super::difference::{Differs, Missing};
use super::{System, SystemDifference};

macro_rules! catalogue {
    ($($name:literal),* $(,)?) => {
        const NAMES: [&str; [$($name),*].len()] = [$($name),*];
        static TEXTS: [&str; NAMES.len()] =
            [$(include_str!(concat!("../../../assets/systems/", $name, ".ron"))),*];
    };
}

// The two first are what calls and the command line take when nothing else is said.
catalogue![
    "split-3-ton-r410a-txv",
    "split-3-ton-r410a-orifice",
    "split-3-ton-r410a-txv-small-condenser",
    "split-2-ton-r410a-orifice",
    "split-5-ton-r410a-txv-ecm",
    "split-2-ton-r32-txv",
    "split-3-ton-r32-txv-ecm",
    "split-3-ton-r454b-txv",
    "split-5-ton-r454b-txv-ecm",
    "split-3-ton-r22-txv",
    "split-3-ton-r22-orifice",
    "split-2-ton-r454b-txv-ecm-high-efficiency",
    "split-3-ton-r410a-txv-ecm-high-efficiency",
    "split-3-ton-r410a-orifice-high-efficiency",
    "split-5-ton-r410a-txv-ecm-high-efficiency",
];

static READ: [OnceLock<System>; NAMES.len()] = [const { OnceLock::new() }; NAMES.len()];

impl System {
    /// Names of the built-in systems.
    pub fn names() -> [&'static str; NAMES.len()] {
        NAMES
    }

    /// A built-in system by name; `None` if there is none of that name.
    pub fn built_in(name: &str) -> Option<System> {
        stands_before(NAMES.len(), name)
    }
}

/// The system of this name, if it is one of the first so many.
fn stands_before(count: usize, name: &str) -> Option<System> {
    let at = NAMES[..count].iter().position(|known| *known == name)?;
    Some(READ[at].get_or_init(|| read(at)).clone())
}

/// The first system is written out; each of the others is what differs from one that stands before it.
fn read(at: usize) -> System {
    let name = NAMES[at];
    let system = if at == 0 {
        ron::from_str(TEXTS[at]).map_err(|error| error.to_string())
    } else {
        read_difference(TEXTS[at], |base| stands_before(at, base))
    };
    let system = system.unwrap_or_else(|error| panic!("the built-in system {name} cannot be read: {error}"));
    assert_eq!(system.name, name, "a system's file and its name differ");
    system
}

/// A system as what differs from another one.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Differing {
    /// Name of the other one.
    base: String,
    differs: SystemDifference,
}

/// Reads a system that is written as a difference.
///
/// # Errors
/// A key that nobody knows, a base that there is none of, a parameter that neither has: each by its name.
fn read_difference(text: &str, base_of: impl FnOnce(&str) -> Option<System>) -> Result<System, String> {
    let Differing { base, differs } = ron::from_str(text).map_err(|error| error.to_string())?;
    let mut system = base_of(&base).ok_or_else(|| format!("there is no system {base} before it"))?;
    system.change(differs).map_err(|Missing(name)| format!("{name} is neither in it nor in {base}"))?;
    Ok(system)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn base() -> System {
        System::built_in("split-3-ton-r410a-txv").expect("built in")
    }

    fn read_with(differs: &str) -> Result<System, String> {
        read_difference(&format!("(base: \"any\", differs: ({differs}))"), |_| Some(base()))
    }

    #[test]
    fn what_is_not_written_is_that_of_the_base() {
        let read = read_with(
            "name: \"x\", condenser: (fan_power_w: 200.0), metering: Txv(bleed: 0.03), \
             controls: (low_pressure_opens_pa: Some(1.0e5)), plate: (blower_capacitor_f: None)",
        );
        let mut wanted = base();
        wanted.name = "x".to_owned();
        wanted.condenser.fan_power_w = 200.0;
        wanted.controls.low_pressure_opens_pa = Some(1.0e5);
        wanted.plate.blower_capacitor_f = None;
        if let crate::Metering::Txv { bleed, .. } = &mut wanted.metering {
            *bleed = 0.03;
        }
        assert_eq!(read, Ok(wanted));
    }

    #[test]
    fn what_is_wrong_is_named() {
        let error = |differs: &str| read_with(differs).expect_err(differs);
        for (differs, name) in [
            ("condenser: (fan_powr_w: 200.0)", "fan_powr_w"),
            ("condensr: (fan_power_w: 200.0)", "condensr"),
            ("metering: Txv(bled: 0.03)", "bled"),
            ("metering: Orifice(bore_m: 1.0e-3)", "length_m"),
            ("metering: Capillary(bore_m: 1.0e-3)", "Capillary"),
        ] {
            assert!(error(differs).contains(name), "{}", error(differs));
        }
        let without_base =
            read_difference("(differs: (name: \"x\"))", |_| Some(base())).expect_err("no base");
        assert!(without_base.contains("base"), "{without_base}");
        let unknown = read_difference("(base: \"y\", differs: ())", |_| None).expect_err("no such base");
        assert!(unknown.contains("system y"), "{unknown}");
    }
}
