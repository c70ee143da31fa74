//! The commands' arguments.

use clap::{CommandFactory, Parser};
use stipple::cli::schedule::ScheduleArgs;

#[derive(Debug, Parser)]
struct Program {
    #[command(flatten)]
    schedule: ScheduleArgs,
}

#[test]
fn both_commands_take_paths_and_only_showing_takes_json() {
    Program::command().debug_assert();
    for good in [&["stipple", "check", "a.xlsx", "b"][..], &["stipple", "show", "--json", "a.xlsx"]] {
        assert!(Program::try_parse_from(good).is_ok(), "{good:?}");
    }
    for bad in [
        &["stipple", "check"][..],
        &["stipple", "show"],
        &["stipple", "check", "--json", "a.xlsx"],
        &["stipple"],
    ] {
        assert!(Program::try_parse_from(bad).is_err(), "{bad:?}");
    }
}
