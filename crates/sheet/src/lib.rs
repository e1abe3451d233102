//! What a calculation leaves behind: origin, step, formula, sheet, verdict, finding, figure.
