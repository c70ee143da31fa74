//! Rows that say something of claims that are not theirs: where there are any, every file is held whole.

use crate::problem::SourceId;
use crate::read::columns::LOT_EXCESS_CAP;
use crate::read::tables::{FORMS, Kind};
use crate::table::{Form, Sheet, Table, Value, named_among, recognise};
use std::collections::BTreeSet;

/// Whether a table has a column that holds for other claims, too.
pub(super) fn has_word_for_others(table: &Table<'_>) -> bool {
    table.columns.iter().any(|column| column.id == Some(LOT_EXCESS_CAP))
}

/// Whether any sheet says something of all files: a column map, or the cap of a lot's excess, which stands in a table or as a label above one.
pub(in crate::read) fn speaks_of_all(sheets: &[Sheet], forms: &[&'static Form]) -> bool {
    sheets.iter().any(|sheet| is_map(sheet, forms) || names_cap(sheet, forms))
}

/// The sheets that say how others are read: column maps.
pub fn for_all(sheets: &[Sheet]) -> BTreeSet<SourceId> {
    let sheets = sheets.iter().filter(|sheet| is_map(sheet, FORMS));
    sheets.map(|sheet| sheet.source).collect()
}

fn is_map(sheet: &Sheet, forms: &[&'static Form]) -> bool {
    recognise(sheet, forms).tables.iter().any(|table| Kind::of(table.form) == Some(Kind::Map))
}

fn names_cap(sheet: &Sheet, forms: &[&'static Form]) -> bool {
    let columns = forms.iter().filter(|form| Kind::of(form) == Some(Kind::Vehicles));
    let names = |text: &str| {
        columns
            .clone()
            .any(|form| named_among(text, form.columns).is_some_and(|(id, _)| id == LOT_EXCESS_CAP))
    };
    // A label may end in a colon.
    sheet.rows.iter().flat_map(|row| &row.cells).any(|cell| match &cell.value {
        Value::Text(text) => text.to_lowercase().contains("cap") && names(text.trim_end_matches([':', ' '])),
        _ => false,
    })
}
