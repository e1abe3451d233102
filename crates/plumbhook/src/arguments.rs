//! What can be written behind `plumbhook`.

use clap::builder::PossibleValuesParser;
use clap::{Args, Parser, Subcommand, ValueEnum};
use plumbhook_sheet::Stage;
use std::path::PathBuf;

const EXIT_CODES: &str = "\
Exit codes:
  0  everything was checked, and nothing is over, unknown or unreadable
  1  something is over, cannot be told or cannot be read (with `--deny warnings`, a warning too)
  2  something was not checked: no job with a move, a wrong root file, a file that is not there or
     is no UTF-8 text, a wrong option, or a bug of ours; it outranks 1, and what was found in the
     other files is printed all the same

What was found goes to standard output, why something was not checked to standard error.";

const FMT_CODES: &str = "\
Exit codes:
  0  everything is formatted now (with `--check`: was already)
  1  with `--check`: something would change
  2  something could not be read or written, or no `.pick` file is there";

/// Checks and explains heavy lifts and moves written as plain text.
#[derive(Debug, Parser)]
#[command(name = "plumbhook", version, max_term_width = 100)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Write a first job, in which everything is still unknown; where no root file stands above it, that too,
    /// with a first yard and a first plant
    New(New),
    /// Check jobs: what is overloaded, what is missing, what nobody has verified
    Check(Check),
    /// Say what a rule or a notice means, with its sources and examples; without a code, list all
    Explain(Explain),
    /// Set keys, sources and tables in columns; nothing else changes
    Fmt(Fmt),
    /// Print the reference of the language: every entry, key, unit and word, as Markdown
    Reference,
    /// Serve an editor on standard input and output
    Lsp(Lsp),
}

/// Where to write a first job.
#[derive(Debug, Args)]
pub(crate) struct New {
    /// A folder, or a `.pick` file for the job; nothing that is there is overwritten
    #[arg(default_value = ".")]
    pub(crate) path: PathBuf,
}

/// What to check, and how to print it.
#[derive(Debug, Args)]
#[command(after_help = EXIT_CODES)]
pub(crate) struct Check {
    /// Files and folders; `-` reads one file from standard input. A plant or a yard stands for every
    /// job that uses it
    #[arg(default_value = ".")]
    pub(crate) paths: Vec<PathBuf>,

    /// How to print
    #[arg(long, value_enum, default_value_t = Format::Human)]
    pub(crate) format: Format,

    /// The path that standard input stands for; its yard and plants are found from there
    #[arg(long, value_name = "PATH")]
    pub(crate) stdin_name: Option<PathBuf>,

    /// Run these rules alone; the summary says so
    #[arg(long, value_name = "RULE", value_delimiter = ',')]
    pub(crate) only: Vec<String>,

    /// Take every job to have come to this stage at least: what it demands is due. It lowers nothing
    #[arg(long, value_name = "NAME", value_parser = stages())]
    pub(crate) stage: Option<String>,

    /// Check nothing: print every setting, where it is said, and which files count or are ignored
    #[arg(long, conflicts_with_all = ["format", "quiet", "deny"])]
    pub(crate) show_config: bool,

    /// Print errors and the summary alone; what fails and what is counted stays the same
    #[arg(long, short)]
    pub(crate) quiet: bool,

    /// What fails the check though it is no error
    #[arg(long, value_enum, value_name = "WHAT")]
    pub(crate) deny: Option<Deny>,

    /// When to colour
    #[arg(long, value_enum, value_name = "WHEN", default_value_t = Colour::Auto)]
    pub(crate) color: Colour,
}

/// How to print what was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Format {
    /// Findings and a summary, for people
    Human,
    /// Every check with its whole calculation sheet, for programs
    Json,
}

/// What fails beside errors.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Deny {
    /// As sources that disagree, or a job without a stage
    Warnings,
}

/// When to colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Colour {
    /// On a terminal, unless `NO_COLOR` is set or `TERM` is `dumb`; elsewhere where `CLICOLOR_FORCE` is set
    Auto,
    /// Into files and pipes too
    Always,
    /// Nowhere
    Never,
}

/// What to explain.
#[derive(Debug, Args)]
pub(crate) struct Explain {
    /// Code of a rule or a notice, as `sling-rating`
    pub(crate) code: Option<String>,
}

/// What to format, and whether to write it.
#[derive(Debug, Args)]
#[command(after_help = FMT_CODES)]
pub(crate) struct Fmt {
    /// Files and folders; `-` formats standard input to standard output
    #[arg(default_value = ".")]
    pub(crate) paths: Vec<PathBuf>,

    /// Write nothing: print what would change
    #[arg(long)]
    pub(crate) check: bool,

    /// Only the entries that these lines touch, counted from 1, as `12:30`; for one file
    #[arg(long, value_name = "FROM:TO", value_parser = lines)]
    pub(crate) lines: Option<(u32, u32)>,
}

fn stages() -> PossibleValuesParser {
    PossibleValuesParser::new(Stage::ALL.iter().map(|(_, word)| *word))
}

fn lines(text: &str) -> Result<(u32, u32), String> {
    let parts = text.split_once(':').unwrap_or((text, text));
    match (parts.0.parse(), parts.1.parse()) {
        (Ok(from), Ok(to)) if 0 < from && from <= to => Ok((from, to)),
        _ => Err("write the first and the last line, as `12:30`".to_owned()),
    }
}

/// How to serve an editor.
#[derive(Debug, Args)]
pub(crate) struct Lsp {
    /// Some clients always say so; there is no other way
    #[arg(long, hide = true)]
    pub(crate) stdio: bool,
}
