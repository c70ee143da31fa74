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

impl SizeBand {
    /// Whether a heading is its name, or one of those that it goes by.
    pub fn is_called(&self, heading: &str) -> bool {
        is_same_label(&self.name, heading) || self.goes_by.iter().any(|other| is_same_label(other, heading))
    }
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

/// A printed digit coarser than a tenth of an inch says its edge exactly: quarters and whole inches are not one edge with
/// their neighbours.
pub(super) const COARSEST_DIGIT: Length = Length::from_nanometres(2_540_000);

/// How far apart two edges can be that are one although no printed digit says so: an inch's fraction beside whole
/// millimetres.
const CONVERSION: Length = Length::from_nanometres(500_000);

/// Finds the band of a heading: by a text that a band goes by or is named, else by its interval, which has to lie inside
/// one band. An edge one last printed digit away from a band's edge is that edge (`11-20` beside `10-20`) where the
/// interval lies inside no band otherwise, and only if that leaves one answer.
pub fn fit_size(sizes: &[SizeBand], heading: &SizeHeading) -> SizeFit {
    if let Some(band) = named_band(sizes, heading) {
        return SizeFit::Band(band);
    }
    let Some(interval) = heading.interval.filter(|_| !sizes.is_empty()) else { return SizeFit::Unknown };
    let Some(high) = interval.high else { return SizeFit::Beyond };
    if high < interval.low {
        return SizeFit::Unknown;
    }
    // The band above the lower edge, and the one that the upper edge belongs to.
    let end = sizes.partition_point(|band| band.high < high);
    let first =
        if interval.low == high { end } else { sizes.partition_point(|band| band.high <= interval.low) };
    if first == sizes.len() {
        return SizeFit::Beyond;
    }
    if first == end {
        return SizeFit::Band(first);
    }
    let has_digit = interval.digit > Length::ZERO && interval.digit <= COARSEST_DIGIT;
    let tolerance = if has_digit { interval.digit } else { CONVERSION };
    let near = |edge: Length, other: Length| {
        (edge.nanometres() - other.nanometres()).abs() <= tolerance.nanometres()
    };
    let begins_next = near(sizes[first].high, interval.low);
    let ends_before = near(sizes[end - 1].high, high);
    match (end - first, begins_next, ends_before) {
        (1, true, false) if end < sizes.len() => SizeFit::Band(end),
        (1, false, true) => SizeFit::Band(first),
        (2, true, true) => SizeFit::Band(first + 1),
        _ if end == sizes.len() => SizeFit::Beyond,
        _ => SizeFit::Straddles(first, end),
    }
}

/// The band that goes by the heading's text, or is named so. A name is no proof where the heading's own interval has
/// nothing to do with the band: `10-20` in inches beside a band `10-20` in millimetres.
fn named_band(sizes: &[SizeBand], heading: &SizeHeading) -> Option<usize> {
    let goes_by = |band: &SizeBand| band.goes_by.iter().any(|other| is_same_label(other, &heading.text));
    let meets = |band: &SizeBand| {
        heading.interval.is_none_or(|interval| {
            interval.low < band.high && interval.high.is_none_or(|high| high > band.low)
        })
    };
    sizes
        .iter()
        .position(goes_by)
        .or_else(|| sizes.iter().position(|band| is_same_label(&band.name, &heading.text) && meets(band)))
}

/// Whether two names of sizes are compared as one. Most differ in a letter or digit, which is cheap to see.
fn is_same_label(one: &str, other: &str) -> bool {
    fn signs(text: &str) -> impl Iterator<Item = char> {
        text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase)
    }
    one == other || (signs(one).eq(signs(other)) && label(one) == label(other))
}

