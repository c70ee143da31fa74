//! The `stipple` program: parses arguments, runs the command, turns its outcome into an exit code.

use std::process::ExitCode;

fn main() -> ExitCode {
    stipple::cli::main()
}
