//! The dents of a panel by the four mixed-size rules: which bands they are rated at, and what the grid gives there.

use super::cells::Cells;
use super::desk::{Desk, OrStop};
use super::draft::Draft;
use super::{Formula, Line, LineKind, Recorder, Rule, Shown, SizeCount, StepId, Unpriced};
use crate::claim::Place;
use crate::problem::Problem;
use crate::quantity::{Decimal, Money, Percent, exact};
use crate::schedule::{GroupId, LabourClass, MixedRule, Schedule, SizeBand, TaxOn};

/// Decimals of a weight that are kept.
pub(super) const WEIGHT_DIGITS: u32 = 9;

/// What is rated at one place of the grid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Number {
    /// Dents.
    Dents(u32),
    /// Dents weighted into equivalents.
    Equivalents(Decimal),
}

/// A place in the grid, and what is rated there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    /// Size band.
    pub size: usize,
    /// Count band.
    pub count: usize,
    /// How many.
    pub number: Number,
}

/// The count band of a number of dents: the first whose top is not below it.
fn count_band(schedule: &Schedule, dents: u32) -> Option<usize> {
    schedule.counts.iter().position(|band| band.to.is_none_or(|most| dents <= most))
}

/// Dents x weight, added exactly; none where a weight is missing or the sum goes beyond every count.
fn equivalents(sizes: &[SizeBand], dents: impl Fn(usize) -> u32) -> Option<Decimal> {
    let mut sum = 0_i128;
    for (index, band) in sizes.iter().enumerate() {
        let number = dents(index);
        if number > 0 {
            let weight = exact(band.weight?, WEIGHT_DIGITS).ok()?;
            sum = sum.checked_add(i128::from(number) * i128::from(weight))?;
        }
    }
    Decimal::try_from_i128_with_scale(sum, WEIGHT_DIGITS).ok().map(|sum| sum.normalize())
}

/// The size band that one rule for the whole panel names.
fn chosen_size(sizes: usize, share: Option<Percent>, dents: impl Fn(usize) -> u32) -> usize {
    let Some(share) = share else {
        // Most frequent; a tie goes to the larger.
        return (0..sizes).max_by_key(|size| dents(*size)).unwrap_or(0);
    };
    let all: u64 = (0..sizes).map(|size| u64::from(dents(size))).sum();
    let mut this_or_larger = 0_u64;
    for size in (0..sizes).rev() {
        this_or_larger += u64::from(dents(size));
        let needed = i128::from(share.micro()) * i128::from(all);
        let reached = i128::from(this_or_larger) * 100 * i128::from(Percent::MICRO) >= needed;
        if this_or_larger > 0 && reached {
            return size;
        }
    }
    0
}

/// Where all dents of a panel are rated together; `None` under the rule that rates each band by itself.
fn spot_of_all(schedule: &Schedule, dents: impl Fn(usize) -> u32) -> Option<Result<Spot, Unpriced>> {
    let sizes = schedule.sizes.len();
    let share = match schedule.terms.mixed.value {
        MixedRule::EachBand => return None,
        MixedRule::Equivalents(size) => {
            let spot = equivalents(&schedule.sizes, dents).and_then(|weighted| {
                let holds = |most: u32| weighted <= Decimal::from(most);
                let count = schedule.counts.iter().position(|band| band.to.is_none_or(holds))?;
                Some(Spot { size, count, number: Number::Equivalents(weighted) })
            });
            return Some(spot.ok_or(Unpriced::BeyondCounts));
        }
        MixedRule::MostFrequent => None,
        MixedRule::LargestShare(share) => Some(share),
    };
    let size = chosen_size(sizes, share, &dents);
    let all = (0..sizes).fold(0_u32, |sum, size| sum.saturating_add(dents(size)));
    let spot = count_band(schedule, all).map(|count| Spot { size, count, number: Number::Dents(all) });
    Some(spot.ok_or(Unpriced::BeyondCounts))
}

/// The base amount of a panel with these dents, where one rule rates them together and the grid has a price there.
/// For asking what one more dent would change; nothing is recorded.
pub(super) fn amount_of_all(
    schedule: &Schedule,
    group: GroupId,
    dents: impl Fn(usize) -> u32,
) -> Option<Money> {
    let spot = spot_of_all(schedule, dents)?.ok()?;
    let cells = Cells::at(schedule, group, spot)?;
    cells.priced(schedule, spot.number).ok()?.map(|(_, amount)| amount)
}

