//! What is wrong with a file, a line each.

use ron_file::{OldName, Problems, shown};
use serde::Serialize;

use crate::Words;

impl Words {
    /// Every problem of a file in a line, with its place, and how many more there are.
    pub fn problems<K: Serialize>(&self, problems: &Problems<K>) -> Vec<String> {
        let file = shown(&problems.file);
        let mut lines: Vec<String> = problems
            .told
            .iter()
            .map(|problem| {
                self.fill(
                    "cli-problem-at",
                    &[
                        ("file", file.clone()),
                        ("line", problem.place.line.to_string()),
                        ("column", problem.place.column.to_string()),
                        ("what", self.say(&problem.kind)),
                    ],
                )
            })
            .collect();
        if problems.more > 0 {
            lines.push(self.count("cli-problems-more", problems.more, &[("file", file)]));
        }
        lines
    }

    /// Names of older files that were read as those of today, a line each.
    pub fn old_names(&self, file: &str, old_names: &[OldName]) -> Vec<String> {
        let line = |name: &OldName| {
            self.fill(
                "cli-old-name",
                &[("file", shown(file)), ("old", name.old.clone()), ("new", name.new.clone())],
            )
        };
        old_names.iter().map(line).collect()
    }

    /// A text of a call, in the reader's language if it has it.
    pub fn own(&self, text: &call::Text) -> String {
        text.in_language(self.language.tag()).to_owned()
    }
}
