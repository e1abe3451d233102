//! Checks and explains heavy lifts and moves written as plain text.

fn main() {}
