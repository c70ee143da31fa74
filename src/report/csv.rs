//! Tables as CSV: RFC 4180 in UTF-8, comma, a heading row, amounts with a point.

use super::tables::{Column, Field};
use std::io::{self, Write};

/// A table that is written row by row.
#[derive(Debug)]
pub struct CsvTable<W: Write> {
    into: W,
}

/// Rows as they are written: drawn on any core, and added to their table in order.
#[derive(Debug, Default)]
pub struct Rows(Vec<u8>);

impl Rows {
    /// What is written.
    pub fn as_bytes(&self) -> &[u8] {
        &self.0
    }

    /// Draws rows of as many fields as their table has columns.
    pub fn draw<'f>(rows: impl IntoIterator<Item = &'f [Field]>) -> io::Result<Self> {
        let mut writer = csv::WriterBuilder::new().buffer_capacity(1 << 10).from_writer(Vec::new());
        let mut plain = String::new();
        for row in rows {
            for field in row {
                match field {
                    Field::Text(text) => writer.write_field(guarded(text).as_bytes()),
                    other => {
                        plain.clear();
                        other.write_plain(&mut plain);
                        writer.write_field(&plain)
                    }
                }
                .map_err(as_io)?;
            }
            writer.write_record(None::<&[u8]>).map_err(as_io)?;
        }
        let bytes = writer.into_inner();
        bytes.map(Self).map_err(|error| io::Error::new(error.error().kind(), error.error().to_string()))
    }
}

impl<W: Write> CsvTable<W> {
    /// Begins a table with its headings.
    pub fn new(into: W, columns: &[Column]) -> io::Result<Self> {
        Self::headed(into, columns.iter().map(|column| column.name))
    }

    /// Begins a table with headings that follow from the data.
    pub fn headed<'h>(mut into: W, headings: impl IntoIterator<Item = &'h str>) -> io::Result<Self> {
        let mut writer = csv::Writer::from_writer(&mut into);
        writer.write_record(headings).map_err(as_io)?;
        writer.flush()?;
        drop(writer);
        Ok(Self { into })
    }

    /// Adds a row of as many fields as there are columns.
    pub fn row(&mut self, fields: &[Field]) -> io::Result<()> {
        self.add(&Rows::draw([fields])?)
    }

    /// Adds rows that were drawn.
    pub fn add(&mut self, rows: &Rows) -> io::Result<()> {
        self.into.write_all(&rows.0)
    }

    /// Ends the table and gives back what it was written into.
    pub fn finish(self) -> W {
        self.into
    }
}

/// Text that a spreadsheet program would run as a formula gets an apostrophe before it. The signs are those that OWASP
/// names for CSV injection, their full-width forms included.
fn guarded(text: &str) -> std::borrow::Cow<'_, str> {
    let runs = text.starts_with(|c| {
        matches!(
            c,
            '=' | '+' | '-' | '@' | '\t' | '\r' | '\n' | '\u{ff1d}' | '\u{ff0b}' | '\u{ff0d}' | '\u{ff20}'
        )
    });
    if runs { format!("'{text}").into() } else { text.into() }
}

fn as_io(error: csv::Error) -> io::Error {
    match error.into_kind() {
        csv::ErrorKind::Io(error) => error,
        other => io::Error::other(format!("{other:?}")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Currency, Money};
    use crate::report::tables::claims;

    fn written(fields: &[Field]) -> String {
        let columns = &claims::COLUMNS[..fields.len()];
        let mut table = CsvTable::new(Vec::new(), columns).unwrap();
        table.row(fields).unwrap();
        String::from_utf8(table.finish()).unwrap().lines().skip(1).collect::<Vec<_>>().join("\n")
    }

    #[test]
    fn text_that_a_spreadsheet_would_run_is_written_behind_an_apostrophe() {
        for text in ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\u{ff1d}1"] {
            assert_eq!(
                written(&[Field::text(text)]).trim_start_matches('"').chars().next(),
                Some('\''),
                "{text:?}"
            );
        }
        assert_eq!(written(&[Field::text("C-1001")]), "C-1001");
    }

    #[test]
    fn a_negative_amount_is_a_number_and_not_guarded() {
        let euro = Currency::from_code("EUR").unwrap();
        assert_eq!(written(&[Field::Money(Money::from_minor(-1_250, euro)), Field::Blank]), "-12.50,");
    }

    #[test]
    fn quotes_commas_and_line_ends_in_a_cell_stay_in_the_cell() {
        let mut table = CsvTable::new(Vec::new(), &claims::COLUMNS[..1]).unwrap();
        table.row(&[Field::text("a \"b\", c\r\nd")]).unwrap();
        let bytes = table.finish();
        let mut back = csv::Reader::from_reader(&bytes[..]);
        let row = back.records().next().unwrap().unwrap();
        assert_eq!(&row[0], "a \"b\", c\r\nd");
    }
}
