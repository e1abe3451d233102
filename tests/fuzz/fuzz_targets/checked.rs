//! A job repository is checked to the end, and after edits as if from nothing.

#![no_main]

use libfuzzer_sys::fuzz_target;
use plumbhook_tests::endure;

fuzz_target!(|bytes: &[u8]| endure::checked(bytes));
