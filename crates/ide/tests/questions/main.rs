//! What an editor is told of the clean lift, changed in one place.

mod completion;
mod definition;
mod diagnostics;
mod hover;
mod inlay;
mod lift;
mod names;
mod outline;
