//! The walls of the house: what each folder may know and use. Every wall is a function from sources to what breaks
//! it, so that a small bad example shows that it can fail, and then the project's own sources have to pass.

mod crates;
mod exactness;
mod imports;
mod lexer;
mod outside_world;
mod paths;
mod problems;
mod shape;

use std::fs;
use std::path::{Path, PathBuf};

/// A source file: its path from the project's root with `/` between parts, and its text.
struct Source {
    /// Path, as in `src/read/mod.rs`.
    path: String,
    /// Text.
    text: String,
}

impl Source {
    /// A made-up source, to show that a wall can fail.
    fn new(path: &str, text: &str) -> Self {
        Self { path: path.to_owned(), text: text.to_owned() }
    }

    /// Its tokens.
    fn tokens(&self) -> Vec<lexer::Token> {
        lexer::tokens(&self.text)
    }

    /// The stage folder it stands in: `read` for `src/read/mod.rs`, `main` for `src/main.rs`.
    fn stage(&self) -> Option<&str> {
        let below = self.path.strip_prefix("src/")?;
        Some(below.split_once('/').map_or_else(|| below.trim_end_matches(".rs"), |(stage, _)| stage))
    }

    /// Whether it is this file, or lies in this folder when the name ends in `/`.
    fn is_in(&self, place: &str) -> bool {
        if place.ends_with('/') { self.path.starts_with(place) } else { self.path == place }
    }
}

/// Files of `src` that are built for tests only: modules declared under `#[cfg(test)]`, and what lies below them. Each
/// entry is the path without `.rs`.
fn test_modules(sources: &[Source]) -> Vec<String> {
    let mut found = Vec::new();
    for source in sources {
        let (_, test) = lexer::parted(&source.tokens());
        let folder = source.path.trim_end_matches(".rs").trim_end_matches("/mod").trim_end_matches("/lib");
        for three in test.windows(3) {
            if three[0].is_word("mod") && three[2].is_sign(';') {
                found.push(format!("{folder}/{}", three[1].text));
            }
        }
    }
    found
}

/// The project's root.
fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Every file below a folder of the project whose name ends in one of these, by path.
fn files_below(folder: &str, endings: &[&str]) -> Vec<Source> {
    let mut found = Vec::new();
    collect(&root().join(folder), folder, endings, &mut found);
    found.sort_by(|a, b| a.path.cmp(&b.path));
    found
}

fn collect(folder: &Path, name: &str, endings: &[&str], found: &mut Vec<Source>) {
    let entries = fs::read_dir(folder).unwrap_or_else(|e| panic!("{}: {e}", folder.display()));
    for entry in entries {
        let path = entry.unwrap_or_else(|e| panic!("{}: {e}", folder.display())).path();
        let own = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let inside = format!("{name}/{own}");
        if path.is_dir() {
            if own != "target" {
                collect(&path, &inside, endings, found);
            }
        } else if endings.iter().any(|ending| own.ends_with(ending)) {
            let text = fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
            found.push(Source { path: inside, text });
        }
    }
}

/// The crate's sources.
fn sources() -> Vec<Source> {
    files_below("src", &[".rs"])
}

/// Fails with everything that breaks a wall, one a line.
fn hold(wall: &str, broken: &[String]) {
    assert!(broken.is_empty(), "{wall}:\n  {}", broken.join("\n  "));
}

/// Asserts that a bad example breaks a wall and says where.
fn breaks(broken: &[String], place: &str) {
    assert!(broken.iter().any(|line| line.starts_with(place)), "nothing was found at {place}: {broken:?}");
}
