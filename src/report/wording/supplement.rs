//! Everything that a supplement says, in one place: its labels, and its sentences.

use super::{amount, said};
use crate::quantity::Money;
use crate::report::supplement::{AgreedSchedule, Fate};
use serde::Serialize;

/// Labels of the page, by the names that templates know.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct SupplementLabels {
    /// Before the answer.
    pub answer: &'static str,
    /// Heading of amounts.
    pub amount: &'static str,
    /// Heading of agreed amounts.
    pub agreed: &'static str,
    /// Heading of differences.
    pub difference: &'static str,
    /// Heading of new amounts.
    pub now: &'static str,
    /// Heading of what concerns the whole claim.
    pub whole_claim: &'static str,
    /// Heading of panels.
    pub panels: &'static str,
    /// Heading of reasons.
    pub why: &'static str,
    /// Heading of lines.
    pub lines: &'static str,
    /// Where a line is of no panel.
    pub vehicle: &'static str,
    /// Heading of provenance.
    pub made_from: &'static str,
    /// Before the agreed file.
    pub agreed_version: &'static str,
    /// Before the schedule of the agreed version.
    pub agreed_schedule: &'static str,
    /// Before the schedule.
    pub schedule: &'static str,
    /// Before the program.
    pub tool: &'static str,
    /// Heading of signatures.
    pub signatures: &'static str,
}

/// The labels in English.
pub const LABELS: SupplementLabels = SupplementLabels {
    answer: "Since agreed",
    amount: "Amount",
    agreed: "Agreed",
    difference: "Difference",
    now: "Now",
    whole_claim: "For the claim as a whole",
    panels: "Panels that changed",
    why: "Why",
    lines: "Lines that changed",
    vehicle: "Vehicle",
    made_from: "What it was made from",
    agreed_version: "Agreed version",
    agreed_schedule: "Schedule then",
    schedule: "Schedule now",
    tool: "Program",
    signatures: "Agreed to",
};

/// Which document it is.
pub const TITLE: &str = "Supplement";
/// Beside what only the new version, or only the agreed one, has.
pub const NOT_THERE: &str = "\u{2013}";
pub(crate) const NOTHING: &str = "nothing written";
pub(crate) const NONE_WRITTEN: &str = "none written";
pub(crate) const OPEN_COUNT: &str = "a question";
pub(crate) const MARK: &str = "mark";
pub(crate) const ITEM: &str = "item";
pub(crate) const OVERRULE: &str = "a person's decision";
pub(crate) const PAID_BEFORE: &str = "paid before";
pub(crate) const STATE: &str = "state";
pub(crate) const METHOD: &str = "method";
pub(crate) const OUTCOME: &str = "outcome";
pub(crate) const OPEN: &str = "open";
pub(crate) const NOT_OPEN: &str = "not open";
pub(crate) const RATED_AS: &str = "rated as";
pub(crate) const RATED_AT: &str = "rated at";
pub(crate) const EACH_BAND: &str = "each band by itself";
pub(crate) const DENTS: &str = "dents by size";
pub(crate) const PANEL_NEW: &str = "the agreed version does not list this panel";
pub(crate) const PANEL_GONE: &str = "no sheet lists this panel now";
pub(crate) const OTHER_EDITION: &str = "the rates are those of another schedule or edition";
pub(crate) const FOLLOWS: &str = "it follows from what changed elsewhere on the claim";
pub(crate) const OTHER_VERSION: &str = "what was written is the same: the sums follow from terms of the schedule or another version of the program";
/// What a reader signs.
pub const SIGNATURES: [&str; 2] = ["Assessor", "For the insurer, or the customer"];
/// Whose amounts these are.
pub const STANDING: &str = "This page lists only what differs from the agreed version; the claim's own document says \
    everything. Who bears the difference is decided by the policy and by those who agreed, not by this page.";

/// A field of the data in words.
pub fn field(name: &str) -> String {
    match name {
        "shows" => "what it shows".to_owned(),
        other => other.replace('_', " "),
    }
}

/// A thing that was another: "material: nothing written, now aluminium".
pub fn was_now(what: &str, before: Option<&str>, now: Option<&str>, absent: &str) -> String {
    format!("{what}: {}, now {}", said(before.unwrap_or(absent)), said(now.unwrap_or(absent)))
}

