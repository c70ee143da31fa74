//! What the groups of columns of one heading are: panels, sides, passes, roles, or people.

use crate::claim::Role;
use crate::claim::words::{find, folded};
use crate::problem::Place;
use crate::quantity::{DecimalMark, LengthUnit};
use crate::read::arrange::heading::{is_panel, is_side};
use crate::read::columns::FACTS;
use crate::read::rows::is_total_word;
use crate::read::sizes::is_size;
use crate::table::{Cell, LONGEST_HEADING, Row, named_among, parse_interval};

/// What tells the groups of columns apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// A row per car, a group for each panel.
    Panels,
    /// A row per panel kind, a group for each side.
    Sides,
    /// Several looks at one panel: passes.
    Passes,
    /// Whose count it is: own, second, agreed.
    Roles,
    /// Several people's looks at one panel.
    People,
}

impl Kind {
    /// The column that the labels stand in afterwards.
    pub(super) const fn heading(self) -> &'static str {
        match self {
            Self::Panels => "panel",
            Self::Sides => "side",
            Self::Passes => "pass",
            Self::Roles => "role",
            Self::People => "assessor",
        }
    }

    /// How it is told.
    pub(super) const fn told(self) -> &'static str {
        match self {
            Self::Panels => "each panel has columns of its own: each group was read as a panel of its row",
            Self::Sides => "left and right have columns of their own: each group was read as a side",
            Self::Passes => {
                "sizes stand more than once: each group was read as a pass of its own, never added"
            }
            Self::Roles => {
                "sizes stand more than once: each group was read as a count of its own, never added"
            }
            Self::People => {
                "sizes stand more than once: each group was read as a count by itself, under its own heading, never added"
            }
        }
    }
}

/// What stands below one heading of a group: a size, a total, or dents whose size is not said.
#[derive(Debug, Clone)]
pub(super) struct Part {
    pub(super) column: u16,
    /// The label of its group as written, and where.
    pub(super) label: Option<(String, Place)>,
    /// Its size; `total` for totals.
    pub(super) size: Cell,
}

/// The columns of a heading, sorted: parts of groups, and all others.
pub(super) struct Columns {
    pub(super) parts: Vec<Part>,
    pub(super) others: Vec<Cell>,
}

impl Columns {
    /// Of a row, and the one right above it where that labels groups.
    pub(super) fn of(upper: Option<&Row>, row: &Row) -> Self {
        let mut columns = Self { parts: Vec::new(), others: Vec::new() };
        let mut label: Option<&Cell> = None;
        let mut last = 0;
        for cell in &row.cells {
            // A blank column and a column of another kind end what a label stands above.
            if cell.column > last + 1 {
                label = None;
            }
            last = cell.column;
            let text = cell.text();
            let is_part = is_size(&text) || is_total_word(&text);
            if !is_part {
                label = None;
            }
            label = upper.and_then(|upper| upper.cell(cell.column)).filter(|_| is_part).or(label);
            if is_part {
                let label = label.map(|label| (label.text(), label.place));
                columns.parts.push(Part { column: cell.column, label, size: cell.clone() });
            } else if let Some((label, size)) = compound(&text) {
                let size = Cell { value: crate::table::Value::Text(size), ..cell.clone() };
                columns.parts.push(Part { column: cell.column, label: Some((label, cell.place)), size });
            } else {
                columns.others.push(cell.clone());
            }
        }
        let below = |cell: &&Cell| row.cell(cell.column).is_none();
        columns.others.extend(upper.into_iter().flat_map(|upper| upper.cells.iter().filter(below)).cloned());
        columns.others.sort_by_key(|cell| cell.column);
        columns.label_by_brackets();
        columns
    }

    /// Sizes that say in themselves whose they are, as in `0-10 mm (Ann)` beside `0-10 mm (Ben)`: only where one size
    /// comes with several labels, since most words beside a size belong to it.
    fn label_by_brackets(&mut self) {
        let own: Vec<Option<(String, String)>> = self
            .parts
            .iter()
            .map(|part| {
                let whole = part.size.text();
                let unit = Some(LengthUnit::Millimetre);
                let range = |text: &str| parse_interval(text, unit, DecimalMark::Point);
                let is_beside = |size: &str| range(&whole).is_some() && range(&whole) == range(size);
                compound(&whole).filter(|(_, size)| part.label.is_none() && is_beside(size))
            })
            .collect();
        let is_several = own.iter().flatten().any(|(label, size)| {
            own.iter().flatten().any(|(other, same)| folded(same) == folded(size) && other != label)
        });
        for (part, own) in self.parts.iter_mut().zip(own).filter(|_| is_several) {
            let Some((label, size)) = own else { continue };
            part.label = Some((label, part.size.place));
            part.size.value = crate::table::Value::Text(size);
        }
    }

