use crate::assess::{Assessment, Formula, Line, LineKind, Rule, Step, StepId};
use crate::claim::Place;
use crate::report::wording::operands;
use std::collections::{BTreeMap, BTreeSet};
use std::mem;

/// Which section of the annex a step stands in, and under which short name: `B3` is the third of the second panel.
#[derive(Debug, Default)]
pub(super) struct Refs {
    /// Steps of each section in their order; the last section is the vehicle's.
    pub sections: Vec<Vec<StepId>>,
    names: BTreeMap<StepId, String>,
}

impl Refs {
    /// Names for every step that is shown: all that are computed, and those read from a cell that a line rests on.
    pub fn of(assessment: &Assessment) -> Self {
        let Some(working) = &assessment.working else { return Self::default() };
        let cited = cited(assessment);
        let owners = owners(assessment, &working.steps);
        let vehicle = assessment.panels.len();
        let mut sections = vec![Vec::new(); vehicle + 1];
        let mut same = Same::new(assessment, &working.steps);
        for (index, step) in working.steps.iter().enumerate() {
            let id = StepId(u32::try_from(index).unwrap_or(u32::MAX));
            if is_shown(step, cited.contains(&id)) {
                let section = &mut sections[owners[index].unwrap_or(vehicle)];
                if owners[index].is_none() || same.first(id, section) == id {
                    section.push(id);
                }
            }
        }
        let mut names = BTreeMap::new();
        for (index, section) in sections.iter().filter(|section| !section.is_empty()).enumerate() {
            let letter = letters(index);
            for (number, id) in section.iter().enumerate() {
                names.insert(*id, format!("{letter}{}", number + 1));
            }
        }
        for (id, first) in &same.firsts {
            if let Some(name) = names.get(first).cloned() {
                names.insert(*id, name);
            }
        }
        Self { sections, names }
    }

    /// The short name of a step; none without a working, and for a step that is shown where it is used.
    pub fn name(&self, id: StepId) -> Option<String> {
        self.names.get(&id).cloned()
    }
}

/// Steps of a panel that say the same in several ways of repair, such as its refinish: each stands once.
struct Same<'a> {
    steps: &'a [Step],
    lines: BTreeMap<StepId, &'a LineKind>,
    firsts: BTreeMap<StepId, StepId>,
}

impl<'a> Same<'a> {
    fn new(assessment: &'a Assessment, steps: &'a [Step]) -> Self {
        let lines = panel_lines(assessment).map(|(_, line)| (line.step, &line.kind)).collect();
        Self { steps, lines, firsts: BTreeMap::new() }
    }

    /// The step of the section that says the same as this one, which is itself where none does.
    fn first(&mut self, id: StepId, section: &[StepId]) -> StepId {
        let first = section.iter().copied().find(|earlier| self.alike(*earlier, id));
        if let Some(first) = first {
            self.firsts.insert(id, first);
        }
        first.unwrap_or(id)
    }

    fn alike(&self, a: StepId, b: StepId) -> bool {
        let (Some(one), Some(other)) = (self.steps.get(a.0 as usize), self.steps.get(b.0 as usize)) else {
            return false;
        };
        one.rule == other.rule
            && one.result == other.result
            && one.cells == other.cells
            && self.lines.get(&a) == self.lines.get(&b)
            && mem::discriminant(&one.formula) == mem::discriminant(&other.formula)
            && !matches!(one.formula, Formula::Part { .. })
            && self.operands_alike(one, other)
    }

    /// Whether both rest on the same, step by step; a value that is read anew is the same when its cell is.
    fn operands_alike(&self, one: &Step, other: &Step) -> bool {
        let (left, right) = (operands(&one.formula), operands(&other.formula));
        let first = |id: StepId| self.firsts.get(&id).copied().unwrap_or(id);
        left.len() == right.len()
            && left
                .into_iter()
                .map(first)
                .zip(right.into_iter().map(first))
                .all(|(a, b)| a == b || self.alike(a, b))
    }
}

/// Values and bands that no line rests on are shown where they are used, and a sum of nothing is not shown.
fn is_shown(step: &Step, cited: bool) -> bool {
    match &step.formula {
        Formula::Read | Formula::BandOf(_) => cited,
        Formula::Sum(parts) if parts.is_empty() => {
            !matches!(step.rule, Rule::MethodAmount | Rule::DentsOfSize)
        }
        _ => true,
    }
}

/// `A` to `Z`, then `AA`, as columns of a sheet are named.
fn letters(index: usize) -> String {
    crate::problem::column_letters(u16::try_from(index + 1).unwrap_or(u16::MAX))
}

fn panel_lines(assessment: &Assessment) -> impl Iterator<Item = (usize, &Line)> {
    let panels = assessment.panels.iter().enumerate();
    panels.flat_map(|(owner, panel)| {
        panel.alternatives.iter().flat_map(move |a| a.lines.iter().map(move |line| (owner, line)))
    })
}

