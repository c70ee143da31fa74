//! An XLS or XLSB workbook of any bytes: read in a process of its own, whose answer may be cut off or anything else. The
//! program that is started is the one that `STIPPLE_PROGRAM` names.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(
    init: {
        let program = std::env::var_os("STIPPLE_PROGRAM").expect("STIPPLE_PROGRAM names the program");
        stipple::read::read_apart_with(program.into());
    },
    |bytes: &[u8]| stipple_fuzz::read_whole("fuzzed.xls", bytes)
);
