//! The README is true: its commands run as they stand, the files it shows are read, what it prints comes out, what it
//! names is written, and its links lead somewhere.
//!
//! A block headed `sh run` is run line by line, one headed `csv file=NAME` is first written to NAME, and one headed
//! `text output` is what the last command before it prints. `cargo run --release --` and `stipple` are both the program
//! that cargo built for this test; CI runs the two commands at the top literally.

use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// A fenced block: the words after its fence, and its lines.
struct Block {
    heading: Vec<String>,
    text: String,
}

impl Block {
    fn is(&self, words: &[&str]) -> bool {
        words.iter().all(|word| self.heading.iter().any(|own| own == word))
    }

    fn value(&self, key: &str) -> Option<&str> {
        self.heading.iter().find_map(|word| word.strip_prefix(key)?.strip_prefix('='))
    }
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn page(name: &str) -> String {
    let path = root().join(name);
    fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

fn blocks(page: &str) -> Vec<Block> {
    let mut found: Vec<Block> = Vec::new();
    let mut is_open = false;
    for line in page.lines() {
        match line.strip_prefix("```") {
            Some(heading) if !is_open => {
                let heading = heading.split_whitespace().map(str::to_owned).collect();
                found.push(Block { heading, text: String::new() });
                is_open = true;
            }
            Some(_) => is_open = false,
            None if is_open => {
                if let Some(block) = found.last_mut() {
                    block.text.push_str(line);
                    block.text.push('\n');
                }
            }
            None => {}
        }
    }
    found
}

/// The lines of the first block for a shell.
fn two_commands(page: &str) -> Vec<String> {
    let block = blocks(page).into_iter().find(|block| block.is(&["sh"]));
    block.map(|block| block.text.lines().map(str::to_owned).collect()).unwrap_or_default()
}

/// The words of a command; double and single quotes keep spaces together, nothing else is special.
fn words(command: &str) -> Vec<String> {
    let (mut words, mut word, mut quote) = (Vec::new(), None::<String>, None);
    for c in command.chars() {
        match (c, quote) {
            ('"' | '\'', None) => {
                quote = Some(c);
                word.get_or_insert_default();
            }
            (c, Some(open)) if c == open => quote = None,
            (' ', None) => words.extend(word.take()),
            (c, _) => word.get_or_insert_default().push(c),
        }
    }
    words.extend(word);
    words
}

/// Runs a line of the README in a folder.
fn run(line: &str, folder: &Path) -> Output {
    let all = words(line);
    let arguments = match all.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["cargo", "run", "--release", "--", ..] => &all[4..],
        ["stipple", ..] => &all[1..],
        _ => panic!("the README runs something that is not the program: {line}"),
    };
    Command::new(env!("CARGO_BIN_EXE_stipple"))
        .args(arguments)
        .current_dir(folder)
        .env("NO_COLOR", "1")
        .output()
        .unwrap_or_else(|e| panic!("{line}: {e}"))
}

fn expect_exit(line: &str, output: &Output, wanted: i32) {
    assert_eq!(
        output.status.code(),
        Some(wanted),
        "{line}\n{}{}",
        String::from_utf8_lossy(&output.stdout),
        String::from_utf8_lossy(&output.stderr)
    );
}

fn copy(from: &Path, to: &Path) -> io::Result<()> {
    fs::create_dir_all(to)?;
    for entry in fs::read_dir(from)? {
        let entry = entry?;
        let target = to.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            copy(&entry.path(), &target)?;
        } else {
            fs::copy(entry.path(), &target)?;
        }
    }
    Ok(())
}

/// A folder with the demonstrations in it, as a fresh checkout has.
fn checkout() -> io::Result<tempfile::TempDir> {
    let folder = tempfile::tempdir()?;
    copy(&root().join("demo_claims"), &folder.path().join("demo_claims"))?;
    copy(&root().join("tests/demo_workshop"), &folder.path().join("tests/demo_workshop"))?;
    Ok(folder)
}

/// The section below a heading, up to the next of the same rank.
fn section<'p>(page: &'p str, heading: &str) -> &'p str {
    let start = page.find(&format!("\n## {heading}\n")).unwrap_or_else(|| panic!("no section {heading}"));
    let below = &page[start + 4 + heading.len()..];
    below.find("\n## ").map_or(below, |end| &below[..end])
}

