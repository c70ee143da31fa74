use super::arithmetic;
use crate::assess::{Formula, NumberedLine, Rule, Shown, Step, StepId};
use crate::claim::Place;
use crate::problem::column_letters;
use crate::report::Subject;
use crate::report::document::{Document, StepWords};
use crate::report::wording::{self, label::LABELS, operands};
use crate::schedule::{GroupId, Per, Price};
use rust_xlsxwriter::{ColNum, RowNum};
use std::collections::{BTreeMap, BTreeSet};

/// Names of the sheets, none of which needs quotes in a formula.
pub(super) const CLAIM: &str = "Claim";
pub(super) const COUNTS: &str = "Counts";
pub(super) const DECISIONS: &str = "Decisions";
pub(super) const WORKING: &str = "Working";
pub(super) const RATES: &str = "Rates";
pub(super) const MADE_FROM: &str = "Sources";

/// Columns and rows of the sheets, from 0.
pub(super) const AMOUNT: ColNum = 4;
pub(super) const FIRST_LINE: RowNum = 8;
pub(super) const RESULT: ColNum = 3;
pub(super) const FIRST_STEP: RowNum = 5;
pub(super) const FIRST_PANEL: RowNum = 6;
pub(super) const CHANGED: (RowNum, ColNum) = (3, 1);
pub(super) const FIRST_SIZE: ColNum = 3;
pub(super) const SIZES: RowNum = 4;
pub(super) const WEIGHTS: RowNum = 6;
pub(super) const FIRST_BAND: RowNum = 7;

/// A row of the working.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Entry {
    /// A step.
    Step(StepId),
    /// What a part of a split has before anything is rounded, for the step of any part of it.
    Share(StepId, usize),
}

/// Rows of the working that belong together.
pub(super) struct Section {
    /// A panel, the vehicle, or what several share.
    pub title: String,
    /// Its rows, from its own first row on.
    pub entries: Vec<Entry>,
    /// Row of its title.
    pub row: RowNum,
}

/// What a part of the grid gives: for which group, whether times, for what.
pub(super) type Block = (GroupId, bool, Per);

/// Which steps have a row, and where everything stands.
pub(super) struct Plan<'a> {
    pub subject: Subject<'a>,
    pub document: &'a Document,
    pub words: &'a [StepWords],
    pub steps: &'a [Step],
    pub lines: Vec<NumberedLine<'a>>,
    pub sections: Vec<Section>,
    /// Blocks of the grid with the row of each one's title.
    pub blocks: Vec<(Block, RowNum)>,
    /// Steps of counts: the panel and size band whose cell they are.
    bands: BTreeMap<StepId, (usize, usize)>,
    /// Counts that amounts follow.
    live: BTreeSet<(usize, usize)>,
    rows: BTreeMap<StepId, RowNum>,
    shares: BTreeMap<(StepId, usize), RowNum>,
    line_rows: BTreeMap<StepId, RowNum>,
}

impl<'a> Plan<'a> {
    pub fn new(subject: Subject<'a>, document: &'a Document, words: &'a [StepWords]) -> Self {
        let assessment = subject.assessment;
        let steps = assessment.working.as_ref().map_or(&[][..], |working| &working.steps);
        let mut plan = Self {
            subject,
            document,
            words,
            steps,
            lines: assessment.lines().collect(),
            sections: Vec::new(),
            blocks: Vec::new(),
            bands: bands(&subject, steps),
            live: BTreeSet::new(),
            rows: BTreeMap::new(),
            shares: BTreeMap::new(),
            line_rows: BTreeMap::new(),
        };
        plan.place_lines();
        plan.place_steps();
        plan.place_blocks();
        plan
    }

