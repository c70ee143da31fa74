mod discount;
mod marks;
mod total_loss;

use super::names::{Once, unknown_among};
use super::units::{Sign, Units, percent};
use crate::claim::words::{Named, folded};
use crate::problem::{Located, Place, Problem, catalogue::schedule as words, nearest};
use crate::quantity::{Currency, Date, Decimal, DecimalMark, Money, Percent, Rounding, TimeUnit};
use crate::schedule::bands::label;
use crate::schedule::raw::{
    Raw, RawTerm, parse_date, parse_free_text, parse_number, parse_percent, parse_text, parse_whole,
    parse_yes_no,
};
use crate::schedule::{Fit, MixedRule, SizeBand, Terms, forms};
use crate::table::Cell;
use std::collections::BTreeMap;

/// Every term there is.
const TERMS: [&str; 31] = [
    "schedule",
    "edition",
    "source",
    "holds for",
    "currency",
    "valid from",
    "valid to",
    "edition by",
    "rounding",
    "round total to",
    "mixed sizes",
    "mixed share",
    "equivalents of",
    "between count bands",
    "scaled counts",
    "several marks",
    "second mark share",
    "factors at most",
    "time unit",
    "readying share",
    "minimum per vehicle",
    "discount",
    "discount on",
    "discount taken",
    "excess taken",
    "total loss compares",
    "total loss when",
    "total loss share",
    "total loss with tax",
    "cash with tax",
    "quotation days",
];

/// The rows of the terms by their names.
pub(super) struct Book<'r> {
    rows: BTreeMap<&'static str, &'r RawTerm>,
    place: Option<Place>,
}

impl<'r> Book<'r> {
    /// Sorts the rows; unknown terms and terms that stand twice are told.
    pub fn open(raw: &'r Raw, problems: &mut Vec<Problem>) -> Self {
        let mut rows = BTreeMap::new();
        let mut once = Once::new();
        for row in &raw.terms {
            let name = folded(&row.term.value);
            if forms::is_remark(&name) {
                continue;
            }
            let Some(term) = TERMS.iter().copied().find(|term| *term == name) else {
                problems.push(unknown_among("term", &row.term, &TERMS));
                continue;
            };
            if once.note(term, "term", term, row.term.place, problems) {
                rows.insert(term, row);
            }
        }
        Self { rows, place: raw.place_of(&forms::TERMS) }
    }

    /// A term as its kind is read; `None` where it is absent, blank or unreadable.
    fn take<T>(
        &self,
        term: &str,
        parse: impl FnOnce(&Cell, &str, DecimalMark) -> Result<T, Problem>,
        problems: &mut Vec<Problem>,
    ) -> Option<Located<T>> {
        let row = self.rows.get(term)?;
        let cell = row.value.as_ref()?;
        match parse(cell, term, row.mark) {
            Ok(value) => Some(Located::new(value, cell.place)),
            Err(problem) => {
                problems.push(problem);
                None
            }
        }
    }

    /// A term that no schedule can do without.
    fn need<T>(
        &self,
        term: &str,
        parse: impl FnOnce(&Cell, &str, DecimalMark) -> Result<T, Problem>,
        problems: &mut Vec<Problem>,
    ) -> Option<Located<T>> {
        self.tell_if_missing(term, problems);
        self.take(term, parse, problems)
    }

    /// The cell of a term.
    fn place_of(&self, term: &str) -> Option<Place> {
        self.rows.get(term)?.value.as_ref().map(|cell| cell.place)
    }

    fn tell_if_missing(&self, term: &str, problems: &mut Vec<Problem>) {
        if let (false, Some(place)) = (self.has(term), self.place) {
            let place = self.rows.get(term).map_or(place, |row| row.term.place);
            problems.push(words::term_missing(term).at(place));
        }
    }

    fn has(&self, term: &str) -> bool {
        self.rows.get(term).is_some_and(|row| row.value.is_some())
    }

    fn word<T: Named>(&self, term: &str, problems: &mut Vec<Problem>) -> Option<Located<T>> {
        let written = self.take(term, text, problems)?;
        super::names::named(term, &written, problems)
    }

    fn percent(
        &self,
        term: &str,
        bounds: (i64, i64),
        problems: &mut Vec<Problem>,
    ) -> Option<Located<Percent>> {
        let written = self.take(term, parse_percent, problems)?;
        percent(term, written, bounds, problems)
    }

    fn amount(&self, term: &str, units: &Units, problems: &mut Vec<Problem>) -> Option<Located<Money>> {
        let written: Located<Decimal> = self.take(term, parse_number, problems)?;
        units.money(term, written, Sign::NotNegative, problems)
    }

