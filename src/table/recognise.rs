use super::headings::{Starters, heading_row, is_sure_heading, known_count};
use super::{Cell, Form, Row, Sheet, Value};
use crate::claim::words::folded;
use crate::problem::Place;
use crate::quantity::DecimalMark;
use std::cmp::Ordering;

/// A column of a recognised table.
#[derive(Debug, Clone, PartialEq)]
pub struct HeadedColumn {
    /// Its column in the sheet, from 1.
    pub column: u16,
    /// Its heading as written.
    pub heading: String,
    /// Where the heading stands.
    pub place: Place,
    /// The form's column it was taken for; `None` for a column of the form's family, for one that nobody knows, and
    /// for the second column of one name.
    pub id: Option<&'static str>,
    /// Whether it belongs to the form's family (a size band).
    pub in_family: bool,
    /// The unit that the heading ends in, as written ("mm", "EUR").
    pub unit: Option<String>,
    /// The form's column that its heading names when an earlier column was taken for it already.
    pub repeats: Option<&'static str>,
}

/// A table found on a sheet: its form, its headings and its rows.
#[derive(Debug, Clone)]
pub struct Table<'s> {
    /// The sheet it stands on.
    pub sheet: &'s Sheet,
    /// What it was taken for.
    pub form: &'static Form,
    /// Its heading row; the lower one where headings stand in two rows.
    pub heading_row: u32,
    /// Its columns in sheet order.
    pub columns: Vec<HeadedColumn>,
    /// The rows below the heading, up to the next heading or the end of the sheet.
    pub rows: &'s [Row],
    /// The rows above the heading that belong to no table: everything above the first table of a sheet, captions set
    /// off by a blank row above a later one, and the upper row of headings that stand in two.
    pub above: &'s [Row],
}

impl Table<'_> {
    /// The column of an id, if the table has it.
    pub fn column(&self, id: &str) -> Option<&HeadedColumn> {
        self.columns.iter().find(|column| column.id == Some(id))
    }

    /// The heading above a column of the sheet, if it carries one.
    pub fn headed(&self, column: u16) -> Option<&HeadedColumn> {
        // In sheet order, and a hostile sheet has thousands of them: never look through them for every cell.
        self.columns.binary_search_by_key(&column, |headed| headed.column).ok().map(|at| &self.columns[at])
    }

    /// The cell of a row under an id, if the table has the column and the cell is not blank.
    pub fn cell<'r>(&self, row: &'r Row, id: &str) -> Option<&'r Cell> {
        row.cell(self.column(id)?.column)
    }

    /// Columns that carry a heading which nobody knows.
    pub fn unknown(&self) -> impl Iterator<Item = &HeadedColumn> {
        self.columns.iter().filter(|column| column.id.is_none() && !column.in_family)
    }
}

/// What was found on a sheet.
#[derive(Debug)]
pub struct Recognition<'s> {
    /// The tables, from top to bottom.
    pub tables: Vec<Table<'s>>,
    /// Heading rows that fit two forms equally well: the row and the forms' names. What stands below them, up to the
    /// next heading, belongs to no table.
    pub ambiguous: Vec<(u32, Vec<&'static str>)>,
}

