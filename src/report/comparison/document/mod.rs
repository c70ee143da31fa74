//! The documents of a comparison: one model, filled once from [`Compared`] and drawn by every format, so that all of them
//! say the same figures and words. No statistic and no amount is computed here; floats are only printed and laid out.
#![expect(
    clippy::float_arithmetic,
    reason = "statistics are printed and laid out in plots; no amount passes through"
)]

mod adjudication;
mod annex;
mod counted;
mod figure;
mod five;
mod front;
mod letter;
mod listed;
mod names;
pub mod plot;
mod plots;
mod table;
mod words;

pub use adjudication::{Adjudication, AtStake, CarSheet, CountRow, PanelSheet};
pub use annex::PairAnnex;
pub use five::FrontFigure;
pub use front::{Front, Sum};
pub use letter::{LETTERS, Letter};
pub use names::Sides;
pub use plots::Plot;
pub use table::{StatisticRow, Table};

use super::Compared;
use crate::claim::InputFile;
use crate::compare::comparison::{Comparison, MOST_ALL};
use crate::report::document::Imprint;
use crate::report::wording::{date, said, so_many};
use crate::schedule::Schedule;
use serde::Serialize;

/// What every part of the report is filled from.
#[derive(Debug, Clone, Copy)]
struct Filling<'a> {
    comparison: &'a Comparison,
    schedules: &'a [Schedule],
    /// Every file of the run; none where letters stand for names, for paths hold names, too.
    files: &'a [InputFile],
    imprint: Imprint<'a>,
}

/// The whole report, ready to be drawn.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Report {
    /// Language of our own words, as in BCP 47.
    pub language: &'static str,
    /// What stands at the head of every page.
    pub head: Head,
    /// What a reader wants to know first.
    pub front: Front,
    /// What a comparison can and cannot say.
    pub fair: &'static str,
    /// Which way differences run.
    pub direction: String,
    /// That not everybody was compared with everybody, where they are many.
    pub ring: Option<String>,
    /// Plots, each with its sentence and its table.
    pub plots: Vec<Plot>,
    /// The five figures of every pair, where there are several.
    pub every_pair: Option<Table>,
    /// Every pair over time, where the cars lie in several periods.
    pub over_time: Option<Table>,
    /// Statistics over all assessors.
    pub everyone: Vec<StatisticRow>,
    /// All pairs together, and each pair.
    pub annexes: Vec<PairAnnex>,
    /// Slips, people, cars that stand out, what was not compared.
    pub lists: Vec<Table>,
    /// The sheets to agree on.
    pub adjudication: Adjudication,
    /// A letter for each pair.
    pub letters: Vec<Letter>,
    /// Tool, schedules and files.
    pub provenance: Vec<Made>,
}

/// The head of a page.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Head {
    /// What it is.
    pub what: &'static str,
    /// Who was compared.
    pub who: String,
    /// The same in short, for the foot of the paper.
    pub short_key: String,
    /// Over what.
    pub over: String,
    /// The date of the run, where one was given.
    pub date: Option<String>,
}

/// One thing that the comparison was made by or of.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Made {
    /// What it is.
    pub what: &'static str,
    /// Its name.
    pub name: String,
    /// Its SHA-256.
    pub digest: Option<String>,
}

/// Fills the report. Where letters stand for names, files are not named.
pub fn fill(compared: &Compared<'_>, imprint: &Imprint<'_>, letters: bool) -> Report {
    let filling = &Filling {
        comparison: compared.comparison,
        schedules: compared.run.schedules,
        files: if letters { &[] } else { compared.run.files },
        imprint: *imprint,
    };
    let overall = &filling.comparison.overall;
    let sides = filling.sides(overall);
    let several = filling.comparison.assessors.len() > 2;
    let ring = filling.comparison.in_a_ring();
    Report {
        language: "en",
        head: head(filling),
        front: front::front(filling),
        fair: words::FAIR,
        direction: if !filling.is_directed() {
            "Without a reference a difference between several people has no direction: read the sizes, and each pair below."
                .to_owned()
        } else if several {
            format!("{} The first is {} throughout.", words::DIRECTION, sides.first)
        } else {
            format!("Every difference is {}: a plus means that {} has more.", sides.minus(), sides.first)
        },
        ring: (ring > 0).then(|| {
            format!(
                "{} counted by more than {MOST_ALL} people: there each is compared with the next by name, in a ring, so that \
                 everybody stands in two pairs. What is said of everybody takes all counts. With a reference all are \
                 compared with one.",
                so_many(ring, "car was", "cars were")
            )
        }),
        plots: plots::plots(filling),
        every_pair: annex::every_pair(filling),
        over_time: annex::over_time(filling),
        everyone: listed::everyone(filling),
        annexes: annex::annexes(filling),
        lists: listed::lists(filling),
        adjudication: adjudication::adjudication(filling),
        letters: letter::letters(filling),
        provenance: provenance(filling),
    }
}

fn head(filling: &Filling<'_>) -> Head {
    let overall = &filling.comparison.overall;
    let assessors = filling.comparison.assessors.iter().filter(|assessor| assessor.looks > 0).count();
    let who = if assessors == 2 {
        filling.sides(overall).both()
    } else {
        so_many(assessors, "assessor", "assessors")
    };
    Head {
        what: "Comparison of counts",
        short_key: who.chars().take(60).collect(),
        who,
        over: if assessors > 2 {
            format!(
                "{}, {} of a panel by two of them",
                so_many(filling.cars(), "car", "cars"),
                so_many(overall.panels, "pair of counts", "pairs of counts")
            )
        } else {
            format!(
                "{}, {} inspected by both",
                so_many(overall.cars, "car", "cars"),
                so_many(overall.panels, "panel", "panels")
            )
        },
        date: filling.imprint.run_date.map(date),
    }
}

fn provenance(filling: &Filling<'_>) -> Vec<Made> {
    let tool =
        Made { what: "Made by", name: format!("stipple {}", filling.imprint.tool_version), digest: None };
    let schedules = filling.schedules.iter().map(|schedule| Made {
        what: "Schedule",
        name: format!(
            "{}, edition {}",
            said(&schedule.terms.name.value),
            said(&schedule.terms.edition.value)
        ),
        digest: Some(schedule.digest.clone()),
    });
    let files = filling.files.iter().map(|file| Made {
        what: "File",
        name: file.path.clone(),
        digest: Some(file.sha256.clone()),
    });
    std::iter::once(tool).chain(schedules).chain(files).collect()
}
