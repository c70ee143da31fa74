//! Every statistic of a comparison in one order, for tables and data alike.

use super::Compared;
use crate::compare::comparison::{Annex, Categories, Comparison, PairAgreement, Period};
use crate::compare::statistics::Statistic;

/// A statistic with what it is about.
#[derive(Debug, Clone)]
pub struct Told<'a> {
    /// Between whom: first and second, by number; none for all together.
    pub between: Option<(usize, usize)>,
    /// One assessor among the others, by number.
    pub person: Option<usize>,
    /// Over what: all panels, a kind of panel, a size band, count bands, decisions.
    pub over: String,
    /// What kind of number: `form`, `metric`, weights and the like tell equal names apart.
    pub kind: String,
    /// What one unit is.
    pub unit: &'static str,
    /// The number.
    pub statistic: &'a Statistic,
}

const PANEL: &str = "panel that both inspected";
const CAR: &str = "car with a panel that both price";
const ALL_PANEL: &str = "panel that everybody inspected";

/// Every statistic: all pairs together, each pair, everybody, each person.
pub fn all<'a>(compared: &Compared<'a>) -> Vec<Told<'a>> {
    let comparison: &'a Comparison = compared.comparison;
    let mut told = Vec::new();
    of_pair(&mut told, &comparison.overall);
    // With one pair of people all pairs together are that pair.
    if comparison.pairs.len() > 1 {
        for pair in &comparison.pairs {
            of_pair(&mut told, pair);
        }
    }
    // Where nothing is priced, these are what all pairs together say.
    if let Some(by_counts) = comparison.by_counts.as_ref().filter(|_| !comparison.cars.is_empty()) {
        let counted = &by_counts.overall;
        let several = by_counts.pairs.iter().filter(|_| by_counts.pairs.len() > 1);
        for pair in [counted].into_iter().chain(several) {
            for statistic in [&pair.page_one.bias, &pair.page_one.spread] {
                told.push(Told {
                    between: pair.between,
                    person: None,
                    over: "counts alone".to_owned(),
                    kind: "no schedule prices both".to_owned(),
                    unit: PANEL,
                    statistic,
                });
            }
        }
    }
    for period in &comparison.periods {
        of_period(&mut told, period);
    }
    of_everyone(&mut told, comparison);
    told
}

fn of_pair<'a>(told: &mut Vec<Told<'a>>, pair: &'a PairAgreement) {
    let between = pair.between;
    let mut add = |over: &str, kind: String, unit, statistic| {
        told.push(Told { between, person: None, over: over.to_owned(), kind, unit, statistic });
    };
    let page = &pair.page_one;
    let plain = "page one".to_owned();
    for statistic in [&page.bias, &page.spread, &page.same_band, &page.same_decision] {
        add("all panels", plain.clone(), PANEL, statistic);
    }
    for (currency, statistic) in &page.money {
        add("cars", format!("page one, {}", currency.code()), CAR, statistic);
    }
    for annex in &pair.annex {
        of_annex(&mut add, annex);
    }
    for categories in pair.bands.iter().chain(&pair.decisions) {
        of_categories(&mut add, categories);
    }
}

fn of_period<'a>(told: &mut Vec<Told<'a>>, period: &'a Period) {
    let mut add = |kind: String, unit, statistic| {
        let between = Some(period.between);
        told.push(Told { between, person: None, over: period.name.clone(), kind, unit, statistic });
    };
    let page = &period.page_one;
    for statistic in [&page.bias, &page.spread, &page.same_band, &page.same_decision] {
        add("over time".to_owned(), PANEL, statistic);
    }
    for (currency, statistic) in &page.money {
        add(format!("over time, {}", currency.code()), CAR, statistic);
    }
}

