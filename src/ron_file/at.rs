//! A value in the tree: what is written there, as what it can be read, and what is noted where it can't.

use crate::context::Context;
use crate::hidden::{is_hidden, shown};
use crate::mistake::{Example, Inside, Mistake, Wanted};
use crate::tree::{Form, Part, Tree};

/// A value in the tree.
#[derive(Clone, Copy)]
pub(crate) struct At<'a, 't> {
    pub(crate) context: &'a Context<'a, 't>,
    pub(crate) index: usize,
    /// The key under which it stands, or under which what it stands in stands.
    pub(crate) key: Option<usize>,
}

impl<'a, 't> At<'a, 't> {
    pub(crate) fn new(context: &'a Context<'a, 't>, index: usize) -> At<'a, 't> {
        At { context, index, key: None }
    }

    pub(crate) fn tree(self) -> &'a Tree<'t> {
        self.context.tree
    }

    pub(crate) fn form(self) -> Form {
        self.tree().nodes[self.index].form
    }

    pub(crate) fn part(self, part: Part) -> At<'a, 't> {
        At { context: self.context, index: part.value, key: part.key.or(self.key) }
    }

    pub(crate) fn written(self) -> String {
        shown(self.tree().text_of(self.index))
    }

    pub(crate) fn inside(self) -> Inside {
        match self.key {
            Some(key) => Inside::Of(shown(self.tree().text_of(key))),
            None => Inside::File,
        }
    }

    pub(crate) fn example_of(self, key: &str) -> Example {
        let example = self.context.manner.examples.iter().find(|(name, _)| *name == key);
        example.map_or(Example::None, |(_, example)| Example::Of(format!("{key}: {example}")))
    }

    pub(crate) fn example(self) -> Example {
        self.key.map_or(Example::None, |key| self.example_of(self.tree().text_of(key)))
    }

    pub(crate) fn wrong(self, wanted: Wanted) {
        self.context.note(self.index, || Mistake::WrongSort {
            wanted,
            written: self.written(),
            example: self.example(),
        });
    }

    /// The plain word that stands here.
    pub(crate) fn plain(self) -> Option<&'t str> {
        (self.form() == Form::Word).then(|| self.tree().text_of(self.index)).filter(|word| !word.is_empty())
    }

    /// Whether a key without a value stands here, which is noted already.
    pub(crate) fn is_missing(self) -> bool {
        self.form() == Form::Word && self.tree().text_of(self.index).is_empty()
    }

    pub(crate) fn whole<N: TryFrom<i128> + Default>(self) -> N {
        if self.is_missing() {
            return N::default();
        }
        match self.plain().and_then(whole_number).and_then(|number| N::try_from(number).ok()) {
            Some(number) => number,
            None => {
                self.wrong(Wanted::Whole);
                N::default()
            }
        }
    }

    pub(crate) fn number(self) -> f64 {
        if self.is_missing() {
            return 0.0;
        }
        let number = self.plain().and_then(|word| word.replace('_', "").parse::<f64>().ok());
        match number {
            Some(number) if number.is_finite() => number,
            Some(_) => {
                self.context.note(self.index, || Mistake::NotFinite { written: self.written() });
                0.0
            }
            None => {
                self.wrong(Wanted::Number);
                0.0
            }
        }
    }

    pub(crate) fn text(self, wanted: Wanted) -> String {
        let written = self.tree().text_of(self.index);
        let text = match self.form() {
            Form::RawText => raw(written).to_owned(),
            Form::Text => match unescaped(&written[written.find('"').map_or(0, |at| at + 1)..]) {
                Some(text) => text,
                None => {
                    self.context.note(self.index, || Mistake::Escape);
                    return String::new();
                }
            },
            _ => {
                if !self.is_missing() {
                    self.wrong(wanted);
                }
                return String::new();
            }
        };
        // What is hidden as it stands was noted with the text as a whole.
        if let Some(hidden) = text.chars().find(|c| is_hidden(*c))
            && !written.chars().any(is_hidden)
        {
            self.context.note(self.index, || Mistake::hidden(hidden));
        }
        text
    }

    /// The parts of brackets that hold values without keys, of which so many belong there.
    pub(crate) fn values(self, count: usize) -> Vec<Part> {
        if self.form() != Form::Round || !self.tree().word(self.index).is_empty() {
            if !self.is_missing() {
                self.wrong(Wanted::Values);
            }
            return Vec::new();
        }
        self.unkeyed(count)
    }

    pub(crate) fn unkeyed(self, count: usize) -> Vec<Part> {
        let parts: Vec<Part> = self.tree().parts(self.index).collect();
        for part in &parts {
            if let Some(key) = part.key {
                let written = self.tree().text_of(key);
                self.context.note(key, || Mistake::KeyTooMuch { key: shown(written) });
            }
        }
        if parts.len() != count {
            let at = if parts.len() > count { parts[count].value } else { self.index };
            self.context.note(at, || Mistake::Count { wanted: count, found: parts.len() });
        }
        parts
    }
}

/// A whole number as RON writes it.
pub(crate) fn whole_number(word: &str) -> Option<i128> {
    let word = word.replace('_', "");
    let (sign, digits) = match word.strip_prefix('-') {
        Some(digits) => (-1, digits),
        None => (1, word.strip_prefix('+').unwrap_or(&word)),
    };
    let number = match digits.get(..2) {
        Some("0x") => i128::from_str_radix(&digits[2..], 16),
        Some("0o") => i128::from_str_radix(&digits[2..], 8),
        Some("0b") => i128::from_str_radix(&digits[2..], 2),
        _ if digits.bytes().all(|byte| byte.is_ascii_digit()) => digits.parse(),
        _ => return None,
    };
    Some(sign * number.ok()?)
}

/// What a raw text says: what stands between its quotes.
fn raw(written: &str) -> &str {
    let (Some(open), Some(close)) = (written.find('"'), written.rfind('"')) else { return "" };
    written.get(open + 1..close).unwrap_or_default()
}

/// What a text in quotes says, given what follows the first quote; none if an escape is none.
pub(crate) fn unescaped(quoted: &str) -> Option<String> {
    let quoted = quoted.strip_suffix('"').unwrap_or(quoted);
    let mut text = String::with_capacity(quoted.len());
    let mut letters = quoted.chars();
    while let Some(letter) = letters.next() {
        if letter != '\\' {
            text.push(letter);
            continue;
        }
        text.push(match letters.next()? {
            'n' => '\n',
            'r' => '\r',
            't' => '\t',
            '0' => '\0',
            same @ ('"' | '\'' | '\\') => same,
            'x' => {
                let high = letters.next()?.to_digit(16)?;
                let low = letters.next()?.to_digit(16)?;
                char::from_u32(16 * high + low)?
            }
            'u' => {
                let rest = letters.as_str().strip_prefix('{')?;
                let (code, rest) = rest.split_once('}')?;
                letters = rest.chars();
                char::from_u32(u32::from_str_radix(code, 16).ok()?)?
            }
            _ => return None,
        });
    }
    Some(text)
}
