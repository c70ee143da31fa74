//! Questions that a row of a column map answers: each asked once for a heading or a word, with what each answer changes.

use super::count;
use super::meanings::shape_of;
use crate::claim::{Counted, Inspection, Intake, Located, PanelId, PanelKind, Role, Side};
use crate::problem::{Code, Place, Problem, catalogue::assess, catalogue::claim, catalogue::counts};
use crate::quantity::{DateFault, DecimalMark, LengthUnit, parse_date};
use crate::table::{Sheet, Table, parse_interval};
use std::collections::{BTreeMap, BTreeSet};

/// What only a person knows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// The first cell that it is asked of.
    pub place: Place,
    /// The question in words.
    pub ask: String,
    /// The heading that it is about, or under which the word stands.
    pub heading: Option<String>,
    /// The word that it is about.
    pub word: Option<String>,
    /// The heading row as written: the answer holds for every sheet that has the same one.
    pub beside: String,
    /// How many cells it stands in.
    pub cells: usize,
    /// Answers to choose from, each with what it changes. Others may be written.
    pub choices: Vec<(String, String)>,
}

/// What a problem asks about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum About {
    /// The heading that it names as its place, or as the place beside it.
    Heading,
    /// The word in its cell.
    Word,
}

fn about(code: &Code) -> Option<About> {
    let headings = [
        &counts::COLUMN_OPEN,
        &counts::OVERSIZE_OPEN,
        &counts::SIZE_WITHOUT_UNIT,
        &counts::SIZE_IS_DATE,
        &assess::SIZE_UNKNOWN,
        &assess::SIZE_STRADDLES,
        &assess::SIZE_BEYOND,
    ];
    let words = [
        &counts::COUNT_WORD,
        &counts::COUNT_ESTIMATE,
        &counts::COUNT_IS_DATE,
        &counts::NUMBER_BOTH_WAYS,
        &counts::PANEL_WHICH,
        &counts::PANEL_WORD,
        &counts::PANEL_CORNER,
        &counts::PANEL_UNKNOWN,
        &counts::SIDE_MISSING,
        &counts::SIDE_RELATIVE,
        &claim::WORD_UNKNOWN,
        &claim::WORD_OPEN,
        &claim::DATE_AMBIGUOUS,
    ];
    if headings.contains(&code) { Some(About::Heading) } else { words.contains(&code).then_some(About::Word) }
}

/// The questions among the problems of a run, in the order of their cells. `bands` are those of its schedules, each as a
/// range with its name; `lists` says whether a schedule knows a name of a size: one that none knows is asked about before
/// any claim gets as far as a schedule.
pub fn questions<'p>(
    problems: impl Iterator<Item = &'p Problem>,
    intakes: &[Intake],
    tables: &[Table<'_>],
    sheets: &[Sheet],
    bands: &[(String, String)],
    lists: impl Fn(&str) -> bool,
) -> Vec<Question> {
    let problems: Vec<(&Problem, About)> =
        problems.filter_map(|problem| Some((problem, about(problem.code)?))).collect();
    let whose = whose(intakes);
    let mut wanted: BTreeSet<Place> = whose.iter().map(|(written, ..)| written.place).collect();
    for (problem, about) in &problems {
        wanted.extend(cells_of(problem, *about));
    }
    let sizes = || tables.iter().flat_map(|table| &table.columns).filter(|column| column.in_family);
    wanted.extend(sizes().map(|column| column.place));
    let found = find(&wanted, tables, sheets);
    let mut asked: BTreeMap<(String, Option<String>, String), Question> = BTreeMap::new();
    for (problem, about) in problems {
        for place in cells_of(problem, about) {
            let among = if about == About::Word { &found.words } else { &found.headings };
            let Some(cell) = among.get(&place) else { continue };
            let word = (about == About::Word).then(|| cell.text.clone());
            let key = (cell.heading.clone(), word.clone(), cell.beside.clone());
            let entry = asked.entry(key).or_insert_with(|| Question {
                place,
                ask: problem.message.clone(),
                heading: Some(cell.heading.clone()),
                word,
                beside: cell.beside.clone(),
                cells: 0,
                choices: choices(problem, about, cell, bands),
            });
            if about == About::Word {
                entry.cells += 1;
            } else {
                entry.cells = cell.counts;
            }
        }
    }
    for column in sizes().filter(|_| !bands.is_empty()) {
        let is_range =
            parse_interval(&column.heading, Some(LengthUnit::Millimetre), DecimalMark::Point).is_some();
        let Some(cell) = found.headings.get(&column.place).filter(|cell| !is_range && cell.dents > 0) else {
            continue;
        };
        if lists(&column.heading) {
            continue;
        }
        let key = (cell.heading.clone(), None, cell.beside.clone());
        asked.entry(key).or_insert_with(|| Question {
            place: column.place,
            ask: format!("which size is \"{}\"? No schedule lists it", cell.heading),
            heading: Some(cell.heading.clone()),
            word: None,
            beside: cell.beside.clone(),
            cells: cell.counts,
            choices: of_heading(cell, bands),
        });
    }
    let mut questions: Vec<Question> = asked.into_values().collect();
    questions.extend(whose.into_iter().filter_map(|(written, dents, others)| {
        let cell = found.words.get(&written.place)?;
        Some(Question {
            place: written.place,
            ask: format!(
                "whose count holds? {written} counted {dents} dents, {others}",
                written = written.value
            ),
            heading: Some(cell.heading.clone()),
            word: Some(cell.text.clone()),
            beside: cell.beside.clone(),
            cells: 1,
            choices: vec![
                (Role::Own.to_string(), format!("these {dents} dents are priced")),
                (Role::Second.to_string(), "compared with the others, never added".to_owned()),
                ("left out".to_owned(), format!("these {dents} dents count nowhere")),
            ],
        })
    }));
    questions.sort_by(|a, b| (a.place, &a.word).cmp(&(b.place, &b.word)));
    questions.dedup_by(|a, b| (&a.heading, &a.word, &a.beside) == (&b.heading, &b.word, &b.beside));
    questions
}

