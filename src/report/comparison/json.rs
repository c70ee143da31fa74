//! `comparison.json`: everything that a comparison says, with a definition beside each number. Where there is no number
//! stands `null` with its `reason`. Amounts are strings in plain decimal form.

mod by_counts;
mod money;
mod sample;
mod statistic;
mod view;

pub use sample::SampleView;

use super::statistics::all;
use super::tables::{blanks, digits, slip};
use super::{Compared, adjudication};
use crate::compare::agree::Proposal;
use crate::compare::comparison::{
    Assessor, CarComparison, CarPair, Disputed, Outlier, PairAgreement, PersonStanding, Story,
};
use crate::compare::habit::Suggestion;
use crate::compare::statistics::category::CrossTable;
use crate::quantity::Money;
use crate::report::run_record::{FORMAT, TOOL, VERSION};
use by_counts::ByCountsView;
use money::money_view;
use serde::ser::SerializeStruct;
use serde::{Serialize, Serializer};
use statistic::statistic;
use std::io::{self, BufWriter, Write};
use view::{
    AsideView, AssessorView, DisputedView, LookView, OutlierView, PairView, PersonView, SlipView,
    StoryMoneyView, StoryView, TableView,
};

/// The whole comparison. Long lists are written as they are made: those of a large batch would not fit the memory.
#[derive(Debug, Clone, Copy)]
pub struct ComparisonView<'a>(pub &'a Compared<'a>);

/// A list whose entries are made as they are written.
struct Each<F>(F);

impl<I: IntoIterator<Item: Serialize>, F: Fn() -> I> Serialize for Each<F> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq((self.0)())
    }
}

impl Serialize for ComparisonView<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let compared = self.0;
        let comparison = compared.comparison;
        let pairs = || comparison.cars.iter().flat_map(|car| car.pairs.iter().map(move |pair| (car, pair)));
        let mut all_of_it = serializer.serialize_struct("Comparison", 14)?;
        all_of_it.serialize_field("format", &FORMAT)?;
        all_of_it.serialize_field("tool", TOOL)?;
        all_of_it.serialize_field("version", VERSION)?;
        all_of_it.serialize_field("direction", "first minus second, dents and amounts alike")?;
        all_of_it
            .serialize_field("assessors", &Each(|| comparison.assessors.iter().map(AssessorView::new)))?;
        all_of_it.serialize_field("overall", &pair_view(&comparison.overall, compared))?;
        all_of_it.serialize_field(
            "pairs",
            &Each(|| comparison.pairs.iter().map(|pair| pair_view(pair, compared))),
        )?;
        all_of_it.serialize_field(
            "statistics",
            &Each(|| all(compared).into_iter().map(|told| statistic(told, compared))),
        )?;
        all_of_it.serialize_field(
            "people",
            &Each(|| comparison.everyone.people.iter().map(|person| PersonView::new(person, compared))),
        )?;
        all_of_it.serialize_field(
            "stand_out",
            &Each(|| comparison.everyone.outliers.iter().map(|outlier| outlier_view(outlier, compared))),
        )?;
        all_of_it.serialize_field(
            "slips",
            &Each(|| {
                pairs().flat_map(|(car, pair)| {
                    pair.slips.iter().map(move |found| slip_view(car, pair, found, compared))
                })
            }),
        )?;
        all_of_it.serialize_field(
            "disputed",
            &Each(|| {
                comparison
                    .cars
                    .iter()
                    .flat_map(|car| car.disputed().map(move |panel| disputed_view(car, &panel, compared)))
            }),
        )?;
        all_of_it.serialize_field(
            "by_counts",
            &comparison.by_counts.as_ref().map(|by_counts| ByCountsView(by_counts, compared)),
        )?;
        all_of_it.serialize_field(
            "aside",
            &Each(|| {
                comparison.aside.iter().map(|aside| AsideView {
                    claim: &aside.key,
                    assessor: name(compared, aside.assessor),
                    reason: aside.why.words(),
                })
            }),
        )?;
        all_of_it.end()
    }
}

impl ComparisonView<'_> {
    /// Writes it as the bytes of a file.
    pub fn write_to(&self, to: impl Write) -> io::Result<()> {
        let mut to = BufWriter::with_capacity(1 << 16, to);
        serde_json::to_writer_pretty(&mut to, self)?;
        to.write_all(b"\n")?;
        to.flush()
    }
}

impl<'a> AssessorView<'a> {
    fn new(person: &'a Assessor) -> Self {
        Self {
            name: &person.name,
            is_reference: person.is_reference,
            looks: person.looks,
            repeat_counts: person.repeats,
        }
    }
}

impl<'a> PersonView<'a> {
    fn new(person: &'a PersonStanding, compared: &Compared<'a>) -> Self {
        Self {
            name: name(compared, person.assessor),
            says: &person.says,
            chance_with_false_discovery_held: person.paired.adjusted,
            round_digits: person.digits.map(digits),
            blanks_and_zeros: person.blanks.map(blanks),
            looks: person.looks,
            looks_with_blanks: person.looks_with_blanks,
        }
    }
}

fn outlier_view<'a>(outlier: &Outlier, compared: &Compared<'a>) -> OutlierView<'a> {
    let car = &compared.comparison.cars[outlier.car];
    let pair = &car.pairs[outlier.pair];
    OutlierView {
        claim: &car.key,
        first: name(compared, pair.first),
        second: name(compared, pair.second),
        dents: outlier.dents,
        robust_z: outlier.z,
        amount: outlier.money.map(text),
        currency: car.currency.code(),
    }
}

fn slip_view<'a>(
    car: &'a CarComparison,
    pair: &CarPair,
    found: &Suggestion,
    compared: &Compared<'a>,
) -> SlipView<'a> {
    SlipView {
        claim: &car.key,
        first: name(compared, pair.first),
        second: name(compared, pair.second),
        suggestion: slip(found),
        dents_before: found.before,
        dents_after: found.after,
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
    panel: &Disputed<'a>,
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
                counts: look.counts,
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
