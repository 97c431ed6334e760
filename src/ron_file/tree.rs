//! A text as one tree: where each value stands. What is not RON is noted, and the reading goes on behind it.

use crate::hidden::is_hidden;
use crate::mistake::{Bracket, Mistake};

/// Deeper brackets are no file of ours; the bound keeps the stack.
pub(crate) const DEEPEST: usize = 128;
/// Most values and keys of one text: the record of the longest visit has a tenth of them, and their places take 80 MB.
pub(crate) const MOST_VALUES: usize = 4_000_000;
/// Longest text, bytes.
pub(crate) const LONGEST: usize = 64 * 1024 * 1024;

/// What a value is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Form {
    /// A name, a number, or nothing where a value should be.
    Word,
    /// A text in double quotes, escapes and all.
    Text,
    /// A raw text.
    RawText,
    /// A character in single quotes.
    Character,
    /// Round brackets, perhaps with a name before them.
    Round,
    /// A list.
    Square,
    /// A map.
    Curly,
}

/// A value or a key, in the order in which they stand; what is inside of one follows it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Node {
    /// Byte offset of its first character.
    pub start: u32,
    /// Byte offset after its last character.
    pub end: u32,
    /// Byte offset of the opening bracket; for what has none, where it ends.
    pub open: u32,
    /// Index after everything that is inside.
    pub next: u32,
    /// What it is.
    pub form: Form,
    /// Whether it is the key of the node behind it.
    pub is_key: bool,
}

/// One part of brackets.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Part {
    /// The key, if there is one.
    pub key: Option<usize>,
    /// The value.
    pub value: usize,
}

/// The tree of a text.
#[derive(Debug)]
pub(crate) struct Tree<'t> {
    /// The text, without a byte order mark.
    pub text: &'t str,
    /// Every node; the first is the whole. Empty if there is nothing in the text.
    pub nodes: Vec<Node>,
    /// Whether brackets and quotes close, so that what is inside of what is known.
    pub is_whole: bool,
}

impl<'t> Tree<'t> {
    /// Reads a text, noting what is not RON at its byte offset.
    pub(crate) fn read(text: &'t str, note: &mut dyn FnMut(usize, Mistake)) -> Tree<'t> {
        // Some editors put a byte order mark before a text.
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        if text.len() > LONGEST {
            note(0, Mistake::TooLong { bytes: text.len(), most: LONGEST });
            return Tree { text, nodes: Vec::new(), is_whole: false };
        }
        for (at, hidden) in text.char_indices().filter(|(_, c)| is_hidden(*c)) {
            note(at, Mistake::hidden(hidden));
        }
        let mut parser =
            Parser { text, at: 0, nodes: Vec::new(), open: Vec::new(), is_whole: true, is_full: false, note };
        parser.whole();
        let Parser { nodes, is_whole, .. } = parser;
        Tree { text, nodes, is_whole }
    }

    /// The text of a node.
    pub(crate) fn text_of(&self, index: usize) -> &'t str {
        let node = self.nodes[index];
        &self.text[node.start as usize..node.end as usize]
    }