    fn date(&self, term: &str, problems: &mut Vec<Problem>) -> Option<Located<Date>> {
        self.take(term, |cell, term, _| parse_date(cell, term), problems)
    }

    fn yes_no(&self, term: &str, problems: &mut Vec<Problem>) -> Option<Located<bool>> {
        self.take(term, |cell, term, _| parse_yes_no(cell, term), problems)
    }

    /// The currency of every amount.
    pub fn currency(&self, problems: &mut Vec<Problem>) -> Option<Located<Currency>> {
        let written = self.need("currency", text, problems)?;
        let currency = Currency::from_code(&written.value);
        if currency.is_none() {
            let codes = every_currency();
            let near = nearest(&written.value, codes.iter().map(String::as_str));
            problems.push(
                words::unknown_currency(&written.value, &near)
                    .at(written.place)
                    .written(written.value.clone()),
            );
        }
        Some(Located::new(currency?, written.place))
    }

    /// The unit of times; hours and tenths where nothing is said.
    pub fn time_unit(&self, problems: &mut Vec<Problem>) -> Option<Located<TimeUnit>> {
        if !self.has("time unit") {
            return self.place.map(|place| Located::new(TimeUnit::Tenths, place));
        }
        let written = self.take("time unit", text, problems)?;
        let said = folded(&written.value);
        let unit = match said.strip_prefix("work units") {
            None if said == "tenths" => TimeUnit::Tenths,
            None if said == "minutes" => TimeUnit::Minutes,
            None => {
                problems.push(unknown_among("time unit", &written, &["tenths", "minutes", "work units N"]));
                return None;
            }
            Some(number) => match number.trim().parse::<u32>() {
                Ok(per_hour) if per_hour > 0 && 3600 % per_hour == 0 => TimeUnit::WorkUnits(per_hour),
                _ => {
                    problems.push(words::time_unit().at(written.place).written(written.value));
                    return None;
                }
            },
        };
        Some(Located::new(unit, written.place))
    }
}

/// The schedule's name, validity and general rules; `None` when a term is missing that it cannot do without.
pub(super) fn check(
    book: &Book<'_>,
    units: &Units,
    sizes: &[SizeBand],
    problems: &mut Vec<Problem>,
) -> Option<Terms> {
    let name = book.need("schedule", free, problems);
    let edition = book.need("edition", free, problems);
    let source = book.need("source", free, problems);
    let fits = fits(book, problems);
    book.tell_if_missing("valid from", problems);
    let valid_from = book.date("valid from", problems);
    let valid_to = book.date("valid to", problems);
    if let (Some(from), Some(to)) = (valid_from, valid_to)
        && to.value < from.value
    {
        problems.push(words::dates_reversed(from.value, to.value).at(to.place).and(from.place));
    }
    let rounding =
        book.need("rounding", text, problems).and_then(|written| mode("rounding", &written, problems));
    let scaled_counts = book.take("scaled counts", text, problems);
    let scaled_counts = scaled_counts.and_then(|written| mode("scaled counts", &written, problems));
    let mixed = mixed(book, sizes, problems);
    let mixed_share = book.place_of("mixed share").filter(|_| is_share(mixed));
    let several_marks = marks::several_marks(book, problems);
    let factors_at_most = book.percent("factors at most", (0, 1000), problems);
    let total_step = book.amount("round total to", units, problems);
    if let Some(step) = total_step.filter(|step| step.value.is_zero()) {
        problems.push(words::out_of_range("round total to", "a step has to be above zero").at(step.place));
    }
    let readying = book.percent("readying share", (0, 100), problems);
    let minimum = book.amount("minimum per vehicle", units, problems);
    let discount = book.percent("discount", (0, 100), problems);
    let (discount_on, discount_taken) = discount::order(book, problems);
    let total_loss = total_loss::check(book, problems);
    let cash_with_tax = book.yes_no("cash with tax", problems);
    let quotation_days = book.take("quotation days", parse_whole, problems);
    Some(Terms {
        name: name?,
        edition: edition?,
        source: source?,
        fits: fits?,
        currency: units.currency?,
        valid_from: valid_from?,
        valid_to,
        edition_by: book.word("edition by", problems),
        rounding: rounding?,
        total_step,
        mixed: mixed?,
        mixed_share,
        between_counts: book.word("between count bands", problems),
        scaled_counts,
        several_marks,
        factors_at_most,
        time_unit: units.time?,
        readying,
        minimum,
        discount,
        discount_on,
        discount_taken,
        excess_taken: book.word("excess taken", problems),
        total_loss,
        cash_with_tax,
        quotation_days,
        place: book.place?,
    })
}

