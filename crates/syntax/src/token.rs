//! The first of two readers: one line into flat tokens.

use pest::Parser as _;

use crate::place::{Place, is_blank, narrow};
use crate::plain::is_plain;
use grammar::{LineParser, Rule};

/// The longest line that is read, in bytes. A longer one is one junk token (or one comment, if it is one): tables
/// and sentences of people are far shorter, and what a line can cost stays bounded.
pub const LONGEST_LINE: usize = 65_536;

mod grammar {
    #![allow(
        missing_docs,
        unreachable_pub,
        reason = "the parser generator writes a public enum without docs"
    )]

    #[derive(pest_derive::Parser)]
    #[grammar = "line.pest"]
    pub(super) struct LineParser;
}

/// What a token is, by its first character.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum Class {
    /// Starts with a letter, `_` or `°`.
    Word,
    /// Starts with a digit.
    Number,
    /// Starts with a quotation mark; ends with one, or with the line.
    Text,
    /// `#` and all that follows.
    Comment,
    /// `,`
    Comma,
    /// `(`
    Open,
    /// `)`
    Close,
    /// `+`
    Plus,
    /// `-` or `−`
    Minus,
    /// `*`
    Times,
    /// `/`
    Over,
    /// `+/-` or `±`
    Tolerance,
    /// `..`
    Range,
    /// `|`
    Bar,
    /// `%`
    Percent,
    /// `×`
    Cross,
    /// `=`, `<`, `>`, `<=`, `>=` or `:`
    Mark,
    /// Nothing that the language has a use for.
    Junk,
}

/// A token of a line. What lies between two tokens is blank.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Token {
    /// What it is.
    pub class: Class,
    /// First byte in the line.
    pub start: u32,
    /// One past its last byte in the line.
    pub end: u32,
}

impl Token {
    pub(crate) fn place(self) -> Place {
        Place {
            start: self.start,
            end: self.end,
        }
    }
}

/// Puts the tokens of one line into `out`, which is emptied first. `line` has no line ending.
///
/// Cannot fail. Tokens are in order and do not overlap; every character that is not blank belongs to one.
pub fn tokens(line: &str, out: &mut Vec<Token>) {
    out.clear();
    if line.len() > LONGEST_LINE {
        out.extend(overlong(line));
    } else if is_plain(line) {
        lex(Rule::line, line, out);
    } else {
        lex(Rule::exact, line, out);
    }
}

fn overlong(line: &str) -> Option<Token> {
    let content = line.trim_start_matches(is_blank);
    let class = match content.chars().next()? {
        '#' => Class::Comment,
        _ => Class::Junk,
    };
    Some(Token {
        class,
        start: narrow(line.len() - content.len()),
        end: narrow(line.len()),
    })
}

fn lex(rule: Rule, line: &str, out: &mut Vec<Token>) {
    let Ok(pairs) = LineParser::parse(rule, line) else {
        out.extend(overlong(line));
        return;
    };
    for pair in pairs {
        let span = pair.as_span();
        let class = match pair.as_rule() {
            Rule::word | Rule::name => Class::Word,
            Rule::number | Rule::figure => Class::Number,
            Rule::text => Class::Text,
            Rule::comment => Class::Comment,
            Rule::mark => mark(span.as_str()),
            Rule::EOI => continue,
            _ => Class::Junk,
        };
        let (start, end) = (narrow(span.start()), narrow(span.end()));
        match out.last_mut() {
            // A run of junk is one fault, not one for each character.
            Some(last) if class == Class::Junk && last.class == class && last.end == start => {
                last.end = end;
            }
            _ => out.push(Token { class, start, end }),
        }
    }
}

fn mark(text: &str) -> Class {
    match text {
        "," => Class::Comma,
        "(" => Class::Open,
        ")" => Class::Close,
        "+" => Class::Plus,
        "-" | "−" => Class::Minus,
        "*" => Class::Times,
        "/" => Class::Over,
        "+/-" | "±" => Class::Tolerance,
        ".." => Class::Range,
        "|" => Class::Bar,
        "%" => Class::Percent,
        "×" => Class::Cross,
        _ => Class::Mark,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn by(rule: Rule, line: &str) -> Vec<Token> {
        let mut out = Vec::new();
        lex(rule, line, &mut out);
        out
    }

    fn classes(line: &str) -> Vec<(Class, &str)> {
        let mut out = Vec::new();
        tokens(line, &mut out);
        out.iter().map(|t| (t.class, t.place().of(line))).collect()
    }

    #[test]
    fn a_token_takes_twelve_bytes() {
        assert_eq!(size_of::<Token>(), 12);
    }

    #[test]
    fn a_line_is_words_numbers_and_marks() {
        use Class::{Close, Comma, Comment, Number, Open, Percent, Text, Tolerance, Word};
        assert_eq!(
            classes("  a-1 (3'-6\", 8 %) +/- \"b # |\" # c"),
            [
                (Word, "a-1"),
                (Open, "("),
                (Number, "3'-6\""),
                (Comma, ","),
                (Number, "8"),
                (Percent, "%"),
                (Close, ")"),
                (Tolerance, "+/-"),
                (Text, "\"b # |\""),
                (Comment, "# c"),
            ]
        );
    }

    #[test]
    fn a_line_beyond_the_limit_is_one_token() {
        let line = format!("  x{}", " 1".repeat(LONGEST_LINE));
        let mut out = Vec::new();
        tokens(&line, &mut out);
        assert_eq!(out.len(), 1);
        assert_eq!((out[0].class, out[0].start), (Class::Junk, 2));
        assert_eq!(out[0].end as usize, line.len());
    }

    #[test]
    fn both_grammars_and_the_reader_agree_on_what_is_blank() {
        for c in '\0'..=char::MAX {
            let blank = by(Rule::exact, c.encode_utf8(&mut [0; 4])).is_empty();
            assert_eq!(blank, is_blank(c), "{c:?}");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(20_000))]

        #[test]
        fn on_a_plain_line_the_quick_grammar_and_the_exact_one_agree(
            line in prop_oneof![
                "[ -~]{0,24}",
                "[ a-b0-1,()\"#|.=<+/\t°-]{0,16}",
                "([ ,(|]{0,2}([a-z]{1,3}|[0-9'/-]{1,4}\"?|\"[^\"]{0,4}\"|[(),|=:#%.+/-]{1,3}|[+]/-|[.][.])){0,8}",
            ]
        ) {
            if is_plain(&line) {
                prop_assert_eq!(by(Rule::line, &line), by(Rule::exact, &line));
            }
        }
    }
}
