//! Standard output and error: their columns, their colour, and that somebody may stop reading.

use crate::arguments::Colour;
use crate::{CLEAN, NOT_CHECKED};
use anstream::{AutoStream, ColorChoice, stream::RawStream};
use plumbhook_report::human::Screen;
use std::io::{self, ErrorKind, Write};
use terminal_size::{Width, terminal_size_of};

/// Columns where no terminal says how many there are.
const COLUMNS: usize = 100;

/// The screen behind standard output.
pub(crate) fn screen(colour: Colour) -> Screen {
    Screen {
        width: columns(terminal_size_of(io::stdout())),
        colour: coloured(colour, &io::stdout()),
    }
}

/// The screen behind standard error.
pub(crate) fn error_screen(colour: Colour) -> Screen {
    Screen {
        width: columns(terminal_size_of(io::stderr())),
        colour: coloured(colour, &io::stderr()),
    }
}

fn columns(size: Option<(Width, terminal_size::Height)>) -> usize {
    size.map_or(COLUMNS, |(width, _)| usize::from(width.0))
}

/// What is asked for on the command line counts first; else `NO_COLOR`, `CLICOLOR_FORCE`, `CLICOLOR`, `TERM` and
/// whether it is a terminal, in the order that most programs take them.
fn coloured(colour: Colour, stream: &impl RawStream) -> bool {
    match colour {
        Colour::Always => true,
        Colour::Never => false,
        Colour::Auto => AutoStream::choice(stream) != ColorChoice::Never,
    }
}

/// Writes to standard output. Whoever stops reading, as `head` does, has what he wanted; any other failure means
/// that the result did not arrive.
pub(crate) fn print(write: impl FnOnce(&mut dyn Write) -> io::Result<()>) -> u8 {
    let mut out = io::BufWriter::new(io::stdout().lock());
    match write(&mut out).and_then(|()| out.flush()) {
        Ok(()) => CLEAN,
        Err(error) if error.kind() == ErrorKind::BrokenPipe => CLEAN,
        Err(error) => {
            complain(&format!("the result could not be written: {error}"));
            NOT_CHECKED
        }
    }
}

/// A line on standard error. If that is closed, the exit code still tells.
pub(crate) fn complain(text: &str) {
    let _ = writeln!(io::stderr(), "plumbhook: {text}");
}
