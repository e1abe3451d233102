//! What an editor is told of the clean lift, changed in one place.

mod definition;
mod diagnostics;
mod hover;
mod lift;
