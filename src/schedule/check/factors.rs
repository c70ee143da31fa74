use super::names::{Once, named, named_or, unknown_among};
use super::scopes::Scopes;
use super::units::{Sign, Units, percent};
use crate::claim::words::folded;
use crate::problem::{Located, Problem, catalogue::schedule as words};
use crate::schedule::raw::RawFactor;
use crate::schedule::{AppliesTo, Factor, FactorEffect, FactorTest, PercentOf};

/// What a factor can look at.
const LOOKS_AT: [&str; 7] = ["material", "access", "paint", "depth", "position", "vehicle class", "always"];

/// Factors in the order in which they are applied; equal numbers keep the order of their rows.
pub(super) fn check(
    raw: &[RawFactor],
    units: &Units,
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) -> Vec<Factor> {
    let mut once = Once::new();
    let mut factors: Vec<Factor> = Vec::new();
    for row in raw {
        let same = [Some(&row.name), row.looks_at.as_ref(), row.is.as_ref(), row.panel.as_ref()]
            .map(|written| written.map_or(String::new(), |written| folded(&written.value)));
        once.note(same, "factor", &row.name.value, row.name.place, problems);
        factors.extend(check_row(row, units, scopes, problems));
    }
    factors.sort_by_key(|factor| factor.order);
    factors
}

fn check_row(
    row: &RawFactor,
    units: &Units,
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) -> Option<Factor> {
    let test = test(row, problems);
    let scope = scopes.resolve(row.panel.as_ref(), problems);
    let of = named_or("of", row.of.as_ref(), PercentOf::Base, problems);
    let applies_to = named_or("on", row.on.as_ref(), AppliesTo::Both, problems);
    let (effect, place) = match (row.percent, row.adds) {
        (Some(written), Some(adds)) => {
            problems.push(words::one_of_two("a percentage", "an amount").at(written.place).and(adds.place));
            return None;
        }
        (Some(written), None) => {
            let share = percent("percent", written, (-100, 1000), problems)?;
            (FactorEffect::Percent(share.value, of?), share.place)
        }
        (None, Some(adds)) => {
            if let Some(of) = &row.of {
                problems.push(words::idle("of", "a fixed amount is a percentage of nothing").at(of.place));
            }
            let adds = units.money("adds", adds, Sign::Either, problems)?;
            if adds.value.minor() < 0 {
                let amount = adds.value.to_string();
                problems.push(words::takes_off(&row.name.value, &amount).at(adds.place));
            }
            (FactorEffect::Amount(adds.value), adds.place)
        }
        (None, None) => {
            if row.sound {
                problems.push(words::neither_of_two("a percentage", "an amount").at(row.place));
            }
            return None;
        }
    };
    Some(Factor {
        name: row.name.value.clone(),
        scope: scope?,
        test: test?,
        effect,
        applies_to: applies_to?,
        order: row.order?,
        place,
    })
}

fn test(row: &RawFactor, problems: &mut Vec<Problem>) -> Option<FactorTest> {
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
        _ => Some(FactorTest::VehicleClass(folded(&is.value))),
    }
}

fn value<T: crate::claim::words::Named>(
    what: &str,
    is: &Located<String>,
    problems: &mut Vec<Problem>,
) -> Option<T> {
    named::<T>(what, is, problems).map(|found| found.value)
}