/// A size's name as it is compared: lower case, one kind of dash, and spaces only where two words or two numbers would
/// run together. Signs stay: `1/2` is not `1-2`, and `> 20` not `20`.
pub(super) fn label(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut space = false;
    for c in text.chars().flat_map(char::to_lowercase) {
        let c = if matches!(c, '\u{2010}'..='\u{2015}' | '\u{2212}') { '-' } else { c };
        if c.is_whitespace() {
            space = true;
            continue;
        }
        let last = out.chars().next_back();
        let runs_together = last.is_some_and(|last| {
            last.is_numeric() && c.is_numeric() || last.is_alphabetic() && c.is_alphabetic()
        });
        if space && runs_together {
            out.push(' ');
        }
        out.push(c);
        space = false;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::claim::{SizeInterval, SourceId};
    use crate::quantity::LengthUnit::{Inch, Millimetre};
    use crate::quantity::{DecimalMark, LengthUnit};
    use crate::schedule::SizeFit::{Band, Beyond, Straddles, Unknown};

    fn length(text: &str, unit: LengthUnit) -> Length {
        Length::parse(text, unit, DecimalMark::Point).unwrap()
    }

    /// Bands from nothing up, by their upper edges.
    fn bands(tops: &[&str], unit: LengthUnit) -> Vec<SizeBand> {
        let mut low = Length::ZERO;
        let mut bands = Vec::new();
        for top in tops {
            let high = length(top, unit);
            bands.push(SizeBand {
                name: format!("up to {top}"),
                low,
                high,
                goes_by: Vec::new(),
                weight: None,
                place: Place::whole(SourceId(0)),
            });
            low = high;
        }
        bands
    }

    fn heading(low: &str, high: Option<&str>, digit: &str, unit: LengthUnit) -> SizeHeading {
        let interval = SizeInterval {
            low: length(low, unit),
            high: high.map(|high| length(high, unit)),
            digit: length(digit, unit),
        };
        SizeHeading { text: format!("{low} to {high:?}"), interval: Some(interval) }
    }

    fn fit_mm(tops: &[&str], low: &str, high: &str) -> SizeFit {
        fit_size(&bands(tops, Millimetre), &heading(low, Some(high), "1", Millimetre))
    }

    fn fit_in(tops: &[&str], low: &str, high: &str, digit: &str) -> SizeFit {
        fit_size(&bands(tops, Inch), &heading(low, Some(high), digit, Inch))
    }

    #[test]
    fn both_ways_to_print_the_same_bands_fit_them() {
        let tops = ["10", "20", "30"];
        for (low, high, band) in
            [("0", "10", 0), ("10", "20", 1), ("11", "20", 1), ("21", "30", 2), ("1", "10", 0)]
        {
            assert_eq!(fit_mm(&tops, low, high), Band(band), "{low}-{high}");
        }
        // Printed by their last whole millimetre below the edge, and against bands that were printed so.
        assert_eq!(fit_mm(&tops, "10", "19"), Band(1));
        assert_eq!(fit_mm(&["9", "19", "29"], "0", "10"), Band(0));
        assert_eq!(fit_mm(&["9", "19", "29"], "10", "20"), Band(1));
        assert_eq!(fit_mm(&["9", "19", "29"], "20", "30"), Band(2));
    }

    #[test]
    fn a_size_inside_a_larger_band_fits_it() {
        assert_eq!(fit_mm(&["10", "20"], "3", "4"), Band(0));
        assert_eq!(fit_mm(&["10", "20"], "9", "10"), Band(0));
        assert_eq!(fit_mm(&["10", "20"], "10", "11"), Band(1));
        assert_eq!(fit_mm(&["25", "50"], "0", "25"), Band(0));
    }

    #[test]
    fn a_size_over_an_edge_straddles_and_names_both_bands() {
        assert_eq!(fit_mm(&["10", "20", "30"], "5", "15"), Straddles(0, 1));
        assert_eq!(fit_mm(&["10", "20", "30"], "0", "30"), Straddles(0, 2));
        assert_eq!(fit_mm(&["10", "20", "30"], "0", "12"), Straddles(0, 1));
        assert_eq!(fit_mm(&["10", "20", "30"], "8", "20"), Straddles(0, 1));
    }

    #[test]
    fn one_digit_on_both_sides_of_an_edge_is_no_answer() {
        assert_eq!(fit_mm(&["5", "10"], "4", "6"), Straddles(0, 1));
        assert_eq!(fit_mm(&["10", "20", "30"], "9", "21"), Band(1));
    }

    #[test]
    fn beyond_the_largest_band_is_beyond_wholly_or_partly() {
        let tops = ["10", "20"];
        assert_eq!(fit_mm(&tops, "20", "40"), Beyond);
        assert_eq!(fit_mm(&tops, "15", "40"), Beyond);
        assert_eq!(fit_mm(&tops, "30", "40"), Beyond);
        assert_eq!(fit_mm(&tops, "11", "21"), Band(1), "one printed digit");
        assert_eq!(fit_size(&bands(&tops, Millimetre), &heading("20", None, "1", Millimetre)), Beyond);
        assert_eq!(fit_size(&bands(&tops, Millimetre), &heading("5", None, "1", Millimetre)), Beyond);
    }

    #[test]
    fn a_single_size_belongs_to_the_band_it_closes() {
        assert_eq!(fit_mm(&["10", "20"], "10", "10"), Band(0));
        assert_eq!(fit_mm(&["10", "20"], "12", "12"), Band(1));
        assert_eq!(fit_mm(&["10", "20"], "0", "0"), Band(0));
        assert_eq!(fit_mm(&["10", "20"], "40", "40"), Beyond);
    }

    #[test]
    fn fractions_of_an_inch_are_exact() {
        let tops = ["1/2", "3/4", "1"];
        assert_eq!(fit_in(&tops, "0", "1/2", "1/2"), Band(0));
        assert_eq!(fit_in(&tops, "1/2", "3/4", "1/4"), Band(1));
        assert_eq!(fit_in(&tops, "9/16", "3/4", "0"), Band(1));
        assert_eq!(fit_in(&tops, "1/2", "3/4", "0"), Band(1));
        assert_eq!(fit_in(&tops, "3/4", "1", "1/4"), Band(2));
        assert_eq!(fit_in(&["1/2", "1"], "1/4", "1/2", "1/4"), Band(0));
        // A quarter inch away is another edge, though it is one step of the printed fraction.
        assert_eq!(fit_in(&["1/2", "1"], "1/4", "3/4", "1/4"), Straddles(0, 1));
        assert_eq!(fit_in(&["1/2", "1"], "1/4", "5/8", "0"), Straddles(0, 1));
        assert_eq!(fit_in(&["1/4", "1/2", "3/4"], "0", "1/2", "1/2"), Straddles(0, 1));
        assert_eq!(fit_in(&["1", "2"], "0", "2", "1"), Straddles(0, 1));
        assert_eq!(fit_in(&["0.5", "1.0"], "0.6", "1.0", "0.1"), Band(1));
    }

    #[test]
    fn millimetres_fit_bands_in_inches_to_the_printed_millimetre() {
        let inches = bands(&["1/2", "1"], Inch);
        assert_eq!(fit_size(&inches, &heading("0", Some("13"), "1", Millimetre)), Band(0));
        assert_eq!(fit_size(&inches, &heading("13", Some("25"), "1", Millimetre)), Band(1));
        assert_eq!(fit_size(&inches, &heading("0", Some("15"), "1", Millimetre)), Straddles(0, 1));
        let millimetres = bands(&["13", "25"], Millimetre);
        assert_eq!(fit_size(&millimetres, &heading("1/2", Some("1"), "0", Inch)), Band(1));
        assert_eq!(fit_size(&millimetres, &heading("1/2", Some("1"), "1/2", Inch)), Band(1));
        assert_eq!(fit_size(&millimetres, &heading("1/2", Some("1 1/16"), "0", Inch)), Beyond);
    }

    #[test]
    fn a_heading_that_a_band_goes_by_is_taken_as_said() {
        let mut sizes = bands(&["10", "20"], Millimetre);
        sizes[1].goes_by = vec!["Medium".to_owned(), "0-30 mm".to_owned()];
        let by_text =
            |text: &str, interval| fit_size(&sizes, &SizeHeading { text: text.to_owned(), interval });
        assert_eq!(by_text("medium ", None), Band(1));
        assert_eq!(by_text("0 \u{2013} 30 mm", heading("0", Some("30"), "1", Millimetre).interval), Band(1));
        assert_eq!(by_text("Up to 10", None), Band(0));
        assert_eq!(by_text("large", None), Unknown);
        assert_eq!(fit_size(&[], &heading("0", Some("10"), "1", Millimetre)), Unknown);
    }

    #[test]
    fn a_bands_name_counts_only_where_the_interval_meets_it() {
        let mut sizes = bands(&["10", "40"], Millimetre);
        sizes[0].name = "0-10".to_owned();
        sizes[1].name = "10+".to_owned();
        let named = |text: &str, interval: SizeHeading| SizeHeading { text: text.to_owned(), ..interval };
        assert_eq!(fit_size(&sizes, &named("10+", heading("10", None, "1", Millimetre))), Band(1));
        assert_eq!(fit_size(&sizes, &named("10+", heading("10", None, "1", Inch))), Beyond);
        assert_eq!(fit_size(&sizes, &named("0-10", heading("0", Some("5"), "1", Millimetre))), Band(0));
    }

    #[test]
    fn an_interval_upside_down_is_unknown() {
        assert_eq!(fit_mm(&["10", "20"], "20", "10"), Unknown);
    }

    #[test]
    fn names_are_compared_without_case_and_loose_spaces_and_with_their_signs() {
        assert_eq!(label("0 \u{2013} 10 MM"), label("0-10mm"));
        assert_eq!(label("  Small  Dents "), label("small dents"));
        assert_ne!(label("1/2 in"), label("1-2 in"));
        assert_ne!(label("> 20"), label("20"));
        assert_ne!(label("1 1/2"), label("11/2"));
    }
}
