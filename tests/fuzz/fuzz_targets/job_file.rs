//! `fuzzed::job_file` on whatever the fuzzer finds.

#![no_main]

#[path = "../../src/fuzzed.rs"]
#[allow(dead_code)]
mod fuzzed;

libfuzzer_sys::fuzz_target!(|text: &str| fuzzed::job_file(text));
