//! Ways to spoil a text.

use crate::pairs::Dice;

/// What stands where a number stood.
const NUMBERS: [&str; 16] = [
    "1e999",
    "-1e999",
    "NaN",
    "-NaN",
    "inf",
    "-inf",
    "-1",
    "0",
    "-0.0",
    "1e308",
    "5e-324",
    "18446744073709551616",
    "0x1F",
    "1_000",
    "1.",
    "1e",
];
/// Characters that nobody sees, or that no file should have.
const STRANGE: [char; 12] = [
    '\0',
    '\u{7}',
    '\u{1b}',
    '\u{7f}',
    '\u{85}',
    '\u{200b}',
    '\u{202e}',
    '\u{2028}',
    '\u{feff}',
    '\u{fffd}',
    '\u{1f9ca}',
    '\r',
];
const BRACKETS: [char; 6] = ['(', ')', '[', ']', '{', '}'];
/// What begins or ends something.
const MARKS: [&str; 12] =
    ["\"", "'", "/*", "*/", "//", "r#\"", "\\", ":", ",", ",,", "#![enable(x)]", "Some("];
/// Longest part that is taken out, doubled or moved, characters.
const PART_MOST: f64 = 400.0;
/// Most brackets in a row.
const DEEP_MOST: f64 = 3000.0;

/// A text with one more thing wrong in it, or perhaps not.
pub(super) fn spoil(text: &str, dice: &mut Dice) -> String {
    match (dice.unit() * 14.0) as u32 {
        0 | 1 => near_miss(text, dice),
        2 => other_word(text, dice),
        3 => other_bracket(text, dice),
        4 => without_a_part(text, dice),
        5 => doubled(text, dice),
        6 => moved(text, dice),
        7 | 8 => other_number(text, dice),
        9 => ends(text, dice),
        10 => inserted(text, strange(dice).as_str(), dice),
        11 => inserted(text, dice.one_of(&MARKS).copied().unwrap_or(","), dice),
        12 => deep(text, dice),
        _ => cut_short(text, dice),
    }
}

/// A place in a text, in bytes, that is no inside of a character.
fn place(text: &str, dice: &mut Dice) -> usize {
    let mut at = (dice.unit() * (text.len() + 1) as f64) as usize;
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// Some part of a text; half of them whole lines.
fn part(text: &str, dice: &mut Dice) -> (usize, usize) {
    let start = place(text, dice);
    if dice.happens(0.5) {
        let from = text[..start].rfind('\n').map_or(0, |at| at + 1);
        let to = text[start..].find('\n').map_or(text.len(), |at| start + at + 1);
        return (from, to);
    }
    // Short ones more often.
    let length = libm::pow(PART_MOST, dice.unit()) as usize;
    let end = text[start..].char_indices().nth(length).map_or(text.len(), |(at, _)| start + at);
    (start, end)
}

/// Runs of characters that a rule takes: where each begins and ends.
fn runs(text: &str, takes: fn(char) -> bool) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut begun = None;
    for (at, letter) in text.char_indices().chain([(text.len(), ' ')]) {
        match (begun, takes(letter)) {
            (None, true) => begun = Some(at),
            (Some(from), false) => {
                found.push((from, at));
                begun = None;
            }
            _ => {}
        }
    }
    found
}

fn with(text: &str, (from, to): (usize, usize), put: &str) -> String {
    format!("{}{put}{}", &text[..from], &text[to..])
}

fn inserted(text: &str, put: &str, dice: &mut Dice) -> String {
    let at = place(text, dice);
    with(text, (at, at), put)
}

fn strange(dice: &mut Dice) -> String {
    dice.one_of(&STRANGE).map_or(String::new(), char::to_string)
}

fn word(text: &str, dice: &mut Dice) -> Option<(usize, usize)> {
    let words = runs(text, |letter| letter.is_ascii_alphanumeric() || letter == '_');
    let words: Vec<(usize, usize)> = words
        .into_iter()
        .filter(|(from, _)| text[*from..].starts_with(|c: char| c.is_ascii_alphabetic()))
        .collect();
    dice.one_of(&words).copied()
}

