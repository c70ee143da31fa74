use super::outcome::Ended;
use super::{Cli, EXIT_CODES, terminal};
use clap::{Args, CommandFactory};
use clap_mangen::Man;
use std::io::Write as _;

/// Print the man page (in roff), with a section for every command.
#[derive(Debug, Args)]
pub struct ManArgs {}

/// Runs it.
pub fn run(_: &ManArgs) -> anyhow::Result<Ended> {
    terminal::print_bytes(&page()?)?;
    Ok(Ended::Done)
}

fn page() -> anyhow::Result<Vec<u8>> {
    let mut command = Cli::command();
    command.build();
    let mut page = Vec::new();
    let whole = Man::new(command.clone());
    whole.render_title(&mut page)?;
    whole.render_name_section(&mut page)?;
    whole.render_synopsis_section(&mut page)?;
    whole.render_description_section(&mut page)?;
    whole.render_options_section(&mut page)?;
    for below in command.get_subcommands().filter(|below| below.get_name() != "help") {
        section(below, &mut page)?;
    }
    write!(page, ".SH \"EXIT STATUS\"\n{EXIT_CODES}\n")?;
    whole.render_version_section(&mut page)?;
    Ok(page)
}

/// One command as a section of the page: what it does, how it is called, its options, and the commands below it.
fn section(command: &clap::Command, page: &mut Vec<u8>) -> anyhow::Result<()> {
    let man = Man::new(command.clone());
    let mut parts = Vec::new();
    man.render_description_section(&mut parts)?;
    man.render_synopsis_section(&mut parts)?;
    man.render_options_section(&mut parts)?;
    let name = command.get_display_name().unwrap_or(command.get_name()).replace('-', " ");
    // The library makes pages of their own: their headings go one rank down.
    let text = String::from_utf8_lossy(&parts)
        .replace(".SH DESCRIPTION\n", "")
        .replace(".SH SYNOPSIS\n", ".PP\n")
        .replace(".SH OPTIONS\n", ".PP\n");
    write!(page, ".SH \"{}\"\n{text}", name.to_uppercase())?;
    for below in command.get_subcommands().filter(|below| below.get_name() != "help") {
        section(below, page)?;
    }
    Ok(())
}
