use super::outcome::Ended;
use super::terminal;
use crate::problem::{Code, all_codes, find_code, nearest};
use clap::Args;
use std::fmt::Write as _;

/// Explain a problem by the name of its code; without one, list them all.
#[derive(Debug, Args)]
pub struct ProblemArgs {
    /// The code, as problems show it in brackets.
    #[arg(value_name = "CODE")]
    code: Option<String>,
}

/// Runs it.
pub fn run(args: &ProblemArgs) -> anyhow::Result<Ended> {
    let Some(id) = &args.code else {
        terminal::print(&list())?;
        return Ok(Ended::Done);
    };
    if let Some(code) = find_code(id) {
        terminal::print(&page(code))?;
        return Ok(Ended::Done);
    }
    let near = nearest(id, all_codes().map(|code| code.id));
    let hint = if near.is_empty() {
        "without a code all of them are listed".to_owned()
    } else {
        format!("did you mean: {}", near.join(", "))
    };
    anyhow::bail!("no problem has the code {id}; {hint}")
}

fn list() -> String {
    let width = all_codes().map(|code| code.id.len()).max().unwrap_or(0);
    let mut out = String::new();
    for code in all_codes() {
        let _ = writeln!(out, "{:width$}  {:8}  {}", code.id, code.severity.word(), code.title);
    }
    out
}

fn page(code: &Code) -> String {
    let mut out = format!("{} ({}): {}\n", code.id, code.severity, code.title);
    for paragraph in code.page.split("\n\n") {
        let _ = writeln!(out, "\n{}", wrapped(paragraph));
    }
    out
}

/// A paragraph in lines of at most 76 characters.
fn wrapped(paragraph: &str) -> String {
    const WIDTH: usize = 76;
    let mut lines = vec![String::new()];
    for word in paragraph.split_whitespace() {
        let line = lines
            .last_mut()
            .filter(|line| line.is_empty() || line.chars().count() + 1 + word.chars().count() <= WIDTH);
        match line {
            Some(line) if line.is_empty() => line.push_str(word),
            Some(line) => {
                line.push(' ');
                line.push_str(word);
            }
            None => lines.push(word.to_owned()),
        }
    }
    lines.join("\n")
}
