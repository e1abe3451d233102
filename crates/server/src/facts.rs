//! What every editor's plugin must say the same way; a test compares their files with this one.

/// What editors call a text of ours, the protocol's `languageId`.
pub const LANGUAGE_ID: &str = "plumbhook";

/// The ending of our files, without its dot.
pub const FILE_ENDING: &str = "pick";

/// The root file: the folder that holds it is what an editor opens.
pub const ROOT_FILE: &str = "plumbhook.toml";

/// The command that starts the server, the program first.
pub const SERVER_COMMAND: [&str; 2] = ["plumbhook", "lsp"];
