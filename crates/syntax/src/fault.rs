//! What can be wrong with a piece of a line, and how it is said.

use std::borrow::Cow;

/// Why a piece of a line could not be read. Wherever one stands, the line's datum is unknown.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// A block whose first line has no word to start with.
    NoEntry,
    /// A line beyond [`crate::LONGEST_LINE`].
    LineTooLong {
        /// Its length.
        bytes: u32,
    },
    /// Brackets in brackets, beyond [`crate::DEEPEST_BRACKET`].
    TooDeep,
    /// A calculation beyond [`crate::MOST_OPERATORS`].
    TooManyOperators,
    /// A quotation mark without its partner.
    UnclosedText,
    /// Quoted text with a word or number glued to it, or a quotation mark inside a word.
    GluedText,
    /// `(` without `)`.
    UnclosedBracket,
    /// `)` without `(`.
    StrayBracket,
    /// Brackets with nothing in them, or a coordinate with nothing in it.
    EmptyBracket,
    /// Starts as a number and goes on as none.
    NotANumber,
    /// A number beyond what a calculation can hold.
    TooLarge,
    /// `.5`
    BareDecimal {
        /// What to write instead.
        rewrite: Box<str>,
    },
    /// `137,000`: a comma between digits with no blank after it.
    DigitComma {
        /// What it may have meant, each as it should be written.
        rewrites: Vec<Box<str>>,
    },
    /// Digits grouped by no-break or thin blanks.
    SpacedDigits {
        /// What to write instead.
        rewrite: Box<str>,
    },
    /// `5-8 t`: a range, a difference or a name.
    HyphenNumber {
        /// What it may have meant, each as it should be written.
        rewrites: Vec<Box<str>>,
    },
    /// `300x40 mm`
    GluedSizes {
        /// What to write instead.
        rewrite: Box<str>,
    },
    /// An operator without a blank on each side.
    GluedOperator {
        /// What to write instead, where that is plain.
        rewrite: Option<Box<str>>,
    },
    /// A fraction that is none: over zero, or a whole number with more than one whole behind it.
    Fraction,
    /// A foot mark with something else than inches after it.
    FeetInches,
    /// Twelve inches or more after a foot mark.
    InchesBeyondFoot,
    /// A date in another form than year-month-day.
    DateForm {
        /// The days it may mean, each as year-month-day; none if it means no day.
        readings: Vec<Box<str>>,
    },
    /// A date that the calendar does not have.
    NoSuchDay,
    /// A slope to zero.
    SlopeToZero,
    /// An operator without a value on each side.
    LoneOperator,
    /// A sign before something that is neither number nor axis.
    LoneSign,
    /// `%` without a number directly before it.
    LonePercent,
    /// `×` that does not stand between two numbers.
    LoneCross,
    /// A tolerance with no value before it.
    LoneTolerance,
    /// A tolerance whose amount is missing or is no amount.
    ToleranceAmount,
    /// A tolerance whose amount has a sign.
    SignedTolerance,
    /// A tolerance on a range.
    ToleranceOfRange,
    /// A tolerance after a calculation, where it matters whether the last value is meant or the whole.
    ToleranceOfCalculation,
    /// A range with a side missing, with a side that is no value, or with three sides.
    RangeSide,
    /// A character that looks like another one which the language uses.
    LookAlike {
        /// What stands there.
        found: char,
        /// What to write instead.
        instead: &'static str,
    },
    /// A character that cannot be seen.
    Hidden(char),
    /// A character that means nothing here.
    Stray(char),
}

