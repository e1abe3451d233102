//! What every editor's files must say the same way; a test compares them with this.

/// The ending of our files, without its dot, and the root file, whose folder an editor opens.
pub use plumbhook_workspace::{EXTENSION, ROOT_FILE};

/// What editors call a text of ours, the protocol's `languageId`.
pub const LANGUAGE_ID: &str = "plumbhook";

/// The command that starts the server, the program first.
pub const SERVER_COMMAND: [&str; 2] = ["plumbhook", "lsp"];
