//! What a comparison prints: who and what was compared, the five figures, where the money differs, what to look at again.

use super::reception::Received;
use super::screen::{block, money_text, so_many};
use crate::compare::comparison::{MoneyByCause, PairAgreement};
use crate::compare::money::Cause;
use crate::compare::statistics::{Reason, Statistic};
use crate::problem::visible;
use crate::quantity::Money;
use crate::report::comparison::figure::{Figure, Shown};
use crate::report::comparison::tables::{blanks, digits, slip, turned};
use crate::report::comparison::{Compared, adjudication, by_counts};
use crate::report::run_record::RECORD;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;

/// Lines of each kind that are shown: all of them are in the output.
const KEEP: usize = 5;
/// Characters of a line that is filled up, without its label.
const WIDTH: usize = 84;

/// A comparison, ready to be shown.
pub struct ComparisonScreen<'a> {
    /// What came out.
    pub compared: &'a Compared<'a>,
    /// What was read.
    pub received: &'a Received,
    /// Where the output is.
    pub out: &'a Path,
}

impl ComparisonScreen<'_> {
    /// The screen.
    pub fn text(&self, width: Option<usize>) -> String {
        let mut out = String::new();
        let mut block = |label: &str, lines: &[String]| block(&mut out, label, lines, width);
        let overall = &self.compared.comparison.overall;
        block("Compared", &[self.what()]);
        block("People", &self.people());
        block("Agreement", &agreement(overall));
        let is_directed = overall.page_one.bias.value != Err(Reason::NoDirection);
        let amounts = overall.money.iter().flat_map(|of| money(of, is_directed));
        block("Money", &amounts.collect::<Vec<_>>());
        block("By counts", &self.by_counts());
        block("Look again", &self.look_again());
        block("May be slips", &self.slips());
        block("Stands out", &self.people_who_stand_out());
        block("Put aside", &self.aside());
        block("Written", &self.written());
        out
    }

    fn what(&self) -> String {
        let overall = &self.compared.comparison.overall;
        let comparison = self.compared.comparison;
        let counted = comparison.by_counts.as_ref().map_or(0, |by_counts| by_counts.cars.len());
        let cars = if comparison.cars.is_empty() { counted } else { comparison.cars.len() };
        let cars = so_many(cars as u64, "car");
        let mut line = format!("{cars} of {}, ", self.received.claims.len());
        let _ = write!(line, "{} that both inspected", so_many(overall.panels as u64, "panel"));
        if overall.unpaired > 0 {
            let _ = write!(line, ", {} that not both did", so_many(overall.unpaired as u64, "panel"));
        }
        line
    }

    /// What no schedule prices.
    fn by_counts(&self) -> Vec<String> {
        let comparison = self.compared.comparison;
        let Some(counted) = &comparison.by_counts else { return Vec::new() };
        let mut lines = vec![by_counts::says(counted, comparison.cars.is_empty())];
        let bands = counted.bands.iter().map(|of| {
            let (first, second) = (self.compared.name(of.between.0), self.compared.name(of.between.1));
            let difference = if of.lowest == of.highest {
                format!("{:+}", of.lowest)
            } else {
                format!("{:+} to {:+}", of.lowest, of.highest)
            };
            let over = so_many(of.panels as u64, "panel");
            visible(&format!(
                "{first} minus {second}, {}: {difference} dents over {over}",
                by_counts::band(&of.band)
            ))
        });
        lines.extend(kept(bands.collect(), "band"));
        lines
    }

    fn people(&self) -> Vec<String> {
        let comparison = self.compared.comparison;
        let pairs = comparison.pairs.iter().filter_map(|pair| {
            let (first, second) = pair.between?;
            let is_reference = comparison.assessors[first].is_reference;
            let reference = if is_reference { " (reference)" } else { "" };
            let (first, second) = (self.compared.name(first), self.compared.name(second));
            let cars = so_many(pair.cars as u64, "car");
            let mut line = visible(&format!("{first}{reference} minus {second}: {cars}"));
            if comparison.pairs.len() > 1 {
                let bias = Figure::new(&pair.page_one.bias, Shown::Difference(2));
                if let Ok(bias) = bias.value {
                    let _ = write!(line, ", {bias} dents a panel");
                }
                for money in &pair.money {
                    let amount = with_sign(money.difference);
                    let _ = write!(line, ", {amount} {}", money.currency.code());
                }
            }
            Some(line)
        });
        kept(pairs.collect(), "pair")
    }

    fn look_again(&self) -> Vec<String> {
        let comparison = self.compared.comparison;
        let mut lines = Vec::new();
        for panel in comparison.overall.money.iter().flat_map(|money| &money.largest).take(KEEP) {
            let car = &comparison.cars[panel.car];
            let schedule = &self.compared.run.schedules[car.schedule];
            let disputed = car.disputed().find(|disputed| disputed.panel == panel.panel);
            let what = disputed.map_or_else(String::new, |disputed| {
                format!("; {}", adjudication::again(disputed.recount, schedule))
            });
            let amount = with_sign(panel.difference);
            lines.push(visible(&format!(
                "{}, {}: {amount} {}{what}",
                car.key,
                panel.panel,
                car.currency.code()
            )));
        }
        lines
    }

    fn slips(&self) -> Vec<String> {
        let cars = self.compared.comparison.cars.iter();
        let found = cars.flat_map(|car| car.pairs.iter().map(move |pair| (car, pair)));
        let lines = found.flat_map(|(car, pair)| {
            pair.slips.iter().map(move |found| visible(&format!("{}: {}", car.key, slip(found))))
        });
        kept(lines.collect(), "suggestion")
    }

    fn people_who_stand_out(&self) -> Vec<String> {
        let comparison = self.compared.comparison;
        let mut lines = Vec::new();
        for person in &comparison.everyone.people {
            let name = self.compared.name(person.assessor);
            if person.paired.stands_out() {
                lines.push(visible(&format!("{name} {}", person.says)));
            }
            if let Some(rounded) = person.digits {
                lines.push(visible(&format!("{name}: {}", digits(rounded))));
            }
            if let Some(way) = person.blanks {
                lines.push(visible(&format!("{name} {}", blanks(way))));
            }
        }
        if lines.is_empty()
            && let Some(person) = comparison.everyone.people.first()
        {
            lines.push(person.says.clone());
        }
        lines
    }

    fn aside(&self) -> Vec<String> {
        let mut reasons: BTreeMap<String, usize> = BTreeMap::new();
        for look in &self.compared.comparison.aside {
            *reasons.entry(look.why.words()).or_default() += 1;
        }
        let mut reasons: Vec<(String, usize)> = reasons.into_iter().collect();
        reasons.sort_by(|a, b| b.1.cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
        let line = |(reason, looks): (String, usize)| {
            visible(&format!("{}: {reason}", so_many(looks as u64, "count")))
        };
        kept(reasons.into_iter().map(line).collect(), "reason")
    }

    fn written(&self) -> Vec<String> {
        let disputed: usize = self.compared.comparison.cars.iter().map(|car| car.to_agree.len()).sum();
        let mut lines = vec![visible(&self.out.display().to_string())];
        if disputed > 0 {
            let panels = so_many(disputed as u64, "panel");
            lines.push(format!(
                "{panels} to agree on: to_agree.xlsx, which assess reads when it is filled in"
            ));
        }
        lines.push(format!(
            "all numbers with their definitions: statistics.csv, comparison.json; files: {RECORD}"
        ));
        lines
    }
}

