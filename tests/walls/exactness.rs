//! No binary floating point on the way from a count to an amount, and no order that changes from run to run.

use crate::lexer::{Kind, Token};
use crate::{Source, breaks, hold, sources};

/// Files that may hold a float, each with its reason. Everything else is exact.
const FLOATS_MAY_STAND_IN: &[(&str, &str)] = &[
    ("src/read/workbook/cell.rs", "a workbook's numbers arrive as floats and are turned into decimals there"),
    ("src/report/workbook/", "a workbook's numbers are stored as floats, written from finished amounts"),
    ("src/report/comparison/", "statistics as they are written and plotted; amounts stay exact"),
    ("src/distribution/", "chances; what leaves for an amount is a whole number of millionths"),
    ("src/compare/", "statistics of agreement; amounts stay exact"),
];

/// Words of the standard library whose order differs between runs.
const UNORDERED: [&str; 4] = ["HashMap", "HashSet", "RandomState", "DefaultHasher"];

fn is_float(token: &Token) -> bool {
    match token.kind {
        Kind::Word => token.text.contains("f64") || token.text.contains("f32"),
        Kind::Number => {
            let is_hex = token.text.starts_with("0x");
            token.text.contains('.')
                || (!is_hex
                    && token.text.contains(['e', 'E'])
                    && !token.text.contains("usize")
                    && !token.text.contains("isize"))
                || (!is_hex && (token.text.ends_with("f64") || token.text.ends_with("f32")))
        }
        Kind::Text | Kind::Sign => false,
    }
}

fn floats(sources: &[Source]) -> Vec<String> {
    sources
        .iter()
        .filter(|source| !FLOATS_MAY_STAND_IN.iter().any(|(place, _)| source.is_in(place)))
        .flat_map(|source| {
            source
                .tokens()
                .into_iter()
                .filter(is_float)
                .map(|token| format!("{}:{}: {} is a float", source.path, token.line, token.text))
        })
        .collect()
}

fn unordered(sources: &[Source]) -> Vec<String> {
    sources
        .iter()
        .flat_map(|source| {
            source
                .tokens()
                .into_iter()
                .filter(|token| UNORDERED.iter().any(|word| token.is_word(word)))
                .map(|token| format!("{}:{}: {} has no stable order", source.path, token.line, token.text))
        })
        .collect()
}

#[test]
fn no_float_stands_on_the_money_path() {
    hold("floats outside the workbook's edge and statistics", &floats(&sources()));
}

#[test]
fn nothing_iterates_in_an_order_that_changes_from_run_to_run() {
    hold("collections without a stable order", &unordered(&sources()));
}

#[test]
fn a_float_is_found_as_a_type_a_literal_and_a_conversion() {
    let bad = |text: &str| floats(&[Source::new("src/assess/rate.rs", text)]);
    breaks(&bad("let x: f64 = y;"), "src/assess/rate.rs:1");
    breaks(&bad("\nlet x = 0.5;"), "src/assess/rate.rs:2");
    breaks(&bad("let x = 1e3;"), "src/assess/rate.rs:1");
    breaks(&bad("let x = 3f32;"), "src/assess/rate.rs:1");
    breaks(&bad("let x = amount.to_f64();"), "src/assess/rate.rs:1");
    assert!(bad("let x = 0xfe + pair.0.1 + 10usize; for i in 1..2 {} // 0.5\nf(\"f64 1.5\")").is_empty());
    assert!(floats(&[Source::new("src/read/workbook/cell.rs", "let x: f64 = 0.5;")]).is_empty());
}

#[test]
fn an_unordered_collection_is_found() {
    let source = Source::new("src/batch/mod.rs", "use std::collections::HashMap;");
    breaks(&unordered(&[source]), "src/batch/mod.rs:1");
}