impl Fault {
    /// One sentence or two for a person: what is wrong and what would mend it.
    pub fn say(&self) -> Cow<'static, str> {
        match self {
            Self::LineTooLong { bytes } => format!(
                "this line has {bytes} bytes and is not read; the longest that is read has {}: split it into rows",
                crate::LONGEST_LINE
            )
            .into(),
            Self::TooDeep => format!(
                "more than {} brackets inside one another are not read; name parts of the calculation with `let`",
                crate::DEEPEST_BRACKET
            )
            .into(),
            Self::TooManyOperators => format!(
                "more than {} operators in one line are not read; name parts of the calculation with `let`",
                crate::MOST_OPERATORS
            )
            .into(),
            Self::DateForm { readings } if readings.is_empty() => {
                "this looks like a date and is no day; write year-month-day, as `2026-10-12`".into()
            }
            Self::LookAlike { found, instead } => format!(
                "`{found}` (U+{:04X}) looks like what the language uses and is not; write {instead}",
                u32::from(*found)
            )
            .into(),
            Self::Hidden(c) => format!(
                "here stands a character that cannot be seen (U+{:04X}); delete it",
                u32::from(*c)
            )
            .into(),
            Self::Stray(c) => {
                format!("`{c}` means nothing here; put evidence and free text in quotation marks")
                    .into()
            }
            _ => match self.rewrites() {
                [] => self.what().into(),
                rewrites => format!("{}; write {}", self.what(), one_of(rewrites)).into(),
            },
        }
    }

    /// What may be written in place of the whole piece, each one a complete replacement. Never to be applied unasked:
    /// each is one reading of a number, and only its author knows which he meant.
    pub fn rewrites(&self) -> &[Box<str>] {
        match self {
            Self::BareDecimal { rewrite }
            | Self::SpacedDigits { rewrite }
            | Self::GluedSizes { rewrite }
            | Self::GluedOperator {
                rewrite: Some(rewrite),
            } => std::slice::from_ref(rewrite),
            Self::DigitComma { rewrites } | Self::HyphenNumber { rewrites } => rewrites,
            Self::DateForm { readings } => readings,
            _ => &[],
        }
    }

    /// The same fault when a sign is glued before the piece, so that its rewrites stay complete.
    pub(crate) fn behind_sign(self, sign: char) -> Self {
        let with_sign = |rewrite: Box<str>| format!("{sign}{rewrite}").into_boxed_str();
        let all = |rewrites: Vec<Box<str>>| rewrites.into_iter().map(with_sign).collect();
        match self {
            Self::DigitComma { rewrites } => Self::DigitComma {
                rewrites: all(rewrites),
            },
            Self::HyphenNumber { rewrites } => Self::HyphenNumber {
                rewrites: all(rewrites),
            },
            Self::SpacedDigits { rewrite } => Self::SpacedDigits {
                rewrite: with_sign(rewrite),
            },
            Self::GluedSizes { .. } | Self::DateForm { .. } | Self::NoSuchDay => Self::LoneSign,
            Self::GluedOperator { rewrite } => Self::GluedOperator {
                rewrite: rewrite.map(with_sign),
            },
            other => other,
        }
    }

    /// The part of the sentence that needs nothing from the text.
    fn what(&self) -> &'static str {
        match self {
            Self::NoEntry => "an entry starts with a word in the first column, as `load` or `move`",
            Self::UnclosedText => {
                "the closing quotation mark is missing; text ends in the line where it starts"
            }
            Self::GluedText => {
                "quoted text has blanks around it; a blank is missing at a quotation mark"
            }
            Self::UnclosedBracket => "the closing bracket `)` is missing",
            Self::StrayBracket => "this `)` closes nothing; its `(` is missing",
            Self::EmptyBracket => {
                "a coordinate is missing in these brackets; write `unknown` for one that is not known"
            }
            Self::NotANumber => {
                "this starts as a number and is none; write digits with a decimal point, a blank, and the unit"
            }
            Self::TooLarge => "this number is too large to calculate with",
            Self::BareDecimal { .. } => {
                "a decimal point needs a digit before it, so that it is not overlooked"
            }
            Self::DigitComma { .. } => {
                "a comma between digits can part thousands, decimals or the values of a list"
            }
            Self::SpacedDigits { .. } => "thousands are not parted by blanks",
            Self::HyphenNumber { .. } => {
                "a hyphen between numbers can mean a range or a difference"
            }
            Self::GluedSizes { .. } => "`x` between sizes has a blank on each side",
            Self::GluedOperator { .. } => {
                "an operator has a blank on each side; a sign has one before it and none after"
            }
            Self::Fraction => {
                "this is no fraction: its lower number must not be 0, and after a whole number it must be below 1"
            }
            Self::FeetInches => {
                "after a foot mark come inches with an inch mark, as `12'-6 1/2\"`, or nothing"
            }
            Self::InchesBeyondFoot => {
                "after a foot mark stand less than 12 inches; put a comma between two lengths"
            }
            Self::DateForm { .. } => "the order of day and month is not sure",
            Self::NoSuchDay => {
                "the calendar has no such day; write year-month-day, as `2026-10-12`"
            }
            Self::SlopeToZero => {
                "a slope of something to 0 has no size; write it as `1:50`, `2 %` or in degrees"
            }
            Self::LoneOperator => "an operator stands between two values; one of them is missing",
            Self::LoneSign => "a sign is glued to a number, or to an axis as in `+x`",
            Self::LonePercent => "`%` stands directly after a number",
            Self::LoneCross => "`×` stands between two sizes; a product is written with `*`",
            Self::LoneTolerance => {
                "a tolerance stands behind the value it belongs to, as `0 +/- 60 mm`; it never means both signs"
            }
            Self::ToleranceAmount => "after `+/-` stands an amount, as `60 mm` or `8 %`",
            Self::SignedTolerance => "a tolerance has no sign of its own; it goes to both sides",
            Self::ToleranceOfRange => "a range takes no tolerance; widen the range instead",
            Self::ToleranceOfCalculation => {
                "this tolerance can belong to the last value or to the whole; put what it belongs to in brackets, as `(2 * 14.5 t) +/- 100 kg`"
            }
            Self::RangeSide => {
                "a range has two sides, as `0 .. 300 kg`; for one side write `at most` or `at least`"
            }
            Self::LineTooLong { .. }
            | Self::TooDeep
            | Self::TooManyOperators
            | Self::LookAlike { .. }
            | Self::Hidden(_)
            | Self::Stray(_) => "this is not read",
        }
    }

    /// The fault of one character that the language has no use for.
    pub(crate) fn of_character(c: char) -> Self {
        let instead = match c {
            '\u{2013}' | '\u{2014}' => "`-` for a minus or in a name, `..` for a range",
            '\u{2010}'..='\u{2015}' => "`-`",
            '\u{2018}' | '\u{2019}' | '\u{2032}' => "`'` for feet",
            '\u{201C}'..='\u{201F}' | '\u{AB}' | '\u{BB}' => "`\"`",
            '\u{2033}' => "`\"` for inches",
            '\u{2026}' => "`..` for a range",
            '\u{BC}'..='\u{BE}' | '\u{2150}'..='\u{215E}' => "a fraction in digits, as `1-1/2 in`",
            '\u{FF01}'..='\u{FF5E}' => "the narrow form of it",
            '\u{2264}' => "`at most`",
            '\u{2265}' => "`at least`",
            '\u{2044}' | '\u{2215}' => "`/`",
            '\u{22C5}' | '\u{B7}' => "`*` for a product, `.` for a decimal point",
            _ if c.is_control() || is_hidden(c) => return Self::Hidden(c),
            _ => return Self::Stray(c),
        };
        Self::LookAlike { found: c, instead }
    }
}

fn is_hidden(c: char) -> bool {
    matches!(
        c,
        '\u{AD}' | '\u{200B}'..='\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2060}'..='\u{206F}'
            | '\u{FEFF}' | '\u{FFF9}'..='\u{FFFD}'
    )
}

fn one_of(choices: &[Box<str>]) -> String {
    let mut out = String::new();
    for (i, choice) in choices.iter().enumerate() {
        out.push_str(match i {
            0 => "`",
            _ if i + 1 == choices.len() => " or `",
            _ => ", `",
        });
        out.push_str(choice);
        out.push('`');
    }
    out
}
