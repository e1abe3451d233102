//! What the faces say of one lift. The lift is that of the rules' own examples; invented.

mod explain;
mod human;
mod json;
mod lift;
mod svg;
