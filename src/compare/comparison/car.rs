use super::{Common, Sheet, ToAgree};
use crate::claim::{KeyKind, PanelId};
use crate::compare::habit::Suggestion;
use crate::compare::money::VehicleDifference;
use crate::compare::pairing::{JoinedBy, Look, Seen};
use crate::quantity::{Currency, Date, Money};

/// One look as the engine judges it.
#[derive(Debug, Clone, PartialEq)]
pub struct LookResult {
    /// Where it is written.
    pub look: Look,
    /// Who, by number.
    pub assessor: usize,
    /// Dents on all its panels.
    pub dents: u64,
    /// The panels that it inspected.
    pub sheet: Sheet,
    /// What its panels come to, open ones left out.
    pub on_panels: Money,
    /// Its gross amount, open panels left out.
    pub gross: Money,
    /// Whether panels or items are open.
    pub is_open: bool,
}

/// Why a panel enters no statistic.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WhyUnpaired {
    /// It is on the first look's sheet alone.
    OnFirstOnly,
    /// It is on the second look's sheet alone.
    OnSecondOnly,
    /// The first look lists it without a number.
    FirstNotInspected,
    /// The second look lists it without a number.
    SecondNotInspected,
    /// Neither look says anything of it.
    Neither,
}

impl WhyUnpaired {
    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::OnFirstOnly => "not on the second sheet",
            Self::OnSecondOnly => "not on the first sheet",
            Self::FirstNotInspected => "not inspected in the first count",
            Self::SecondNotInspected => "not inspected in the second count",
            Self::Neither => "not inspected in either count",
        }
    }

    /// Of a pair that is not common.
    pub(super) const fn of(first: Seen, second: Seen) -> Self {
        match (first, second) {
            (Seen::Inspected(_), Seen::NotListed) => Self::OnFirstOnly,
            (Seen::NotListed, Seen::Inspected(_)) => Self::OnSecondOnly,
            (Seen::NotInspected(_), Seen::Inspected(_)) => Self::FirstNotInspected,
            (Seen::Inspected(_), _) => Self::SecondNotInspected,
            (_, _) => Self::Neither,
        }
    }
}

/// A panel that only one look, or neither, inspected.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unpaired {
    /// Which panel.
    pub panel: PanelId,
    /// Why.
    pub why: WhyUnpaired,
    /// The amount of the look that inspected it, where it is priced.
    pub amount: Option<Money>,
    /// Dents of that look.
    pub dents: Option<u32>,
}

/// Two looks at one car.
#[derive(Debug, Clone, PartialEq)]
pub struct CarPair {
    /// The first assessor, by number.
    pub first: usize,
    /// The second assessor, by number.
    pub second: usize,
    /// Panels that both inspected; [`CarComparison::panels`] takes them out.
    pub common: Common,
    /// The other panels.
    pub unpaired: Vec<Unpaired>,
    /// What stands between the panels and what is paid; none where an amount does not fit.
    pub vehicle: Option<VehicleDifference>,
    /// Patterns that look like a slip.
    pub slips: Vec<Suggestion>,
}

/// One car.
#[derive(Debug, Clone, PartialEq)]
pub struct CarComparison {
    /// The claim whose vehicle, parties and prices hold for every look, by its number in the batch.
    pub claim: usize,
    /// Its key.
    pub key: String,
    /// What kind of key that is.
    pub key_kind: KeyKind,
    /// How its claims were joined.
    pub joined: JoinedBy,
    /// The keys of all its claims, where there are several.
    pub keys: Box<[String]>,
    /// Its registration, as first written.
    pub registration: Option<Box<str>>,
    /// Its event, as first written.
    pub event: Option<Box<str>>,
    /// The schedule, by its number in the run.
    pub schedule: usize,
    /// The date by which every look is priced.
    pub date: Date,
    /// Currency of its amounts.
    pub currency: Currency,
    /// Looks that are compared, by assessor number.
    pub looks: Box<[LookResult]>,
    /// Every pair of them; with a reference, those with the reference first.
    pub pairs: Box<[CarPair]>,
    /// Panels to be agreed on, in document order; [`CarComparison::disputed`] takes them out.
    pub to_agree: Box<[ToAgree]>,
}
