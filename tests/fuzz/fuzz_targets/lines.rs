//! Lines become tokens and items, and a block an entry.

#![no_main]

use libfuzzer_sys::fuzz_target;
use plumbhook_tests::endure;

fuzz_target!(|bytes: &[u8]| endure::lines(bytes));
