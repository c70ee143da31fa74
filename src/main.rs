//! The `stipple` program: parses arguments, runs the command, turns its outcome into an exit code.

use std::process::ExitCode;

/// Claims are made of many small texts, asked for on all cores at once.
#[cfg(unix)]
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    stipple::cli::main()
}