/// Names in backticks in the first column of a section's table.
fn listed(section: &str) -> Vec<String> {
    section
        .lines()
        .filter_map(|line| line.strip_prefix("| `")?.split_once('|'))
        .flat_map(|(cell, _)| cell.split('`').filter(|part| part.contains(['.', '/'])))
        .map(str::to_owned)
        .collect()
}

/// Where links and pictures of a page lead, those to other places left out.
fn links(page: &str) -> Vec<String> {
    page.match_indices("](")
        .filter_map(|(at, _)| page[at + 2..].split_once(')'))
        .map(|(target, _)| target.split('#').next().unwrap_or_default().to_owned())
        .filter(|target| !target.is_empty() && !target.contains("://"))
        .collect()
}

#[test]
fn the_job_is_stated_first_and_two_commands_follow() {
    let page = page("README.md");
    let mut parts = page.split("\n\n");
    assert!(parts.next().is_some_and(|title| title.starts_with("# stipple")), "the title");
    let job = parts.next().unwrap();
    for word in ["hail", "spreadsheets", "schedule", "documents"] {
        assert!(job.contains(word), "the first paragraph does not say {word:?}");
    }
    let before_commands = page.split("```sh").next().unwrap();
    assert!(!before_commands.contains("\n## "), "a heading stands before the two commands");
    assert_eq!(two_commands(&page), ["cargo run --release -- assess demo_claims", "cargo test"]);
}

#[test]
fn the_main_command_writes_what_the_readme_lists_and_nothing_else() {
    let page = page("README.md");
    let folder = checkout().unwrap();
    let command = &two_commands(&page)[0];
    expect_exit(command, &run(command, folder.path()), 0);
    let out = folder.path().join("demo_claims-assessed");
    let named: BTreeSet<String> = listed(section(&page, "What comes out"))
        .iter()
        .map(|name| name.trim_end_matches('/').to_owned())
        .collect();
    let written: BTreeSet<String> = fs::read_dir(&out)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    assert_eq!(named, written, "named in the README on the left, written on the right");
    assert!(fs::read_dir(out.join("claims")).unwrap().count() > 0, "no claim document");
}

#[test]
fn its_examples_run_and_print_what_it_shows() {
    let page = page("README.md");
    let folder = checkout().unwrap();
    let blocks = blocks(&page);
    for block in &blocks {
        if let Some(name) = block.value("file") {
            let path = folder.path().join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, &block.text).unwrap();
        }
    }
    let mut printed = None;
    let mut commands = 0;
    for block in &blocks {
        if block.is(&["sh", "run"]) {
            let wanted = block.value("exit").map_or(0, |code| code.parse().unwrap());
            for line in block.text.lines().filter(|line| !line.starts_with('#')) {
                let output = run(line, folder.path());
                expect_exit(line, &output, wanted);
                printed = Some(String::from_utf8(output.stdout).unwrap());
                commands += 1;
            }
        } else if block.is(&["text", "output"]) {
            let printed = printed.take().expect("an output stands behind no command");
            assert_eq!(
                printed.trim_end(),
                block.text.trim_end(),
                "what is printed on the left, the README on the right"
            );
        }
    }
    assert!(commands >= 3, "only {commands} commands were run");
}

#[test]
fn every_link_of_the_pages_leads_somewhere() {
    for name in ["README.md", "DEVELOPERS.md"] {
        let links = links(&page(name));
        assert!(!links.is_empty(), "{name} has no links");
        for link in links {
            assert!(root().join(&link).exists(), "{name} points to {link}, which is not there");
        }
    }
}

#[test]
fn blocks_words_sections_and_links_are_read() {
    let page = "# t\n\n## A\n\n| `a.csv`, `b/` | x `c.csv` |\n[l](d.md#e) ![p](f.png) [g](https://h)\n\n```csv file=a.csv\n1,2\n```\n\n## B\n";
    let block = &blocks(page)[0];
    assert!(block.is(&["csv"]) && block.value("file") == Some("a.csv") && block.text == "1,2\n");
    assert_eq!(words("stipple explain \"a b\" ''"), ["stipple", "explain", "a b", ""]);
    assert_eq!(listed(section(page, "A")), ["a.csv", "b/"]);
    assert_eq!(links(page), ["d.md", "f.png"]);
}
