//! Dimensions, kinds, the exact unit table, bands, and how a number is printed.
