//! The rows of a comparison's tables.

use super::Compared;
pub use super::traces::{blanks, digits, slip};

use super::statistics::{Told, all};
use crate::compare::comparison::{CarComparison, CarPair, Paired, Side, Unpaired};
use crate::compare::money::{NotSplit, Share, Turned};
use crate::compare::pairing::JoinedBy;
use crate::compare::statistics::Statistic;
use crate::quantity::{Decimal, Money};
use crate::report::tables::{Column, Field, Kind};
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// One row per pair of looks at a car.
pub const PAIRS: &[Column] = &[
    Column::new("claim", Kind::Text, "the key of the car's claim"),
    Column::new("joined by", Kind::Text, "by what its looks were found to speak of one car"),
    Column::new("first", Kind::Text, "first assessor"),
    Column::new("second", Kind::Text, "second assessor"),
    Column::new("panels", Kind::Count, "panels that both inspected"),
    Column::new("not paired", Kind::Count, "panels that only one of them inspected, or neither"),
    Column::new("dents first", Kind::Count, "on the panels that both inspected"),
    Column::new("dents second", Kind::Count, "likewise"),
    Column::new("dents difference", Kind::Number, "first minus second"),
    Column::new("currency", Kind::Text, "ISO 4217 code"),
    Column::new("amount first", Kind::Money, "of the panels that both inspected and both price"),
    Column::new("amount second", Kind::Money, "likewise"),
    Column::new("amount difference", Kind::Money, "first minus second"),
    Column::new("gross difference", Kind::Money, "of the whole car: first minus second, with tax"),
    Column::new("insurer pays difference", Kind::Money, "of the whole car: first minus second"),
    Column::new(
        "without open parts",
        Kind::Text,
        "yes where a look leaves panels or items open: the last two are without them",
    ),
    Column::new("looks like a slip", Kind::Text, "a pattern that undoing would mostly remove; a suggestion"),
];

/// One row per panel of a pair of looks.
pub const PANELS: &[Column] = &[
    Column::new("claim", Kind::Text, "the key of the car's claim"),
    Column::new("panel", Kind::Text, "which panel"),
    Column::new("first", Kind::Text, "first assessor"),
    Column::new("second", Kind::Text, "second assessor"),
    Column::new("dents first", Kind::Count, "blank where not inspected"),
    Column::new("dents second", Kind::Count, "blank where not inspected"),
    Column::new("dents difference", Kind::Number, "first minus second, where both inspected"),
    Column::new("counts first", Kind::Text, "by size band of the schedule, small to large"),
    Column::new("counts second", Kind::Text, "likewise"),
    Column::new("estimated", Kind::Text, "whose count is an estimate: its best value is compared"),
    Column::new("method first", Kind::Text, "what is to be done"),
    Column::new("method second", Kind::Text, "what is to be done"),
    Column::new("currency", Kind::Text, "ISO 4217 code"),
    Column::new("amount first", Kind::Money, "blank where open or not inspected"),
    Column::new("amount second", Kind::Money, "blank where open or not inspected"),
    Column::new("amount difference", Kind::Money, "first minus second, where both are priced"),
    Column::new("came about by", Kind::Text, "method changed, band edge crossed, same cells"),
    Column::new("not compared because", Kind::Text, "why it enters no statistic, or is not split"),
];

/// One row per panel and cause, and per car and part between panels and total.
pub const MONEY: &[Column] = &[
    Column::new("claim", Kind::Text, "the key of the car's claim"),
    Column::new("panel", Kind::Text, "blank for parts of the whole vehicle"),
    Column::new("first", Kind::Text, "first assessor"),
    Column::new("second", Kind::Text, "second assessor"),
    Column::new("cause", Kind::Text, "the input that differs, or the part of the total"),
    Column::new("currency", Kind::Text, "ISO 4217 code"),
    Column::new(
        "amount",
        Kind::Money,
        "its share, first minus second; a panel's rows sum to the panel's difference",
    ),
];

