use super::figure::{PanelFigure, figure, first_marks};
use super::{Filling, Head, Imprint, plain, summary};
use crate::assess::{
    Caution, Line, LineKind, MarkAssessment, PanelAssessment, PanelState, caution_of, cautions_of_item,
    cautions_of_panel,
};
use crate::claim::{Access, ItemAction, Method, PanelCount, PanelKind, Role};
use crate::report::Subject;
use crate::report::wording::{self, label::LABELS, work};
use serde::Serialize;
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// What the technician works by: everything that is to be done, in a sensible order, and no amount of money.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct WorkOrder {
    /// Language of our own words, as in BCP 47.
    pub language: &'static str,
    /// What it is and whom it concerns.
    pub head: Head,
    /// Which car.
    pub vehicle: String,
    /// Where it came from: paint, drive, roof, sensors; what was written only.
    pub about: Vec<String>,
    /// What is to be done in all.
    pub to_do: String,
    /// Labour by class over the whole claim.
    pub labour: Option<String>,
    /// What a person has to decide before the work there begins.
    pub waits: Vec<String>,
    /// The panels as plates.
    pub figure: Option<PanelFigure>,
    /// Parts and material to have at hand.
    pub parts: Vec<String>,
    /// Before any panel is worked.
    pub before: Vec<Task>,
    /// The panels in the order in which they are worked.
    pub panels: Vec<PanelWork>,
    /// Work that belongs to no panel.
    pub items: Vec<Task>,
    /// What is left as it is.
    pub left: Option<String>,
    /// What is checked before the car leaves.
    pub hand_over: Vec<Task>,
    /// What else to heed, and who decides.
    pub heed: Vec<Heed>,
}

/// The work on one panel.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PanelWork {
    /// Its name and what is done with it.
    pub title: String,
    /// Material, access, paint, as written.
    pub about: Option<String>,
    /// Its dents by size.
    pub counted: Option<String>,
    /// Its marks, by their numbers in the figure.
    pub marks: Vec<String>,
    /// What somebody wrote about it.
    pub remarks: Vec<String>,
    /// Marks that are not touched, and why.
    pub leave: Vec<String>,
    /// The steps, each with a box to tick.
    pub tasks: Vec<Task>,
}

/// Something to do and to tick.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Task {
    /// What.
    pub text: String,
    /// How long it is reckoned to take, where it is by time.
    pub time: Option<String>,
    /// What to heed while doing it.
    pub heed: Vec<Heed>,
}

/// A caution beside the step it belongs to.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Heed {
    /// What it is about.
    pub about: String,
    /// What to heed and who decides; nothing where the order has said it already.
    pub text: Option<String>,
}

/// Fills the work order of a claim.
pub fn work_order(subject: &Subject<'_>, imprint: &Imprint<'_>) -> WorkOrder {
    let filling = plain(subject, imprint);
    let assessment = subject.assessment;
    let mut bench = Bench { filling: &filling, said: BTreeSet::new() };
    let before = bench.before();
    let panels = in_working_order(subject).into_iter().map(|index| bench.panel(index)).collect();
    let items = bench.items();
    let hand_over = bench.hand_over();
    let heed = assessment.cautions.iter().filter(|caution| !bench.said.contains(caution));
    let heed = heed.map(|caution| spelled(caution, subject)).collect();
    let idle = assessment.panels.iter().filter(|panel| panel.state != PanelState::Assessed);
    let idle: Vec<String> = idle.map(|panel| panel.panel.to_string()).collect();
    WorkOrder {
        language: "en",
        head: Head { what: LABELS.work_order, for_whom: None, schedule: None, ..summary::head(&filling) },
        vehicle: summary::vehicle(&filling),
        about: about_vehicle(subject),
        to_do: format!("{}.", wording::sentence(&wording::methods(subject))),
        labour: super::lines::labour(subject),
        waits: work::not_ordered(assessment)
            .into_iter()
            .map(str::to_owned)
            .chain(assessment.open_panels().map(|panel| work::waits(panel, subject)))
            .collect(),
        figure: figure(&filling),
        parts: parts(subject),
        before,
        panels,
        items,
        left: work::left_as_they_are(&idle),
        hand_over,
        heed,
    }
}

