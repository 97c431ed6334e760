//! A tolerant scanner of RON text: where each value stands. It judges nothing; the parser does.

/// A value in the text.
#[derive(Clone, Debug)]
pub(crate) struct Node {
    /// Byte offset of its first character.
    pub start: usize,
    /// Byte offset after its last character.
    pub end: usize,
    /// What is inside.
    pub inside: Inside,
}

/// What is inside a value.
#[derive(Clone, Debug)]
pub(crate) enum Inside {
    /// A name, number, string or character.
    Nothing,
    /// Brackets, the opening one at byte offset `open`.
    Parts { open: usize, parts: Vec<Part> },
}

/// One part of a bracketed value: a keyed field or a plain item.
#[derive(Clone, Debug)]
pub(crate) struct Part {
    /// The key, if any, with its byte offset.
    pub key: Option<(String, usize)>,
    /// The value.
    pub value: Node,
}

impl Part {
    /// Where the part begins: at its key, or at its value.
    pub(crate) fn start(&self) -> usize {
        self.key.as_ref().map_or(self.value.start, |(_, start)| *start)
    }
}

impl Node {
    /// The parts, if bracketed.
    pub(crate) fn parts(&self) -> &[Part] {
        match &self.inside {
            Inside::Nothing => &[],
            Inside::Parts { parts, .. } => parts,
        }
    }

    /// The part at a path like `faults[1].severity[0]`, as deep as the text goes.
    pub(crate) fn find(&self, path: &str) -> Found<'_> {
        let mut node = self;
        for step in path.split(['.', '[']).map(|step| step.trim_end_matches(']')).filter(|s| !s.is_empty()) {
            let parts = node.parts();
            let next = match step.parse::<usize>() {
                Ok(index) => parts.get(index),
                Err(_) => parts.iter().find(|part| part.key.as_ref().is_some_and(|(key, _)| key == step)),
            };
            match next {
                Some(part) => node = &part.value,
                None => return Found { node, complete: false },
            }
        }
        Found { node, complete: true }
    }

    /// The parts that lie around a byte offset, outermost first.
    pub(crate) fn around(&self, offset: usize) -> Vec<(&Node, usize)> {
        let mut chain = Vec::new();
        let mut node = self;
        while let Some(index) =
            node.parts().iter().position(|part| part.start() <= offset && offset <= part.value.end)
        {
            chain.push((node, index));
            node = &node.parts()[index].value;
        }
        chain
    }
}

/// What a path leads to.
pub(crate) struct Found<'a> {
    /// The value.
    pub node: &'a Node,
    /// Whether the whole path was there; otherwise the value is the innermost one that was.
    pub complete: bool,
}

/// Scans a text.
pub(crate) fn scan(text: &str) -> Scanned {
    let mut scanner = Scanner { text, at: 0, unclosed: None };
    scanner.skip_blank();
    while text[scanner.at..].starts_with("#!") {
        while scanner.peek().is_some_and(|c| c != '\n') {
            scanner.advance();
        }
        scanner.skip_blank();
    }
    let root = scanner.value();
    Scanned { root, unclosed: scanner.unclosed }
}

/// A scanned text.
pub(crate) struct Scanned {
    /// The whole value.
    pub root: Node,
    /// Byte offset of the innermost bracket or string that is never closed.
    pub unclosed: Option<usize>,
}

struct Scanner<'a> {
    text: &'a str,
    at: usize,
    unclosed: Option<usize>,
}

/// Deeper brackets than the parser's own limit are skipped over, so that no text can exhaust the stack.
const DEEPEST: usize = 128;

