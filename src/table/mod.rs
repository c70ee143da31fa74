//! Located cells: what every file becomes before anybody asks what it means.
//!
//! A [`Sheet`] is one sheet of a workbook or one text file. [`recognise`] finds the tables on it by their headings,
//! given the [`Form`]s that are known; the stages that own a form read its rows.

mod form;
mod headings;
mod length;
mod mark;
mod recognise;
mod sheet;
mod size;
mod unrecognised;

pub use form::{Column, Form};
pub use headings::{LONGEST_HEADING, Starters, named_among};
pub use length::{LengthFault, parse_length, unit_in};
pub use mark::{decimal_mark, proofs, proved_by, settled};
pub use recognise::{HeadedColumn, Recognition, Table, fitting, recognise};
pub use sheet::{Cell, CellFault, Merge, Moved, Row, Seen, Sheet, Value};
pub use size::{lacks_unit, parse_interval};
pub use unrecognised::unrecognised;
