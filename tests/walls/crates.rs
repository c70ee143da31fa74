//! Third-party crates stand behind few files each, so that one can be exchanged without touching the house.

use crate::lexer::Kind;
use crate::paths::paths;
use crate::{Source, breaks, hold, root, sources};
use std::collections::BTreeSet;
use std::fs;

/// A crate, the files and folders that may name it, and why there.
const WALLS: &[(&str, &[&str], &str)] = &[
    (
        "calamine",
        &["src/read/workbook/cell.rs", "src/read/workbook/xlsx.rs", "src/read/workbook/answer.rs"],
        "cells of XLSX workbooks, and of old ones in a process of their own; its values in one file",
    ),
    (
        "quick_xml",
        &[
            "src/read/workbook/formats.rs",
            "src/read/workbook/ods.rs",
            "src/read/workbook/parts.rs",
            "src/read/workbook/scan.rs",
        ],
        "ODS workbooks, and what of XLSX the reader of cells does not tell",
    ),
    ("encoding_rs", &["src/read/file/encoding.rs"], "the tables of encodings"),
    ("encoding_rs_io", &["src/read/file/encoding.rs"], "text decoded while it is read"),
    ("rustix", &["src/read/workbook/answer.rs"], "limits of the process that reads old workbooks"),
    ("zip", &["src/read/file/archive.rs"], "bounds of an archive, checked before anything is unpacked"),
    ("csv", &["src/read/csv.rs", "src/report/csv.rs"], "one reader and one writer of CSV"),
    ("tera", &["src/report/html.rs"], "the renderer of documents"),
    ("rust_xlsxwriter", &["src/report/workbook/"], "the writer of workbooks"),
    ("serde", &["src/report/", "src/cli/"], "what documents and JSON are made of"),
    ("serde_json", &["src/report/", "src/cli/"], "JSON output"),
    (
        "sha2",
        &[
            "src/read/",
            "src/schedule/",
            "src/report/folder/",
            "src/report/file_name.rs",
            "src/compare/sampling/draw.rs",
        ],
        "digests of what was read and written, of names too long for a file, and draws that anybody can repeat",
    ),
    (
        "rayon",
        &[
            "src/batch/",
            "src/compare/comparison/gathered.rs",
            "src/compare/comparison/summary.rs",
            "src/read/file/mod.rs",
            "src/read/long/survey.rs",
            "src/read/photographs/mod.rs",
            "src/report/comparison/output.rs",
            "src/report/folder/earlier.rs",
            "src/report/pdf/mod.rs",
        ],
        "files, parts of long ones, photographs, claims, cars that are compared, what is written of them, and files to be removed, on all cores; threads for typst",
    ),
    ("exif", &["src/read/photographs/image.rs"], "the day that a camera wrote into a photograph"),
    ("iso_currency", &["src/quantity/currency.rs"], "ISO 4217"),
    ("jiff", &["src/quantity/date.rs"], "the calendar"),
    ("rust_decimal", &["src/quantity/"], "exact decimals; everybody else takes them from `quantity`"),
    ("strsim", &["src/problem/nearest.rs"], "the nearest right word"),
    ("mimalloc", &["src/main.rs"], "the program's memory"),
    ("clap", &["src/cli/", "src/main.rs"], "arguments"),
    ("clap_complete", &["src/cli/"], "shell completions"),
    ("clap_mangen", &["src/cli/"], "the man page"),
    ("anyhow", &["src/cli/", "src/main.rs"], "errors at the edge"),
    ("anstream", &["src/cli/", "src/main.rs"], "colour only where the terminal takes it"),
    ("anstyle", &["src/cli/"], "colour"),
    ("indicatif", &["src/cli/"], "progress"),
    ("terminal_size", &["src/cli/terminal.rs"], "the width of the terminal"),
    ("fluent_bundle", &["src/report/words/mod.rs"], "texts of documents in several languages, with plurals"),
    (
        "fluent_syntax",
        &["src/report/words/source.rs"],
        "the files that hold them, held against the English one",
    ),
    ("unic_langid", &["src/report/words/mod.rs"], "the tags of languages"),
    ("icu_decimal", &["src/report/words/form.rs"], "numbers in the form of a place"),
    ("icu_datetime", &["src/report/words/form.rs"], "days in the form of a place"),
    ("icu_locale_core", &["src/report/words/form.rs"], "the tags of places"),
    ("icu_provider", &[], "only for its feature `sync`: formatters that threads can share"),
    ("typst", &["src/report/pdf/"], "the setter of PDF documents, only with the feature `pdf`"),
    ("typst_layout", &["src/report/pdf/"], "its pages"),
    ("typst_pdf", &["src/report/pdf/"], "its writer of PDF files"),
];

