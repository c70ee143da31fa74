//! Tables that bear on what is settled.

use super::scope_words;
use crate::report::terms::{Section, Shown};
use crate::schedule::Schedule;

pub(super) fn betterment(schedule: &Schedule) -> Section {
    let headings = ["betterment on", "panel", "item", "from years", "to years", "percent"];
    let mut section = Section::new("Betterment", &headings);
    for row in &schedule.betterment {
        section.rows.push(vec![
            Shown::at(row.on.name(), row.place),
            Shown::plain(scope_words(schedule, row.scope)),
            Shown::plain(row.item.as_ref().map_or("any", |item| item.value.as_str())),
            Shown::plain(row.from_years.to_string()),
            Shown::plain(row.to_years.map_or("open".to_owned(), |to| to.to_string())),
            Shown::maybe(Some(&row.share)),
        ]);
    }
    section
}

pub(super) fn titles(schedule: &Schedule) -> Section {
    let headings = [
        "title note",
        "registered in",
        "compares",
        "when",
        "share %",
        "with tax",
        "not from",
        "valid from",
        "valid to",
        "source",
    ];
    let mut section = Section::new("Title rules", &headings);
    for rule in &schedule.titles {
        section.rows.push(vec![
            Shown::at(&rule.note.value, rule.row),
            Shown::maybe(Some(&rule.place)),
            Shown::maybe(Some(&rule.rule)),
            Shown::maybe(Some(&rule.comparator)),
            Shown::maybe(Some(&rule.share)),
            Shown::plain(if rule.with_tax.value { "yes" } else { "no" }),
            Shown::plain(rule.not_from.join("; ")),
            Shown::maybe(Some(&rule.valid_from)),
            Shown::maybe(rule.valid_to.as_ref()),
            Shown::maybe(Some(&rule.source)),
        ]);
    }
    section
}