/// One row per statistic.
pub const STATISTICS: &[Column] = &[
    Column::new("first", Kind::Text, "first assessor; blank for all pairs together"),
    Column::new("second", Kind::Text, "second assessor"),
    Column::new("over", Kind::Text, "all panels, a kind of panel, a size band, count bands, decisions"),
    Column::new("name", Kind::Text, "name of the number"),
    Column::new("kind", Kind::Text, "scale, weights, metric and the like"),
    Column::new("value", Kind::Number, "the number; blank where there is none"),
    Column::new("low", Kind::Number, "lower limit of its interval"),
    Column::new("high", Kind::Number, "upper limit of its interval"),
    Column::new("level", Kind::Number, "how often such intervals hold the true value in the long run"),
    Column::new("interval by", Kind::Text, "method of the interval, or why there is none"),
    Column::new("p", Kind::Number, "chance of the test, two-sided"),
    Column::new("test", Kind::Text, "what is tested and how"),
    Column::new("unit", Kind::Text, "what is counted as one"),
    Column::new("used", Kind::Count, "units that were used"),
    Column::new("dropped", Kind::Text, "units that were not, with the reason"),
    Column::new("no value because", Kind::Text, "why there is no number"),
    Column::new("definition", Kind::Text, "what it is, with the decisions that the definition leaves open"),
    Column::new("source", Kind::Text, "where the definition was published"),
];

/// What a number of the statistics is; a row for each that differs.
pub const DEFINITIONS: &[Column] = &[
    Column::new("name", Kind::Text, "name of the number"),
    Column::new("interval by", Kind::Text, "method of the interval"),
    Column::new("test", Kind::Text, "what is tested and how"),
    Column::new("definition", Kind::Text, "what it is, with the decisions that the definition leaves open"),
    Column::new("source", Kind::Text, "where the definition was published"),
];

/// Columns of the statistics that the sheet leaves out: what they say stands once on the sheet of definitions, or is the
/// same on every row.
pub fn in_text_alone(column: &str) -> bool {
    matches!(column, "level" | "interval by" | "test" | "definition" | "source")
}

/// A number of the statistics, to seven significant digits.
fn number(value: Option<f64>) -> Field {
    let decimal = value.and_then(|value| Decimal::try_from(value).ok());
    decimal.and_then(|value| value.round_sf(7)).map_or(Field::Blank, |value| Field::Number(value.normalize()))
}

fn whole(value: i64) -> Field {
    Field::Number(Decimal::from(value))
}

/// Rows of [`PAIRS`].
pub fn pairs<'a>(compared: &'a Compared<'a>) -> Rows<'a> {
    over_pairs(compared, move |car, pair| {
        let first: u64 = car.panels(pair).map(|panel| u64::from(panel.first.dents)).sum();
        let second: u64 = car.panels(pair).map(|panel| u64::from(panel.second.dents)).sum();
        let priced = || car.panels(pair).filter_map(|panel| panel.amounts());
        let sum = |amounts: Vec<Money>| Money::sum(car.currency, amounts).ok();
        let (a, b) = (sum(priced().map(|(a, _)| a).collect()), sum(priced().map(|(_, b)| b).collect()));
        let vehicle = pair.vehicle.as_ref();
        let slips: Vec<String> = pair.slips.iter().map(slip).collect();
        vec![vec![
            Field::text(car.key.clone()),
            Field::text(joined(car.joined)),
            Field::text(compared.name(pair.first)),
            Field::text(compared.name(pair.second)),
            Field::count(pair.common.len()),
            Field::count(pair.unpaired.len()),
            Field::Count(first),
            Field::Count(second),
            whole(car.panels(pair).map(|panel| panel.dents()).sum()),
            Field::text(car.currency.code()),
            Field::money(a),
            Field::money(b),
            Field::money(a.zip(b).and_then(|(a, b)| a.minus(b).ok())),
            Field::money(vehicle.map(|vehicle| vehicle.gross)),
            Field::money(vehicle.map(|vehicle| vehicle.insurer)),
            Field::yes(vehicle.is_some_and(|vehicle| vehicle.is_partial)),
            Field::text(slips.join("; ")),
        ]]
    })
}

/// Rows that are made as they are asked for: a large batch has millions.
pub type Rows<'a> = Box<dyn Iterator<Item = Vec<Field>> + 'a>;

