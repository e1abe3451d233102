//! What the faces say of one lift. The lift is that of the rules' own examples; invented.

mod human;
mod lift;
mod explain;
mod json;
mod svg;
