use super::facts::written;
use super::figure::first_marks;
use super::{Entry, Figure, Filling, Table};
use crate::assess::PanelAssessment;
use crate::claim::{Counted, Located, Mark, PanelId, Place, Role};
use crate::problem::Problem;
use crate::quantity::{Date, Hours};
use crate::report::wording::{self, label::LABELS};
use crate::report::words::Words;
use std::cmp::Reverse;

fn panel_cell(panel: PanelId) -> Entry {
    Entry::Words(wording::sentence(&panel.to_string()))
}

fn text(field: Option<&Located<String>>) -> Option<Entry> {
    field.map(|text| Entry::said(text.value.as_str()))
}

fn day(field: Option<Located<Date>>) -> Option<Entry> {
    field.map(|day| Entry::Words(wording::date(day.value)))
}

fn word<T: std::fmt::Display>(field: Option<Located<T>>) -> Option<Entry> {
    field.map(|word| Entry::Words(word.value.to_string()))
}

/// Columns that every list of marks has.
fn mark_cells(mark: &Mark, words: &Words) -> [Option<Entry>; 7] {
    let size = wording::mark_size(mark, words);
    [
        Some(Entry::words(mark.kind.value.name())),
        (!size.is_empty()).then_some(Entry::Number(size)),
        word(mark.depth),
        word(mark.position),
        word(mark.access),
        word(mark.cause),
        text(mark.remark.as_ref()),
    ]
}

/// Marks that bear on amount or decision, in the order of panels. What is not paid has a list of its own.
pub(super) fn marks(filling: &Filling<'_>) -> Option<Table> {
    let subject = &filling.subject;
    let mut rows = Vec::new();
    let numbers = first_marks(subject);
    for (panel, first) in subject.assessment.panels.iter().zip(numbers) {
        for (index, outcome) in panel.marks.iter().enumerate() {
            let excluded =
                subject.assessment.excluded.iter().any(|e| e.panel == panel.panel && e.mark == index);
            let Some(mark) = wording::written_mark(panel, index, subject).filter(|_| !excluded) else {
                continue;
            };
            let [kind, size, depth, position, access, cause, remark] = mark_cells(mark, subject.words);
            let became = Some(Entry::Words(wording::mark_outcome(outcome, subject)));
            rows.push([
                Some(Entry::Number((first + index).to_string())),
                Some(panel_cell(panel.panel)),
                kind,
                size,
                depth,
                position,
                access,
                cause,
                became,
                remark,
                Some(cell(mark.place, filling)),
            ]);
        }
    }
    let headings = [
        LABELS.number,
        LABELS.panel,
        LABELS.mark,
        LABELS.size,
        LABELS.depth,
        LABELS.position,
        LABELS.access,
        LABELS.cause,
        LABELS.became,
        LABELS.remark,
        LABELS.cell,
    ];
    Table::new(LABELS.marks, headings, rows)
}

fn cell(place: Place, filling: &Filling<'_>) -> Entry {
    Entry::Cell(filling.sheets.cell(place, filling.subject.sources))
}

