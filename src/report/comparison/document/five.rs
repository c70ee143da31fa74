use super::names::Sides;
use super::{Filling, figure};
use crate::compare::comparison::{PageOne, PairAgreement};
use crate::compare::statistics::{Reason, Statistic};
use crate::quantity::Currency;
use crate::report::wording::so_many;
use serde::Serialize;

/// One of the five figures.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FrontFigure {
    /// What it is.
    pub name: String,
    /// The figure, with its unit.
    pub value: String,
    /// Its interval.
    pub interval: String,
    /// Pairs that it rests on.
    pub pairs: String,
    /// What it means.
    pub says: String,
}

/// The five figures, in their order.
pub(super) fn figures(filling: &Filling<'_>, sides: &Sides) -> Vec<FrontFigure> {
    let overall = &filling.comparison.overall;
    let page = &overall.page_one;
    let several = filling.comparison.assessors.len() > 2;
    let (one_panel, panels) =
        if several { ("pair of counts", "pairs of counts") } else { ("panel", "panels") };
    let panels = |statistic: &Statistic| so_many(statistic.used, one_panel, panels);
    let mut all = vec![
        bias(filling, sides, panels),
        one("Typical spread, dents", &page.spread, panels(&page.spread), figure::dents, |spread| {
            format!(
                "Half of the panel counts lie within {} of each other, the other half further apart",
                dents(spread)
            )
        }),
        one("Same count band", &page.same_band, panels(&page.same_band), figure::share, |share| {
            format!("On {} both counts fall into the same row of rates", of_panels(share))
        }),
        one("Same decision", &page.same_decision, panels(&page.same_decision), figure::share, |share| {
            format!("On {} both counts lead to the same repair", of_panels(share))
        }),
    ];
    for (currency, statistic) in &page.money {
        let cars = |used, one, many| so_many(used, one, many);
        let of_pair = largest(filling, statistic, |page| {
            page.money.iter().find(|(other, _)| other == currency).map(|(_, statistic)| statistic)
        });
        all.push(match of_pair {
            Some((pair, statistic)) => {
                let figure =
                    money(*currency, statistic, &filling.sides(pair), cars(statistic.used, "car", "cars"));
                of_the_pairs(filling, figure)
            }
            None if several => {
                let pairs = cars(statistic.used, "pair of counts of a car", "pairs of counts of a car");
                money(*currency, statistic, sides, pairs)
            }
            None => money(*currency, statistic, sides, cars(statistic.used, "car", "cars")),
        });
    }
    if page.money.is_empty() {
        all.push(FrontFigure {
            name: "Difference in money".to_owned(),
            value: "none".to_owned(),
            interval: String::new(),
            pairs: "0 cars".to_owned(),
            says: if filling.comparison.cars.is_empty() {
                "There is no such figure: no schedule prices these counts.".to_owned()
            } else {
                "No car has a common panel that both price.".to_owned()
            },
        });
    }
    all
}

fn bias(filling: &Filling<'_>, sides: &Sides, panels: impl Fn(&Statistic) -> String) -> FrontFigure {
    let overall = &filling.comparison.overall.page_one.bias;
    let of = |bias: &Statistic, sides: &Sides, panels: String| {
        let signed = |value: f64| figure::signed(value, 1);
        one("Bias, dents a panel", bias, panels, signed, |value| lean(value, bias, sides))
    };
    match largest(filling, overall, |page| Some(&page.bias)) {
        Some((pair, bias)) => {
            of_the_pairs(filling, of(bias, &filling.sides(pair), so_many(bias.used, "panel", "panels")))
        }
        None => of(overall, sides, panels(overall)),
    }
}

