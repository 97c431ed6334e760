//! Names of older files.

use plant::FaultKind;

/// Keys and variants of older calls, moves files and records with their names of today, which they are read as.
pub const OLD_NAMES: &[(&str, &str)] = &[
    ("Mend", "Repair"),
    ("MattedCoilFace", "FouledEvaporator"),
    ("ClosedSupplies", "ClosedRegisters"),
    ("MeteringStuckThrottled", "MeteringRestricted"),
    ("BulbBareInColdAir", "UninsulatedBulb"),
    ("LeakingCompressor", "CompressorInternalLeak"),
];

/// The text with every kind of fault under the first name that it had.
pub(crate) fn under_first_names(text: &str) -> String {
    let mut told = String::with_capacity(text.len());
    let mut from = 0;
    for (at, word) in words(text) {
        if let Some(kind) = FaultKind::ALL.into_iter().find(|kind| kind.name() == word) {
            told.push_str(&text[from..at]);
            told.push_str(kind.first_name());
            from = at + word.len();
        }
    }
    told.push_str(&text[from..]);
    told
}

/// The words of a text with where each begins.
fn words(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let is_part = |letter: char| letter.is_alphanumeric() || letter == '_';
    let mut from = 0;
    text.split(move |letter| !is_part(letter)).filter_map(move |word| {
        let at = from;
        // What splits may take more than one byte.
        from += word.len() + text[at + word.len()..].chars().next().map_or(0, char::len_utf8);
        (!word.is_empty()).then_some((at, word))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_former_name_of_a_fault_is_among_them() {
        for kind in FaultKind::ALL {
            let former = kind.first_name();
            assert_eq!(former != kind.name(), OLD_NAMES.contains(&(former, kind.name())), "{former}");
        }
        for (former, now) in OLD_NAMES.iter().filter(|(former, _)| *former != "Mend") {
            assert_eq!(FaultKind::formerly(former).map(FaultKind::name), Some(*now));
        }
    }

    #[test]
    fn another_name_leaves_a_text_as_it_was() {
        let then = "(é: MattedCoilFace, kind: LeakingCompressor, UninsulatedBulbs)";
        let now = "(é: FouledEvaporator, kind: CompressorInternalLeak, UninsulatedBulbs)";
        assert_eq!(under_first_names(now), then);
        assert_eq!(under_first_names(then), then);
    }
}
