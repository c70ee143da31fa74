//! The tables of claims, one file each: its columns, and what becomes of a row.

mod counts;
mod enclosures;
mod items;
mod long;
mod marks;
mod overrules;
mod paid;
mod parts;
mod photographs;
mod vehicles;
mod wide;

pub(super) use vehicles::{facts, keys, terms};

use super::cells::Cells;
use super::columns::{FACTS, KEYS};
use super::draft::{Draft, Stamp};
use super::meanings;
use super::measures::Dollar;
use super::panels::{Car, Panels};
use super::sizes::{SizeColumn, Sizes};
use super::{register, required};
use crate::claim::{Located, PanelId};
use crate::problem::Problem;
use crate::quantity::parse_date;
use crate::table::{Cell, Form, Table, Value};
use std::collections::BTreeSet;

/// Which table of claims a form is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    Vehicles,
    Wide,
    Long,
    Marks,
    DentList,
    Items,
    Parts,
    Photographs,
    Overrules,
    Paid,
    Enclosures,
    /// A column map: read before all others, and no table of claims itself.
    Map,
}

/// A table of claims.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ours<'t, 's> {
    pub(super) kind: Kind,
    pub(super) table: &'t Table<'s>,
}

/// The forms of claim tables, and of the words that such tables may use.
pub(super) static FORMS: &[&Form] = &[
    &vehicles::FORM,
    &wide::FORM,
    &long::FORM,
    &marks::FORM,
    &marks::DENT_LIST,
    &items::FORM,
    &parts::FORM,
    &photographs::FORM,
    &overrules::FORM,
    &paid::FORM,
    &enclosures::FORM,
    &meanings::FORM,
    // Of no kind: read before the rows of any, or beside them.
    &required::FORM,
    &register::FORM,
];
const KINDS: [Kind; 12] = [
    Kind::Vehicles,
    Kind::Wide,
    Kind::Long,
    Kind::Marks,
    Kind::DentList,
    Kind::Items,
    Kind::Parts,
    Kind::Photographs,
    Kind::Overrules,
    Kind::Paid,
    Kind::Enclosures,
    Kind::Map,
];

impl Kind {
    /// The kind of a form, if it is one of a claim's.
    pub(super) fn of(form: &Form) -> Option<Self> {
        FORMS.iter().position(|ours| *ours == form).and_then(|index| KINDS.get(index).copied())
    }

    /// The column that says what a row is about; a table of vehicles is about its keys.
    pub(super) const fn subject(self) -> Option<&'static str> {
        match self {
            Self::Vehicles | Self::Map => None,
            Self::Items => Some("item"),
            Self::Photographs => Some("file"),
            Self::Enclosures => Some("document"),
            Self::Wide
            | Self::Long
            | Self::Marks
            | Self::DentList
            | Self::Parts
            | Self::Overrules
            | Self::Paid => Some("panel"),
        }
    }

    /// Whether its rows are about panels.
    pub(super) fn has_panels(self) -> bool {
        self.subject() == Some("panel")
    }

    /// Whether its totals are held against its cells.
    pub(super) fn has_sums(self) -> bool {
        self.has_counts() || matches!(self, Self::Items | Self::Parts | Self::Paid)
    }

    /// Whether it holds numbers of dents.
    pub(super) fn has_counts(self) -> bool {
        matches!(self, Self::Wide | Self::Long)
    }

    /// Columns whose numbers would be lost if a row were taken for a note.
    pub(super) const fn measures(self) -> &'static [&'static str] {
        match self {
            Self::Vehicles | Self::Photographs | Self::Enclosures | Self::Overrules | Self::Map => &[],
            Self::Wide => &["total"],
            Self::Long => &["size", "dents"],
            Self::Marks | Self::DentList => &["length", "diameter", "width"],
            Self::Items => &["price", "hours"],
            Self::Parts => &["part price", "fitting", "conventional", "refinish", "paint material"],
            Self::Paid => &["paid"],
        }
    }

    /// Whether a blank key takes over the one above: not where each row is a job of its own.
    pub(super) fn takes_over(self) -> bool {
        self != Self::Vehicles
    }

    /// Whether a cell is a number that would be lost.
    pub(super) fn is_measure(self, table: &Table<'_>, cell: &Cell) -> bool {
        let is_here = table.headed(cell.column).is_some_and(|column| {
            column.in_family || column.id.is_some_and(|id| self.measures().contains(&id))
        });
        is_here
            && match &cell.value {
                Value::Number(_) | Value::Money(_) | Value::Fault(_) => true,
                Value::Text(text) => text.contains(|c: char| c.is_ascii_digit()) && parse_date(text).is_err(),
                Value::Date(_) | Value::Bool(_) => false,
            }
    }
}

