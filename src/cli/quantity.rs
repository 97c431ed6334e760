//! Values with their unit as written on the command line. A number without a unit is refused.

use plant::{FaultKind, LeakPlace};
use quantity::Amount;
use quantity::typed::{self, IndoorAir, Untaken};
use words::Words;

/// A fault as it was written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct FaultArgument {
    pub(crate) kind: FaultKind,
    pub(crate) place: Option<LeakPlace>,
    pub(crate) severity: f64,
}

/// What is wrong with a typed quantity, said.
fn said(untaken: Untaken) -> String {
    Words::default().say(&untaken)
}

/// `95F`, `35C` or `308.15K`.
pub(crate) fn temperature(text: &str) -> Result<Amount, String> {
    typed::temperature(text).map_err(said)
}

/// `80F/67F` (dry bulb/wet bulb) or `80F/50%` (dry bulb/relative humidity).
pub(crate) fn indoor_air(text: &str) -> Result<IndoorAir, String> {
    typed::indoor_air(text).map_err(said)
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
        let nearest = ron_file::nearest(kind_name, &known)
            .first()
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
    typed::share(text).map_err(said)
}

/// Hours to run on.
pub(crate) fn hours(text: &str) -> Result<f64, String> {
    typed::hours(text).map_err(said)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_taken_is_told() {
        assert_eq!(temperature("95"), Err("95 has no unit; write 95F or 95C".to_owned()));
        assert!(indoor_air("80F").is_err() && share("-1").is_err() && hours("0").is_err());
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
}