impl Scanner<'_> {
    fn peek(&self) -> Option<char> {
        self.text[self.at..].chars().next()
    }

    fn advance(&mut self) {
        self.at += self.peek().map_or(0, char::len_utf8);
    }

    fn value(&mut self) -> Node {
        self.value_at_depth(0)
    }

    fn value_at_depth(&mut self, depth: usize) -> Node {
        let start = self.at;
        match self.peek() {
            Some('"') => self.string(start),
            Some('\'') => self.character(),
            Some('r' | 'b') if self.raw_string() => {}
            _ => self.word(),
        }
        let after_word = self.at;
        self.skip_blank();
        let bracket_follows = match self.peek() {
            Some('(') => true,
            Some('[' | '{') => after_word == start,
            _ => false,
        };
        if !bracket_follows {
            self.at = after_word;
            return Node { start, end: after_word, inside: Inside::Nothing };
        }
        let open = self.at;
        self.advance();
        let mut parts = Vec::new();
        loop {
            self.skip_blank();
            match self.peek() {
                None => {
                    self.unclosed.get_or_insert(open);
                    break;
                }
                Some(')' | ']' | '}') => {
                    self.advance();
                    break;
                }
                Some(',' | ':') => self.advance(),
                Some(_) if depth >= DEEPEST => self.advance(),
                Some(_) => parts.push(self.part(depth + 1)),
            }
        }
        Node { start, end: self.at, inside: Inside::Parts { open, parts } }
    }

    fn part(&mut self, depth: usize) -> Part {
        let before = self.at;
        let first = self.value_at_depth(depth);
        if self.at == before {
            self.advance(); // a character that belongs to no value: never stand still
        }
        let after_first = self.at;
        self.skip_blank();
        if self.peek() == Some(':') {
            self.advance();
            self.skip_blank();
            let key = self.text[first.start..first.end].to_owned();
            let value = self.value_at_depth(depth);
            return Part { key: Some((key, first.start)), value };
        }
        self.at = after_first;
        Part { key: None, value: first }
    }

    fn word(&mut self) {
        while self.peek().is_some_and(|c| c.is_alphanumeric() || matches!(c, '_' | '.' | '+' | '-' | '#')) {
            self.advance();
        }
    }

    fn string(&mut self, start: usize) {
        self.advance();
        loop {
            match self.peek() {
                None => {
                    self.unclosed.get_or_insert(start);
                    return;
                }
                Some('\\') => {
                    self.advance();
                    self.advance();
                }
                Some('"') => {
                    self.advance();
                    return;
                }
                Some(_) => self.advance(),
            }
        }
    }

    fn character(&mut self) {
        self.advance();
        if self.peek() == Some('\\') {
            self.advance();
        }
        self.advance();
        if self.peek() == Some('\'') {
            self.advance();
        }
    }

    /// Skips `r"…"`, `r#"…"#`, `b"…"` and `br"…"`; false if none stands here.
    fn raw_string(&mut self) -> bool {
        let rest = &self.text[self.at..];
        let bytes = rest.trim_start_matches('b');
        let raw = bytes.trim_start_matches('r');
        let hashes = raw.len() - raw.trim_start_matches('#').len();
        if !raw[hashes..].starts_with('"') {
            return false;
        }
        let start = self.at;
        self.at += rest.len() - raw.len() + hashes;
        if bytes.len() == raw.len() {
            self.string(start);
            return true;
        }
        let closing = format!("\"{}", "#".repeat(hashes));
        let body = self.at + 1;
        match self.text[body..].find(&closing) {
            Some(length) => self.at = body + length + closing.len(),
            None => {
                self.unclosed.get_or_insert(start);
                self.at = self.text.len();
            }
        }
        true
    }

    fn skip_blank(&mut self) {
        loop {
            let rest = &self.text[self.at..];
            if rest.starts_with("//") {
                self.at += rest.find('\n').unwrap_or(rest.len());
            } else if rest.starts_with("/*") {
                self.skip_block_comment();
            } else if self.peek().is_some_and(char::is_whitespace) {
                self.advance();
            } else {
                return;
            }
        }
    }

    fn skip_block_comment(&mut self) {
        let mut depth = 0_usize;
        while self.at < self.text.len() {
            let rest = &self.text[self.at..];
            if rest.starts_with("/*") {
                depth += 1;
                self.at += 2;
            } else if rest.starts_with("*/") {
                depth -= 1;
                self.at += 2;
                if depth == 0 {
                    return;
                }
            } else {
                self.advance();
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text_at<'a>(text: &'a str, path: &str) -> &'a str {
        let scanned = scan(text);
        let found = scanned.root.find(path);
        assert!(found.complete, "{path} not found");
        &text[found.node.start..found.node.end]
    }

    #[test]
    fn paths_lead_to_their_values() {
        let text = r##"(a: 1, // b: "comment"
            /* faults: [/* nested */] */
            note: "a ) b: \" 2", raw: r#"x " y"#,
            faults: [(kind: X, severity: (0.5, 0.75)), Y(Z(3)), (at: Hours(2))])"##;
        assert_eq!(text_at(text, "a"), "1");
        assert_eq!(text_at(text, "note"), r#""a ) b: \" 2""#);
        assert_eq!(text_at(text, "raw"), r##"r#"x " y"#"##);
        assert_eq!(text_at(text, "faults[0].severity[1]"), "0.75");
        assert_eq!(text_at(text, "faults[1]"), "Y(Z(3))");
        assert_eq!(text_at(text, "faults[2].at"), "Hours(2)");
    }

    #[test]
    fn a_missing_bracket_is_seen() {
        assert_eq!(scan("(a: [1, 2)").unclosed, Some(0));
        assert_eq!(scan("(a: \"x)").unclosed, Some(4));
        assert_eq!(scan("(a: [1, 2])").unclosed, None);
    }
}
