//! Headings of any wording: every form is asked about each of them, sizes included, without a panic, and one row of
//! them is at most one table.
#![no_main]

use libfuzzer_sys::fuzz_target;
use stipple::problem::{Place, Source, SourceKind, Sources};
use stipple::quantity::DecimalMark;
use stipple::table::{Cell, Row, Sheet, Value, recognise};

fuzz_target!(|text: &str| {
    let mut sources = Sources::new();
    let source =
        sources.add(Source { file: "fuzzed.csv".into(), sheet: String::new(), kind: SourceKind::Text });
    let cells: Vec<Cell> = (1_u16..)
        .zip(text.split('\t').map(str::trim))
        .filter(|(_, heading)| !heading.is_empty())
        .map(|(column, heading)| Cell {
            place: Place::cell(source, 1, column),
            column,
            value: Value::Text(heading.to_owned()),
            spread: false,
        })
        .collect();
    let sheet = Sheet::new(source, vec![Row { number: 1, cells }], Vec::new(), DecimalMark::Point);
    for forms in [stipple::read::forms(), stipple::schedule::forms()] {
        for family in forms.iter().filter_map(|form| form.family) {
            text.split('\t').for_each(|heading| {
                family(heading);
            });
        }
        let recognition = recognise(&sheet, forms);
        assert!(recognition.tables.len() + recognition.ambiguous.len() <= 1);
    }
});
