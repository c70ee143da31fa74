use super::{Claim, Located, Place, WrittenAmount};
use crate::quantity::Date;

/// What an insurer wants a submission to hold, from one row of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Requirement {
    /// Its row.
    pub place: Place,
    /// Whose it is; none is every insurer.
    pub insurer: Option<String>,
    /// What is wanted.
    pub wanted: Wanted,
    /// Which one: words that a photograph's caption holds, or the name of an enclosure.
    pub which: Option<String>,
    /// Of what each.
    pub per: Per,
    /// How many.
    pub at_least: usize,
    /// Only of claims whose gross amount is above it.
    pub above: Option<Located<WrittenAmount>>,
    /// Only of losses on this day or later.
    pub since: Option<Date>,
    /// Only of losses up to this day.
    pub until: Option<Date>,
}

/// Of what each so many are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Per {
    /// The claim.
    Claim,
    /// Each damaged panel.
    Panel,
    /// Each mark that is measured by itself.
    Mark,
}

/// What is wanted.
#[derive(Debug, Clone, Copy)]
pub enum Wanted {
    /// Photographs.
    Photograph,
    /// Counted panels.
    Count,
    /// Something written of the claim.
    Fact(&'static Fact),
    /// A paper that is enclosed.
    Enclosure,
    /// The insurer's word before work begins.
    Consent,
}

impl PartialEq for Wanted {
    fn eq(&self, other: &Self) -> bool {
        self.name() == other.name()
    }
}

/// Where something is fetched, in the order in which one goes there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Errand {
    /// At the car, while it is there.
    Car,
    /// From its owner.
    Owner,
    /// From the insurer.
    Insurer,
}

impl Errand {
    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Car => "at the car",
            Self::Owner => "from the owner",
            Self::Insurer => "from the insurer",
        }
    }
}

/// Something written of a claim that may be wanted.
#[derive(Debug)]
pub struct Fact {
    /// Its name: the column of the table of vehicles.
    pub name: &'static str,
    /// Where it is fetched.
    pub errand: Errand,
    /// Whether it is written.
    pub is_there: fn(&Claim) -> bool,
}

macro_rules! facts {
    ($($name:literal, $errand:ident, $($path:ident).+;)+) => {
        /// Every fact that may be wanted, in the order in which it is fetched.
        pub static FACTS: &[Fact] = &[$(Fact {
            name: $name,
            errand: Errand::$errand,
            is_there: |claim| claim.$($path).+.is_some(),
        }),+];
    };
}
facts! {
    "registration", Car, vehicle.registration;
    "vin", Car, vehicle.vin;
    "odometer", Car, vehicle.odometer;
    "make", Car, vehicle.make;
    "model", Car, vehicle.model;
    "year", Car, vehicle.year;
    "body type", Car, vehicle.body;
    "colour", Car, vehicle.colour;
    "paint kind", Car, vehicle.paint_kind;
    "roof equipment", Car, vehicle.roof_equipment;
    "driver assistance", Car, vehicle.driver_assistance;
    "drive", Car, vehicle.drive;
    "owner", Owner, parties.owner;
    "policy", Owner, parties.policy_number;
    "date of loss", Owner, event.date;
    "place of loss", Owner, event.location;
    "cause of loss", Owner, event.cause;
    "tax position", Owner, parties.tax_position;
    "market value", Owner, parties.market_value;
    "claim", Insurer, parties.claim_number;
    "excess", Insurer, parties.excess;
}

impl Wanted {
    /// Words other than facts.
    pub const OTHERS: [Self; 4] = [Self::Photograph, Self::Count, Self::Enclosure, Self::Consent];

    /// The word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Photograph => "photograph",
            Self::Count => "count",
            Self::Fact(fact) => fact.name,
            Self::Enclosure => "document",
            Self::Consent => "consent",
        }
    }

    /// Where it is fetched.
    pub const fn errand(self) -> Errand {
        match self {
            Self::Photograph | Self::Count => Errand::Car,
            Self::Fact(fact) => fact.errand,
            Self::Enclosure => Errand::Owner,
            Self::Consent => Errand::Insurer,
        }
    }
}

/// A paper that is listed for the claim: an order that the owner signed, an insurer's consent.
#[derive(Debug, Clone, PartialEq)]
pub struct Enclosure {
    /// Its row.
    pub place: Place,
    /// What it is, in the words of the list.
    pub name: Located<String>,
    /// Its file, where one is named.
    pub file: Option<Located<String>>,
    /// The day on it.
    pub date: Option<Located<Date>>,
}
