use super::GroupId;
use crate::claim::{Located, PanelKind, Place, words::named};
use crate::quantity::{Area, Money};

named! {
    /// How a panel lies.
    pub enum Plane {
        Horizontal = "horizontal",
        Vertical = "vertical",
    }
}

named! {
    /// How a panel is joined to the body.
    pub enum Joint {
        Bolted = "bolted",
        Welded = "welded",
    }
}

/// What a schedule says of one kind of panel.
#[derive(Debug, Clone, PartialEq)]
pub struct PanelTerms {
    /// Which kind.
    pub kind: PanelKind,
    /// The group it is rated as.
    pub group: GroupId,
    /// How it lies.
    pub plane: Located<Plane>,
    /// How it is joined.
    pub joint: Located<Joint>,
    /// Its size class, in the schedule's words (large, small).
    pub class: Option<Located<String>>,
    /// Its area.
    pub area: Option<Located<Area>>,
    /// Least paintless amount of a panel with damage.
    pub floor: Option<Located<Money>>,
    /// Most that its paintless amount can be.
    pub cap: Option<Located<Money>>,
    /// Its row.
    pub place: Place,
}
