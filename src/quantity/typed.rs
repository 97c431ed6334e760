//! Quantities as they are typed on the command line: `95F`, `80F/67F`, `90%`. A number without a unit is refused.

use crate::{Amount, Unit};
use serde::{Deserialize, Serialize};

/// What is wrong with a typed quantity. Texts are those that were typed, cut off where nobody reads on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Untaken {
    /// No temperature.
    NoTemperature {
        /// What was typed.
        typed: String,
    },
    /// A number without a unit.
    NoUnit {
        /// What was typed.
        typed: String,
    },
    /// No finite number.
    NotFinite {
        /// What was typed.
        typed: String,
    },
    /// Below absolute zero.
    BelowZero {
        /// What was typed.
        typed: String,
    },
    /// Only one of dry bulb and moisture.
    OneOfTwo,
    /// No relative humidity.
    NoHumidity {
        /// What was typed.
        typed: String,
    },
    /// A relative humidity that is not between 0 % and 100 %.
    Humidity {
        /// What was typed.
        typed: String,
    },
    /// A wet bulb above the dry bulb.
    WetAboveDry {
        /// The wet bulb.
        wet: String,
        /// The dry bulb.
        dry: String,
    },
    /// No share.
    NoShare {
        /// What was typed.
        typed: String,
    },
    /// A share below nothing.
    Negative {
        /// What was typed.
        typed: String,
    },
    /// No number of hours.
    NoHours {
        /// What was typed.
        typed: String,
    },
    /// Hours that are fewer or more than are allowed.
    Hours {
        /// What was typed.
        typed: String,
        /// Fewest.
        low: f64,
        /// Most.
        high: f64,
    },
}

/// Return air as it was typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IndoorAir {
    /// Dry bulb.
    pub dry_bulb: Amount,
    /// Its moisture.
    pub moisture: Moisture,
}

/// How the moisture of the return air was given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Moisture {
    /// Wet bulb.
    WetBulb(Amount),
    /// Relative humidity, 0 to 1.
    RelativeHumidity(f64),
}

/// Letters of what was typed that are repeated.
const REPEATED: usize = 40;

fn repeated(text: &str) -> String {
    let mut told: String = text.chars().take(REPEATED).filter(|letter| !letter.is_control()).collect();
    if text.chars().nth(REPEATED).is_some() {
        told.push('…');
    }
    told
}

/// `95F`, `35C` or `308.15K`; the unit kelvin comes back as degrees Celsius.
///
/// # Errors
/// If there is no unit, no finite number, or nothing is so cold.
pub fn temperature(text: &str) -> Result<Amount, Untaken> {
    let text = text.trim();
    let typed = || repeated(text);
    let bare = text.strip_suffix(['F', 'f', 'C', 'c', 'K', 'k']).unwrap_or(text);
    let bare = bare.strip_suffix('°').unwrap_or(bare).trim_end();
    let number: f64 = bare.parse().map_err(|_| Untaken::NoTemperature { typed: typed() })?;
    if !number.is_finite() {
        return Err(Untaken::NotFinite { typed: typed() });
    }
    let amount = match text.chars().last() {
        Some('F' | 'f') => Amount::new(number, Unit::Fahrenheit),
        Some('C' | 'c') => Amount::new(number, Unit::Celsius),
        Some('K' | 'k') => Unit::Celsius.of_si(number),
        _ => return Err(Untaken::NoUnit { typed: typed() }),
    };
    if amount.si() <= 0.0 {
        return Err(Untaken::BelowZero { typed: typed() });
    }
    Ok(amount)
}

