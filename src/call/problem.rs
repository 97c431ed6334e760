//! What is wrong with a file, and where.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::plain_text::shown;

/// One mistake in a file that a person wrote.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Problem {
    /// The file, as the caller named it.
    pub file: String,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// What is wrong, in one clause: "severity 1.4 is not allowed".
    pub message: String,
    /// The offending text as written; empty if something is missing.
    pub value: String,
    /// What would be allowed, with its unit; may be empty.
    pub allowed: String,
    /// What to do about it; may be empty.
    pub hint: String,
}

impl fmt::Display for Problem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Problem { file, line, column, message, .. } = self;
        write!(out, "{}:{line}:{column}: {}", shown(file), shown(message))?;
        if !self.allowed.is_empty() {
            write!(out, ": {}", self.allowed)?;
        }
        if !self.hint.is_empty() {
            write!(out, "; hint: {}", self.hint)?;
        }
        Ok(())
    }
}

impl std::error::Error for Problem {}
