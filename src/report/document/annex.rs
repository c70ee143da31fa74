use super::Filling;
use crate::assess::{Crossing, Formula, Measured, PanelAssessment, Rule, Shown, Step, StepId, Working};
use crate::claim::Place;
use crate::report::Subject;
use crate::report::wording::{self, Piece, label::LABELS, operands};
use serde::Serialize;
use std::collections::BTreeMap;

/// The working: every amount down to the cells it came from, panel by panel, then the vehicle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Annex {
    /// How to read it, and the rules that hold for all of it.
    pub intro: Vec<String>,
    /// A section for each panel with steps or limits, then the vehicle.
    pub sections: Vec<AnnexSection>,
}

/// The working of one panel, or of the vehicle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AnnexSection {
    /// Its panel in words.
    pub title: String,
    /// Every limit that was looked at, by its cell.
    pub limits: Vec<String>,
    /// Its steps.
    pub steps: Vec<AnnexStep>,
}

/// One step: what it is, how it follows, what came out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AnnexStep {
    /// Its short name, `B3`.
    pub name: String,
    /// What it is.
    pub what: String,
    /// How it follows from cells and other steps.
    pub how: Vec<Span>,
    /// What came out.
    pub result: String,
}

/// What a step is called, for a format that calculates with it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepWords {
    /// Its short name in the annex, where it stands there.
    pub name: Option<String>,
    /// What it is.
    pub what: String,
    /// The cells that it rests on, in short.
    pub cells: String,
}

/// A piece of arithmetic: words and numbers, or the short name of another step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(untagged)]
pub enum Span {
    /// Words, numbers and cells.
    Words(String),
    /// Another step.
    Step {
        /// The step that the number before it came from.
        step: String,
    },
}

/// Fills the annex; none without a recorded working.
pub(super) fn annex(filling: &Filling<'_>) -> Option<Annex> {
    let subject = filling.subject;
    let working = subject.assessment.working.as_ref()?;
    let words = Words::new(filling, working);
    let mut sections = Vec::new();
    for (index, ids) in filling.refs.sections.iter().enumerate() {
        let panel = subject.assessment.panels.get(index);
        let limits = panel.map(|panel| limits(panel, filling)).unwrap_or_default();
        if ids.is_empty() && limits.is_empty() {
            continue;
        }
        let title = panel.map_or_else(
            || LABELS.totals_section.to_owned(),
            |panel| wording::sentence(&panel.panel.to_string()),
        );
        let steps = ids.iter().filter_map(|id| words.step(*id)).collect();
        sections.push(AnnexSection { title, limits, steps });
    }
    Some(Annex { intro: wording::working_intro(subject.schedule), sections })
}

/// Every step of the working in words, by its number; none without a recorded working.
pub(super) fn in_words(filling: &Filling<'_>) -> Vec<StepWords> {
    let Some(working) = filling.subject.assessment.working.as_ref() else { return Vec::new() };
    let words = Words::new(filling, working);
    let ids = (0..).map(StepId).zip(&working.steps);
    ids.map(|(id, step)| StepWords {
        name: filling.refs.name(id),
        what: words.what(id, step),
        cells: filling.sheets.cells(&step.cells, filling.subject.sources),
    })
    .collect()
}

/// Every limit that was looked at, each by its cell: those that are crossed with the cells they rest on, then the others;
/// where nothing was written, the cells alone.
fn limits(panel: &PanelAssessment, filling: &Filling<'_>) -> Vec<String> {
    let subject = &filling.subject;
    let (mut crossed, mut others, mut nothing) = (Vec::new(), Vec::new(), Vec::new());
    for finding in &panel.findings {
        let limit = &subject.schedule.limits[finding.limit];
        let words = wording::finding(finding, subject);
        if finding.crossing == Crossing::Yes {
            let cells = filling.sheets.cells(&finding.cells, subject.sources);
            let cells = if cells.is_empty() { cells } else { format!(" [{cells}]") };
            crossed.push(format!("{}, {}: {words}{cells}", filling.cell(limit.place), LABELS.crossed));
        } else if finding.measured == Measured::Nothing && finding.crossing == Crossing::No {
            nothing.push(limit.place);
        } else {
            others.push(format!("{}: {words}", filling.cell(limit.place)));
        }
    }
    crossed.append(&mut others);
    if !nothing.is_empty() {
        let cells = filling.sheets.cells(&nothing, subject.sources);
        crossed.push(format!("{cells}: {}", LABELS.nothing_written));
    }
    crossed
}

/// What words steps have beyond their rule.
struct Words<'a> {
    filling: &'a Filling<'a>,
    working: &'a Working,
    lines: BTreeMap<StepId, String>,
    numbers: BTreeMap<StepId, usize>,
    sizes: BTreeMap<Place, usize>,
    measures: BTreeMap<Place, String>,
}

