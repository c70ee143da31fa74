//! The house's outward shape: short files, a page for every stage, plain names, nothing unfinished, a tidy top level.

use crate::lexer::Kind;
use crate::{Source, breaks, files_below, hold, root, sources};
use std::collections::BTreeSet;
use std::fs;
use std::process::Command;

/// Lines of a file, tests at its foot included.
const MOST_LINES: usize = 400;

/// Files that are longer with a reason: path, most lines, reason.
const LONGER: &[(&str, usize, &str)] = &[];

/// Names that say nothing about what is inside.
const EMPTY_NAMES: [&str; 9] =
    ["util", "utils", "helper", "helpers", "types", "manager", "common", "misc", "stuff"];

/// What may stand at the top: what people look for first, and what cargo, git and CI need there.
const TOP_LEVEL: [&str; 14] = [
    ".ci",
    ".gitattributes",
    ".gitignore",
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE",
    "README.md",
    "clippy.toml",
    "demo_claims",
    "rustfmt.toml",
    "src",
    "templates",
    "tests",
];

fn too_long(sources: &[Source], longer: &[(&str, usize, &str)]) -> Vec<String> {
    let mut broken = Vec::new();
    for source in sources {
        let lines = source.text.lines().count();
        let exception = longer.iter().find(|(path, ..)| *path == source.path);
        let most = exception.map_or(MOST_LINES, |(_, most, _)| *most);
        if lines > most {
            broken.push(format!("{}: {lines} lines, more than {most}", source.path));
        } else if exception.is_some() && lines <= MOST_LINES {
            broken.push(format!("{}: {lines} lines need no exception", source.path));
        }
    }
    for (path, ..) in longer.iter().filter(|(path, ..)| !sources.iter().any(|source| source.path == *path)) {
        broken.push(format!("{path}: an exception for a file that is not there"));
    }
    broken
}

/// What a stage's `mod.rs` lacks: a page of its own, or its README in the crate's documentation.
fn without_page(module: &Source, has_readme: bool) -> Option<String> {
    let comment: usize = module.text.lines().filter(|line| line.starts_with("//!")).map(str::len).sum();
    let includes = module.text.contains("#![doc = include_str!(\"README.md\")]");
    match (has_readme, includes) {
        (true, false) => Some(format!("{}: its README.md is not in its documentation", module.path)),
        (false, _) if comment < 80 => Some(format!("{}: says nothing about its stage", module.path)),
        _ => None,
    }
}

fn empty_names(paths: impl Iterator<Item = String>) -> Vec<String> {
    paths
        .filter(|path| path.trim_end_matches(".rs").split('/').any(|part| EMPTY_NAMES.contains(&part)))
        .collect()
}

/// Things that are promised and not done, also in comments.
fn unfinished(sources: &[Source]) -> Vec<String> {
    // Put together here, so that this file does not find itself.
    let marks = [["TO", "DO"].concat(), ["FIX", "ME"].concat()];
    let macros = ["todo", "unimplemented"];
    let mut broken = Vec::new();
    for source in sources {
        for (index, line) in source.text.lines().enumerate() {
            if marks.iter().any(|mark| line.contains(mark)) {
                broken.push(format!("{}:{}: {}", source.path, index + 1, line.trim()));
            }
        }
        for pair in source.tokens().windows(2) {
            if macros.iter().any(|word| pair[0].is_word(word)) && pair[1].is_sign('!') {
                broken.push(format!("{}:{}: {}!", source.path, pair[0].line, pair[0].text));
            }
        }
    }
    broken
}

/// Lints that are silenced without saying why.
fn silenced(sources: &[Source]) -> Vec<String> {
    let mut broken = Vec::new();
    for source in sources {
        let tokens = source.tokens();
        for at in 0..tokens.len() {
            let is_attribute = (tokens[at].is_word("allow") || tokens[at].is_word("expect"))
                && at >= 1
                && tokens[at - 1].is_sign('[')
                && tokens.get(at + 1).is_some_and(|token| token.is_sign('('));
            let close = tokens[at..].iter().position(|token| token.is_sign(']')).unwrap_or(0);
            let has_reason = tokens[at..at + close].windows(3).any(|three| {
                three[0].is_word("reason") && three[1].is_sign('=') && three[2].kind == Kind::Text
            });
            if is_attribute && !has_reason {
                broken.push(format!(
                    "{}:{}: a lint is silenced without a reason",
                    source.path, tokens[at].line
                ));
            }
        }
    }
    broken
}

