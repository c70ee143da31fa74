//! Columns that stand in groups: the sizes of each panel of a car, of each side, of each of several looks.

mod labels;

use super::heading::{is_same, may_head};
use super::rows::{NewRows, said};
use crate::claim::words::folded;
use crate::claim::words::panel::{Part, Reading, readings};
use crate::problem::{Place, Problem, catalogue::file as say};
use crate::quantity::{DecimalMark, parse_decimal};
use crate::read::columns::{FACTS, INSPECTION, KEYS, PANEL, REMARK};
use crate::read::rows::is_total_word;
use crate::table::{Cell, Column, Form, Row, Sheet, fitting, named_among};
use labels::{Columns, Kind};

/// A heading with groups, and what they are.
struct Grouped {
    /// The rows of the heading, first and last, by index.
    first: usize,
    last: usize,
    columns: Columns,
    kind: Kind,
}

/// The sheet with the next table of grouped columns as one with a row for each group, from a row on; and the row that
/// the search goes on from. All rows of one group follow each other, so that a total below stands below its own.
pub(super) fn ungrouped(
    sheet: &Sheet,
    from: usize,
    forms: &[&'static Form],
    problems: &mut Vec<Problem>,
) -> Option<(usize, Sheet)> {
    let grouped = (from..sheet.rows.len()).find_map(|index| found(&sheet.rows, index))?;
    let Grouped { first, last, columns, kind } = &grouped;
    let heads = |index: usize| {
        sheet.rows[index - 1].number + 1 < sheet.rows[index].number
            && (!fitting(&sheet.rows[index].cells, forms).is_empty() || found(&sheet.rows, index).is_some())
    };
    let end = (last + 1..sheet.rows.len()).find(|index| heads(*index)).unwrap_or(sheet.rows.len());
    let body = &sheet.rows[last + 1..end];
    let (kept, facts) = parted(&columns.others, *kind);
    let mut new = NewRows::after(sheet, *first);
    let heading = &sheet.rows[*last];
    new.leave(
        sheet.rows[*first].number - first.checked_sub(1).map_or(0, |above| sheet.rows[above].number) - 1,
    );
    if !facts.is_empty() {
        push_facts(&mut new, sheet, &columns.others, heading, body);
    }
    let sizes = sizes(&columns.parts);
    let groups = columns.groups(*kind);
    let place = groups.first()?.1;
    let label_column = column_after(kept.len());
    let label = (label_column, Some(said(kind.heading(), place)), place);
    let cells = (1..).zip(&kept).map(|(at, cell)| (at, Some((*cell).clone()), cell.place));
    let counts = (label_column + 1..).zip(&sizes).map(|(at, size)| (at, Some((*size).clone()), size.place));
    new.push(sheet.row_place(heading.number), cells.chain([label]).chain(counts));
    for (index, (name, place, parts)) in groups.iter().enumerate() {
        if index > 0 {
            new.leave(1);
        }
        let mut above = heading.number;
        for row in body.iter().filter(|row| !is_same(row, heading)) {
            let is_data = holds_group(columns, row);
            // A panel on the middle line stands below one of the sides, and belongs to none.
            let is_middle = *kind == Kind::Sides && is_middle(&kept, row) && holds_one(&groups, row);
            let is_here = parts.iter().any(|part| row.cell(part.column).is_some());
            if is_data && is_middle && !is_here {
                above = row.number;
                continue;
            }
            if is_data {
                new.leave(row.number - above - 1);
                let name = (*place, if is_middle { "" } else { name.as_str() });
                push(&mut new, sheet, (&kept, &sizes), row, name, parts);
            } else if index == 0 {
                // A note belongs to no group: it stays, once.
                new.keep(row, above);
            }
            above = row.number;
        }
    }
    let next = new.len();
    for row in &sheet.rows[end..] {
        new.keep(row, sheet.rows[end - 1].number.min(row.number - 1));
    }
    problems.push(say::layout(place, kind.told()));
    Some((next, new.finish()))
}

fn found(rows: &[Row], index: usize) -> Option<Grouped> {
    if !may_head(rows, index) && !index.checked_sub(1).is_some_and(|above| may_head(rows, above)) {
        return None;
    }
    // A bare number is no heading: rows of data hold those, and there may be many of them to look at.
    if rows[index].cells.iter().any(|cell| parse_decimal(&cell.text(), DecimalMark::Point).is_ok()) {
        return None;
    }
    let upper = index.checked_sub(1).filter(|upper| rows[*upper].number + 1 == rows[index].number);
    [None, upper].into_iter().find_map(|upper| {
        if upper.is_some_and(|upper| rows[upper].cells.is_empty()) {
            return None;
        }
        let mut columns = Columns::of(upper.map(|upper| &rows[upper]), &rows[index]);
        let names_panel = |cell: &Cell| named_among(&cell.text(), &PANEL[..1]).is_some();
        let has_panels = columns.others.iter().any(names_panel);
        let is_key = |cell: &Cell| named_among(&cell.text(), &KEYS).is_some();
        if !has_panels && columns.others.iter().any(is_key) && !labels_below(rows, index) {
            columns.take_bare_panels();
        }
        // Sizes under a label that is not repeated yet may be labelled in the row above.
        let kind = columns.kind(has_panels)?;
        let has_labels = columns.parts.iter().any(|part| part.label.is_some());
        if upper.is_none() && !has_labels && is_labelled_above(rows, index) {
            return None;
        }
        let names_row = has_panels || columns.others.iter().any(is_key) || kind == Kind::Panels;
        names_row.then(|| Grouped { first: upper.unwrap_or(index), last: index, columns, kind })
    })
}

/// Whether the row is one of labels itself, above sizes.
fn labels_below(rows: &[Row], index: usize) -> bool {
    rows.get(index + 1).is_some_and(|lower| lower.number == rows[index].number + 1)
        && is_labelled_above(rows, index + 1)
}

/// Whether the row right above holds labels of the groups.
fn is_labelled_above(rows: &[Row], index: usize) -> bool {
    let Some(upper) = index.checked_sub(1).filter(|upper| rows[*upper].number + 1 == rows[index].number)
    else {
        return false;
    };
    Columns::of(Some(&rows[upper]), &rows[index]).parts.iter().filter(|part| part.label.is_some()).count() > 1
}

/// The other columns that go with every group, and, where each row is a car, those that say something of the car.
fn parted(others: &[Cell], kind: Kind) -> (Vec<&Cell>, Vec<&Cell>) {
    let is = |cell: &Cell, columns: &[Column]| named_among(&cell.text(), columns).is_some();
    let facts: Vec<&Cell> = others.iter().filter(|cell| is(cell, &FACTS)).collect();
    if kind != Kind::Panels || facts.is_empty() {
        return (others.iter().collect(), Vec::new());
    }
    (others.iter().filter(|cell| is(cell, &KEYS) || is(cell, &INSPECTION)).collect(), facts)
}

/// A table of what the rows say of their cars.
fn push_facts(new: &mut NewRows<'_>, sheet: &Sheet, others: &[Cell], heading: &Row, body: &[Row]) {
    let is = |cell: &Cell, columns: &[Column]| named_among(&cell.text(), columns).is_some();
    let is_of_car =
        |cell: &&Cell| is(cell, &KEYS) || is(cell, &FACTS) || is(cell, &REMARK) || !is(cell, &INSPECTION);
    let columns: Vec<&Cell> = others.iter().filter(is_of_car).collect();
    let headed = (1..).zip(&columns).map(|(at, cell)| (at, Some((*cell).clone()), cell.place));
    new.push(sheet.row_place(heading.number), headed);
    let first_is_total = |row: &Row| row.cells.first().is_some_and(|cell| is_total_word(&cell.text()));
    for row in body.iter().filter(|row| !is_same(row, heading) && !first_is_total(row)) {
        let cells = (1..)
            .zip(&columns)
            .map(|(at, cell)| (at, row.cell(cell.column).cloned(), sheet.place(row.number, cell.column)));
        new.push(sheet.row_place(row.number), cells);
    }
    new.leave(1);
}

/// Whether a row says anything in a group, or names a job: everything else is a note.
fn holds_group(columns: &Columns, row: &Row) -> bool {
    let names = |cell: &Cell| {
        let column = columns.others.iter().find(|other| other.column == cell.column);
        column.is_some_and(|other| {
            named_among(&other.text(), &KEYS).is_some() || named_among(&other.text(), &PANEL).is_some()
        })
    };
    let in_group = |cell: &Cell| columns.parts.iter().any(|part| part.column == cell.column);
    row.cells.iter().any(in_group) || (row.cells.len() > 1 && row.cells.iter().any(names))
}

/// The row of one group. A total row keeps the word for it where the label would stand.
fn push(
    new: &mut NewRows<'_>,
    sheet: &Sheet,
    (kept, sizes): (&[&Cell], &[&Cell]),
    row: &Row,
    (label_place, label): (Place, &str),
    parts: &[&labels::Part],
) {
    let label_column = column_after(kept.len());
    let total = row
        .cells
        .iter()
        .find(|cell| is_total_word(&cell.text()) && kept.iter().any(|kept| kept.column == cell.column));
    let written = (!label.is_empty()).then(|| said(label, label_place));
    let label = (label_column, total.cloned().or(written), label_place);
    let cells = (1..)
        .zip(kept)
        .map(|(at, cell)| (at, row.cell(cell.column).cloned(), sheet.place(row.number, cell.column)));
    let counts = (label_column + 1..).zip(sizes).map(|(at, size)| {
        let name = folded(&size.text());
        let part = parts.iter().find(|part| folded(&part.size.text()) == name);
        match part {
            Some(part) => (at, row.cell(part.column).cloned(), sheet.place(row.number, part.column)),
            None => (at, None, sheet.row_place(row.number)),
        }
    });
    new.push(sheet.row_place(row.number), cells.chain([label]).chain(counts));
}

/// Whether a row names a panel of which a car has one alone.
fn is_middle(kept: &[&Cell], row: &Row) -> bool {
    let panel = kept.iter().find(|cell| named_among(&cell.text(), &PANEL[..1]).is_some());
    let name = panel.and_then(|panel| row.cell(panel.column)).map(Cell::text);
    let is_single = |reading: &Reading| matches!(reading.part, Part::Kind(kind) if !kind.is_paired());
    name.is_some_and(|name| {
        readings(&name).is_ok_and(|readings| !readings.is_empty() && readings.iter().all(is_single))
    })
}

/// Whether a row has numbers in one group alone.
fn holds_one(groups: &[(String, Place, Vec<&labels::Part>)], row: &Row) -> bool {
    let holds = |parts: &[&labels::Part]| parts.iter().any(|part| row.cell(part.column).is_some());
    groups.iter().filter(|(.., parts)| holds(parts)).count() == 1
}

/// Every size of the groups once, in the order of the sheet.
fn sizes(parts: &[labels::Part]) -> Vec<&Cell> {
    let mut sizes: Vec<&Cell> = Vec::new();
    for part in parts {
        let name = folded(&part.size.text());
        if !sizes.iter().any(|size| folded(&size.text()) == name) {
            sizes.push(&part.size);
        }
    }
    sizes
}

fn column_after(columns: usize) -> u16 {
    u16::try_from(columns + 1).unwrap_or(u16::MAX / 2)
}
