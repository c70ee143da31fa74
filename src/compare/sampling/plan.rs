use super::letter::{CodeLetter, InspectionLevel, code_letter};

/// The acceptance quality limit (AQL): percent of units off that is still taken for good work in the long run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum QualityLevel {
    /// 0.65 %.
    P0_65,
    /// 1.0 %.
    P1_0,
    /// 1.5 %.
    P1_5,
    /// 2.5 %.
    P2_5,
    /// 4.0 %.
    P4_0,
    /// 6.5 %.
    P6_5,
    /// 10 %.
    P10,
}

impl QualityLevel {
    /// Every level, in the order of the tables.
    pub const ALL: [Self; 7] =
        [Self::P0_65, Self::P1_0, Self::P1_5, Self::P2_5, Self::P4_0, Self::P6_5, Self::P10];

    /// As the tables head it, in percent.
    pub const fn name(self) -> &'static str {
        match self {
            Self::P0_65 => "0.65",
            Self::P1_0 => "1.0",
            Self::P1_5 => "1.5",
            Self::P2_5 => "2.5",
            Self::P4_0 => "4.0",
            Self::P6_5 => "6.5",
            Self::P10 => "10",
        }
    }
}

/// How severe inspection is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Severity {
    /// Where one starts.
    Normal,
    /// After batches that were not accepted.
    Tightened,
}

/// A single sampling plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SamplingPlan {
    /// The letter whose row it stands in, after arrows.
    pub letter: CodeLetter,
    /// Units to look at.
    pub sample: u64,
    /// Accept at so many off or fewer.
    pub accept: u64,
    /// Do not accept at so many or more.
    pub reject: u64,
}

/// What a lot asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Size {
    /// A sample.
    Sample(SamplingPlan),
    /// Every unit: the lot is no larger than the sample would be, or has a single unit.
    Everything,
}

/// A cell of the master tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Cell {
    /// Arrow up: the first plan above.
    U,
    /// Arrow down: the first plan below.
    D,
    /// Acceptance number.
    A(u64),
}

use Cell::{A, D, U};

type Table = [[Cell; 7]; CodeLetter::COUNT];

/// Table II-A of MIL-STD-105E, columns 0.65 to 10: a row for each letter from A to R.
const NORMAL: Table = [
    [D, D, D, D, D, A(0), D],
    [D, D, D, D, A(0), U, D],
    [D, D, D, A(0), U, D, A(1)],
    [D, D, A(0), U, D, A(1), A(2)],
    [D, A(0), U, D, A(1), A(2), A(3)],
    [A(0), U, D, A(1), A(2), A(3), A(5)],
    [U, D, A(1), A(2), A(3), A(5), A(7)],
    [D, A(1), A(2), A(3), A(5), A(7), A(10)],
    [A(1), A(2), A(3), A(5), A(7), A(10), A(14)],
    [A(2), A(3), A(5), A(7), A(10), A(14), A(21)],
    [A(3), A(5), A(7), A(10), A(14), A(21), U],
    [A(5), A(7), A(10), A(14), A(21), U, U],
    [A(7), A(10), A(14), A(21), U, U, U],
    [A(10), A(14), A(21), U, U, U, U],
    [A(14), A(21), U, U, U, U, U],
    [A(21), U, U, U, U, U, U],
];

/// Table II-B, likewise.
const TIGHTENED: Table = [
    [D, D, D, D, D, D, D],
    [D, D, D, D, D, A(0), D],
    [D, D, D, D, A(0), D, D],
    [D, D, D, A(0), D, D, A(1)],
    [D, D, A(0), D, D, A(1), A(2)],
    [D, A(0), D, D, A(1), A(2), A(3)],
    [A(0), D, D, A(1), A(2), A(3), A(5)],
    [D, D, A(1), A(2), A(3), A(5), A(8)],
    [D, A(1), A(2), A(3), A(5), A(8), A(12)],
    [A(1), A(2), A(3), A(5), A(8), A(12), A(18)],
    [A(2), A(3), A(5), A(8), A(12), A(18), U],
    [A(3), A(5), A(8), A(12), A(18), U, U],
    [A(5), A(8), A(12), A(18), U, U, U],
    [A(8), A(12), A(18), U, U, U, U],
    [A(12), A(18), U, U, U, U, U],
    [A(18), U, U, U, U, U, U],
];

/// The plan of a letter at a quality level, arrows followed.
pub fn plan(letter: CodeLetter, quality: QualityLevel, severity: Severity) -> Option<SamplingPlan> {
    let table = match severity {
        Severity::Normal => &NORMAL,
        Severity::Tightened => &TIGHTENED,
    };
    let column = QualityLevel::ALL.iter().position(|known| *known == quality)?;
    let at = |row: usize| table.get(row).map(|cells| cells[column]);
    let mut row = letter.index();
    loop {
        match at(row)? {
            A(accept) => {
                let letter = CodeLetter::new(row)?;
                return Some(SamplingPlan { letter, sample: letter.size(), accept, reject: accept + 1 });
            }
            U => row = row.checked_sub(1)?,
            D => row += 1,
        }
    }
}

/// What a lot asks for at a level of inspection, a quality level and a severity; an empty lot asks for nothing.
pub fn plan_for_lot(
    lot: u64,
    level: InspectionLevel,
    quality: QualityLevel,
    severity: Severity,
) -> Option<Size> {
    if lot == 1 {
        return Some(Size::Everything);
    }
    let plan = plan(code_letter(lot, level)?, quality, severity)?;
    Some(if plan.sample >= lot { Size::Everything } else { Size::Sample(plan) })
}
