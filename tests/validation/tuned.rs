//! What was tuned, on what, and what it is held against instead. Nothing that tuned a parameter proves it.

/// What makes the compressor's map.
pub const SCROLL: &str = "displacement, clearance, friction, losses and built-in ratio of the scrolls";
/// Volumes of the orifice systems.
pub const ORIFICE_VOLUMES: &str =
    "charge of the orifice systems; volumes, superheat and subcooling of two of them";
/// Everything that was set at rating A.
pub const RATING_A: &str = "displacement, conductances, charge, spring and areas of every system";
/// How frost ages.
pub const FROST_DENSITY: &str = "density by which frost ages";
/// How a block of ice goes.
pub const THAW: &str = "how late a block of ice opens as it melts; heat through the cabinet at rest";
/// How much condensate stays on the coil.
pub const HELD_WATER: &str = "water that the fins hold";

/// A parameter that was tuned on data.
pub struct Tuning {
    /// The parameter.
    pub parameter: &'static str,
    /// The data.
    pub on: &'static str,
    /// Topics, and the words in the name of a check, that hold it to something it was not tuned on.
    pub against: &'static [(&'static str, &'static str)],
    /// The same in words.
    pub against_words: &'static str,
}

/// All of them. A test asks that each value marked as tuned names a parameter of this list, and that each parameter is held against a
/// check of the plant that tuned nothing.
pub const TUNINGS: [Tuning; 6] = [
    Tuning {
        parameter: RATING_A,
        on: "capacity, condensing and evaporating temperature, superheat and subcooling at rating A (docs/systems.md)",
        against: &[
            ("weather", "82 °F out"),
            ("pressures", "condensing over outdoors"),
            ("field", "valve, B"),
        ],
        against_words: "capacity, power, pressures, superheat and subcooling at every other weather",
    },
    Tuning {
        parameter: SCROLL,
        on: "flow and power at three points of the open map of ACHP (45/130, 50/90, 0/120 °F)",
        against: &[("compressor alone", "root mean square"), ("compressor", "isentropic efficiency")],
        against_words: "the rest of the map; the efficiency in the whole system",
    },
    Tuning {
        parameter: ORIFICE_VOLUMES,
        on: "the rule for superheat, 55 to 95 °F outdoors: its share of states within 5 °F, and 20 weathers",
        against: &[
            ("superheat", "above 95 °F"),
            ("superheat", "a degree of wet bulb"),
            ("superheat", "a degree outdoors"),
            ("low charge", "orifice"),
            ("directions", "R-22"),
        ],
        against_words: "the chart above 95 °F and its slopes; loss at low charge; signs of the faults",
    },
    Tuning {
        parameter: FROST_DENSITY,
        on: "density law of Hermes 2014, which the frost integrates",
        against: &[("frost", "ice of a coil"), ("frost", "ice of a starved coil")],
        against_words: "weight of a block of ice, ice of a starved coil",
    },
    Tuning {
        parameter: THAW,
        on: "one to two hours with the blower, half a day without, for a block behind a choked filter",
        against: &[("frost", "less ice")],
        against_words: "time of thaw of what low charge leaves: less ice, on a part of the coil",
    },
    Tuning {
        parameter: HELD_WATER,
        on: "1000 s of latent capacity at A before the first water drains",
        against: &[("frost", "first evaporation"), ("sensible", "sensible heat ratio")],
        against_words: "how fast it goes back under the fan; sensible share of steady running",
    },
];

/// The block of the document.
pub fn markdown() -> String {
    let mut text = "| parameter | tuned on | held against |\n|---|---|---|\n".to_owned();
    for tuning in &TUNINGS {
        text += &format!("| {} | {} | {} |\n", tuning.parameter, tuning.on, tuning.against_words);
    }
    text
}
