//! RON text to values, with every mistake that can be told in one go.
//!
//! The parser stops at its first error. Here the error is written down, mended in a copy of the text in the
//! least way that lets the parser go on (a misspelled name becomes the nearest known one, an unknown key is
//! dropped, a stand-in takes the place of a value of the wrong sort), and the copy is parsed again. Positions
//! are always those of the text as written.

use ron::error::{Position, SpannedError};
use ron::extensions::Extensions;
use serde::de::DeserializeOwned;

use crate::names::nearest;
use crate::problem::Problem;
use crate::scan::{Inside, Node, Scanned, scan};

/// More mistakes than this in one text are not collected.
pub(crate) const MOST_PROBLEMS: usize = 50;

/// Reads a value from RON text. `Some(…)` may be left out around optional values.
///
/// # Errors
/// Every mistake that can be told in one go, each with its position, what is allowed, and the nearest known name.
pub fn parse_ron<T: DeserializeOwned>(text: &str, file_name: &str) -> Result<T, Vec<Problem>> {
    let parsed = parse_ron_on::<T>(text, file_name, &[]);
    match parsed.value {
        Some(value) if parsed.problems.is_empty() => Ok(value),
        _ => Err(parsed.problems),
    }
}

/// Reads a value from RON text and collects mistakes as it goes on. `stand_ins` gives for a key the text of a
/// value that takes its place when it is missing or of the wrong sort; it also serves as the example in hints.
///
/// Without a stand-in, a faulty item of a list is left out and the reading goes on with the next.
pub fn parse_ron_on<T: DeserializeOwned>(
    text: &str,
    file_name: &str,
    stand_ins: &[(&str, &str)],
) -> Parsed<T> {
    let options = ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME);
    let mut draft = Draft { written: text.to_owned(), edits: Vec::new() };
    let mut problems = Vec::new();
    let mut value = None;
    for _ in 0..2 * MOST_PROBLEMS {
        let mended = draft.mended();
        let error = match options.from_str::<T>(&mended) {
            Ok(parsed) => {
                value = Some(parsed);
                break;
            }
            Err(error) => error,
        };
        let case = Case::of(&error, &mended, stand_ins);
        let inside_edit = draft.is_inside_edit(case.offset);
        if !inside_edit {
            let (line, column) = line_and_column(text, draft.written_offset(case.offset));
            problems.push(Problem {
                file: file_name.to_owned(),
                line,
                column,
                message: case.message.clone(),
                value: case.value.clone(),
                allowed: case.allowed.clone(),
                hint: case.hint.clone(),
            });
        }
        if problems.len() >= MOST_PROBLEMS {
            break;
        }
        let mend = if inside_edit { case.stand_in_mend(&mended, stand_ins) } else { case.mend };
        if !mend.is_some_and(|edit| draft.add(edit)) {
            break;
        }
    }
    let root = scan(&draft.mended()).root;
    Parsed { value, problems, file: file_name.to_owned(), draft, root }
}

/// What came of reading a text.
pub struct Parsed<T> {
    /// The value, of the mended text if there were problems; none if it could not be mended.
    pub value: Option<T>,
    /// Mistakes of writing. Unless there are none, the value serves only to look for further mistakes.
    pub problems: Vec<Problem>,
    file: String,
    draft: Draft,
    root: Node,
}

impl<T> Parsed<T> {
    /// A problem with the value at a path like `faults[1].severity[0]`, placed at the value, or at the innermost
    /// value on the path that is in the text. None if that value is a stand-in for one already reported.
    #[must_use]
    pub fn problem_at(&self, path: &str, message: String, allowed: String, hint: String) -> Option<Problem> {
        let found = self.root.find(path);
        let offset = found.node.start;
        if self.draft.is_inside_edit(offset) {
            return None;
        }
        let written_offset = self.draft.written_offset(offset);
        let (line, column) = line_and_column(&self.draft.written, written_offset);
        let mended_end = self.draft.written_offset(found.node.end);
        let value = if found.complete {
            self.draft.written.get(written_offset..mended_end).unwrap_or_default().to_owned()
        } else {
            String::new()
        };
        Some(Problem { file: self.file.clone(), line, column, message, value, allowed, hint })
    }
}