/// Adds the lines of a panel's dents. Returns the bands the whole panel is rated at, where the rule names them.
pub(super) fn dents<R: Recorder>(
    desk: &mut Desk<'_, R>,
    draft: &mut Draft,
    group: GroupId,
    counts: &[SizeCount],
    place: Place,
) -> Result<Option<(usize, usize)>, Problem> {
    let schedule = desk.schedule;
    if counts.iter().all(|count| count.dents() == 0) {
        return Ok(None);
    }
    match spot_of_all(schedule, |size| counts[size].dents()) {
        Some(Ok(spot)) => {
            let steps = steps_of_all(desk, spot, counts);
            line(desk, draft, group, spot, steps, place)?;
            Ok(Some((spot.size, spot.count)))
        }
        Some(Err(why)) => {
            draft.miss(why);
            Ok(None)
        }
        None => {
            for (size, number) in counts.iter().map(SizeCount::dents).enumerate().filter(|(_, n)| *n > 0) {
                let Some(count) = count_band(schedule, number) else {
                    draft.miss(Unpriced::BeyondCounts);
                    continue;
                };
                let spot = Spot { size, count, number: Number::Dents(number) };
                let number_step = desk.band_steps.get(size).copied().unwrap_or(StepId::NONE);
                let size_step = desk.term(schedule.sizes[size].place, Shown::SizeBand(size));
                let steps = SpotSteps { number: number_step, size: size_step };
                line(desk, draft, group, spot, steps, place)?;
            }
            Ok(None)
        }
    }
}

/// Steps of what is rated and of the size band; that of the count band follows from the number.
#[derive(Clone, Copy)]
pub(super) struct SpotSteps {
    pub number: StepId,
    pub size: StepId,
}

fn steps_of_all<R: Recorder>(desk: &mut Desk<'_, R>, spot: Spot, counts: &[SizeCount]) -> SpotSteps {
    if !R::KEEPS {
        return SpotSteps { number: StepId::NONE, size: StepId::NONE };
    }
    let mixed = desk.schedule.terms.mixed.place;
    let bands = desk.band_steps.clone();
    match spot.number {
        Number::Equivalents(weighted) => {
            let mut pairs = Vec::new();
            for (index, band) in desk.schedule.sizes.iter().enumerate() {
                if let (Some(weight), true) = (band.weight, counts[index].dents() > 0) {
                    pairs.push((bands[index], desk.term(band.place, weight)));
                }
            }
            let number = desk.step(Rule::EquivalentDents, weighted, || Formula::Weighted(pairs));
            let size = desk.term(mixed, Shown::SizeBand(spot.size));
            SpotSteps { number, size }
        }
        Number::Dents(dents) => {
            let written: Vec<(usize, StepId)> =
                bands.into_iter().enumerate().filter(|(_, step)| *step != StepId::NONE).collect();
            let all = || written.iter().map(|(_, step)| *step).collect();
            let number = desk.step(Rule::DentsOfPanel, dents, || Formula::Sum(all()));
            let cells: Vec<Place> = std::iter::once(mixed).chain(desk.schedule.terms.mixed_share).collect();
            let size = desk.step_at(Rule::RatedSize, &cells, Shown::SizeBand(spot.size), || {
                Formula::ChosenSize(written)
            });
            SpotSteps { number, size }
        }
    }
}

/// The line of one place in the grid.
fn line<R: Recorder>(
    desk: &mut Desk<'_, R>,
    draft: &mut Draft,
    group: GroupId,
    spot: Spot,
    steps: SpotSteps,
    place: Place,
) -> Result<(), Problem> {
    let schedule = desk.schedule;
    let Spot { size, count, number } = spot;
    let Some(cells) = Cells::at(schedule, group, spot) else {
        draft.miss(Unpriced::NoGridCell { size, count });
        return Ok(());
    };
    let Some((time, amount)) = cells.priced(schedule, number).or_stop(place)? else {
        draft.miss(Unpriced::NoLabourRate);
        return Ok(());
    };
    let step = cells.record(desk, spot, steps, (time, amount));
    let kind = match number {
        Number::Dents(dents) => LineKind::Dents { size, count, dents },
        Number::Equivalents(equivalents) => LineKind::Equivalents { size, count, equivalents },
    };
    let hours = time.map(|time| (LabourClass::Paintless, time));
    let tax = desk.tax_rate(TaxOn::Labour);
    draft.lines.push(Line { kind, amount, hours, tax, cite: Some(cells.own.place), step });
    Ok(())
}
