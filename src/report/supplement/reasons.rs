//! Why a panel, or a whole claim, is not what was agreed: what was written then and now, where it differs. Cells may
//! have moved; only what stands in them counts.

use super::version::{Panel, Priced, Version};
use crate::report::wording::supplement as words;
use serde::Serialize;
use serde_json::{Map, Value};
use std::collections::{BTreeMap, BTreeSet};

/// What kind of thing differs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Cause {
    /// A number of dents.
    Count,
    /// The size or count band that a panel is rated at.
    Size,
    /// What was said of a panel: material, access, paint, and whether it was inspected.
    Attribute,
    /// A measured mark.
    Mark,
    /// A price or a time of a part, or an item.
    Price,
    /// What is done.
    Method,
    /// A person's decision.
    Overrule,
    /// The schedule, or how it groups the panel.
    Schedule,
    /// An amount or a time of the schedule.
    Rate,
    /// The claim or the vehicle as a whole.
    Claim,
}

/// One reason.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Reason {
    /// What kind of thing differs.
    pub cause: Cause,
    /// What it was, and what it is now.
    pub words: String,
}

impl Reason {
    fn new(cause: Cause, words: String) -> Self {
        Self { cause, words }
    }
}

/// What a cell of the data says, without its place.
fn said(value: &Value) -> Option<String> {
    match value {
        Value::Object(cell) => {
            let value = cell.get("value").or_else(|| cell.get("amount"))?.as_str()?;
            let currency = cell.get("currency").and_then(Value::as_str);
            let value = if value == "true" { "yes" } else { value };
            Some(currency.map_or_else(|| value.to_owned(), |currency| format!("{value} {currency}")))
        }
        _ => None,
    }
}

/// Every cell by its name.
fn cells(map: &Map<String, Value>) -> BTreeMap<&str, String> {
    map.iter().filter_map(|(name, value)| Some((name.as_str(), said(value)?))).collect()
}

/// Cells that are not the same then and now.
fn differing(
    cause: Cause,
    before: &Map<String, Value>,
    now: &Map<String, Value>,
    out: &mut Vec<Reason>,
    called: impl Fn(&str) -> String,
) {
    let (before, now) = (cells(before), cells(now));
    let names: BTreeSet<&str> = before.keys().chain(now.keys()).copied().collect();
    for name in names {
        let (was, is) = (before.get(name), now.get(name));
        if was != is {
            let words = words::was_now(
                &called(name),
                was.map(String::as_str),
                is.map(String::as_str),
                words::NOTHING,
            );
            out.push(Reason::new(cause, words));
        }
    }
}

/// All cells of a row in one text, the one that names it first.
fn row(map: &Map<String, Value>, first: &str) -> String {
    let cells = cells(map);
    let rest = cells.iter().filter(|(name, _)| **name != first);
    let rest = rest.map(|(name, value)| format!("{} {value}", words::field(name)));
    cells.get(first).cloned().into_iter().chain(rest).collect::<Vec<_>>().join(", ")
}

/// Rows that were there then and are not now, and the other way round.
fn rows<'m>(
    cause: Cause,
    what: &str,
    before: impl Iterator<Item = &'m Map<String, Value>>,
    now: impl Iterator<Item = &'m Map<String, Value>>,
    first: &str,
    out: &mut Vec<Reason>,
) {
    let mut gone: Vec<String> = before.map(|map| row(map, first)).collect();
    let mut come = Vec::new();
    for row in now.map(|map| row(map, first)) {
        match gone.iter().position(|other| *other == row) {
            Some(same) => {
                gone.remove(same);
            }
            None => come.push(row),
        }
    }
    out.extend(gone.iter().map(|row| Reason::new(cause, words::no_longer(what, row))));
    out.extend(come.iter().map(|row| Reason::new(cause, words::is_new(what, row))));
}

