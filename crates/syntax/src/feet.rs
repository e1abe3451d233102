//! The second reader, where a foot mark is: `12'`, `12'-6"`, `12'-6 1/2"`, `12' 6-1/2"`.

use plumbhook_units::unit;

use crate::fault::Fault;
use crate::item::Item;
use crate::number::{decimal, integer, proper_fraction, real};
use crate::reader::Reader;
use crate::token::Class;

impl<'a> Reader<'a, '_> {
    /// A token with a foot mark in it, given with straight marks; reads on where inches follow behind a blank.
    pub(crate) fn feet(&mut self, first: usize, text: &str) -> Item<'a> {
        let Some((feet, rest)) = text.split_once('\'') else {
            return self.bad(first, Fault::FeetInches);
        };
        let inches = if rest.is_empty() {
            let Some(read) = self.inches_follow() else {
                return match decimal(feet) {
                    Some(feet) => self.measure(first, feet, unit("ft")),
                    None => self.bad(first, Fault::FeetInches),
                };
            };
            self.next += read.tokens;
            Some(read.inches)
        } else {
            self.inches_glued(rest.strip_prefix('-').unwrap_or(rest))
        };
        match (integer(feet), inches) {
            (Some(_), Some(inches)) if inches >= 12.0 => self.bad(first, Fault::InchesBeyondFoot),
            (Some(feet), Some(inches)) => self.measure(first, feet * 12.0 + inches, unit("in")),
            _ => self.bad(first, Fault::FeetInches),
        }
    }

    /// `6"` or `6-1/2"` behind a foot mark, or `6` with `1/2"` in the next token.
    fn inches_glued(&mut self, text: &str) -> Option<f64> {
        if let Some(inches) = text.strip_suffix('"') {
            return real(inches);
        }
        match self.mark_free(self.next) {
            (part, true) => {
                let inches = integer(text)? + proper_fraction(&part)?;
                self.next += 1;
                Some(inches)
            }
            _ => None,
        }
    }

    /// Inches with an inch mark in the next one or two tokens.
    fn inches_follow(&self) -> Option<Inches> {
        let (text, marked) = self.mark_free(self.next);
        if marked {
            let inches = real(&text)?;
            return Some(Inches { inches, tokens: 1 });
        }
        let whole = integer(&text)?;
        match self.mark_free(self.next + 1) {
            (part, true) => Some(Inches {
                inches: whole + proper_fraction(&part)?,
                tokens: 2,
            }),
            _ => None,
        }
    }

    /// A number token without its inch mark, and whether it had one.
    fn mark_free(&self, index: usize) -> (String, bool) {
        if self.class(index) != Some(Class::Number) {
            return (String::new(), false);
        }
        let text = self.text(index).replace('\u{2033}', "\"");
        match text.strip_suffix('"') {
            Some(rest) => (rest.to_owned(), true),
            None => (text, false),
        }
    }
}

struct Inches {
    inches: f64,
    tokens: usize,
}
