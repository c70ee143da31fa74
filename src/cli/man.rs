use super::outcome::Ended;
use super::{Cli, terminal};
use clap::{Args, CommandFactory};
use clap_mangen::Man;

/// Print the man page (in roff), with a section for every command.
#[derive(Debug, Args)]
pub struct ManArgs {}

/// Runs it.
pub fn run(_: &ManArgs) -> anyhow::Result<Ended> {
    let mut command = Cli::command();
    command.build();
    let mut bytes = Vec::new();
    Man::new(command.clone()).render(&mut bytes)?;
    for below in command.get_subcommands() {
        let page = Man::new(below.clone());
        bytes.extend_from_slice(format!(".SH {}\n", below.get_name().to_uppercase()).as_bytes());
        page.render_description_section(&mut bytes)?;
        page.render_options_section(&mut bytes)?;
    }
    terminal::print_bytes(&bytes)?;
    Ok(Ended::Done)
}
