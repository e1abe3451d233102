//! A document after any edits is what a fresh reading of its text is.

#![no_main]

use libfuzzer_sys::fuzz_target;
use plumbhook_tests::endure;

fuzz_target!(|bytes: &[u8]| endure::document(bytes));
