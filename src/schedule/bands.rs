use crate::claim::{Place, SizeHeading};
use crate::quantity::{Decimal, Length};

/// A band of dent diameters. A dent exactly at the upper edge belongs to it.
#[derive(Debug, Clone, PartialEq)]
pub struct SizeBand {
    /// Its name as printed.
    pub name: String,
    /// Lower edge, not included (except zero).
    pub low: Length,
    /// Upper edge, included.
    pub high: Length,
    /// Other headings that mean this band, as written (a coin, "small").
    pub goes_by: Vec<String>,
    /// Weight of one dent where dents are counted as equivalents.
    pub weight: Option<Decimal>,
    /// Its row.
    pub place: Place,
}

/// A band of dent counts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CountBand {
    /// Its name as printed.
    pub name: String,
    /// Fewest dents.
    pub from: u32,
    /// Most dents; `None` is open-ended (last band only).
    pub to: Option<u32>,
    /// Its row.
    pub place: Place,
}

/// What a size as headed on a count sheet is in a schedule's bands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SizeFit {
    /// Inside this band (by its number).
    Band(usize),
    /// Over several bands: the first and the last.
    Straddles(usize, usize),
    /// Wholly or partly beyond the largest band: such dents are measured one by one.
    Beyond,
    /// No interval, and no band goes by that text.
    Unknown,
}

/// Finds the band of a heading: by a text that a band goes by, else by its interval, which has to lie inside one band.
/// An edge one last printed digit away from a band's edge is that edge (`11-20` beside `10-20`).
pub fn fit_size(sizes: &[SizeBand], heading: &SizeHeading) -> SizeFit {
    use crate::claim::words::folded;
    let text = folded(&heading.text);
    if let Some(index) = sizes
        .iter()
        .position(|band| folded(&band.name) == text || band.goes_by.iter().any(|other| folded(other) == text))
    {
        return SizeFit::Band(index);
    }
    let (Some(interval), Some(last)) = (heading.interval, sizes.last()) else { return SizeFit::Unknown };
    let digit = interval.digit;
    let near = |a: Length, b: Length| (a.nanometres() - b.nanometres()).abs() <= digit.nanometres();
    let Some(high) = interval.high else { return SizeFit::Beyond };
    if high > last.high && !near(high, last.high) {
        return SizeFit::Beyond;
    }
    // The band that the lower edge opens: a lower edge at a band's top belongs to the next band.
    let first = sizes.iter().position(|band| {
        interval.low < band.high && !(interval.low > band.low && near(interval.low, band.high))
    });
    // The band that the upper edge closes.
    let end = sizes.iter().position(|band| high <= band.high || near(high, band.high));
    match (first, end) {
        (Some(first), Some(end)) if first == end => SizeFit::Band(first),
        (Some(first), Some(end)) => SizeFit::Straddles(first.min(end), first.max(end)),
        _ => SizeFit::Beyond,
    }
}