    /// Columns that are headed by a panel alone, taken for dents whose size is not said; only where there are several
    /// and no column holds panels.
    pub(super) fn take_bare_panels(&mut self) {
        const SEVERAL: usize = 3;
        let is_bare = |cell: &Cell| is_panel(&cell.text());
        if self.others.iter().filter(|cell| is_bare(cell)).count() < SEVERAL {
            return;
        }
        let (bare, others) = std::mem::take(&mut self.others).into_iter().partition(is_bare);
        self.others = others;
        for cell in bare {
            let size = Cell { value: crate::table::Value::Text(UNSIZED.to_owned()), ..cell.clone() };
            self.parts.push(Part { column: cell.column, label: Some((cell.text(), cell.place)), size });
        }
        self.parts.sort_by_key(|part| part.column);
        // A total beside panels is the car's and no panel's.
        if self.others.iter().any(|cell| named_among(&cell.text(), &FACTS).is_some()) {
            let is_of_car = |part: &Part| part.label.is_none() && is_total_word(&part.size.text());
            let (totals, parts) = std::mem::take(&mut self.parts).into_iter().partition(is_of_car);
            self.parts = parts;
            self.others.extend(Vec::into_iter(totals).map(|part: Part| part.size));
            self.others.sort_by_key(|cell| cell.column);
        }
    }

    /// What the groups are, if there are any. `has_panels` says whether a column holds panels.
    pub(super) fn kind(&self, has_panels: bool) -> Option<Kind> {
        let sized = || self.parts.iter().filter(|part| !is_total_word(&part.size.text()));
        let labels: Vec<&str> =
            sized().filter_map(|part| part.label.as_ref().map(|(label, _)| label.as_str())).collect();
        let all = |is: &dyn Fn(&str) -> bool| {
            labels.len() == sized().count() && labels.iter().all(|label| is(label))
        };
        let size = |part: &Part| folded(&part.size.text());
        let repeats =
            sized().any(|part| sized().any(|other| other.column != part.column && size(other) == size(part)));
        if !has_panels {
            return (labels.len() > 1 && all(&is_panel)).then_some(Kind::Panels);
        }
        if labels.len() > 1 && all(&is_side) {
            return Some(Kind::Sides);
        }
        repeats.then(|| {
            if labels.is_empty() || all(&|label| pass(label).is_some()) {
                Kind::Passes
            } else if all(&|label| find::<Role>(label).is_some()) {
                Kind::Roles
            } else {
                Kind::People
            }
        })
    }

    /// The groups in the order of their first columns: label and parts. Without labels a size that comes again begins
    /// the next pass.
    pub(super) fn groups(&self, kind: Kind) -> Vec<(String, Place, Vec<&Part>)> {
        let mut groups: Vec<(String, Place, Vec<&Part>)> = Vec::new();
        for part in &self.parts {
            let size = folded(&part.size.text());
            let has_size = |parts: &[&Part]| parts.iter().any(|other| folded(&other.size.text()) == size);
            let (name, place) = if let Some((label, place)) = &part.label {
                (named(kind, label), *place)
            } else {
                let open = groups.last().filter(|(.., parts)| !has_size(parts));
                let next = || (groups.len() + 1).to_string();
                (open.map_or_else(next, |(name, ..)| name.clone()), part.size.place)
            };
            match groups.iter_mut().find(|(other, ..)| *other == name) {
                Some((.., parts)) => parts.push(part),
                None => groups.push((name, place, vec![part])),
            }
        }
        groups
    }
}

/// How dents are headed whose size is not said; no schedule knows it unless it lists it.
const UNSIZED: &str = "size not written";