/// A method that was another.
pub fn method(before: &str, now: &str) -> String {
    format!("{before}, now {now}")
}

/// A thing's own field: "windscreen, price".
pub fn field_of(thing: &str, name: &str) -> String {
    format!("{}, {}", said(thing), field(name))
}

/// A row that is not there now.
pub fn no_longer(what: &str, row: &str) -> String {
    format!("{what} no longer there: {}", said(row))
}

/// A row that was not there.
pub fn is_new(what: &str, row: &str) -> String {
    format!("{what} that is new: {}", said(row))
}

/// "dents small".
pub fn dents_of(size: &str) -> String {
    format!("dents {}", said(size))
}

/// "small 12".
pub fn of_size(size: &str, count: &str) -> String {
    format!("{} {count}", said(size))
}

/// An estimate as it was written.
pub fn estimated(written: &str) -> String {
    format!("estimated, {}", said(written))
}

/// Bands of a whole panel.
pub fn rated_at(size: &str, count: &str) -> String {
    format!("{}, count {}", said(size), said(count))
}

/// Two schedules.
pub fn schedules(before: &AgreedSchedule, now: &AgreedSchedule) -> String {
    if (&before.name, &before.edition) == (&now.name, &now.edition) {
        format!("schedule: {}, whose files were changed since", schedule(now))
    } else {
        format!("schedule: {}, now {}", schedule(before), schedule(now))
    }
}

/// `Our prices, edition 3`.
pub fn schedule(schedule: &AgreedSchedule) -> String {
    format!("{}, edition {}", said(&schedule.name), said(&schedule.edition))
}

/// What a line is for, with the time in it and its tax.
pub fn line(words: &str, hours: Option<&str>, tax: &str) -> String {
    let hours = hours.map_or_else(String::new, |hours| format!(", {hours} h"));
    format!("{}{hours}, {tax} % tax", said(words))
}

/// A sum by its name in the data.
pub fn sum(name: &str) -> &'static str {
    match name {
        "net" => "Net",
        "tax" => "Tax",
        "rounding" => "Rounding",
        "gross" => "Gross",
        "amount" => "Settlement amount",
        "tax_reclaimed" => "Tax reclaimed",
        "paid_before" => "Paid before",
        "excess" => "Excess",
        "beyond_policy_limit" => "Beyond the policy limit",
        "insurer_pays" => "Insurer pays",
        "owner_bears" => "Owner bears",
        _ => "Salvage kept",
    }
}

/// A difference with its sign.
pub fn difference(money: Money) -> String {
    if money.minor() > 0 { format!("+{}", amount(money)) } else { amount(money) }
}

/// The claim in a sentence: what became of it, and by how much its gross amount moved.
pub fn answer(fate: Fate, gross: Option<Money>) -> String {
    let by = |gross: Money| match gross.minor() {
        0 => "Something changed; the gross amount did not.".to_owned(),
        minor => {
            let (size, way) = match gross.negated() {
                Ok(less) if minor < 0 => (less, "less"),
                _ => (gross, "more"),
            };
            format!("Gross {} {} {way} than agreed.", size.currency().code(), amount(size))
        }
    };
    match fate {
        Fate::Unchanged => "Nothing changed.".to_owned(),
        Fate::Changed => gross.map_or_else(|| "Something changed.".to_owned(), by),
        Fate::New => "The agreed version does not hold this claim: all of it is new.".to_owned(),
        Fate::NowPriced => "It was not priced in the agreed version: all of it is new.".to_owned(),
        Fate::NoLongerPriced => "It is not priced now; its problems say why.".to_owned(),
        Fate::NeverPriced => "It was not priced then, nor is it now.".to_owned(),
        Fate::OtherCurrency => "It was agreed in another currency: nothing is subtracted.".to_owned(),
        Fate::Gone => "It was agreed, and no sheet has a row of it now.".to_owned(),
    }
}

/// A fate in two words, for tables.
pub const fn fate(fate: Fate) -> &'static str {
    match fate {
        Fate::Unchanged => "nothing changed",
        Fate::Changed => "changed",
        Fate::New => "new",
        Fate::NowPriced => "now priced",
        Fate::NoLongerPriced => "no longer priced",
        Fate::NeverPriced => "not priced then or now",
        Fate::OtherCurrency => "another currency",
        Fate::Gone => "gone",
    }
}
