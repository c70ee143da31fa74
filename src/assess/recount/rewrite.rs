//! A panel as it would have been counted otherwise.

use crate::assess::PanelAssessment;
use crate::claim::{Counted, PanelCount, SizeHeading, TallyEntry};
use crate::schedule::Schedule;
use std::sync::Arc;

/// The dents of one band that can be counted otherwise: those that were not measured one by one.
pub(super) fn counted(panel: &PanelAssessment, size: usize) -> u32 {
    panel.counts.get(size).map_or(0, |count| count.dents().saturating_sub(count.from_marks))
}

/// Writes one number for a band in place of all its columns.
pub(super) fn put(
    written: &mut PanelCount,
    panel: &PanelAssessment,
    schedule: &Schedule,
    size: usize,
    count: u32,
) {
    let cells = &panel.counts[size].cells;
    written.tally.retain(|entry| !cells.contains(&entry.place));
    let size = Arc::new(SizeHeading { text: schedule.sizes[size].name.clone(), interval: None });
    let place = cells.first().copied().unwrap_or(written.place);
    written.tally.push(TallyEntry { size, size_place: place, count: Counted::Counted(count), place });
}

/// Writes every band that `by` changes; `None` where more would be taken away than was counted.
pub(super) fn put_all(
    written: &mut PanelCount,
    panel: &PanelAssessment,
    schedule: &Schedule,
    by: &[i32],
) -> Option<()> {
    for (size, by) in by.iter().enumerate().filter(|(_, by)| **by != 0) {
        let count = counted(panel, size).checked_add_signed(*by)?;
        put(written, panel, schedule, size, count);
    }
    Some(())
}
