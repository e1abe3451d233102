//! Every notice about the text or a declaration, declared once with its help.

use plumbhook_sheet::{NoticeCode, Severity};

macro_rules! notices {
    ($( $(#[doc = $summary:literal])+ $name:ident = $code:literal, $severity:ident, $explanation:literal; )*) => {
        $( $(#[doc = $summary])+ pub static $name: NoticeCode = NoticeCode {
            code: $code,
            summary: concat!($($summary),+),
            explanation: $explanation,
            severity: Severity::$severity,
        }; )*
        /// Every notice, for `explain`.
        pub static ALL: &[&NoticeCode] = &[$(&$name),*];
    };
}

notices! {
    /// A line could not be read.
    NOT_READ = "line-not-read", Error, "The value of the line has a shape that its key does not take, or something is left over after it. The line's datum is unknown until it is mended; every other line still counts.";
    /// An entry has no such key.
    UNKNOWN_KEY = "unknown-key", Error, "A key that the entry does not have is not read. The nearest key is offered, and what that one says is unknown while the line stands: a cavity whose key is mistyped is no missing cavity.";
    /// A word in column 1 starts no entry.
    UNKNOWN_ENTRY = "unknown-entry", Error, "A word in column 1 starts an entry. If the line belongs to the entry above it, indent it; until then, what it would say there is unknown.";
    /// Rows stand below a key that takes no table.
    ROWS_ASTRAY = "rows-astray", Error, "Rows stand below the key whose table they are. Below another key, what they say and what that key says are unknown.";
    /// Words are left over.
    LEFT_OVER = "left-over", Error, "Words that the declaration has no place for are not ignored: what they belong to is unknown.";
    /// A key that may stand once stands twice.
    SAID_TWICE = "said-twice", Error, "With two answers to one question neither counts.";
    /// A name leads nowhere.
    NAME_NOT_FOUND = "name-not-found", Error, "The name is declared neither in this file nor in the plant or the yard that the root file gives.";
    /// A name leads to something of another kind.
    NAME_OF_ANOTHER_KIND = "name-of-another-kind", Error, "The name is declared, but as something that cannot stand here.";
    /// Entries take over the geometry of each other.
    LIKE_IN_A_CIRCLE = "like-in-a-circle", Error, "`like` takes over the geometry of another entry, which may itself be like a third. Where that leads back to the first, none of them gives it, and it is unknown.";
    /// Moves follow each other in a circle.
    FOLLOWS_IN_A_CIRCLE = "follows-in-a-circle", Error, "A move begins where the one that it follows ends. Where that leads back to the first, none of them begins anywhere, and no station of them is known.";
    /// A move contradicts the end of the one that it follows.
    MOVES_CONTRADICT = "moves-contradict", Error, "A move that follows another begins where that ends: with the same load, in the same attitude and heading, at the same place and height, on the same stand. What it says itself has to be the same. A load that stands goes nowhere before it is lifted.";
    /// An option that could not be read.
    OPTION_NOT_KNOWN = "option-not-known", Error, "The line `in` says of which option an entry is a part. While it cannot be read, the entry belongs to none: no move sees it.";
    /// A hold is named that no move declares.
    HOLD_NOT_FOUND = "hold-not-found", Error, "`free-at H1` names a hold at which the load is proved free. A hold is declared in a move, in a line `hold H1 …` or in the `hold` cell of a station.";
    /// A question closes what is no datum.
    CLOSES_NOTHING = "closes-nothing", Error, "`closes` names the datum that the answer gives, as entry and key: `runner.mass`. No check can say that it waits for the question while that leads nowhere.";
    /// A question is answered and its datum is not.
    ANSWER_NOT_WRITTEN = "answer-not-written", Warning, "The question has an answer, but the datum that it closes is still not given. The answer counts for nothing until it is written where it belongs.";
    /// Revisions run backwards.
    REVISIONS_BACKWARDS = "revisions-backwards", Error, "Revisions stand in the order in which they were made, the last one is the present. One that is older than the one above it makes another stage the present than was meant.";
    /// A revision says no day or no reason.
    REVISION_NOT_DATED = "revision-incomplete", Warning, "A revision says its day and what changed: whoever holds an older one has to see which is newer and why.";
    /// A name is declared twice.
    NAME_TWICE = "name-twice", Error, "Names are unique within what a job sees; a name declared twice leads to neither.";
    /// A named value needs itself.
    NAME_ROUND = "name-round", Error, "Named values may stand in any order, but one that needs itself, straight or by way of others, has no value; whatever uses it is unknown.";
    /// A file opens with none of job, plant, yard, or with two.
    FILE_OPENS = "file-opens", Error, "A file opens with exactly one of `job`, `plant`, `yard`; all its entries belong to it.";
    /// Lines stand before the first entry.
    STRAY_LINES = "stray-lines", Error, "An indented line belongs to the entry above it; before the first entry there is none.";
    /// Claims of one value cannot all be true.
    CLAIMS_DISAGREE = "claims-disagree", Warning, "Two claims do not overlap, so one of them is wrong. Both still count: the worst side of each governs.";
    /// A tag rates a sling higher than the published table of its kind.
    TAG_ABOVE_TABLE = "tag-above-table", Warning, "The tag of a sling counts before any table. Where it says more than the published table for the kind, the grade and the diameter that the yard gives, one of the lines is wrong: the tag is misread, or the sling is of another grade or size.";
    /// A typed number is not the one that its evidence gives.
    QUOTE_DIFFERS = "quote-differs", Error, "The line says how its quotation is read, and in that reading the quotation gives another number than the line, by more than either is rounded. One of them is wrong.";
    /// An adoption names a source that makes no claim.
    ADOPTS_NOTHING = "adopts-nothing", Error, "`adopt` chooses one claim of a key by its source. No claim of that key comes from the source that it names, so nothing is adopted and nothing is dropped.";
    /// A job says no stage.
    NO_STAGE = "no-stage", Warning, "Without a revision with a stage, everything is demanded that an issued job needs.";
    /// A rule set is not known.
    UNKNOWN_RULE_SET = "unknown-rule-set", Error, "The `rules` line names a rule set that this version does not have.";
    /// Something went wrong inside the tool.
    OUR_BUG = "our-bug", Error, "A rule failed inside the tool. This is our bug, not yours; nothing else is lost, and what the rule would have said is unknown.";
}