fn about_vehicle(subject: &Subject<'_>) -> Vec<String> {
    let vehicle = &subject.claim.vehicle;
    let said = |label: &str, text: &Option<crate::claim::Located<String>>| {
        text.as_ref().map(|text| format!("{label}: {}", wording::said(&text.value)))
    };
    [
        said(LABELS.vin, &vehicle.vin),
        said(LABELS.paint_kind, &vehicle.paint_kind),
        vehicle.drive.map(|drive| format!("{}: {}", LABELS.drive, drive.value)),
        said(LABELS.roof_equipment, &vehicle.roof_equipment),
        said(LABELS.driver_assistance, &vehicle.driver_assistance),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Panels that are worked, by their numbers: paintless work before painting and new parts, the roof while its lining is
/// down, then lids, then the sides from front to rear. Common practice, no source.
fn in_working_order(subject: &Subject<'_>) -> Vec<usize> {
    let panels = &subject.assessment.panels;
    let is_worked = |panel: &PanelAssessment| {
        panel.open.is_none()
            && panel.state == PanelState::Assessed
            && !matches!(panel.method, Method::NoRepair | Method::Refer)
    };
    let place = |kind: PanelKind| match kind {
        PanelKind::Roof => 0,
        PanelKind::RoofRail | PanelKind::APillar | PanelKind::BPillar | PanelKind::CPillar => 1,
        PanelKind::Hood | PanelKind::TrunkLid | PanelKind::Tailgate => 2,
        _ => 3,
    };
    let mut order: Vec<usize> = (0..panels.len()).filter(|index| is_worked(&panels[*index])).collect();
    order
        .sort_by_key(|index| (panels[*index].method, place(panels[*index].panel.kind), panels[*index].panel));
    order
}

/// New parts, material and what breaks on the way; what for, and no price.
fn parts(subject: &Subject<'_>) -> Vec<String> {
    let of_lines = subject.assessment.lines().filter_map(|numbered| {
        let what = wording::line(numbered.line, numbered.panel, subject);
        match (&numbered.line.kind, numbered.panel) {
            (LineKind::Part | LineKind::PaintMaterial, Some(panel)) => Some(format!("{what}: {panel}")),
            (LineKind::OperationParts { .. }, _) => Some(what),
            (LineKind::ItemPrice(index), _) => {
                let replaced = subject.claim.items[*index].action;
                replaced.is_none_or(|action| action.value == ItemAction::Replace).then_some(what)
            }
            _ => None,
        }
    });
    of_lines.collect()
}

fn spelled(caution: &Caution, subject: &Subject<'_>) -> Heed {
    let (about, text) = wording::caution(caution, subject);
    Heed { about, text: Some(text) }
}

fn task(text: impl Into<String>) -> Task {
    Task { text: text.into(), time: None, heed: Vec::new() }
}

/// Lays out the tasks, and remembers which cautions were spelled out.
struct Bench<'a> {
    filling: &'a Filling<'a>,
    said: BTreeSet<Caution>,
}

impl Bench<'_> {
    fn heed(&mut self, cautions: impl IntoIterator<Item = Caution>) -> Vec<Heed> {
        let subject = &self.filling.subject;
        let mut heed = Vec::new();
        for caution in cautions {
            let spelled = spelled(&caution, subject);
            let is_new = self.said.insert(caution);
            heed.push(Heed { text: spelled.text.filter(|_| is_new), ..spelled });
        }
        heed
    }

    /// The caution, if it is one of those.
    fn heed_of(&mut self, cautions: &[Caution], caution: &Caution) -> Vec<Heed> {
        self.heed(cautions.contains(caution).then(|| caution.clone()))
    }

    fn timed(&mut self, line: &Line, text: &str, cautions: Vec<Caution>) -> Task {
        let unit = self.filling.subject.schedule.terms.time_unit.value;
        let words = self.filling.subject.words;
        let time = line.hours.map(|(_, time)| wording::time_with_unit(time, unit, words));
        Task { text: format!("{}.", wording::sentence(text)), time, heed: self.heed(cautions) }
    }

    /// What the schedule's operations take off for the vehicle or a side, and what comes before any work.
    fn before(&mut self) -> Vec<Task> {
        let subject = self.filling.subject;
        let mut tasks = vec![task(work::RECEIVE)];
        if subject.assessment.cautions.contains(&Caution::HighVoltage) {
            let heed = self.heed([Caution::HighVoltage]);
            tasks.push(Task { heed, ..task(work::SWITCH_OFF) });
        }
        for line in &subject.assessment.vehicle_lines {
            if let LineKind::OperationLabour { operation, panel: None, .. } = line.kind {
                let text = wording::line(line, None, &subject);
                let cautions = caution_of(subject.schedule, operation).into_iter().collect();
                tasks.push(self.timed(line, &text, cautions));
            }
        }
        tasks.push(task(work::COVER));
        tasks
    }

    fn panel(&mut self, index: usize) -> PanelWork {
        let subject = self.filling.subject;
        let panel = &subject.assessment.panels[index];
        let first = first_marks(&subject)[index];
        let marks = |left_alone: bool| {
            let is_one = move |outcome: &MarkAssessment| (*outcome == MarkAssessment::Excluded) == left_alone;
            let marks = panel.marks.iter().enumerate().filter(move |(_, outcome)| is_one(outcome));
            marks.map(|(mark, _)| (mark, work::mark_to_find(panel, mark, first + mark, &subject)))
        };
        let why = |mark: usize| {
            let mut excluded = subject.assessment.excluded.iter();
            let excluded = excluded.find(|excluded| excluded.panel == panel.panel && excluded.mark == mark);
            excluded.map_or_else(String::new, |excluded| wording::excluded(excluded.reason, subject.words))
        };
        let inspection = subject.claim.inspections.get(panel.inspection);
        let written = inspection.and_then(|inspection| inspection.panels.get(panel.index));
        let overlay = inspection.filter(|inspection| inspection.role() != Role::Own).map(wording::overlay);
        let mut about: Vec<String> = written.map(super::panels::attributes).into_iter().flatten().collect();
        about.extend(overlay);
        let remarks = written.iter().flat_map(|written| &written.remarks);
        PanelWork {
            title: work::heading(panel),
            about: (!about.is_empty()).then(|| about.join(", ")),
            counted: work::counted(panel, &subject),
            marks: marks(false).map(|(_, words)| words).collect(),
            remarks: remarks.map(|remark| remark.value.clone()).collect(),
            leave: marks(true).map(|(mark, words)| format!("{words}: {}", why(mark))).collect(),
            tasks: self.tasks(panel, written),
        }
    }

    fn tasks(&mut self, panel: &PanelAssessment, written: Option<&PanelCount>) -> Vec<Task> {
        let subject = self.filling.subject;
        let calls_for = written.map_or_else(Vec::new, |written| {
            cautions_of_panel(subject.claim, subject.schedule, panel, written)
        });
        let mut tasks = Vec::new();
        for line in &subject.assessment.vehicle_lines {
            match line.kind {
                LineKind::OperationLabour { operation, panel: Some(of), side: _ } if of == panel.panel => {
                    let text = wording::said(&subject.schedule.operations[operation].name);
                    let cautions = caution_of(subject.schedule, operation).into_iter().collect();
                    tasks.push(self.timed(line, &text, cautions));
                }
                _ => {}
            }
        }
        let access = written.and_then(|written| written.access).map(|access| access.value);
        if matches!(panel.method, Method::Paintless | Method::RefinishAfter) {
            self.paintless(access, &calls_for, panel.panel.kind, &mut tasks);
        }
        self.by_time(panel, &calls_for, &mut tasks);
        if let Some(last) = tasks.last_mut() {
            last.heed.extend(self.heed_of(&calls_for, &Caution::Calibration));
        }
        tasks
    }

    /// Paintless work in its order.
    fn paintless(
        &mut self,
        access: Option<Access>,
        calls_for: &[Caution],
        kind: PanelKind,
        tasks: &mut Vec<Task>,
    ) {
        if let Some(access) = access {
            let heed = self.heed_of(calls_for, &Caution::Airbag);
            tasks.push(Task { heed, ..task(work::reach(access)) });
        }
        if calls_for.contains(&Caution::Glass) || is_beside_glass(kind) {
            let heed = self.heed_of(calls_for, &Caution::Glass);
            tasks.push(Task { heed, ..task(work::PROTECT_GLASS) });
        }
        let heed = self.heed_of(calls_for, &Caution::Chemicals);
        tasks.push(Task { heed, ..task(work::DEGREASE) });
        let heed = self.heed_of(calls_for, &Caution::Heat);
        tasks.push(Task { heed, ..task(work::PULL) });
        tasks.extend([work::RELEASE, work::LIFT, work::FINISH, work::LOOK].map(task));
    }

    /// Conventional repair, fitting, painting and blending, as the decided way has them.
    fn by_time(&mut self, panel: &PanelAssessment, calls_for: &[Caution], tasks: &mut Vec<Task>) {
        let subject = self.filling.subject;
        if panel.method == Method::Replace {
            tasks.push(task(work::COMPARE_PART));
        }
        for line in panel.chosen().iter().flat_map(|chosen| &chosen.lines) {
            let belongs: &[Caution] = match line.kind {
                LineKind::ConventionalLabour | LineKind::FittingLabour => {
                    &[Caution::Structural, Caution::Heat, Caution::Airbag]
                }
                LineKind::RefinishLabour => &[Caution::Chemicals],
                LineKind::BlendLabour => &[],
                _ => continue,
            };
            let cautions = belongs.iter().filter(|caution| calls_for.contains(caution)).cloned().collect();
            let text = wording::line(line, Some(panel.panel), &subject);
            tasks.push(self.timed(line, &text, cautions));
        }
    }

    fn items(&mut self) -> Vec<Task> {
        let subject = self.filling.subject;
        let open = |index: usize| subject.assessment.open_items.iter().any(|open| open.item == index);
        let mut tasks = Vec::new();
        for (index, item) in subject.claim.items.iter().enumerate().filter(|(index, _)| !open(*index)) {
            let action = item.action.map_or(ItemAction::Replace, |action| action.value);
            let mut text = format!("{}: {action}", wording::said(&item.name.value));
            if let Some(remark) = &item.remark {
                let _ = write!(text, " ({})", wording::said(&remark.value));
            }
            let cautions = cautions_of_item(subject.claim, item);
            let is_labour = |line: &&Line| line.kind == LineKind::ItemLabour(index);
            let task = match subject.assessment.vehicle_lines.iter().find(is_labour) {
                Some(line) => self.timed(line, &text, cautions),
                None => Task { heed: self.heed(cautions), ..task(format!("{}.", wording::sentence(&text))) },
            };
            tasks.push(task);
        }
        tasks
    }

    fn hand_over(&mut self) -> Vec<Task> {
        let cautions = &self.filling.subject.assessment.cautions;
        let mut tasks: Vec<Task> = work::HAND_OVER.map(task).into();
        if cautions.contains(&Caution::Calibration) {
            let heed = self.heed([Caution::Calibration]);
            tasks.push(Task { heed, ..task(work::CALIBRATIONS) });
        }
        tasks
    }
}

/// Panels that carry glass or stand against it.
fn is_beside_glass(kind: PanelKind) -> bool {
    matches!(
        kind,
        PanelKind::FrontDoor
            | PanelKind::RearDoor
            | PanelKind::SlidingDoor
            | PanelKind::CargoDoor
            | PanelKind::Tailgate
            | PanelKind::QuarterPanel
            | PanelKind::APillar
            | PanelKind::CPillar
    )
}
