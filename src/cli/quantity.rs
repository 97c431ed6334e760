//! Values with their unit as written on the command line. A number without a unit is refused.

use media::units;
use plant::{FaultKind, LeakPlace};

/// A temperature as it was written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct TemperatureArgument {
    /// K.
    pub(crate) kelvin: f64,
}

/// Return air as it was written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct IndoorAir {
    /// Dry bulb, K.
    pub(crate) dry_bulb_k: f64,
    /// Its moisture.
    pub(crate) moisture: Moisture,
}

/// How the moisture of the return air was given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Moisture {
    /// Wet bulb, K.
    WetBulb(f64),
    /// Relative humidity, 0 to 1.
    RelativeHumidity(f64),
}

/// A fault as it was written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct FaultArgument {
    pub(crate) kind: FaultKind,
    pub(crate) place: Option<LeakPlace>,
    pub(crate) severity: f64,
}

/// `95F`, `35C` or `308.15K`.
pub(crate) fn temperature(text: &str) -> Result<TemperatureArgument, String> {
    let text = text.trim();
    let bare = text.strip_suffix(['F', 'f', 'C', 'c', 'K', 'k']).unwrap_or(text);
    let bare = bare.strip_suffix('°').unwrap_or(bare).trim_end();
    let number: f64 = bare.parse().map_err(|_| {
        format!("\"{text}\" is no temperature; write a number with its unit, like 95F or 35C")
    })?;
    if !number.is_finite() {
        return Err(format!("\"{text}\" is no finite temperature"));
    }
    let kelvin = match text.chars().last() {
        Some('F' | 'f') => units::kelvin_from_fahrenheit(number),
        Some('C' | 'c') => units::kelvin_from_celsius(number),
        Some('K' | 'k') => number,
        _ => return Err(format!("{text} has no unit; write {text}F or {text}C")),
    };
    if kelvin <= 0.0 {
        return Err(format!("{text} is below absolute zero"));
    }
    Ok(TemperatureArgument { kelvin })
}

/// `80F/67F` (dry bulb/wet bulb) or `80F/50%` (dry bulb/relative humidity).
pub(crate) fn indoor_air(text: &str) -> Result<IndoorAir, String> {
    let Some((dry, moisture)) = text.split_once('/') else {
        return Err(
            "write dry bulb and wet bulb like 80F/67F, or dry bulb and relative humidity like 80F/50%"
                .to_owned(),
        );
    };
    let dry_bulb_k = temperature(dry)?.kelvin;
    let moisture = moisture.trim();
    if let Some(percent) = moisture.strip_suffix('%') {
        let percent: f64 =
            percent.trim().parse().map_err(|_| format!("\"{moisture}\" is no relative humidity"))?;
        if !(0.0..=100.0).contains(&percent) {
            return Err(format!("a relative humidity of {moisture} is not between 0 % and 100 %"));
        }
        return Ok(IndoorAir { dry_bulb_k, moisture: Moisture::RelativeHumidity(percent / 100.0) });
    }
    let wet_bulb_k = temperature(moisture)?.kelvin;
    if wet_bulb_k > dry_bulb_k {
        return Err(format!("the wet bulb ({moisture}) cannot be above the dry bulb ({dry})"));
    }
    Ok(IndoorAir { dry_bulb_k, moisture: Moisture::WetBulb(wet_bulb_k) })
}

/// `loaded-filter=0.5` or `refrigerant-leak@indoor-coil=0.3`.
pub(crate) fn fault(text: &str) -> Result<FaultArgument, String> {
    let Some((name, severity)) = text.split_once('=') else {
        return Err(format!("\"{text}\" has no severity; write {text}=0.5"));
    };
    let (kind_name, place_name) = match name.split_once('@') {
        Some((kind, place)) => (kind.trim(), Some(place.trim())),
        None => (name.trim(), None),
    };
    let known = FaultKind::ALL.into_iter().find(|kind| kind.kebab() == kind_name);
    let kind = known.or_else(|| FaultKind::formerly(&camel(kind_name))).ok_or_else(|| {
        let known: Vec<&str> = FaultKind::ALL.iter().map(|kind| kind.kebab()).collect();
        let nearest = call::nearest(kind_name, &known)
            .map_or_else(String::new, |near| format!(" (did you mean {near}?)"));
        format!("there is no fault \"{kind_name}\"{nearest}; known are {}", known.join(", "))
    })?;
    let place = match place_name {
        Some(_) if !kind.needs_place() => {
            return Err(format!("{kind_name} has no place; leave \"@...\" out"));
        }
        Some(place_name) => Some(place(place_name)?),
        // Where leaks most often are (common practice, no source).
        None => kind.needs_place().then_some(LeakPlace::IndoorCoil),
    };
    let severity = share(severity)?;
    if severity > 1.0 {
        return Err(format!("a severity of {severity} is not between 0 and 1"));
    }
    Ok(FaultArgument { kind, place, severity })
}

