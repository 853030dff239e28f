//! Standard output and standard error: width, colours and progress; everything that is printed or asked goes through here.

use std::io::{ErrorKind, IsTerminal, Write};

use anstream::{AutoStream, ColorChoice};
use backtack_core::diag::text::Style;
use backtack_core::source::Tally;

use super::Failure;

/// Columns where there is no terminal to ask.
const COLUMNS: usize = 80;
/// Widest and narrowest line that is still good to read.
const READABLE: std::ops::RangeInclusive<usize> = 40..=120;

/// Standard output and standard error. Colours follow `NO_COLOR`, `CLICOLOR` and `CLICOLOR_FORCE`.
#[derive(Debug)]
pub struct Terminal {
    /// Standard output was closed by its reader, as by `head`: nothing more is written.
    closed: bool,
    /// What the command does is counted here.
    pub tally: Tally,
}

impl Terminal {
    pub fn new(tally: &Tally) -> Self {
        Terminal { closed: false, tally: tally.clone() }
    }

    /// How findings are printed on standard output.
    pub fn output(&self) -> Style {
        Style { color: AutoStream::choice(&std::io::stdout()) != ColorChoice::Never, width: width(true) }
    }

    /// How findings are printed on standard error.
    pub fn errors(&self) -> Style {
        Style { color: AutoStream::choice(&std::io::stderr()) != ColorChoice::Never, width: width(false) }
    }

    /// Writes to standard output. A reader that has gone is no failure.
    ///
    /// # Errors
    /// If the system refuses, as on a full disk.
    pub fn print(&mut self, text: &str) -> Result<(), Failure> {
        if self.closed {
            return Ok(());
        }
        let mut out = anstream::stdout().lock();
        match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
            Err(error) if error.kind() == ErrorKind::BrokenPipe => {
                self.closed = true;
                Ok(())
            }
            Err(error) => Err(Failure::new(format!("cannot write to standard output: {error}"))),
            Ok(()) => Ok(()),
        }
    }

    /// Writes to standard error, where nobody can be told if it fails.
    pub fn remark(&mut self, text: &str) {
        let _ = anstream::stderr().lock().write_all(text.as_bytes());
    }

    /// Asks a person and takes one line; nothing at the end of what is typed, or where nobody can be asked.
    ///
    /// # Errors
    /// If standard input cannot be read.
    pub fn ask(&mut self, question: &str) -> Result<Option<String>, Failure> {
        if !(std::io::stdin().is_terminal() && std::io::stderr().is_terminal()) {
            return Ok(None);
        }
        self.remark(question);
        let mut line = String::new();
        let read = std::io::stdin().read_line(&mut line);
        let read = read.map_err(|error| Failure::new(format!("cannot read what is typed: {error}")))?;
        Ok((read > 0).then(|| line.trim().to_owned()))
    }

    /// One line about something that could not be done.
    pub fn complain(&mut self, failure: &Failure) {
        self.remark(&format!("backtack: {failure}\n"));
    }
}

/// Columns of the terminal behind standard output or standard error.
fn width(output: bool) -> usize {
    let term = if output { console::Term::stdout() } else { console::Term::stderr() };
    let asked = if output { std::io::stdout().is_terminal() } else { std::io::stderr().is_terminal() };
    let columns =
        if asked { term.size_checked().map_or(COLUMNS, |(_, columns)| usize::from(columns)) } else { COLUMNS };
    columns.clamp(*READABLE.start(), *READABLE.end())
}