fn over_pairs<'a>(
    compared: &'a Compared<'a>,
    rows: impl Fn(&CarComparison, &CarPair) -> Vec<Vec<Field>> + 'a,
) -> Rows<'a> {
    let cars = compared.comparison.cars.iter();
    let pairs = cars.flat_map(|car| car.pairs.iter().map(move |pair| (car, pair)));
    Box::new(pairs.flat_map(move |(car, pair)| rows(car, pair)))
}

/// Rows of [`PANELS`].
pub fn panels<'a>(compared: &'a Compared<'a>) -> Rows<'a> {
    over_pairs(compared, move |car, pair| {
        let head = |panel: String| {
            vec![
                Field::text(car.key.clone()),
                Field::text(panel),
                Field::text(compared.name(pair.first)),
                Field::text(compared.name(pair.second)),
            ]
        };
        let paired = car.panels(pair).map(|panel| {
            let mut row = head(panel.panel.to_string());
            row.extend(paired_fields(car, &panel));
            row
        });
        let unpaired = pair.unpaired.iter().map(|panel| {
            let mut row = head(panel.panel.to_string());
            row.extend(unpaired_fields(car, panel));
            row
        });
        paired.chain(unpaired).collect()
    })
}

fn paired_fields(car: &CarComparison, panel: &Paired<'_>) -> Vec<Field> {
    let (first, second) = (&panel.first, &panel.second);
    let estimated = match (first.is_estimate, second.is_estimate) {
        (true, true) => "both",
        (true, false) => "first",
        (false, true) => "second",
        (false, false) => "",
    };
    vec![
        Field::Count(first.dents.into()),
        Field::Count(second.dents.into()),
        whole(panel.dents()),
        Field::text(counts(first)),
        Field::text(counts(second)),
        Field::text(estimated),
        Field::text(first.method.name()),
        Field::text(second.method.name()),
        Field::text(car.currency.code()),
        Field::money(first.amount),
        Field::money(second.amount),
        Field::money(panel.difference()),
        panel
            .turned
            .filter(|_| first.amount != second.amount)
            .map_or(Field::Blank, |turn| Field::text(turned(turn))),
        panel.split.err().map_or(Field::Blank, |why| Field::text(not_split(why))),
    ]
}

fn unpaired_fields(car: &CarComparison, panel: &Unpaired) -> Vec<Field> {
    use crate::compare::comparison::WhyUnpaired::{FirstNotInspected, OnSecondOnly};
    let dents = panel.dents.map_or(Field::Blank, |dents| Field::Count(dents.into()));
    let amount = Field::money(panel.amount);
    let is_second = matches!(panel.why, FirstNotInspected | OnSecondOnly);
    let on = |field: &Field, here: bool| if here { field.clone() } else { Field::Blank };
    let mut fields = vec![on(&dents, !is_second), on(&dents, is_second)];
    fields.extend(vec![Field::Blank; 6]);
    fields.push(Field::text(car.currency.code()));
    fields.extend([on(&amount, !is_second), on(&amount, is_second), Field::Blank, Field::Blank]);
    fields.push(Field::text(panel.why.words()));
    fields
}

/// `38 / 12 / 0`: dents by size band.
pub fn counts(side: &Side<'_>) -> String {
    side.counts.iter().map(u32::to_string).collect::<Vec<_>>().join(" / ")
}

/// Rows of [`MONEY`].
pub fn money<'a>(compared: &'a Compared<'a>) -> Rows<'a> {
    over_pairs(compared, move |car, pair| {
        let row = |panel: String, cause: &str, amount: Money| {
            vec![
                Field::text(car.key.clone()),
                Field::text(panel),
                Field::text(compared.name(pair.first)),
                Field::text(compared.name(pair.second)),
                Field::text(cause),
                Field::text(car.currency.code()),
                Field::Money(amount),
            ]
        };
        let mut rows = Vec::new();
        for panel in car.panels(pair) {
            let name = panel.panel.to_string();
            match panel.split {
                Ok(parts) => {
                    rows.extend(parts.iter().map(|(cause, part)| row(name.clone(), cause.name(), part)));
                }
                Err(why) => {
                    rows.extend(panel.difference().map(|amount| row(name, not_split(why), amount)));
                }
            }
        }
        let shares = pair.vehicle.iter().flat_map(|vehicle| Share::ALL.into_iter().zip(vehicle.shares));
        rows.extend(
            shares
                .filter(|(_, amount)| !amount.is_zero())
                .map(|(share, amount)| row(String::new(), share.words(), amount)),
        );
        rows
    })
}

