//! Reading the tables of `tests/published`; `compare.md` there names the source of each.

use std::collections::BTreeMap;

/// A row by its headings.
pub type Row = BTreeMap<String, String>;

/// Every row of a table.
pub fn rows(name: &str) -> Vec<Row> {
    let path = format!("{}/tests/published/{name}.csv", env!("CARGO_MANIFEST_DIR"));
    let mut reader = csv::Reader::from_path(&path).unwrap_or_else(|fault| panic!("{path}: {fault}"));
    reader.deserialize().map(|row| row.unwrap()).collect()
}

/// The number in a column.
pub fn number(row: &Row, column: &str) -> f64 {
    row[column].parse().unwrap_or_else(|_| panic!("{column} of {row:?} is no number"))
}

/// The whole number in a column.
pub fn whole(row: &Row, column: &str) -> u64 {
    row[column].parse().unwrap_or_else(|_| panic!("{column} of {row:?} is no whole number"))
}

/// The number in the column `value` of the row that has a quantity, of a data set where the table has several.
pub fn value(table: &[Row], dataset: &str, quantity: &str) -> f64 {
    let row = table
        .iter()
        .find(|row| row["quantity"] == quantity && row.get("dataset").is_none_or(|name| name == dataset))
        .unwrap_or_else(|| panic!("no {quantity} of {dataset}"));
    number(row, "value")
}

/// Tables print six decimals: equal means equal when printed so.
#[track_caller]
pub fn assert_printed(value: f64, expected: f64, what: &str) {
    assert!((value - expected).abs() <= 5.000_1e-7, "{what}: {value} is not {expected}");
}
