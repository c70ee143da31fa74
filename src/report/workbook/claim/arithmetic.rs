//! Steps of a working as formulas of a spreadsheet, with plain references.

use super::plan::{
    Block, CLAIM, FIRST_BAND, FIRST_SIZE, Plan, RATES, WEIGHTS, column, count_cell, name, range,
};
use super::rounding::{guard, guarded, in_units, quotient, whole};
use crate::assess::{Formula, Rule, Shown, Step, StepId};
use crate::quantity::{Decimal, Rounding};
use crate::schedule::{MixedRule, Price};
use rust_xlsxwriter::{ColNum, RowNum};

/// Longest formula that spreadsheets take, less some room.
const LONGEST: usize = 8_000;
/// Most arguments of a function.
const ARGUMENTS: usize = 200;

/// What stands in the cell of a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Content {
    /// What was written: nothing to compute.
    Written,
    /// A formula, without its equals sign.
    Formula(String),
    /// A result that a spreadsheet does not compute.
    Stays,
}

/// The content of a step's cell.
pub(super) fn content(plan: &Plan<'_>, step: &Step) -> Content {
    match &step.formula {
        Formula::Read => Content::Written,
        Formula::Sum(ids) if ids.is_empty() => Content::Written,
        _ => Arithmetic::of(plan)
            .formula(step)
            .filter(|formula| formula.len() < LONGEST)
            .map_or(Content::Stays, Content::Formula),
    }
}

/// The block of the grid that a step looks into.
pub(super) fn grid_cell(plan: &Plan<'_>, id: StepId) -> Option<Block> {
    let Formula::GridCell { size, count } = &plan.step(id)?.formula else { return None };
    let (size, number) = (band(plan, *size)?, band(plan, *count)?);
    let panel = &plan.subject.assessment.panels[plan.panel_of(&[*count])?];
    let group = panel.group?;
    let cell = plan.subject.schedule.grid.get(group, size, number)?;
    Some((group, matches!(cell.price, Price::Time(_)), cell.per))
}

fn band(plan: &Plan<'_>, id: StepId) -> Option<usize> {
    match plan.step(id)?.result {
        Shown::SizeBand(band) | Shown::CountBand(band) => Some(band),
        _ => None,
    }
}

/// The exact share of a part of a split, in minor units, and its value.
pub(super) fn share(plan: &Plan<'_>, id: StepId, index: usize) -> Option<(String, String)> {
    let Formula::Part { total, weights, .. } = &plan.step(id)?.formula else { return None };
    let all: i64 =
        weights.iter().map(|id| plan.minor(*id).map(|weight| weight.max(0))).sum::<Option<i64>>()?;
    let (total_minor, weight) = (plan.minor(*total)?, plan.minor(*weights.get(index)?)?.max(0));
    // Shares differ by no less than one part in all weights.
    let digits = guard(all.checked_ilog10()? + 2, total_minor)?;
    let arithmetic = Arithmetic::of(plan);
    let minor =
        |id: &StepId| arithmetic.at(*id).map(|cell| format!("ROUND(MAX(0,{cell})*{},0)", arithmetic.parts));
    let sum = weights.iter().map(minor).collect::<Option<Vec<_>>>()?.join("+");
    let total = format!("ROUND(ABS({})*{},0)", arithmetic.at(*total)?, arithmetic.parts);
    let formula = guarded(&format!("{total}*{}/MAX(1,{sum})", minor(weights.get(index)?)?), digits);
    let exact = i128::from(total_minor.unsigned_abs()) * i128::from(weight);
    Some((formula, quotient(exact, all.into())))
}

impl Plan<'_> {
    /// The minor units of an amount.
    fn minor(&self, id: StepId) -> Option<i64> {
        match self.step(id)?.result {
            Shown::Money(money) => Some(money.minor()),
            _ => None,
        }
    }
}

struct Arithmetic<'p, 'a> {
    plan: &'p Plan<'a>,
    rounding: Rounding,
    /// Decimals of the currency, and minor units in one of it.
    decimals: u32,
    parts: i64,
}

impl<'p, 'a> Arithmetic<'p, 'a> {
    fn of(plan: &'p Plan<'a>) -> Self {
        let decimals = plan.subject.assessment.currency.decimals();
        let rounding = plan.subject.schedule.terms.rounding.value;
        Self { plan, rounding, decimals, parts: 10_i64.saturating_pow(decimals) }
    }

