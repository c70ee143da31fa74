//! The tables as they were written: every cell parsed by itself, nothing compared yet. What cannot be read by itself is
//! told here; what contradicts another cell is told when the whole is checked.

mod asked;
mod betterment;
mod cell;
mod columns;
mod grid;
mod mark_rates;
mod operations;
mod panels;
mod rates;
mod row;
mod rules;
mod sizes;
mod terms;
mod titles;
mod typical;

pub(super) use betterment::RawBetterment;
pub(super) use cell::{
    Edge, beyond_quantity, parse_date, parse_edge, parse_free_text, parse_number, parse_percent, parse_text,
    parse_whole, parse_yes_no,
};
pub(super) use columns::{HeadedUnit, hours_per_unit};
pub(super) use grid::{Gives, RawGrid};
pub(super) use mark_rates::RawMarkRate;
pub(super) use operations::RawOperation;
pub(super) use panels::RawPanel;
pub(super) use rates::{Kind, RawRate};
pub(super) use rules::{RawFactor, RawLimit};
pub(super) use sizes::{RawCountBand, RawSizeBand};
pub(super) use terms::{RawLabour, RawTax, RawTerm};
pub(super) use titles::RawTitle;
pub(super) use typical::RawTypical;

use super::forms;
use crate::problem::{Place, Problem, Severity, worst};
use crate::table::{Form, Table};
use row::RowReader;

/// All rows of a schedule, table by table, in the order in which they were met.
#[derive(Debug, Default)]
pub(super) struct Raw {
    /// Which tables were there, and where each begins.
    pub tables: Vec<(&'static str, Place)>,
    /// Forms of which some cell could not be read: what is missing there is not told as well.
    unsound: Vec<&'static str>,
    /// Units in headings of amounts and times.
    pub units: Vec<HeadedUnit>,
    pub terms: Vec<RawTerm>,
    pub labour: Vec<RawLabour>,
    pub taxes: Vec<RawTax>,
    pub sizes: Vec<RawSizeBand>,
    pub counts: Vec<RawCountBand>,
    pub panels: Vec<RawPanel>,
    pub grids: Vec<RawGrid>,
    pub rates: Vec<RawRate>,
    pub mark_rates: Vec<RawMarkRate>,
    pub factors: Vec<RawFactor>,
    pub typical: Vec<RawTypical>,
    pub limits: Vec<RawLimit>,
    pub operations: Vec<RawOperation>,
    pub betterment: Vec<RawBetterment>,
    pub titles: Vec<RawTitle>,
}

impl Raw {
    /// Reads every row of every table.
    pub fn read(tables: &[&Table<'_>], problems: &mut Vec<Problem>) -> Self {
        let mut raw = Self::default();
        for table in tables {
            raw.tables.push((table.form.name, heading_place(table)));
            let told = problems.len();
            columns::check(table, &mut raw.units, problems);
            raw.read_table(table, problems);
            if worst(&problems[told..]) >= Some(Severity::Error) {
                raw.unsound.push(table.form.name);
            }
        }
        raw
    }

    fn read_table(&mut self, table: &Table<'_>, problems: &mut Vec<Problem>) {
        let is = |form: &Form| table.form == form;
        if is(&forms::GRID) {
            self.grids.push(RawGrid::read(table, problems));
        } else if is(&forms::TERMS) {
            each(table, problems, |row| self.terms.extend(RawTerm::read(row)));
        } else if is(&forms::LABOUR) {
            each(table, problems, |row| self.labour.extend(RawLabour::read(row)));
        } else if is(&forms::TAXES) {
            each(table, problems, |row| self.taxes.extend(RawTax::read(row)));
        } else if is(&forms::SIZES) {
            each(table, problems, |row| self.sizes.extend(RawSizeBand::read(row)));
        } else if is(&forms::COUNTS) {
            each(table, problems, |row| self.counts.extend(RawCountBand::read(row)));
        } else if is(&forms::PANELS) {
            each(table, problems, |row| self.panels.extend(RawPanel::read(row)));
        } else if is(&forms::RATES) {
            each(table, problems, |row| self.rates.extend(RawRate::read(row)));
        } else if is(&forms::MARK_RATES) {
            each(table, problems, |row| self.mark_rates.extend(RawMarkRate::read(row)));
        } else if is(&forms::FACTORS) {
            let mut number = 0;
            each(table, problems, |row| {
                number += 1;
                self.factors.extend(RawFactor::read(row, number));
            });
        } else if is(&forms::TYPICAL) {
            each(table, problems, |row| self.typical.push(RawTypical::read(row)));
        } else if is(&forms::LIMITS) {
            each(table, problems, |row| self.limits.extend(RawLimit::read(row)));
        } else if is(&forms::BETTERMENT) {
            each(table, problems, |row| self.betterment.extend(RawBetterment::read(row)));
        } else if is(&forms::TITLES) {
            each(table, problems, |row| self.titles.extend(RawTitle::read(row)));
        } else if is(&forms::OPERATIONS) {
            each(table, problems, |row| self.operations.extend(RawOperation::read(row)));
        }
    }

    /// Whether every cell of a form's tables could be read.
    pub fn is_sound(&self, form: &Form) -> bool {
        !self.unsound.contains(&form.name)
    }

    /// Where the first table of a form stands.
    pub fn place_of(&self, form: &Form) -> Option<Place> {
        self.tables.iter().find(|(name, _)| *name == form.name).map(|(_, place)| *place)
    }
}

/// The heading row of a table.
fn heading_place(table: &Table<'_>) -> Place {
    Place::row(table.sheet.source, table.heading_row)
}

fn each(table: &Table<'_>, problems: &mut Vec<Problem>, mut take: impl FnMut(&mut RowReader<'_>)) {
    for row in row::body(table, problems) {
        take(&mut RowReader::new(table, row, problems));
    }
}
