//! What other stages deliver, as small as it can be until then: each function goes when the real one is there, named
//! beside it.

use crate::claim::{PanelId, PanelKind};
use crate::problem::{Problem, SourceKind, Sources};
use crate::quantity::Date;
use crate::report::Subject;
use crate::schedule::forms;
use crate::table::{Form, Recognition, Sheet, Table};

/// `schedule::groups`.
pub fn groups<'t, 's>(tables: &'t [Table<'s>], sources: &Sources) -> Vec<Vec<&'t Table<'s>>> {
    let mut groups: Vec<(&str, Vec<&'t Table<'s>>)> = Vec::new();
    for table in tables.iter().filter(|table| forms().contains(&table.form)) {
        let source = sources.get(table.sheet.source);
        let home = match source.kind {
            SourceKind::Sheet => source.file.as_str(),
            SourceKind::Text => source.file.rfind('/').map_or("", |slash| &source.file[..=slash]),
        };
        match groups.iter_mut().find(|(of, _)| *of == home) {
            Some((_, tables)) => tables.push(table),
            None => groups.push((home, vec![table])),
        }
    }
    groups.into_iter().map(|(_, tables)| tables).collect()
}

/// `table::unrecognised`.
pub fn unrecognised(_sheet: &Sheet, _found: &Recognition<'_>, _forms: &[&'static Form]) -> Vec<Problem> {
    Vec::new()
}

/// `claim::words::find::<PanelKind>`.
pub fn find_panel(text: &str) -> Option<PanelKind> {
    PanelKind::ALL.iter().copied().find(|kind| kind.name() == text)
}

/// `report::document::Imprint`.
pub struct Imprint<'a> {
    pub tool_version: &'a str,
    pub run_date: Option<Date>,
}

/// `report::document::fill`.
pub fn fill(subject: &Subject<'_>, imprint: &Imprint<'_>) -> String {
    let date = imprint.run_date.map_or_else(String::new, |date| date.to_string());
    format!("{} {} {date}", imprint.tool_version, subject.assessment.totals.gross)
}

/// `report::html::TemplateFault`.
pub type TemplateFault = std::convert::Infallible;

/// `report::html::Pages`.
pub struct Pages;

impl Pages {
    pub const fn new() -> Result<Self, TemplateFault> {
        Ok(Self)
    }

    pub fn claim(&self, document: &str) -> Result<String, TemplateFault> {
        Ok(format!("<!doctype html><title>{document}</title>\n"))
    }
}

/// `report::explain`.
pub fn explain(subject: &Subject<'_>, _panels: Option<&[PanelId]>) -> String {
    let steps = subject.assessment.working.as_ref().map_or(0, |working| working.steps.len());
    format!("{steps} steps\n")
}
