use super::names::{Once, named, named_or, unknown_among};
use super::scopes::Scopes;
use super::units::{Sign, Units, percent};
use crate::claim::words::folded;
use crate::problem::{Located, Place, Problem, catalogue::schedule as words};
use crate::schedule::raw::RawFactor;
use crate::schedule::{AppliesTo, Factor, FactorEffect, FactorTest, PercentOf};
use std::collections::BTreeSet;

/// What a factor can look at.
const LOOKS_AT: [&str; 8] =
    ["material", "access", "paint", "depth", "position", "panel class", "vehicle class", "always"];

/// Factors in the order in which they are applied; equal numbers keep the order of their rows.
pub(super) fn check(
    raw: &[RawFactor],
    units: &Units,
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) -> Vec<Factor> {
    let mut once = Once::new();
    let mut factors: Vec<(&RawFactor, Factor)> = Vec::new();
    for row in raw {
        let same = [Some(&row.name), row.looks_at.as_ref(), row.is.as_ref(), row.panel.as_ref()]
            .map(|written| written.map_or(String::new(), |written| folded(&written.value)));
        once.note(same, "factor", &row.name.value, row.name.place, problems);
        factors.extend(check_row(row, units, scopes, problems).map(|factor| (row, factor)));
    }
    factors.sort_by_key(|(_, factor)| factor.order);
    exclude(&mut factors, problems);
    factors.into_iter().map(|(_, factor)| factor).collect()
}

/// Finds the factors that exclude each other. Written in one row it holds for both.
fn exclude(factors: &mut [(&RawFactor, Factor)], problems: &mut Vec<Problem>) {
    let names: Vec<String> = factors.iter().map(|(_, factor)| factor.name.clone()).collect();
    let known: Vec<&str> = names.iter().map(String::as_str).collect();
    let mut pairs = Vec::new();
    for (index, (row, _)) in factors.iter().enumerate() {
        let Some(written) = &row.not_with else { continue };
        for name in written.value.split(';').map(str::trim).filter(|name| !name.is_empty()) {
            let is_meant = |other: &usize| folded(known[*other]) == folded(name);
            let others: Vec<usize> = (0..known.len()).filter(is_meant).collect();
            if others.is_empty() {
                let written = Located::new(name.to_owned(), written.place);
                problems.push(unknown_among("not with", &written, &known));
            } else if others == [index] {
                problems.push(words::idle("not with", "it names this factor alone").at(written.place));
            }
            pairs.extend(others.into_iter().filter(|other| *other != index).map(|other| (index, other)));
        }
    }
    for (one, other) in pairs {
        factors[one].1.not_with.push(other);
        factors[other].1.not_with.push(one);
    }
    for (_, factor) in factors {
        factor.not_with.sort_unstable();
        factor.not_with.dedup();
    }
}

fn check_row(
    row: &RawFactor,
    units: &Units,
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) -> Option<Factor> {
    let test = test(row, scopes, problems);
    let scope = scopes.resolve(row.panel.as_ref(), problems);
    let of = named_or("of", row.of.as_ref(), PercentOf::Base, problems);
    let applies_to = named_or("on", row.on.as_ref(), AppliesTo::Both, problems);
    let (effect, place) = effect(row, of, units, problems)?;
    Some(Factor {
        name: row.name.value.clone(),
        scope: scope?,
        test: test?,
        effect,
        not_with: Vec::new(),
        applies_to: applies_to?,
        order: row.order?,
        place,
    })
}

/// What a factor adds, and its cell: one of a percentage, an amount and a time.
fn effect(
    row: &RawFactor,
    of: Option<PercentOf>,
    units: &Units,
    problems: &mut Vec<Problem>,
) -> Option<(FactorEffect, Place)> {
    let written = [("a percentage", row.percent), ("an amount", row.adds), ("a time", row.hours)];
    let mut stated = written.iter().filter_map(|(what, cell)| cell.map(|cell| (*what, cell.place)));
    let first = stated.next();
    if let (Some((what, place)), Some((other, other_place))) = (first, stated.next()) {
        problems.push(words::one_of_two(what, other).at(place).and(other_place));
        return None;
    }
    if let (None, Some(_), Some(of)) = (row.percent, first, &row.of) {
        let what = if row.adds.is_some() { "a fixed amount" } else { "a fixed time" };
        problems.push(words::idle("of", &format!("{what} is a percentage of nothing")).at(of.place));
    }
    if let Some(written) = row.percent {
        let share = percent("percent", written, (-100, 1000), problems)?;
        return Some((FactorEffect::Percent(share.value, of?), share.place));
    }
    if let Some(written) = row.adds {
        let adds = units.money("adds", written, Sign::Either, problems)?;
        if adds.value.minor() < 0 {
            let amount = adds.value.to_string();
            problems.push(words::takes_off(&row.name.value, &amount).at(adds.place));
        }
        return Some((FactorEffect::Amount(adds.value), adds.place));
    }
    if let Some(written) = row.hours {
        let hours = units.hours("hours", written, problems)?;
        return Some((FactorEffect::Time(hours.value), hours.place));
    }
    if row.sound {
        problems.push(words::neither_of_two("a percentage", "an amount nor a time").at(row.place));
    }
    None
}

fn test(row: &RawFactor, scopes: &Scopes<'_>, problems: &mut Vec<Problem>) -> Option<FactorTest> {
    let looks_at = row.looks_at.as_ref()?;
    let said = folded(&looks_at.value);
    if !LOOKS_AT.contains(&said.as_str()) {
        problems.push(unknown_among("looks at", looks_at, &LOOKS_AT));
        return None;
    }
    if said == "always" {
        if let Some(is) = &row.is {
            problems.push(words::idle("is", "a factor that always holds waits for nothing").at(is.place));
        }
        return Some(FactorTest::Always);
    }
    let Some(is) = &row.is else {
        if row.sound {
            problems.push(words::cell_missing("factors", "is").at(row.place));
        }
        return None;
    };
    match said.as_str() {
        "material" => value("material", is, problems).map(FactorTest::Material),
        "access" => value("access", is, problems).map(FactorTest::Access),
        "paint" => value("paint", is, problems).map(FactorTest::Paint),
        "depth" => value("depth", is, problems).map(FactorTest::Depth),
        "position" => value("position", is, problems).map(FactorTest::Position),
        "panel class" => panel_class(is, scopes, problems),
        _ => Some(FactorTest::VehicleClass(folded(&is.value))),
    }
}

/// A size class that some panel has.
fn panel_class(is: &Located<String>, scopes: &Scopes<'_>, problems: &mut Vec<Problem>) -> Option<FactorTest> {
    let classes = scopes.panels.iter().filter_map(|panel| panel.class.as_ref());
    let known: BTreeSet<&str> = classes.map(|class| class.value.as_str()).collect();
    if known.iter().any(|class| folded(class) == folded(&is.value)) {
        return Some(FactorTest::PanelClass(folded(&is.value)));
    }
    let known: Vec<&str> = known.into_iter().collect();
    problems.push(unknown_among("panel class", is, &known));
    None
}

fn value<T: crate::claim::words::Named>(
    what: &str,
    is: &Located<String>,
    problems: &mut Vec<Problem>,
) -> Option<T> {
    named::<T>(what, is, problems).map(|found| found.value)
}