/// `80F/67F` (dry bulb/wet bulb) or `80F/50%` (dry bulb/relative humidity).
///
/// # Errors
/// If one of the two is missing or none, or the wet bulb lies above the dry bulb.
pub fn indoor_air(text: &str) -> Result<IndoorAir, Untaken> {
    let (dry, moisture) = text.split_once('/').ok_or(Untaken::OneOfTwo)?;
    let dry_bulb = temperature(dry)?;
    let moisture = moisture.trim();
    if let Some(percent) = moisture.strip_suffix('%') {
        let percent: f64 =
            percent.trim().parse().map_err(|_| Untaken::NoHumidity { typed: repeated(moisture) })?;
        if !(0.0..=100.0).contains(&percent) {
            return Err(Untaken::Humidity { typed: repeated(moisture) });
        }
        return Ok(IndoorAir { dry_bulb, moisture: Moisture::RelativeHumidity(percent / 100.0) });
    }
    let wet_bulb = temperature(moisture)?;
    if wet_bulb.si() > dry_bulb.si() {
        return Err(Untaken::WetAboveDry { wet: repeated(moisture), dry: repeated(dry) });
    }
    Ok(IndoorAir { dry_bulb, moisture: Moisture::WetBulb(wet_bulb) })
}

/// `0.9` or `90%`; not negative.
///
/// # Errors
/// If it is no number, or less than nothing.
pub fn share(text: &str) -> Result<f64, Untaken> {
    let text = text.trim();
    let (number, scale) = match text.strip_suffix('%') {
        Some(percent) => (percent.trim(), 100.0),
        None => (text, 1.0),
    };
    let number: f64 = number.parse().map_err(|_| Untaken::NoShare { typed: repeated(text) })?;
    if !number.is_finite() || number < 0.0 {
        return Err(Untaken::Negative { typed: repeated(text) });
    }
    Ok(number / scale)
}

/// Fewest and most hours to run on: those of a week.
const HOURS: (f64, f64) = (1.0, 168.0);

/// Hours to run on.
///
/// # Errors
/// If it is no number, or not from one hour to those of a week.
pub fn hours(text: &str) -> Result<f64, Untaken> {
    let hours: f64 = text.trim().parse().map_err(|_| Untaken::NoHours { typed: repeated(text) })?;
    if !(HOURS.0..=HOURS.1).contains(&hours) {
        return Err(Untaken::Hours { typed: repeated(text), low: HOURS.0, high: HOURS.1 });
    }
    Ok(hours)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn temperatures_carry_their_unit() {
        let kelvin = |text: &str| temperature(text).map(Amount::si);
        for (text, kelvin_k) in
            [("95F", 308.15), ("35C", 308.15), ("35 °C", 308.15), ("308.15K", 308.15), ("-40F", 233.15)]
        {
            assert!((kelvin(text).expect(text) - kelvin_k).abs() < 1e-9, "{text}");
        }
        assert_eq!(kelvin("95"), Err(Untaken::NoUnit { typed: "95".to_owned() }));
        for bad in ["", "F", "warm", "nanF", "infC", "-500F", "1e400K", "95Q", "°F", "35KC"] {
            assert!(temperature(bad).is_err(), "{bad}");
        }
        let long = format!("{}F", "9".repeat(100_000));
        let Err(Untaken::NotFinite { typed }) = temperature(&long) else { panic!("no finite number") };
        assert_eq!(typed.chars().count(), 41);
    }

    #[test]
    fn indoor_air_needs_two_values() {
        let air = indoor_air("80F/67F").expect("good");
        assert!((air.dry_bulb.si() - 299.816_666).abs() < 1e-4);
        assert!(matches!(air.moisture, Moisture::WetBulb(wet) if (wet.si() - 292.594_444).abs() < 1e-4));
        assert_eq!(indoor_air("80F/50%").expect("good").moisture, Moisture::RelativeHumidity(0.5));
        assert!(indoor_air("-13F/-14F").is_ok());
        for bad in ["80F", "80/67", "67F/80F", "80F/101%", "80F/x%", "/"] {
            assert!(indoor_air(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn shares_are_not_negative_and_hours_are_those_of_a_week() {
        assert_eq!((share("90%"), share("0.9")), (Ok(0.9), Ok(0.9)));
        assert!(share("-1").is_err() && share("NaN").is_err() && share("x").is_err());
        assert_eq!(hours("24"), Ok(24.0));
        for bad in ["0", "169", "NaN", "long"] {
            assert!(hours(bad).is_err(), "{bad}");
        }
    }
}
