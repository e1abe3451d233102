//! Setting words in so many columns.

/// What is quoted in backticks is kept in one line up to this many columns.
const LONGEST_KEPT: usize = 32;

/// The lines of `text`, the first and the further ones indented. A number stays with its unit and a short quoted
/// text stays whole; a word wider than the line stands out rather than being broken.
pub(crate) fn wrapped(text: &str, width: usize, first: &str, further: &str) -> Vec<String> {
    let options = textwrap::Options::new(width)
        .initial_indent(first)
        .subsequent_indent(further)
        .break_words(false)
        .word_separator(textwrap::WordSeparator::AsciiSpace)
        .word_splitter(textwrap::WordSplitter::NoHyphenation);
    textwrap::wrap(&glued(text), options)
        .iter()
        .map(|line| line.trim_end().replace(GLUE, " "))
        .collect()
}

/// Columns of a text.
pub(crate) fn columns(text: &str) -> usize {
    textwrap::core::display_width(text)
}

/// A blank that does not part words.
const GLUE: char = '\u{A0}';

fn glued(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for (index, part) in text.split('`').enumerate() {
        if index > 0 {
            out.push('`');
        }
        let quoted = index % 2 == 1;
        if quoted && columns(part) <= LONGEST_KEPT {
            out.push_str(&part.replace(' ', "\u{A0}"));
        } else {
            glue_units(part, &mut out);
        }
    }
    out
}

fn glue_units(part: &str, out: &mut String) {
    let mut words = part.split(' ').peekable();
    while let Some(word) = words.next() {
        out.push_str(word);
        if let Some(next) = words.peek() {
            out.push(if is_number(word) && is_unit(next) {
                GLUE
            } else {
                ' '
            });
        }
    }
}

fn is_number(word: &str) -> bool {
    word.ends_with(|c: char| c.is_ascii_digit())
        && word
            .trim_start_matches(['(', '+', '-'])
            .starts_with(|c: char| c.is_ascii_digit())
}

/// Short and no word of a sentence: units are one to four letters with a sign or two.
fn is_unit(word: &str) -> bool {
    let bare = word.trim_end_matches([')', ',', '.', ';', ':']);
    !bare.is_empty()
        && bare.len() <= 5
        && !["of", "and", "or", "in", "at", "x", "to", "is", "more"].contains(&bare)
        && bare.starts_with(|c: char| c.is_ascii_alphabetic() || c == '%')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_stays_with_its_unit() {
        assert_eq!(
            wrapped("it carries 14.5 t of it", 14, "", ""),
            ["it carries", "14.5 t of it"]
        );
        assert_eq!(
            wrapped("at (85 %), now", 7, "", ""),
            ["at", "(85 %),", "now"]
        );
    }

    #[test]
    fn a_short_quoted_text_stays_whole_and_a_long_one_does_not() {
        assert_eq!(
            wrapped("say `at most 34 t` so", 12, "", ""),
            ["say", "`at most 34 t`", "so"]
        );
        let long = format!("`{}`", "word ".repeat(12));
        assert!(wrapped(&long, 20, "", "").len() > 2);
    }
}
