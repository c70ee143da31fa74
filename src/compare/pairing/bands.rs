use crate::claim::{Cause, Counted, Inspection, MarkKind, PanelCount, SizeHeading};
use crate::quantity::Length;
use crate::schedule::{SizeBand, SizeFit, fit_size};
use std::collections::BTreeSet;
use std::ops::RangeInclusive;

/// How far apart two edges can be that are one although no printed digit says so: an inch's fraction beside whole
/// millimetres.
const CONVERSION: Length = Length::from_nanometres(500_000);

/// A band that counts of two looks are brought into.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum CommonBand {
    /// Between two edges; without an upper one what lies beyond.
    Between(Length, Option<Length>),
    /// A size that both call by this name.
    Named(String),
}

/// The bands that two looks share: those of a schedule, else those between edges that the headings of both have, and names
/// that both use.
#[derive(Debug, Clone, PartialEq)]
pub struct CommonBands<'s> {
    bands: Vec<CommonBand>,
    schedule: Option<&'s [SizeBand]>,
}

/// Fewest and most dents of one band; equal where the counts say exactly.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Bounds {
    /// Fewest.
    pub fewest: u32,
    /// Most.
    pub most: u32,
}

impl Bounds {
    /// Whether it is one number.
    pub const fn is_exact(self) -> bool {
        self.fewest == self.most
    }

    /// Whether both could be one number.
    pub const fn meets(self, other: Self) -> bool {
        self.fewest <= other.most && other.fewest <= self.most
    }
}

impl<'s> CommonBands<'s> {
    /// Those of a schedule, and what lies beyond them.
    pub fn of_schedule(sizes: &'s [SizeBand]) -> Self {
        let mut bands: Vec<CommonBand> =
            sizes.iter().map(|band| CommonBand::Between(band.low, Some(band.high))).collect();
        bands.extend(sizes.last().map(|last| CommonBand::Between(last.high, None)));
        Self { bands, schedule: Some(sizes) }
    }

    /// Those of the headings of two looks. Where they share no more than their outermost edges, nothing is finer than the
    /// panel's total, and there are none.
    pub fn of_headings(a: &Inspection, b: &Inspection) -> Self {
        let (of_a, of_b) = (headings(a), headings(b));
        let edges_of = |headings: &[&SizeHeading]| -> BTreeSet<Length> {
            let intervals = headings.iter().filter_map(|heading| heading.interval);
            intervals.flat_map(|interval| [Some(interval.low), interval.high]).flatten().collect()
        };
        let tolerance = tolerance(of_a.iter().chain(&of_b).copied());
        let is_near = |edge: Length, other: Length| apart(edge, other) <= tolerance.nanometres();
        let (edges_a, edges_b) = (edges_of(&of_a), edges_of(&of_b));
        let mut edges: Vec<Length> = Vec::new();
        for edge in edges_a.iter().copied().filter(|edge| edges_b.iter().any(|other| is_near(*edge, *other)))
        {
            // Two edges one printed digit apart are one: the lower of them stands, as a lower band prints its top.
            if edges.last().is_none_or(|last| !is_near(*last, edge)) {
                edges.push(edge);
            }
        }
        let mut bands: Vec<CommonBand> =
            edges.windows(2).map(|pair| CommonBand::Between(pair[0], Some(pair[1]))).collect();
        let has_more = |headings: &[&SizeHeading], last: Length| {
            headings
                .iter()
                .filter_map(|heading| heading.interval)
                .any(|interval| interval.high.is_none_or(|high| high > last && !is_near(high, last)))
        };
        if let Some(last) = edges.last().filter(|last| has_more(&of_a, **last) || has_more(&of_b, **last)) {
            bands.push(CommonBand::Between(*last, None));
        }
        let named = |headings: &[&SizeHeading]| -> BTreeSet<String> {
            let names = headings.iter().filter(|heading| heading.interval.is_none());
            names.map(|heading| heading.text.trim().to_lowercase()).collect()
        };
        bands.extend(named(&of_a).intersection(&named(&of_b)).cloned().map(CommonBand::Named));
        if bands.len() < 2 {
            bands.clear();
        }
        Self { bands, schedule: None }
    }