/// Whether a table says which job its rows belong to.
pub(super) fn has_key_column(table: &Table<'_>) -> bool {
    KEYS.iter().any(|key| table.column(key.id).is_some())
}

/// Whether rows of a table carry more than one key: each is a fact of the car or the claim.
pub(super) fn has_several_keys(table: &Table<'_>) -> bool {
    KEYS.iter().filter(|key| table.column(key.id).is_some()).count() > 1
}

impl Ours<'_, '_> {
    /// Whether columns of the table of vehicles stand in it. Other tables use some of their names for something else:
    /// the event of an earlier payment.
    pub(super) fn has_facts(self) -> bool {
        matches!(self.kind, Kind::Vehicles | Kind::Wide | Kind::Long)
            && FACTS.iter().any(|fact| self.table.column(fact.id).is_some())
    }
}

/// What is the same for all rows of one table, and what one row leaves to the next.
pub(super) struct TableState {
    sizes: Sizes,
    columns: Vec<SizeColumn>,
    merged: BTreeSet<(u32, u16)>,
    /// What has to be asked about the headings, once for each claim of the table.
    pub(super) questions: Vec<Problem>,
    /// Whether columns of the table of vehicles stand in it.
    has_facts: bool,
    stamp: Stamp,
    /// Whose inspection the whole table is, where that stands above it.
    pub(super) written_above: Stamp,
    panel: Option<Located<PanelId>>,
}

impl TableState {
    pub(super) fn new(ours: Ours<'_, '_>) -> Self {
        let mut sizes = Sizes::of(ours.table);
        let (columns, questions) = sizes.columns(ours.table);
        let merged = super::count::merged_cells(ours.table);
        Self {
            sizes,
            columns,
            merged,
            questions,
            has_facts: ours.has_facts(),
            stamp: Stamp::default(),
            written_above: Stamp::default(),
            panel: None,
        }
    }
}

/// Where the values of a row go, and what decides how they are read.
pub(super) struct Target<'d> {
    pub(super) draft: &'d mut Draft,
    pub(super) car: Car,
    pub(super) dollar: Dollar,
    pub(super) panels: &'d mut Panels,
    /// Whether the row stands in the name of the one above it.
    pub(super) takes_over: bool,
}

/// Reads one row of data into its claim.
pub(super) fn read_row(
    ours: Ours<'_, '_>,
    state: &mut TableState,
    cells: &mut Cells<'_, '_>,
    target: &mut Target<'_>,
) {
    if state.has_facts {
        terms(cells, target.draft, target.dollar);
    }
    match ours.kind {
        Kind::Vehicles => vehicles::read(cells, target),
        Kind::Wide => wide::read(state, cells, target),
        Kind::Long => long::read(state, cells, target),
        Kind::Marks | Kind::DentList => marks::read(state, cells, target),
        Kind::Items => items::read(cells, target),
        Kind::Parts => parts::read(cells, target),
        Kind::Photographs => photographs::read(cells, target),
        Kind::Overrules => overrules::read(cells, target),
        Kind::Paid => paid::read(cells, target),
        Kind::Enclosures => enclosures::read(cells, target),
        Kind::Map => {}
    }
}