impl<'a> Words<'a> {
    fn new(filling: &'a Filling<'a>, working: &'a Working) -> Self {
        let subject = &filling.subject;
        let mut lines = BTreeMap::new();
        let mut sizes = BTreeMap::new();
        for panel in &subject.assessment.panels {
            for alternative in &panel.alternatives {
                let sum = match alternative.amount {
                    Ok(_) => wording::amount_of_method(alternative.method).to_owned(),
                    Err(_) => wording::as_far_as_priced(alternative.method),
                };
                for line in &alternative.lines {
                    lines.entry(line.step).or_insert_with(|| wording::line(line, Some(panel.panel), subject));
                }
                lines.entry(alternative.step).or_insert(sum);
            }
            for (size, count) in panel.counts.iter().enumerate() {
                sizes.extend(count.cells.iter().map(|cell| (*cell, size)));
            }
        }
        for line in &subject.assessment.vehicle_lines {
            lines.entry(line.step).or_insert_with(|| wording::line(line, None, subject));
        }
        for tax in &subject.assessment.totals.taxes {
            lines.entry(tax.step).or_insert_with(|| wording::tax_line(tax.percent));
        }
        let mut numbers: BTreeMap<StepId, usize> =
            subject.assessment.lines().map(|line| (line.line.step, line.number)).collect();
        if numbers.len() < subject.assessment.lines().count() {
            // Two lines on one step: a step then does not say which of them is meant.
            numbers.clear();
        }
        Self { filling, working, lines, numbers, sizes, measures: measures(subject) }
    }

    fn get(&self, id: StepId) -> Option<&'a Step> {
        self.working.steps.get(id.0 as usize)
    }

    fn step(&self, id: StepId) -> Option<AnnexStep> {
        let step = self.get(id)?;
        let what = self.what(id, step);
        let mut how = Vec::new();
        self.formula(step, &mut how);
        Some(AnnexStep { name: self.filling.refs.name(id)?, what, how, result: self.shown(&step.result) })
    }

    /// What a step is: the line it makes, else its rule.
    fn what(&self, id: StepId, step: &Step) -> String {
        self.lines.get(&id).cloned().unwrap_or_else(|| self.rule(step))
    }

    /// The rule in words; with the size band where the cells tell which one it is.
    fn rule(&self, step: &Step) -> String {
        let of_cells = |step: &Step| step.cells.iter().find_map(|cell| self.sizes.get(cell).copied());
        let size = of_cells(step)
            .or_else(|| operands(&step.formula).iter().find_map(|id| self.get(*id).and_then(of_cells)));
        match (step.rule, size) {
            (Rule::DentsOfSize, Some(size)) => {
                wording::dents_of_size(&self.filling.subject.schedule.sizes[size].name)
            }
            _ => wording::rule(step.rule).to_owned(),
        }
    }

    fn formula(&self, step: &Step, out: &mut Vec<Span>) {
        let lines = match &step.formula {
            Formula::Sum(ids) => self.as_lines(ids),
            _ => None,
        };
        match lines {
            Some(lines) => push(out, &lines),
            None => {
                for piece in wording::formula(&step.formula) {
                    match piece {
                        Piece::Words(words) => push(out, &words),
                        Piece::Step(id) => self.operand(id, out),
                    }
                }
            }
        }
        self.push_cells(&step.cells, out);
    }

    /// A long sum of numbered lines by their numbers: the amounts stand in the list of lines.
    fn as_lines(&self, ids: &[StepId]) -> Option<String> {
        const LONG: usize = 6;
        if ids.len() <= LONG {
            return None;
        }
        let mut numbers = ids.iter().map(|id| self.numbers.get(id).copied()).collect::<Option<Vec<_>>>()?;
        numbers.sort_unstable();
        Some(wording::line_numbers(&numbers))
    }

    /// A value with where it comes from: the step that is shown, else the cell it was read from.
    fn operand(&self, id: StepId, out: &mut Vec<Span>) {
        let Some(step) = self.get(id) else { return };
        push(out, &self.shown(&step.result));
        match self.filling.refs.name(id) {
            Some(name) => {
                push(out, " ");
                out.push(Span::Step { step: name });
            }
            None => match (&step.formula, &step.result) {
                // A band's own row says no more than its name.
                (Formula::BandOf(of), _) => {
                    push(out, " for ");
                    self.operand(*of, out);
                }
                (_, Shown::SizeBand(_) | Shown::CountBand(_)) => {}
                _ => self.push_cells(&step.cells, out),
            },
        }
    }

    /// The cells that a value was read from; where what was measured of a mark chose it, that by itself.
    fn push_cells(&self, cells: &[Place], out: &mut Vec<Span>) {
        let (chosen_by, mut read): (Vec<Place>, Vec<Place>) =
            cells.iter().copied().partition(|cell| self.measures.contains_key(cell));
        let mut by = chosen_by.as_slice();
        if read.is_empty() {
            (read, by) = (chosen_by.clone(), &[]);
        }
        if !read.is_empty() {
            push(out, &format!(" [{}]", self.filling.sheets.cells(&read, self.filling.subject.sources)));
        }
        for cell in by {
            push(out, &format!(" by {} [{}]", self.measures[cell], self.filling.cell(*cell)));
        }
    }

    fn shown(&self, shown: &Shown) -> String {
        wording::shown(shown, self.filling.subject.schedule)
    }
}

/// What was measured of marks, by its cell.
fn measures(subject: &Subject<'_>) -> BTreeMap<Place, String> {
    let panels = subject.claim.inspections.iter().flat_map(|inspection| &inspection.panels);
    let marks = panels.flat_map(|panel| &panel.marks);
    let measured = marks.flat_map(|mark| [("length", mark.length), ("width", mark.width)]);
    measured
        .filter_map(|(name, field)| {
            field.map(|of| (of.place, format!("{name} {}", wording::length(of.value))))
        })
        .collect()
}

/// Adds words, to the last piece where that holds words too.
fn push(out: &mut Vec<Span>, text: &str) {
    match out.last_mut() {
        Some(Span::Words(words)) => words.push_str(text),
        _ => out.push(Span::Words(text.to_owned())),
    }
}
