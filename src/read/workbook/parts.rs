//! Where the parts of an XLSX workbook lie, and the notes at its cells.

use super::formats::attribute;
use super::scan::reference;
use crate::problem::{Place, SourceId};
use crate::read::file::archive::Parts;
use quick_xml::Reader;
use quick_xml::events::Event;
use std::collections::BTreeMap;

/// The parts of sheets by the sheets' names.
#[derive(Debug, Default)]
pub(super) struct Layout {
    paths: BTreeMap<String, String>,
}

/// Notes that are kept of one sheet, and letters of one.
const MOST_NOTES: usize = 10_000;
const MOST_LETTERS: usize = 4000;

impl Layout {
    pub(super) fn of(parts: &mut Parts<'_>) -> Self {
        let workbook = workbook(parts);
        let targets = targets(parts, &workbook);
        let mut paths = BTreeMap::new();
        let mut each = |name: &str, get: Attributes<'_>| {
            if name == "sheet"
                && let Some((name, id)) = get("name").zip(get("id"))
                && let Some((_, path)) = targets.get(&id)
            {
                paths.insert(name, path.clone());
            }
        };
        elements(parts, &workbook, &mut each);
        Self { paths }
    }

    pub(super) fn path(&self, sheet: &str) -> Option<&str> {
        self.paths.get(sheet).map(String::as_str)
    }
}

/// The path of the part that lists the sheets.
pub(super) fn workbook(parts: &mut Parts<'_>) -> String {
    let targets = targets(parts, "").into_values();
    let stated = targets.into_iter().find(|(kind, _)| kind == "officeDocument").map(|(_, path)| path);
    stated.unwrap_or_else(|| "xl/workbook.xml".to_owned())
}

/// The attributes of an element, by name.
type Attributes<'a> = &'a dyn Fn(&str) -> Option<String>;

/// Calls for every element of a part, as far as the part can be read.
fn elements(parts: &mut Parts<'_>, path: &str, each: &mut dyn FnMut(&str, Attributes<'_>)) {
    let Some(part) = parts.open(path) else { return };
    let mut reader = Reader::from_reader(part);
    reader.config_mut().check_end_names = false;
    let mut buffer = Vec::new();
    loop {
        buffer.clear();
        match reader.read_event_into(&mut buffer) {
            Ok(Event::Start(element) | Event::Empty(element)) => {
                // Several attributes end in `id`; the one of a relation carries a prefix.
                let get = |name: &str| {
                    let mut attributes = element.attributes();
                    let mut all = attributes.with_checks(false).flatten();
                    let of_relation = all.find(|found| name == "id" && found.key.as_ref().ends_with(":id"));
                    of_relation
                        .map_or_else(|| attribute(&element, name), |found| Some(found.value.into_owned()))
                };
                each(element.local_name().as_ref(), &get);
            }
            Ok(Event::Eof) | Err(_) => return,
            Ok(_) => {}
        }
    }
}

/// What a part refers to: by the relation's name, its kind and the path of its target.
fn targets(parts: &mut Parts<'_>, path: &str) -> BTreeMap<String, (String, String)> {
    let (folder, name) = path.rsplit_once('/').unwrap_or(("", path));
    let mut found = BTreeMap::new();
    let mut each = |element: &str, get: Attributes<'_>| {
        if element == "Relationship"
            && let Some(((id, kind), target)) = get("Id").zip(get("Type")).zip(get("Target"))
        {
            let kind = kind.rsplit('/').next().unwrap_or_default().to_owned();
            found.insert(id, (kind, joined(folder, &target)));
        }
    };
    elements(parts, &format!("{folder}/_rels/{name}.rels"), &mut each);
    found
}

/// A target as a path in the archive: it may begin at the top, or climb.
fn joined(folder: &str, target: &str) -> String {
    if let Some(from_top) = target.strip_prefix('/') {
        return from_top.to_owned();
    }
    let mut steps: Vec<&str> = folder.split('/').collect();
    for step in target.split('/') {
        match step {
            ".." => {
                steps.pop();
            }
            "." => {}
            step => steps.push(step),
        }
    }
    steps.join("/")
}

/// The notes at the cells of a sheet.
pub(super) fn notes(parts: &mut Parts<'_>, sheet: &str, source: SourceId) -> Vec<(Place, String)> {
    // Conversations at a cell stand in a part of their own, and once more among the notes.
    let targets = targets(parts, sheet).into_values().filter(|(kind, _)| kind == "comments");
    let mut notes = BTreeMap::new();
    for (_, path) in targets {
        let Some(part) = parts.open(&path) else { continue };
        let mut reader = Reader::from_reader(part);
        reader.config_mut().check_end_names = false;
        let (mut buffer, mut at, mut is_text) = (Vec::new(), None, false);
        loop {
            buffer.clear();
            match reader.read_event_into(&mut buffer) {
                Ok(Event::Start(element)) => match element.local_name().as_ref() {
                    "comment" => {
                        let place = attribute(&element, "ref").and_then(|at| reference(&at));
                        at = place.and_then(|(row, column)| {
                            Some(Place::cell(source, row, u16::try_from(column).ok()?))
                        });
                    }
                    "t" => is_text = true,
                    _ => {}
                },
                Ok(Event::Text(text)) if is_text => {
                    if let Some(at) = at
                        && (notes.len() < MOST_NOTES || notes.contains_key(&at))
                    {
                        let note: &mut String = notes.entry(at).or_default();
                        let room = MOST_LETTERS.saturating_sub(note.len());
                        note.extend(text.xml10_content().chars().take(room));
                    }
                }
                Ok(Event::End(element)) if element.local_name().as_ref() == "t" => is_text = false,
                Ok(Event::Eof) | Err(_) => break,
                Ok(_) => {}
            }
        }
    }
    notes.retain(|_, note| !note.trim().is_empty());
    notes.into_iter().map(|(at, note)| (at, note.trim().to_owned())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn targets_climb_and_begin_at_the_top() {
        assert_eq!(joined("xl/worksheets", "../comments1.xml"), "xl/comments1.xml");
        assert_eq!(joined("xl", "worksheets/sheet1.xml"), "xl/worksheets/sheet1.xml");
        assert_eq!(joined("xl", "/xl/worksheets/sheet1.xml"), "xl/worksheets/sheet1.xml");
        assert_eq!(joined("xl", "../../../x.xml"), "x.xml");
    }
}
