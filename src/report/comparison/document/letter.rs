use super::names::car_name;
use super::table::{Table, number, words as text};
use super::{Filling, counted, figure, front, words};
use crate::compare::comparison::{MoneyByCause, PairAgreement};
use crate::report::wording::{amount, date, so_many};
use serde::Serialize;

/// The folder of the letters, where there are several.
pub const LETTERS: &str = "letters";
/// Panels that the letter lists.
const LISTED: usize = 10;

/// A letter of differences between two counts, one page, in neutral words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Letter {
    /// Its file among several: by the numbers of the two, `letters/01-02.html`.
    pub file: String,
    /// Whose counts.
    pub first: String,
    /// And whose.
    pub second: String,
    /// The date of the run, where one was given.
    pub date: Option<String>,
    /// What it is about.
    pub subject: String,
    /// What was compared and what came out.
    pub paragraphs: Vec<String>,
    /// The largest differences.
    pub panels: Vec<Table>,
    /// What is asked for.
    pub asks: String,
    /// What this does not say.
    pub fair: &'static str,
    /// That numbers are small.
    pub small: Option<String>,
}

/// One letter for each pair of assessors.
pub(super) fn letters(filling: &Filling<'_>) -> Vec<Letter> {
    filling.comparison.pairs.iter().map(|agreement| letter(filling, agreement)).collect()
}

fn letter(filling: &Filling<'_>, agreement: &PairAgreement) -> Letter {
    let sides = filling.sides(agreement);
    let (first, second) = (sides.first.clone(), sides.second.clone());
    let is_priced = !filling.comparison.cars.is_empty();
    let rated = if is_priced {
        "both counts were rated by the same schedule"
    } else {
        "dents alone are compared, for no schedule prices these counts"
    };
    let mut paragraphs = vec![format!(
        "{first} and {second} each counted the same {}. Both inspected {}, and {rated}.",
        if agreement.cars == 1 { "car".to_owned() } else { so_many(agreement.cars, "car", "cars") },
        so_many(agreement.panels, "panel", "panels")
    )];
    paragraphs.extend(agreement.money.iter().map(|money| sums(money, &first, &second)));
    if agreement.money.is_empty() && is_priced {
        paragraphs.push("No panel is priced in both counts, so amounts cannot be compared.".to_owned());
    }
    if agreement.unpaired > 0 {
        paragraphs.push(format!(
            "Not compared, as not both inspected them: {}.",
            so_many(agreement.unpaired, "panel", "panels")
        ));
    }
    let (one, other) = agreement.between.unwrap_or((0, 1));
    let of_money = agreement.money.iter().filter_map(|money| listed(filling, money, &first, &second));
    let of_counts = if is_priced { None } else { counted::of_letter(filling, (one, other)) };
    let panels: Vec<Table> = of_money.chain(of_counts).collect();
    Letter {
        file: format!("{LETTERS}/{:02}-{:02}.html", one + 1, other + 1),
        date: filling.imprint.run_date.map(date),
        subject: format!("Differences between two counts, {}", so_many(agreement.cars, "car", "cars")),
        paragraphs,
        asks: if panels.is_empty() {
            "There is nothing to be agreed.".to_owned()
        } else {
            let sheet = "Proposed counts and what to look at stand on the sheet that goes with this letter.";
            let asks = "We suggest that both look at these panels again, together where that can be done, and agree on a count.";
            if is_priced { format!("{asks} {sheet}") } else { asks.to_owned() }
        },
        panels,
        fair: words::FAIR,
        small: front::small(agreement.cars, agreement.panels),
        first,
        second,
    }
}

fn sums(money: &MoneyByCause, first: &str, second: &str) -> String {
    let code = money.currency.code();
    if money.differing == 0 {
        return format!("All {} come to the same amounts.", so_many(money.panels, "panel", "panels"));
    }
    let causes: Vec<String> = money
        .causes
        .iter()
        .filter(|of| of.gross.minor() != 0)
        .map(|of| format!("{} ({})", words::cause(of.cause), figure::difference(of.net)))
        .collect();
    format!(
        "On {} of {} that both price, amounts differ. {first} comes to {} {code}, {second} to {} {code}, a difference of {} \
         {code} ({first} minus {second}), net and before what belongs to the whole car. It comes from: {}.",
        money.differing,
        so_many(money.panels, "panel", "panels"),
        amount(money.first),
        amount(money.second),
        figure::difference(money.difference),
        causes.join("; ")
    )
}

fn listed(filling: &Filling<'_>, money: &MoneyByCause, first: &str, second: &str) -> Option<Table> {
    let rows = money
        .largest
        .iter()
        .take(LISTED)
        .filter_map(|panel| {
            let (car, _, paired) = filling.of(panel)?;
            Some(vec![
                text(car_name(car)),
                text(panel.panel.to_string()),
                number(paired.first.dents.to_string()),
                number(paired.second.dents.to_string()),
                paired.first.amount.and_then(|money| number(amount(money))),
                paired.second.amount.and_then(|money| number(amount(money))),
                number(figure::difference(panel.difference)),
            ])
        })
        .collect();
    let headings = [
        "Car".to_owned(),
        "Panel".to_owned(),
        format!("{first}, dents#"),
        format!("{second}, dents#"),
        format!("{first}, {}#", money.currency.code()),
        format!("{second}, {}#", money.currency.code()),
        "Difference#".to_owned(),
    ];
    let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
    let says = format!(
        "The {} with the largest differences.",
        so_many(LISTED.min(money.differing), "panel", "panels")
    );
    Table::new("Panels to look at together", says, &headings, rows)
}
