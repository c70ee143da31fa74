//! Only the command line speaks to the outside: terminal, environment, clock. Files are opened at the two edges.

use crate::lexer::Token;
use crate::{Source, breaks, hold, sources};

/// Where the program may print, read the environment and the clock.
const MAY_SPEAK: &[&str] = &["src/cli/", "src/main.rs"];

/// Words that a file may use nevertheless, each with its reason.
const MAY_REACH: &[(&str, &str, &str)] = &[
    ("src/read/workbook/apart.rs", "process", "starts this program once more for an old workbook"),
    ("src/read/workbook/apart.rs", "stdin", "what it is given there"),
    ("src/read/workbook/apart.rs", "stdout", "what it answers"),
    ("src/read/workbook/apart.rs", "stderr", "thrown away"),
    ("src/read/workbook/answer.rs", "process", "limits of that process, set by itself"),
];

/// Where files may be opened, each with its reason.
const MAY_TOUCH_FILES: &[(&str, &str)] = &[
    ("src/read/", "the input edge"),
    ("src/report/folder/", "the output edge"),
    ("src/cli/", "the program's own paths"),
    ("src/main.rs", "the program"),
];

/// What prints when followed by `!`.
const PRINTS: [&str; 5] = ["println", "eprintln", "print", "eprint", "dbg"];

/// What reaches for the terminal, the environment, the clock or the process when it is no macro: `env!` is settled
/// when the crate is built, `std::env` is not.
const REACHES: [&str; 12] = [
    "env",
    "stdout",
    "stderr",
    "stdin",
    "SystemTime",
    "Instant",
    "Zoned",
    "Timestamp",
    "current_dir",
    "temp_dir",
    "process",
    "sleep",
];

fn speaking(sources: &[Source]) -> Vec<String> {
    let mut all = Vec::new();
    for source in sources {
        let reaches =
            |word: &str| MAY_REACH.iter().any(|(place, may, _)| source.is_in(place) && *may == word);
        let words: Vec<&str> = REACHES.into_iter().filter(|word| !reaches(word)).collect();
        all.extend(speaking_of(std::slice::from_ref(source), &words));
    }
    all
}

fn speaking_of(sources: &[Source], reaches: &[&str]) -> Vec<String> {
    found(
        sources,
        |source| !MAY_SPEAK.iter().any(|place| source.is_in(place)),
        |tokens, at| {
            let token = &tokens[at];
            let next = tokens.get(at + 1);
            let is_macro = next.is_some_and(|next| next.is_sign('!'));
            let words: &[&str] = if is_macro { &PRINTS } else { reaches };
            words.iter().any(|word| token.is_word(word))
        },
    )
}

fn touching_files(sources: &[Source]) -> Vec<String> {
    let is_inside = |source: &Source| !MAY_TOUCH_FILES.iter().any(|(place, _)| source.is_in(place));
    found(sources, is_inside, |tokens, at| {
        let is_path = tokens.get(at + 1).is_some_and(|next| next.is_sign(':'));
        (tokens[at].is_word("fs") || tokens[at].is_word("File") || tokens[at].is_word("OpenOptions"))
            && (is_path || tokens.get(at + 1).is_some_and(|next| next.is_sign(';') || next.is_sign(',')))
    })
}

fn found(
    sources: &[Source],
    is_watched: impl Fn(&Source) -> bool,
    is_wrong: impl Fn(&[Token], usize) -> bool,
) -> Vec<String> {
    let mut broken = Vec::new();
    for source in sources.iter().filter(|source| is_watched(source)) {
        let tokens = source.tokens();
        for at in 0..tokens.len() {
            if is_wrong(&tokens, at) {
                broken.push(format!("{}:{}: {}", source.path, tokens[at].line, tokens[at].text));
            }
        }
    }
    broken
}

#[test]
fn only_the_command_line_prints_and_reads_environment_and_clock() {
    hold("terminal, environment or clock outside the command line", &speaking(&sources()));
}

#[test]
fn files_are_opened_only_at_the_edges() {
    hold("files touched between the edges", &touching_files(&sources()));
}

#[test]
fn printing_the_environment_and_the_clock_are_found() {
    let bad = |text: &str| speaking(&[Source::new("src/batch/mod.rs", text)]);
    breaks(&bad("\nprintln!(\"x\");"), "src/batch/mod.rs:2");
    breaks(&bad("let x = std::env::var(\"HOME\");"), "src/batch/mod.rs:1");
    breaks(&bad("let now = Instant::now();"), "src/batch/mod.rs:1");
    breaks(&bad("std::io::stderr().lock();"), "src/batch/mod.rs:1");
    assert!(bad("const V: &str = env!(\"CARGO_PKG_VERSION\"); // println!(\"x\")").is_empty());
    assert!(speaking(&[Source::new("src/cli/mod.rs", "println!(\"x\")")]).is_empty());
}

#[test]
fn an_opened_file_is_found() {
    let bad = |text: &str| touching_files(&[Source::new("src/schedule/mod.rs", text)]);
    breaks(&bad("let text = std::fs::read_to_string(path);"), "src/schedule/mod.rs:1");
    breaks(&bad("use std::fs::File;"), "src/schedule/mod.rs:1");
    assert!(touching_files(&[Source::new("src/read/open.rs", "use std::fs;")]).is_empty());
}
