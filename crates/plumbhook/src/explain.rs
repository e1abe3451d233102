//! `plumbhook explain`.

use crate::NOT_CHECKED;
use crate::arguments::{Colour, Explain};
use crate::output::{complain, print, screen};
use plumbhook_report::explain::{Code, list};

/// The exit code.
pub(crate) fn run(wanted: &Explain) -> u8 {
    let width = screen(Colour::Never).width;
    let text = match &wanted.code {
        None => Ok(list(width)),
        Some(code) => Code::find(code).map(|code| code.explain(width)),
    };
    match text {
        Ok(text) => print(|out| out.write_all(text.as_bytes())),
        Err(why) => {
            complain(&why);
            NOT_CHECKED
        }
    }
}
