//! The page that the terminal gets: ink, columns, wrapping.

use super::Screen;
use super::source::clean;
use crate::wrap::{columns, wrapped};
use miette::ThemeStyles;

/// Columns beyond which no text is set: longer lines read badly, and a place far out is not seen.
const WIDEST: usize = 100;
/// Columns that are taken for granted.
const NARROWEST: usize = 40;
/// Where the text of a message starts.
pub(super) const INDENT: usize = 6;

/// What a word's colour stands for. Without colour nothing is lost: every word says it too.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ink {
    /// Over, or an error in the text.
    Over,
    /// Cannot tell.
    Unknown,
    /// A warning.
    Warning,
    /// Not yet due.
    Later,
    /// A file and line.
    Place,
    /// Line numbers and rulers.
    Faint,
}

/// Text for one screen, line by line.
#[derive(Debug)]
pub(super) struct Page {
    text: String,
    width: usize,
    styles: Option<ThemeStyles>,
}

impl Page {
    pub(super) fn new(screen: Screen) -> Self {
        Self {
            text: String::new(),
            width: screen.width.clamp(NARROWEST, WIDEST),
            styles: screen.colour.then(ThemeStyles::ansi),
        }
    }

    pub(super) fn finish(self) -> String {
        self.text
    }

    pub(super) fn blank(&mut self) {
        self.text.push('\n');
    }

    /// A line as it is; the caller has cleaned what came from outside.
    pub(super) fn line(&mut self, text: &str) {
        self.text.push_str(text.trim_end());
        self.text.push('\n');
    }

    fn paint(&self, ink: Ink, text: &str) -> String {
        let Some(styles) = &self.styles else {
            return text.to_owned();
        };
        let style = match ink {
            Ink::Over => styles.error.bold(),
            Ink::Unknown => styles.error.magenta().bold(),
            Ink::Warning => styles.warning.bold(),
            Ink::Later | Ink::Place => styles.advice,
            Ink::Faint => styles.linum,
        };
        style.style(text).to_string()
    }

    /// `over  sling-rating  unit-3 M1                              unit-3.pick:23`: the place at the right.
    pub(super) fn headline(&mut self, ink: Ink, word: &str, rest: &[&str], place: &str) {
        let mut said = String::new();
        for part in rest.iter().filter(|part| !part.is_empty()) {
            said.push_str("  ");
            said.push_str(&clean(part));
        }
        let place = clean(place);
        let taken = columns(word) + columns(&said);
        let gap = self.gap(taken, columns(&place));
        let line = format!(
            "{}{said}{gap}{}",
            self.paint(ink, word),
            self.paint(Ink::Place, &place)
        );
        self.line(&line);
    }

    /// Blanks that set `right` at the right edge, or two where there is no room.
    fn gap(&self, left: usize, right: usize) -> String {
        " ".repeat(self.width.saturating_sub(left + right).max(2))
    }

    /// A paragraph with its further lines two columns in.
    pub(super) fn paragraph(&mut self, text: &str) {
        self.indented(text, INDENT, INDENT + 2);
    }

    /// A paragraph at the left edge.
    pub(super) fn plain(&mut self, text: &str) {
        self.indented(text, 0, 2);
    }

    fn indented(&mut self, text: &str, first: usize, further: usize) {
        let (first, further) = (" ".repeat(first), " ".repeat(further));
        for line in wrapped(&clean(text), self.width, &first, &further) {
            self.line(&line);
        }
    }

    /// A paragraph with a remark set at the right edge of its last line, or on a line of its own.
    pub(super) fn remarked(&mut self, text: &str, remark: &str) {
        let (text, remark) = (clean(text), clean(remark));
        let taken = INDENT + columns(&text);
        if remark.is_empty() || taken + 2 + columns(&remark) > self.width {
            self.paragraph(&text);
            if !remark.is_empty() {
                self.paragraph(&format!("by {remark}"));
            }
            return;
        }
        let gap = self.gap(taken, columns(&remark));
        let line = format!("{}{text}{gap}{remark}", " ".repeat(INDENT));
        self.line(&line);
    }

    /// A line of a text and its carets as [`super::source::marked`] gives them, with words behind the carets.
    pub(super) fn snippet(&mut self, lines: &[String], gutter: usize, ink: Ink, say: &str) {
        let [text, carets] = lines else { return };
        let bar = text.find('|').unwrap_or(0);
        let pad = " ".repeat((gutter + 2).saturating_sub(bar));
        let (number, text) = text.split_at(bar);
        let numbered = format!("{pad}{}{text}", self.paint(Ink::Faint, number));
        self.line(&numbered);
        let (edge, carets) = carets.split_at(bar);
        let bare = carets.strip_prefix('|').unwrap_or(carets);
        let start = bare.len() - bare.trim_start().len();
        let ruler = format!("{pad}{edge}|");
        let under = format!("{ruler}{}", self.paint(ink, bare));
        let say = clean(say);
        let room = self.width.saturating_sub(columns(&ruler));
        if say.is_empty() {
            self.line(&under);
        } else if columns(bare) + 1 + columns(&say) <= room {
            self.line(&format!("{under} {}", self.paint(ink, &say)));
        } else {
            self.line(&under);
            let start = start.min(room.saturating_sub(columns(&say))).max(1);
            let width = room.saturating_sub(start).max(20);
            for line in wrapped(&say, width, "", "") {
                let line = format!("{ruler}{}{}", " ".repeat(start), self.paint(ink, &line));
                self.line(&line);
            }
        }
    }

    /// The name of another file, above its lines.
    pub(super) fn other_file(&mut self, gutter: usize, shown: &str) {
        let line = format!(
            "{} {}",
            " ".repeat(gutter + 2),
            self.paint(Ink::Place, &clean(shown))
        );
        self.line(&line);
    }
}
