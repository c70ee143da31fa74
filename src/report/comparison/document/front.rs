use super::super::by_counts::says;
use super::super::tables;
use super::five::{FrontFigure, dents, figures, lean, of_panels};
use super::names::{Sides, car_name};
use super::table::{Table, count, number, words as text};
use super::{Filling, adjudication, counted, figure, words};
use crate::compare::comparison::{ByCounts, MoneyByCause, PanelRef};
use crate::quantity::Money;
use crate::report::document::Entry;
use crate::report::wording::{amount, list, so_many};
use serde::Serialize;

/// With fewer cars than this every figure is told with a caution; common practice, no source.
const FEW_CARS: usize = 20;
/// With fewer panels, likewise.
const FEW_PANELS: usize = 50;
/// Panels to look at again that page one has room for.
const AGAIN: usize = 8;
/// Of these, panels that the summary names.
const AT_FIRST: usize = 3;

const NOTHING: &str = "Nothing: no amount differs.";

/// What the first page says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Front {
    /// How well they agree, in a sentence or two.
    pub agree: String,
    /// What it costs.
    pub costs: Vec<String>,
    /// The few panels to look at first.
    pub look: String,
    /// Both sums and their difference, by currency.
    pub sums: Vec<Sum>,
    /// That the numbers are small, where they are.
    pub small: Option<String>,
    /// The five figures.
    pub figures: Vec<FrontFigure>,
    /// The panels that carry most of the difference.
    pub again: Option<Table>,
    /// The money by cause, a table for each currency.
    pub causes: Vec<Table>,
}

/// Both sums in one currency.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Sum {
    /// ISO 4217 code.
    pub currency: &'static str,
    /// Whose.
    pub first_name: String,
    /// Of the first.
    pub first: String,
    /// Whose.
    pub second_name: String,
    /// Of the second.
    pub second: String,
    /// First minus second.
    pub difference: String,
    /// Panels in it.
    pub over: String,
}

pub(super) fn front(filling: &Filling<'_>) -> Front {
    let overall = &filling.comparison.overall;
    let sides = filling.sides(overall);
    let again = overall.money.iter().flat_map(|money| money.largest.iter().take(money.carry_most));
    let again: Vec<&PanelRef> = again.take(AGAIN).collect();
    if let Some(by_counts) =
        filling.comparison.by_counts.as_ref().filter(|_| filling.comparison.cars.is_empty())
    {
        return counts_alone(filling, by_counts, &sides);
    }
    let beside = filling.comparison.by_counts.as_ref().map(|by_counts| says(by_counts, false));
    let front =
        if filling.is_directed() { directed(filling, &sides, &again) } else { undirected(filling, &sides) };
    Front { costs: front.costs.into_iter().chain(beside).collect(), ..front }
}

/// Nothing is priced: no figure of money, of bands or of decisions.
fn counts_alone(filling: &Filling<'_>, by_counts: &ByCounts, sides: &Sides) -> Front {
    let named = counted::named(filling, AT_FIRST);
    let figures = figures(filling, sides);
    Front {
        agree: agree(filling, sides),
        costs: vec![says(by_counts, true)],
        look: if named.is_empty() {
            "Nothing: all counts are equal.".to_owned()
        } else {
            format!("{}.", named.join("; "))
        },
        sums: Vec::new(),
        small: small(filling.cars(), by_counts.overall.panels),
        figures,
        again: None,
        causes: Vec::new(),
    }
}

fn directed(filling: &Filling<'_>, sides: &Sides, again: &[&PanelRef]) -> Front {
    let overall = &filling.comparison.overall;
    Front {
        agree: agree(filling, sides),
        costs: if overall.money.is_empty() {
            vec!["No common panel is priced by both, so there is no difference in money.".to_owned()]
        } else {
            overall.money.iter().map(|money| costs(money, sides)).collect()
        },
        look: look(filling, again),
        sums: overall.money.iter().map(|money| sum(money, sides)).collect(),
        small: small(filling.comparison.cars.len(), overall.panels),
        figures: figures(filling, sides),
        again: again_table(filling, again, sides),
        causes: overall.money.iter().filter_map(|money| causes(money, Some(sides))).collect(),
    }
}

