//! What of a claim changed since it was agreed.

use super::reasons::{self, Reason};
use super::version::{Line, Panel, Priced, SUMS, Schedule, Version};
use crate::quantity::{Currency, Money, QuantityFault};
use crate::report::wording::supplement as words;
use serde::{Serialize, Serializer};

/// What became of a claim that was agreed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Fate {
    /// Nothing changed.
    Unchanged,
    /// Something did.
    Changed,
    /// It is not in the agreed version.
    New,
    /// It was not priced then.
    NowPriced,
    /// It is not priced now.
    NoLongerPriced,
    /// It was not priced then, nor is it now.
    NeverPriced,
    /// It was in another currency: nothing is subtracted.
    OtherCurrency,
    /// It is in the agreed version and in no sheet now.
    Gone,
}

/// An amount then and now.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Amounts {
    /// As agreed; none where there was none.
    #[serde(serialize_with = "plain")]
    pub before: Option<Money>,
    /// Now.
    #[serde(serialize_with = "plain")]
    pub now: Option<Money>,
    /// The second less the first; none where one of them is not known.
    #[serde(serialize_with = "plain")]
    pub difference: Option<Money>,
}

#[expect(clippy::ref_option, reason = "what serde hands over")]
fn plain<S: Serializer>(money: &Option<Money>, to: S) -> Result<S::Ok, S::Error> {
    money.map(|money| money.to_string()).serialize(to)
}

impl Amounts {
    /// Of two amounts in one currency; one that is missing counts as nothing.
    fn of(currency: Currency, before: Option<Money>, now: Option<Money>) -> Result<Self, QuantityFault> {
        let zero = Money::zero(currency);
        let difference = now.unwrap_or(zero).minus(before.unwrap_or(zero))?;
        Ok(Self { before, now, difference: Some(difference) })
    }

    fn differ(&self) -> bool {
        self.before != self.now
    }
}

/// A panel that changed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PanelChange {
    /// Its name.
    pub panel: String,
    /// What was to be done.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub method_before: Option<String>,
    /// What is now.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub method_now: Option<String>,
    /// Its amount.
    #[serde(flatten)]
    pub amounts: Amounts,
    /// Why.
    pub reasons: Vec<Reason>,
}

/// A line that changed, came or went.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LineChange {
    /// Its number on the claim's document now.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub number: Option<usize>,
    /// Its panel; none for the vehicle.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub panel: Option<String>,
    /// What it was for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub words_before: Option<String>,
    /// What it is for now.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub words_now: Option<String>,
    /// Its amount.
    #[serde(flatten)]
    pub amounts: Amounts,
}

/// A sum then and now.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SumChange {
    /// Its name in the data.
    pub sum: &'static str,
    /// How much.
    #[serde(flatten)]
    pub amounts: Amounts,
}

/// What of a claim changed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Change {
    /// The claim in a word.
    pub is: Fate,
    /// The schedule it was agreed by.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub agreed_schedule: Option<Schedule>,
    /// What differs for the whole claim.
    pub reasons: Vec<Reason>,
    /// Panels that are not as they were.
    pub panels: Vec<PanelChange>,
    /// Lines that are not as they were.
    pub lines: Vec<LineChange>,
    /// Gross, insurer and owner, and what else is not as it was.
    pub sums: Vec<SumChange>,
    /// Their currency.
    #[serde(skip)]
    pub currency: Option<Currency>,
}

/// Sums that are listed also where they did not change.
const ALWAYS: [&str; 3] = ["gross", "insurer_pays", "owner_bears"];

impl Change {
    /// Without anything to hold against each other.
    fn bare(is: Fate, priced: Option<&Priced>) -> Self {
        Self {
            is,
            agreed_schedule: None,
            reasons: Vec::new(),
            panels: Vec::new(),
            lines: Vec::new(),
            sums: Vec::new(),
            currency: priced.map(|priced| priced.currency),
        }
    }

    /// A claim that is in no sheet now.
    pub fn gone(before: &Version) -> Self {
        let priced = before.assessment.as_ref();
        // An amount that cannot even be taken from nothing is left out.
        one_side(Fate::Gone, priced, None).unwrap_or_else(|_| Self::bare(Fate::Gone, priced))
    }

    /// What changed between two versions of a claim; without the first it is new.
    pub fn between(before: Option<&Version>, now: &Version) -> Result<Self, QuantityFault> {
        let Some(before) = before else { return one_side(Fate::New, None, now.assessment.as_ref()) };
        match (&before.assessment, &now.assessment) {
            (None, None) => Ok(Self::bare(Fate::NeverPriced, None)),
            (None, Some(priced)) => one_side(Fate::NowPriced, None, Some(priced)),
            (Some(priced), None) => one_side(Fate::NoLongerPriced, Some(priced), None),
            (Some(was), Some(is)) if was.currency != is.currency => Ok(Self {
                agreed_schedule: Some(was.schedule.clone()),
                reasons: reasons::of_claim((before, was), (now, is)),
                ..Self::bare(Fate::OtherCurrency, Some(is))
            }),
            (Some(was), Some(is)) => both((before, was), (now, is)),
        }
    }

    /// A sum by its name.
    pub fn sum(&self, name: &str) -> Option<&Amounts> {
        self.sums.iter().find(|sum| sum.sum == name).map(|sum| &sum.amounts)
    }
}