    /// The name before round brackets, or a plain word.
    pub(crate) fn word(&self, index: usize) -> &'t str {
        let node = self.nodes[index];
        self.text[node.start as usize..node.open as usize].trim_end()
    }

    /// The parts of brackets, in order.
    pub(crate) fn parts(&self, index: usize) -> Parts<'_, 't> {
        Parts { tree: self, at: index + 1, end: self.nodes[index].next as usize }
    }

    /// The node at a path like `faults[1].severity[0]`, and whether the whole path was there; otherwise the innermost one that was.
    pub(crate) fn find(&self, path: &str) -> Option<(usize, bool)> {
        self.nodes.first()?;
        let mut index = 0;
        for step in path.split(['.', '[']).map(|step| step.trim_end_matches(']')).filter(|s| !s.is_empty()) {
            let part = match step.parse::<usize>() {
                Ok(place) => self.parts(index).nth(place),
                Err(_) => {
                    self.parts(index).find(|part| part.key.is_some_and(|key| self.text_of(key) == step))
                }
            };
            match part {
                Some(part) => index = part.value,
                None => return Some((index, false)),
            }
        }
        Some((index, true))
    }

    /// The path to what stands at a byte offset.
    pub(crate) fn path_to(&self, offset: usize) -> String {
        let mut path = String::new();
        let mut index = 0;
        if self.nodes.is_empty() {
            return path;
        }
        loop {
            let is_around = |part: &Part| {
                let from = self.nodes[part.key.unwrap_or(part.value)].start as usize;
                (from..=self.nodes[part.value].end as usize).contains(&offset)
            };
            let Some((place, part)) = self.parts(index).enumerate().find(|(_, part)| is_around(part)) else {
                return path;
            };
            match part.key {
                Some(key) if path.is_empty() => path.push_str(self.text_of(key)),
                Some(key) => path.push_str(&format!(".{}", self.text_of(key))),
                None => path.push_str(&format!("[{place}]")),
            }
            if path.len() > LONGEST_PATH {
                return path;
            }
            index = part.value;
        }
    }
}

/// Longest path that is told, bytes, give or take a key.
const LONGEST_PATH: usize = 200;

/// The parts of brackets.
pub(crate) struct Parts<'a, 't> {
    tree: &'a Tree<'t>,
    at: usize,
    end: usize,
}

impl Iterator for Parts<'_, '_> {
    type Item = Part;

    fn next(&mut self) -> Option<Part> {
        if self.at >= self.end {
            return None;
        }
        let node = self.tree.nodes[self.at];
        let part = if node.is_key && (node.next as usize) < self.end {
            Part { key: Some(self.at), value: node.next as usize }
        } else {
            Part { key: None, value: self.at }
        };
        self.at = self.tree.nodes[part.value].next as usize;
        Some(part)
    }
}

struct Parser<'t, 'n> {
    text: &'t str,
    at: usize,
    nodes: Vec<Node>,
    /// Brackets that are open, the innermost last.
    open: Vec<u8>,
    is_whole: bool,
    /// Whether there are more values than are read.
    is_full: bool,
    note: &'n mut dyn FnMut(usize, Mistake),
}

fn is_word(letter: char) -> bool {
    letter.is_alphanumeric() || matches!(letter, '_' | '.' | '+' | '-' | '#')
}

fn closing(open: u8) -> u8 {
    match open {
        b'(' => b')',
        b'[' => b']',
        _ => b'}',
    }
}

