//! The program that prints the tables, or writes them into docs/validation.md with the pictures beside them.

use std::process::ExitCode;

use validation::{all, document};

fn main() -> ExitCode {
    let argument = std::env::args().nth(1);
    match argument.as_deref() {
        None | Some("print") => {
            for topic in all() {
                println!("# {}\n\n{}", topic.name, topic.markdown());
                for complaint in topic.checks.iter().filter_map(|check| check.complaint()) {
                    println!("NOT AS EXPECTED: {complaint}");
                }
            }
            ExitCode::SUCCESS
        }
        Some("docs") => match document::write(&all()) {
            Ok(()) => ExitCode::SUCCESS,
            Err(error) => {
                eprintln!("cannot write the document: {error}");
                ExitCode::FAILURE
            }
        },
        Some(other) => {
            eprintln!("{other} is not known: print (as without) or docs");
            ExitCode::from(2)
        }
    }
}
