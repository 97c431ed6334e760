//! The built-in systems: data files that are part of the program, each read once. The first is the base of the others.

use std::sync::OnceLock;

use super::{System, difference};

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
        difference::read(TEXTS[at], |base| stands_before(at, base))
    };
    let system = system.unwrap_or_else(|error| panic!("the built-in system {name} cannot be read: {error}"));
    assert_eq!(system.name, name, "a system's file and its name differ");
    system
}
