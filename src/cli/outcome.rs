use crate::batch::Totals;
use std::process::ExitCode;

/// How a command ended, for whoever called the program.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ended {
    /// All of it is done; there may be warnings.
    Done,
    /// Done, but some claims, files or schedules had problems and were left out.
    Incomplete,
    /// Nothing could be done.
    Nothing,
}

impl Ended {
    /// How a run with these totals ended.
    pub fn of(totals: &Totals) -> Self {
        if totals.is_incomplete() { Self::Incomplete } else { Self::Done }
    }

    /// The exit code.
    pub const fn code(self) -> u8 {
        match self {
            Self::Done => 0,
            Self::Incomplete => 1,
            Self::Nothing => 2,
        }
    }
}

impl From<Ended> for ExitCode {
    fn from(ended: Ended) -> Self {
        Self::from(ended.code())
    }
}