/// Everything else that was written, a list each; what nobody wrote anything about has no list.
pub(super) fn lists(filling: &Filling<'_>) -> Vec<Table> {
    [
        items(filling),
        parts(filling),
        overrules(filling),
        paid_before(filling),
        photographs(filling),
        enclosures(filling),
        remarks(filling),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn time(field: Option<Located<Hours>>, filling: &Filling<'_>) -> Option<Entry> {
    let unit = filling.subject.schedule.terms.time_unit.value;
    field.map(|time| Entry::Number(wording::time(time.value, unit, filling.subject.words)))
}

fn items(filling: &Filling<'_>) -> Option<Table> {
    let yes_no = |yes: bool| if yes { LABELS.yes } else { LABELS.no };
    let rows = filling.subject.claim.items.iter().map(|item| {
        [
            Some(Entry::said(item.name.value.as_str())),
            word(item.action),
            item.price.map(|price| written(price.value, filling)),
            time(item.hours, filling),
            item.calibration.map(|calibration| Entry::words(yes_no(calibration.value))),
            text(item.source.as_ref()),
            day(item.date),
            text(item.remark.as_ref()),
            Some(cell(item.place, filling)),
        ]
    });
    let headings = [
        LABELS.item,
        LABELS.action,
        LABELS.amount,
        &time_heading(filling),
        LABELS.calibration,
        LABELS.source,
        LABELS.dated,
        LABELS.remark,
        LABELS.cell,
    ];
    Table::new(LABELS.items, headings, rows.collect())
}

/// "Hours", or another unit that the schedule keeps time in.
fn time_heading(filling: &Filling<'_>) -> String {
    wording::sentence(&wording::time_unit(filling.subject.schedule.terms.time_unit.value))
}

fn parts(filling: &Filling<'_>) -> Option<Table> {
    let rows = filling.subject.claim.parts.iter().map(|part| {
        [
            Some(panel_cell(part.panel)),
            part.price.map(|price| written(price.value, filling)),
            time(part.fitting, filling),
            time(part.conventional, filling),
            time(part.refinish, filling),
            part.paint_material.map(|price| written(price.value, filling)),
            text(part.source.as_ref()),
            day(part.date),
            Some(cell(part.place, filling)),
        ]
    });
    let unit = wording::time_unit(filling.subject.schedule.terms.time_unit.value);
    let timed = |label: &str| format!("{label}, {unit}");
    let headings = [
        LABELS.panel,
        LABELS.part,
        &timed(LABELS.fitting),
        &timed(LABELS.conventional),
        &timed(LABELS.refinish),
        LABELS.paint_material,
        LABELS.source,
        LABELS.dated,
        LABELS.cell,
    ];
    Table::new(LABELS.parts, headings, rows.collect())
}

/// Marks that are not paid, each with its reason.
pub(super) fn excluded(filling: &Filling<'_>) -> Option<Table> {
    let subject = &filling.subject;
    let numbers = first_marks(subject);
    let rows = subject.assessment.excluded.iter().map(|excluded| {
        let is_its = |panel: &PanelAssessment| panel.panel == excluded.panel;
        let index = subject.assessment.panels.iter().position(is_its);
        let assessed = index.and_then(|index| subject.assessment.panels.get(index));
        let number = index.map(|index| Entry::Number((numbers[index] + excluded.mark).to_string()));
        let mark = assessed.and_then(|panel| wording::written_mark(panel, excluded.mark, subject));
        let [kind, size, depth, position, access, _, remark] =
            mark.map_or([const { None }; 7], |mark| mark_cells(mark, subject.words));
        [
            number,
            Some(panel_cell(excluded.panel)),
            kind,
            size,
            depth,
            position,
            access,
            Some(Entry::words(wording::excluded(excluded.reason, subject.words))),
            remark,
            Some(cell(excluded.place, filling)),
        ]
    });
    let headings = [
        LABELS.number,
        LABELS.panel,
        LABELS.mark,
        LABELS.size,
        LABELS.depth,
        LABELS.position,
        LABELS.access,
        LABELS.reason,
        LABELS.remark,
        LABELS.cell,
    ];
    Table::new(LABELS.excluded, headings, rows.collect())
}

fn overrules(filling: &Filling<'_>) -> Option<Table> {
    let subject = &filling.subject;
    let rows = subject.claim.overrules.iter().enumerate().map(|(index, overrule)| {
        let overruled = subject
            .assessment
            .panels
            .iter()
            .filter_map(|panel| panel.overruled.as_ref())
            .find(|overruled| overruled.overrule == index);
        [
            Some(panel_cell(overrule.panel)),
            Some(Entry::words(overrule.method.value.name())),
            overruled.map(|overruled| Entry::words(overruled.schedule_says.name())),
            overruled
                .and_then(|overruled| overruled.difference)
                .map(|money| Entry::Amount(Figure(money, subject.words))),
            text(overrule.by.as_ref()),
            text(overrule.reason.as_ref()),
            day(overrule.date),
            Some(cell(overrule.place, filling)),
        ]
    });
    let headings = [
        LABELS.panel,
        LABELS.method,
        LABELS.schedule_says,
        LABELS.difference,
        LABELS.by,
        LABELS.reason,
        LABELS.dated,
        LABELS.cell,
    ];
    Table::new(LABELS.overrules, headings, rows.collect())
}

fn paid_before(filling: &Filling<'_>) -> Option<Table> {
    let rows = filling.subject.claim.paid_before.iter().map(|paid| {
        [
            Some(panel_cell(paid.panel)),
            Some(written(paid.amount.value, filling)),
            text(paid.event.as_ref()),
            day(paid.date),
            Some(cell(paid.place, filling)),
        ]
    });
    let headings = [LABELS.panel, LABELS.paid, LABELS.event_name, LABELS.dated, LABELS.cell];
    Table::new(LABELS.paid_before, headings, rows.collect())
}

fn photographs(filling: &Filling<'_>) -> Option<Table> {
    let rows = filling.subject.claim.photographs.iter().map(|photograph| {
        [
            Some(Entry::said(photograph.file.value.as_str())),
            text(photograph.shows.as_ref()),
            photograph.panel.map(|panel| panel_cell(panel.value)),
            day(photograph.date),
        ]
    });
    let headings = [LABELS.file, LABELS.shows, LABELS.panel, LABELS.dated];
    Table::new(LABELS.photographs, headings, rows.collect())
}

fn enclosures(filling: &Filling<'_>) -> Option<Table> {
    let rows = filling.subject.claim.enclosures.iter().map(|paper| {
        [Some(Entry::said(paper.name.value.as_str())), text(paper.file.as_ref()), day(paper.date)]
    });
    Table::new(LABELS.enclosures, [LABELS.document, LABELS.file, LABELS.dated], rows.collect())
}

/// Free text of the claim and of every panel in every inspection, whoever's it is.
fn remarks(filling: &Filling<'_>) -> Option<Table> {
    let subject = &filling.subject;
    let mut rows = Vec::new();
    for remark in &subject.claim.remarks {
        rows.push([
            Some(Entry::words(LABELS.the_claim)),
            Some(Entry::said(remark.text.as_str())),
            Some(cell(remark.place, filling)),
        ]);
    }
    for inspection in &subject.claim.inspections {
        for panel in &inspection.panels {
            for remark in &panel.remarks {
                let mut about = wording::sentence(&panel.panel.to_string());
                if inspection.role() != Role::Own {
                    about = format!("{about}, {}", wording::overlay(inspection));
                }
                rows.push([
                    Some(Entry::Words(about)),
                    Some(Entry::said(remark.value.as_str())),
                    Some(cell(remark.place, filling)),
                ]);
            }
        }
    }
    Table::new(LABELS.remarks, [LABELS.about, LABELS.remark, LABELS.cell], rows)
}

/// How the claim was understood.
pub(super) fn notes(filling: &Filling<'_>) -> Vec<String> {
    let subject = &filling.subject;
    let cell = |place| filling.sheets.cell(place, subject.sources);
    let mut notes: Vec<String> =
        subject.assessment.notes.iter().map(|note| wording::note(note, subject, cell)).collect();
    notes.extend(wording::of_a_lot(subject.claim));
    notes.extend(subject.assessment.range.as_ref().map(wording::range));
    for panel in &subject.assessment.panels {
        for (size, count) in panel.counts.iter().enumerate() {
            if let Counted::Estimated { how, .. } = &count.count {
                let cells = filling.sheets.cells(&count.cells, subject.sources);
                notes.push(wording::estimated(panel.panel, &subject.schedule.sizes[size].name, how, &cells));
            }
        }
    }
    notes
}

/// What reading and assessing found worth a look, the worst first; each with its cell.
pub(super) fn look_at(filling: &Filling<'_>) -> Vec<String> {
    let subject = &filling.subject;
    let mut problems: Vec<&Problem> = subject.problems.iter().chain(&subject.assessment.problems).collect();
    problems.sort_by_key(|problem| Reverse(problem.severity()));
    let cell = |place| format!(" ({})", filling.sheets.cell(place, subject.sources));
    problems
        .into_iter()
        .map(|problem| {
            let place = problem.place.map(cell).unwrap_or_default();
            let message = wording::sentence(&wording::said(&problem.message));
            let help =
                problem.help.as_ref().map(|help| format!(" {}.", wording::sentence(&wording::said(help))));
            format!(
                "{}: {message}{place}.{}",
                wording::sentence(problem.severity().word()),
                help.unwrap_or_default()
            )
        })
        .collect()
}