fn sums(
    currency: Currency,
    before: Option<&Priced>,
    now: Option<&Priced>,
) -> Result<Vec<SumChange>, QuantityFault> {
    let mut out = Vec::new();
    for sum in SUMS {
        let of = |priced: Option<&Priced>| priced.and_then(|priced| priced.sums.get(sum).copied());
        let amounts = Amounts::of(currency, of(before), of(now))?;
        if ALWAYS.contains(&sum) || (before.is_some() && now.is_some() && amounts.differ()) {
            out.push(SumChange { sum, amounts });
        }
    }
    Ok(out)
}

fn one_side(is: Fate, before: Option<&Priced>, now: Option<&Priced>) -> Result<Change, QuantityFault> {
    let Some(priced) = before.or(now) else { return Ok(Change::bare(is, None)) };
    let mut sums = sums(priced.currency, before, now)?;
    // Not priced is not nothing: only of a claim that is new is the whole amount the difference.
    for sum in sums.iter_mut().filter(|_| is != Fate::New) {
        sum.amounts.difference = None;
    }
    Ok(Change {
        agreed_schedule: before.map(|priced| priced.schedule.clone()),
        sums,
        ..Change::bare(is, Some(priced))
    })
}

fn both(before: (&Version, &Priced), now: (&Version, &Priced)) -> Result<Change, QuantityFault> {
    let ((_, was), (_, is)) = (before, now);
    let currency = is.currency;
    let panels = panels(before, now)?;
    let lines = lines(currency, &was.lines, &is.lines)?;
    let sums = sums(currency, Some(was), Some(is))?;
    let mut reasons = reasons::of_claim(before, now);
    let moved = !panels.is_empty() || !lines.is_empty() || sums.iter().any(|sum| sum.amounts.differ());
    let fate = if moved || !reasons.is_empty() { Fate::Changed } else { Fate::Unchanged };
    if moved && reasons.is_empty() && panels.is_empty() {
        reasons.push(Reason { cause: reasons::Cause::Claim, words: words::OTHER_VERSION.to_owned() });
    }
    let agreed_schedule = Some(was.schedule.clone());
    Ok(Change { agreed_schedule, reasons, panels, lines, sums, ..Change::bare(fate, Some(is)) })
}

/// Panels in the order of the new version; those that are gone come last.
fn panels(
    (before, was): (&Version, &Priced),
    (now, is): (&Version, &Priced),
) -> Result<Vec<PanelChange>, QuantityFault> {
    let named =
        |priced: &'_ Priced, name: &str| priced.panels.iter().position(|panel| panel.is.panel == name);
    let gone = was.panels.iter().filter(|panel| named(is, &panel.is.panel).is_none());
    let mut out = Vec::new();
    for name in is.panels.iter().chain(gone).map(|panel| panel.is.panel.as_str()) {
        let a = named(was, name).map(|index| &was.panels[index]);
        let b = named(is, name).map(|index| &is.panels[index]);
        let amount = |panel: Option<&Panel>| panel.and_then(|panel| panel.amount);
        let amounts = Amounts::of(is.currency, amount(a), amount(b))?;
        let reasons = reasons::of_panel(name, (before, was, a), (now, is, b));
        if amounts.differ() || !reasons.is_empty() {
            out.push(PanelChange {
                panel: name.to_owned(),
                method_before: a.map(|panel| panel.is.method.clone()),
                method_now: b.map(|panel| panel.is.method.clone()),
                amounts,
                reasons,
            });
        }
    }
    Ok(out)
}

/// Lines are held against each other within a panel and a kind: those that say the same first, the others in order.
fn lines(currency: Currency, before: &[Line], now: &[Line]) -> Result<Vec<LineChange>, QuantityFault> {
    let mut left: Vec<&Line> = before.iter().collect();
    let mut open = Vec::new();
    let place = |line: &Line| (line.is.panel.clone(), line.is.kind.clone());
    for line in now {
        let same = |other: &Line| {
            place(other) == place(line)
                && (&other.is.words, other.amount, &other.is.tax_percent, &other.is.hours)
                    == (&line.is.words, line.amount, &line.is.tax_percent, &line.is.hours)
        };
        if take(&mut left, &same).is_none() {
            open.push(line);
        }
    }
    let (mut out, mut gone) = (Vec::new(), Vec::new());
    for line in open {
        let same_words = |other: &Line| place(other) == place(line) && other.is.words == line.is.words;
        let before =
            take(&mut left, &same_words).or_else(|| take(&mut left, &|other| place(other) == place(line)));
        out.push(LineChange {
            number: line.is.number,
            panel: line.is.panel.clone(),
            words_before: before.map(line_words),
            words_now: Some(line_words(line)),
            amounts: Amounts::of(currency, before.map(|line| line.amount), Some(line.amount))?,
        });
    }
    for line in left {
        gone.push(LineChange {
            number: None,
            panel: line.is.panel.clone(),
            words_before: Some(line_words(line)),
            words_now: None,
            amounts: Amounts::of(currency, Some(line.amount), None)?,
        });
    }
    // Lines that are gone stand behind what is there now of their panel.
    for line in gone {
        let behind = out.iter().rposition(|other: &LineChange| other.panel == line.panel);
        out.insert(behind.map_or(out.len(), |index| index + 1), line);
    }
    Ok(out)
}

/// Takes out the first line that fits.
fn take<'l>(left: &mut Vec<&'l Line>, fits: &dyn Fn(&Line) -> bool) -> Option<&'l Line> {
    let found = left.iter().position(|line| fits(line))?;
    Some(left.remove(found))
}

/// What a line is for, with the time in it and its tax.
fn line_words(line: &Line) -> String {
    words::line(&line.is.words, line.is.hours.as_deref(), &line.is.tax_percent)
}
