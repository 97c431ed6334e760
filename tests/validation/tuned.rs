//! What was tuned, on what, and what it is held against instead. Nothing that tuned a parameter proves it.

/// What makes the compressor's map.
pub const SCROLL: &str = "displacement, clearance, friction, losses and built-in ratio of the scrolls";
/// Volumes of the orifice systems.
pub const ORIFICE_VOLUMES: &str = "volumes, superheat and subcooling of two orifice systems";
/// Everything that was set at rating A.
pub const RATING_A: &str = "displacement, conductances, charge, spring and areas of every system";
/// How frost ages.
pub const FROST_DENSITY: &str = "density by which frost ages";

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
pub const TUNINGS: [Tuning; 4] = [
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
        on: "the rule for superheat at 20 weathers, 55 to 95 °F outdoors",
        against: &[
            ("superheat", "full chart"),
            ("superheat", "above 95 °F"),
            ("low charge", "orifice"),
            ("directions", "R-22"),
        ],
        against_words: "the full chart up to 115 °F, its slopes; loss at low charge; signs of the faults",
    },
    Tuning {
        parameter: FROST_DENSITY,
        on: "density law of Hermes 2014, which the frost integrates",
        against: &[("frost", "thaw")],
        against_words: "times of thaw, ice of a starved coil",
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
