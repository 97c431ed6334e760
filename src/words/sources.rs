//! The string literals of the sources, as the compiler reads them, for tests that hold them against the messages.

use std::fs;
use std::path::{Path, PathBuf};

use proc_macro2::{Delimiter, Group, TokenStream, TokenTree};

/// A string literal outside tests, attributes, doc comments and what `expect` says.
#[derive(Clone, Debug)]
pub(crate) struct Literal {
    /// What stands between the quotes, escapes as they are written.
    pub text: String,
    /// File and line.
    pub place: String,
    /// The function, method or macro that it is given to, if it stands in a call's parentheses.
    pub given_to: Option<String>,
    /// Whether it is the first thing in those parentheses.
    pub is_first: bool,
    /// The other literals of that call, nested ones too.
    pub beside: Vec<String>,
}

/// The repository's root.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .ancestors()
        .nth(2)
        .expect("src/words is two folders down")
        .to_owned()
}

/// The literals of all sources of a folder below src; folders of tests are left out.
pub(crate) fn literals_in(folder: &Path) -> Vec<Literal> {
    let mut files = Vec::new();
    collect(folder, &mut files);
    files.sort();
    files.iter().flat_map(|file| literals_of(file)).collect()
}

fn collect(folder: &Path, files: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display())) {
        let path = entry.expect("a folder lists its files").path();
        let name = path.file_name().expect("a file has a name").to_string_lossy().into_owned();
        if path.is_dir() && name != "tests" {
            collect(&path, files);
        } else if name.ends_with(".rs") && name != "tests.rs" {
            files.push(path);
        }
    }
}

fn literals_of(file: &Path) -> Vec<Literal> {
    let text = fs::read_to_string(file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
    let shown = file.strip_prefix(root()).unwrap_or(file).display().to_string();
    literals_of_text(&text, &shown)
}

pub(crate) fn literals_of_text(text: &str, file: &str) -> Vec<Literal> {
    let tokens: TokenStream = text.parse().unwrap_or_else(|error| panic!("{file}: {error}"));
    let mut found = Vec::new();
    walk(tokens, file, &Call { given_to: None, beside: Vec::new(), is_itself: false }, &mut found);
    found
}

struct Call {
    given_to: Option<String>,
    beside: Vec<String>,
    /// Whether these are its very parentheses, not a list or a block within them.
    is_itself: bool,
}

fn walk(tokens: TokenStream, file: &str, call: &Call, found: &mut Vec<Literal>) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    let mut at = 0;
    while at < tokens.len() {
        if is_sign(&tokens[at], '#') {
            at = after_attribute(&tokens, at);
            continue;
        }
        match &tokens[at] {
            TokenTree::Group(group) => {
                let name = called(&tokens, at);
                if name.as_deref() != Some("expect") {
                    walk_group(group, name, file, call, found);
                }
            }
            TokenTree::Literal(literal) => {
                if let Some(text) = text_of(&literal.to_string()) {
                    let place = format!("{file}:{}", literal.span().start().line);
                    let (given_to, beside) = (call.given_to.clone(), call.beside.clone());
                    found.push(Literal {
                        text,
                        place,
                        given_to,
                        is_first: at == 0 && call.is_itself,
                        beside,
                    });
                }
            }
            TokenTree::Ident(_) | TokenTree::Punct(_) => {}
        }
        at += 1;
    }
}

fn walk_group(group: &Group, name: Option<String>, file: &str, call: &Call, found: &mut Vec<Literal>) {
    if group.delimiter() == Delimiter::Parenthesis
        && let Some(name) = name
    {
        let mut beside = Vec::new();
        texts_in(group.stream(), &mut beside);
        walk(group.stream(), file, &Call { given_to: Some(name), beside, is_itself: true }, found);
    } else {
        let (given_to, beside) = (call.given_to.clone(), call.beside.clone());
        let inner = Call { given_to, beside, is_itself: false };
        walk(group.stream(), file, &inner, found);
    }
}

