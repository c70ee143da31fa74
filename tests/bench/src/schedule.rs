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

/// The same schedule with every term and every table: what each costs where a schedule uses it.
pub fn tables_with_everything() -> Vec<(&'static str, String)> {
    let mut all = tables();
    for (name, text) in &mut all {
        match *name {
            "terms.csv" => text.push_str(EVERY_TERM),
            "panels.csv" => {
                let area = |line: &str| format!("{line},broad,1.6,20,1500");
                let rows: Vec<String> = text.lines().skip(1).map(area).collect();
                *text = format!(
                    "panel,rated as,lies,joined,panel class,area m2,floor,cap\n{}\n",
                    rows.join("\n")
                );
            }
            "factors.csv" => text.push_str(
                "broad panel,panel class,broad,4,3,base\nsharp,depth,sharp,5,10,running amount\n\
                 edge,position,edge,6,8,base\n",
            ),
            "limits.csv" => text.push_str("cheaper to replace,share of replacing,95,replace\n"),
            _ => {}
        }
    }
    all.extend(FURTHER_TABLES.map(|(name, text)| (name, text.to_owned())));
    all
}

const EVERY_TERM: &str = "edition by,date of loss\nbetween count bands,interpolated\nscaled counts,half to even\n\
     several marks,larger only\nfactors at most,60\nreadying share,60\nminimum per vehicle,120\ndiscount,4\n\
     discount on,labour\ndiscount taken,before the minimum\nexcess taken,after the limit\nround total to,0.05\n\
     quotation days,30\n";

const FURTHER_TABLES: [(&str, &str); 6] = [
    ("labour.csv", "labour,per hour\npaintless,96\nremove and refit,72.50\nconventional,78\nrefinish,84\n"),
    (
        "marks.csv",
        "mark,over mm,up to mm,amount\noversize dent,48,,95\ncrease,0,,62.50\ncrown,0,,20\nbrace mark,0,,18\n",
    ),
    (
        "typical.csv",
        "panel,vehicle class,part,fitting,conventional,refinish,blend,paint material\nhood,,410,1.2,3.5,2.6,0.8,74\n\
         bolted,,280,1.5,3,2.2,0.6,58\nwelded,,560,9,6.5,3.4,1,88\n",
    ),
    (
        "operations.csv",
        "operation,panel,method,hours,parts,once per,caution\nheadliner down and up,roof,,2.4,12.50,vehicle,airbag\n\
         trim off and on,front door,,0.5,4,panel,\nlamps off and on,quarter panel,,0.3,,side,\n",
    ),
    (
        "betterment.csv",
        "betterment on,percent,panel,from years,to years\nnew parts,10,,3,7\nnew parts,25,,8,\nnew parts,15,hood,,\n\
         items,20,,,\n",
    ),
    (
        "titles.csv",
        "title note,registered in,compares,when,share,with tax,valid from,source\n\
         salvage,Example State,repair,at least,75,yes,2026-01-01,invented\n",
    ),
];

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