/// Where a figure has no direction over all pairs: the pair of which it is largest, whichever way. The earlier of equal
/// ones.
fn largest<'a>(
    filling: &Filling<'a>,
    overall: &Statistic,
    of: impl Fn(&'a PageOne) -> Option<&'a Statistic>,
) -> Option<(&'a PairAgreement, &'a Statistic)> {
    if overall.value != Err(Reason::NoDirection) {
        return None;
    }
    let pairs = filling.comparison.pairs.iter();
    let known = pairs.filter_map(|pair| {
        let statistic = of(&pair.page_one)?;
        Some((statistic.value.ok()?.abs(), pair, statistic))
    });
    let most = known.reduce(|most, next| if next.0 > most.0 { next } else { most });
    most.map(|(_, pair, statistic)| (pair, statistic))
}

/// Says of a figure that it is one pair's, and was picked.
fn of_the_pairs(filling: &Filling<'_>, figure: FrontFigure) -> FrontFigure {
    let pairs = filling.comparison.pairs.len();
    let says =
        format!("{} It is the largest of {pairs} pairs, so it looks large by choice, too.", figure.says);
    FrontFigure { name: format!("{}: the pair furthest apart", figure.name), says, ..figure }
}

fn money(currency: Currency, statistic: &Statistic, sides: &Sides, cars: String) -> FrontFigure {
    let show = |minor: f64| figure::money(minor, currency);
    one(&format!("Difference, {} a car", currency.code()), statistic, cars, show, |minor| {
        let size = show(minor.abs());
        let size = size.trim_start_matches('+');
        if size.bytes().all(|byte| matches!(byte, b'0' | b'.')) {
            return "On average both come to the same".to_owned();
        }
        let (more, less) =
            if minor > 0.0 { (&sides.first, &sides.second) } else { (&sides.second, &sides.first) };
        format!("On average {more} comes to {size} a car more than {less}{}", by_chance(statistic))
    })
}

fn one(
    name: &str,
    statistic: &Statistic,
    pairs: String,
    show: impl Fn(f64) -> String,
    says: impl Fn(f64) -> String,
) -> FrontFigure {
    let interval = match (statistic.value, figure::interval(statistic, &show)) {
        (Ok(_), Ok(interval)) => interval,
        (Ok(_), Err(reason)) => format!("none: {reason}"),
        (Err(_), _) => String::new(),
    };
    FrontFigure {
        name: name.to_owned(),
        value: statistic.value.map_or_else(|_| "none".to_owned(), &show),
        interval,
        pairs,
        says: match statistic.value {
            Ok(value) => format!("{}.", says(value)),
            Err(reason) => format!("There is no such figure: {reason}."),
        },
    }
}

/// Which way the counts lean, and whether chance could do it.
pub(super) fn lean(bias: f64, statistic: &Statistic, sides: &Sides) -> String {
    let size = figure::decimal(bias.abs(), 1);
    if size == "0.0" {
        return "On average neither counts more".to_owned();
    }
    let more = if bias > 0.0 { &sides.first } else { &sides.second };
    let less = if bias > 0.0 { &sides.second } else { &sides.first };
    let who = format!("On average {more} has {size} dents a panel more than {less}");
    format!("{who}{}", by_chance(statistic))
}

/// Whether chance could do it.
fn by_chance(statistic: &Statistic) -> &'static str {
    match statistic.interval {
        Ok(interval) if interval.low <= 0.0 && interval.high >= 0.0 => ", which chance alone could do",
        Ok(_) => ", more than chance would do",
        Err(_) => "; whether that is chance cannot be told",
    }
}

/// `83 % of the panels`, `all panels`.
pub(super) fn of_panels(share: f64) -> String {
    match figure::share(share).as_str() {
        "100 %" => "all panels".to_owned(),
        "0 %" => "none of the panels".to_owned(),
        share => format!("{share} of the panels"),
    }
}

/// `3 dents`, `1 dent`.
pub(super) fn dents(value: f64) -> String {
    let text = figure::dents(value);
    if text == "1" { "1 dent".to_owned() } else { format!("{text} dents") }
}
