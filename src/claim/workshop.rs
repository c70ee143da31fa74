//! Who repairs, where and when: what people wrote about a workshop, for a plan of its work.

use super::{JobKey, Located, PanelId, Place, WrittenAmount, words::named};
use crate::quantity::{Date, Hours};

named! {
    /// What a technician can do, and what a bay is used for.
    pub enum Skill {
        Paintless = "paintless",
        Body = "body repair",
        Fitting = "fitting",
        Paint = "paint",
        Glass = "glass",
    }
}

named! {
    /// A day of the week, from Monday (ISO 8601).
    pub enum Weekday {
        Monday = "monday",
        Tuesday = "tuesday",
        Wednesday = "wednesday",
        Thursday = "thursday",
        Friday = "friday",
        Saturday = "saturday",
        Sunday = "sunday",
    }
}

/// Someone who works on cars.
#[derive(Debug, Clone, PartialEq)]
pub struct Technician {
    /// Name or letter as written.
    pub name: Located<String>,
    /// What they can do, each skill once, in the order of [`Skill::ALL`].
    pub skills: Vec<Skill>,
    /// Hours of a working day.
    pub hours: Hours,
}

/// Places of one kind in which a car is worked on.
#[derive(Debug, Clone, PartialEq)]
pub struct Bays {
    /// Name as written.
    pub name: Located<String>,
    /// How many of them there are.
    pub number: u32,
    /// What is done there; empty for any work.
    pub used_for: Vec<Skill>,
}

/// Days on which somebody, or the whole workshop, does not work.
#[derive(Debug, Clone, PartialEq)]
pub struct DaysOff {
    /// Its row.
    pub place: Place,
    /// Who; `None` for everybody.
    pub technician: Option<Located<String>>,
    /// The first day.
    pub from: Date,
    /// The last day.
    pub until: Date,
}

/// When parts for a car arrive.
#[derive(Debug, Clone, PartialEq)]
pub struct Arrival {
    /// Its row.
    pub place: Place,
    /// The claim number, job number, registration or VIN by which the row names the car.
    pub key: JobKey,
    /// The panel that the part is for; `None` for all parts of the car.
    pub panel: Option<PanelId>,
    /// The day from whose morning on the part is at hand.
    pub day: Date,
    /// Whether a register says so and no table of arrivals.
    pub by_register: bool,
}

/// What an hour of paintless work brings in where a schedule prices it by amounts alone.
#[derive(Debug, Clone, PartialEq)]
pub struct Pace {
    /// The amount of an hour, with its currency.
    pub an_hour: Located<WrittenAmount>,
}

/// Everything that was written about a workshop.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Workshop {
    /// Technicians in the order of their rows.
    pub technicians: Vec<Technician>,
    /// Bays; none written means that there are always enough.
    pub bays: Vec<Bays>,
    /// Days off.
    pub days_off: Vec<DaysOff>,
    /// Weekdays that are named, and whether they are worked.
    pub week: Vec<(Weekday, bool)>,
    /// Arrivals of parts.
    pub arrivals: Vec<Arrival>,
    /// Paces, at most one for each currency.
    pub paces: Vec<Pace>,
}
