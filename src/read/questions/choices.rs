//! Answers to choose from, each with what it changes.

use super::About;
use super::find::Asked;
use crate::claim::words::panel::{Part, readings};
use crate::claim::{PanelId, PanelKind, Side};
use crate::problem::{
    Problem, catalogue::asked, catalogue::claim, catalogue::counts, catalogue::file, catalogue::tally,
};
use crate::read::panels::each_side;

/// A larger number in an estimate is no number of dents.
const MOST: u32 = 2000;

pub(super) fn choices(
    problem: &Problem,
    about: About,
    cell: &Asked,
    bands: &[(String, String)],
) -> Vec<(String, String)> {
    let choice = |answer: &str, effect: &str| (answer.to_owned(), effect.to_owned());
    if about == About::Heading && problem.code == &tally::LENGTH_ABSURD {
        let name = cell.text.split(['(', '[', ',']).next().unwrap_or_default().trim();
        let with = |unit: &str| (format!("{name} ({unit})"), format!("numbers below it are in {unit}"));
        return ["mm", "cm", "in"].map(with).to_vec();
    }
    if about == About::Heading && [&counts::SIZE_WITHOUT_UNIT, &tally::SIZE_ABSURD].contains(&problem.code) {
        let range = cell.text.trim_end_matches(|c: char| !(c.is_ascii_digit() || c == '+'));
        let with = |unit: &str| format!("{range} {unit}");
        let effect = |unit: &str| format!("all sizes beside it are in {unit}, too");
        return ["mm", "cm", "in"].map(|unit| (with(unit), effect(unit))).to_vec();
    }
    if about == About::Heading {
        let mut choices = of_heading(cell, bands);
        if [&counts::COLUMN_OPEN, &file::COLUMN_UNHEADED, &asked::WORK_IN_COUNTS].contains(&problem.code) {
            // Most such columns hold something else.
            choices.rotate_right(1);
        }
        return choices;
    }
    let code = problem.code;
    if code == &counts::COUNT_NOT_A_NUMBER || code == &asked::WORK_IN_COUNTS {
        vec![
            choice("blank", "no number is written there: nothing is priced for it"),
            choice("0", "somebody looked and found none"),
        ]
    } else if code == &counts::SIDE_BOTH {
        let mut choices: Vec<(String, String)> = each_side(&cell.text)
            .into_iter()
            .flatten()
            .map(|side| (side, "all of these dents are there".to_owned()))
            .collect();
        choices.push(choice("each side", "the left and the right have so many dents each"));
        choices
    } else if code == &counts::SIDE_RELATIVE {
        sides(&cell.text)
    } else if code == &counts::COUNT_WORD {
        vec![
            choice("0", "somebody looked and found none"),
            choice("blank", "nobody looked, or nothing was written"),
        ]
    } else if code == &counts::COUNT_ESTIMATE || code == &counts::COUNT_IS_DATE {
        let numbers = cell.text.split(|c: char| !c.is_ascii_digit()).filter(|number| !number.is_empty());
        let mut seen: Vec<(String, String)> = numbers
            .map(|number| (number.to_owned(), format!("{number} dents in each such cell")))
            .filter(|(number, _)| number.parse::<u32>().is_ok_and(|number| number <= MOST))
            .collect();
        seen.dedup();
        seen
    } else if [&claim::WORD_UNKNOWN, &claim::WORD_OPEN].contains(&code) {
        vec![choice("blank", "as if nothing was written")]
    } else {
        let word = cell.text.to_lowercase();
        let all: Vec<PanelId> = panels().collect();
        let near: Vec<&PanelId> = all.iter().filter(|panel| panel.to_string().contains(&word)).collect();
        let offered = if near.is_empty() { all.iter().collect() } else { near };
        offered.iter().map(|panel| (panel.to_string(), format!("the row is the {panel}"))).collect()
    }
}

/// A heading may be any of the schedules' bands, or no size at all.
pub(super) fn of_heading(cell: &Asked, bands: &[(String, String)]) -> Vec<(String, String)> {
    let dents = if cell.dents == 1 { "1 dent".to_owned() } else { format!("{} dents", cell.dents) };
    let rated = bands.iter().map(|(range, name)| (range.clone(), format!("{dents} rated as {name}")));
    rated.chain([("left out".to_owned(), format!("{dents} not counted"))]).collect()
}

fn panels() -> impl Iterator<Item = PanelId> {
    PanelKind::ALL.iter().flat_map(|kind| {
        let sides: &[Option<Side>] =
            if kind.is_paired() { &[Some(Side::Left), Some(Side::Right)] } else { &[None] };
        sides.iter().map(|side| PanelId::new(*kind, *side))
    })
}

/// The two sides of a panel whose side depends on the country or the steering, or the two sides alone.
fn sides(text: &str) -> Vec<(String, String)> {
    let sides = [Side::Left, Side::Right];
    let kinds = readings(text).unwrap_or_default().into_iter().flat_map(|reading| match reading.part {
        Part::Kind(kind) => vec![kind],
        Part::Group(group) => group.kinds().to_vec(),
    });
    let of_kind =
        |kind: PanelKind| sides.map(|side| PanelId::new(kind, kind.is_paired().then_some(side)).to_string());
    let mut answers: Vec<String> = kinds.flat_map(of_kind).collect();
    answers.dedup();
    if answers.is_empty() {
        answers = sides.iter().map(ToString::to_string).collect();
    }
    answers
        .into_iter()
        .map(|answer| (answer.clone(), format!("these rows are {answer}, as seated")))
        .collect()
}