/// Rows of [`STATISTICS`].
pub fn statistics<'a>(compared: &'a Compared<'a>) -> Rows<'a> {
    Box::new(all(compared).into_iter().map(move |told| statistic(&told, compared)))
}

/// Rows of [`DEFINITIONS`], in the order in which their numbers come.
pub fn definitions<'a>(compared: &'a Compared<'a>) -> Rows<'a> {
    let mut told = BTreeSet::new();
    let row = |told: &Told<'_>| {
        let statistic = told.statistic;
        let interval = statistic.interval.map_or("", |interval| interval.method);
        let test = statistic.test.map_or("", |test| test.method);
        [statistic.name, interval, test, &defined(statistic), statistic.definition.source].map(str::to_owned)
    };
    let all: Vec<_> = all(compared).iter().map(row).collect();
    Box::new(
        all.into_iter().filter(move |row| told.insert(row.clone())).map(|row| row.map(Field::text).into()),
    )
}

fn statistic(told: &Told<'_>, compared: &Compared<'_>) -> Vec<Field> {
    let Statistic { name, value, interval, test, used, dropped, definition, .. } = told.statistic;
    let (first, second) =
        told.between.map_or((told.person, None), |(first, second)| (Some(first), Some(second)));
    let name_of =
        |person: Option<usize>| person.map_or(Field::Blank, |person| Field::text(compared.name(person)));
    let left: Vec<String> = dropped.iter().map(|left| format!("{}: {}", left.units, left.why)).collect();
    let interval_by = match (interval, value) {
        (Ok(interval), _) => interval.method.to_owned(),
        (Err(reason), Ok(_)) => format!("none: {reason}"),
        (Err(_), Err(_)) => String::new(),
    };
    vec![
        name_of(first),
        name_of(second),
        Field::text(told.over.clone()),
        Field::text(*name),
        Field::text(told.kind.clone()),
        number(value.ok()),
        number(interval.ok().map(|interval| interval.low)),
        number(interval.ok().map(|interval| interval.high)),
        number(interval.ok().map(|interval| interval.level.get())),
        Field::text(interval_by),
        number(test.map(|test| test.p)),
        test.map_or(Field::Blank, |test| Field::text(test.method)),
        Field::text(told.unit),
        Field::count(*used),
        Field::text(left.join("; ")),
        value.err().map_or(Field::Blank, |reason| Field::text(reason.to_string())),
        Field::text(defined(told.statistic)),
        Field::text(definition.source),
    ]
}

/// The definition with its decisions: `mean of ...; direction: first minus second`.
pub fn defined(statistic: &Statistic) -> String {
    let mut text = statistic.definition.says.to_owned();
    for choice in &statistic.definition.choices {
        let _ = write!(text, "; {}: {choice}", choice.name());
    }
    text
}

/// By what looks were joined, in words.
pub const fn joined(by: JoinedBy) -> &'static str {
    match by {
        JoinedBy::Claim => "claim",
        JoinedBy::Vin => "VIN",
        JoinedBy::Registration => "registration",
    }
}

/// How a difference came about, in words.
pub const fn turned(turned: Turned) -> &'static str {
    match turned {
        Turned::Method => "method changed",
        Turned::Band => "band edge crossed",
        Turned::SameCell => "same cells",
    }
}

/// Why a panel is not split, in words.
pub const fn not_split(why: NotSplit) -> &'static str {
    match why {
        NotSplit::NotInspected => "not inspected on both sides",
        NotSplit::Open => "open on one side or both",
        NotSplit::MixtureOpen => "causes together: a mixture of the two is not priced",
    }
}
