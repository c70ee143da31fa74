//! The invented schedule that both insurers of the batch agreed.

use crate::{INSURERS, SIZES};
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

/// Tops of the count bands.
const COUNT_TOPS: [u64; 9] = [5, 12, 21, 34, 55, 90, 145, 240, 400];

/// The schedule's tables, a file each, for both insurers.
pub fn tables() -> Vec<(&'static str, String)> {
    let mut panels = String::from("panel,rated as,lies,joined\n");
    let mut typical = String::from("panel,vehicle class,part,fitting,conventional,refinish,source\n");
    for (index, (kind, lies, joined)) in (0_u64..).zip(KINDS) {
        let _ = writeln!(panels, "{kind},{kind},{lies},{joined}");
        let (part, tenths) = (310 + 37 * index, 21 + 4 * index);
        let _ = writeln!(
            typical,
            "{kind},,{part}.00,{}.{},{}.{},3.2,invented for benchmarks",
            tenths / 10,
            tenths % 10,
            tenths / 6,
            tenths % 6
        );
    }
    let mut sizes = String::from("size band,from mm,to mm\n");
    let mut counts = String::from("count band,from dents,to dents\n");
    let mut from = 1;
    for top in COUNT_TOPS {
        let _ = writeln!(counts, "{from} to {top},{from},{top}");
        from = top + 1;
    }
    let mut rates = String::from("rated as,size band,count band,amount,per\n");
    for (name, low, high, _) in SIZES {
        let _ = writeln!(sizes, "{name},{low},{high}");
    }
    for (group, (kind, ..)) in (0_u64..).zip(KINDS) {
        for (size, (name, ..)) in (0_u64..).zip(SIZES) {
            let mut from = 1;
            for (count, top) in (0_u64..).zip(COUNT_TOPS) {
                let cents = 2990 + 170 * group + 2640 * size + 3310 * count + 90 * count * size;
                let _ =
                    writeln!(rates, "{kind},{name},{from} to {top},{}.{:02},panel", cents / 100, cents % 100);
                from = top + 1;
            }
        }
    }
    vec![
        ("terms.csv", terms()),
        (
            "labour.csv",
            "labour,per hour\npaintless,84.00\nremove and refit,71.00\nconventional,76.00\nrefinish,73.00\n"
                .to_owned(),
        ),
        ("taxes.csv", "tax on,percent\nlabour,19\nparts,19\npaint material,19\n".to_owned()),
        ("sizes.csv", sizes),
        ("counts.csv", counts),
        ("panels.csv", panels),
        ("rates.csv", rates),
        ("factors.csv", factors().to_owned()),
        ("typical.csv", typical),
        ("limits.csv", limits().to_owned()),
        ("operations.csv", operations().to_owned()),
    ]
}

fn terms() -> String {
    format!(
        "term,value\nschedule,Benchmark terms\nedition,1\nsource,invented for benchmarks\nholds for,{}\ncurrency,EUR\n\
         valid from,2026-01-01\nrounding,half away from zero\nmixed sizes,largest present\n\
         readying share,35\nminimum per vehicle,60.00\ntotal loss compares,repair\ntotal loss when,at least\n\
         total loss share,75\ntotal loss with tax,yes\ncash with tax,no\n",
        INSURERS.join("; ")
    )
}

const fn factors() -> &'static str {
    "factor,looks at,is,order,percent,of\naluminium,material,aluminium,1,23,base\n\
     high-strength steel,material,high-strength steel,2,13,base\n\
     behind a brace,access,behind brace,3,14,running amount\nglue only,access,glue only,4,29,running amount\n"
}

const fn limits() -> &'static str {
    "limit,measures,beyond,then\nbroken paint,paint,broken,\"paintless, then refinish\"\n\
     too many dents,dents,260,refer to a person\ncheaper to replace,share of replacing,85,replace\n"
}

const fn operations() -> &'static str {
    "operation,panel,hours,once per\nheadliner out and in,roof,2.1,vehicle\nhood insulator,hood,0.3,vehicle\n\
     door trim,front door,0.6,panel\n"
}
