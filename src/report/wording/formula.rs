use super::{amount, count_band, length, number, percent, rate, said, time_with_unit};
use crate::assess::{End, Formula, Shown, StepId};
use crate::report::words::Words;
use crate::schedule::Schedule;
use std::borrow::Cow;

/// A piece of how a step follows from others.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Piece {
    /// Our words and signs, with the spaces around them.
    Words(Cow<'static, str>),
    /// The value of another step.
    Step(StepId),
}

/// How a step follows from others, for a format to fill in their values.
pub fn formula(formula: &Formula) -> Vec<Piece> {
    let words = |text: &'static str| Piece::Words(Cow::Borrowed(text));
    let step = |id: &StepId| Piece::Step(*id);
    let joined = |ids: &[StepId], between: &'static str| -> Vec<Piece> {
        ids.iter()
            .enumerate()
            .flat_map(|(index, id)| (index > 0).then(|| words(between)).into_iter().chain([step(id)]))
            .collect()
    };
    let with = |before: &'static str, mut pieces: Vec<Piece>, after: &'static str| {
        if !before.is_empty() {
            pieces.insert(0, words(before));
        }
        if !after.is_empty() {
            pieces.push(words(after));
        }
        pieces
    };
    match formula {
        Formula::Read => vec![words("as written")],
        Formula::Sum(ids) if ids.is_empty() => vec![words("nothing to add")],
        Formula::Sum(ids) => joined(ids, " + "),
        Formula::Difference(a, b) => joined(&[*a, *b], " \u{2212} "),
        Formula::Negative(id) => with("", vec![step(id)], ", taken off"),
        Formula::Times { rate, by } => joined(&[*rate, *by], " \u{d7} "),
        Formula::PercentOf { percent, of } => joined(&[*percent, *of], " of "),
        Formula::Weighted(pairs) => {
            let products = pairs.iter().enumerate().map(|(index, (count, weight))| {
                with(if index > 0 { " + " } else { "" }, joined(&[*count, *weight], " \u{d7} "), "")
            });
            products.flatten().collect()
        }
        Formula::Scaled { count, part, whole, end } => {
            let before = match end {
                End::Best => "",
                End::Low => "lower 95 % limit (Poisson) of ",
                End::High => "upper 95 % limit (Poisson) of ",
            };
            let mut pieces = with(before, vec![step(count)], " \u{d7} ");
            pieces.extend(joined(&[*whole, *part], " / "));
            pieces
        }
        Formula::BandOf(id) => with("the row that holds ", vec![step(id)], ""),
        Formula::ChosenSize(_) => with("by the schedule's rule, from ", joined(&operands(formula), ", "), ""),
        Formula::GridCell { size, count } => with("rate at ", joined(&[*size, *count], ", count band "), ""),
        Formula::UpTo { floor: a, amount: b } | Formula::AtLeastZero(a, b) => {
            with("", joined(&[*a, *b], " \u{2212} "), ", at least 0")
        }
        Formula::DownTo { cap, amount } => with("", joined(&[*cap, *amount], " \u{2212} "), ", at most 0"),
        Formula::Between { low, high, at, from, to } => {
            let mut pieces = joined(&[*low, *high], " towards ");
            pieces.extend(with(", as ", vec![step(at)], " lies"));
            pieces.extend(with(" between ", joined(&[*from, *to], " and "), ""));
            pieces
        }
        Formula::Part { total, weights, index } => {
            let mut pieces = vec![
                Piece::Words(Cow::Owned(format!("part {} of ", index + 1))),
                step(total),
                words(", split by largest remainder over "),
            ];
            pieces.extend(joined(weights, ", "));
            pieces
        }
        Formula::ToStep { amount, step: to } => {
            with("", joined(&[*amount, *to], " to the nearest multiple of "), ", less the amount")
        }
        Formula::Smallest(ids) => with("the smallest of ", joined(ids, ", "), ", at least 0"),
    }
}

/// The steps that a formula works on, in the order in which [`formula`] names them.
pub fn operands(formula: &Formula) -> Vec<StepId> {
    match formula {
        Formula::Read => Vec::new(),
        Formula::Sum(ids) | Formula::Smallest(ids) => ids.clone(),
        Formula::ChosenSize(bands) => bands.iter().map(|(_, id)| *id).collect(),
        Formula::Negative(id) | Formula::BandOf(id) => vec![*id],
        Formula::Difference(a, b)
        | Formula::AtLeastZero(a, b)
        | Formula::Times { rate: a, by: b }
        | Formula::PercentOf { percent: a, of: b }
        | Formula::GridCell { size: a, count: b }
        | Formula::UpTo { floor: a, amount: b }
        | Formula::DownTo { cap: a, amount: b }
        | Formula::ToStep { amount: a, step: b } => vec![*a, *b],
        Formula::Scaled { count, part, whole, .. } => vec![*count, *whole, *part],
        Formula::Between { low, high, at, from, to } => vec![*low, *high, *at, *from, *to],
        Formula::Weighted(pairs) => pairs.iter().flat_map(|(count, weight)| [*count, *weight]).collect(),
        Formula::Part { total, weights, .. } => {
            std::iter::once(*total).chain(weights.iter().copied()).collect()
        }
    }
}

/// What came out of a step.
pub fn shown(shown: &Shown, schedule: &Schedule) -> String {
    match shown {
        Shown::Money(money) => amount(*money),
        Shown::Rate(of) => rate(*of),
        Shown::Count(count) => number((*count).into()),
        Shown::Weighted(weighted) => number(*weighted),
        Shown::Time(time) => time_with_unit(*time, schedule.terms.time_unit.value, Words::english()),
        Shown::Length(of) => length(*of),
        Shown::Area(area) => area.to_string(),
        Shown::Percent(of) => percent(*of),
        Shown::SizeBand(index) => {
            schedule.sizes.get(*index).map_or_else(String::new, |band| said(&band.name))
        }
        Shown::CountBand(index) => schedule.counts.get(*index).map_or_else(String::new, count_band),
        Shown::Word(word) => said(word),
    }
}
