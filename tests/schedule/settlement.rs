//! Terms and tables that bear on editions, on rates between counts and on who pays.

use crate::support::Tables;
use stipple::schedule::{BetterOf, BetweenCounts, EditionBy, ExcessTaken, FactorTest, Scope};

fn page() -> Tables {
    Tables::of_the_page()
}

#[test]
fn the_terms_of_dates_counts_and_excess_are_words() {
    let rows =
        "edition by,date of inspection\nbetween count bands,Interpolated\nexcess taken,after the limit";
    let outcome = page().plus("terms", rows).read();
    let terms = &outcome.stands().terms;
    assert_eq!(terms.edition_by.map(|by| by.value), Some(EditionBy::Inspection));
    assert_eq!(terms.between_counts.map(|between| between.value), Some(BetweenCounts::Interpolated));
    assert_eq!(terms.excess_taken.map(|taken| taken.value), Some(ExcessTaken::AfterLimit));
    page()
        .plus("terms", "edition by,date of repair")
        .read()
        .says(&["schedule-name-unknown | terms.csv B21 | edition by: date of repair is not known"]);
}

#[test]
fn a_falling_rate_is_told_where_amounts_lie_between_counts() {
    let interpolated = page().plus("terms", "between count bands,interpolated");
    interpolated.clone().read().says(&[]);
    interpolated.with("flat", "5-13,104,133,170", "5-13,50,133,170").read().says(&[
        "schedule-amount-falls | flat.csv B6 | flat: 50.00 for 5 dents of small, but 52.00 for 4 dents of small",
    ]);
}

#[test]
fn betterment_is_a_table_of_shares_by_part_item_and_age() {
    let table = "betterment on,percent,panel,item,from years,to years\n";
    let rows =
        "new parts,10,,,3,7\nnew parts,20 %,,,8,\nnew parts,50,hood,,,\nitems,30,,soft top,,\nitems,5,,,,";
    let outcome = page().plus("betterment", &format!("{table}{rows}")).read();
    let found = &outcome.stands().betterment;
    assert_eq!(found.len(), 5);
    assert_eq!((found[0].on, found[0].from_years, found[0].to_years), (BetterOf::Parts, 3, Some(7)));
    assert_eq!(found[1].share.value.to_string(), "20");
    assert!(matches!(found[2].scope, Scope::Kind(_)));
    assert_eq!(found[3].item.as_ref().map(|item| item.value.as_str()), Some("soft top"));
    let says = |rows: &str, said: &[&str]| {
        page().plus("betterment", &format!("{table}{rows}")).read().says(said);
    };
    says(
        "new parts,10,,,3,7\nnew parts,20,,,7,",
        &[
            "schedule-rows-tied | betterment.csv row 3 | two rows of betterment are equally particular for one panel",
        ],
    );
    says(
        "items,10,hood,,7,3",
        &[
            "schedule-idle | betterment.csv C2 | panel has no effect: an item is no part of a panel",
            "schedule-band-empty | betterment.csv F2 | betterment items ends before it begins",
        ],
    );
    says(
        "new parts,101,,soft top,,\nwheels,1,,,,",
        &[
            "schedule-out-of-range | betterment.csv B2 | percent is not possible: it has to lie between 0 and 100",
            "schedule-idle | betterment.csv D2 | item has no effect: a new part is one of a panel",
            "schedule-name-unknown | betterment.csv A3 | betterment on: wheels is not known",
        ],
    );
}

#[test]
fn a_class_of_panels_that_no_panel_has_is_not_known() {
    let classes = page()
        .with(
            "panels",
            "panel,rated as,lies,joined,area m2",
            "panel,panel class,rated as,lies,joined,area m2",
        )
        .with("panels", "hood,flat", "hood,large,flat")
        .with("panels", "roof,flat", "roof,Large,flat")
        .with("panels", "fender,side", "fender,,side")
        .with("panels", "front door,side", "front door,,side")
        .with("panels", "quarter panel,side", "quarter panel,,side");
    let outcome = classes.clone().plus("factors", "large panel,panel class,LARGE,5,10,,,").read();
    assert_eq!(outcome.stands().factors[4].test, FactorTest::PanelClass("large".to_owned()));
    classes
        .plus("factors", "small panel,panel class,small,5,10,,,")
        .read()
        .says(&["schedule-name-unknown | factors.csv C6 | panel class: small is not known"]);
}
