//! One line of a text, marked: the renderer finds its columns, and never reads the rest of the file.

use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteError,
    MietteSpanContents, SourceCode, SourceSpan, SpanContents, ThemeCharacters,
};
use plumbhook_syntax::Document;
use std::fmt;

/// What is shown of a line; a place beyond it is shown at its end.
const LONGEST_SHOWN: usize = 400;

/// A line by its number, so that no text is scanned from its start for a mark.
struct SourceLine {
    text: String,
    offset: usize,
    number: usize,
}

impl SourceLine {
    fn of(document: &Document, number: u32) -> Option<Self> {
        let text = clean(document.line_text(number)?);
        let mut cut = LONGEST_SHOWN.min(text.len());
        while !text.is_char_boundary(cut) {
            cut -= 1;
        }
        let mut text = text;
        text.truncate(cut);
        if text.is_empty() {
            // The renderer draws no line without a character, and a missing datum may stand there.
            text.push(' ');
        }
        Some(Self {
            text,
            offset: document.line_start(number)? as usize,
            number: number as usize,
        })
    }

    /// The bytes as a span of the file, inside the line and never empty.
    fn span(&self, start: u32, end: u32) -> SourceSpan {
        let last = self.text.len().saturating_sub(1);
        let start = (start as usize).min(last);
        let end = (end as usize).clamp(start + 1, last + 1);
        (self.offset + start, end - start).into()
    }
}

impl SourceCode for SourceLine {
    fn read_span<'a>(
        &'a self,
        _: &SourceSpan,
        _: usize,
        _: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let whole = (self.offset, self.text.len()).into();
        let bytes = self.text.as_bytes();
        Ok(Box::new(MietteSpanContents::new(
            bytes,
            whole,
            self.number,
            0,
            1,
        )))
    }
}

/// Signs that command a terminal or turn the reading direction are shown as `?`, byte for byte, so that
/// every column stays where it was.
pub(crate) fn clean(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        let unseen = (c.is_control() && c != '\t')
            || matches!(c, '\u{200B}'..='\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2066}'..='\u{2069}');
        if unseen {
            out.extend(std::iter::repeat_n('?', c.len_utf8()));
        } else {
            out.push(c);
        }
    }
    out
}

/// The marked line as the renderer takes it.
struct Marked {
    line: SourceLine,
    spans: Vec<SourceSpan>,
}

impl fmt::Debug for Marked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.line.text)
    }
}

impl fmt::Display for Marked {
    fn fmt(&self, _: &mut fmt::Formatter<'_>) -> fmt::Result {
        Ok(())
    }
}

impl std::error::Error for Marked {}

impl Diagnostic for Marked {
    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(&self.line)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let spans = self.spans.iter().copied();
        Some(Box::new(
            spans.map(|span| LabeledSpan::new_with_span(None, span)),
        ))
    }
}

/// The line with its number, and the carets below it: ` 10 |   mass 31.5 t` and `    |        ^^^^^^`.
/// Each pair of `places` is a first byte and one past the last, in order.
pub(super) fn marked(document: &Document, number: u32, places: &[(u32, u32)]) -> Vec<String> {
    let Some(line) = SourceLine::of(document, number) else {
        return Vec::new();
    };
    let spans = places
        .iter()
        .map(|(start, end)| line.span(*start, *end))
        .collect();
    let mut text = String::new();
    let written = renderer().render_report(&mut text, &Marked { line, spans });
    if written.is_err() {
        return Vec::new();
    }
    // The renderer's own message and frame, one line before, one above and one below, say nothing here.
    let lines: Vec<&str> = text.lines().collect();
    let inner = lines.get(2..lines.len().saturating_sub(1)).unwrap_or(&[]);
    inner
        .iter()
        .map(|line| line.trim_end().to_owned())
        .collect()
}

/// Without colour: the page paints.
fn renderer() -> GraphicalReportHandler {
    let mut theme = GraphicalTheme::none();
    theme.characters = ThemeCharacters {
        vbar_break: '|',
        underbar: '^',
        underline: '^',
        ..ThemeCharacters::ascii()
    };
    GraphicalReportHandler::new_themed(theme)
        .with_context_lines(0)
        .with_links(false)
        .without_syntax_highlighting()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn carets_stand_under_what_is_meant() {
        let document = Document::new("load a\n  mass 31.5 t\n");
        assert_eq!(
            marked(&document, 1, &[(7, 13)]),
            [" 2 |   mass 31.5 t", "   |        ^^^^^^"]
        );
    }

    #[test]
    fn wide_signs_take_their_columns_and_a_tab_its_blanks() {
        let document = Document::new("source q \"据え付け\" x\n\tmass\t1 t\n");
        let wide = document.line_text(0).unwrap();
        let at = u32::try_from(wide.find('x').unwrap()).unwrap();
        assert_eq!(
            marked(&document, 0, &[(at, at + 1)]),
            [" 1 | source q \"据え付け\" x", "   |                     ^"]
        );
        assert_eq!(
            marked(&document, 1, &[(6, 7)]),
            [" 2 |     mass    1 t", "   |             ^"]
        );
    }

    #[test]
    fn a_text_never_commands_the_terminal() {
        let document = Document::new("load a\n  name \u{1b}[2J\u{202E}x\u{85}\r");
        let shown = marked(&document, 1, &[(7, 8)]).join("\n");
        assert!(shown.contains("name ?[2J???x??"), "{shown}");
    }

    #[test]
    fn a_place_outside_its_line_is_shown_at_its_end() {
        let document = Document::new("\nload é\n");
        assert_eq!(marked(&document, 0, &[(3, 9)]), [" 1 |", "   | ^"]);
        assert_eq!(marked(&document, 1, &[(6, 6)]).len(), 2);
        assert_eq!(marked(&document, 1, &[(90, 99)]).len(), 2);
        assert_eq!(marked(&document, 7, &[(0, 1)]), Vec::<String>::new());
    }

    #[test]
    fn a_line_of_a_machine_is_cut() {
        let long = "x".repeat(70_000);
        let shown = marked(&Document::new(&long), 0, &[(69_000, 69_500)]);
        assert!(shown.iter().all(|line| line.len() < 500));
    }
}
