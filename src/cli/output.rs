//! Writing to standard output without ever panicking, and the ways in which a command can fail.

use std::io::{BufWriter, ErrorKind, Stdout, Write};

/// Why a command did not do what it was asked.
#[derive(Debug)]
pub(crate) enum Failure {
    /// Problems were found, or a file could not be used; exit status 1.
    Problems(String),
    /// The command line is wrong; exit status 2.
    Usage(String),
    /// The command line is wrong and the parser has said so; exit status 2.
    Misread,
    /// Nobody reads the output any more; not a mistake.
    OutputClosed,
}

/// Standard output.
pub(crate) struct Output {
    writer: BufWriter<Stdout>,
}

impl Output {
    pub(crate) fn new() -> Output {
        Output { writer: BufWriter::new(std::io::stdout()) }
    }

    /// Writes a line.
    pub(crate) fn line(&mut self, text: &str) -> Result<(), Failure> {
        writeln!(self.writer, "{text}").map_err(failure)
    }

    /// Hands everything written so far to whoever reads it.
    pub(crate) fn flush(&mut self) -> Result<(), Failure> {
        self.writer.flush().map_err(failure)
    }
}

/// Says something on standard error; if nobody can read it there, there is no other place to say it.
pub(crate) fn tell(text: &str) {
    let _ = writeln!(std::io::stderr(), "{text}");
}

/// Prints what the parser of the command line has to say: help and version to standard output, mistakes to standard error.
pub(crate) fn parser_message(message: &clap::Error) -> Result<(), Failure> {
    let printed = message.print().and_then(|()| std::io::stdout().flush());
    if message.use_stderr() {
        return Err(Failure::Misread);
    }
    printed.map_err(failure)
}

fn failure(error: std::io::Error) -> Failure {
    if error.kind() == ErrorKind::BrokenPipe {
        Failure::OutputClosed
    } else {
        Failure::Problems(format!("error: the output could not be written: {error}"))
    }
}