/// Line and column, both from 1, of a byte offset; the column counts characters.
fn line_and_column(text: &str, offset: usize) -> (usize, usize) {
    let before = &text[..offset.min(text.len())];
    let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
    (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
}

fn byte_offset(text: &str, position: Position) -> usize {
    let line_start = if position.line <= 1 {
        0
    } else {
        text.match_indices('\n').nth(position.line - 2).map_or(0, |(at, _)| at + 1)
    };
    let rest = &text[line_start..];
    line_start + rest.char_indices().nth(position.col - 1).map_or(rest.len(), |(at, _)| at)
}

/// The text as written with the mends made so far.
struct Draft {
    written: String,
    /// Replacements in the written text, in order of position, none overlapping.
    edits: Vec<Edit>,
}

/// Replace the bytes from `start` to `end` by `with`.
#[derive(Clone, Debug)]
struct Edit {
    start: usize,
    end: usize,
    with: String,
}

impl Draft {
    fn mended(&self) -> String {
        let mut text = String::with_capacity(self.written.len());
        let mut at = 0;
        for edit in &self.edits {
            text.push_str(&self.written[at..edit.start]);
            text.push_str(&edit.with);
            at = edit.end;
        }
        text.push_str(&self.written[at..]);
        text
    }

    /// Each edit with the offset in the mended text where its replacement begins.
    fn placed(&self) -> impl Iterator<Item = (&Edit, usize)> {
        let mut mended_at = 0;
        let mut written_at = 0;
        self.edits.iter().map(move |edit| {
            mended_at += edit.start - written_at;
            let begins = mended_at;
            mended_at += edit.with.len();
            written_at = edit.end;
            (edit, begins)
        })
    }

    /// Offset in the written text of an offset in the mended text.
    fn written_offset(&self, mended_offset: usize) -> usize {
        let mut shifted = mended_offset;
        for (edit, begins) in self.placed() {
            if mended_offset < begins {
                break;
            }
            if mended_offset < begins + edit.with.len() {
                return edit.start;
            }
            shifted = edit.end + (mended_offset - begins - edit.with.len());
        }
        shifted
    }

    fn is_inside_edit(&self, mended_offset: usize) -> bool {
        self.placed().any(|(edit, begins)| (begins..begins + edit.with.len()).contains(&mended_offset))
    }

    /// Takes over an edit in terms of the mended text; false if it would change nothing new.
    fn add(&mut self, edit: Edit) -> bool {
        let before = self.mended();
        let start = self.written_offset(edit.start);
        let end = self.written_offset(edit.end).max(start);
        let new = Edit { start, end, with: edit.with };
        self.edits.retain(|old| old.end <= start || old.start >= end);
        let index = self.edits.partition_point(|old| old.start <= start);
        self.edits.insert(index, new);
        self.mended() != before
    }
}

/// One error of the parser, in words, with the way to go on.
struct Case {
    offset: usize,
    message: String,
    value: String,
    allowed: String,
    hint: String,
    mend: Option<Edit>,
}

impl Case {
    fn of(error: &SpannedError, text: &str, stand_ins: &[(&str, &str)]) -> Case {
        let scanned = scan(text);
        let start = byte_offset(text, error.span.start);
        let end = byte_offset(text, error.span.end);
        let mut case = match &error.code {
            ron::Error::NoSuchStructField { expected, found, outer } => {
                Case::unknown_key(&scanned, start, expected, found, outer.as_deref())
            }
            ron::Error::NoSuchEnumVariant { expected, found, .. } => {
                let guess = nearest(found, expected);
                let mend = guess.map(|name| Edit { start, end, with: name.to_owned() });
                Case {
                    offset: start,
                    message: format!("`{found}` is not known here"),
                    value: found.clone(),
                    allowed: format!("one of {}", expected.join(", ")),
                    hint: guess.map(|name| format!("did you mean `{name}`?")).unwrap_or_default(),
                    mend,
                }
            }
            ron::Error::MissingStructField { field, outer } => {
                Case::missing_key(&scanned, start, field, outer.as_deref(), stand_ins)
            }
            ron::Error::DuplicateStructField { field, .. } => Case {
                offset: start,
                message: format!("the key `{field}` is here twice"),
                value: (*field).to_owned(),
                allowed: "each key once".to_owned(),
                hint: "take one of the two out".to_owned(),
                mend: field_removal(&scanned.root, start),
            },
            ron::Error::ExpectedComma => Case {
                offset: start,
                message: "a comma or a closing bracket is missing before this".to_owned(),
                value: String::new(),
                allowed: String::new(),
                hint: "values and keys are separated by commas; a bracket after a plain name is one too many"
                    .to_owned(),
                mend: Some(Edit { start, end: start, with: ",".to_owned() }),
            },
            other => Case::wrong_sort(other, &scanned, text, end, stand_ins),
        };
        if let Some(open) = scanned.unclosed {
            let (line, column) = line_and_column(text, open);
            let note = format!("what opens at line {line}, column {column} is never closed");
            case.hint = if case.hint.is_empty() { note } else { format!("{}; {note}", case.hint) };
            case.mend = None;
        }
        if case.mend.is_none() && scanned.unclosed.is_none() {
            case.mend = case.stand_in_mend(text, stand_ins);
        }
        case
    }

    fn unknown_key(
        scanned: &Scanned,
        start: usize,
        expected: &[&str],
        found: &str,
        outer: Option<&str>,
    ) -> Case {
        let chain = scanned.root.around(start);
        let parts = chain.last().map_or(&[][..], |(node, _)| node.parts());
        let siblings: Vec<&str> =
            parts.iter().filter_map(|part| part.key.as_ref()).map(|(key, _)| key.as_str()).collect();
        let free: Vec<&str> = expected.iter().copied().filter(|name| !siblings.contains(name)).collect();
        let guess = nearest(found, &free);
        let mend = match guess {
            Some(name) => Some(Edit { start, end: start + found.len(), with: name.to_owned() }),
            None => field_removal(&scanned.root, start),
        };
        Case {
            offset: start,
            message: format!("there is no key `{found}`{}", of_what(outer)),
            value: found.to_owned(),
            allowed: format!("keys {}", expected.join(", ")),
            hint: guess.map_or_else(|| "take it out".to_owned(), |name| format!("did you mean `{name}`?")),
            mend,
        }
    }

    fn missing_key(
        scanned: &Scanned,
        start: usize,
        field: &str,
        outer: Option<&str>,
        stand_ins: &[(&str, &str)],
    ) -> Case {
        // The parser stands at the closing bracket: the value that ends there lacks the key.
        let mut node = &scanned.root;
        for (parent, index) in scanned.root.around(start) {
            node = &parent.parts()[index].value;
            if node.end == start + 1 {
                break;
            }
        }
        let example = stand_in(field, stand_ins);
        let mend = match (example, &node.inside) {
            (Some(example), Inside::Parts { open, .. }) => {
                Some(Edit { start: open + 1, end: open + 1, with: format!("{field}: {example}, ") })
            }
            _ => None,
        };
        Case {
            offset: node.start,
            message: format!("the key `{field}` is missing{}", of_what(outer)),
            value: String::new(),
            allowed: String::new(),
            hint: example.map_or_else(
                || format!("add `{field}: …`"),
                |example| format!("add it, for example `{field}: {example}`"),
            ),
            mend,
        }
    }

    fn wrong_sort(
        error: &ron::Error,
        scanned: &Scanned,
        text: &str,
        end: usize,
        stand_ins: &[(&str, &str)],
    ) -> Case {
        let chain = scanned.root.around(end);
        let leaf = chain.last().map(|(node, index)| &node.parts()[*index].value);
        let offset = match leaf {
            Some(leaf) if leaf.parts().is_empty() && (leaf.start..=leaf.end).contains(&end) => leaf.start,
            _ => end.min(text.len()),
        };
        let value = leaf.map(|leaf| text[leaf.start..leaf.end].to_owned()).unwrap_or_default();
        let example = key_around(&chain).and_then(|key| Some((key, stand_in(key, stand_ins)?)));
        Case {
            offset,
            message: wrong_sort_message(error),
            value,
            allowed: String::new(),
            hint: example.map(|(key, example)| format!("for example `{key}: {example}`")).unwrap_or_default(),
            mend: None,
        }
    }

    /// A stand-in in place of the innermost keyed value, or the innermost list item left out.
    fn stand_in_mend(&self, text: &str, stand_ins: &[(&str, &str)]) -> Option<Edit> {
        let root = scan(text).root;
        let chain = root.around(self.offset);
        for (node, index) in chain.iter().rev() {
            let part = &node.parts()[*index];
            if let Some((key, _)) = &part.key
                && let Some(example) = stand_in(key, stand_ins)
            {
                let with = example.to_owned();
                return Some(Edit { start: part.value.start, end: part.value.end, with });
            }
            let is_list =
                matches!(&node.inside, Inside::Parts { open, .. } if text[*open..].starts_with('['));
            if is_list && part.key.is_none() && stand_ins.is_empty() {
                return Some(removal(node, *index));
            }
        }
        None
    }
}

fn of_what(outer: Option<&str>) -> String {
    outer.map(|name| format!(" in {name}")).unwrap_or_default()
}

fn stand_in<'a>(key: &str, stand_ins: &[(&'a str, &'a str)]) -> Option<&'a str> {
    stand_ins.iter().find(|(name, _)| *name == key).map(|(_, text)| *text)
}

fn key_around<'a>(chain: &[(&'a Node, usize)]) -> Option<&'a str> {
    chain
        .iter()
        .rev()
        .find_map(|(node, index)| node.parts()[*index].key.as_ref())
        .map(|(key, _)| key.as_str())
}