    pub fn step(&self, id: StepId) -> Option<&'a Step> {
        self.steps.get(id.0 as usize)
    }

    fn place_lines(&mut self) {
        let mut row = FIRST_LINE;
        let mut lines = self.lines.iter();
        for group in &self.document.lines.groups {
            row += 1;
            for line in lines.by_ref().take(group.lines.len()) {
                self.line_rows.entry(line.line.step).or_insert(row);
                row += 1;
            }
        }
    }

    /// Steps that the lines and totals rest on: those of one panel with it, those of several by themselves, the rest with
    /// the vehicle.
    fn place_steps(&mut self) {
        let assessment = self.subject.assessment;
        let mut owners: BTreeMap<StepId, Option<usize>> = BTreeMap::new();
        let chosen = assessment.panels.iter().enumerate().filter(|(_, panel)| panel.open.is_none());
        for (index, panel) in chosen {
            let Some(chosen) = panel.chosen() else { continue };
            let mut reached = BTreeSet::new();
            for id in chosen.lines.iter().map(|line| line.step).chain([chosen.step]) {
                self.reach(id, &mut reached);
            }
            for id in reached {
                owners.entry(id).and_modify(|owner| *owner = None).or_insert(Some(index));
            }
        }
        let mut reached = BTreeSet::new();
        let roots = assessment.vehicle_lines.iter().map(|line| line.step);
        for id in roots.chain(self.document_steps().into_iter().map(|(_, id)| id)) {
            self.reach(id, &mut reached);
        }
        let of = |wanted: Option<usize>| -> Vec<StepId> {
            owners.iter().filter(|(_, owner)| **owner == wanted).map(|(id, _)| *id).collect()
        };
        let mut sections = vec![("Rates and terms of several panels".to_owned(), of(None))];
        for (index, panel) in assessment.panels.iter().enumerate() {
            sections.push((wording::sentence(&panel.panel.to_string()), of(Some(index))));
        }
        let rest = reached.into_iter().filter(|id| !owners.contains_key(id)).collect();
        sections.push((LABELS.totals_section.to_owned(), rest));
        let mut row = FIRST_STEP;
        for (title, ids) in sections.into_iter().filter(|(_, ids)| !ids.is_empty()) {
            let start = row;
            let mut entries = Vec::new();
            for id in ids {
                self.place_shares(id, &mut entries, start);
                entries.push(Entry::Step(id));
                self.rows.insert(id, start + at(entries.len()));
            }
            row = start + at(entries.len()) + 2;
            self.sections.push(Section { title, entries, row: start });
        }
    }

    /// Rows for what each part of a split has before rounding, above the first part.
    fn place_shares(&mut self, id: StepId, entries: &mut Vec<Entry>, start: RowNum) {
        let Some(Formula::Part { total, weights, .. }) = self.step(id).map(|step| &step.formula) else {
            return;
        };
        if weights.len() < 2 || self.shares.contains_key(&(*total, 0)) {
            return;
        }
        for index in 0..weights.len() {
            entries.push(Entry::Share(id, index));
            self.shares.insert((*total, index), start + at(entries.len()));
        }
    }

    /// Everything that a step rests on, down to counts, which have cells of their own.
    fn reach(&mut self, id: StepId, reached: &mut BTreeSet<StepId>) {
        if let Some(count) = self.bands.get(&id) {
            self.live.insert(*count);
            return;
        }
        let Some(step) = self.step(id) else { return };
        if !reached.insert(id) {
            return;
        }
        if let Some(panel) = self.whole_row(step) {
            let sizes = self.subject.schedule.sizes.len();
            self.live.extend((0..sizes).map(|size| (panel, size)));
            return;
        }
        for operand in operands(&step.formula) {
            self.reach(operand, reached);
        }
    }

    /// The panel all of whose counts a step works on.
    pub fn whole_row(&self, step: &Step) -> Option<usize> {
        let is_whole = step.rule == Rule::DentsOfPanel
            || matches!(step.formula, Formula::ChosenSize(_) | Formula::Weighted(_));
        if is_whole { self.panel_of(&operands(&step.formula)) } else { None }
    }

    /// The panel that counts among these steps, or below them, belong to.
    pub fn panel_of(&self, ids: &[StepId]) -> Option<usize> {
        ids.iter().find_map(|id| match self.bands.get(id) {
            Some((panel, _)) => Some(*panel),
            None => self.panel_of(&operands(&self.step(*id)?.formula)),
        })
    }

    fn place_blocks(&mut self) {
        let mut used: Vec<Block> = Vec::new();
        for id in self.rows.keys().copied().collect::<Vec<_>>() {
            let block = arithmetic::grid_cell(self, id);
            if let Some(block) = block.filter(|block| !used.contains(block)) {
                used.push(block);
            }
        }
        let counts = at(self.subject.schedule.counts.len());
        let mut row = FIRST_BAND + counts + 1;
        for block in used {
            self.blocks.push((block, row));
            row += counts + 2;
        }
    }

    /// The steps of the document's totals, in its order: net to gross, then who pays what.
    pub fn document_steps(&self) -> Vec<(usize, StepId)> {
        // Steps that say the same have one name; the first of them stands in the document.
        let mut named: BTreeMap<&str, StepId> = BTreeMap::new();
        for (id, words) in (0..).map(StepId).zip(self.words) {
            if let Some(name) = &words.name {
                named.entry(name).or_insert(id);
            }
        }
        let salvage = || {
            let index = self.steps.iter().position(|step| step.rule == Rule::SalvageKept)?;
            u32::try_from(index).ok().map(StepId)
        };
        let lines = &self.document.lines;
        let totals = lines.totals.iter().chain(&lines.settlement).enumerate();
        totals
            .filter_map(|(index, total)| {
                let id = match &total.step {
                    Some(name) => named.get(name.as_str()).copied(),
                    None => salvage(),
                }?;
                let same = self.step(id).is_some_and(|step| step.result == Shown::Money(total.amount.0));
                same.then_some((index, id))
            })
            .collect()
    }

    /// The cell of a step as formulas of the working name it.
    pub fn at(&self, id: StepId) -> Option<String> {
        match (self.bands.get(&id), self.rows.get(&id)) {
            (Some((panel, size)), _) => Some(format!("{COUNTS}!{}", name(count_cell(*panel, *size)))),
            (None, Some(row)) => Some(name((*row, RESULT))),
            (None, None) => None,
        }
    }

    /// The cell of a step as formulas of other sheets name it.
    pub fn outside(&self, id: StepId) -> Option<String> {
        self.rows.get(&id).map(|row| format!("{WORKING}!{}", name((*row, RESULT))))
    }

    /// The cell of a numbered line on the first sheet.
    pub fn line_at(&self, id: StepId) -> Option<(RowNum, ColNum)> {
        self.line_rows.get(&id).map(|row| (*row, AMOUNT))
    }

    /// The cell of what a part of a split has before rounding.
    pub fn share_at(&self, total: StepId, index: usize) -> Option<String> {
        self.shares.get(&(total, index)).map(|row| name((*row, RESULT)))
    }

    /// The counts of a panel.
    pub fn counts_of(&self, panel: usize) -> String {
        let last = self.subject.schedule.sizes.len().saturating_sub(1);
        format!("{COUNTS}!{}", range(count_cell(panel, 0), count_cell(panel, last)))
    }

    /// Whether amounts follow a count.
    pub fn is_live(&self, panel: usize, size: usize) -> bool {
        // A rate between count bands is a value here, so nothing would follow.
        !self.subject.schedule.terms.is_interpolated() && self.live.contains(&(panel, size))
    }

    /// The row of a block's title.
    pub fn block(&self, block: Block) -> Option<RowNum> {
        self.blocks.iter().find(|(known, _)| *known == block).map(|(_, row)| *row)
    }
}

