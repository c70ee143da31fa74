//! Rows of all tables, gathered into claims.

use super::cells::Cells;
use super::columns::FACTS;
use super::draft::Draft;
use super::finish::finish;
use super::form_header::FormHeader;
use super::jobs::{self, Jobs};
use super::measures::{Dollar, dollar};
use super::own_words::OwnWords;
use super::panels::{Car, Panels};
use super::rows::{self, TableRows};
use super::tables::{self, Kind, Ours, TableState, Target};
use super::{lots, not_counts, totals, unknown};
use crate::claim::words::folded;
use crate::claim::{Intake, KeyKind, Place};
use crate::problem::{Problem, Sources, catalogue, nearest};
use crate::table::{HeadedColumn, Table};
use std::collections::BTreeSet;

/// What rows were gathered into.
pub(super) struct Gathered {
    /// The claims in the order of their first rows, each with that row, if it has one that is its own.
    pub(super) intakes: Vec<(Option<Place>, Intake)>,
    /// What concerns no single claim.
    pub(super) problems: Vec<Problem>,
    /// Claim numbers with a row in a table of vehicles.
    pub(super) listed: Vec<String>,
}

/// Gathers the rows of all recognised claim tables into claims, in the order of their first rows. The second part is
/// what concerns no single claim. Tables of other kinds are left alone.
pub fn gather(tables: &[Table<'_>], sources: &Sources) -> (Vec<Intake>, Vec<Problem>) {
    let gathered = gather_some(tables, sources, &Vec::new);
    (gathered.intakes.into_iter().map(|(_, intake)| intake).collect(), gathered.problems)
}

/// Gathers some of a run's claims. `elsewhere` are the claim numbers that tables of vehicles list beside these.
pub(super) fn gather_some<'l>(
    tables: &[Table<'_>],
    sources: &Sources,
    elsewhere: &dyn Fn() -> Vec<&'l str>,
) -> Gathered {
    let mut ours = claim_tables(tables);
    let no_counts = not_counts::taken_out(&mut ours);
    let (own, of_words) = OwnWords::of(tables);
    let headers: Vec<FormHeader> = ours.iter().map(|ours| FormHeader::of(*ours)).collect();
    let (rows, unread) = rows::sort(&ours, &headers, &own);
    let mut jobs = jobs::join(&ours, &rows, sources);
    let cars = read_cars(&ours, &headers, &rows, &own, &mut jobs);
    read_rows(&ours, &headers, &rows, &own, &mut jobs, &cars);
    tell_run_together(&rows, &mut jobs);
    totals::check(&ours, &rows, &mut jobs);
    let listed: Vec<String> = jobs
        .drafts
        .iter()
        .filter(|draft| draft.vehicle_row.is_some() && draft.claim.key.kind == KeyKind::ClaimNumber)
        .map(|draft| draft.claim.key.text.clone())
        .collect();
    let mut problems = unknown::check(&ours, &rows, &mut jobs);
    problems.extend(of_words);
    problems.extend(no_counts);
    problems.extend(unread.problems());
    problems.append(&mut jobs.problems);
    let (blank, drafts): (Vec<Draft>, Vec<Draft>) =
        jobs.drafts.into_iter().partition(Draft::is_not_filled_in);
    let rows = blank.iter().filter_map(|draft| draft.other_row);
    problems.extend(rows.map(catalogue::file::sheet_not_filled_in));
    problems.sort_by_key(|problem| problem.place);
    let near = |claim: &str| {
        let known = listed.iter().map(String::as_str).chain(elsewhere());
        nearest(claim, known).into_iter().map(str::to_owned).collect()
    };
    let finished = |draft: Draft| (draft.first, finish(draft, &near));
    let mut intakes: Vec<(Option<Place>, Intake)> = drafts.into_iter().map(finished).collect();
    lots::share_caps(intakes.iter_mut().map(|(_, intake)| intake).collect());
    Gathered { intakes, problems, listed }
}

pub(super) fn claim_tables<'t, 's>(tables: &'t [Table<'s>]) -> Vec<Ours<'t, 's>> {
    let of_claims = |kind: &Kind| *kind != Kind::Map;
    tables
        .iter()
        .filter_map(|table| Kind::of(table.form).filter(of_claims).map(|kind| Ours { kind, table }))
        .collect()
}