impl Parser<'_, '_> {
    fn byte(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    fn letter(&self) -> Option<char> {
        self.text[self.at..].chars().next()
    }

    fn step(&mut self) {
        self.at += self.letter().map_or(0, char::len_utf8);
    }

    fn whole(&mut self) {
        self.blank();
        // Lines that switch extensions of the language on.
        while self.text[self.at..].starts_with("#!") {
            self.at += self.text[self.at..].find('\n').unwrap_or(self.text.len() - self.at);
            self.blank();
        }
        if !self.value() {
            match self.letter() {
                Some(found) => (self.note)(self.at, Mistake::Character { found: found.to_string() }),
                None => (self.note)(0, Mistake::Nothing),
            }
            self.is_whole = false;
            return;
        }
        self.blank();
        if self.at < self.text.len() && !self.is_full {
            (self.note)(self.at, Mistake::AfterTheEnd);
        }
    }

    fn push(&mut self, start: usize, form: Form) -> usize {
        if self.nodes.len() >= MOST_VALUES && !self.is_full {
            (self.note)(start, Mistake::TooMany { most: MOST_VALUES });
            self.is_full = true;
            self.is_whole = false;
        }
        let index = self.nodes.len();
        let at = offset(self.at);
        let next = index as u32 + 1;
        self.nodes.push(Node { start: offset(start), end: at, open: at, next, form, is_key: false });
        index
    }

    /// Reads a value; false if none stands here.
    fn value(&mut self) -> bool {
        let start = self.at;
        match self.letter() {
            Some('"') => {
                self.quoted(start);
                self.push(start, Form::Text);
            }
            Some('\'') => {
                self.character();
                self.push(start, Form::Character);
            }
            Some('(' | '[' | '{') => self.brackets(start),
            Some('r' | 'b') if self.raw(start) => {}
            Some(letter) if is_word(letter) => {
                while self.letter().is_some_and(is_word) {
                    self.step();
                }
                let end = self.at;
                self.blank();
                if self.byte() == Some(b'(') && !letter.is_ascii_digit() {
                    self.brackets(start);
                } else {
                    self.at = end;
                    self.push(start, Form::Word);
                }
            }
            _ => return false,
        }
        true
    }

    fn brackets(&mut self, start: usize) {
        let open = self.at;
        let opened = self.text.as_bytes()[open];
        let form = match opened {
            b'(' => Form::Round,
            b'[' => Form::Square,
            _ => Form::Curly,
        };
        let index = self.push(start, form);
        self.at += 1;
        if self.open.len() >= DEEPEST {
            (self.note)(open, Mistake::TooDeep { most: DEEPEST });
            self.is_whole = false;
            self.is_full = true;
        }
        self.open.push(opened);
        while !self.is_full {
            self.blank();
            match self.byte() {
                None => {
                    // Of several that stay open, the innermost is told.
                    if self.is_whole {
                        (self.note)(open, Mistake::Unclosed(Bracket::of(opened)));
                    }
                    self.is_whole = false;
                    break;
                }
                Some(close @ (b')' | b']' | b'}')) => {
                    if close == closing(opened) {
                        self.at += 1;
                        break;
                    }
                    self.is_whole = false;
                    if self.open.iter().any(|open| closing(*open) == close) {
                        (self.note)(open, Mistake::Unclosed(Bracket::of(opened)));
                        break;
                    }
                    (self.note)(self.at, Mistake::ClosesNothing);
                    self.at += 1;
                }
                Some(b',' | b':') => self.stray(),
                Some(_) => self.part(form),
            }
        }
        self.open.pop();
        let next = self.nodes.len() as u32;
        let end = offset(self.at);
        let node = &mut self.nodes[index];
        (node.open, node.end, node.next) = (offset(open), end, next);
    }

    fn stray(&mut self) {
        if let Some(found) = self.letter() {
            (self.note)(self.at, Mistake::Character { found: found.to_string() });
        }
        self.step();
    }

    /// Reads a part of brackets and the comma after it.
    fn part(&mut self, form: Form) {
        let index = self.nodes.len();
        if !self.value() {
            return self.stray();
        }
        let after = self.at;
        self.blank();
        if self.byte() == Some(b':') {
            self.at += 1;
            self.value_of(index);
        } else if form == Form::Round && self.is_key_without_colon(index, after) {
            let key = self.text[self.nodes[index].start as usize..after].to_owned();
            (self.note)(self.at, Mistake::ColonMissing { key });
            self.value_of(index);
        }
        self.blank();
        match self.byte() {
            Some(b',') => self.at += 1,
            None | Some(b')' | b']' | b'}') => {}
            Some(_) if self.is_full => {}
            // What can't begin a value is told as such.
            Some(_)
                if self.letter().is_some_and(|c| is_word(c) || matches!(c, '"' | '\'' | '(' | '[' | '{')) =>
            {
                (self.note)(self.at, Mistake::CommaMissing);
            }
            Some(_) => {}
        }
    }

    /// The value of the key that was just read.
    fn value_of(&mut self, key: usize) {
        self.nodes[key].is_key = true;
        self.blank();
        if !self.value() {
            let key = self.nodes[key];
            let key = self.text[key.start as usize..key.end as usize].to_owned();
            (self.note)(self.at, Mistake::ValueMissing { key });
            self.push(self.at, Form::Word);
        }
    }

    /// Whether a plain name is followed, in its line, by something that looks like its value.
    fn is_key_without_colon(&self, index: usize, after: usize) -> bool {
        let node = self.nodes[index];
        let is_name = node.form == Form::Word
            && self.text[node.start as usize..].starts_with(|c: char| c.is_ascii_lowercase());
        let is_value = self.letter().is_some_and(|c| is_word(c) || matches!(c, '"' | '\'' | '[' | '{' | '('));
        is_name && is_value && !self.text[after..self.at].contains('\n')
    }

    fn quoted(&mut self, start: usize) {
        self.at += 1;
        loop {
            match self.byte() {
                None => return self.unclosed(start),
                Some(b'\\') => {
                    self.at += 1;
                    self.step();
                }
                Some(b'"') => {
                    self.at += 1;
                    return;
                }
                Some(_) => self.at += 1,
            }
        }
    }

    fn unclosed(&mut self, start: usize) {
        (self.note)(start, Mistake::Unclosed(Bracket::Quote));
        self.is_whole = false;
        self.at = self.text.len();
    }

    fn character(&mut self) {
        self.at += 1;
        if self.byte() == Some(b'\\') {
            self.at += 1;
        }
        self.step();
        while self.byte().is_some_and(|b| b.is_ascii_hexdigit() || matches!(b, b'{' | b'}')) {
            self.at += 1;
        }
        if self.byte() == Some(b'\'') {
            self.at += 1;
        }
    }

    /// Reads `r"…"`, `r#"…"#`, `b"…"` and `br"…"`; false if none stands here.
    fn raw(&mut self, start: usize) -> bool {
        let rest = &self.text[self.at..];
        let bytes = rest.strip_prefix('b').unwrap_or(rest);
        let raw = bytes.strip_prefix('r').unwrap_or(bytes);
        let hashes = if raw.len() < bytes.len() { raw.len() - raw.trim_start_matches('#').len() } else { 0 };
        if !raw[hashes..].starts_with('"') {
            return false;
        }
        self.at += rest.len() - raw.len() + hashes;
        if raw.len() == bytes.len() {
            self.quoted(start);
            self.push(start, Form::Text);
            return true;
        }
        let close = format!("\"{}", "#".repeat(hashes));
        let body = self.at + 1;
        match self.text[body..].find(&close) {
            Some(length) => self.at = body + length + close.len(),
            None => self.unclosed(start),
        }
        self.push(start, Form::RawText);
        true
    }

    /// Skips blanks and comments.
    fn blank(&mut self) {
        loop {
            let rest = &self.text[self.at..];
            if rest.starts_with("//") {
                self.at += rest.find('\n').unwrap_or(rest.len());
            } else if rest.starts_with("/*") {
                self.comment();
            } else if let Some(blank) = rest.chars().next().filter(|c| c.is_whitespace()) {
                self.at += blank.len_utf8();
            } else {
                return;
            }
        }
    }

    fn comment(&mut self) {
        let start = self.at;
        let bytes = self.text.as_bytes();
        let mut depth = 0_usize;
        while self.at + 1 < bytes.len() {
            match (bytes[self.at], bytes[self.at + 1]) {
                (b'/', b'*') => {
                    depth += 1;
                    self.at += 2;
                }
                (b'*', b'/') => {
                    depth -= 1;
                    self.at += 2;
                    if depth == 0 {
                        return;
                    }
                }
                _ => self.at += 1,
            }
        }
        (self.note)(start, Mistake::Unclosed(Bracket::Comment));
        self.is_whole = false;
        self.at = self.text.len();
    }
}

/// Texts are shorter than four gigabytes ([`LONGEST`]).
fn offset(at: usize) -> u32 {
    at as u32
}
