//! Writing to standard output without ever panicking, and the ways in which a command can fail.

use std::io::{BufWriter, ErrorKind, Stdout, Write};

/// Why a command did not do what it was asked.
#[derive(Debug)]
pub(crate) enum Failure {
    /// Problems were found, or a file could not be used; exit status 1.
    Problems(String),
    /// The command line is wrong; exit status 2.
    Usage(String),
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

fn failure(error: std::io::Error) -> Failure {
    if error.kind() == ErrorKind::BrokenPipe {
        Failure::OutputClosed
    } else {
        Failure::Problems(format!("error: the output could not be written: {error}"))
    }
}