fn of_annex<'a>(add: &mut impl FnMut(&str, String, &'static str, &'a Statistic), annex: &'a Annex) {
    let over = annex.over.as_str();
    let counts = &annex.counts;
    for statistic in [&annex.bias, &annex.spread] {
        add(over, "by car".to_owned(), PANEL, statistic);
    }
    for (scale, limits) in [("differences", &counts.limits), ("ratios", &counts.ratios)] {
        for statistic in [&limits.bias, &limits.spread, &limits.lower, &limits.upper] {
            add(over, scale.to_owned(), PANEL, statistic);
        }
    }
    add(over, "scale check, differences".to_owned(), PANEL, &counts.scale.difference);
    add(over, "scale check, ratios".to_owned(), PANEL, &counts.scale.ratio);
    add(over, "scale check".to_owned(), PANEL, &counts.scale.slope);
    let lin = &counts.concordance;
    for statistic in [&lin.concordance, &lin.correlation, &lin.bias_factor] {
        add(over, "concordance".to_owned(), PANEL, statistic);
    }
    for statistic in counts.intraclass.iter().flat_map(|intraclass| &intraclass.forms) {
        add(over, "intraclass".to_owned(), PANEL, statistic);
    }
    if let Some(line) = &counts.line {
        add(over, "errors in both".to_owned(), PANEL, &line.slope);
        add(over, "errors in both".to_owned(), PANEL, &line.intercept);
    }
    if let Some((band, decision)) = &annex.same {
        add(over, "by car".to_owned(), PANEL, band);
        add(over, "by car".to_owned(), PANEL, decision);
    }
}

fn of_categories<'a>(
    add: &mut impl FnMut(&str, String, &'static str, &'a Statistic),
    categories: &'a Categories,
) {
    let over = categories.of.as_str();
    add(over, String::new(), PANEL, &categories.same);
    for (weights, statistic) in
        [("plain", &categories.plain), ("linear", &categories.linear), ("quadratic", &categories.quadratic)]
    {
        add(over, weights.to_owned(), PANEL, statistic);
    }
    let prevalence = &categories.prevalence;
    add(over, "prevalence".to_owned(), PANEL, &prevalence.share);
    add(over, "prevalence".to_owned(), PANEL, &prevalence.bias_index);
    add(over, "prevalence".to_owned(), PANEL, &prevalence.adjusted);
    if let Some(statistic) = &prevalence.prevalence_index {
        add(over, "prevalence".to_owned(), PANEL, statistic);
    }
}

fn of_everyone<'a>(told: &mut Vec<Told<'a>>, comparison: &'a Comparison) {
    let everyone = &comparison.everyone;
    let mut add = |person, over: &str, kind: &str, unit, statistic| {
        let (over, kind) = (over.to_owned(), kind.to_owned());
        told.push(Told { between: None, person, over, kind, unit, statistic });
    };
    for statistic in &everyone.intraclass.forms {
        add(None, "everybody", "intraclass", ALL_PANEL, statistic);
    }
    for (metric, statistic) in &everyone.alpha {
        add(None, "everybody", metric.name(), "panel that two or more inspected", statistic);
    }
    for (of, fleiss) in [("count band", &everyone.bands), ("decision", &everyone.decisions)] {
        if let Ok(fleiss) = fleiss {
            add(None, "everybody", of, ALL_PANEL, &fleiss.overall);
        }
    }
    if let Some(precision) = &everyone.precision {
        for statistic in [
            &precision.repeatability,
            &precision.repeatability_limit,
            &precision.reproducibility,
            &precision.reproducibility_limit,
        ] {
            add(None, "everybody", "repeat counts", "panel that somebody counted again", statistic);
        }
    }
    add(None, "everybody", "funnel", "assessor", &everyone.funnel.dispersion);
    add(None, "everybody", "funnel", "assessor", &everyone.funnel.between);
    for (number, place) in everyone.funnel.people.iter().enumerate() {
        add(Some(number), "one among the others", "funnel", "car that two others counted", &place.z);
    }
    for person in &everyone.people {
        let unit = "car that two others counted";
        add(Some(person.assessor), "one among the others", "paired", unit, &person.paired.difference);
    }
}
