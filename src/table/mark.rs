//! Which decimal mark the numbers of a file prove, and which order its dates.

use super::{Cell, Row, Value};
use crate::problem::Place;
use crate::quantity::{DateOrder, DecimalMark, date_order, parse_decimal};
use std::collections::BTreeMap;

/// The decimal mark of the numbers written as text, and the cell that proves it. A number proves a mark when it can
/// only be read with it (`0,5`, `1.234,50`); `1.234` and `12` prove nothing. Where cells prove both marks, or none,
/// `usual` is taken and nothing is proved: who reads a number that reads differently under the other mark has to ask.
pub fn decimal_mark(rows: &[Row], usual: DecimalMark) -> (DecimalMark, Option<Place>) {
    let (point, comma) = proofs(rows);
    settled(point, comma, usual)
}

/// The first cells that prove a point and a comma.
pub fn proofs(rows: &[Row]) -> (Option<Place>, Option<Place>) {
    let (mut point, mut comma) = (None, None);
    for (cell, mark) in proving(rows) {
        let first = if mark == DecimalMark::Point { &mut point } else { &mut comma };
        first.get_or_insert(cell.place);
        if point.is_some() && comma.is_some() {
            break;
        }
    }
    (point, comma)
}

/// The mark of a file, given the first cells that prove a point and a comma.
pub fn settled(
    point: Option<Place>,
    comma: Option<Place>,
    usual: DecimalMark,
) -> (DecimalMark, Option<Place>) {
    match (point, comma) {
        (Some(place), None) => (DecimalMark::Point, Some(place)),
        (None, Some(place)) => (DecimalMark::Comma, Some(place)),
        _ => (usual, None),
    }
}

/// The decimal marks of columns that prove one and not the other, for a sheet that proves none as a whole.
pub(super) fn column_marks(rows: &[Row]) -> BTreeMap<u16, DecimalMark> {
    let mut marks: BTreeMap<u16, Option<DecimalMark>> = BTreeMap::new();
    for (cell, mark) in proving(rows) {
        let known = marks.entry(cell.column).or_insert(Some(mark));
        *known = known.filter(|known| *known == mark);
    }
    marks.into_iter().filter_map(|(column, mark)| Some((column, mark?))).collect()
}

/// The order of dates in columns whose dates prove one and not the other.
pub(super) fn date_orders(rows: &[Row]) -> BTreeMap<u16, DateOrder> {
    let mut orders: BTreeMap<u16, Option<DateOrder>> = BTreeMap::new();
    for cell in rows.iter().flat_map(|row| &row.cells) {
        // Nearly every text is no such date, which its length and first letter say.
        if let Value::Text(text) = &cell.value
            && text.len() >= 8
            && text.as_bytes()[0].is_ascii_digit()
            && let Some(order) = date_order(text)
        {
            let known = orders.entry(cell.column).or_insert(Some(order));
            *known = known.filter(|known| *known == order);
        }
    }
    orders.into_iter().filter_map(|(column, order)| Some((column, order?))).collect()
}

/// The cells that prove a mark, in order; one that proves both comes twice.
fn proving(rows: &[Row]) -> impl Iterator<Item = (&Cell, DecimalMark)> {
    rows.iter().flat_map(|row| &row.cells).flat_map(|cell| {
        let text = match &cell.value {
            Value::Text(text) if text.contains(['.', ',']) => text.as_str(),
            _ => "",
        };
        proved_by(text).map(move |mark| (cell, mark))
    })
}

/// The marks that the numbers in a text prove.
pub fn proved_by(text: &str) -> impl Iterator<Item = DecimalMark> {
    text.split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ','))).filter_map(mark_of_number)
}

fn mark_of_number(number: &str) -> Option<DecimalMark> {
    // A mark at an end is the full stop or comma of a sentence.
    let number = number.trim_matches(['.', ',']);
    if !number.contains(['.', ',']) {
        return None;
    }
    match (parse_decimal(number, DecimalMark::Point), parse_decimal(number, DecimalMark::Comma)) {
        (Ok(_), Err(_)) => Some(DecimalMark::Point),
        (Err(_), Ok(_)) => Some(DecimalMark::Comma),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::problem::SourceId;

    fn rows_of(texts: &[&str]) -> Vec<Row> {
        (1_u32..)
            .zip(texts)
            .map(|(number, text)| {
                let place = Place::cell(SourceId(0), number, 1);
                let cell = Cell { place, column: 1, value: Value::Text((*text).to_owned()), spread: false };
                Row { number, cells: vec![cell] }
            })
            .collect()
    }

    fn mark_of(texts: &[&str]) -> (DecimalMark, bool) {
        let (mark, proof) = decimal_mark(&rows_of(texts), DecimalMark::Point);
        (mark, proof.is_some())
    }

    #[test]
    fn a_number_that_reads_only_one_way_proves_the_mark() {
        assert_eq!(mark_of(&["1.234", "0,5 mm"]), (DecimalMark::Comma, true));
        assert_eq!(mark_of(&["1.234,50 EUR"]), (DecimalMark::Comma, true));
        assert_eq!(mark_of(&["1,234.50"]), (DecimalMark::Point, true));
        assert_eq!(mark_of(&["12.5-20.0 mm"]), (DecimalMark::Point, true));
    }

    #[test]
    fn whole_numbers_dates_and_numbers_that_read_both_ways_prove_nothing() {
        assert_eq!(
            mark_of(&["12", "1.234", "14.06.2026", "Smith, J.", "1,234"]),
            (DecimalMark::Point, false)
        );
    }

    #[test]
    fn a_column_proves_the_order_of_its_dates_unless_its_dates_contradict_each_other() {
        let orders = |texts: &[&str]| date_orders(&rows_of(texts)).get(&1).copied();
        assert_eq!(orders(&["05/06/2026", "14/06/2026"]), Some(DateOrder::DayFirst));
        assert_eq!(orders(&["06-14-2026", "05-06-2026"]), Some(DateOrder::MonthFirst));
        assert_eq!(orders(&["06/14/2026", "14/06/2026"]), None);
        assert_eq!(orders(&["05/06/2026", "2026-06-14"]), None);
    }

    #[test]
    fn proofs_of_both_marks_prove_nothing() {
        assert_eq!(mark_of(&["0,5", "0.5"]), (DecimalMark::Point, false));
    }
}
