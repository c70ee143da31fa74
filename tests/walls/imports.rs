//! Imports point one way.

use crate::paths::paths;
use crate::{Source, breaks, hold, sources};

/// What each folder of `src` may import from the others. Test modules inside a folder keep to the same rule: a test
/// that needs two stages which do not know each other stands in `tests/`.
const MAY_IMPORT: &[(&str, &[&str])] = &[
    ("quantity", &[]),
    ("distribution", &[]),
    ("problem", &["quantity"]),
    ("claim", &["quantity", "problem"]),
    ("table", &["quantity", "problem", "claim"]),
    ("read", &["quantity", "problem", "claim", "table"]),
    ("schedule", &["quantity", "problem", "claim", "table"]),
    ("assess", &["quantity", "distribution", "problem", "claim", "schedule"]),
    ("batch", &["quantity", "problem", "claim", "schedule", "assess"]),
    ("compare", &["quantity", "distribution", "problem", "claim", "schedule", "assess"]),
    ("plan", &["quantity", "problem", "claim", "schedule", "assess"]),
    ("register", &["quantity", "problem", "claim", "assess"]),
    (
        "report",
        &["quantity", "problem", "claim", "schedule", "assess", "batch", "compare", "plan", "register"],
    ),
    (
        "cli",
        &[
            "quantity", "problem", "claim", "table", "read", "schedule", "assess", "batch", "compare",
            "plan", "register", "report",
        ],
    ),
    ("main", &["cli"]),
    ("lib", &[]),
];

fn wrong_imports(sources: &[Source]) -> Vec<String> {
    let mut broken = Vec::new();
    for source in sources {
        let Some(stage) = source.stage() else { continue };
        let Some((_, allowed)) = MAY_IMPORT.iter().find(|(name, _)| *name == stage) else {
            broken.push(format!("{}: the folder is not on the map of imports", source.path));
            continue;
        };
        for named in paths(source) {
            let Some(target) = named.stage() else { continue };
            if target != stage && !allowed.contains(&target) {
                broken.push(format!("{}:{}: {stage} may not import {target}", source.path, named.line));
            }
        }
    }
    broken
}

#[test]
fn imports_point_one_way() {
    hold("imports that point the wrong way", &wrong_imports(&sources()));
}

#[test]
fn an_import_against_the_flow_is_found_however_it_is_written() {
    let bad = |path: &str, text: &str| wrong_imports(&[Source::new(path, text)]);
    breaks(
        &bad("src/assess/mod.rs", "use crate::claim::Claim;\nuse crate::read::open;"),
        "src/assess/mod.rs:2",
    );
    breaks(&bad("src/assess/panel.rs", "fn f() { super::super::read::open(&[]) }"), "src/assess/panel.rs:1");
    breaks(&bad("src/read/mod.rs", "use crate::{claim, assess::assess};"), "src/read/mod.rs:1");
    breaks(
        &bad("src/claim/mod.rs", "#[cfg(test)]\nmod tests {\n use crate::table::Sheet; }"),
        "src/claim/mod.rs:3",
    );
    breaks(&bad("src/quantity/mod.rs", "use crate::*;"), "src/quantity/mod.rs:1");
    breaks(&bad("src/main.rs", "use stipple::read;"), "src/main.rs:1");
    breaks(&bad("src/storage/mod.rs", ""), "src/storage/mod.rs");
    assert!(
        bad("src/read/mod.rs", "// use crate::assess;\nconst A: &str = \"crate::assess::x\";").is_empty()
    );
}

#[test]
fn the_map_of_imports_has_no_circle() {
    let mut placed: Vec<&str> = Vec::new();
    while placed.len() < MAY_IMPORT.len() {
        let next = MAY_IMPORT.iter().find(|(stage, allowed)| {
            !placed.contains(stage) && allowed.iter().all(|import| placed.contains(import))
        });
        let (stage, _) = next.unwrap_or_else(|| panic!("a circle among what is not in {placed:?}"));
        placed.push(stage);
    }
}
