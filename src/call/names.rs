//! Names: the known one nearest to a misspelled one, and those that kinds of fault had before.

use plant::FaultKind;

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

/// A name that is still read and that nobody should write any more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FormerName {
    /// Line of the first place, from 1.
    pub line: usize,
    /// Column there, characters from 1.
    pub column: usize,
    /// As it is written.
    pub written: String,
    /// What it is called now.
    pub now: &'static str,
}

/// The former names of kinds of fault in a RON text, each where it stands first; not those in comments and strings.
#[must_use]
pub fn former_names(text: &str) -> Vec<FormerName> {
    let mut found: Vec<FormerName> = Vec::new();
    for (at, word) in words(text) {
        let Some(kind) = FaultKind::formerly(word) else { continue };
        if is_code(&text[..at]) && found.iter().all(|one| one.written != word) {
            let before = &text[..at];
            let line_from = before.rfind('\n').map_or(0, |end| end + 1);
            found.push(FormerName {
                line: before.matches('\n').count() + 1,
                column: before[line_from..].chars().count() + 1,
                written: word.to_owned(),
                now: kind.name(),
            });
        }
    }
    found
}

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

/// Whether what comes after this text is neither in a comment nor in a string.
fn is_code(before: &str) -> bool {
    let mut rest = before;
    loop {
        let Some(at) = rest.find(['"', '/']) else { return true };
        rest = &rest[at..];
        let (opens, closes) = match rest.as_bytes() {
            [b'/', b'/', ..] => ("//", "\n"),
            [b'/', b'*', ..] => ("/*", "*/"),
            [b'"', ..] => ("\"", "\""),
            _ => {
                rest = &rest[1..];
                continue;
            }
        };
        let inside = &rest[opens.len()..];
        let end = if opens == "\"" { end_of_string(inside) } else { inside.find(closes) };
        let Some(end) = end else { return false };
        rest = &inside[end + closes.len()..];
    }
}

/// Where the closing quote of a string stands.
fn end_of_string(inside: &str) -> Option<usize> {
    let mut escaped = false;
    inside.char_indices().find_map(|(at, letter)| {
        let closes = letter == '"' && !escaped;
        escaped = letter == '\\' && !escaped;
        closes.then_some(at)
    })
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

    #[test]
    fn a_former_name_is_told_once_and_where_it_is_a_name() {
        let text = "(// MattedCoilFace\n title: \"a \\\" MattedCoilFace\", /* ClosedSupplies */\n  é: MattedCoilFace, ClosedSupplies,\n \
                    MattedCoilFace, LoadedFilter, ClosedRegisters, BulbBareInColdAirs)";
        let at =
            |line, column, written: &str, now| FormerName { line, column, written: written.to_owned(), now };
        assert_eq!(
            former_names(text),
            [at(3, 6, "MattedCoilFace", "FouledEvaporator"), at(3, 22, "ClosedSupplies", "ClosedRegisters")]
        );
        assert_eq!(former_names("(kind: LoadedFilter)"), []);
    }

    #[test]
    fn another_name_leaves_a_text_as_it_was() {
        let then = "(é: MattedCoilFace, kind: LeakingCompressor, UninsulatedBulbs)";
        let now = "(é: FouledEvaporator, kind: CompressorInternalLeak, UninsulatedBulbs)";
        assert_eq!(under_first_names(now), then);
        assert_eq!(under_first_names(then), then);
    }
}
