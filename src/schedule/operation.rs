use super::{LabourClass, Scope};
use crate::claim::{Access, Located, Method, Place, words::named};
use crate::quantity::{Hours, Money};

named! {
    /// How often an operation is charged, however many panels ask for it.
    pub enum Once {
        Vehicle = "vehicle",
        Side = "side",
        Panel = "panel",
    }
}

/// Work that goes with a panel: taking off trim and the like, in hours, with what breaks on the way.
#[derive(Debug, Clone, PartialEq)]
pub struct Operation {
    /// Its name as printed.
    pub name: String,
    /// Panels that ask for it.
    pub scope: Scope,
    /// Only with this access; `None` is any.
    pub access: Option<Access>,
    /// Only with this method; `None` is any method that works on the panel.
    pub method: Option<Method>,
    /// Labour.
    pub hours: Option<Located<Hours>>,
    /// Which labour.
    pub class: LabourClass,
    /// Parts that break or are used up.
    pub parts: Option<Located<Money>>,
    /// How often it is charged.
    pub once: Once,
    /// The caution that belongs to it, in the schedule's words.
    pub caution: Option<Located<String>>,
    /// Its row.
    pub place: Place,
}