/// A name as files have it: `loaded-filter` is `LoadedFilter`.
fn camel(name: &str) -> String {
    let word = |word: &str| {
        let mut letters = word.chars();
        letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
    };
    name.split('-').map(word).collect()
}

fn place(name: &str) -> Result<LeakPlace, String> {
    LeakPlace::ALL.into_iter().find(|place| place.kebab() == name).ok_or_else(|| {
        let known: Vec<&str> = LeakPlace::ALL.iter().map(|place| place.kebab()).collect();
        format!("there is no place \"{name}\"; known are {}", known.join(", "))
    })
}

/// `0.9` or `90%`; not negative.
pub(crate) fn share(text: &str) -> Result<f64, String> {
    let text = text.trim();
    let (number, scale) = match text.strip_suffix('%') {
        Some(percent) => (percent.trim(), 100.0),
        None => (text, 1.0),
    };
    let number: f64 =
        number.parse().map_err(|_| format!("\"{text}\" is no share; write it like 0.9 or 90%"))?;
    if !number.is_finite() || number < 0.0 {
        return Err(format!("{text} is not allowed: a share is zero or more"));
    }
    Ok(number / scale)
}

/// Hours to run on: from one to those of a week.
pub(crate) fn hours(text: &str) -> Result<f64, String> {
    let hours: f64 =
        text.trim().parse().map_err(|_| format!("\"{text}\" is no number of hours; write it like 24"))?;
    if !(1.0..=168.0).contains(&hours) {
        return Err(format!("{text} is not allowed: from 1 to 168 hours"));
    }
    Ok(hours)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn temperatures_carry_their_unit() {
        let kelvin = |text: &str| temperature(text).map(|written| written.kelvin);
        assert!((kelvin("95F").expect("good") - 308.15).abs() < 1e-9);
        assert!((kelvin("35C").expect("good") - 308.15).abs() < 1e-9);
        assert!((kelvin("35 °C").expect("good") - 308.15).abs() < 1e-9);
        assert!((kelvin("-40F").expect("good") - kelvin("-40C").expect("good")).abs() < 1e-9);
        assert_eq!(kelvin("95"), Err("95 has no unit; write 95F or 95C".to_owned()));
        for bad in ["", "F", "warm", "nanF", "infC", "-500F", "1e400K", "95Q", "°F", "35KC"] {
            assert!(temperature(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn indoor_air_needs_two_values() {
        let air = indoor_air("80F/67F").expect("good");
        assert!((air.dry_bulb_k - 299.816_666).abs() < 1e-4);
        assert!(matches!(air.moisture, Moisture::WetBulb(k) if (k - 292.594_444).abs() < 1e-4));
        assert_eq!(indoor_air("80F/50%").expect("good").moisture, Moisture::RelativeHumidity(0.5));
        for bad in ["80F", "80/67", "67F/80F", "80F/101%", "80F/x%", "/"] {
            assert!(indoor_air(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn faults_are_known_kinds_with_a_severity() {
        let leak = fault("refrigerant-leak@liquid-line=0.3").expect("good");
        assert_eq!((leak.place, leak.severity), (Some(LeakPlace::LiquidLine), 0.3));
        assert_eq!(fault("refrigerant-leak=30%").expect("good").place, Some(LeakPlace::IndoorCoil));
        // The name it had before is still taken.
        assert_eq!(fault("closed-supplies=0.5").expect("good").kind, FaultKind::ClosedRegisters);
        let near = fault("loaded-fliter=0.5").expect_err("misspelled");
        assert!(near.contains("did you mean loaded-filter?"), "{near}");
        for bad in
            ["loaded-filter", "loaded-filter=1.5", "loaded-filter@attic=0.5", "refrigerant-leak@attic=0.5"]
        {
            assert!(fault(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn every_name_reads_back() {
        for kind in FaultKind::ALL {
            assert_eq!(fault(&format!("{}=0.5", kind.kebab())).expect("known").kind, kind);
        }
        for one in LeakPlace::ALL {
            assert_eq!(place(one.kebab()), Ok(one));
        }
    }

    #[test]
    fn hours_are_those_of_a_week_at_most() {
        assert_eq!(hours("24"), Ok(24.0));
        assert!(
            hours("0").is_err() && hours("169").is_err() && hours("NaN").is_err() && hours("long").is_err()
        );
    }
}
