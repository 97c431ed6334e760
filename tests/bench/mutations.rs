//! Files that are nearly right: built-in calls, files of moves, records and journals with a few things wrong in each, read by
//! the reader of their kind. It must neither panic nor take long, tell what is wrong inside of the text, and write what it has read
//! so that the same is read again.
//!
//! A number gives the same text everywhere.

mod spoil;

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::time::Instant;

use ron_file::Problems;
use store::{Interrupted, Journal};
use visit::{Record, Visit, moves_in, moves_text, read_moves};

use crate::on_core_s;
use crate::pairs::Dice;

/// Purpose of the numbers that are drawn here.
const PURPOSE: u64 = 3;
/// Longest time for one text, s.
const MOST_S: f64 = 1.0;

/// What a text is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// A call file.
    Call,
    /// A file of moves.
    Moves,
    /// A visit record.
    Record,
    /// A journal of a visit in progress.
    Journal,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Kind; 4] = [Kind::Call, Kind::Moves, Kind::Record, Kind::Journal];

    /// The ending of a file of this kind in the corpus.
    #[must_use]
    pub fn ending(self) -> &'static str {
        match self {
            Kind::Call => "call.ron",
            Kind::Moves => "moves.ron",
            Kind::Record => "record.ron",
            Kind::Journal => "journal",
        }
    }
}

/// How a reader took a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fate {
    /// It read it; what was changed is not wrong.
    Read,
    /// It told what is wrong.
    Refused,
    /// It did what no reader may.
    Broken(String),
}

/// Sound texts to begin with.
#[derive(Clone, Debug)]
pub struct Sources {
    texts: Vec<(Kind, String)>,
    scratch: PathBuf,
}

impl Sources {
    /// The built-in calls, a folder's files of moves, and records and journals of the visits of novices among them, which are short.
    /// `scratch` is a folder of the caller's own for journals.
    ///
    /// # Errors
    /// What can't be read, made or written.
    pub fn gather(folder: &Path, scratch: &Path) -> Result<Sources, String> {
        let mut texts: Vec<(Kind, String)> =
            call::built_in().iter().map(|(_, text)| (Kind::Call, (*text).to_owned())).collect();
        for (id, call_text) in call::built_in() {
            let call = call::read(call_text, id).map_err(|problems| format!("{problems:?}"))?;
            for manner in ["rookie", "sound"] {
                let path = folder.join(format!("{id}-{manner}.ron"));
                let text =
                    std::fs::read_to_string(&path).map_err(|error| format!("{}: {error}", path.display()))?;
                let moves = read_moves(&text, "moves.ron").map_err(|problems| format!("{problems:?}"))?;
                texts.push((Kind::Moves, text));
                if manner == "sound" {
                    continue;
                }
                let mut visit = Visit::start(&call, 1).map_err(|error| error.to_string())?;
                for action in &moves {
                    visit.perform(action).map_err(|error| error.to_string())?;
                }
                texts.push((Kind::Record, visit.record().to_text()));
                texts.push((Kind::Journal, journal_of(&visit, scratch)?));
            }
        }
        Ok(Sources { texts, scratch: scratch.to_owned() })
    }

    /// The spoilt text of a number: kinds in turn, the source and what happens to it by lot.
    #[must_use]
    pub fn spoilt(&self, number: u64) -> (Kind, String) {
        let kind = Kind::ALL[(number % Kind::ALL.len() as u64) as usize];
        let of_kind: Vec<&String> =
            self.texts.iter().filter(|(of, _)| *of == kind).map(|(_, text)| text).collect();
        let mut dice = Dice::new(number, PURPOSE);
        let mut text = dice.one_of(&of_kind).map_or(String::new(), |text| (*text).clone());
        let times = 1 + (dice.unit() * 3.0) as usize;
        for _ in 0..times {
            text = spoil::spoil(&text, &mut dice);
        }
        (kind, text)
    }

    /// Reads the spoilt text of a number.
    #[must_use]
    pub fn fate(&self, number: u64) -> (Kind, Fate) {
        let (kind, text) = self.spoilt(number);
        (kind, fate_of(kind, &text, &self.scratch.join(format!("{number}.journal"))))
    }
}

