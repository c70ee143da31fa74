//! Tables of what insurers want a submission to hold.

use super::cells::Cells;
use super::own_words::OwnWords;
use crate::claim::words::folded;
use crate::claim::{FACTS, Located, Per, Requirement, Wanted};
use crate::problem::{Problem, catalogue::sending as say, nearest};
use crate::table::{Column, Form, Table};

/// A row, something that is wanted.
pub(super) static FORM: Form =
    Form { name: "required for sending", columns: &COLUMNS, family: None, one_of: &[] };

static COLUMNS: [Column; 9] = [
    Column::needed("insurer", &["insurance", "insurance company", "for insurer"]),
    Column::needed("required", &["what is required", "requires", "must hold", "wanted"]),
    Column::optional("which", &["which one", "that shows", "named"]),
    Column::optional("per", &["for each", "each"]),
    Column::optional("at least", &["number", "how many", "minimum"]),
    Column::optional("above", &["only above", "limit", "limit without consent", "from amount"]),
    Column::optional("since", &["valid from", "from"]),
    Column::optional("until", &["valid until", "to"]),
    Column::optional("remark", &["remarks", "note", "notes", "source"]),
];

/// What is wanted, in the order of the tables. A row that cannot be understood is told, and asks for nothing.
pub fn requirements(tables: &[Table<'_>]) -> (Vec<Requirement>, Vec<Problem>) {
    let (mut all, mut problems) = (Vec::new(), Vec::new());
    let own = OwnWords::default();
    for table in tables.iter().filter(|table| *table.form == FORM) {
        for row in table.rows.iter().filter(|row| !row.cells.is_empty()) {
            let mut cells = Cells::new(table, row, &own);
            let requirement = requirement(&mut cells);
            all.extend(requirement.filter(|_| cells.problems.is_empty()));
            problems.append(&mut cells.problems);
        }
    }
    (all, problems)
}

fn requirement(cells: &mut Cells<'_, '_>) -> Option<Requirement> {
    let place = cells.place();
    let Some(insurer) = cells.text("insurer") else {
        cells.lacks("insurer");
        return None;
    };
    let Some(required) = cells.text("required") else {
        cells.lacks("required");
        return None;
    };
    let Some(wanted) = wanted(&required.value) else {
        let known =
            Wanted::OTHERS.iter().map(|wanted| wanted.name()).chain(FACTS.iter().map(|fact| fact.name));
        let near = nearest(&folded(&required.value), known);
        cells.problems.push(say::requirement_unknown(required.place, &required.value, &near));
        return None;
    };
    let which = cells.text("which").map(|which| which.value);
    if which.is_none() && wanted == Wanted::Enclosure {
        cells.lacks("which");
    }
    let per = per(cells, wanted);
    let at_least = cells.cell("at least").map_or(Some(1), |cell| {
        let read = cells.number("at least", cell, &cell.text(), "a whole number from 1 to 99", |number| {
            usize::try_from(crate::read::cells::whole(number)?)
                .ok()
                .filter(|number| (1..=99).contains(number))
        });
        read.map(|number| number.value)
    })?;
    let above = cells.amount("above", None);
    let (since, until) = (cells.date("since"), cells.date("until"));
    Some(Requirement {
        place,
        insurer: (folded(&insurer.value) != "any").then_some(insurer.value),
        wanted,
        which,
        per: per?,
        at_least,
        above,
        since: since.map(|day| day.value),
        until: until.map(|day| day.value),
    })
}

fn wanted(text: &str) -> Option<Wanted> {
    match folded(text).as_str() {
        "photograph" | "photographs" | "photo" | "photos" | "picture" | "pictures" => {
            Some(Wanted::Photograph)
        }
        "count" | "counts" => Some(Wanted::Count),
        "document" | "documents" | "paper" => Some(Wanted::Enclosure),
        "consent" | "prior consent" => Some(Wanted::Consent),
        "claim number" => wanted("claim"),
        "policy number" => wanted("policy"),
        "color" => wanted("colour"),
        other => FACTS.iter().find(|fact| fact.name == other).map(Wanted::Fact),
    }
}

/// Photographs are wanted of the claim, of each panel or of each mark; counts of the claim or of each panel.
fn per(cells: &mut Cells<'_, '_>, wanted: Wanted) -> Option<Per> {
    let Some(Located { value, place }) = cells.text("per") else { return Some(Per::Claim) };
    let per = match folded(&value).as_str() {
        "claim" | "car" | "vehicle" => Some(Per::Claim),
        "panel" | "damaged panel" if matches!(wanted, Wanted::Photograph | Wanted::Count) => Some(Per::Panel),
        "mark" if wanted == Wanted::Photograph => Some(Per::Mark),
        _ => None,
    };
    if per.is_none() {
        cells.problems.push(say::requirement_per(place, &value, wanted.name()));
    }
    per
}
