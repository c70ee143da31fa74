//! Columns of a terminal: words to the left, numbers to the right, two spaces between.

use super::screen::money_text;
use crate::quantity::{Money, QuantityFault};

/// Rows of cells as lines. `numbers` says which columns are set to the right; the last column is not filled up.
pub fn aligned(rows: &[Vec<String>], numbers: &[bool]) -> Vec<String> {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let width = |column: usize| {
        rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..columns).map(width).collect();
    let cell = |(column, cell): (usize, &String)| {
        let width = widths[column];
        if numbers.get(column) == Some(&true) { format!("{cell:>width$}") } else { format!("{cell:<width$}") }
    };
    let line = |row: &Vec<String>| row.iter().enumerate().map(cell).collect::<Vec<_>>().join("  ");
    rows.iter().map(|row| line(row).trim_end().to_owned()).collect()
}

/// A difference with its sign, thousands apart.
pub fn signed(money: Money) -> String {
    let text = money_text(money);
    if money.minor() > 0 { format!("+{text}") } else { text }
}

/// A sum, or that it does not fit.
pub fn sum(sum: Result<Money, QuantityFault>, text: fn(Money) -> String) -> String {
    sum.map_or_else(|_| "too large".to_owned(), text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Currency;

    #[test]
    fn numbers_stand_to_the_right_and_words_to_the_left() {
        let row = |cells: [&str; 3]| cells.map(str::to_owned).to_vec();
        let lines = aligned(&[row(["hood", "5", "a"]), row(["roof rail", "12", ""])], &[false, true]);
        assert_eq!(lines, ["hood        5  a", "roof rail  12"]);
    }

    #[test]
    fn a_difference_carries_its_sign() {
        let euro = Currency::from_code("EUR").unwrap();
        let text = |minor| signed(Money::from_minor(minor, euro));
        assert_eq!((text(123_456), text(-50), text(0)), ("+1 234.56".into(), "-0.50".into(), "0.00".into()));
    }
}
