//! `comparison.json`: everything that a comparison says, with a definition beside each number. Where there is no number
//! stands `null` with its `reason`. Amounts are strings in plain decimal form.

mod money;
mod statistic;

use super::statistics::all;
use super::tables::slip;
use super::{Compared, adjudication};
use crate::compare::agree::Proposal;
use crate::compare::comparison::{CarComparison, Disputed, PairAgreement, Story};
use crate::compare::statistics::category::CrossTable;
use crate::quantity::Money;
use crate::report::run_record::{FORMAT, TOOL, VERSION};
use money::{MoneyView, money_view};
use serde::Serialize;
use statistic::{StatisticView, statistic};

/// The whole comparison.
#[derive(Debug, Serialize)]
pub struct ComparisonView<'a> {
    format: u32,
    tool: &'static str,
    version: &'static str,
    direction: &'static str,
    assessors: Vec<AssessorView<'a>>,
    overall: PairView<'a>,
    pairs: Vec<PairView<'a>>,
    statistics: Vec<StatisticView<'a>>,
    people: Vec<PersonView<'a>>,
    stand_out: Vec<OutlierView<'a>>,
    slips: Vec<SlipView<'a>>,
    disputed: Vec<DisputedView<'a>>,
    aside: Vec<AsideView<'a>>,
}

#[derive(Debug, Serialize)]
struct AssessorView<'a> {
    name: &'a str,
    is_reference: bool,
    looks: usize,
    repeat_counts: usize,
}

#[derive(Debug, Serialize)]
struct PairView<'a> {
    first: Option<&'a str>,
    second: Option<&'a str>,
    cars: usize,
    panels: usize,
    not_paired: usize,
    stories: Vec<StoryView>,
    stories_differ: bool,
    tables: Vec<TableView<'a>>,
    money: Vec<MoneyView<'a>>,
}

#[derive(Debug, Serialize)]
struct StoryView {
    rule: &'static str,
    cars: usize,
    dents_first: u64,
    dents_second: u64,
    money: Vec<StoryMoneyView>,
}

#[derive(Debug, Serialize)]
struct StoryMoneyView {
    currency: &'static str,
    first: String,
    second: String,
}

#[derive(Debug, Serialize)]
struct TableView<'a> {
    of: &'a str,
    categories: &'a [String],
    /// Rows are the first assessor's.
    units: Vec<Vec<u64>>,
    read_kappa_with_care: bool,
}

#[derive(Debug, Serialize)]
struct PersonView<'a> {
    name: &'a str,
    says: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    chance_with_false_discovery_held: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    round_digits: Option<String>,
    looks: usize,
    looks_with_blanks: usize,
}

#[derive(Debug, Serialize)]
struct OutlierView<'a> {
    claim: &'a str,
    first: &'a str,
    second: &'a str,
    dents: i64,
    robust_z: f64,
    amount: Option<String>,
    currency: &'static str,
}

#[derive(Debug, Serialize)]
struct SlipView<'a> {
    claim: &'a str,
    first: &'a str,
    second: &'a str,
    suggestion: String,
    dents_before: u64,
    dents_after: u64,
}

#[derive(Debug, Serialize)]
struct DisputedView<'a> {
    claim: &'a str,
    panel: String,
    currency: &'static str,
    looks: Vec<LookView<'a>>,
    at_stake: Option<String>,
    look_again_at: String,
    proposed_rule: &'static str,
    proposed: Vec<Option<u32>>,
}

#[derive(Debug, Serialize)]
struct LookView<'a> {
    assessor: &'a str,
    counts: Option<&'a [u32]>,
    method: Option<&'static str>,
    amount: Option<String>,
}

#[derive(Debug, Serialize)]
struct AsideView<'a> {
    claim: &'a str,
    assessor: &'a str,
    reason: String,
}

