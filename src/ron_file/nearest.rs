//! "Did you mean": the known names nearest to a misspelled one.

use strsim::osa_distance;

/// Length of a word up to which it is guessed what was meant, characters.
const LONGEST_GUESSED: usize = 64;
/// Most names that are offered.
const MOST_OFFERED: usize = 3;

/// The candidates with the fewest edits from `written` (optimal string alignment), at most three, the nearest first: those near enough to be
/// what was meant, at most a third of the longer name's letters away (and always one). Capitals do not count. The first of equals goes first.
pub fn nearest<'a>(written: &str, candidates: &[&'a str]) -> Vec<&'a str> {
    // No name is as long; what is took minutes and gigabytes.
    if written.chars().nth(LONGEST_GUESSED).is_some() {
        return Vec::new();
    }
    let written = written.to_lowercase();
    let letters = written.chars().count();
    let mut near: Vec<(usize, &str)> = candidates
        .iter()
        .filter_map(|candidate| {
            let longest = letters.max(candidate.chars().count());
            let distance = osa_distance(&written, &candidate.to_lowercase());
            (distance <= (longest / 3).max(1)).then_some((distance, *candidate))
        })
        .collect();
    near.sort_by_key(|(distance, _)| *distance);
    near.into_iter().take(MOST_OFFERED).map(|(_, candidate)| candidate).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_near_names_are_offered_and_the_nearest_first() {
        assert_eq!(nearest("severty", &["kind", "severity"]), ["severity"]);
        assert_eq!(nearest("loadedfilter", &["LoadedFilter"]), ["LoadedFilter"]);
        assert_eq!(
            nearest("onest", &["unrest", "onset"]),
            ["onset", "unrest"],
            "two letters swapped are one edit"
        );
        assert_eq!(nearest("bulb", &["bulbs", "bulb", "bull", "bald", "bub"]), ["bulb", "bulbs", "bull"]);
        assert!(nearest("banana", &["kind", "severity"]).is_empty());
        let long = "s".repeat(15_000_000);
        assert!(nearest(&long, &["severity", &long]).is_empty(), "no name is as long");
    }
}