fn named(kind: Kind, label: &str) -> String {
    match kind {
        Kind::Passes => pass(label).map_or_else(|| label.to_owned(), |pass| pass.to_string()),
        Kind::People => {
            let name = label.split_once(':').map_or(label, |(_, name)| name).trim();
            let words = ["assessor ", "inspector ", "counted by "];
            let rest = words.iter().find_map(|word| {
                name.get(..word.len()).filter(|start| start.eq_ignore_ascii_case(word))?;
                name.get(word.len()..)
            });
            rest.unwrap_or(name).to_owned()
        }
        Kind::Panels | Kind::Sides | Kind::Roles => label.to_owned(),
    }
}

/// The number of a pass: `pass 2`, `2nd count`, `first`.
fn pass(label: &str) -> Option<u32> {
    const ORDINALS: [&[&str]; 3] = [&["first", "1st"], &["second", "2nd"], &["third", "3rd"]];
    let name = folded(label);
    let words: Vec<&str> = name.split(' ').collect();
    let speaks = words.iter().any(|word| matches!(*word, "pass" | "count" | "round" | "look"));
    let ordinal = |word: &&str| {
        let index = ORDINALS.iter().position(|words| words.contains(word));
        index.and_then(|index| u32::try_from(index + 1).ok()).or_else(|| word.parse().ok())
    };
    let number = words.iter().find_map(ordinal).filter(|number| (1..=99).contains(number))?;
    (speaks && words.len() < 4).then_some(number)
}

/// Words that belong to a size: `up to`, `over`. No label consists of them.
fn is_of_size(label: &str) -> bool {
    const WORDS: [&str; 30] = [
        "up",
        "to",
        "over",
        "under",
        "above",
        "below",
        "from",
        "more",
        "less",
        "than",
        "about",
        "approx",
        "at",
        "least",
        "and",
        "dents",
        "dent",
        "size",
        "number",
        "of",
        "in",
        "inch",
        "inches",
        "mm",
        "cm",
        "millimetres",
        "millimeters",
        "diameter",
        "dia",
        "small",
    ];
    folded(label)
        .split(' ')
        .all(|word| WORDS.contains(&word) || word.bytes().all(|byte| byte.is_ascii_digit()))
}

/// A label and a size in one heading: `roof 0-10 mm`, `LF door S`, `0-10 mm (Ann Sample)`.
fn compound(text: &str) -> Option<(String, String)> {
    const AROUND: &[char] = &[' ', '-', '\u{2013}', ':', '(', ')', '/', '_', ',', '\n', '[', ']', '|'];
    if text.len() > LONGEST_HEADING {
        return None;
    }
    let fits = |label: &str, size: &str| {
        let (label, size) = (label.trim_matches(AROUND), size.trim_matches(AROUND));
        let is_named = label.chars().any(char::is_alphabetic) && !is_size(label) && !is_of_size(label);
        (is_named && (is_size(size) || is_total_word(size))).then(|| (label.to_owned(), size.to_owned()))
    };
    let cuts = || text.match_indices(AROUND).map(|(at, _)| at);
    let before = cuts().find_map(|at| fits(&text[..at], &text[at..]));
    before.or_else(|| {
        cuts().collect::<Vec<_>>().into_iter().rev().find_map(|at| fits(&text[at..], &text[..at]))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_label_and_a_size_part_where_each_is_one() {
        let parted = |text| compound(text).map(|(label, size)| format!("{label}|{size}"));
        for (text, expected) in [
            ("roof 0-10 mm", "roof|0-10 mm"),
            ("LF door 0 - 10 mm", "LF door|0 - 10 mm"),
            ("roof: small", "roof|small"),
            ("Roof - S", "Roof|S"),
            ("0-10 mm Ann Sample", "Ann Sample|0-10 mm"),
            ("0-10 mm (pass 2)", "pass 2|0-10 mm"),
            ("hood total", "hood|total"),
        ] {
            assert_eq!(parted(text).as_deref(), Some(expected), "{text}");
        }
        assert_eq!(parted("Over 1 1/4 in"), None);
        assert_eq!(parted("material"), None);
        assert_eq!(parted("date of loss"), None);
    }

    #[test]
    fn passes_are_numbered_in_words_or_figures() {
        assert_eq!(pass("Pass 2"), Some(2));
        assert_eq!(pass("1st count"), Some(1));
        assert_eq!(pass("second look"), Some(2));
        assert_eq!(pass("Ann"), None);
        assert_eq!(pass("2024"), None);
    }
}
