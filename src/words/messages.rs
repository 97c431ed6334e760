//! The messages of the locale files, for tests that hold them against facts and keys.

use std::collections::{BTreeMap, BTreeSet};

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser;

use crate::locale::ENGLISH;

/// Messages by their key, with the names that they fill in.
pub(crate) fn messages() -> BTreeMap<String, BTreeSet<String>> {
    let mut found = BTreeMap::new();
    for (file, text) in ENGLISH {
        let resource = parser::parse(text).unwrap_or_else(|(_, errors)| panic!("{file}.ftl: {errors:?}"));
        for entry in resource.body {
            match entry {
                Entry::Message(message) => {
                    let mut names = BTreeSet::new();
                    names_in(message.value.as_ref().expect("a message has a text"), &mut names);
                    let again = found.insert(message.id.name.to_owned(), names);
                    assert!(again.is_none(), "{file}.ftl: {} stands there twice", message.id.name);
                }
                Entry::Junk { content } => panic!("{file}.ftl: {content}"),
                _ => {}
            }
        }
    }
    found
}

fn names_in(pattern: &Pattern<&str>, names: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            names_of(expression, names);
        }
    }
}

fn names_of(expression: &Expression<&str>, names: &mut BTreeSet<String>) {
    match expression {
        Expression::Inline(inline) => name_of(inline, names),
        Expression::Select { selector, variants } => {
            name_of(selector, names);
            for variant in variants {
                names_in(&variant.value, names);
            }
        }
    }
}

fn name_of(inline: &InlineExpression<&str>, names: &mut BTreeSet<String>) {
    match inline {
        InlineExpression::VariableReference { id } => {
            names.insert(id.name.to_owned());
        }
        InlineExpression::Placeable { expression } => names_of(expression, names),
        InlineExpression::StringLiteral { .. } | InlineExpression::NumberLiteral { .. } => {}
        other => panic!("a message refers to {other:?}, which nothing fills in"),
    }
}
