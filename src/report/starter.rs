//! A schedule to begin with: small, complete, and invented throughout, so that nobody takes its amounts for anybody's.

use super::csv::CsvTable;
use super::tables::Field;
use std::io;

/// One table of the starter.
#[derive(Debug)]
pub struct StarterTable {
    /// Its sheet, or its file without the ending.
    pub name: &'static str,
    /// What stands above its headings.
    pub note: &'static str,
    /// Its headings, then its rows; blank cells are empty.
    pub rows: &'static [&'static [&'static str]],
}

impl StarterTable {
    /// Columns of its widest row.
    pub fn width(&self) -> usize {
        self.rows.iter().map(|row| row.len()).max().unwrap_or(1)
    }

    /// The table as a CSV file, its note in the first line.
    pub fn csv(&self) -> io::Result<Vec<u8>> {
        let width = self.width();
        let padded = |cells: &[&'static str]| -> Vec<&'static str> {
            cells.iter().copied().chain(std::iter::repeat("")).take(width).collect()
        };
        let mut table = CsvTable::headed(Vec::new(), padded(&[self.note]))?;
        for row in self.rows {
            let fields: Vec<Field> = padded(row).into_iter().map(Field::text).collect();
            table.row(&fields)?;
        }
        Ok(table.finish())
    }
}

/// The tables, in the order of the page of the tables.
pub static STARTER: [StarterTable; 12] = [
    StarterTable {
        name: "Terms",
        note: "Invented. Put your own name, edition, source, insurers, currency and dates; every amount in this schedule is \
               nobody's.",
        rows: &[
            &["term", "value"],
            &["schedule", "Starter schedule"],
            &["edition", "draft 1"],
            &["source", "invented to begin with: every amount has to be replaced"],
            &["holds for", "none; any"],
            &["currency", "EUR"],
            &["valid from", "2026-01-01"],
            &["rounding", "half away from zero"],
            &["mixed sizes", "each band"],
            &["time unit", "tenths"],
            &["readying share", "55"],
            &["minimum per vehicle", "55"],
            &["total loss compares", "repair plus salvage"],
            &["total loss when", "at least"],
            &["total loss share", "100"],
            &["total loss with tax", "no"],
            &["quotation days", "30"],
        ],
    },
    StarterTable {
        name: "Labour",
        note: "Invented. Amounts per hour, in the currency of the terms.",
        rows: &[
            &["labour", "per hour"],
            &["paintless", "77"],
            &["remove and refit", "66"],
            &["conventional", "66"],
            &["refinish", "66"],
        ],
    },
    StarterTable {
        name: "Taxes",
        note: "Invented. Percent; write 0 where nothing is taxed.",
        rows: &[&["tax on", "percent"], &["labour", "11"], &["parts", "11"], &["paint material", "11"]],
    },
    StarterTable {
        name: "Sizes",
        note: "Invented. Bands begin at 0 and follow on each other; a dent at an upper edge belongs to its band.",
        rows: &[
            &["size band", "from mm", "to mm", "goes by"],
            &["small", "0", "10", "S"],
            &["middle", "10", "20", "M"],
            &["large", "20", "40", "L"],
        ],
    },
    StarterTable {
        name: "Counts",
        note: "Invented. Bands begin at 1; a blank in the last row is open-ended.",
        rows: &[
            &["count band", "from dents", "to dents"],
            &["1 to 10", "1", "10"],
            &["11 to 30", "11", "30"],
            &["31 to 80", "31", "80"],
        ],
    },
    StarterTable {
        name: "Panels",
        note: "Invented. One row for each kind, without side; one that is missing is referred to a person.",
        rows: &[
            &["panel", "rated as", "lies", "joined"],
            &["hood", "large panels", "horizontal", "bolted"],
            &["roof", "large panels", "horizontal", "welded"],
            &["trunk lid", "large panels", "horizontal", "bolted"],
            &["tailgate", "large panels", "vertical", "bolted"],
            &["fender", "side panels", "vertical", "bolted"],
            &["front door", "side panels", "vertical", "bolted"],
            &["rear door", "side panels", "vertical", "bolted"],
            &["quarter panel", "side panels", "vertical", "welded"],
            &["roof rail", "side panels", "horizontal", "welded"],
        ],
    },
    StarterTable {
        name: "Rates",
        note: "Invented. Amounts per panel of each group, sizes across and counts down.",
        rows: &[
            &["rated as", "large panels"],
            &["gives", "amount per panel"],
            &["count band", "small", "middle", "large"],
            &["1 to 10", "44", "55", "66"],
            &["11 to 30", "77", "88", "111"],
            &["31 to 80", "122", "144", "177"],
            &[""],
            &["rated as", "side panels"],
            &["gives", "amount per panel"],
            &["count band", "small", "middle", "large"],
            &["1 to 10", "33", "44", "55"],
            &["11 to 30", "55", "77", "99"],
            &["31 to 80", "99", "122", "155"],
        ],
    },
    StarterTable {
        name: "Marks",
        note: "Invented. Each mark by its length; a blank upper edge is open-ended.",
        rows: &[
            &["mark", "over mm", "up to mm", "hours"],
            &["oversize dent", "40", "80", "1.1"],
            &["oversize dent", "80", "", "2.2"],
            &["crease", "0", "60", "0.8"],
            &["crease", "60", "", "1.5"],
        ],
    },
    StarterTable {
        name: "Factors",
        note: "Invented. Percent of the dents and marks of a panel for which the factor holds.",
        rows: &[
            &["factor", "looks at", "is", "percent"],
            &["aluminium", "material", "aluminium", "22"],
            &["sharp dents", "depth", "sharp", "11"],
        ],
    },
    StarterTable {
        name: "Typical prices",
        note: "Invented. Used where a claim brings no price of its own; documents say that they are typical.",
        rows: &[
            &[
                "panel",
                "vehicle class",
                "part",
                "fitting",
                "conventional",
                "refinish",
                "paint material",
                "source",
            ],
            &["", "", "333", "1.1", "4.4", "2.2", "55", "invented"],
        ],
    },
    StarterTable {
        name: "Limits",
        note: "Invented. Of the limits that a panel crosses the one furthest from paintless decides.",
        rows: &[
            &["limit", "measures", "beyond", "then", "panel"],
            &["broken paint", "paint", "broken", "paintless, then refinish", ""],
            &["plastic", "material", "plastic", "refer to a person", ""],
            &["stretched metal", "depth", "stretched", "conventional repair", ""],
            &["too many dents", "dents", "80", "refer to a person", ""],
            &["cheaper to replace", "share of replacing", "77", "replace", "bolted"],
        ],
    },
    StarterTable {
        name: "Operations",
        note: "Invented. What panels ask for, once per vehicle, side or panel, with the cautions beside it.",
        rows: &[
            &["operation", "panel", "hours", "once per", "caution"],
            &["headliner down and up", "roof", "2.2", "vehicle", "airbag"],
            &["door trim off and on", "front door", "0.6", "panel", ""],
        ],
    },
];
