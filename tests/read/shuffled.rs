//! The order of rows does not matter.

use crate::Run;
use proptest::prelude::*;
use stipple::claim::{Claim, Place, SourceId};

/// A claim as text, with every place and source blotted out: what is left is what was understood.
pub(crate) fn without_places(claim: &Claim) -> String {
    let text = format!("{claim:?}");
    let mut out = String::with_capacity(text.len());
    let mut rest = text.as_str();
    while let Some((before, after)) = rest.split_once("Place {") {
        out.push_str(before);
        out.push_str("Place");
        rest = after.split_once('}').map_or("", |(_, rest)| rest);
    }
    out.push_str(rest);
    let sources = out.rfind("sources: {").unwrap_or(out.len());
    out.truncate(sources);
    out
}

#[test]
fn blotting_out_places_leaves_nothing_of_them() {
    assert_eq!(
        format!("{:?}", Place::row(SourceId(1), 2)),
        "Place { source: SourceId(1), row: 2, column: 0 }"
    );
}

const COUNTS: &str = "claim,assessor,date of inspection,role,panel,0-10 mm,11-20 mm,material,remark";
const COUNT_ROWS: [&str; 9] = [
    "A-1,A. Sample,2026-06-16,,roof,12,3,alu,one",
    "A-1,A. Sample,2026-06-16,,hood,,,,two",
    "A-1,A. Sample,2026-06-16,,LF door,4,0,steel,",
    "A-1,a sample,2026-06-16,,LF door,,,,again",
    "A-1,B. Sample,2026-06-20,second,roof,14,2,alu,",
    "A-1,,,agreed,roof,13,2,,",
    "A-2,,,,roof,1,,,",
    "A-2,,,,hood,2,1,,",
    "a-2,,,,RR quarter,5,1,,",
];
const MARKS: &str = "claim,panel,mark,length mm,cause,depth";
const MARK_ROWS: [&str; 5] = [
    "A-1,roof,crease,80,,deep",
    "A-1,roof,crease,60,,",
    "A-1,roof,oversize,70,old,",
    "A-1,fuel flap,dent,9,,",
    "A-2,roof,dent,9,,",
];
const VEHICLES: &str = "claim,registration,make,model,body type,insurer,owner,remark";
const VEHICLE_ROWS: [&str; 4] = [
    "A-1,AB 1,Larch,Finch,hatchback,Alder Mutual,,first",
    "A-1,ab1,,,,ALDER MUTUAL,Ann Sample,second",
    "A-2,,Larch,Heron,coupe,Alder Mutual,,",
    "A-3,,Larch,,van,Alder Mutual,,",
];

fn run(counts: &[&str], marks: &[&str], vehicles: &[&str]) -> Vec<(String, String, Vec<String>)> {
    let table = |heading: &str, rows: &[&str]| format!("{heading}\n{}\n", rows.join("\n"));
    let run = Run::texts(&[
        ("counts.csv", &table(COUNTS, counts)),
        ("marks.csv", &table(MARKS, marks)),
        ("vehicles.csv", &table(VEHICLES, vehicles)),
    ]);
    let mut claims: Vec<_> = run
        .intakes
        .iter()
        .map(|intake| {
            let mut ids: Vec<String> =
                intake.problems.iter().map(|problem| problem.code.id.to_owned()).collect();
            ids.sort();
            (intake.claim.key.text.clone(), without_places(&intake.claim), ids)
        })
        .collect();
    claims.sort();
    claims
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn shuffled_rows_give_the_same_claims(
        counts in Just(COUNT_ROWS.to_vec()).prop_shuffle(),
        marks in Just(MARK_ROWS.to_vec()).prop_shuffle(),
        vehicles in Just(VEHICLE_ROWS.to_vec()).prop_shuffle(),
    ) {
        prop_assert_eq!(run(&COUNT_ROWS, &MARK_ROWS, &VEHICLE_ROWS), run(&counts, &marks, &vehicles));
    }

    #[test]
    fn no_text_makes_the_reader_fail(cells in prop::collection::vec("[-A-Za-z0-9 .,;/+~%$\"\u{e9}\n]{0,12}", 12)) {
        let text = format!(
            "claim,panel,0-10 mm,{}\nA-1,{}\n{},{}\n",
            cells[0], cells[1..5].join(","), cells[5], cells[6..12].join(",")
        );
        let run = Run::texts(&[("a.csv", &text)]);
        for problem in run.intakes.iter().flat_map(|intake| &intake.problems).chain(&run.problems) {
            prop_assert!(!stipple::problem::render_text(problem, &run.opened.sources).is_empty());
        }
    }
}
