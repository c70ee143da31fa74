//! How the numbers and dates of a column are written: proved by the column, said by somebody, or asked about once.

use crate::asked::asked;
use crate::{Run, VEHICLES, panel, tally};

fn dates(run: &Run) -> Vec<String> {
    let inspections = run.intakes.iter().flat_map(|intake| &intake.claim.inspections);
    inspections.filter_map(|inspection| inspection.date.as_ref()).map(|date| date.value.to_string()).collect()
}

const TWO_DATES: &str =
    "claim,panel,date of inspection,0-10 mm\nA-1,roof,05/06/2026,4\nA-2,roof,07/06/2026,5\n";

#[test]
fn one_date_of_a_column_that_has_one_reading_settles_the_others() {
    let run = Run::counts(&format!("{TWO_DATES}A-3,roof,14/06/2026,6\n"));
    assert_eq!(dates(&run), ["2026-06-05", "2026-06-07", "2026-06-14"]);
    let run = Run::counts(&format!("{TWO_DATES}A-3,roof,06/14/2026,6\n"));
    assert_eq!(dates(&run), ["2026-05-06", "2026-07-06", "2026-06-14"]);
    // Two that contradict each other settle nothing.
    let run = Run::counts(&format!("{TWO_DATES}A-3,roof,06/14/2026,6\nA-4,roof,14/06/2026,6\n"));
    assert_eq!(dates(&run), ["2026-06-14", "2026-06-14"]);
}

#[test]
fn the_order_of_dates_is_asked_once_for_a_column_and_holds_as_answered() {
    let run = Run::counts(TWO_DATES);
    assert_eq!(
        asked(&run),
        ["order of dates -> day first: 05/06/2026 is 2026-06-05; month first: 05/06/2026 is 2026-05-06"]
    );
    for (answer, read) in
        [("day first", ["2026-06-05", "2026-06-07"]), ("month first", ["2026-05-06", "2026-07-06"])]
    {
        let map = format!("heading,word,means\ndate of inspection,order of dates,{answer}\n");
        let run = Run::texts(&[("counts.csv", TWO_DATES), ("map.csv", &map), ("vehicles.csv", VEHICLES)]);
        assert_eq!(dates(&run), read);
        assert!(!run.of_files().iter().any(|told| told.starts_with("map-row")), "{:?}", run.of_files());
    }
}

#[test]
fn a_date_above_a_table_is_asked_about_for_its_sheet() {
    let form = "Date of inspection:,05/06/2026\nClaim no:,A-1\n\npanel,0-10 mm\nroof,4\n";
    let run = Run::counts(form);
    let asked = asked(&run);
    assert_eq!(asked.len(), 1);
    assert!(asked[0].starts_with("order of dates -> day first: 05/06/2026 is 2026-06-05"), "{asked:?}");
    let map = "word,means,file\norder of dates,month first,counts.csv\n";
    let run = Run::texts(&[("counts.csv", form), ("map.csv", map), ("vehicles.csv", VEHICLES)]);
    assert_eq!(dates(&run), ["2026-05-06"]);
}

const AMOUNTS: &str = "claim,make,market value,excess\nA-1,Elm,12.500,300\nA-2,Elm,9.250,300\n";

fn values(map: &str) -> (Run, Vec<String>) {
    let counts = "claim,panel,0-10 mm\nA-1,roof,4\nA-2,roof,4\n";
    let run = Run::texts(&[("cars.csv", AMOUNTS), ("counts.csv", counts), ("map.csv", map)]);
    let value = |amount: &stipple::claim::WrittenAmount| amount.amount.to_string();
    let values = run.intakes.iter().filter_map(|intake| intake.claim.parties.market_value.as_ref());
    let values = values.map(|amount| value(&amount.value)).collect();
    (run, values)
}

