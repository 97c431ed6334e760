//! `rimebench review`: the review of a visit record as one HTML file.

use std::path::Path;

use diagnosis::Progress;
use session::marking::{self, Extent, Part, PathWanted};
use words::Words;

use super::arguments::ReviewArguments;
use super::grade;
use super::output::{Failure, Output};
use super::play::plant_failure;
use super::progress::Line;

/// Works the record again, with everything that the review shows, and writes the page.
pub(crate) fn run(arguments: &ReviewArguments, output: &mut Output) -> Result<(), Failure> {
    let held_against = grade::held_against(&arguments.held)?;
    let recorded = grade::replayed(&arguments.record, &held_against)?;
    let path = &arguments.html;
    // Told now, and not after minutes of work.
    can_be_written(path)?;
    let wanted = if arguments.without_path { PathWanted::No } else { PathWanted::Yes };
    let extent = Extent { hours: arguments.hours, path: wanted };
    let reviewed = marking::reviewed(recorded, extent, &begins).map_err(plant_failure)?;
    let Some((visit, review, figures)) = reviewed else { unreachable!("nobody stops it") };
    let words = Words::from(arguments.units);
    let page = report::html::page(&review, &visit, &figures, words);
    super::source::write(path, &page)?;
    let (record, points, path) = (
        arguments.record.display().to_string(),
        format!("{:.0}", review.total_points),
        path.display().to_string(),
    );
    output.line(&words.fill("cli-reviewed", &[("record", record), ("points", points), ("path", path)]))
}

/// A line for each part of the work.
fn begins(part: Part) -> Box<dyn Progress> {
    Box::new(Line::of(match part {
        Part::Arriving => "cli-arriving",
        Part::Weighing => "cli-weighing",
        Part::Figures => "cli-figures",
        Part::Path => "cli-path",
    }))
}

fn can_be_written(path: &Path) -> Result<(), Failure> {
    let folder = match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    let problem = if path.is_dir() {
        format!("{} is a folder", path.display())
    } else if !folder.is_dir() {
        format!("there is no folder {}", folder.display())
    } else {
        return Ok(());
    };
    Err(Failure::Problems(format!("error: the page cannot be written: {problem}")))
}
