use super::Filling;
use crate::assess::{MarkAssessment, PanelAssessment, PanelState};
use crate::claim::{MarkKind, Method, PanelId, Side};
use crate::report::Subject;
use crate::report::wording::{self, label::LABELS};
use serde::Serialize;
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// The panels as plates in three columns, front to rear: an arrangement like a table, not a picture of a car. Each plate
/// says its count and method in words; the strip at its edge repeats the method as a pattern, which any copier keeps.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PanelFigure {
    /// All of it in words, for those who do not see it.
    pub described: String,
    /// Its width.
    pub width: u32,
    /// Its height.
    pub height: u32,
    /// The plates, column by column.
    pub plates: Vec<Plate>,
}

/// One panel.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Plate {
    /// Its left edge.
    pub x: u32,
    /// Its upper edge.
    pub y: u32,
    /// Its height.
    pub height: u32,
    /// What is to be done with it; nothing where it is left as it is.
    #[serde(skip)]
    method: Option<Method>,
    /// Whether something is to be done with it or decided on it.
    pub worked: bool,
    /// Its name.
    pub name: String,
    /// Count and method, then its marks, a line each.
    pub lines: Vec<PlateLine>,
    /// The pattern of its method, as an SVG path from its corner.
    pub pattern: String,
    /// The signs of its marks, likewise.
    pub signs: String,
}

/// A line of text on a plate, from its corner.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PlateLine {
    /// Where it begins.
    pub x: u32,
    /// The line it stands on.
    pub y: u32,
    /// What it says.
    pub text: String,
}

const PLATE_WIDTH: u32 = 222;
const GAP: u32 = 10;
/// Room for the names of the columns.
const TOP: u32 = 16;
const STRIP: u32 = 12;
const TEXT: u32 = 20;
const LINE: u32 = 13;
/// Most that a plate is drawn higher than its words need.
const MOST_SPARE: u32 = 40;
/// Longest text on one line, in characters; count and method take two lines where they are longer.
const LONGEST: usize = 34;
/// Most marks on a plate; the others stand in the lists.
const MOST_MARKS: usize = 6;

/// The number of the first mark of each panel, counted through the claim, as every list and figure names marks.
pub(super) fn first_marks(subject: &Subject<'_>) -> Vec<usize> {
    let mut next = 1;
    subject
        .assessment
        .panels
        .iter()
        .map(|panel| {
            let first = next;
            next += panel.marks.len();
            first
        })
        .collect()
}

/// The figure; none where a single panel is all there is.
pub(super) fn figure(filling: &Filling<'_>) -> Option<PanelFigure> {
    let subject = &filling.subject;
    let assessment = subject.assessment;
    let first_marks = first_marks(subject);
    let mut shown: BTreeSet<PanelId> = assessment.panels.iter().map(|panel| panel.panel).collect();
    shown.extend(subject.claim.vehicle.body.iter().flat_map(|body| body.value.usual_panels()));
    if shown.len() < 2 {
        return None;
    }
    let mut columns: [Vec<Plate>; 3] = Default::default();
    for panel in shown {
        let assessed = assessment.panels.iter().position(|assessed| assessed.panel == panel);
        let plate = match assessed {
            Some(index) => assessed_plate(&assessment.panels[index], first_marks[index], subject),
            None => plate(panel, vec![LABELS.on_no_sheet.to_owned()]),
        };
        columns[column(panel)].push(plate);
    }
    let heights = columns.each_ref().map(|plates| needed(plates));
    let height = heights.into_iter().max().unwrap_or_default();
    for (index, plates) in (0..).zip(&mut columns) {
        arrange(plates, index * (PLATE_WIDTH + GAP), height);
    }
    let plates: Vec<Plate> = columns.into_iter().flatten().collect();
    Some(PanelFigure {
        described: described(&plates),
        width: 3 * PLATE_WIDTH + 2 * GAP,
        height: TOP + height,
        plates,
    })
}

fn column(panel: PanelId) -> usize {
    match panel.side {
        Some(Side::Left) => 0,
        None => 1,
        Some(Side::Right) => 2,
    }
}

fn described(plates: &[Plate]) -> String {
    let mut out = LABELS.figure_described.to_owned();
    for plate in plates {
        let lines: Vec<&str> = plate.lines.iter().map(|line| line.text.as_str()).collect();
        let _ = write!(out, " {}: {}.", plate.name, lines.join(", "));
    }
    out
}

fn plate(panel: PanelId, words: Vec<String>) -> Plate {
    let mut plate = Plate {
        x: 0,
        y: 0,
        height: 0,
        method: None,
        worked: false,
        name: wording::sentence(&panel.to_string()),
        lines: Vec::new(),
        pattern: String::new(),
        signs: String::new(),
    };
    for text in words {
        add_line(&mut plate, TEXT, text);
    }
    plate
}

