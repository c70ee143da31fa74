//! Questions that a row of a column map answers: each asked once for a heading or a word, with what each answer changes.

mod choices;
mod conventions;
mod find;
mod parts;
mod twice;
mod whose;

use crate::claim::{Intake, Role};
use crate::problem::{
    Code, Place, Problem, Sources, catalogue::asked, catalogue::assess, catalogue::claim, catalogue::counts,
    catalogue::file, catalogue::tally,
};
use crate::quantity::{DecimalMark, LengthUnit};
use crate::table::{Sheet, Table, parse_interval};
use choices::{choices, of_heading};
use find::find;
use std::collections::{BTreeMap, BTreeSet};
use whose::whose;

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
    /// The sheet and the file that it is asked of, where it concerns no other ones.
    pub of: Option<(String, String)>,
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
        &file::COLUMN_UNHEADED,
        &counts::OVERSIZE_OPEN,
        &counts::SIZE_WITHOUT_UNIT,
        &counts::SIZE_IS_DATE,
        &tally::SIZE_ABSURD,
        &tally::LENGTH_ABSURD,
        &assess::SIZE_UNKNOWN,
        &assess::SIZE_STRADDLES,
        &assess::SIZE_BEYOND,
    ];
    let words = [
        &counts::COUNT_WORD,
        &counts::COUNT_NOT_A_NUMBER,
        &asked::WORK_IN_COUNTS,
        &counts::COUNT_ESTIMATE,
        &counts::COUNT_IS_DATE,
        &counts::PANEL_WHICH,
        &counts::PANEL_WORD,
        &counts::PANEL_CORNER,
        &counts::PANEL_UNKNOWN,
        &counts::SIDE_MISSING,
        &counts::SIDE_RELATIVE,
        &counts::SIDE_BOTH,
        &claim::WORD_UNKNOWN,
        &claim::WORD_OPEN,
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
    (sheets, sources): (&[Sheet], &Sources),
    bands: &[(String, String)],
    lists: impl Fn(&str) -> bool,
) -> Vec<Question> {
    let all: Vec<&Problem> = problems.collect();
    let problems: Vec<(&Problem, About)> =
        all.iter().filter_map(|problem| Some((*problem, about(problem.code)?))).collect();
    let whose = whose(intakes);
    let mut wanted: BTreeSet<Place> = whose.iter().map(|(written, ..)| written.place).collect();
    for (problem, about) in &problems {
        wanted.extend(cells_of(problem, *about));
    }
    wanted.extend(
        all.iter()
            .filter(|problem| conventions::is_one(problem))
            .flat_map(|problem| conventions::cells(problem)),
    );
    let sizes = || tables.iter().flat_map(|table| &table.columns).filter(|column| column.in_family);
    wanted.extend(sizes().map(|column| column.place));
    let has_unheaded = problems.iter().any(|(problem, _)| problem.code == &file::COLUMN_UNHEADED);
    let found = find(&wanted, tables, sheets, has_unheaded);
    let mut asked: BTreeMap<(String, Option<String>, String), Question> = BTreeMap::new();
    for (problem, about) in problems {
        for place in cells_of(problem, about) {
            // Work may stand in a cell, or over a column.
            let is_headed = problem.code == &asked::WORK_IN_COUNTS && found.headings.contains_key(&place);
            let about = if is_headed { About::Heading } else { about };
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
                of: None,
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
            of: None,
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
            of: None,
            cells: 1,
            choices: vec![
                (Role::Own.to_string(), format!("these {dents} dents are priced")),
                (Role::Second.to_string(), "compared with the others, never added".to_owned()),
                ("left out".to_owned(), format!("these {dents} dents count nowhere")),
            ],
        })
    }));
    questions.extend(conventions::questions(&all, &found, (sheets, sources)));
    questions.extend(parts::hidden(&all, sheets, sources));
    questions.extend(parts::seen(&all, sources));
    questions.extend(twice::questions(&all, tables, (sheets, sources)));
    questions.extend(parts::rows(&all, tables, sources));
    questions.sort_by(|a, b| (a.place, &a.word).cmp(&(b.place, &b.word)));
    questions
        .dedup_by(|a, b| (&a.heading, &a.word, &a.beside, &a.of) == (&b.heading, &b.word, &b.beside, &b.of));
    questions
}

fn cells_of(problem: &Problem, about: About) -> Vec<Place> {
    let heading = || {
        problem
            .also
            .first()
            .copied()
            .filter(|_| assess::CODES.contains(&problem.code) || problem.code == &tally::LENGTH_ABSURD)
    };
    match about {
        About::Heading => heading().or(problem.place).into_iter().collect(),
        About::Word => problem.place.into_iter().chain(problem.also.iter().copied()).collect(),
    }
}