fn cells_of(problem: &Problem, about: About) -> Vec<Place> {
    let heading = || problem.also.first().copied().filter(|_| assess::CODES.contains(&problem.code));
    match about {
        About::Heading => heading().or(problem.place).into_iter().collect(),
        About::Word => problem.place.into_iter().chain(problem.also.iter().copied()).collect(),
    }
}

/// Inspections of one role where one has to hold: how each is told from the others, its dents, and the others.
fn whose(intakes: &[Intake]) -> Vec<(Located<String>, u64, String)> {
    let dents = |inspection: &Inspection| -> u64 {
        let entries = inspection.panels.iter().flat_map(|panel| &panel.tally);
        let number =
            |count: &Counted| if let Counted::Counted(count) = count { u64::from(*count) } else { 0 };
        entries.map(|entry| number(&entry.count)).sum()
    };
    let mut whose = Vec::new();
    for intake in intakes {
        let own: Vec<&Inspection> =
            intake.claim.inspections.iter().filter(|inspection| inspection.role() == Role::Own).collect();
        for inspection in own.iter().filter(|_| own.len() > 1) {
            let others: Vec<String> = own
                .iter()
                .filter(|other| !std::ptr::eq(**other, *inspection))
                .map(|other| format!("another {}", dents(other)))
                .collect();
            let pass = inspection.pass.map(|pass| Located::new(pass.value.to_string(), pass.place));
            let is_same = own.iter().all(|other| {
                let name = |one: &Inspection| one.assessor.as_ref().map(|assessor| assessor.value.clone());
                name(other) == name(inspection)
            });
            let written = if is_same { pass } else { inspection.assessor.clone() };
            whose.extend(written.map(|written| (written, dents(inspection), others.join(", "))));
        }
    }
    whose
}

/// A cell that something is asked about, as it was written.
struct Asked {
    heading: String,
    text: String,
    beside: String,
    /// Cells with a number below a heading, and their sum.
    counts: usize,
    dents: u64,
}

/// Wanted cells: as headings, and as words below one. A heading that labels a group of columns is both.
#[derive(Default)]
struct Found {
    headings: BTreeMap<Place, Asked>,
    words: BTreeMap<Place, Asked>,
}