fn add_line(plate: &mut Plate, x: u32, text: String) {
    let y = 15 + LINE * (u32::try_from(plate.lines.len()).unwrap_or(u32::MAX) + 1);
    plate.lines.push(PlateLine { x, y, text });
    plate.height = y + 7;
}

fn assessed_plate(panel: &PanelAssessment, first_mark: usize, subject: &Subject<'_>) -> Plate {
    let method = wording::method_of(panel);
    let words = if panel.state != PanelState::Assessed || panel.dents == 0 {
        vec![method]
    } else {
        let dents = wording::dents(panel.dents);
        let both = format!("{dents}, {method}");
        if both.chars().count() <= LONGEST { vec![both] } else { vec![dents, method] }
    };
    let mut plate = plate(panel.panel, words);
    plate.worked = panel.state == PanelState::Assessed;
    plate.method = plate.worked.then_some(panel.method);
    for (index, outcome) in panel.marks.iter().enumerate().take(MOST_MARKS) {
        let Some(mark) = wording::written_mark(panel, index, subject) else { continue };
        let mut text = format!("{}: ", first_mark + index);
        text.push_str(&wording::mark(panel, index, subject).unwrap_or_default());
        if *outcome == MarkAssessment::Excluded {
            text.push_str(LABELS.leave_alone);
        } else if let Some(position) = mark.position {
            let _ = write!(text, ", {}", position.value);
        }
        add_line(&mut plate, TEXT + 12, text);
        let y = plate.lines.last().map_or(0, |line| line.y).saturating_sub(4);
        sign(&mut plate.signs, mark.kind.value, *outcome == MarkAssessment::Excluded, y);
    }
    if let Some(more) = panel.marks.len().checked_sub(MOST_MARKS).filter(|more| *more > 0) {
        add_line(&mut plate, TEXT + 12, wording::more_marks(more));
    }
    plate
}

/// A ring for what is round, a bar for what is long, a triangle for broken paint, a cross for what is left alone.
fn sign(out: &mut String, kind: MarkKind, left_alone: bool, y: u32) {
    let x = TEXT + 4;
    let _ = match kind {
        _ if left_alone => write!(out, "M{} {}l6 6m0-6l-6 6", x - 3, y - 3),
        MarkKind::Crease | MarkKind::BraceMark => write!(out, "M{} {y}h8", x - 4),
        MarkKind::BrokenPaint => write!(out, "M{} {}h8l-4-7z", x - 4, y + 3),
        MarkKind::Dent | MarkKind::OversizeDent | MarkKind::Crown | MarkKind::NotDamage => {
            write!(out, "M{} {y}a3 3 0 1 0 6 0a3 3 0 1 0-6 0", x - 3)
        }
    };
}

fn needed(plates: &[Plate]) -> u32 {
    plates.iter().map(|plate| plate.height + GAP).sum::<u32>().saturating_sub(GAP)
}

/// Sets the plates of a column below each other from its top to its foot.
fn arrange(plates: &mut [Plate], x: u32, height: u32) {
    let count = u32::try_from(plates.len()).unwrap_or(u32::MAX).max(1);
    let spare = (height.saturating_sub(needed(plates)) / count).min(MOST_SPARE);
    let left = height.saturating_sub(needed(plates) + spare * count);
    let between = if count > 1 { left / (count - 1) } else { 0 };
    let mut y = TOP;
    for plate in plates {
        plate.x = x;
        plate.y = y;
        plate.height += spare;
        y += plate.height + GAP + between;
        plate.pattern = plate.method.map_or_else(String::new, |method| pattern(method, plate.height));
    }
}

fn pattern(method: Method, height: u32) -> String {
    const STEP: u32 = 7;
    let rows = (1..).map(|row| row * STEP).take_while(|y| y + 2 < height);
    let slopes = (0..).map(|row| row * STEP).take_while(|y| y + STRIP <= height);
    let pieces: Vec<String> = match method {
        Method::NoRepair => Vec::new(),
        Method::Paintless => rows.map(|y| format!("M5 {y}h2")).collect(),
        Method::RefinishAfter => slopes.map(|y| format!("M0 {}l{STRIP}-{STRIP}", y + STRIP)).collect(),
        Method::Conventional => rows.map(|y| format!("M0 {y}h{STRIP}")).collect(),
        Method::Replace => slopes
            .step_by(2)
            .map(|y| format!("M0 {}l{STRIP}-{STRIP}M0 {y}l{STRIP} {STRIP}", y + STRIP))
            .collect(),
        Method::Refer => vec![format!("M3 0v{height}M6 0v{height}M9 0v{height}")],
    };
    pieces.concat()
}
