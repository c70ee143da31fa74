use super::names::{named_or, unknown_among};
use super::scopes::Scopes;
use super::units::{Sign, Units};
use crate::claim::words::folded;
use crate::problem::{Located, Problem, catalogue::schedule as words};
use crate::quantity::{Decimal, UnitRate};
use crate::schedule::bands::label;
use crate::schedule::raw::{Gives, Kind, Raw, RawGrid, RawRate};
use crate::schedule::{CountBand, Grid, GridCell, GroupId, MixedRule, Per, Price, SizeBand};

struct Filling<'a> {
    units: &'a Units,
    sizes: &'a [SizeBand],
    counts: &'a [CountBand],
    scopes: &'a Scopes<'a>,
    grid: Grid,
}

/// The grid of all rates, long rows and grids together.
pub(super) fn check(
    raw: &Raw,
    units: &Units,
    sizes: &[SizeBand],
    counts: &[CountBand],
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) -> Grid {
    let grid = Grid::new(scopes.groups(), sizes.len(), counts.len());
    let mut filling = Filling { units, sizes, counts, scopes, grid };
    for sheet in &raw.grids {
        filling.add_grid(sheet, problems);
    }
    for row in &raw.rates {
        filling.add_row(row, problems);
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
}

/// Tells groups without any rate, and the cells that a group with rates leaves empty.
pub(super) fn check_missing(
    grid: &Grid,
    sizes: &[SizeBand],
    counts: &[CountBand],
    scopes: &Scopes<'_>,
    mixed: Option<MixedRule>,
    problems: &mut Vec<Problem>,
) {
    // Where dents are weighed against one band, no other band's rates are ever looked up.
    let is_used = |size: usize| !matches!(mixed, Some(MixedRule::Equivalents(band)) if band != size);
    for (index, name) in scopes.group_names().into_iter().enumerate() {
        let Ok(group) = u16::try_from(index).map(GroupId) else { continue };
        let Some(panel) = scopes.panels.iter().find(|panel| panel.group == group) else { continue };
        if grid.cells_of(group).next().is_none() {
            problems.push(words::group_without_rates(name).at(panel.place));
            continue;
        }
        let mut missing: Vec<String> = Vec::new();
        for (size, band) in sizes.iter().enumerate().filter(|(size, _)| is_used(*size)) {
            let is_empty = |count: &usize| grid.get(group, size, *count).is_none();
            let empty: Vec<&str> =
                (0..counts.len()).filter(is_empty).map(|count| counts[count].name.as_str()).collect();
            if empty.len() == counts.len() && empty.len() > 1 {
                missing.push(format!("{} (every count)", band.name));
            } else if !empty.is_empty() {
                missing.push(format!("{} ({})", band.name, empty.join("; ")));
            }
        }
        if !missing.is_empty() {
            problems.push(words::rates_missing(name, &missing.join(", ")).at(panel.place));
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
