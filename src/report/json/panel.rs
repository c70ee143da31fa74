//! A panel's assessment as data.

use super::written::{Cells, CountView};
use crate::assess::{
    Alternative, Crossing, Finding, Line, MarkAssessment, OpenReason, Overruled, PanelAssessment,
};
use crate::claim::PanelId;
use crate::report::tables::{lines, panels};
use crate::report::{Subject, wording};
use serde::Serialize;

/// One panel, counted, rated and decided.
#[derive(Debug, Serialize)]
pub struct PanelView {
    panel: String,
    /// Numbers of the inspection and of the panel in it, as `written` lists them.
    inspection: usize,
    index: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    rated_as: Option<String>,
    state: &'static str,
    counts: Vec<SizeView>,
    dents: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    rated_at: Option<RatedAt>,
    marks: Vec<MarkFate>,
    limits: Vec<FindingView>,
    methods: Vec<AlternativeView>,
    method: &'static str,
    /// Number among `limits` of the one that decided.
    #[serde(skip_serializing_if = "Option::is_none")]
    decided_by: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    overruled: Option<OverruledView>,
    #[serde(skip_serializing_if = "Option::is_none")]
    open: Option<OpenView>,
    #[serde(skip_serializing_if = "Option::is_none")]
    amount: Option<String>,
}

#[derive(Debug, Serialize)]
struct SizeView {
    size: String,
    count: CountView,
    measured: u32,
    cells: Vec<String>,
}

#[derive(Debug, Serialize)]
struct RatedAt {
    size: String,
    count: String,
}

/// What became of a mark, in the order in which the inspection lists them.
#[derive(Debug, Serialize)]
#[serde(tag = "is", rename_all = "snake_case")]
enum MarkFate {
    Counted { size: String },
    Rated,
    Noted,
    NotPaid,
    NotPriced,
}

#[derive(Debug, Serialize)]
struct FindingView {
    limit: String,
    row: u32,
    at: String,
    when: String,
    measured: String,
    crossed: &'static str,
    then: &'static str,
    cells: Vec<String>,
}

/// One way of repair: its amount, or why there is none.
#[derive(Debug, Serialize)]
struct AlternativeView {
    method: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    amount: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    not_priced: Option<String>,
    typical: bool,
    step: u32,
    lines: Vec<LineView>,
}

#[derive(Debug, Serialize)]
struct OverruledView {
    /// Number among the overrules as `written` lists them.
    overrule: usize,
    schedule_decides: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    difference: Option<String>,
}

#[derive(Debug, Serialize)]
struct OpenView {
    is: &'static str,
    because: String,
}

/// One amount; without a working, `step` means nothing.
#[derive(Debug, Serialize)]
pub struct LineView {
    /// Its number on the documents, where it enters the totals.
    #[serde(skip_serializing_if = "Option::is_none")]
    number: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    panel: Option<String>,
    kind: &'static str,
    words: String,
    amount: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    labour: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hours: Option<String>,
    tax_percent: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    rate_at: Option<String>,
    step: u32,
}

impl LineView {
    /// Whether it belongs to a panel.
    pub fn is_of(&self, panel: &str) -> bool {
        self.panel.as_deref() == Some(panel)
    }

    /// A line of a panel or of the vehicle, numbered where it enters the totals.
    pub fn new(line: &Line, number: Option<usize>, panel: Option<PanelId>, subject: &Subject<'_>) -> Self {
        Self {
            number,
            panel: panel.map(|panel| panel.to_string()),
            kind: lines::kind(&line.kind),
            words: wording::line(line, panel, subject),
            amount: line.amount.to_string(),
            labour: line.hours.map(|(class, _)| class.name()),
            hours: line.hours.map(|(_, hours)| hours.to_string()),
            tax_percent: line.tax.to_string(),
            rate_at: line.cite.map(|place| subject.sources.short(place)),
            step: line.step.0,
        }
    }
}

impl PanelView {
    /// Whether it is the panel of a name.
    pub fn is(&self, name: &str) -> bool {
        self.panel == name
    }

    /// A panel's.
    pub fn new(panel: &PanelAssessment, subject: &Subject<'_>) -> Self {
        let schedule = subject.schedule;
        let cells = Cells(subject.sources);
        let sizes = schedule.sizes.iter().zip(&panel.counts);
        Self {
            panel: panel.panel.to_string(),
            inspection: panel.inspection,
            index: panel.index,
            rated_as: panel.group.and_then(|group| schedule.groups.get(usize::from(group.0))).cloned(),
            state: panels::state(panel.state),
            counts: sizes
                .map(|(band, size)| SizeView {
                    size: band.name.clone(),
                    count: (&size.count).into(),
                    measured: size.from_marks,
                    cells: cells.all(&size.cells),
                })
                .collect(),
            dents: panel.dents,
            rated_at: panel.rated_at.map(|(size, count)| RatedAt {
                size: schedule.sizes[size].name.clone(),
                count: schedule.counts[count].name.clone(),
            }),
            marks: panel.marks.iter().map(|mark| fate(mark, subject)).collect(),
            limits: panel.findings.iter().map(|found| finding(found, subject)).collect(),
            methods: panel.alternatives.iter().map(|way| alternative(way, panel.panel, subject)).collect(),
            method: panel.method.name(),
            decided_by: panel.decided_by,
            overruled: panel.overruled.as_ref().map(overruled),
            open: panel.open.map(|reason| OpenView {
                is: match reason {
                    OpenReason::Referred => "referred",
                    OpenReason::NotPriced(_) => "not_priced",
                },
                because: wording::open(reason, subject),
            }),
            amount: panel.amount().map(|amount| amount.to_string()),
        }
    }
}

fn fate(mark: &MarkAssessment, subject: &Subject<'_>) -> MarkFate {
    match mark {
        MarkAssessment::Counted(size) => {
            MarkFate::Counted { size: subject.schedule.sizes[*size].name.clone() }
        }
        MarkAssessment::Rated => MarkFate::Rated,
        MarkAssessment::Noted => MarkFate::Noted,
        MarkAssessment::Excluded => MarkFate::NotPaid,
        MarkAssessment::NotPriced => MarkFate::NotPriced,
    }
}

fn finding(finding: &Finding, subject: &Subject<'_>) -> FindingView {
    let limit = &subject.schedule.limits[finding.limit];
    let cells = Cells(subject.sources);
    FindingView {
        limit: limit.name.clone(),
        row: limit.number,
        at: cells.at(limit.place),
        when: wording::limit(limit, subject),
        measured: wording::measured(finding),
        crossed: match finding.crossing {
            Crossing::No => "no",
            Crossing::Yes => "yes",
            Crossing::CannotTell => "cannot_tell",
        },
        then: limit.then.name(),
        cells: cells.all(&finding.cells),
    }
}

fn alternative(way: &Alternative, panel: PanelId, subject: &Subject<'_>) -> AlternativeView {
    AlternativeView {
        method: way.method.name(),
        amount: way.amount.ok().map(|amount| amount.to_string()),
        not_priced: way.amount.err().map(|why| wording::unpriced(why, subject)),
        typical: way.typical,
        step: way.step.0,
        lines: way.lines.iter().map(|line| LineView::new(line, None, Some(panel), subject)).collect(),
    }
}

fn overruled(overruled: &Overruled) -> OverruledView {
    OverruledView {
        overrule: overruled.overrule,
        schedule_decides: overruled.schedule_says.name(),
        difference: overruled.difference.map(|difference| difference.to_string()),
    }
}