fn journal_of(visit: &Visit, scratch: &Path) -> Result<String, String> {
    let folder = scratch.join("whole");
    let journal = Journal::begin(visit, None, &folder).map_err(|error| format!("{error:?}"))?;
    let told = |error: std::io::Error| format!("{}: {error}", folder.display());
    let mut text = String::new();
    // Nothing else lies there: each is over before the next begins.
    for file in std::fs::read_dir(&folder).map_err(told)? {
        text = std::fs::read_to_string(file.map_err(told)?.path()).map_err(told)?;
    }
    journal.over();
    Ok(text)
}

/// How the reader of a kind takes a text. A journal is read from a file, which is written at `path` and removed.
#[must_use]
pub fn fate_of(kind: Kind, text: &str, path: &Path) -> Fate {
    let (begun, on_core) = (Instant::now(), on_core_s());
    let result = catch_unwind(AssertUnwindSafe(|| match kind {
        Kind::Call => call(text),
        Kind::Moves => moves(text),
        Kind::Record => record(text),
        Kind::Journal => journal(text, path),
    }));
    let took_s = match (on_core, on_core_s()) {
        (Some(before_s), Some(after_s)) => after_s - before_s,
        _ => begun.elapsed().as_secs_f64(),
    };
    match result {
        Err(payload) => {
            let text = payload.downcast_ref::<String>().map(String::as_str);
            let text = text.or_else(|| payload.downcast_ref::<&str>().copied());
            Fate::Broken(format!("panic: {}", text.unwrap_or("without a text")))
        }
        Ok(_) if took_s > MOST_S => Fate::Broken(format!("it took {took_s:.1} s")),
        Ok(Err(why)) => Fate::Broken(why),
        Ok(Ok(fate)) => fate,
    }
}

fn call(text: &str) -> Result<Fate, String> {
    match call::read(text, "spoilt.ron") {
        Ok(call) => {
            let _ = call::seed(&call, 1);
            Ok(Fate::Read)
        }
        Err(problems) => refused(text, &problems),
    }
}

fn moves(text: &str) -> Result<Fate, String> {
    match read_moves(text, "spoilt.ron") {
        Ok(moves) => {
            let written = moves_text(&moves);
            match read_moves(&written, "again.ron") {
                Ok(again) if again == moves => Ok(Fate::Read),
                other => Err(format!("what was read is written as another: {other:?}")),
            }
        }
        Err(problems) => refused(text, &problems),
    }
}

fn record(text: &str) -> Result<Fate, String> {
    // Looks for older versions as well.
    let _ = moves_in(text, "spoilt.ron");
    match Record::from_text(text, "spoilt.ron") {
        Ok(record) => {
            let written = record.to_text();
            match Record::from_text(&written, "again.ron") {
                Ok(again) if again.to_text() == written => Ok(Fate::Read),
                other => Err(format!("what was read is written as another: {other:?}")),
            }
        }
        Err(problems) => refused(text, &problems),
    }
}

fn journal(text: &str, path: &Path) -> Result<Fate, String> {
    std::fs::write(path, text).map_err(|error| error.to_string())?;
    let read = Interrupted::read(path);
    let _ = std::fs::remove_file(path);
    Ok(if read.is_ok() { Fate::Read } else { Fate::Refused })
}

/// What is refused is told, and where it stands is inside of the text.
fn refused<K: std::fmt::Debug>(text: &str, problems: &Problems<K>) -> Result<Fate, String> {
    if problems.told.is_empty() {
        return Err("it is refused without a word".to_owned());
    }
    // The end of the text may stand on a line of its own.
    let lines = text.split('\n').count();
    match problems.told.iter().find(|problem| !(1..=lines).contains(&problem.place.line)) {
        Some(problem) => Err(format!("a place outside of the {lines} lines: {problem:?}")),
        None => Ok(Fate::Refused),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reader_that_tells_nothing_or_a_place_outside_is_found() {
        let mut problems = call::read("(", "spoilt.ron").unwrap_err();
        assert_eq!(refused("(", &problems), Ok(Fate::Refused));
        problems.told[0].place.line = 2;
        assert!(refused("(", &problems).is_err());
        problems.told.clear();
        assert!(refused("(", &problems).is_err());
    }
}