#[test]
fn the_decimal_mark_is_asked_once_for_a_column_and_holds_as_answered() {
    let (run, _) = values("word,means\nnothing,0\n");
    assert_eq!(
        asked(&run),
        ["decimal mark -> point: 12.500 is the number 12.5; comma: 12.500 is the number 12500"]
    );
    let (run, read) = values("heading,word,means\nmarket value,decimal mark,comma\n");
    assert_eq!(asked(&run), Vec::<String>::new());
    assert_eq!(read, ["12500", "9250"]);
    let (_, read) = values("word,means\ndecimal mark,point\n");
    assert_eq!(read, ["12.500", "9.250"]);
}

#[test]
fn both_sides_in_one_row_are_asked_about_and_may_be_each_side() {
    let counts = "claim,panel,side,0-10 mm\nA-1,both front doors,,12\nA-1,fender,both,3\n";
    let run = Run::counts(counts);
    assert_eq!(
        asked(&run),
        [
            "both front doors -> left front door: all of these dents are there; right front door: all of these \
             dents are there; each side: the left and the right have so many dents each",
            "both -> left: all of these dents are there; right: all of these dents are there; each side: the left \
             and the right have so many dents each",
        ]
    );
    let map = "heading,word,means\npanel,both front doors,each side\nside,both,right\n";
    let run = Run::texts(&[("counts.csv", counts), ("map.csv", map), ("vehicles.csv", VEHICLES)]);
    let panels: Vec<String> =
        run.claim("A-1").inspections[0].panels.iter().map(|panel| panel.panel.to_string()).collect();
    assert_eq!(panels, ["right fender", "left front door", "right front door"]);
    assert_eq!(tally(panel(run.claim("A-1"), "left front door")), [("0-10 mm", Some(12))]);
}

#[test]
fn sides_as_seen_from_the_front_are_turned_round_where_somebody_said_so() {
    let counts =
        "All sides as seen from the front\n\nclaim,panel,0-10 mm\nA-1,left fender,4\nA-1,RF door,2\n";
    let run = Run::counts(counts);
    assert_eq!(
        asked(&run),
        [
            "sides -> as seated: left is the left of who sits in the car, as written; as seen from the front: left and \
             right of the sheet change places"
        ]
    );
    for (answer, fender) in [("as seated", "left fender"), ("as seen from the front", "right fender")] {
        let map = format!("word,means,file\nsides,{answer},counts.csv\n");
        let run = Run::texts(&[("counts.csv", counts), ("map.csv", &map), ("vehicles.csv", VEHICLES)]);
        assert_eq!(tally(panel(run.claim("A-1"), fender)), [("0-10 mm", Some(4))], "{answer}");
        assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    }
}

#[test]
fn a_car_that_two_files_count_is_asked_about_once_for_each_and_never_added() {
    let first = "claim,panel,0-10 mm\nA-1,roof,4\n,hood,5\nA-2,roof,1\n";
    let second = "claim,panel,0-10 mm\nA-1,hood,6\nA-1,roof,7\n";
    let texts = |map: &str| {
        Run::texts(&[("a.csv", first), ("b.csv", second), ("map.csv", map), ("vehicles.csv", VEHICLES)])
    };
    let nothing = "word,means\nnothing,0\n";
    assert_eq!(
        asked(&texts(nothing)),
        [
            "A-1 -> own: these 9 dents are priced; second: compared with the others, never added; left out: these 9 \
             dents count nowhere",
            "A-1 -> own: these 13 dents are priced; second: compared with the others, never added; left out: these 13 \
             dents count nowhere",
        ]
    );
    let run = texts("heading,word,means,file\nclaim,A-1,left out,a.csv\nclaim,A-1,own,b.csv\n");
    assert_eq!(tally(panel(run.claim("A-1"), "hood")), [("0-10 mm", Some(6))]);
    assert_eq!(tally(panel(run.claim("A-2"), "roof")), [("0-10 mm", Some(1))]);
    let run = texts("heading,word,means,file\nclaim,A-1,second,b.csv\n");
    let of = |role: &str| {
        let all = &run.claim("A-1").inspections;
        all.iter().filter(|one| one.role().to_string() == role).map(|one| one.panels.len()).sum::<usize>()
    };
    assert_eq!((of("own"), of("second")), (2, 2));
}

