use super::Scope;
use crate::claim::{Access, Depth, MarkKind, Material, Method, Paint, Place};
use crate::quantity::{Length, Percent};

/// What a limit measures, and from where on it is crossed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// The panel is made of this.
    Material(Material),
    /// The paint is in this state (on the panel or on a mark that is paid).
    Paint(Paint),
    /// The back is reached only so.
    Access(Access),
    /// Dents this deep (on the panel or on a mark that is paid).
    Depth(Depth),
    /// A mark of this kind, longer than this.
    MarkLength(MarkKind, Length),
    /// More dents than this, all sizes together.
    DentsOver(u32),
    /// More dents than this in the given size band or larger.
    DentsOfSizeOver(usize, u32),
    /// The paintless amount is above this share of replacing.
    ShareOfReplacing(Percent),
    /// The paintless amount is above this share of conventional repair.
    ShareOfConventional(Percent),
}

/// One limit of paintless repair: when it is crossed, and what then follows.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// Its name as printed.
    pub name: String,
    /// On which panels.
    pub scope: Scope,
    /// What is measured, and the limit.
    pub measure: Measure,
    /// What follows when it is crossed.
    pub then: Method,
    /// Its number in the table, from 1, as documents cite it.
    pub number: u32,
    /// The cell of the limit.
    pub place: Place,
}
