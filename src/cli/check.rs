//! `rimebench check`: every problem of call files.

use words::Words;

use super::arguments::CheckArguments;
use super::output::{Failure, Output, tell};
use super::source;

/// Prints one line for each problem, or that the file is fine; fails when there was any problem.
pub(crate) fn run(arguments: &CheckArguments, output: &mut Output) -> Result<(), Failure> {
    let mut bad_files = 0_usize;
    for name in &arguments.calls {
        match check(name) {
            Ok(title) => {
                let words = Words::default();
                output.line(&words.fill("cli-call-is-good", &[("name", name.clone()), ("title", title)]))?;
            }
            Err(Failure::Problems(text)) => {
                bad_files += 1;
                output.line(&text)?;
            }
            Err(other) => return Err(other),
        }
    }
    if bad_files == 0 {
        return Ok(());
    }
    output.flush()?;
    let all = arguments.calls.len().to_string();
    Err(Failure::Problems(Words::default().count("cli-bad-files", bad_files, &[("all", all)])))
}

fn check(name: &str) -> Result<String, Failure> {
    let (call, old_names) = source::call_with_notes(name)?;
    let words = Words::default();
    words.old_names(name, &old_names).iter().for_each(|line| tell(line));
    Ok(words.own(&call.title))
}
