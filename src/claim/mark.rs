use super::{Located, Place, words::named};
use crate::quantity::Length;

named! {
    /// What a mark is.
    pub enum MarkKind {
        Dent = "dent",
        OversizeDent = "oversize dent",
        Crease = "crease",
        Crown = "crown",
        BraceMark = "brace mark",
        BrokenPaint = "broken paint",
        NotDamage = "not damage",
    }
}

named! {
    /// What a mark comes from. Only this event's is paid.
    pub enum Cause {
        ThisEvent = "this event",
        OtherEvent = "another event",
        Earlier = "earlier damage",
        NotDamage = "not damage",
    }
}

named! {
    /// How deep or sharp a dent is.
    pub enum Depth {
        Shallow = "shallow",
        Normal = "normal",
        Deep = "deep",
        Sharp = "sharp",
        Stretched = "stretched",
    }
}

named! {
    /// Where on the panel a dent lies.
    pub enum Position {
        OpenArea = "open area",
        BodyLine = "body line",
        Edge = "edge",
        DoubleSkin = "double skin",
    }
}

/// One mark that was measured or noted by itself, from one row.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// The row it was written in.
    pub place: Place,
    /// What it is.
    pub kind: Located<MarkKind>,
    /// What it comes from; not written means this event.
    pub cause: Option<Located<Cause>>,
    /// Largest diameter of a dent or crown, or the length of a crease.
    pub length: Option<Located<Length>>,
    /// Width of a crease.
    pub width: Option<Located<Length>>,
    /// Depth as a word.
    pub depth: Option<Located<Depth>>,
    /// Where on the panel it lies.
    pub position: Option<Located<Position>>,
    /// How its back is reached, where that differs from the panel's.
    pub access: Option<Located<super::Access>>,
    /// Free text.
    pub remark: Option<Located<String>>,
}
