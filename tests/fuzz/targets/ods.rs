//! An ODS workbook of any bytes: opened, its tables recognised and gathered, without a panic and with every place known.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| stipple_fuzz::read_whole("fuzzed.ods", bytes));