#[test]
fn a_form_whose_car_another_file_counts_may_be_left_out_as_a_whole() {
    let form = "Claim no:,A-1\n\npanel,0-10 mm\nroof,4\n";
    let list = "claim,panel,0-10 mm\nA-1,roof,7\n";
    let texts = |map: &str| {
        Run::texts(&[("form.csv", form), ("list.csv", list), ("map.csv", map), ("vehicles.csv", VEHICLES)])
    };
    let asked = asked(&texts("word,means\nnothing,0\n"));
    assert_eq!(asked.len(), 2);
    assert_eq!(
        asked[0],
        "this sheet -> own: these 4 dents are priced; left out: these 4 dents count nowhere"
    );
    let run = texts("word,means,file\nthis sheet,left out,form.csv\n");
    assert_eq!(tally(panel(run.claim("A-1"), "roof")), [("0-10 mm", Some(7))]);
    assert!(run.of_files().contains(&"sheet-left-out form.csv".to_owned()), "{:?}", run.of_files());
}

#[test]
fn counts_of_two_days_are_asked_about_by_their_dates() {
    let counts = "claim,panel,date of inspection,0-10 mm\nA-1,roof,2026-06-14,4\nA-1,roof,2026-06-20,5\n";
    let asked_of = asked(&Run::counts(counts));
    assert_eq!(asked_of.len(), 2, "{asked_of:?}");
    assert!(asked_of[0].starts_with("2026-06-14 -> own: these 4 dents are priced; second: "), "{asked_of:?}");
    let map = "heading,word,means\ndate of inspection,2026-06-14,left out\n";
    let run = Run::texts(&[("counts.csv", counts), ("map.csv", map), ("vehicles.csv", VEHICLES)]);
    assert_eq!(tally(panel(run.claim("A-1"), "roof")), [("0-10 mm", Some(5))]);
}

#[test]
fn a_size_or_length_that_its_unit_makes_absurd_is_asked_about_once() {
    let counts = "Dents by size in inches\n\nclaim,panel,0-10,11-20,21-30\nA-1,roof,4,2,1\n";
    let run = Run::counts(counts);
    assert_eq!(run.of_claim("A-1"), ["size-absurd counts.csv D3"]);
    assert!(asked(&run)[0].starts_with("11-20 -> 11-20 mm: all sizes beside it are in mm, too; "));
    let map = "heading,means\n11-20,11-20 mm\n";
    let run = Run::texts(&[("counts.csv", counts), ("map.csv", map), ("vehicles.csv", VEHICLES)]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    let small = Run::counts("claim,panel,0-1/2 mm,1/2-3/4 mm\nA-1,roof,4,2\n");
    assert_eq!(small.of_claim("A-1"), ["size-absurd counts.csv C1", "size-absurd counts.csv D1"]);

    let dents = "claim,panel,diameter (in)\nA-1,roof,25\nA-1,roof,30\n";
    let run = Run::counts(dents);
    assert_eq!(run.of_claim("A-1"), ["length-absurd counts.csv C2"]);
    assert_eq!(
        asked(&run),
        [
            "diameter (in) -> diameter (mm): numbers below it are in mm; diameter (cm): numbers below it are in cm; \
             diameter (in): numbers below it are in in"
        ]
    );
    let map = "heading,means\ndiameter (in),diameter (mm)\n";
    let run = Run::texts(&[("counts.csv", dents), ("map.csv", map), ("vehicles.csv", VEHICLES)]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    // A crease may be longer than a dent is wide, and a unit of its own is a slip of one cell.
    let marks =
        "claim,panel,mark,length\nA-1,roof,crease,700 mm\nA-1,roof,dent,700 mm\nA-1,roof,dent,0.4 mm\n";
    assert_eq!(
        Run::counts(marks).of_claim("A-1"),
        ["length-absurd counts.csv D3", "length-absurd counts.csv D4"]
    );
}
