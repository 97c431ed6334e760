//! "Did you mean": the known name nearest to a misspelled one.

/// Length of a word up to which it is guessed what was meant, characters.
const LONGEST_GUESSED: usize = 64;

/// The candidate with the fewest edits from `written`, if it is near enough to be what was meant: at most a
/// third of the longer name's letters (and always one). Capitals do not count. The first of equals wins.
#[must_use]
pub fn nearest<'a>(written: &str, candidates: &[&'a str]) -> Option<&'a str> {
    // No name is as long; what is took minutes and gigabytes.
    if written.chars().nth(LONGEST_GUESSED).is_some() {
        return None;
    }
    let written = written.to_lowercase();
    let mut best: Option<(usize, &'a str)> = None;
    for candidate in candidates {
        let distance = edit_distance(&written, &candidate.to_lowercase());
        let longest = written.chars().count().max(candidate.chars().count());
        if distance <= (longest / 3).max(1) && best.is_none_or(|(least, _)| distance < least) {
            best = Some((distance, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

/// Fewest insertions, deletions, replacements and swaps of neighbours between two words (optimal string alignment).
fn edit_distance(a: &str, b: &str) -> usize {
    let a: Vec<char> = a.chars().collect();
    let b: Vec<char> = b.chars().collect();
    let width = b.len() + 1;
    let mut table = vec![0_usize; (a.len() + 1) * width];
    for i in 0..=a.len() {
        for j in 0..=b.len() {
            table[i * width + j] = if i == 0 || j == 0 {
                i + j
            } else {
                let replaced = table[(i - 1) * width + j - 1] + usize::from(a[i - 1] != b[j - 1]);
                let deleted = table[(i - 1) * width + j] + 1;
                let inserted = table[i * width + j - 1] + 1;
                let mut least = replaced.min(deleted).min(inserted);
                if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                    least = least.min(table[(i - 2) * width + j - 2] + 1);
                }
                least
            };
        }
    }
    table[a.len() * width + b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn edits_are_counted() {
        assert_eq!(edit_distance("", "abc"), 3);
        assert_eq!(edit_distance("kitten", "sitting"), 3);
        assert_eq!(edit_distance("onest", "onset"), 1);
        assert_eq!(edit_distance("same", "same"), 0);
    }

    #[test]
    fn only_near_names_are_offered() {
        assert_eq!(nearest("severty", &["kind", "severity"]), Some("severity"));
        assert_eq!(nearest("loadedfilter", &["LoadedFilter"]), Some("LoadedFilter"));
        assert_eq!(nearest("banana", &["kind", "severity"]), None);
        let long = "s".repeat(15_000_000);
        assert_eq!(nearest(&long, &["severity", &long]), None, "no name is as long");
    }
}
