//! Declared entries, names, frames, rigs and what lies under a place.
