//! Blocks of docs/validation.md, and the files of the pictures.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::check::{Counts, Kind, Topic};
use crate::tuned;

/// Root of the repository.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn document() -> PathBuf {
    root().join("docs/validation.md")
}

fn picture(file: &str) -> PathBuf {
    root().join("docs/images/validation").join(format!("{file}.svg"))
}

/// The block that counts everything: the plant, tables and data, and what tuned a parameter, each for itself.
fn summary(topics: &[Topic]) -> String {
    let all = Counts::of(topics.iter().flat_map(|t| &t.checks));
    let mut text = format!(
        "**Plant**: {} of {} published values agree within their band.\n\n**Tables and data** (property tables, data files, labels, \
         formulas that stand in the program as published): {} of {}.\n\n**Tuned**: {} values tuned a parameter. They are shown in \
         their tables and count for nothing; what the parameter is held against instead stands below.\n\n\
         | subject | plant: values | agree | tables and data: values | agree | tuned |\n|---|---|---|---|---|---|\n",
        all.plant_agree, all.plant, all.table_agree, all.table, all.tuned
    );
    let some = |count: usize| if count > 0 { count.to_string() } else { String::new() };
    for topic in topics {
        let c = Counts::of(&topic.checks);
        let agree = |of: usize, agree: usize| if of > 0 { agree.to_string() } else { String::new() };
        text += &format!(
            "| {} | {} | {} | {} | {} | {} |\n",
            topic.name,
            some(c.plant),
            agree(c.plant, c.plant_agree),
            some(c.table),
            agree(c.table, c.table_agree),
            some(c.tuned)
        );
    }
    let bad: Vec<String> = topics
        .iter()
        .flat_map(|t| {
            t.checks
                .iter()
                .filter(|c| !c.agrees() && !matches!(c.kind, Kind::Tuned(_)))
                .map(move |c| format!("- {}: {}", t.name, c.what))
        })
        .collect();
    if !bad.is_empty() {
        text += &format!("\nThese do not agree:\n\n{}\n", bad.join("\n"));
    }
    text
}

/// A text with each block between its marks made anew. Errors: a block that is missing.
pub fn renewed(text: &str, topics: &[Topic]) -> Result<String, String> {
    let mut text = text.to_owned();
    let blocks = [("summary", summary(topics)), ("tuned", tuned::markdown())]
        .into_iter()
        .chain(topics.iter().map(|topic| (topic.name, topic.markdown())));
    for (name, block) in blocks {
        let (begin, end) = (format!("<!-- made: {name} -->\n"), "<!-- end -->");
        let start = text.find(&begin).ok_or_else(|| format!("no block {name}"))? + begin.len();
        let length = text[start..].find(end).ok_or_else(|| format!("the block {name} has no end"))?;
        text.replace_range(start..start + length, &format!("\n{}\n\n", block.trim()));
    }
    Ok(text)
}

/// Everything that the document and the pictures say otherwise than the plant does now.
pub fn stale(topics: &[Topic]) -> Result<Vec<String>, io::Error> {
    let text = fs::read_to_string(document())?;
    let fresh = renewed(&text, topics).map_err(io::Error::other)?;
    let mut lines: Vec<String> = text
        .lines()
        .zip(fresh.lines())
        .filter(|(old, new)| old != new)
        .map(|(old, new)| format!("docs/validation.md says\n  {old}\nand ought to say\n  {new}"))
        .collect();
    if lines.is_empty() && text != fresh {
        lines.push("docs/validation.md has lines too many or too few".to_owned());
    }
    for chart in topics.iter().flat_map(|t| &t.charts) {
        let path = picture(chart.file);
        if fs::read_to_string(&path).ok() != Some(chart.svg()) {
            lines.push(format!("{} is not the picture of today's plant", path.display()));
        }
    }
    Ok(lines)
}

/// Write document and pictures.
pub fn write(topics: &[Topic]) -> Result<(), io::Error> {
    let text = fs::read_to_string(document())?;
    fs::write(document(), renewed(&text, topics).map_err(io::Error::other)?)?;
    for chart in topics.iter().flat_map(|t| &t.charts) {
        let path = picture(chart.file);
        fs::create_dir_all(path.parent().unwrap_or(&path))?;
        fs::write(path, chart.svg())?;
    }
    Ok(())
}