/// The first lines, and how many more there are.
fn kept(mut lines: Vec<String>, what: &str) -> Vec<String> {
    let more = lines.len().saturating_sub(KEEP);
    if more > 0 {
        lines.truncate(KEEP);
        lines.push(format!("and {} more", so_many(more as u64, what)));
    }
    lines
}

/// The five figures.
fn agreement(overall: &PairAgreement) -> Vec<String> {
    let page = &overall.page_one;
    let line = |label: &str, statistic: &Statistic, shown, unit: &str| {
        format!("{label:16}{}", Figure::new(statistic, shown).sentence(unit))
    };
    let mut lines = vec![
        line("bias", &page.bias, Shown::Difference(2), "dents a panel"),
        line("typical spread", &page.spread, Shown::Dents(1), "dents a panel"),
        line("same band", &page.same_band, Shown::Share, "of panels"),
        line("same decision", &page.same_decision, Shown::Share, "of panels"),
    ];
    for (currency, statistic) in &page.money {
        lines.push(line("money", statistic, Shown::Money(*currency), &format!("{} a car", currency.code())));
    }
    lines
}

/// How much, from what, and by what it came about. Amounts have signs only where first minus second is one direction.
fn money(money: &MoneyByCause, is_directed: bool) -> Vec<String> {
    let currency = money.currency.code();
    let sizes = format!(
        "{} {currency} without signs, on {} of {} panels that both price",
        money_text(money.gross),
        money.differing,
        money.panels,
    );
    let mut lines = vec![if is_directed {
        let (first, second) = (money_text(money.first), money_text(money.second));
        format!("{} {currency} in all: {first} against {second}; {sizes}", with_sign(money.difference))
    } else {
        format!("differences of {sizes}")
    }];
    let sum = |net: Money, gross: Money| if is_directed { with_sign(net) } else { money_text(gross) };
    let causes =
        money.causes.iter().filter(|of| !of.gross.is_zero()).map(|of| {
            format!("{} {}", of.cause.map_or("causes together", Cause::name), sum(of.net, of.gross))
        });
    let turns = money.turns.iter().map(|of| {
        let panels = so_many(of.panels as u64, "panel");
        format!("{} {} on {panels}", turned(of.turned), sum(of.net, of.gross))
    });
    let last = (!money.turns.is_empty()).then(|| {
        let carry = if money.carry_most == 1 { "carries" } else { "carry" };
        format!("{} of these panels {carry} four fifths", money.carry_most)
    });
    lines.extend(filled("by cause: ", causes));
    lines.extend(filled("by what changed: ", turns.chain(last)));
    lines
}

/// Parts one after the other, parted by commas, on lines of a readable length.
fn filled(label: &str, parts: impl Iterator<Item = String>) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for part in parts {
        match lines.last_mut() {
            Some(line) if line.len() + part.len() <= WIDTH => {
                let _ = write!(line, ", {part}");
            }
            Some(line) => {
                line.push(',');
                lines.push(format!("{:1$}{part}", "", label.len()));
            }
            None => lines.push(format!("{label}{part}")),
        }
    }
    lines
}

fn with_sign(money: Money) -> String {
    let text = money_text(money);
    if money.minor() > 0 { format!("+{text}") } else { text }
}