fn wrong_uses(sources: &[Source]) -> Vec<String> {
    let mut broken = Vec::new();
    for source in sources {
        let named = paths(source);
        let locals = local_names(source, &named);
        for path in &named {
            let Some(head) = path.segments.first() else { continue };
            let Some((name, places, _)) = WALLS.iter().find(|(name, ..)| name == head) else { continue };
            if !locals.contains(*name) && !places.iter().any(|place| source.is_in(place)) {
                broken.push(format!(
                    "{}:{}: {name} stands behind {}",
                    source.path,
                    path.line,
                    places.join(", ")
                ));
            }
        }
    }
    broken
}

/// Names that mean a module of ours in this file: declared with `mod`, or imported from our own crate.
fn local_names(source: &Source, named: &[crate::paths::Named]) -> BTreeSet<String> {
    let tokens = source.tokens();
    let declared = tokens.windows(2).filter(|pair| pair[0].is_word("mod") && pair[1].kind == Kind::Word);
    let imported = named.iter().filter(|path| {
        matches!(path.segments.first().map(String::as_str), Some("crate" | "super" | "self" | "stipple"))
    });
    declared
        .map(|pair| pair[1].text.clone())
        .chain(imported.filter_map(|path| path.segments.last().cloned()))
        .collect()
}

/// The names under `[dependencies]`, those of some systems alone included, as code writes them.
fn dependencies(manifest: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut is_inside = false;
    for line in manifest.lines() {
        if line.starts_with('[') {
            let is_of_a_system = line.starts_with("[target.") && line.ends_with(".dependencies]");
            is_inside = line.trim() == "[dependencies]" || is_of_a_system;
        } else if let Some((name, _)) = line.split_once('=').filter(|_| is_inside) {
            found.push(name.trim().replace('-', "_"));
        }
    }
    found
}

/// The crates in the first column of the table under `Dependencies`, as code writes them.
fn explained(page: &str) -> BTreeSet<String> {
    let section = page.split("\n## Dependencies\n").nth(1).unwrap_or_default();
    section
        .lines()
        .filter_map(|line| line.strip_prefix("| ")?.split_once(" |"))
        .flat_map(|(crates, _)| crates.split(", "))
        .map(|name| name.trim().replace('-', "_"))
        .collect()
}

#[test]
fn crates_stay_behind_their_walls() {
    hold("crates outside their walls", &wrong_uses(&sources()));
}

#[test]
fn every_dependency_has_a_wall_and_every_wall_a_dependency() {
    let manifest = fs::read_to_string(root().join("Cargo.toml")).unwrap();
    let listed: BTreeSet<String> = dependencies(&manifest).into_iter().collect();
    let walled: BTreeSet<String> = WALLS.iter().map(|(name, ..)| (*name).to_owned()).collect();
    assert_eq!(listed, walled, "dependencies of Cargo.toml on the left, walls on the right");
}

#[test]
fn every_dependency_is_explained_to_developers() {
    let page = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let explained: BTreeSet<String> = explained(&page);
    let missing: Vec<String> = WALLS
        .iter()
        .filter(|(name, ..)| !explained.contains(*name))
        .map(|(name, ..)| format!("{name} has no row under Dependencies in DEVELOPERS.md"))
        .collect();
    hold("dependencies without a reason", &missing);
}

#[test]
fn every_wall_names_places_that_exist() {
    let missing: Vec<String> = WALLS
        .iter()
        .flat_map(|(name, places, _)| places.iter().map(move |place| (name, place)))
        .filter(|(_, place)| !root().join(place).exists())
        .map(|(name, place)| format!("{place} (for {name})"))
        .collect();
    hold("walls around nothing", &missing);
}

#[test]
fn a_crate_outside_its_wall_is_found_however_it_is_named() {
    let bad = |path: &str, text: &str| wrong_uses(&[Source::new(path, text)]);
    breaks(&bad("src/assess/mod.rs", "\nuse rust_decimal::Decimal;"), "src/assess/mod.rs:2");
    breaks(&bad("src/report/mod.rs", "fn f() -> anyhow::Result<()> {}"), "src/report/mod.rs:1");
    breaks(&bad("src/read/mod.rs", "use {std::io, calamine};"), "src/read/mod.rs:1");
    breaks(&bad("src/claim/mod.rs", "#[derive(serde::Serialize)] struct A;"), "src/claim/mod.rs:1");
    assert!(bad("src/report/mod.rs", "mod csv; pub use csv::write; // tera::Tera").is_empty());
    assert!(bad("src/report/document.rs", "use super::csv; fn f() { csv::write() }").is_empty());
    assert!(bad("src/cli/mod.rs", "use clap::Parser;").is_empty());
}

#[test]
fn dependencies_are_read_from_the_manifest() {
    let manifest = "[package]\nname = \"a\"\n[dependencies]\nb-c = \"1\"\nd = { version = \"2\" }\n\n[target.'cfg(unix)'.dependencies]\nf = \"1\"\n\n[dev-dependencies]\ne = \"1\"\n";
    assert_eq!(dependencies(manifest), ["b_c", "d", "f"]);
    let page = "\n## Dependencies\n\n| crate | for |\n|---|---|\n| b-c, d | why |\n";
    assert!(
        explained(page).contains("b_c") && explained(page).contains("d") && !explained(page).contains("e")
    );
}
