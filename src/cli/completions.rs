use super::outcome::Ended;
use super::{Cli, terminal};
use clap::{Args, CommandFactory};
use clap_complete::Shell;

/// Print shell completions: save them where your shell looks for such files.
#[derive(Debug, Args)]
pub struct CompletionsArgs {
    /// The shell.
    #[arg(value_enum)]
    shell: Shell,
}

/// Runs it.
pub fn run(args: &CompletionsArgs) -> anyhow::Result<Ended> {
    let mut bytes = Vec::new();
    clap_complete::generate(args.shell, &mut Cli::command(), env!("CARGO_PKG_NAME"), &mut bytes);
    terminal::print_bytes(&bytes)?;
    Ok(Ended::Done)
}