/// Why a panel is not what was agreed. `None` is a panel that was not there, or is not there now.
pub fn of_panel(
    name: &str,
    before: (&Version, &Priced, Option<&Panel>),
    now: (&Version, &Priced, Option<&Panel>),
) -> Vec<Reason> {
    let mut out = Vec::new();
    let ((was, was_priced, Some(a)), (is, is_priced, Some(b))) = (before, now) else {
        let words = if now.2.is_some() { words::PANEL_NEW } else { words::PANEL_GONE };
        return vec![Reason::new(Cause::Attribute, words.to_owned())];
    };
    if a.is.state != b.is.state {
        let words = words::was_now(words::STATE, Some(&a.is.state), Some(&b.is.state), words::NOTHING);
        out.push(Reason::new(Cause::Attribute, words));
    }
    counts(a, b, &mut out);
    if a.is.rated_at != b.is.rated_at {
        let at = |panel: &Panel| panel.is.rated_at.as_ref().map(|at| words::rated_at(&at.size, &at.count));
        let (was, is) = (at(a), at(b));
        let words = words::was_now(words::RATED_AT, was.as_deref(), is.as_deref(), words::EACH_BAND);
        out.push(Reason::new(Cause::Size, words));
    }
    let none = Map::new();
    let (said_then, said_now) = (was.said_of(&a.is), is.said_of(&b.is));
    let rest = |said: Option<&super::version::PanelSaid>| said.map_or(none.clone(), |said| said.rest.clone());
    differing(Cause::Attribute, &rest(said_then), &rest(said_now), &mut out, words::field);
    let marks = |said: Option<&super::version::PanelSaid>| said.map_or(Vec::new(), |said| said.marks.clone());
    rows(Cause::Mark, words::MARK, marks(said_then).iter(), marks(said_now).iter(), "kind", &mut out);
    let of_panel = |row: &&Map<String, Value>| row.get("panel").and_then(Value::as_str) == Some(name);
    let parts = |version: &Version| -> Map<String, Value> {
        version.written.parts.iter().find(of_panel).cloned().unwrap_or_default()
    };
    differing(Cause::Price, &parts(was), &parts(is), &mut out, words::field);
    let decided = |version: &Version| version.written.overrules.clone();
    let (then_decided, now_decided) = (decided(was), decided(is));
    rows(
        Cause::Overrule,
        words::OVERRULE,
        then_decided.iter().filter(of_panel),
        now_decided.iter().filter(of_panel),
        "method",
        &mut out,
    );
    let (paid, pays) = (&was.written.paid_before, &is.written.paid_before);
    rows(
        Cause::Claim,
        words::PAID_BEFORE,
        paid.iter().filter(of_panel),
        pays.iter().filter(of_panel),
        "amount",
        &mut out,
    );
    let has_other_input = !out.is_empty();
    if a.is.rated_as != b.is.rated_as {
        let (was, is) = (a.is.rated_as.as_deref(), b.is.rated_as.as_deref());
        out.push(Reason::new(Cause::Schedule, words::was_now(words::RATED_AS, was, is, words::NOTHING)));
    }
    if a.is.method != b.is.method {
        let words = words::was_now(words::METHOD, Some(&a.is.method), Some(&b.is.method), words::NOTHING);
        out.push(Reason::new(Cause::Method, words));
    }
    let open = |panel: &Panel| panel.is.open.as_ref().map(|open| open.because.clone());
    if open(a) != open(b) {
        let words = words::was_now(words::OPEN, open(a).as_deref(), open(b).as_deref(), words::NOT_OPEN);
        out.push(Reason::new(Cause::Method, words));
    }
    if a.amount != b.amount && was_priced.schedule.digest != is_priced.schedule.digest {
        out.push(Reason::new(Cause::Rate, words::OTHER_EDITION.to_owned()));
    } else if a.amount != b.amount && !has_other_input {
        out.push(Reason::new(Cause::Claim, words::FOLLOWS.to_owned()));
    }
    out
}

/// Counts by size band, or all of them where the schedule's bands are others.
fn counts(a: &Panel, b: &Panel, out: &mut Vec<Reason>) {
    let bands =
        |panel: &Panel| -> Vec<String> { panel.is.counts.iter().map(|count| count.size.clone()).collect() };
    if bands(a) != bands(b) {
        let all = |panel: &Panel| {
            let counts = panel.is.counts.iter().filter(|count| count.count["is"] != "none_written");
            counts
                .map(|count| words::of_size(&count.size, &counted(&count.count)))
                .collect::<Vec<_>>()
                .join("; ")
        };
        let (was, is) = (all(a), all(b));
        if was != is {
            out.push(Reason::new(Cause::Size, words::was_now(words::DENTS, Some(&was), Some(&is), "")));
        }
        return;
    }
    for (was, is) in a.is.counts.iter().zip(&b.is.counts) {
        if was.count != is.count {
            let (before, now) = (counted(&was.count), counted(&is.count));
            let words = words::was_now(&words::dents_of(&is.size), Some(&before), Some(&now), "");
            out.push(Reason::new(Cause::Count, words));
        }
    }
}

/// What a count says.
fn counted(count: &Value) -> String {
    let number = |name: &str| count.get(name).and_then(Value::as_u64);
    match count["is"].as_str() {
        Some("counted") => number("dents").map_or_else(String::new, |dents| dents.to_string()),
        Some("estimated") => words::estimated(count["written"].as_str().unwrap_or_default()),
        Some("open") => words::OPEN_COUNT.to_owned(),
        _ => words::NONE_WRITTEN.to_owned(),
    }
}

/// What differs for the claim as a whole.
pub fn of_claim(before: (&Version, &Priced), now: (&Version, &Priced)) -> Vec<Reason> {
    let ((was, was_priced), (is, is_priced)) = (before, now);
    let mut out = Vec::new();
    if was_priced.schedule != is_priced.schedule {
        let words = words::schedules(&was_priced.schedule, &is_priced.schedule);
        out.push(Reason::new(Cause::Schedule, words));
    }
    if was_priced.outcome != is_priced.outcome {
        let (was, is) = (&was_priced.outcome, &is_priced.outcome);
        out.push(Reason::new(Cause::Method, words::was_now(words::OUTCOME, Some(was), Some(is), "")));
    }
    differing(Cause::Claim, &was.written.vehicle, &is.written.vehicle, &mut out, words::field);
    differing(Cause::Claim, &was.written.parties, &is.written.parties, &mut out, words::field);
    items(was, is, &mut out);
    out
}

/// Items of one name that stand once on both sides say what of them is another; others come and go.
fn items(was: &Version, is: &Version, out: &mut Vec<Reason>) {
    let name = |item: &Map<String, Value>| item.get("name").and_then(said);
    let once = |version: &Version, wanted: &Option<String>| {
        version.written.items.iter().filter(|item| name(item) == *wanted).count() == 1
    };
    let (mut gone, mut come) = (Vec::new(), Vec::new());
    for item in &was.written.items {
        let key = name(item);
        let other = is.written.items.iter().find(|other| name(other) == key);
        match (other, &key) {
            (Some(other), Some(thing)) if once(was, &key) && once(is, &key) => {
                differing(Cause::Price, item, other, out, |field| words::field_of(thing, field));
            }
            _ => gone.push(item),
        }
    }
    for item in &is.written.items {
        let key = name(item);
        if !(once(was, &key) && once(is, &key)) {
            come.push(item);
        }
    }
    rows(Cause::Price, words::ITEM, gone.into_iter(), come.into_iter(), "name", out);
}
