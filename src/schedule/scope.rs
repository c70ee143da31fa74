use super::{Joint, PanelTerms, Plane};
use crate::claim::PanelKind;

/// Number of a group that panels are rated as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct GroupId(pub u16);

/// Which panels a row holds for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Scope {
    /// All of them.
    Any,
    /// One kind of panel.
    Kind(PanelKind),
    /// All panels rated as one group.
    Group(GroupId),
    /// Horizontal or vertical ones.
    Plane(Plane),
    /// Bolted or welded ones.
    Joint(Joint),
}

impl Scope {
    /// Whether a panel is meant.
    pub fn holds_for(self, panel: &PanelTerms) -> bool {
        match self {
            Self::Any => true,
            Self::Kind(kind) => kind == panel.kind,
            Self::Group(group) => group == panel.group,
            Self::Plane(plane) => plane == panel.plane.value,
            Self::Joint(joint) => joint == panel.joint.value,
        }
    }

    /// How particular it is: of two rows that hold, the higher is taken.
    pub fn rank(self) -> u8 {
        match self {
            Self::Any => 0,
            Self::Plane(_) | Self::Joint(_) => 1,
            Self::Group(_) => 2,
            Self::Kind(_) => 3,
        }
    }
}