impl<'a> ComparisonView<'a> {
    /// A comparison's.
    pub fn new(compared: &Compared<'a>) -> Self {
        let comparison = compared.comparison;
        let name = |number: usize| name(compared, number);
        let pairs = || comparison.cars.iter().flat_map(|car| car.pairs.iter().map(move |pair| (car, pair)));
        let slips = pairs().flat_map(|(car, pair)| pair.slips.iter().map(move |found| (car, pair, found)));
        let people = comparison.everyone.people.iter();
        Self {
            format: FORMAT,
            tool: TOOL,
            version: VERSION,
            direction: "first minus second, dents and amounts alike",
            assessors: comparison
                .assessors
                .iter()
                .map(|person| AssessorView {
                    name: &person.name,
                    is_reference: person.is_reference,
                    looks: person.looks,
                    repeat_counts: person.repeats,
                })
                .collect(),
            overall: pair_view(&comparison.overall, compared),
            pairs: comparison.pairs.iter().map(|pair| pair_view(pair, compared)).collect(),
            statistics: all(compared).into_iter().map(|told| statistic(told, compared)).collect(),
            people: people
                .map(|person| PersonView {
                    name: name(person.assessor),
                    says: &person.says,
                    chance_with_false_discovery_held: person.paired.adjusted,
                    round_digits: person.digits.map(|digits| {
                        format!("{} of {} counts are multiples of {}", digits.round, digits.of, digits.to)
                    }),
                    looks: person.looks,
                    looks_with_blanks: person.looks_with_blanks,
                })
                .collect(),
            stand_out: comparison
                .everyone
                .outliers
                .iter()
                .map(|outlier| {
                    let car = &comparison.cars[outlier.car];
                    let pair = &car.pairs[outlier.pair];
                    OutlierView {
                        claim: &car.key,
                        first: name(pair.first),
                        second: name(pair.second),
                        dents: outlier.dents,
                        robust_z: outlier.z,
                        amount: outlier.money.map(text),
                        currency: car.currency.code(),
                    }
                })
                .collect(),
            slips: slips
                .map(|(car, pair, found)| SlipView {
                    claim: &car.key,
                    first: name(pair.first),
                    second: name(pair.second),
                    suggestion: slip(found),
                    dents_before: found.before,
                    dents_after: found.after,
                })
                .collect(),
            disputed: comparison
                .cars
                .iter()
                .flat_map(|car| car.disputed.iter().map(move |panel| disputed_view(car, panel, compared)))
                .collect(),
            aside: comparison
                .aside
                .iter()
                .map(|aside| AsideView {
                    claim: &aside.key,
                    assessor: name(aside.assessor),
                    reason: aside.why.words(),
                })
                .collect(),
        }
    }

    /// The bytes of the file.
    pub fn to_bytes(&self) -> serde_json::Result<Vec<u8>> {
        let mut bytes = serde_json::to_vec_pretty(self)?;
        bytes.push(b'\n');
        Ok(bytes)
    }
}

fn name<'a>(compared: &Compared<'a>, number: usize) -> &'a str {
    compared.comparison.assessors.get(number).map_or("", |person| person.name.as_str())
}

fn text(money: Money) -> String {
    money.to_string()
}

fn pair_view<'a>(pair: &'a PairAgreement, compared: &Compared<'a>) -> PairView<'a> {
    let stories = &pair.stories;
    PairView {
        first: pair.between.map(|(first, _)| name(compared, first)),
        second: pair.between.map(|(_, second)| name(compared, second)),
        cars: pair.cars,
        panels: pair.panels,
        not_paired: pair.unpaired,
        stories: [&stories.common, &stories.own, &stories.complete].map(story).into(),
        stories_differ: stories.differ,
        tables: pair
            .bands
            .iter()
            .chain(&pair.decisions)
            .map(|categories| TableView {
                of: &categories.of,
                categories: &categories.names,
                units: cells(&categories.table),
                read_kappa_with_care: categories.prevalence.warns,
            })
            .collect(),
        money: pair.money.iter().map(|money| money_view(money, compared)).collect(),
    }
}

fn cells(table: &CrossTable) -> Vec<Vec<u64>> {
    let each = 0..table.categories();
    each.clone().map(|row| each.clone().map(|column| table.units(row, column)).collect()).collect()
}

fn story(story: &Story) -> StoryView {
    StoryView {
        rule: story.rule,
        cars: story.cars,
        dents_first: story.first,
        dents_second: story.second,
        money: story
            .money
            .iter()
            .map(|(currency, first, second)| StoryMoneyView {
                currency: currency.code(),
                first: first.to_string(),
                second: second.to_string(),
            })
            .collect(),
    }
}

fn disputed_view<'a>(
    car: &'a CarComparison,
    panel: &'a Disputed,
    compared: &Compared<'a>,
) -> DisputedView<'a> {
    DisputedView {
        claim: &car.key,
        panel: panel.panel.to_string(),
        currency: car.currency.code(),
        looks: panel
            .looks
            .iter()
            .map(|look| LookView {
                assessor: name(compared, look.assessor),
                counts: look.counts.as_deref(),
                method: look.method.map(crate::claim::Method::name),
                amount: look.amount.map(text),
            })
            .collect(),
        at_stake: panel.at_stake.map(text),
        look_again_at: adjudication::again(panel.recount, &compared.run.schedules[car.schedule]),
        proposed_rule: "median of the looks that inspected the panel, a half counted up; a proposal, never an entry",
        proposed: panel
            .proposed
            .iter()
            .map(|proposal| match proposal {
                Proposal::Dents(dents) => Some(*dents),
                Proposal::CountAgain(_) => None,
            })
            .collect(),
    }
}