fn all_rust() -> Vec<Source> {
    let mut all = sources();
    all.extend(files_below("tests", &[".rs"]));
    all
}

/// Names at the top level: those that git keeps, or without git those that are there.
fn top_level() -> BTreeSet<String> {
    let listed = Command::new("git").args(["ls-files", "-z"]).current_dir(root()).output();
    match listed {
        Ok(output) if output.status.success() && !output.stdout.is_empty() => {
            String::from_utf8_lossy(&output.stdout)
                .split_terminator('\0')
                .filter_map(|path| path.split('/').next())
                .map(str::to_owned)
                .collect()
        }
        _ => fs::read_dir(root())
            .unwrap_or_else(|e| panic!("{e}"))
            .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
            .filter(|name| name != "target" && name != ".git" && !name.ends_with("-assessed"))
            .collect(),
    }
}

#[test]
fn files_are_short_and_have_one_purpose() {
    hold("files that should be parted", &too_long(&all_rust(), LONGER));
}

#[test]
fn every_stage_has_a_page() {
    let missing: Vec<String> = sources()
        .iter()
        .filter(|source| source.path.split('/').count() == 3 && source.path.ends_with("/mod.rs"))
        .filter_map(|module| {
            let readme = root().join(module.path.replace("mod.rs", "README.md"));
            without_page(module, readme.exists())
        })
        .collect();
    hold("stages without a page", &missing);
}

#[test]
fn names_say_what_is_inside() {
    hold("names that say nothing", &empty_names(all_rust().into_iter().map(|source| source.path)));
}

#[test]
fn nothing_is_left_unfinished() {
    hold("unfinished", &unfinished(&all_rust()));
}

#[test]
fn a_lint_is_silenced_only_with_a_reason() {
    hold("silenced lints", &silenced(&all_rust()));
}

#[test]
fn the_top_level_holds_only_what_is_needed_there() {
    let stray: Vec<String> =
        top_level().into_iter().filter(|name| !TOP_LEVEL.contains(&name.as_str())).collect();
    hold("strays at the top level", &stray);
    for needed in ["README.md", "DEVELOPERS.md", "LICENSE", "src", "tests", "demo_claims", "templates"] {
        assert!(root().join(needed).exists(), "{needed} is missing at the top level");
    }
}

#[test]
fn a_long_file_and_a_stale_exception_are_found() {
    let long = Source::new("src/a.rs", &"x\n".repeat(MOST_LINES + 1));
    breaks(&too_long(&[long], &[]), "src/a.rs");
    let short = [Source::new("src/a.rs", "x\n")];
    breaks(&too_long(&short, &[("src/a.rs", 500, "a reason")]), "src/a.rs");
    breaks(&too_long(&short, &[("src/gone.rs", 500, "a reason")]), "src/gone.rs");
    assert!(too_long(&short, &[]).is_empty());
}

#[test]
fn a_stage_without_a_page_is_found() {
    let bare = Source::new("src/a/mod.rs", "//! Short.\nmod b;");
    assert!(without_page(&bare, false).is_some());
    assert!(without_page(&bare, true).is_some());
    assert!(
        without_page(&Source::new("src/a/mod.rs", "#![doc = include_str!(\"README.md\")]"), true).is_none()
    );
}

#[test]
fn empty_names_promises_and_silenced_lints_are_found() {
    assert_eq!(empty_names(["src/read/util.rs".to_owned()].into_iter()).len(), 1);
    let source =
        Source::new("src/a.rs", &format!("fn f() {{}} // {}: later\ntodo!()", ["TO", "DO"].concat()));
    breaks(&unfinished(&[source]), "src/a.rs:1");
    let source = Source::new("src/a.rs", "\nfn f() { todo!() }");
    breaks(&unfinished(&[source]), "src/a.rs:2");
    let source = Source::new("src/a.rs", "#[allow(dead_code)] fn f() {}");
    breaks(&silenced(&[source]), "src/a.rs:1");
    let source =
        Source::new("src/a.rs", "#[expect(dead_code, reason = \"shown\")] fn f() { x.expect(\"y\") }");
    assert!(silenced(&[source]).is_empty());
}
