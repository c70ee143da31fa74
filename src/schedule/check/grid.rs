use super::names::{named_or, unknown_among};
use super::scopes::Scopes;
use super::units::{Sign, Units};
use crate::claim::words::folded;
use crate::problem::{Located, Problem, Severity, catalogue::schedule as words, worst};
use crate::quantity::{Decimal, UnitRate};
use crate::schedule::bands::label;
use crate::schedule::raw::{Gives, Kind, Raw, RawGrid, RawRate};
use crate::schedule::{CountBand, Grid, GridCell, GroupId, Per, Price, SizeBand};

struct Filling<'a> {
    units: &'a Units,
    sizes: &'a [SizeBand],
    counts: &'a [CountBand],
    scopes: &'a Scopes<'a>,
    grid: Grid,
}

/// The grid of all rates, long rows and grids together. Cells without a price are told group by group.
pub(super) fn check(
    raw: &Raw,
    units: &Units,
    sizes: &[SizeBand],
    counts: &[CountBand],
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) -> Grid {
    let grid = Grid::new(scopes.groups(), sizes.len(), counts.len());
    let told = problems.len();
    let mut filling = Filling { units, sizes, counts, scopes, grid };
    for sheet in &raw.grids {
        filling.add_grid(sheet, problems);
    }
    for row in &raw.rates {
        filling.add_row(row, problems);
    }
    let has_rates = !raw.grids.is_empty() || !raw.rates.is_empty();
    // An unreadable cell would be told a second time as a missing one.
    if has_rates && worst(&problems[told..]) < Some(Severity::Error) {
        filling.tell_missing(problems);
    }
    filling.grid
}

impl Filling<'_> {
    fn add_grid(&mut self, sheet: &RawGrid, problems: &mut Vec<Problem>) {
        let group = sheet.rated_as.as_ref().and_then(|written| self.group(written, problems));
        let sizes: Vec<Option<usize>> =
            sheet.sizes.iter().map(|heading| self.size(heading, problems)).collect();
        for row in &sheet.rows {
            let count = self.count(&row.count, problems);
            for (column, value) in &row.cells {
                let place = (group, sizes[*column], count);
                if let (Some(gives), (Some(group), Some(size), Some(count))) = (sheet.gives, place) {
                    self.put(gives, (group, size, count), *value, problems);
                }
            }
        }
    }

    fn add_row(&mut self, row: &RawRate, problems: &mut Vec<Problem>) {
        let group = self.group(&row.rated_as, problems);
        let size = self.size(&row.size, problems);
        let count = self.count(&row.count, problems);
        let per = named_or("per", row.per.as_ref(), Per::Panel, problems);
        let (Some(per), Some((kind, value))) = (per, row.price) else { return };
        if let (Some(group), Some(size), Some(count)) = (group, size, count) {
            self.put(Gives { kind, per }, (group, size, count), value, problems);
        }
    }

    fn put(
        &mut self,
        gives: Gives,
        (group, size, count): (GroupId, usize, usize),
        value: Located<Decimal>,
        problems: &mut Vec<Problem>,
    ) {
        let Some(price) = price(self.units, gives, value, problems) else { return };
        let cell = GridCell { price, per: gives.per, place: value.place };
        if let Some(other) = self.grid.put(group, size, count, cell) {
            let group = &self.scopes.group_names()[usize::from(group.0)];
            let problem = words::rate_twice(group, &self.sizes[size].name, &self.counts[count].name);
            problems.push(problem.at(value.place).and(other.place));
        }
    }

    fn group(&self, written: &Located<String>, problems: &mut Vec<Problem>) -> Option<GroupId> {
        let found = self.scopes.group(&written.value);
        if found.is_none() && self.scopes.groups() > 0 {
            problems.push(unknown_among("group", written, &self.scopes.group_names()));
        }
        found
    }

    fn size(&self, written: &Located<String>, problems: &mut Vec<Problem>) -> Option<usize> {
        let text = label(&written.value);
        let is_it = |band: &SizeBand| {
            label(&band.name) == text || band.goes_by.iter().any(|other| label(other) == text)
        };
        let found = self.sizes.iter().position(is_it);
        if found.is_none() && !self.sizes.is_empty() {
            let names: Vec<&str> = self.sizes.iter().map(|band| band.name.as_str()).collect();
            problems.push(unknown_among("size band", written, &names));
        }
        found
    }

    fn count(&self, written: &Located<String>, problems: &mut Vec<Problem>) -> Option<usize> {
        let text = folded(&written.value);
        let found = self.counts.iter().position(|band| folded(&band.name) == text);
        if found.is_none() && !self.counts.is_empty() {
            let names: Vec<&str> = self.counts.iter().map(|band| band.name.as_str()).collect();
            problems.push(unknown_among("count band", written, &names));
        }
        found
    }

    fn tell_missing(&self, problems: &mut Vec<Problem>) {
        for (index, name) in self.scopes.group_names().into_iter().enumerate() {
            let Ok(number) = u16::try_from(index) else { continue };
            let group = GroupId(number);
            let Some(panel) = self.scopes.panels.iter().find(|panel| panel.group == group) else { continue };
            let mut missing: Vec<String> = Vec::new();
            for (size, band) in self.sizes.iter().enumerate() {
                let open: Vec<&str> = (0..self.counts.len())
                    .filter(|count| self.grid.get(group, size, *count).is_none())
                    .map(|count| self.counts[count].name.as_str())
                    .collect();
                if open.len() == self.counts.len() && open.len() > 1 {
                    missing.push(format!("{} (every count)", band.name));
                } else if !open.is_empty() {
                    missing.push(format!("{} ({})", band.name, open.join("; ")));
                }
            }
            let has_any = self.grid.cells_of(group).next().is_some();
            if !has_any {
                problems.push(words::group_without_rates(name).at(panel.place));
            } else if !missing.is_empty() {
                problems.push(words::rates_missing(name, &missing.join(", ")).at(panel.place));
            }
        }
    }
}

/// The price of a cell. A whole panel's amount is money; an amount per dent may be finer than the minor unit.
pub(super) fn price(
    units: &Units,
    gives: Gives,
    value: Located<Decimal>,
    problems: &mut Vec<Problem>,
) -> Option<Price> {
    match (gives.kind, gives.per) {
        (Kind::Time, _) => units.hours("hours", value, problems).map(|hours| Price::Time(hours.value)),
        (Kind::Amount, Per::Dent) => {
            units.rate("amount", value, problems).map(|rate| Price::Amount(rate.value))
        }
        (Kind::Amount, Per::Panel) => {
            let money = units.money("amount", value, Sign::NotNegative, problems)?.value;
            UnitRate::from_decimal(money.to_decimal(), money.currency()).ok().map(Price::Amount)
        }
    }
}
