//! The working of one claim as a tree for the terminal: every amount with its rule, its numbers and the cells it came
//! from, alternatives and limits beside what was decided.

mod draw;
mod steps;

use super::{Subject, wording};
use crate::assess::{Alternative, Crossing, Finding, Line, PanelAssessment, PanelState, StepId};
use crate::claim::{PanelId, Place};
use steps::Steps;

/// One row of the tree, and what stands below it.
#[derive(Debug, Default)]
struct Node {
    /// What it is, and how it came about.
    text: String,
    /// The figure, as documents print it.
    figure: String,
    /// The cells it rests on, in short.
    cells: String,
    /// What it follows from.
    below: Vec<Node>,
}

impl Node {
    fn new(text: impl Into<String>) -> Self {
        Self { text: text.into(), ..Self::default() }
    }

    fn figure(mut self, figure: impl Into<String>) -> Self {
        self.figure = figure.into();
        self
    }

    fn below(mut self, below: impl IntoIterator<Item = Self>) -> Self {
        self.below.extend(below);
        self
    }
}

/// The tree of a claim, or of some of its panels alone, as text without colours. Without a recorded working it shows
/// the amounts and the cells of their rates.
pub fn explain(subject: &Subject<'_>, panels: Option<&[PanelId]>) -> String {
    let steps = Steps::new(subject);
    let assessment = subject.assessment;
    let is_shown = |panel: &&PanelAssessment| panels.is_none_or(|wanted| wanted.contains(&panel.panel));
    let mut nodes = vec![head(subject)];
    nodes.extend(assessment.panels.iter().filter(is_shown).map(|of| panel(of, subject, &steps)));
    if panels.is_none() {
        nodes.extend(vehicle(subject, &steps));
        nodes.push(totals(subject, &steps));
        nodes.push(screen(subject, &steps));
        nodes.extend(wording::titles(subject).into_iter().map(Node::new));
        nodes.push(settlement(subject, &steps));
        nodes.extend(notes(subject));
    }
    draw::text(&nodes)
}

fn head(subject: &Subject<'_>) -> Node {
    let terms = &subject.schedule.terms;
    let (name, edition) = (wording::said(&terms.name.value), wording::said(&terms.edition.value));
    let gross = wording::amount(subject.assessment.totals.gross);
    Node::new(format!("{}, gross in {}", wording::said(&subject.claim.key.text), subject.assessment.currency))
        .figure(gross)
        .below([
            Node::new(wording::headline(subject)),
            Node::new(format!("{name}, edition {edition}; {}", wording::dated(subject.assessment))),
            Node::new(format!(
                "{}; rounded {}",
                wording::mixed(subject.schedule),
                terms.rounding.value.words()
            )),
        ])
}

fn panel(panel: &PanelAssessment, subject: &Subject<'_>, steps: &Steps<'_>) -> Node {
    let title = format!("{}: {}", panel.panel, wording::method_of(panel));
    if panel.state != PanelState::Assessed {
        return Node::new(title);
    }
    let mut node = Node::new(title).figure(panel.amount().map(wording::amount).unwrap_or_default());
    node.below.extend(panel.overruled.as_ref().map(|it| Node::new(wording::overruled(it, subject))));
    let range = subject.assessment.range.as_ref();
    let range = range.and_then(|range| wording::panel_range(panel.panel, panel.method, range));
    node.below.extend(range.map(Node::new));
    let open = panel.open.map(|why| format!("open, in no total: {}", wording::open(why, subject)));
    node.below.extend(open.map(Node::new));
    if let Some(chosen) = panel.chosen() {
        node.below.extend(chosen.lines.iter().map(|of| line(of, Some(panel.panel), subject, steps)));
    }
    let others = panel.alternatives.iter().filter(|other| other.method != panel.method);
    let others = others.map(|other| alternative(other, panel, subject, steps));
    node.below.push(Node::new("other ways of repair").below(others));
    if !panel.findings.is_empty() {
        let findings =
            panel.findings.iter().enumerate().map(|(index, of)| finding(index, of, panel, subject));
        node.below.push(Node::new("limits").below(findings));
    }
    let marks = panel.marks.iter().enumerate().filter_map(|(index, fate)| {
        let mark = wording::mark(panel, index, subject)?;
        Some(Node::new(format!("{mark}: {}", wording::mark_outcome(fate, subject))))
    });
    let marks: Vec<Node> = marks.collect();
    if !marks.is_empty() {
        node.below.push(Node::new("marks").below(marks));
    }
    node
}

