use super::Place;
use crate::quantity::Length;
use std::sync::Arc;

/// A range of dent diameters as a heading states it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct SizeInterval {
    /// Lower edge; zero for "up to".
    pub low: Length,
    /// Upper edge; `None` for "over" and "50+".
    pub high: Option<Length>,
    /// One last printed digit of the edges: two edges this far apart are one edge (11 and 10 in "0-10, 11-20"). Zero
    /// for fractions, and where a digit is coarse beside the range itself (whole inches).
    pub digit: Length,
}

/// What a count's size was written as.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct SizeHeading {
    /// As written.
    pub text: String,
    /// As an interval, when it can be read as one; else a schedule may list it by its text.
    pub interval: Option<SizeInterval>,
}

/// What a cell says about a number of dents. The five stay apart to the last document.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Counted {
    /// A blank beside numbers: rated as no dents, printed as a dash.
    NoneWritten,
    /// Counted.
    Counted(u32),
    /// Estimated: least, best and most as far as stated, and how it was written.
    Estimated {
        /// At least so many.
        low: u32,
        /// Best single number, if there is one.
        best: Option<u32>,
        /// At most so many; `None` for "100+".
        high: Option<u32>,
        /// As written.
        how: String,
    },
    /// Cannot be known from the cell: a question stands on it.
    Open,
}

/// The count of one size on one panel.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TallyEntry {
    /// The size as headed, shared by all rows below one heading.
    pub size: Arc<SizeHeading>,
    /// Where the heading stands.
    pub size_place: Place,
    /// What the cell says.
    pub count: Counted,
    /// The cell.
    pub place: Place,
}