/// What every row says of its car, before anything is read that depends on it: panels, sides, dollars.
fn read_cars(
    ours: &[Ours<'_, '_>],
    headers: &[FormHeader],
    rows: &[TableRows<'_>],
    own: &OwnWords,
    jobs: &mut Jobs,
) -> Vec<(Car, Dollar)> {
    each_header(ours, headers, own, jobs, |cells, draft| {
        if tables::has_several_keys(cells.table) {
            tables::keys(cells, draft);
        }
        tables::facts(cells, draft);
        let is_fact =
            |column: &HeadedColumn| column.id.is_some_and(|id| FACTS.iter().any(|fact| fact.id == id));
        if cells.table.columns.iter().any(is_fact) {
            draft.vehicle_row = draft.vehicle_row.or(Some(cells.place()));
        }
    });
    for ((ours, rows), of) in ours.iter().zip(rows).zip(&jobs.of) {
        let (has_keys, has_facts) = (tables::has_several_keys(ours.table), ours.has_facts());
        if !has_keys && !has_facts {
            continue;
        }
        for (row, job) in rows.data.iter().zip(of) {
            let Some(draft) = job.and_then(|job| jobs.drafts.get_mut(job)) else { continue };
            let mut cells = Cells::new(ours.table, row.row, own);
            if has_keys {
                tables::keys(&mut cells, draft);
            }
            if has_facts {
                tables::facts(&mut cells, draft);
            }
            draft.problems.append(&mut cells.problems);
        }
    }
    let car = |draft: &Draft| {
        let vehicle = &draft.claim.vehicle;
        (Car::of(vehicle), vehicle.market.as_ref().and_then(|market| dollar(&market.value)))
    };
    let cars: Vec<(Car, Dollar)> = jobs.drafts.iter().map(car).collect();
    each_header(ours, headers, own, jobs, |cells, draft| {
        let dollar = draft.claim.vehicle.market.as_ref().and_then(|market| dollar(&market.value));
        tables::terms(cells, draft, dollar);
    });
    cars
}

/// Runs a step for what stands above each table about its car. It belongs to the only job of the table.
fn each_header(
    ours: &[Ours<'_, '_>],
    headers: &[FormHeader],
    own: &OwnWords,
    jobs: &mut Jobs,
    mut step: impl FnMut(&mut Cells<'_, '_>, &mut Draft),
) {
    for ((ours, header), of) in ours.iter().zip(headers).zip(&jobs.of) {
        let Some((facts, row)) = header.facts(ours.table) else { continue };
        let concerned: BTreeSet<Option<usize>> = of.iter().copied().collect();
        let Some(Some(job)) = concerned.first().copied().filter(|_| concerned.len() == 1) else { continue };
        let draft = &mut jobs.drafts[job];
        let mut cells = Cells::new(&facts, row, own);
        step(&mut cells, draft);
        draft.problems.append(&mut cells.problems);
    }
}

fn read_rows(
    ours: &[Ours<'_, '_>],
    headers: &[FormHeader],
    rows: &[TableRows<'_>],
    own: &OwnWords,
    jobs: &mut Jobs,
    cars: &[(Car, Dollar)],
) {
    let mut panels = Panels::default();
    for (((ours, header), rows), of) in ours.iter().zip(headers).zip(rows).zip(&jobs.of) {
        let mut state = TableState::new(*ours);
        let (written_above, problem) = header.stamp(ours.table.sheet);
        state.written_above = written_above;
        state.questions.extend(problem);
        state.questions.extend(seen_from_the_front(ours.table));
        let mut asked = BTreeSet::new();
        let mut asked_of = BTreeSet::new();
        for (row, job) in rows.data.iter().zip(of) {
            let Some(job) = *job else { continue };
            let (draft, (car, dollar)) = (&mut jobs.drafts[job], cars[job]);
            draft.claim.sources.insert(ours.table.sheet.source);
            if asked.insert(job) {
                draft.problems.extend(state.questions.iter().cloned());
            }
            for first in &rows.unheaded {
                let cell = row.row.cell(first.column);
                if cell.is_some_and(|cell| rows::is_unheaded_number(ours.table, cell))
                    && asked_of.insert((job, first.column))
                {
                    draft.problems.push(catalogue::file::column_unheaded(first.place, &first.text()));
                }
            }
            let mut cells = Cells::new(ours.table, row.row, own);
            if ours.kind != Kind::Vehicles {
                draft.other_row = draft.other_row.or(Some(cells.place()));
            }
            let mut target = Target { draft, car, dollar, panels: &mut panels, takes_over: row.takes_over };
            tables::read_row(*ours, &mut state, &mut cells, &mut target);
            draft.problems.append(&mut cells.problems);
        }
    }
}

/// Words in the titles or headings of a table that turn left and right round.
fn seen_from_the_front(table: &Table<'_>) -> Option<Problem> {
    if table.sheet.seen.is_some() {
        return None;
    }
    const WORDS: [&str; 6] = [
        "from the front",
        "from in front",
        "facing the car",
        "facing the vehicle",
        "standing in front",
        "viewed from front",
    ];
    let says = |text: &str| WORDS.iter().any(|words| folded(text).contains(words));
    let titles = table.above.iter().flat_map(|row| &row.cells).map(|cell| (cell.place, cell.text()));
    let headings = table.columns.iter().map(|column| (column.place, column.heading.clone()));
    let (place, text) = titles.chain(headings).find(|(_, text)| says(text))?;
    Some(catalogue::counts::side_view(place, &text))
}

/// Rows in one cell: each concerns the claim that its text names, else nobody in particular.
fn tell_run_together(rows: &[TableRows<'_>], jobs: &mut Jobs) {
    for cell in rows.iter().flat_map(|rows| &rows.run_together) {
        let text = cell.text();
        let fields: BTreeSet<String> = text.split(rows::SEPARATORS).map(folded).collect();
        let problem = catalogue::file::row_run_together(cell.place, &text);
        let named = |draft: &&mut Draft| fields.contains(&folded(&draft.claim.key.text));
        match jobs.drafts.iter_mut().find(named) {
            Some(draft) => draft.problems.push(problem),
            None => jobs.problems.push(problem),
        }
    }
}