/// A word with a letter left out, doubled, swapped, of the other case or another.
fn near_miss(text: &str, dice: &mut Dice) -> String {
    let Some((from, to)) = word(text, dice) else { return text.to_owned() };
    let mut letters: Vec<char> = text[from..to].chars().collect();
    let at = (dice.unit() * letters.len() as f64) as usize;
    match (dice.unit() * 5.0) as u32 {
        0 => drop(letters.remove(at)),
        1 => letters.insert(at, letters[at]),
        2 if at + 1 < letters.len() => letters.swap(at, at + 1),
        3 if letters[at].is_ascii_lowercase() => letters[at].make_ascii_uppercase(),
        3 => letters[at].make_ascii_lowercase(),
        _ => letters[at] = 'q',
    }
    with(text, (from, to), &letters.into_iter().collect::<String>())
}

/// A word where another stood.
fn other_word(text: &str, dice: &mut Dice) -> String {
    match (word(text, dice), word(text, dice)) {
        (Some(place), Some((from, to))) => with(text, place, &text[from..to]),
        _ => text.to_owned(),
    }
}

fn other_bracket(text: &str, dice: &mut Dice) -> String {
    let all: Vec<usize> =
        text.char_indices().filter(|(_, c)| BRACKETS.contains(c)).map(|(at, _)| at).collect();
    let (Some(at), Some(bracket)) = (dice.one_of(&all), dice.one_of(&BRACKETS)) else {
        return text.to_owned();
    };
    with(text, (*at, at + 1), &bracket.to_string())
}

fn without_a_part(text: &str, dice: &mut Dice) -> String {
    with(text, part(text, dice), "")
}

/// A part twice, or many times.
fn doubled(text: &str, dice: &mut Dice) -> String {
    let (from, to) = part(text, dice);
    let times = if dice.happens(0.1) { 200 } else { 2 };
    with(text, (from, to), &text[from..to].repeat(times))
}

/// A part once more at another place.
fn moved(text: &str, dice: &mut Dice) -> String {
    let (from, to) = part(text, dice);
    inserted(text, &text[from..to], dice)
}

fn other_number(text: &str, dice: &mut Dice) -> String {
    let all = runs(text, |letter| letter.is_ascii_digit() || letter == '.');
    let (Some(place), Some(number)) = (dice.one_of(&all), dice.one_of(&NUMBERS)) else {
        return text.to_owned();
    };
    with(text, *place, number)
}

/// A mark of the byte order in front, or lines that end otherwise.
fn ends(text: &str, dice: &mut Dice) -> String {
    match (dice.unit() * 3.0) as u32 {
        0 => format!("\u{feff}{text}"),
        1 => text.replace('\n', "\r\n"),
        _ => text.replace('\n', "\r"),
    }
}

fn deep(text: &str, dice: &mut Dice) -> String {
    let many = libm::pow(DEEP_MOST, dice.unit()) as usize;
    let bracket = dice.one_of(&BRACKETS).map_or(String::new(), char::to_string);
    inserted(text, &bracket.repeat(many), dice)
}

fn cut_short(text: &str, dice: &mut Dice) -> String {
    text[..place(text, dice)].to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Nothing is drawn into the inside of a character, and all but a few spoilt texts are others.
    #[test]
    fn what_is_spoilt_is_another_text() {
        let text = "(kind: Drain, many: [1.5, 20, -3], title: \"Süd–West 🧊\",\n// ε\n)\n";
        let mut dice = Dice::new(0, 9);
        let same = (0..2000).filter(|_| spoil(text, &mut dice) == text).count();
        assert!(same < 200, "{same} of 2000");
        for empty in ["", "\n", "🧊"] {
            for _ in 0..500 {
                let _ = spoil(empty, &mut dice);
            }
        }
    }
}