/// Of several pairs without a reference: which of two is first means nothing, so nothing is told by its sign.
fn undirected(filling: &Filling<'_>, sides: &Sides) -> Front {
    let overall = &filling.comparison.overall;
    let stakes = adjudication::first(filling);
    let named: Vec<String> = stakes
        .iter()
        .take(AT_FIRST)
        .map(|stake| format!("{}: {} ({} apart)", stake.car, stake.panel, stake.stake))
        .collect();
    let rows = stakes
        .iter()
        .take(AGAIN)
        .map(|stake| {
            vec![
                text(stake.car.clone()),
                text(stake.panel.clone()),
                number(stake.dents.clone()),
                number(stake.stake.clone()),
                text(stake.look.clone()),
            ]
        })
        .collect();
    let says = "The panels on which the highest and the lowest amount lie furthest apart.";
    let headings = ["Car", "Panel", "Dents, fewest to most#", "Apart#", "Look at"];
    let costs = overall.money.iter().map(|money| {
        let (code, panels) = (money.currency.code(), so_many(money.panels, "pair of counts", "pairs of counts"));
        let apart = amount(money.gross);
        format!("In {} of {panels} of a panel the amounts differ, by {apart} {code} when more and less are added up alike.", money.differing)
    });
    Front {
        agree: agree(filling, sides),
        costs: costs.collect(),
        look: if named.is_empty() { NOTHING.to_owned() } else { format!("{}.", named.join("; ")) },
        sums: Vec::new(),
        small: small(filling.comparison.cars.len(), overall.panels),
        figures: figures(filling, sides),
        again: Table::new("Look at these again", says, &headings, rows),
        causes: overall.money.iter().filter_map(|money| causes(money, None)).collect(),
    }
}

/// That there is little to go by.
pub(super) fn small(cars: usize, panels: usize) -> Option<String> {
    (cars < FEW_CARS || panels < FEW_PANELS).then(|| {
        format!(
            "Small numbers: {} on {}. The figures describe these cars; of the people who counted them they say little, and \
             the intervals show how little.",
            so_many(panels, "panel that both inspected", "panels that both inspected"),
            so_many(cars, "car", "cars")
        )
    })
}

fn agree(filling: &Filling<'_>, sides: &Sides) -> String {
    let page = &filling.comparison.overall.page_one;
    let mut said = Vec::new();
    if let Ok(same) = page.same_decision.value {
        said.push(format!("On {} both counts lead to the same repair.", of_panels(same)));
    }
    if let Ok(spread) = page.spread.value {
        said.push(if spread > 0.0 {
            format!("Half of the panel counts lie within {} of each other.", dents(spread))
        } else {
            "On half of the panels or more the counts are equal.".to_owned()
        });
    }
    if let Ok(bias) = page.bias.value {
        said.push(format!("{}.", lean(bias, &page.bias, sides)));
    }
    if said.is_empty() {
        return "No panel was inspected by both, so nothing can be said.".to_owned();
    }
    said.join(" ")
}

fn costs(money: &MoneyByCause, sides: &Sides) -> String {
    let code = money.currency.code();
    let (first, second) = (amount(money.first), amount(money.second));
    let over = so_many(money.panels, "panel", "panels");
    if money.differing == 0 {
        return format!("Nothing: {over} that both price come to the same amounts, {first} {code}.");
    }
    let (more, size) = match money.difference.minor() {
        0 => (None, String::new()),
        minor if minor > 0 => (Some(&sides.first), amount(money.difference)),
        _ => (Some(&sides.second), money.difference.negated().map_or_else(|_| String::new(), amount)),
    };
    let sum = match more {
        Some(who) => format!("Over {over}, {who} comes to {size} {code} more"),
        None => format!("Over {over} the sums are equal"),
    };
    let apart = amount(money.gross);
    format!(
        "{sum} ({first} against {second}). Amounts differ on {} of them, by {apart} {code} when more and less are added up \
         alike.",
        money.differing
    )
}