fn field_removal(root: &Node, key_start: usize) -> Option<Edit> {
    let chain = root.around(key_start);
    let (node, index) = chain.iter().rev().find(|(node, index)| node.parts()[*index].start() == key_start)?;
    Some(removal(node, *index))
}

/// Leaves out a part with one comma: up to the next part, or from the end of the one before.
fn removal(node: &Node, index: usize) -> Edit {
    let parts = node.parts();
    let part = &parts[index];
    let (start, end) = if let Some(next) = parts.get(index + 1) {
        (part.start(), next.start())
    } else if index > 0 {
        (parts[index - 1].value.end, part.value.end)
    } else {
        (part.start(), node.end.saturating_sub(1).max(part.value.end))
    };
    Edit { start, end, with: String::new() }
}

fn wrong_sort_message(error: &ron::Error) -> String {
    use ron::Error as E;
    match error {
        E::ExpectedFloat | E::UnderscoreAtBeginning | E::FloatUnderscore => {
            "a number belongs here".to_owned()
        }
        E::ExpectedInteger | E::IntegerOutOfBounds | E::InvalidIntegerDigit { .. } => {
            "a whole number, zero or more, belongs here".to_owned()
        }
        E::ExpectedString => "a text in double quotes belongs here".to_owned(),
        E::ExpectedStringEnd => "a text is never closed with its double quote".to_owned(),
        E::ExpectedBoolean => "true or false belongs here".to_owned(),
        E::ExpectedArray => "a list in square brackets belongs here".to_owned(),
        E::ExpectedArrayEnd => "the closing `]` is missing, or there is one value too many".to_owned(),
        E::ExpectedStructLike | E::ExpectedNamedStructLike(_) => {
            "a value in round brackets belongs here".to_owned()
        }
        E::ExpectedStructLikeEnd => "the closing `)` is missing, or there is one value too many".to_owned(),
        E::ExpectedMapColon => "a colon is missing after the key".to_owned(),
        E::ExpectedDifferentLength { expected, found } => format!("{expected} belongs here, not {found}"),
        E::ExpectedIdentifier => "a name belongs here".to_owned(),
        E::SuggestRawIdentifier(found) | E::InvalidIdentifier(found) => {
            format!("a name belongs here, not `{found}`")
        }
        E::TrailingCharacters => "there is more text after the end".to_owned(),
        E::Eof => "the text ends too early".to_owned(),
        E::UnclosedBlockComment => "a comment is never closed with `*/`".to_owned(),
        E::InvalidValueForType { expected, found } => format!("{expected} belongs here, not {found}"),
        other => other.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use serde::Deserialize;

    use super::*;

    #[derive(Debug, Deserialize, PartialEq)]
    enum Span {
        Minutes(f64),
        Hours(f64),
    }

    #[derive(Debug, Deserialize, PartialEq)]
    enum Step {
        Wait(Span),
        Stop,
    }

    #[derive(Debug, Deserialize, PartialEq)]
    #[serde(rename = "the plan", deny_unknown_fields)]
    struct Plan {
        size: f64,
        span: (Span, Span),
        #[serde(default)]
        note: Option<String>,
    }

    const STAND_INS: &[(&str, &str)] = &[("size", "1"), ("span", "(Hours(1), Hours(2))"), ("note", "\"\"")];

    fn places<T>(parsed: &Parsed<T>) -> Vec<(usize, usize)> {
        parsed.problems.iter().map(|problem| (problem.line, problem.column)).collect()
    }

    #[test]
    fn a_sound_text_is_read() {
        let plan =
            parse_ron::<Plan>("(size: 2, span: (Minutes(1), Hours(2.5)), note: \"x\")", "p.ron").unwrap();
        assert_eq!(
            plan,
            Plan { size: 2.0, span: (Span::Minutes(1.0), Span::Hours(2.5)), note: Some("x".into()) }
        );
    }

    #[test]
    fn an_unknown_key_names_its_place_and_the_nearest() {
        let problem =
            parse_ron::<Plan>("(\n  sise: 2, span: (Hours(1), Hours(2)))", "p.ron").unwrap_err().remove(0);
        assert_eq!((problem.line, problem.column), (2, 3));
        assert_eq!(
            problem.to_string(),
            "p.ron:2:3: there is no key `sise` in the plan: keys size, span, note; hint: did you mean `size`?"
        );
    }

    #[test]
    fn mistakes_of_every_sort_are_collected_where_they_stand() {
        let text = "(\n  banana: [1, 2],\n  size: \"big\",\n  span: (Hour(1), Minutes(2)),\n  nott: 3,\n)";
        let parsed = parse_ron_on::<Plan>(text, "p.ron", STAND_INS);
        assert_eq!(places(&parsed), [(2, 3), (3, 9), (4, 10), (5, 3), (5, 9)], "{:#?}", parsed.problems);
        assert!(parsed.value.is_some());
    }

    #[test]
    fn a_missing_key_is_reported_at_its_brackets() {
        let parsed = parse_ron_on::<Vec<Plan>>(
            "[\n  (size: 1, span: (Hours(1), Hours(2))),\n  (size: 1),\n  (span: (Hours(1), Hours(2)))]",
            "p.ron",
            STAND_INS,
        );
        assert_eq!(places(&parsed), [(3, 3), (4, 3)]);
        assert!(parsed.problems[0].hint.contains("span: (Hours(1), Hours(2))"), "{}", parsed.problems[0]);
    }

    #[test]
    fn faulty_items_of_a_list_do_not_hide_the_next() {
        let text =
            "[\n  Stop,\n  Wiat(Hours(1)),\n  Wait(3),\n  Wait(Hours(\"x\")),\n  Fly(Hours(1)),\n  Stop\n]";
        let parsed = parse_ron_on::<Vec<Step>>(text, "m.ron", &[]);
        assert_eq!(places(&parsed), [(3, 3), (4, 8), (5, 14), (6, 3)], "{:#?}", parsed.problems);
        assert_eq!(parsed.value, Some(vec![Step::Stop, Step::Wait(Span::Hours(1.0)), Step::Stop]));
    }

    #[test]
    fn an_open_bracket_is_named() {
        let problem =
            parse_ron::<Plan>("(size: 1,\n span: (Hours(1), Hours(2))", "p.ron").unwrap_err().remove(0);
        assert!(problem.hint.contains("line 1, column 1"), "{problem}");
    }

    #[test]
    fn a_missing_comma_hides_nothing() {
        let text = "(size: 1\n span: (Hours(1), Houres(2)))";
        let parsed = parse_ron_on::<Plan>(text, "p.ron", STAND_INS);
        assert_eq!(places(&parsed), [(2, 2), (2, 19)], "{:#?}", parsed.problems);
    }

    #[test]
    fn columns_count_characters_not_bytes() {
        let problem = parse_ron::<Plan>("(note: \"é°é\", sise: 2)", "p.ron").unwrap_err().remove(0);
        assert_eq!((problem.line, problem.column), (1, 15));
    }

    proptest::proptest! {
        #[test]
        fn no_text_panics(text in "[(){}\\[\\],:a-zA-Z0-9\"'/*#.\\\\ \né-]{0,60}") {
            let parsed = parse_ron_on::<Plan>(&text, "p.ron", STAND_INS);
            proptest::prop_assert!(parsed.value.is_some() || !parsed.problems.is_empty());
        }
    }
}
