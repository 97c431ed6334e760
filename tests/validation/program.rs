//! The program that prints the tables (`print`, or `print charge frost` for some subjects), or writes them into docs/validation.md with the pictures beside them.

use std::process::ExitCode;

use validation::{all, document, names, some};

fn main() -> ExitCode {
    let argument = std::env::args().nth(1);
    match argument.as_deref() {
        None | Some("print") => {
            let wanted: Vec<String> = std::env::args().skip(2).collect();
            let wanted: Vec<&str> = wanted.iter().map(String::as_str).collect();
            if let Some(unknown) = wanted.iter().find(|name| !names().contains(name)) {
                eprintln!("{unknown} is no subject; there are: {}", names().join(", "));
                return ExitCode::from(2);
            }
            for topic in if wanted.is_empty() { all() } else { some(&wanted) } {
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