fn look(filling: &Filling<'_>, again: &[&PanelRef]) -> String {
    let named: Vec<String> = again
        .iter()
        .take(AT_FIRST)
        .filter_map(|panel| {
            let (car, _, _) = filling.of(panel)?;
            let (difference, code) = (figure::difference(panel.difference), car.currency.code());
            Some(format!("{}: {} ({difference} {code})", car_name(car), panel.panel))
        })
        .collect();
    match named.len() {
        0 => NOTHING.to_owned(),
        _ => format!("{}.", named.join("; ")),
    }
}

fn sum(money: &MoneyByCause, sides: &Sides) -> Sum {
    Sum {
        currency: money.currency.code(),
        first_name: sides.first.clone(),
        first: amount(money.first),
        second_name: sides.second.clone(),
        second: amount(money.second),
        difference: figure::difference(money.difference),
        over: over(money),
    }
}

fn over(money: &MoneyByCause) -> String {
    let open = match money.open {
        0 => String::new(),
        open => format!(", without {} left open", so_many(open, "panel", "panels")),
    };
    format!(
        "net, over {} on {} that both price{open}",
        so_many(money.panels, "panel", "panels"),
        so_many(money.cars, "car", "cars")
    )
}

fn again_table(filling: &Filling<'_>, again: &[&PanelRef], sides: &Sides) -> Option<Table> {
    let overall = &filling.comparison.overall;
    let rows = again
        .iter()
        .filter_map(|panel| {
            let (car, _, paired) = filling.of(panel)?;
            let money = |money: Option<Money>| money.map(|money| Entry::Number(amount(money)));
            Some(vec![
                text(car_name(car)),
                text(panel.panel.to_string()),
                number(paired.first.dents.to_string()),
                number(paired.second.dents.to_string()),
                money(paired.first.amount),
                money(paired.second.amount),
                number(figure::difference(panel.difference)),
                paired.turned.and_then(|turned| text(tables::turned(turned))),
            ])
        })
        .collect();
    let says: Vec<String> = overall
        .money
        .iter()
        .filter(|money| money.differing > 0)
        .map(|money| {
            format!(
                "Four fifths of all differences in {} lie on {} of {}.",
                money.currency.code(),
                money.carry_most,
                so_many(money.differing, "panel that differs", "panels that differ")
            )
        })
        .collect();
    let (first, second) = (&sides.first, &sides.second);
    let headings = [
        "Car".to_owned(),
        "Panel".to_owned(),
        format!("{first}, dents#"),
        format!("{second}, dents#"),
        format!("{first}, amount#"),
        format!("{second}, amount#"),
        "Difference#".to_owned(),
        "How".to_owned(),
    ];
    let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
    Table::new("Look at these again", says.join(" "), &headings, rows)
}

/// Money by cause; the net only where it has a direction.
pub(super) fn causes(money: &MoneyByCause, sides: Option<&Sides>) -> Option<Table> {
    if money.causes.is_empty() {
        return None;
    }
    let code = money.currency.code();
    let row = |name: &str, panels: Option<Entry>, net: Money, gross: Money| {
        let mut row = vec![text(name), panels];
        if sides.is_some() {
            row.push(number(figure::difference(net)));
        }
        row.push(number(amount(gross)));
        row
    };
    let mut rows: Vec<_> = money
        .causes
        .iter()
        .map(|of| row(words::cause(of.cause), count(of.panels), of.net, of.gross))
        .collect();
    rows.push(row("all panels", None, money.difference, money.gross));
    let ways: Vec<String> = money
        .turns
        .iter()
        .filter(|of| of.panels > 0)
        .map(|of| {
            let panels = so_many(of.panels, "panel", "panels");
            let net = if sides.is_some() { figure::difference(of.net) } else { amount(of.gross) };
            format!("{} on {panels} ({net})", tables::turned(of.turned))
        })
        .collect();
    let says = if ways.is_empty() { String::new() } else { format!("How it came about: {}.", list(&ways)) };
    let mut headings = vec!["What differs".to_owned(), "On panels#".to_owned()];
    headings.extend(sides.map(|sides| format!("{}, {code}#", sides.minus())));
    headings.push(format!("Without signs, {code}#"));
    let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
    Table::new("What it costs, by cause", says, &headings, rows)
}