    fn at(&self, id: StepId) -> Option<String> {
        self.plan.at(id)
    }

    fn step(&self, id: StepId) -> Option<&'a Step> {
        self.plan.step(id)
    }

    fn formula(&self, step: &Step) -> Option<String> {
        if step.rule == Rule::ScreenLimit {
            // It is rounded by how it is compared, which is a decision.
            return None;
        }
        let is_of_the_grid = matches!(step.rule, Rule::Base | Rule::LabourTime)
            || matches!(step.formula, Formula::GridCell { .. } | Formula::Between { .. });
        if is_of_the_grid && self.plan.subject.schedule.terms.is_interpolated() {
            // Which two cells it lies between would change with the count.
            return None;
        }
        match (&step.formula, &step.result) {
            (Formula::Sum(_), Shown::Count(_)) if step.rule == Rule::DentsOfPanel => {
                Some(format!("SUM({})", self.plan.counts_of(self.plan.whole_row(step)?)))
            }
            (Formula::Sum(ids), Shown::Money(_)) => self.sum(step.rule, ids),
            (Formula::Difference(a, b), Shown::Money(_)) => {
                Some(self.kept(&format!("{}-{}", self.at(*a)?, self.at(*b)?)))
            }
            (Formula::Negative(id), Shown::Money(_)) => Some(format!("-{}", self.at(*id)?)),
            (Formula::Times { rate, by }, _) => self.times(*rate, *by, &step.result),
            (Formula::PercentOf { percent, of }, Shown::Money(money)) => {
                let Shown::Percent(value) = self.step(*percent)?.result else { return None };
                let needed = 2 + value.to_decimal().normalize().scale();
                let exact = format!("{}%*{}*{}", self.at(*percent)?, self.at(*of)?, self.parts);
                self.rounded(&exact, needed, money.minor())
            }
            (Formula::Weighted(_), Shown::Weighted(_)) => {
                let counts = self.plan.counts_of(self.plan.whole_row(step)?);
                Some(format!("ROUND(SUMPRODUCT({counts},{}),9)", self.sizes(WEIGHTS)))
            }
            (Formula::BandOf(number), Shown::CountBand(_)) => self.count_band(*number),
            (Formula::ChosenSize(_), Shown::SizeBand(_)) => self.chosen_size(step),
            (Formula::GridCell { size, count }, result) => self.grid(*size, *count, result),
            (Formula::UpTo { floor: a, amount: b }, Shown::Money(_)) => {
                Some(self.kept(&format!("MAX({0},{1})-{1}", self.at(*a)?, self.at(*b)?)))
            }
            (Formula::DownTo { cap: a, amount: b }, Shown::Money(_)) => {
                Some(self.kept(&format!("MIN({0},{1})-{1}", self.at(*a)?, self.at(*b)?)))
            }
            (Formula::AtLeastZero(a, b), Shown::Money(_)) => {
                Some(format!("MAX(0,{})", self.kept(&format!("{}-{}", self.at(*a)?, self.at(*b)?))))
            }
            (Formula::Smallest(ids), Shown::Money(_)) => {
                let cells = ids.iter().map(|id| self.at(*id)).collect::<Option<Vec<_>>>()?;
                Some(format!("MAX(0,MIN({}))", cells.join(",")))
            }
            (Formula::Part { total, weights, index }, Shown::Money(_)) => self.part(*total, weights, *index),
            (Formula::ToStep { amount, step }, Shown::Money(_)) => {
                let (amount_minor, step_minor) = (self.plan.minor(*amount)?, self.plan.minor(*step)?);
                let needed = step_minor.checked_ilog10()? + 2;
                let decimals = guard(needed, amount_minor / step_minor.max(1))?;
                let (amount, step) = (self.at(*amount)?, self.at(*step)?);
                let steps = whole(self.rounding, &guarded(&format!("{amount}/{step}"), decimals));
                Some(self.kept(&format!("{steps}*{step}-{amount}")))
            }
            // A rule without a formula here: its result stands as a value and says so.
            _ => None,
        }
    }

    /// Sums and differences of amounts, without what floats leave behind.
    fn kept(&self, value: &str) -> String {
        format!("ROUND({value},{})", self.decimals)
    }

    /// A value in minor units, rounded once.
    fn rounded(&self, minor: &str, needed: u32, result: i64) -> Option<String> {
        let value = guarded(minor, guard(needed, result)?);
        Some(in_units(&whole(self.rounding, &value), self.parts))
    }

    fn sum(&self, rule: Rule, ids: &[StepId]) -> Option<String> {
        let cells = match rule {
            Rule::Net | Rule::NetBeforeMinimum | Rule::Taxable => {
                let cells = ids.iter().map(|id| self.plan.line_at(*id)).collect::<Option<Vec<_>>>()?;
                runs(cells)
                    .into_iter()
                    .map(|(first, last)| {
                        let cells = if first == last { name(first) } else { range(first, last) };
                        format!("{CLAIM}!{cells}")
                    })
                    .collect()
            }
            _ => ids.iter().map(|id| self.at(*id)).collect::<Option<Vec<_>>>()?,
        };
        let sums: Vec<String> =
            cells.chunks(ARGUMENTS).map(|some| format!("SUM({})", some.join(","))).collect();
        Some(self.kept(&sums.join("+")))
    }

    fn times(&self, rate: StepId, by: StepId, result: &Shown) -> Option<String> {
        let (each, number) = (self.step(rate)?, self.step(by)?);
        let (rate, by) = (self.at(rate)?, self.at(by)?);
        match (&each.result, &number.result, result) {
            (Shown::Rate(per), factor, Shown::Money(money)) => {
                let finer = per.to_decimal().normalize().scale().saturating_sub(self.decimals);
                let needed = match factor {
                    Shown::Count(_) => finer,
                    Shown::Weighted(number) => finer + number.normalize().scale(),
                    // A second of an hour: the result is nearer to no tie than 1/7200 of a minor unit.
                    Shown::Time(_) => finer + 5,
                    _ => return None,
                };
                self.rounded(&format!("{rate}*{by}*{}", self.parts), needed, money.minor())
            }
            (Shown::Time(_), factor, Shown::Time(time)) => {
                let unit = self.plan.subject.schedule.terms.time_unit.value.seconds();
                let needed = match factor {
                    Shown::Count(_) => 5,
                    Shown::Weighted(number) => 5 + number.normalize().scale(),
                    _ => return None,
                };
                let units = 3600 / unit.max(1);
                let exact = if units == 1 { format!("{rate}*{by}") } else { format!("{rate}*{units}*{by}") };
                let value = guarded(&exact, guard(needed, time.seconds() / unit.max(1))?);
                Some(in_units(&whole(self.rounding, &value), units))
            }
            _ => None,
        }
    }

    /// A row of the sheet of rates, over all size bands.
    fn sizes(&self, row: RowNum) -> String {
        let last = FIRST_SIZE + column(self.plan.subject.schedule.sizes.len()).saturating_sub(1);
        format!("{RATES}!{}", range((row, FIRST_SIZE), (row, last)))
    }

    /// The first band whose top is not below the number; none above the last top.
    fn count_band(&self, number: StepId) -> Option<String> {
        const TOP: ColNum = 2;
        let number = self.at(number)?;
        let counts = &self.plan.subject.schedule.counts;
        let closed = counts.iter().take_while(|band| band.to.is_some()).count();
        if closed == 0 {
            return Some("1".to_owned());
        }
        let last = (FIRST_BAND + RowNum::try_from(closed).ok()?.checked_sub(1)?, TOP);
        let tops = format!("{RATES}!{}", range((FIRST_BAND, TOP), last));
        let band = format!("1+SUMPRODUCT(({tops}<{number})*1)");
        Some(if closed == counts.len() {
            format!("IF({number}>{RATES}!{},NA(),{band})", name(last))
        } else {
            band
        })
    }

    /// The size band that the rule for the whole panel names, by its number; the first where there are no dents.
    fn chosen_size(&self, step: &Step) -> Option<String> {
        let panel = self.plan.whole_row(step)?;
        let all = self.plan.counts_of(panel);
        let sizes = self.plan.subject.schedule.sizes.len();
        let share = match self.plan.subject.schedule.terms.mixed.value {
            MixedRule::MostFrequent => {
                let column = |cells: &str| format!("COLUMN({cells})");
                let first = name(count_cell(panel, 0));
                let number = format!("({}-COLUMN({first})+1)", column(&all));
                return Some(format!("SUMPRODUCT(MAX(({all}=MAX({all}))*{number}))"));
            }
            MixedRule::LargestShare(share) => share.to_decimal().normalize(),
            MixedRule::EachBand | MixedRule::Equivalents(_) => return None,
        };
        let last = count_cell(panel, sizes.checked_sub(1)?);
        let reached = (1..sizes).map(|size| {
            let sheet = all.split_once('!').map_or("", |(sheet, _)| sheet);
            let these = format!("SUM({sheet}!{})", range(count_cell(panel, size), last));
            let enough = if share == Decimal::ZERO {
                String::new()
            } else {
                format!(",{these}*100>={share}*SUM({all})")
            };
            format!("IF(AND({these}>0{enough}),{},1)", size + 1)
        });
        let reached: Vec<String> = reached.collect();
        Some(if reached.is_empty() { "1".to_owned() } else { format!("MAX({})", reached.join(",")) })
    }

    fn grid(&self, size: StepId, count: StepId, result: &Shown) -> Option<String> {
        let schedule = self.plan.subject.schedule;
        let panel = self.plan.panel_of(&[count])?;
        let group = self.plan.subject.assessment.panels[panel].group?;
        let cell = schedule.grid.get(group, band(self.plan, size)?, band(self.plan, count)?)?;
        let block = (group, matches!(cell.price, Price::Time(_)), cell.per);
        let top = self.plan.block(block)? + 1;
        let last_row = top + RowNum::try_from(schedule.counts.len()).ok()?.checked_sub(1)?;
        let last = FIRST_SIZE + column(schedule.sizes.len()).checked_sub(1)?;
        let cells = format!("{RATES}!{}", range((top, FIRST_SIZE), (last_row, last)));
        let (size, band) = (self.at(size)?, self.at(count)?);
        let found = format!("INDEX({cells},{band},{size})");
        // No dents cost nothing; a blank cell has no price.
        let Formula::BandOf(number) = self.step(count)?.formula else { return None };
        let given = format!("IF({}=0,0,IF({found}=\"\",NA(),{found}))", self.at(number)?);
        match (result, cell.price) {
            (Shown::Money(money), Price::Amount(rate)) => {
                let needed = rate.to_decimal().normalize().scale().saturating_sub(self.decimals);
                self.rounded(&format!("{given}*{}", self.parts), needed, money.minor())
            }
            (Shown::Rate(_), Price::Amount(_)) | (Shown::Time(_), Price::Time(_)) => Some(given),
            _ => None,
        }
    }

    /// The whole of a part's share, and one unit more for those with the largest rests, of equal ones the first.
    fn part(&self, total: StepId, weights: &[StepId], index: usize) -> Option<String> {
        let cell = self.at(total)?;
        if weights.len() < 2 {
            return Some(cell);
        }
        let shares: Vec<String> =
            (0..weights.len()).map(|index| self.plan.share_at(total, index)).collect::<Option<_>>()?;
        for index in 0..weights.len() {
            share(self.plan, self.plan.part_of(total)?, index)?;
        }
        let rest = |share: &str| format!("({share}-INT({share}))");
        let mine = shares.get(index)?;
        let before = shares.iter().enumerate().filter(|(other, _)| *other != index).map(|(other, share)| {
            let sign = if other < index { ">=" } else { ">" };
            format!("IF(ROUND({}-{},8){sign}0,1,0)", rest(share), rest(mine))
        });
        let before = before.collect::<Vec<_>>().join("+");
        let given = shares.iter().map(|share| format!("INT({share})")).collect::<Vec<_>>().join("-");
        let left = format!("ROUND(ABS({cell})*{},0)-{given}", self.parts);
        let whole = format!("INT({mine})+IF({before}<{left},1,0)");
        Some(in_units(&format!("SIGN({cell})*({whole})"), self.parts))
    }
}

impl Plan<'_> {
    /// A step that is a part of this split.
    fn part_of(&self, total: StepId) -> Option<StepId> {
        let is_part = |step: &&Step| matches!(&step.formula, Formula::Part { total: of, .. } if *of == total);
        let index = self.steps.iter().position(|step| is_part(&step))?;
        u32::try_from(index).ok().map(StepId)
    }
}

type Cell = (RowNum, ColNum);

/// Cells of one column as runs from first to last.
fn runs(mut cells: Vec<Cell>) -> Vec<(Cell, Cell)> {
    cells.sort_unstable();
    cells
        .chunk_by(|before, after| before.0 + 1 == after.0)
        .filter_map(|run| Some((*run.first()?, *run.last()?)))
        .collect()
}