/// The name before parentheses: `fill` of `words.fill(…)`, `Grid::new` of `egui::Grid::new(…)`, `format` of `format!(…)`.
fn called(tokens: &[TokenTree], at: usize) -> Option<String> {
    let mut before = at.checked_sub(1)?;
    if is_sign(&tokens[before], '!') {
        before = before.checked_sub(1)?;
    }
    let TokenTree::Ident(name) = &tokens[before] else { return None };
    let is_path = before >= 3 && is_sign(&tokens[before - 1], ':') && is_sign(&tokens[before - 2], ':');
    match before.checked_sub(3).filter(|_| is_path).map(|at| &tokens[at]) {
        Some(TokenTree::Ident(of)) => Some(format!("{of}::{name}")),
        _ => Some(name.to_string()),
    }
}

/// Texts of a call that are the first of a pair: the names that are filled in.
fn texts_in(tokens: TokenStream, texts: &mut Vec<String>) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    for (at, token) in tokens.iter().enumerate() {
        let TokenTree::Group(group) = token else { continue };
        let is_pair = group.delimiter() == Delimiter::Parenthesis && called(&tokens, at).is_none();
        if is_pair && let Some(TokenTree::Literal(first)) = group.stream().into_iter().next() {
            texts.extend(text_of(&first.to_string()));
        }
        if called(&tokens, at).is_none() {
            texts_in(group.stream(), texts);
        }
    }
}

/// Past an attribute and, if it is `cfg(test)`, past what it stands on.
fn after_attribute(tokens: &[TokenTree], at: usize) -> usize {
    let mut next = at + 1;
    if tokens.get(next).is_some_and(|token| is_sign(token, '!')) {
        next += 1;
    }
    let Some(TokenTree::Group(attribute)) = tokens.get(next) else { return at + 1 };
    next += 1;
    let said: String = attribute.stream().to_string().split_whitespace().collect();
    if said != "cfg(test)" && said != "test" {
        return next;
    }
    while let Some(token) = tokens.get(next) {
        next += 1;
        let ends = matches!(token, TokenTree::Group(group) if group.delimiter() == Delimiter::Brace);
        if ends || is_sign(token, ';') {
            break;
        }
    }
    next
}

fn is_sign(token: &TokenTree, sign: char) -> bool {
    matches!(token, TokenTree::Punct(punct) if punct.as_char() == sign)
}

/// What a string literal says; `None` for other literals.
fn text_of(literal: &str) -> Option<String> {
    let opened = literal.find('"')?;
    let is_text = literal[..opened].chars().all(|letter| matches!(letter, 'r' | '#'));
    let closed = literal.rfind('"').filter(|closed| *closed > opened)?;
    is_text.then(|| literal[opened + 1..closed].to_owned())
}

#[test]
fn literals_are_found_where_they_are_said() {
    let source = r##"
        //! About it.
        /// Doc with a "quote".
        #[doc = "said in an attribute"]
        fn one(words: Words) -> char {
            ui.label(words.fill("screen-one", &[("name", words.label("screen-two")), ("other", format!("{x} y"))]));
            value.expect("never told");
            egui::Grid::new("grid");
            let list = [("first of a pair", 1), r#"raw "text" here"#];
            '"'
        }
        #[cfg(test)]
        mod tests { fn two() { ui.label("in a test"); } }
        #[test]
        fn three() { ui.label("in one more"); }
    "##;
    let found = literals_of_text(source, "one.rs");
    let texts: Vec<&str> = found.iter().map(|one| one.text.as_str()).collect();
    let expected = [
        "screen-one",
        "name",
        "screen-two",
        "other",
        "{x} y",
        "grid",
        "first of a pair",
        r#"raw "text" here"#,
    ];
    assert_eq!(texts, expected);
    assert_eq!(found[0].given_to.as_deref(), Some("fill"));
    assert!(found[0].is_first && !found[1].is_first);
    assert_eq!(found[0].beside, ["name", "other"]);
    assert_eq!(found[2].given_to.as_deref(), Some("label"));
    assert_eq!(found[5].given_to.as_deref(), Some("Grid::new"));
    assert_eq!(found[6].given_to, None);
    assert_eq!(found[0].place, "one.rs:6");
}
