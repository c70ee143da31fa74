//! Which job each row belongs to.

use super::draft::Draft;
use super::rows::{DataRow, TableRows};
use super::tables::{Ours, has_key_column};
use crate::claim::{JobKey, KeyKind, Located, Place};
use crate::problem::{Problem, SourceId, Sources, catalogue::claim as say};
use crate::table::{Cell, Value};
use std::collections::{BTreeMap, BTreeSet};

/// Kinds of keys, in the order in which they are preferred.
pub(super) const KINDS: [KeyKind; 4] =
    [KeyKind::ClaimNumber, KeyKind::JobNumber, KeyKind::Registration, KeyKind::Vin];

/// A key as it is compared.
pub(super) type Name = (KeyKind, String);

/// The jobs of a run in the order of their first rows, and the job of each row of each table.
#[derive(Debug, Default)]
pub(super) struct Jobs {
    pub(super) drafts: Vec<Draft>,
    /// By table, by row of data; `None` for a row that belongs to no job.
    pub(super) of: Vec<Vec<Option<usize>>>,
    /// What concerns no job.
    pub(super) problems: Vec<Problem>,
}

/// Finds the job of every row. A row's key is the first that it has of claim, job number, registration and VIN; a row
/// that carries several says that they are one job. A table without any of these columns belongs to the only job of
/// its sheet, else to the sheet itself.
pub(super) fn join(tables: &[Ours<'_, '_>], rows: &[TableRows<'_>], sources: &Sources) -> Jobs {
    let mut links = Links::default();
    let mut unreadable = Vec::new();
    for table in rows {
        let mut above = None;
        for row in &table.data {
            // What the row above said of the same keys need not be said again.
            if !above.is_some_and(|above| are_same(above, row)) {
                links.add(row, &mut unreadable);
            }
            above = Some(row);
        }
    }
    let mut by_sheet = links.jobs_by_sheet(tables, rows);
    let mut jobs = Jobs { problems: unreadable, ..Jobs::default() };
    for (source, names) in by_sheet.iter_mut().filter(|(_, names)| names.is_empty()) {
        let Some((found, told)) = links.named_by_sheet(*source, sources) else { continue };
        names.extend(found);
        jobs.problems.extend(told);
    }
    let mut numbers: BTreeMap<Name, usize> = BTreeMap::new();
    let (mut ambiguous, mut parted) = (Vec::new(), Vec::new());
    for (ours, table_rows) in tables.iter().zip(rows) {
        let source = ours.table.sheet.source;
        let has_key_column = has_key_column(ours.table);
        let mut of_rows: Vec<Option<usize>> = Vec::with_capacity(table_rows.data.len());
        let mut above = None;
        for row in &table_rows.data {
            let before = above.replace(row).filter(|above| are_same(above, row));
            if let Some(Some(job)) = before.and(of_rows.last()) {
                of_rows.push(Some(*job));
                continue;
            }
            let is_keyed = has_key_column || row.keys.iter().any(Option::is_some);
            let names = if is_keyed { links.resolve(row) } else { sheet_job(source, by_sheet.get(&source)) };
            let mut own = names.iter();
            let job = match (own.next(), own.next()) {
                (Some(name), None) => {
                    let job = jobs.number(name, &mut numbers, &links, sources, source);
                    let first = &mut jobs.drafts[job].first;
                    *first = first.or(Some(Place::row(source, row.row.number)));
                    Some(job)
                }
                (Some(_), Some(_)) => {
                    ambiguous.push((row, names));
                    None
                }
                // A key that cannot be read is told already.
                (None, _) if row.keys.iter().any(Option::is_some) => None,
                (None, _) if row.parted_from.is_some() => {
                    parted.push(row);
                    None
                }
                (None, _) => {
                    jobs.problems.push(say::key_missing(ours.table.sheet.row_place(row.row.number)));
                    None
                }
            };
            of_rows.push(job);
        }
        jobs.of.push(of_rows);
    }
    for (row, names) in ambiguous {
        jobs.ask(row, &names, &mut numbers, &links, sources);
    }
    let source_of = |row: &DataRow<'_>| row.row.cells.first().map(|cell| cell.place.source);
    for row in parted {
        let Some(source) = source_of(row) else { continue };
        let place =
            row.row.cells.first().map_or(Place::whole(source), |cell| Place { column: 0, ..cell.place });
        let above = DataRow { keys: row.parted_from.unwrap_or(row.keys), ..*row };
        let names = links.resolve(&above);
        if names.is_empty() {
            jobs.problems.push(say::key_missing(place));
        }
        for name in &names {
            let number = jobs.number(name, &mut numbers, &links, sources, source);
            let problem = say::key_parted(place, &jobs.drafts[number].claim.key.to_string());
            jobs.drafts[number].problems.push(problem);
        }
    }
    jobs
}

/// Whether two rows of a table carry the same keys, each of its own, the second below the first.
fn are_same(above: &DataRow<'_>, row: &DataRow<'_>) -> bool {
    let is_same = |one: Option<&Cell>, other: Option<&Cell>| match (one, other) {
        (None, None) => true,
        (Some(one), Some(other)) => match (&one.value, &other.value) {
            (Value::Text(one), Value::Text(other)) => one == other && one.contains(char::is_alphanumeric),
            _ => false,
        },
        _ => false,
    };
    let own =
        !above.takes_over && !row.takes_over && above.parted_from.is_none() && row.parted_from.is_none();
    own && row.keys.iter().any(Option::is_some)
        && above.row.number < row.row.number
        && above.keys.iter().zip(&row.keys).all(|(one, other)| is_same(*one, *other))
}

fn sheet_job(source: SourceId, on_sheet: Option<&BTreeSet<Name>>) -> BTreeSet<Name> {
    match on_sheet {
        // Several jobs on the sheet: a row without a key could be any of them.
        Some(names) if names.len() > 1 => BTreeSet::new(),
        Some(names) if names.len() == 1 => names.clone(),
        _ => BTreeSet::from([(KeyKind::Sheet, format!("{source:>010}"))]),
    }
}

/// Which keys stand in one row, and how each was written.
#[derive(Debug, Default)]
struct Links {
    /// For a key, the preferred keys that rows carry beside it.
    preferred: BTreeMap<Name, BTreeSet<Name>>,
    /// How a key was written; of several spellings the one that sorts first.
    written: BTreeMap<Name, Located<String>>,
    /// The next spelling of a claim or job number, where there are several. Plates are spaced in many ways.
    also: BTreeMap<Name, Located<String>>,
}

impl Links {
    fn add(&mut self, row: &DataRow<'_>, problems: &mut Vec<Problem>) {
        if row.takes_over {
            return;
        }
        let mut names: Vec<Name> = Vec::new();
        for (kind, cell) in KINDS.into_iter().zip(row.keys) {
            let Some(cell) = cell else { continue };
            match name(kind, cell) {
                Some(name) => {
                    self.spell(&name, cell);
                    names.push(name);
                }
                None => problems.push(say::key_unreadable(cell.place, kind.words(), &cell.text())),
            }
        }
        let Some((first, others)) = names.split_first() else { return };
        for other in others {
            self.preferred.entry(other.clone()).or_default().insert(first.clone());
        }
    }

    fn spell(&mut self, name: &Name, cell: &Cell) {
        let new = Located::new(cell.text(), cell.place);
        let before = |one: &Located<String>, other: &Located<String>| {
            (&one.value, one.place) < (&other.value, other.place)
        };
        let Some(written) = self.written.get_mut(name) else {
            self.written.insert(name.clone(), new);
            return;
        };
        let is_other = new.value != written.value;
        let later = if before(&new, written) { std::mem::replace(written, new) } else { new };
        if is_other
            && matches!(name.0, KeyKind::ClaimNumber | KeyKind::JobNumber)
            && self.also.get(name).is_none_or(|also| before(&later, also))
        {
            self.also.insert(name.clone(), later);
        }
    }

    /// The jobs that the name of a sheet names: a key that is known from elsewhere, or what looks like a registration,
    /// which is told.
    fn named_by_sheet(
        &mut self,
        source: SourceId,
        sources: &Sources,
    ) -> Option<(BTreeSet<Name>, Option<Problem>)> {
        let sheet = sources.get(source).sheet.trim();
        let place = Place::whole(source);
        let cell = Cell { place, column: 0, value: Value::Text(sheet.to_owned()), spread: false };
        let named = |kind| name(kind, &cell);
        let known = KINDS.into_iter().filter_map(named).find(|name| self.written.contains_key(name));
        if let Some(known) = known {
            return Some((self.preferred_to(known), None));
        }
        let registration = named(KeyKind::Registration).filter(|_| is_like_plate(sheet))?;
        self.spell(&registration, &cell);
        Some((BTreeSet::from([registration]), Some(say::sheet_as_registration(place, sheet))))
    }

    /// The jobs that a row may belong to: one, unless its only key is shared; none without a key.
    fn resolve(&self, row: &DataRow<'_>) -> BTreeSet<Name> {
        let first = KINDS.into_iter().zip(row.keys).find_map(|(kind, cell)| name(kind, cell?));
        first.map(|first| self.preferred_to(first)).unwrap_or_default()
    }

    fn preferred_to(&self, first: Name) -> BTreeSet<Name> {
        let mut open = vec![first];
        let mut found = BTreeSet::new();
        // Every step leads to a preferred kind of key, so that this ends.
        while let Some(name) = open.pop() {
            match self.preferred.get(&name) {
                Some(preferred) => open.extend(preferred.iter().cloned()),
                None => {
                    found.insert(name);
                }
            }
        }
        found
    }

    fn jobs_by_sheet(
        &self,
        tables: &[Ours<'_, '_>],
        rows: &[TableRows<'_>],
    ) -> BTreeMap<SourceId, BTreeSet<Name>> {
        let mut by_sheet: BTreeMap<SourceId, BTreeSet<Name>> = BTreeMap::new();
        let has_keyless = |source| {
            tables.iter().any(|ours| ours.table.sheet.source == source && !has_key_column(ours.table))
        };
        for (ours, table) in tables.iter().zip(rows) {
            let source = ours.table.sheet.source;
            if has_keyless(source) {
                let jobs = by_sheet.entry(source).or_default();
                jobs.extend(table.data.iter().flat_map(|row| self.resolve(row)));
            }
        }
        by_sheet
    }
}

impl Jobs {
    /// The number of a job; a new one where it was not seen yet.
    fn number(
        &mut self,
        name: &Name,
        numbers: &mut BTreeMap<Name, usize>,
        links: &Links,
        sources: &Sources,
        source: SourceId,
    ) -> usize {
        if let Some(number) = numbers.get(name) {
            return *number;
        }
        let written = links.written.get(name).cloned();
        let text = match &written {
            Some(written) => written.value.clone(),
            None => sources.describe(Place::whole(source)),
        };
        let spellings = written.as_ref().zip(links.also.get(name));
        let spelled = spellings.map(|(one, also)| {
            say::key_spellings(name.0.words(), (&one.value, one.place), (&also.value, also.place))
        });
        let mut draft = Draft::new(JobKey::new(name.0, text), written.clone());
        draft.problems.extend(spelled);
        self.drafts.push(draft);
        numbers.insert(name.clone(), self.drafts.len() - 1);
        self.drafts.len() - 1
    }

    /// Asks each of several jobs about a row that may belong to it.
    fn ask(
        &mut self,
        row: &DataRow<'_>,
        names: &BTreeSet<Name>,
        numbers: &mut BTreeMap<Name, usize>,
        links: &Links,
        sources: &Sources,
    ) {
        let Some((kind, cell)) = KINDS.into_iter().zip(row.keys).find_map(|(kind, cell)| Some((kind, cell?)))
        else {
            return;
        };
        let concerned: Vec<usize> =
            names.iter().map(|name| self.number(name, numbers, links, sources, cell.place.source)).collect();
        let claims: Vec<String> =
            concerned.iter().map(|number| self.drafts[*number].claim.key.to_string()).collect();
        for number in concerned {
            let problem = say::key_ambiguous(cell.place, kind.words(), &cell.text(), &claims);
            self.drafts[number].problems.push(problem);
        }
    }
}

/// Whether the name of a sheet can only be a registration: capitals and figures, and no year.
fn is_like_plate(sheet: &str) -> bool {
    let compact: String = sheet.chars().filter(|c| !matches!(c, ' ' | '-')).collect();
    let is_year = |word: &str| word.len() == 4 && (word.starts_with("19") || word.starts_with("20"));
    (4..=10).contains(&compact.len())
        && compact.chars().all(|c| c.is_ascii_uppercase() || c.is_ascii_digit())
        && compact.contains(|c: char| c.is_ascii_uppercase())
        && compact.contains(|c: char| c.is_ascii_digit())
        && !sheet.split([' ', '-']).any(is_year)
}

/// A key as it is compared: claims and jobs by their letters in any case, plates and VINs without spaces and hyphens,
/// too. `None` for a cell that holds no key.
pub(super) fn name(kind: KeyKind, cell: &Cell) -> Option<Name> {
    let text = match &cell.value {
        Value::Text(_) | Value::Number(_) => cell.text(),
        Value::Date(_) | Value::Money(_) | Value::Bool(_) | Value::Fault(_) => return None,
    };
    text.contains(char::is_alphanumeric).then(|| (kind, compared(kind, &text)))
}

/// A key's text as it is compared.
pub(super) fn compared(kind: KeyKind, text: &str) -> String {
    kind.compared(text)
}