/// Looks the wanted cells up, in one walk over the tables.
fn find(wanted: &BTreeSet<Place>, tables: &[Table<'_>], sheets: &[Sheet]) -> Found {
    let written = |place: Place| {
        let sheet = sheets.iter().find(|sheet| sheet.source == place.source)?;
        let index = sheet.rows.binary_search_by_key(&place.row, |row| row.number).ok()?;
        Some(&sheet.rows[index])
    };
    let text =
        |place: Place| written(place).and_then(|row| row.cell(place.column)).map(crate::table::Cell::text);
    let mut found = Found::default();
    for table in tables {
        let beside = table
            .columns
            .iter()
            .find_map(|column| written(column.place).filter(|row| row.cells.len() > 1))
            .map(shape_of)
            .unwrap_or_default();
        let merged = count::merged_cells(table);
        for column in &table.columns {
            let cells = || table.rows.iter().filter_map(|row| row.cell(column.column));
            if wanted.contains(&column.place) {
                let numbers: Vec<u32> =
                    cells().filter_map(|cell| count::read(table, &merged, cell).ok()).collect();
                let heading = text(column.place).unwrap_or_else(|| column.heading.clone());
                let dents = numbers.iter().map(|number| u64::from(*number)).sum();
                let asked = Asked {
                    text: heading.clone(),
                    heading,
                    beside: beside.clone(),
                    counts: numbers.len(),
                    dents,
                };
                found.headings.entry(column.place).or_insert(asked);
            }
            for cell in cells().filter(|cell| wanted.contains(&cell.place) && !cell.spread) {
                let asked = Asked {
                    heading: column.heading.clone(),
                    text: cell.text(),
                    beside: beside.clone(),
                    counts: 0,
                    dents: 0,
                };
                found.words.entry(cell.place).or_insert(asked);
            }
        }
    }
    found
}

/// A larger number in an estimate is no number of dents.
const MOST: u32 = 2000;

fn choices(
    problem: &Problem,
    about: About,
    cell: &Asked,
    bands: &[(String, String)],
) -> Vec<(String, String)> {
    let choice = |answer: &str, effect: &str| (answer.to_owned(), effect.to_owned());
    if about == About::Heading && problem.code == &counts::SIZE_WITHOUT_UNIT {
        let with = |unit: &str| format!("{} {unit}", cell.text);
        let effect = |unit: &str| format!("all sizes beside it are in {unit}, too");
        return ["mm", "cm", "in"].map(|unit| (with(unit), effect(unit))).to_vec();
    }
    if about == About::Heading {
        let mut choices = of_heading(cell, bands);
        if problem.code == &counts::COLUMN_OPEN {
            // Most such columns hold something else.
            choices.rotate_right(1);
        }
        return choices;
    }
    let code = problem.code;
    if code == &counts::COUNT_WORD {
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
    } else if code == &claim::DATE_AMBIGUOUS {
        dates(&cell.text)
    } else if [&claim::WORD_UNKNOWN, &claim::WORD_OPEN].contains(&code) {
        vec![choice("blank", "as if nothing was written")]
    } else if code == &counts::NUMBER_BOTH_WAYS {
        let digits: String = cell.text.chars().filter(char::is_ascii_digit).collect();
        vec![
            choice(&digits, "the sign groups thousands"),
            choice(&cell.text.replace(',', "."), "it parts decimals"),
        ]
    } else {
        let word = cell.text.to_lowercase();
        let all: Vec<PanelId> = panels().collect();
        let near: Vec<&PanelId> = all.iter().filter(|panel| panel.to_string().contains(&word)).collect();
        let offered = if near.is_empty() { all.iter().collect() } else { near };
        offered.iter().map(|panel| (panel.to_string(), format!("the row is the {panel}"))).collect()
    }
}

/// A heading may be any of the schedules' bands, or no size at all.
fn of_heading(cell: &Asked, bands: &[(String, String)]) -> Vec<(String, String)> {
    let dents = if cell.dents == 1 { "1 dent".to_owned() } else { format!("{} dents", cell.dents) };
    let rated = bands.iter().map(|(range, name)| (range.clone(), format!("{dents} rated as {name}")));
    rated.chain([("left out".to_owned(), format!("{dents} not counted"))]).collect()
}

/// The two days that a date may be.
fn dates(text: &str) -> Vec<(String, String)> {
    if parse_date(text) != Err(DateFault::Ambiguous) {
        return Vec::new();
    }
    let parts: Vec<&str> = text.split(|c: char| !c.is_ascii_digit()).collect();
    let [first, second, year] = parts[..] else { return Vec::new() };
    vec![
        (format!("{year}-{second:0>2}-{first:0>2}"), "the day stands first".to_owned()),
        (format!("{year}-{first:0>2}-{second:0>2}"), "the month stands first".to_owned()),
    ]
}

fn panels() -> impl Iterator<Item = PanelId> {
    PanelKind::ALL.iter().flat_map(|kind| {
        let sides: &[Option<Side>] =
            if kind.is_paired() { &[Some(Side::Left), Some(Side::Right)] } else { &[None] };
        sides.iter().map(|side| PanelId::new(*kind, *side))
    })
}
