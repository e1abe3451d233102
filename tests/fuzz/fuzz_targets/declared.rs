//! Entries are read whatever their text.

#![no_main]

use libfuzzer_sys::fuzz_target;
use plumbhook_tests::endure;

fuzz_target!(|bytes: &[u8]| endure::declared(bytes));