/// Whether the rule is one of a share above zero.
fn is_share(mixed: Option<Located<MixedRule>>) -> bool {
    mixed.is_some_and(
        |mixed| matches!(mixed.value, MixedRule::LargestShare(share) if share != Percent::default()),
    )
}

fn text(cell: &Cell, term: &str, _: DecimalMark) -> Result<String, Problem> {
    parse_text(cell, term)
}

fn free(cell: &Cell, term: &str, _: DecimalMark) -> Result<String, Problem> {
    parse_free_text(cell, term)
}

fn fits(book: &Book<'_>, problems: &mut Vec<Problem>) -> Option<Vec<Located<Fit>>> {
    let written = book.need("holds for", text, problems)?;
    let mut once = Once::new();
    let mut fits = Vec::new();
    for name in written.value.split(';').map(str::trim).filter(|name| !name.is_empty()) {
        let key = folded(name);
        let fit = match key.as_str() {
            "none" => Fit::NoInsurer,
            "any" => Fit::Anyone,
            _ => Fit::Insurer(name.to_owned()),
        };
        once.note(key, "name under holds for", name, written.place, problems);
        fits.push(Located::new(fit, written.place));
    }
    if fits.is_empty() {
        problems.push(words::term_missing("holds for").at(written.place));
    }
    Some(fits)
}

/// A mode of rounding.
fn mode(term: &str, written: &Located<String>, problems: &mut Vec<Problem>) -> Option<Located<Rounding>> {
    const MODES: [Rounding; 4] = [Rounding::HalfAway, Rounding::HalfEven, Rounding::Up, Rounding::Down];
    let said = folded(&written.value);
    let found = MODES.into_iter().find(|mode| mode.words() == said);
    if found.is_none() {
        problems.push(unknown_among(term, written, &MODES.map(Rounding::words)));
    }
    Some(Located::new(found?, written.place))
}

fn mixed(book: &Book<'_>, sizes: &[SizeBand], problems: &mut Vec<Problem>) -> Option<Located<MixedRule>> {
    const RULES: [&str; 5] =
        ["each band", "most frequent", "largest present", "largest with share", "equivalents"];
    let written = book.need("mixed sizes", text, problems)?;
    let said = folded(&written.value);
    for (term, rule) in [("mixed share", "largest with share"), ("equivalents of", "equivalents")] {
        if let (true, Some(row)) = (said != rule, book.rows.get(term)) {
            let why = format!("it belongs to the rule {rule}");
            problems.push(words::idle(&format!("the term {term}"), &why).at(row.term.place));
        }
    }
    let rule = match said.as_str() {
        "each band" => MixedRule::EachBand,
        "most frequent" => MixedRule::MostFrequent,
        "largest present" => MixedRule::LargestShare(Percent::default()),
        "largest with share" => {
            if !book.has("mixed share") {
                problems
                    .push(words::incomplete("the rule largest with share", "mixed share").at(written.place));
            }
            MixedRule::LargestShare(book.percent("mixed share", (0, 100), problems)?.value)
        }
        "equivalents" => MixedRule::Equivalents(equivalents(book, written.place, sizes, problems)?),
        _ => {
            problems.push(unknown_among("mixed sizes", &written, &RULES));
            return None;
        }
    };
    Some(Located::new(rule, written.place))
}

fn equivalents(
    book: &Book<'_>,
    rule: Place,
    sizes: &[SizeBand],
    problems: &mut Vec<Problem>,
) -> Option<usize> {
    for band in sizes.iter().filter(|band| band.weight.is_none()) {
        let missing = format!("the weight of size band {}", band.name);
        problems.push(words::incomplete("the rule equivalents", &missing).at(band.place).and(rule));
    }
    if !book.has("equivalents of") {
        problems.push(words::incomplete("the rule equivalents", "equivalents of").at(rule));
    }
    let written = book.take("equivalents of", text, problems)?;
    let found = sizes.iter().position(|band| label(&band.name) == label(&written.value));
    if found.is_none() {
        let names: Vec<&str> = sizes.iter().map(|band| band.name.as_str()).collect();
        problems.push(unknown_among("size band", &written, &names));
    }
    let own_weight = found.and_then(|index| sizes[index].weight);
    if let Some(weight) = own_weight.filter(|weight| *weight != Decimal::ONE) {
        problems.push(words::own_weight(&written.value, weight).at(sizes[found?].place).and(written.place));
    }
    found
}

/// All ISO 4217 codes that a schedule may use, for suggestions.
fn every_currency() -> Vec<String> {
    let letters = || 'A'..='Z';
    letters()
        .flat_map(|a| {
            letters().flat_map(move |b| letters().map(move |c| [a, b, c].iter().collect::<String>()))
        })
        .filter(|code| Currency::from_code(code).is_some())
        .collect()
}
