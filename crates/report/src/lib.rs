//! Faces of a sheet: terminal, JSON, SVG.