fn line(line: &Line, panel: Option<PanelId>, subject: &Subject<'_>, steps: &Steps<'_>) -> Node {
    steps.amount(&wording::line(line, panel, subject), line.amount, line.step, line.cite)
}

fn alternative(
    other: &Alternative,
    panel: &PanelAssessment,
    subject: &Subject<'_>,
    steps: &Steps<'_>,
) -> Node {
    let typical = if other.typical { ", with typical prices" } else { "" };
    let node = match other.amount {
        Ok(amount) => Node::new(format!("{}{typical}", other.method)).figure(wording::amount(amount)),
        Err(why) => Node::new(format!("{}: not priced, {}", other.method, wording::unpriced(why, subject))),
    };
    node.below(other.lines.iter().map(|of| line(of, Some(panel.panel), subject, steps)))
}

fn finding(index: usize, finding: &Finding, panel: &PanelAssessment, subject: &Subject<'_>) -> Node {
    let limit = &subject.schedule.limits[finding.limit];
    let outcome = match finding.crossing {
        Crossing::No | Crossing::CannotTell => String::new(),
        Crossing::Yes if panel.decided_by == Some(index) => format!("; crossed and decides: {}", limit.then),
        Crossing::Yes => format!("; crossed, for {}", limit.then),
    };
    let mut node = Node::new(format!("{}{outcome}", wording::named_finding(finding, subject)));
    let cells: Vec<Place> = std::iter::once(limit.place).chain(finding.cells.iter().copied()).collect();
    node.cells = steps::cells(&cells, subject);
    node
}

fn vehicle(subject: &Subject<'_>, steps: &Steps<'_>) -> Option<Node> {
    let assessment = subject.assessment;
    let lines = assessment.vehicle_lines.iter().map(|of| line(of, None, subject, steps));
    let open = wording::open_items(subject).into_iter().map(Node::new);
    let below: Vec<Node> = lines.chain(open).collect();
    (!below.is_empty()).then(|| Node::new("vehicle").below(below))
}

fn totals(subject: &Subject<'_>, steps: &Steps<'_>) -> Node {
    let totals = &subject.assessment.totals;
    let mut below = vec![steps.amount("net", totals.net, totals.net_step, None)];
    for tax in &totals.taxes {
        let cells = tax.cells.first().copied();
        below.push(steps.amount(&wording::tax_line(tax.percent), tax.tax, tax.step, cells));
    }
    if let (Some(rounding), Some(step)) = (totals.rounding, totals.rounding_step) {
        below.push(steps.amount("rounding of the total", rounding, step, None));
    }
    below.push(steps.amount("gross", totals.gross, totals.gross_step, None));
    let title = match wording::without_open(subject.assessment, subject.words) {
        Some(without) => format!("totals, {without}"),
        None => "totals".to_owned(),
    };
    Node::new(title).below(below)
}

fn screen(subject: &Subject<'_>, steps: &Steps<'_>) -> Node {
    use crate::assess::Screen;
    let node = Node::new(wording::screen(subject));
    match subject.assessment.screen {
        Screen::Not(_) => node,
        Screen::Below(figures) | Screen::Open(figures) | Screen::Reached(figures) => node.below([
            steps.amount("cost", figures.cost, figures.cost_step, None),
            steps.amount("limit", figures.limit, figures.limit_step, None),
        ]),
    }
}

fn settlement(subject: &Subject<'_>, steps: &Steps<'_>) -> Node {
    let settled = &subject.assessment.settled;
    let row = |label: &str, amount, step: StepId| steps.amount(label, amount, step, None);
    let mut below = vec![
        row("excess taken", settled.excess, settled.excess_step),
        row("insurer pays", settled.insurer_pays, settled.insurer_step),
        row("owner bears", settled.owner_bears, settled.owner_step),
    ];
    if !settled.salvage_kept.is_zero() {
        let kept = wording::amount(settled.salvage_kept);
        below.push(Node::new("salvage kept by the owner").figure(kept));
    }
    let title = format!("settlement amount ({})", settled.basis);
    let mut node = row(&title, settled.amount, settled.amount_step);
    node.below.extend(below);
    node
}

fn notes(subject: &Subject<'_>) -> Option<Node> {
    let excluded = subject.assessment.excluded.iter().map(|of| wording::excluded_mark(of, subject));
    let notes = subject
        .assessment
        .notes
        .iter()
        .map(|note| wording::note(note, subject, |place| subject.sources.short(place)));
    let range = subject.assessment.range.as_ref().map(wording::range);
    let below: Vec<Node> = excluded.chain(notes).chain(range).map(Node::new).collect();
    (!below.is_empty()).then(|| Node::new("notes").below(below))
}