/// Steps that are the dents of one size band on one panel, by the cells that they come from.
fn bands(subject: &Subject<'_>, steps: &[Step]) -> BTreeMap<StepId, (usize, usize)> {
    let panels = &subject.assessment.panels;
    let mut of_cell: BTreeMap<Place, (usize, usize)> = BTreeMap::new();
    for (panel, assessed) in panels.iter().enumerate() {
        for (size, count) in assessed.counts.iter().enumerate() {
            for cell in &count.cells {
                of_cell.entry(*cell).or_insert((panel, size));
            }
        }
    }
    let mut found: BTreeMap<StepId, (usize, usize)> = BTreeMap::new();
    for (id, step) in (0..).map(StepId).zip(steps) {
        let count = match step.rule {
            Rule::Input => step.cells.first().and_then(|cell| of_cell.get(cell)),
            Rule::DentsOfSize => operands(&step.formula).first().and_then(|id| found.get(id)),
            _ => None,
        };
        if let (Some(count), Shown::Count(_)) = (count.copied(), &step.result) {
            found.insert(id, count);
        }
    }
    // One column of several is no count by itself, nor is one that was scaled from a frame.
    found.retain(|id, (panel, size)| {
        let panel = &panels[*panel];
        steps.get(id.0 as usize).map(|step| &step.result) == Some(&Shown::Count(panel.counts[*size].dents()))
            && !panel.is_estimated()
    });
    found
}

/// The cell of a count.
pub(super) fn count_cell(panel: usize, size: usize) -> (RowNum, ColNum) {
    (FIRST_PANEL + at(panel), 1 + column(size))
}

/// Whether a cell of the grid belongs to a block.
pub(super) fn is_in(block: Block, price: &Price, per: Per) -> bool {
    block.1 == matches!(price, Price::Time(_)) && block.2 == per
}

/// A number of rows; a sheet has room for more than a claim can have.
pub(super) fn at(rows: usize) -> RowNum {
    RowNum::try_from(rows).unwrap_or(RowNum::MAX / 2)
}

/// A number of columns.
pub(super) fn column(columns: usize) -> ColNum {
    ColNum::try_from(columns).unwrap_or(ColNum::MAX / 2)
}

/// A cell as formulas name it.
pub(super) fn name((row, column): (RowNum, ColNum)) -> String {
    format!("{}{}", column_letters(column.saturating_add(1)), row + 1)
}

/// A range as formulas name it.
pub(super) fn range(first: (RowNum, ColNum), last: (RowNum, ColNum)) -> String {
    format!("{}:{}", name(first), name(last))
}