/// Steps that a line or a total of the document names.
fn cited(assessment: &Assessment) -> BTreeSet<StepId> {
    let mut cited: BTreeSet<StepId> = panel_lines(assessment).map(|(_, line)| line.step).collect();
    cited.extend(assessment.panels.iter().flat_map(|panel| &panel.alternatives).map(|a| a.step));
    cited.extend(assessment.vehicle_lines.iter().map(|line| line.step));
    let (totals, settled) = (&assessment.totals, &assessment.settled);
    cited.extend(totals.taxes.iter().map(|tax| tax.step));
    cited.extend(totals.rounding_step);
    cited.extend([totals.net_step, totals.gross_step]);
    cited.extend([settled.amount_step, settled.excess_step, settled.insurer_step, settled.owner_step]);
    cited
}

/// The panel that each step belongs to, by its number in the assessment; `None` for the vehicle's.
///
/// What a panel's lines and alternatives rest on is the panel's, by following operands back from them. What nothing rests
/// on (the amount at which a limit is crossed, the dents of a panel that has no price) goes by its operands and cells.
fn owners(assessment: &Assessment, steps: &[Step]) -> Vec<Option<usize>> {
    let mut owners: Vec<Option<usize>> = vec![None; steps.len()];
    let own = |owners: &mut Vec<Option<usize>>, id: StepId, owner: usize| {
        if let Some(slot) = owners.get_mut(id.0 as usize) {
            slot.get_or_insert(owner);
        }
    };
    for (owner, line) in panel_lines(assessment) {
        own(&mut owners, line.step, owner);
    }
    for (owner, panel) in assessment.panels.iter().enumerate() {
        for alternative in &panel.alternatives {
            own(&mut owners, alternative.step, owner);
        }
    }
    let cells = cells_of_panels(assessment);
    for index in 0..steps.len() {
        if owners[index].is_none() && is_of_a_panel(steps[index].rule) {
            let operands = operands(&steps[index].formula);
            let by_operand = operands.iter().find_map(|id| owners.get(id.0 as usize).copied().flatten());
            let by_cell = || {
                let of = |step: &Step| step.cells.iter().find_map(|cell| cells.get(cell).copied());
                of(&steps[index])
                    .or_else(|| operands.iter().find_map(|id| steps.get(id.0 as usize).and_then(of)))
            };
            owners[index] = by_operand.or_else(by_cell);
        }
    }
    // Operands stand before what uses them, so one pass from the end reaches everything.
    for index in (0..steps.len()).rev() {
        if let Some(owner) = owners[index] {
            for operand in operands(&steps[index].formula) {
                own(&mut owners, operand, owner);
            }
        }
    }
    owners
}

fn cells_of_panels(assessment: &Assessment) -> BTreeMap<Place, usize> {
    let mut cells = BTreeMap::new();
    for (owner, panel) in assessment.panels.iter().enumerate() {
        for cell in panel.counts.iter().flat_map(|count| &count.cells) {
            cells.entry(*cell).or_insert(owner);
        }
    }
    cells
}

fn is_of_a_panel(rule: Rule) -> bool {
    match rule {
        Rule::DentsOfPanel
        | Rule::DentsOfSize
        | Rule::ScaledDents
        | Rule::LowestDents
        | Rule::HighestDents
        | Rule::RatedSize
        | Rule::EquivalentDents
        | Rule::BandOfCount
        | Rule::Base
        | Rule::LabourTime
        | Rule::FactorBase
        | Rule::MarkAmount
        | Rule::FurtherMark
        | Rule::FactorAmount
        | Rule::FactorSum
        | Rule::FactorCeiling
        | Rule::FactorTakeOff
        | Rule::FloorTopUp
        | Rule::CapTakeOff
        | Rule::UpToNothing
        | Rule::MethodAmount
        | Rule::Readying
        | Rule::LabourAmount
        | Rule::PriceAmount
        | Rule::LimitAmount => true,
        Rule::TitleLimit(_)
        | Rule::TitleCost
        | Rule::Input
        | Rule::Term
        | Rule::OperationAmount
        | Rule::ItemAmount
        | Rule::PaidBefore
        | Rule::Betterment
        | Rule::SalvageKept
        | Rule::NetBeforeMinimum
        | Rule::MinimumTopUp
        | Rule::Discounted
        | Rule::DiscountTotal
        | Rule::DiscountPart
        | Rule::Taxable
        | Rule::Tax
        | Rule::Net
        | Rule::TotalRounding
        | Rule::Gross
        | Rule::ScreenLimit
        | Rule::ScreenCost
        | Rule::SettlementAmount
        | Rule::TaxReclaimed
        | Rule::Excess
        | Rule::OverLimit
        | Rule::InsurerPays
        | Rule::OwnerBears => false,
    }
}
