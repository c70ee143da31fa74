//! The `stipple` program: parses arguments, runs the command, turns its outcome into an exit code.

fn main() {}
