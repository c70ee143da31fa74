//! The invented schedule that both insurers of the batch agreed, in our tables and in plain ones.

use crate::{INSURERS, PANELS, SIZES};
use std::fmt::Write as _;

/// Kinds of panel with what the schedule says of them.
const KINDS: [(&str, &str, &str); 8] = [
    ("hood", "horizontal", "bolted"),
    ("roof", "horizontal", "welded"),
    ("trunk lid", "horizontal", "bolted"),
    ("roof rail", "horizontal", "welded"),
    ("fender", "vertical", "bolted"),
    ("front door", "vertical", "bolted"),
    ("rear door", "vertical", "bolted"),
    ("quarter panel", "vertical", "welded"),
];

/// Tops of the count bands; the last has none.
const COUNT_TOPS: [Option<u64>; 9] =
    [Some(5), Some(12), Some(21), Some(34), Some(55), Some(90), Some(145), Some(240), None];

/// Dents beyond which a person decides.
const MOST_DENTS: u64 = 140;

/// Percentages of the running amount: name, what is looked at, what it is, how much.
const FACTORS: [(&str, &str, &str, u64); 3] = [
    ("aluminium", "material", "aluminium", 22),
    ("behind a brace", "access", "behind brace", 14),
    ("glue only", "access", "glue only", 31),
];

/// Names and ends of the count bands.
fn count_bands() -> impl Iterator<Item = (String, u64, Option<u64>)> {
    let mut from = 1;
    COUNT_TOPS.into_iter().map(move |to| {
        let name = to.map_or_else(|| format!("{from}+"), |to| format!("{from} to {to}"));
        let band = (name, from, to);
        from = to.unwrap_or(from) + 1;
        band
    })
}

/// The amount for a kind of panel, a size band and a count band.
fn amount(kind: u64, size: u64, count: u64) -> String {
    let cents = 2990 + 170 * kind + 2640 * size + 3310 * count + 90 * count * size;
    format!("{}.{:02}", cents / 100, cents % 100)
}

/// The schedule's tables, a file each, for both insurers.
pub fn tables() -> Vec<(&'static str, String)> {
    let mut panels = String::from("panel,rated as,lies,joined\n");
    for (kind, lies, joined) in KINDS {
        let _ = writeln!(panels, "{kind},{kind},{lies},{joined}");
    }
    let mut sizes = String::from("size band,from mm,to mm\n");
    let mut counts = String::from("count band,from dents,to dents\n");
    for (name, from, to) in count_bands() {
        let _ = writeln!(counts, "{name},{from},{}", to.map(|to| to.to_string()).unwrap_or_default());
    }
    let mut rates = String::from("rated as,size band,count band,amount,per\n");
    for (name, low, high, _) in SIZES {
        let _ = writeln!(sizes, "{name},{low},{high}");
    }
    for (group, (kind, ..)) in (0_u64..).zip(KINDS) {
        for (size, (name, ..)) in (0_u64..).zip(SIZES) {
            for (count, (band, ..)) in (0_u64..).zip(count_bands()) {
                let _ = writeln!(rates, "{kind},{name},{band},{},panel", amount(group, size, count));
            }
        }
    }
    let mut factors = String::from("factor,looks at,is,order,percent,of\n");
    for (order, (name, looks_at, is, percent)) in (1..).zip(FACTORS) {
        let _ = writeln!(factors, "{name},{looks_at},{is},{order},{percent},running amount");
    }
    let limits = format!(
        "limit,measures,beyond,then\nbroken paint,paint,broken,refer to a person\n\
         too many dents,dents,{MOST_DENTS},refer to a person\n"
    );
    vec![
        ("terms.csv", terms()),
        ("taxes.csv", "tax on,percent\nlabour,19\nparts,19\npaint material,19\n".to_owned()),
        ("sizes.csv", sizes),
        ("counts.csv", counts),
        ("panels.csv", panels),
        ("rates.csv", rates),
        ("factors.csv", factors),
        ("limits.csv", limits),
    ]
}

fn terms() -> String {
    format!(
        "term,value\nschedule,Benchmark terms\nedition,1\nsource,invented for benchmarks\nholds for,{}\ncurrency,EUR\n\
         valid from,2026-01-01\nrounding,half away from zero\nmixed sizes,largest present\n\
         total loss compares,repair\ntotal loss when,at least\ntotal loss share,75\ntotal loss with tax,yes\n\
         cash with tax,no\n",
        INSURERS.join("; ")
    )
}

/// The same amounts by panel and band as the yardstick joins them, and the bands' tops.
pub fn plain_tables() -> Vec<(&'static str, String)> {
    let mut rates = String::from("panel,size,band,amount\n");
    for (panel, _) in PANELS {
        let kind =
            (0_u64..).zip(KINDS).find(|(_, (kind, ..))| panel.ends_with(kind)).map_or(0, |(kind, _)| kind);
        for (size, (name, ..)) in (0_u64..).zip(SIZES) {
            for count in 0..COUNT_TOPS.len() as u64 {
                let _ = writeln!(rates, "{panel},{name},{count},{}", amount(kind, size, count));
            }
        }
    }
    let mut bands = String::from("band,up to\n");
    for (band, to) in COUNT_TOPS.into_iter().enumerate() {
        let _ = writeln!(bands, "{band},{}", to.unwrap_or(1_000_000));
    }
    vec![("rates.csv", rates), ("count_bands.csv", bands)]
}
