use crate::claim::{Place, SourceId};
use crate::problem::Sources;
use crate::report::Subject;
use std::collections::BTreeMap;

/// Short names for the sheets that a document cites: `s1`, `s2`, in the order in which they were read. A cell is then
/// `s2 D14`, and the list of files says which sheet s2 is.
#[derive(Debug, Default)]
pub(super) struct Sheets {
    numbers: BTreeMap<SourceId, usize>,
}

impl Sheets {
    /// Names for all sheets that hold a row of the claim or a cell that its assessment rests on.
    pub fn of(subject: &Subject<'_>) -> Self {
        let mut used = subject.claim.sources.clone();
        used.insert(subject.schedule.place.source);
        used.insert(subject.schedule.terms.place.source);
        let assessment = subject.assessment;
        let steps = assessment.working.iter().flat_map(|working| &working.steps);
        used.extend(steps.flat_map(|step| &step.cells).map(|place| place.source));
        for panel in &assessment.panels {
            let limits =
                panel.findings.iter().map(|finding| subject.schedule.limits[finding.limit].place.source);
            used.extend(limits);
        }
        let numbers = used.into_iter().enumerate().map(|(index, source)| (source, index + 1)).collect();
        Self { numbers }
    }

    /// The sheets with their short names, in order.
    pub fn named(&self) -> impl Iterator<Item = (SourceId, String)> {
        self.numbers.iter().map(|(source, number)| (*source, format!("s{number}")))
    }

    /// A cell in short: `s2 D14`; in full where its sheet has no short name.
    pub fn cell(&self, place: Place, sources: &Sources) -> String {
        let position = Sources::position(place);
        match self.numbers.get(&place.source) {
            Some(number) if position.is_empty() => format!("s{number}"),
            Some(number) => format!("s{number} {position}"),
            None => sources.short(place),
        }
    }

    /// Several cells in short, the sheet named once for each run of its cells: `s2 D14, E14`.
    pub fn cells(&self, places: &[Place], sources: &Sources) -> String {
        let mut out = String::new();
        let mut last = None;
        for place in places {
            if !out.is_empty() {
                out.push_str(", ");
            }
            let position = Sources::position(*place);
            if last == Some(place.source) && !position.is_empty() {
                out.push_str(&position);
            } else {
                out.push_str(&self.cell(*place, sources));
            }
            last = Some(place.source);
        }
        out
    }
}