/// Where headings were found: the rows they stand in (one or two, by index), and what they are headings of.
struct Found {
    first: usize,
    last: usize,
    as_form: Option<(&'static Form, Vec<HeadedColumn>)>,
}

/// Finds the tables of a sheet. A row is a heading when it holds every needed column of a form (and one of its family
/// or alternatives, where it has any). Headings may stand in two rows, one right below the other: a name in the upper
/// row then holds where the lower row is blank. Of several forms the one that knows most of the row's headings is
/// taken; a tie is told, not guessed.
pub fn recognise<'s>(sheet: &'s Sheet, forms: &[&'static Form]) -> Recognition<'s> {
    let starters = Starters::new(forms);
    let mut ambiguous = Vec::new();
    let mut found: Vec<Found> = Vec::new();
    let mut upper_may_head = false;
    for index in 0..sheet.rows.len() {
        if found.last().is_some_and(|found| found.last >= index) {
            continue;
        }
        let row = &sheet.rows[index];
        let may_head = starters.may_head(row) && may_follow(sheet, index, found.last());
        let mut best = if may_head { fitting(&row.cells, forms) } else { Vec::new() };
        let mut first = index;
        let upper = index.checked_sub(1).map(|upper| &sheet.rows[upper]);
        let upper = upper.filter(|upper| upper.number + 1 == row.number && (upper_may_head || may_head));
        if let (true, Some(upper)) = (best.is_empty(), upper)
            && found.last().is_none_or(|found| found.last + 1 != index)
        {
            best = fitting(&both(upper, row), forms);
            first = index - 1;
        }
        upper_may_head = may_head;
        let mut last = index;
        // A word that heads a column of sizes may stand above the sizes themselves: both rows know more than one. A row
        // of data begins where its headings do.
        let begins = |row: &Row| row.cells.first().map(|cell| cell.column);
        let is_lower = |lower: &&Row| row.number + 1 == lower.number && begins(lower) > begins(row);
        let lower = sheet.rows.get(index + 1).filter(is_lower);
        if let (Some((_, columns)), Some(lower)) = (best.first(), lower.filter(|_| first == index)) {
            let with_lower = fitting(&both(row, lower), forms);
            if with_lower.first().is_some_and(|(_, more)| known_count(more) > known_count(columns)) {
                (best, last) = (with_lower, index + 1);
            }
        }
        if !found.is_empty() {
            best.retain(|(_, columns)| is_sure_heading(columns));
        }
        let as_form = match best.len() {
            0 => continue,
            1 => best.pop(),
            _ => {
                ambiguous.push((row.number, best.iter().map(|(form, _)| form.name).collect()));
                None
            }
        };
        found.push(Found { first, last, as_form });
    }
    Recognition { tables: tables(sheet, found), ambiguous }
}

/// Whether a row can head a table where it stands. Below a heading, rows of its table hold words that are headings
/// elsewhere ("panel" in a column `per`): a later heading stands apart, after a blank row or a caption, or it repeats
/// the one above it as sheets do after a page break.
fn may_follow(sheet: &Sheet, index: usize, found: Option<&Found>) -> bool {
    let (Some(found), Some(above)) = (found, index.checked_sub(1).map(|above| &sheet.rows[above])) else {
        return true;
    };
    let row = &sheet.rows[index];
    let texts = |row: &Row| row.cells.iter().map(|cell| folded(&cell.text())).collect::<Vec<_>>();
    let heading = &sheet.rows[found.last];
    above.number + 1 < row.number
        || above.cells.len() <= 2
        || (row.cells.len() == heading.cells.len() && texts(row) == texts(heading))
}

/// The forms that a heading row fits best, with its columns; several only in a tie.
pub fn fitting(cells: &[Cell], forms: &[&'static Form]) -> Vec<(&'static Form, Vec<HeadedColumn>)> {
    let mut best: Vec<(&'static Form, Vec<HeadedColumn>)> = Vec::new();
    for form in forms {
        let Some(columns) = heading_row(cells, form) else { continue };
        match best.first().map(|(_, other)| known_count(&columns).cmp(&known_count(other))) {
            Some(Ordering::Less) => {}
            Some(Ordering::Equal) => best.push((form, columns)),
            None | Some(Ordering::Greater) => best = vec![(form, columns)],
        }
    }
    best
}

/// Two heading rows as one: the lower row's cells, and the upper row's where the lower one is blank.
fn both(upper: &Row, lower: &Row) -> Vec<Cell> {
    let only_above = upper.cells.iter().filter(|cell| lower.cell(cell.column).is_none());
    let mut cells: Vec<Cell> = lower.cells.iter().chain(only_above).cloned().collect();
    cells.sort_by_key(|cell| cell.column);
    cells
}

fn tables(sheet: &Sheet, found: Vec<Found>) -> Vec<Table<'_>> {
    // Where the rows above each heading begin, and so where the table before it ends.
    let mut starts: Vec<usize> = Vec::with_capacity(found.len() + 1);
    let mut previous = None;
    for Found { first, last, .. } in &found {
        starts.push(previous.map_or(0, |previous| captions(sheet, previous, *first)));
        previous = Some(*last);
    }
    starts.push(sheet.rows.len());
    let mut tables = Vec::with_capacity(found.len());
    for (position, Found { last, as_form, .. }) in found.into_iter().enumerate() {
        let Some((form, columns)) = as_form else { continue };
        tables.push(Table {
            sheet,
            form,
            heading_row: sheet.rows[last].number,
            columns,
            rows: &sheet.rows[last + 1..starts[position + 1]],
            above: &sheet.rows[starts[position]..last],
        });
    }
    tables
}

/// Where the captions of a heading begin: the rows right above it, with a blank row before them and no number in them.
/// Without a blank row nobody can tell a caption from the last row of the table before.
fn captions(sheet: &Sheet, previous_heading: usize, heading: usize) -> usize {
    let follows = |index: usize| sheet.rows[index].number + 1 == sheet.rows[index + 1].number;
    let mut start = heading;
    while start > previous_heading + 1 && follows(start - 1) {
        if !is_caption(&sheet.rows[start - 1]) {
            return heading;
        }
        start -= 1;
    }
    start
}

fn is_caption(row: &Row) -> bool {
    let is_number = |cell: &Cell| {
        matches!(&cell.value, Value::Number(_) | Value::Date(_))
            || [DecimalMark::Point, DecimalMark::Comma].iter().any(|mark| cell.number(*mark).is_ok())
    };
    row.cells.len() <= 3 && !row.cells.iter().any(is_number)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::problem::SourceId;
    use crate::table::Column;

    static COUNTS: Form = Form {
        name: "counts",
        columns: &[Column::needed("panel", &[]), Column::optional("claim", &[])],
        family: Some(|heading| heading.ends_with(" mm")),
        one_of: &[],
    };
    static RATES: Form = Form {
        name: "rates",
        columns: &[
            Column::needed("group", &[]),
            Column::optional("amount", &["price"]),
            Column::optional("per", &[]),
        ],
        family: None,
        one_of: &["amount"],
    };
    static CARS: Form = Form {
        name: "cars",
        columns: &[
            Column::optional("claim", &[]),
            Column::optional("owner", &[]),
            Column::optional("make", &[]),
        ],
        family: None,
        one_of: &["owner", "make"],
    };

    /// A sheet of lines of cells, `|` between them; blank lines are blank rows.
    fn sheet(text: &str) -> Sheet {
        let source = SourceId(0);
        let row = |(number, line): (u32, &str)| {
            let cells = (1_u16..).zip(line.split('|').map(str::trim)).filter(|(_, text)| !text.is_empty());
            let cells = cells.map(|(column, text)| Cell {
                place: Place::cell(source, number, column),
                column,
                value: Value::Text(text.to_owned()),
                spread: false,
            });
            Row { number, cells: cells.collect() }
        };
        let rows = (1_u32..).zip(text.lines()).map(row).filter(|row| !row.cells.is_empty()).collect();
        Sheet::new(source, rows, Vec::new(), DecimalMark::Point)
    }

    /// Form, heading row, rows below, rows above of each table.
    fn found(text: &str) -> Vec<(&'static str, u32, usize, usize)> {
        let sheet = sheet(text);
        let recognition = recognise(&sheet, &[&COUNTS, &RATES, &CARS]);
        let shape =
            |table: &Table<'_>| (table.form.name, table.heading_row, table.rows.len(), table.above.len());
        recognition.tables.iter().map(shape).collect()
    }

    #[test]
    fn a_table_begins_below_its_titles_and_ends_at_the_next_heading() {
        assert_eq!(found("Storm\n\nPanel | 0-10 mm\nroof | 4\nhood | 5"), [("counts", 3, 2, 1)]);
        assert_eq!(
            found("panel | 0-10 mm\nroof | 4\ngroup | price EUR\nlids | 5"),
            [("counts", 1, 1, 0), ("rates", 3, 1, 0)]
        );
        assert_eq!(
            found("panel | 0-10 mm\nroof | 4\npanel | 0-10 mm\nroof | 4").len(),
            2,
            "a repeated heading"
        );
    }

    #[test]
    fn captions_after_a_blank_row_belong_to_the_table_below_them() {
        let text =
            "group | amount\nlids | 5\n\nmore rates | lids\ngives | amounts\ngroup | amount\nrails | 6";
        assert_eq!(found(text), [("rates", 1, 1, 0), ("rates", 6, 1, 2)]);
        // Without a blank row, or with a number, they could be rows of the table above.
        assert_eq!(
            found("group | amount\nlids | 5\nrails\ngroup | amount"),
            [("rates", 1, 2, 0), ("rates", 4, 0, 0)]
        );
        assert_eq!(
            found("group | amount\n\nrails | 6\ngroup | amount"),
            [("rates", 1, 1, 0), ("rates", 4, 0, 0)]
        );
    }

    #[test]
    fn a_row_of_data_that_holds_a_word_of_a_heading_is_no_heading() {
        let text = "group | size | amount | per\nlids | 0-5 mm | 5 | panel\nrails | 5-9 mm | 6 | panel";
        assert_eq!(found(text), [("rates", 1, 2, 0)]);
    }

    #[test]
    fn a_title_block_of_names_and_values_is_no_table_of_cars() {
        assert_eq!(
            found("Owner | Ann Sample\nClaim | A-1 | Make | Larch\npanel | 0-10 mm\nroof | 4").len(),
            1
        );
        assert_eq!(found("claim | owner | make\nA-1 | Ann Sample | Larch"), [("cars", 1, 1, 0)]);
    }

    #[test]
    fn headings_in_two_rows_are_one_heading() {
        assert_eq!(found("panel | size\n | 0-10 mm\nroof | 4"), [("counts", 2, 1, 1)]);
        assert_eq!(found("panel | size\n\n | 0-10 mm\nroof | 4"), [], "a blank row parts them");
    }

    #[test]
    fn a_tie_is_told_and_what_is_below_it_belongs_to_no_table() {
        let sheet =
            sheet("group | panel | amount | 0-10 mm\nx | roof | 1 | 2\n\nclaim | owner\nA-1 | Ann Sample");
        let recognition = recognise(&sheet, &[&COUNTS, &RATES, &CARS]);
        assert_eq!(recognition.ambiguous, [(1, vec!["counts", "rates"])]);
        assert_eq!(recognition.tables.len(), 1);
        assert_eq!((recognition.tables[0].form.name, recognition.tables[0].above.len()), ("cars", 0));
    }
}