    /// The bands.
    pub fn bands(&self) -> &[CommonBand] {
        &self.bands
    }

    /// The bands in which dents below a heading may lie, by number; all of them where the heading says nothing.
    fn of_heading(&self, heading: &SizeHeading) -> RangeInclusive<usize> {
        let last = self.bands.len().saturating_sub(1);
        if let Some(sizes) = self.schedule {
            match fit_size(sizes, heading) {
                SizeFit::Band(band) => return band..=band,
                SizeFit::Straddles(first, last) => return first..=last,
                SizeFit::Unknown => return 0..=last,
                SizeFit::Beyond => {}
            }
        }
        let Some(interval) = heading.interval else {
            let name = heading.text.trim().to_lowercase();
            let number = self.bands.iter().position(|band| *band == CommonBand::Named(name.clone()));
            return number.map_or(0..=last, |number| number..=number);
        };
        let tolerance = tolerance([heading].into_iter()).nanometres();
        let (low, high) = (interval.low.nanometres(), interval.high.map(Length::nanometres));
        let meets = |band: &CommonBand| match band {
            CommonBand::Between(from, to) => {
                let begins_before = high.is_none_or(|high| high - from.nanometres() > tolerance);
                begins_before && to.is_none_or(|to| to.nanometres() - low > tolerance)
            }
            CommonBand::Named(_) => false,
        };
        let first = self.bands.iter().position(meets);
        let end = self.bands.iter().rposition(meets);
        first.zip(end).map_or(0..=last, |(first, end)| first..=end)
    }

    /// A panel's dents in all and in each band; nothing where a count is no number. Dents measured one by one count as one
    /// each, in the bands of their length.
    pub fn dents(&self, panel: &PanelCount) -> Option<(u32, Vec<Bounds>)> {
        let mut bands = vec![Bounds::default(); self.bands.len()];
        let mut total = 0_u32;
        let mut add = |dents: u32, range: RangeInclusive<usize>| -> Option<()> {
            total = total.checked_add(dents)?;
            let is_exact = range.start() == range.end();
            for bounds in bands.get_mut(range).unwrap_or_default() {
                bounds.most = bounds.most.checked_add(dents)?;
                bounds.fewest += if is_exact { dents } else { 0 };
            }
            Some(())
        };
        for entry in &panel.tally {
            let dents = match entry.count {
                Counted::Counted(dents) | Counted::Estimated { best: Some(dents), .. } => dents,
                Counted::NoneWritten => 0,
                Counted::Estimated { best: None, .. } | Counted::Open => return None,
            };
            add(dents, self.of_heading(&entry.size))?;
        }
        for mark in &panel.marks {
            let is_dent = matches!(mark.kind.value, MarkKind::Dent | MarkKind::OversizeDent);
            if is_dent && mark.cause.is_none_or(|cause| cause.value == Cause::ThisEvent) {
                let text = String::new();
                let interval = mark.length.map(|length| crate::claim::SizeInterval {
                    low: length.value,
                    high: Some(length.value),
                    digit: Length::ZERO,
                });
                add(1, self.of_length(&SizeHeading { text, interval }))?;
            }
        }
        Some((total, bands))
    }

    /// A length at an edge belongs to the band below it.
    fn of_length(&self, heading: &SizeHeading) -> RangeInclusive<usize> {
        let Some(length) = heading.interval.map(|interval| interval.low) else {
            return self.of_heading(heading);
        };
        let is_in = |band: &CommonBand| match band {
            CommonBand::Between(from, to) => *from <= length && to.is_none_or(|to| length <= to),
            CommonBand::Named(_) => false,
        };
        self.bands.iter().position(is_in).map_or_else(|| 0..=self.bands.len().saturating_sub(1), |at| at..=at)
    }
}

/// Every heading of a look once.
fn headings(look: &Inspection) -> Vec<&SizeHeading> {
    let mut headings: Vec<&SizeHeading> = Vec::new();
    for entry in look.panels.iter().flat_map(|panel| &panel.tally) {
        if !headings.contains(&&*entry.size) {
            headings.push(&entry.size);
        }
    }
    headings
}

