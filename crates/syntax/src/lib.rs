//! Lines, tokens, items and entries of a job file.