/// Edges so far apart are one: a last printed digit of either look, at least what a conversion leaves.
fn tolerance<'h>(headings: impl Iterator<Item = &'h SizeHeading>) -> Length {
    let digits = headings.filter_map(|heading| heading.interval).map(|interval| interval.digit);
    // A coarser digit says its edge exactly, as where the engine looks for a band.
    let fine = digits.filter(|digit| digit.nanometres() <= 2_540_000);
    fine.fold(CONVERSION, Ord::max)
}

const fn apart(a: Length, b: Length) -> i64 {
    (a.nanometres() - b.nanometres()).abs()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::claim::{PanelId, PanelKind, Place, SizeInterval, SourceId, TallyEntry};
    use std::sync::Arc;

    fn mm(of: i64) -> Length {
        Length::from_nanometres(of * 1_000_000)
    }

    /// A look at a hood: dents between millimetres.
    fn look(counts: &[(i64, Option<i64>, u32)]) -> Inspection {
        let place = Place::whole(SourceId(0));
        let mut panel = PanelCount::new(PanelId::new(PanelKind::Hood, None), place);
        for (low, high, dents) in counts {
            let interval = SizeInterval { low: mm(*low), high: high.map(mm), digit: mm(1) };
            let size = Arc::new(SizeHeading { text: format!("{low}-{high:?}"), interval: Some(interval) });
            panel.tally.push(TallyEntry { size, size_place: place, count: Counted::Counted(*dents), place });
        }
        Inspection { assessor: None, date: None, location: None, pass: None, role: None, panels: vec![panel] }
    }

    fn dents(bands: &CommonBands<'_>, look: &Inspection) -> Vec<(u32, u32)> {
        let (_, bands) = bands.dents(&look.panels[0]).unwrap();
        bands.into_iter().map(|bounds| (bounds.fewest, bounds.most)).collect()
    }

    #[test]
    fn bands_between_common_edges_are_summed_exactly() {
        // 0-10, 11-20, 21-40 beside 0-20, 20-30, 30-40: the edges 0, 20 and 40 are common.
        let a = look(&[(0, Some(10), 7), (11, Some(20), 3), (21, Some(40), 2)]);
        let b = look(&[(0, Some(20), 11), (20, Some(30), 1), (30, Some(40), 4)]);
        let bands = CommonBands::of_headings(&a, &b);
        assert_eq!(bands.bands().len(), 2);
        assert_eq!(dents(&bands, &a), [(10, 10), (2, 2)]);
        assert_eq!(dents(&bands, &b), [(11, 11), (5, 5)]);
    }

    #[test]
    fn where_only_the_outermost_edges_are_common_the_total_stands_alone() {
        let a = look(&[(0, Some(15), 7), (15, Some(40), 3)]);
        let b = look(&[(0, Some(25), 11), (25, Some(40), 1)]);
        let bands = CommonBands::of_headings(&a, &b);
        assert!(bands.bands().is_empty());
        assert_eq!(bands.dents(&a.panels[0]).unwrap().0, 10);
    }

    #[test]
    fn what_one_side_alone_has_beyond_the_last_common_edge_is_a_band_of_its_own() {
        let a = look(&[(0, Some(20), 7), (20, Some(40), 3)]);
        let b = look(&[(0, Some(20), 6), (20, Some(40), 3), (40, None, 2)]);
        let bands = CommonBands::of_headings(&a, &b);
        assert_eq!(dents(&bands, &a), [(7, 7), (3, 3), (0, 0)]);
        assert_eq!(dents(&bands, &b), [(6, 6), (3, 3), (2, 2)]);
    }

    #[test]
    fn a_column_over_an_edge_is_an_interval() {
        let bands = CommonBands {
            bands: vec![CommonBand::Between(mm(0), Some(mm(20))), CommonBand::Between(mm(20), Some(mm(40)))],
            schedule: None,
        };
        let found = dents(&bands, &look(&[(0, Some(10), 4), (10, Some(30), 5), (30, Some(40), 1)]));
        assert_eq!(found, [(4, 9), (1, 6)]);
        let [low, high] = [Bounds { fewest: 4, most: 9 }, Bounds { fewest: 9, most: 9 }];
        assert!(low.meets(high) && !low.is_exact() && high.is_exact());
    }
}
