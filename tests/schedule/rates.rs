//! Rates: the grid, marks, labour, and the rules by which a panel's amount can fall.

use crate::support::Tables;
use stipple::quantity::Percent;
use stipple::schedule::MixedRule;

fn page() -> Tables {
    Tables::of_the_page()
}

#[test]
fn a_grid_says_its_group_and_what_it_gives() {
    let outcome = page().with("flat", "rated as,flat,,\n", "").read();
    outcome.says(&["schedule-caption-missing | flat.csv row 3 | no row above the grid says rated as"]);
    assert_eq!(outcome.help(), "Add a row above the heading: rated as, and the group's name");
    page()
        .with("flat", "gives,amount per panel", "gives,")
        .read()
        .says(&["schedule-caption-missing | flat.csv row 4 | no row above the grid says gives"]);
}

#[test]
fn a_rate_is_an_amount_or_a_time() {
    let both = page().with("side", "hours,per", "hours,per,amount").with(
        "side",
        "small,1-4,0.6,panel",
        "small,1-4,0.6,panel,50",
    );
    both.read().says(&[
        "schedule-value-choice | side.csv F2 | the row has an amount and hours, and only one of them can hold",
    ]);
    page()
        .with("marks", "110 mm,140", "110 mm,")
        .read()
        .says(&["schedule-value-choice | marks.csv row 3 | the row has neither an amount nor hours"]);
    page().with("factors", "sharp,4,10,,", "sharp,4,10,5,").read().says(&[
        "schedule-value-choice | factors.csv E5 | the row has a percentage and an amount, and only one of them can hold",
    ]);
    page().with("factors", "sharp,4,10,,", "sharp,4,,,").read().says(&[
        "schedule-value-choice | factors.csv row 5 | the row has neither a percentage nor an amount nor a time",
    ]);
}

#[test]
fn two_cells_for_one_rate_are_told_with_both_places() {
    let outcome = page().plus("side", "side,small,1-4,0.6,panel").read();
    outcome.says(&["schedule-rate-twice | side.csv D11 | the rate of side, small, 1-4 stands twice"]);
    assert_eq!(outcome.sources.short(outcome.problems[0].also[0]), "example/side.csv D2");
    let outcome = page().plus("side", "flat,medium,5-13,1,panel").read();
    assert_eq!(outcome.sources.short(outcome.problems[0].also[0]), "example/flat.csv C6");
}

#[test]
fn empty_cells_are_listed_by_group_and_a_group_without_any_is_an_error() {
    page()
        .with("flat", "133", "")
        .with("flat", ",320", ",")
        .with("side", "small,1-4,0.6", "small,1-4,")
        .read()
        .says(&[
            "schedule-rates-missing | panels.csv row 2 | flat has no rate for medium (5-13), large (14-40)",
            "schedule-rates-missing | panels.csv row 4 | side has no rate for small (1-4)",
        ]);
    let column = page().instead(
        "flat",
        "rated as,flat\ngives,amount per panel\ncount band,small\n1-4,58\n5-13,104\n14-40,186",
    );
    column.read().says(&[
        "schedule-rates-missing | panels.csv row 2 | flat has no rate for medium (every count), large (every count)",
    ]);
    page()
        .without("flat")
        .read()
        .says(&["schedule-group-without-rates | panels.csv row 2 | flat has no rate at all"]);
}

#[test]
fn amounts_that_fall_are_warned_about_with_both_cells() {
    let outcome = page().with("flat", "133", "70").read();
    outcome.says(&[
        "schedule-amount-falls | flat.csv C6 | flat: 70.00 for 5 dents of medium, but 71.00 for 4 dents of medium",
        "schedule-amount-falls | flat.csv C6 | flat: 70.00 for 5 dents of medium, but 104.00 for 5 dents of small",
    ]);
    assert_eq!(outcome.sources.short(outcome.problems[0].also[0]), "example/flat.csv C5");
    assert_eq!(outcome.sources.short(outcome.problems[1].also[0]), "example/flat.csv B6");
    page().with("side", "large,1-4,1.1", "large,1-4,0.7").read().says(&[
        "schedule-amount-falls | side.csv D8 | side: 67.20 for 1 dent of large, but 76.80 for 1 dent of medium",
    ]);
}

#[test]
fn a_factor_that_takes_a_fixed_amount_off_is_warned_about() {
    page().with("factors", "large van,3,,18,", "large van,3,,-18,").read().says(&[
        "schedule-takes-off | factors.csv F4 | large van adds -18.00 to every panel it holds for, however little it is worth",
    ]);
}

#[test]
fn panel_amounts_are_compared_and_not_rates_per_dent() {
    let per_dent = |rows: &str| {
        page()
            .instead(
                "flat",
                &format!("rated as,flat\ngives,amount per dent\ncount band,small,medium,large\n{rows}"),
            )
            .read()
    };
    // 4 x 10 = 40 and 5 x 9 = 45: the rate falls, the panel does not.
    per_dent("1-4,10,12,14\n5-13,9,10.50,13\n14-40,8.75,10,12.50").says(&[]);
    // 13 x 9 = 117 and 14 x 8 = 112: the panel falls.
    per_dent("1-4,10,12,14\n5-13,9,10.50,13\n14-40,8,10,12.50").says(&[
        "schedule-amount-falls | flat.csv B6 | flat: 112.00 for 14 dents of small, but 117.00 for 13 dents of small",
    ]);
}

#[test]
fn cells_that_are_empty_do_not_hide_a_fall() {
    page().with("flat", "58,71,92", "58,,50").with("flat", "104,133", "104,").read().says(&[
        "schedule-rates-missing | panels.csv row 2 | flat has no rate for medium (1-4; 5-13)",
        "schedule-amount-falls | flat.csv D5 | flat: 50.00 for 1 dent of large, but 58.00 for 1 dent of small",
    ]);
}

#[test]
fn a_rule_by_which_one_more_dent_can_cost_less_is_shown_on_a_panel() {
    page().with("terms", "each band", "most frequent").read().says(&[
        "schedule-one-more-costs-less | terms.csv B10 | flat: 71.00 for 1 of small and 1 of medium, but 58.00 with one \
         more of small",
    ]);
    // One of three is a third and rated large; one of four is a quarter.
    page().with("terms", "each band", "largest with share").plus("terms", "mixed share,30").read().says(&[
        "schedule-one-more-costs-less | terms.csv B10 | flat: 71.00 for 2 of small and 1 of medium, but 58.00 with one \
         more of small",
    ]);
    for rule in ["each band", "largest present"] {
        page().with("terms", "mixed sizes,each band", &format!("mixed sizes,{rule}")).read().says(&[]);
    }
}

#[test]
fn rules_that_rate_a_panel_at_one_band_name_it() {
    let share = |percent: i64| MixedRule::LargestShare(Percent::from_decimal(percent.into()).unwrap());
    assert_eq!(MixedRule::MostFrequent.rated_size(&[3, 5, 5]), Some(2), "a tie goes to the larger");
    assert_eq!(MixedRule::MostFrequent.rated_size(&[6, 5, 5]), Some(0));
    assert_eq!(MixedRule::MostFrequent.rated_size(&[0, 0, 0]), None);
    assert_eq!(share(0).rated_size(&[90, 9, 1]), Some(2));
    assert_eq!(share(0).rated_size(&[90, 9, 0]), Some(1));
    assert_eq!(share(10).rated_size(&[90, 9, 1]), Some(1), "10 of 100 in medium or larger are 10 percent");
    assert_eq!(share(11).rated_size(&[90, 9, 1]), Some(0));
    assert_eq!(share(100).rated_size(&[0, 9, 1]), Some(1));
    assert_eq!(share(50).rated_size(&[0, 0, 0]), None);
    assert_eq!(MixedRule::EachBand.rated_size(&[1, 1, 1]), None);
}

#[test]
fn equally_particular_rows_for_one_panel_are_told_with_both_places() {
    // A hood is horizontal and bolted; the two rows meet from 20 to 60 mm.
    let outcome = page()
        .with("marks", "crease,welded,0,,129", "crease,bolted,0,60 mm,129\ncrease,horizontal,20 mm,80 mm,131")
        .read();
    outcome.says(&[
        "schedule-rows-tied | marks.csv E7 | two rows of mark rates for crease are equally particular for one panel",
    ]);
    assert_eq!(outcome.sources.short(outcome.problems[0].also[0]), "example/marks.csv E6");
    // Apart in length, or with a row for the hood itself above both, they are no contradiction.
    page()
        .with("marks", "crease,welded,0,,129", "crease,bolted,0,20 mm,129\ncrease,horizontal,20 mm,80 mm,131")
        .read()
        .says(&[]);
    page()
        .with(
            "marks",
            "crease,welded,0,,129",
            "crease,bolted,0,60 mm,129\ncrease,horizontal,20 mm,80 mm,131\ncrease,hood,0,80 mm,135",
        )
        .read()
        .says(&[]);
    page().plus("typical", "horizontal,,300,1,2,2,1,50,invented").read().says(&[
        "schedule-rows-tied | typical.csv row 5 | two rows of typical prices are equally particular for one panel",
    ]);
    page().plus("typical", "horizontal,van,300,1,2,2,1,50,invented").read().says(&[]);
    page().plus("typical", "roof,Small Car,300,1,2,2,1,50,invented").read().says(&[
        "schedule-rows-tied | typical.csv row 5 | two rows of typical prices are equally particular for one panel",
    ]);
}

#[test]
fn lengths_of_marks_without_a_rate_are_warned_about() {
    page().with("marks", "70 mm,110 mm", "75 mm,110 mm").read().says(&[
        "schedule-lengths-unrated | marks.csv E3 | oversize dent: no rate over 70 mm up to 75 mm on hood, roof, fender and \
         2 more panels",
    ]);
    page().with("marks", "45 mm,70 mm", "50 mm,70 mm").read().says(&[
        "schedule-lengths-unrated | marks.csv E2 | oversize dent: no rate over 45 mm up to 50 mm on hood, roof, fender and \
         2 more panels",
    ]);
    page().with("marks", "crease,,0,60 mm", "crease,,10 mm,60 mm").read().says(&[
        "schedule-lengths-unrated | marks.csv E4 | crease: no rate over 0 mm up to 10 mm on hood, fender, front door",
    ]);
}

#[test]
fn labour_that_is_needed_has_a_rate_and_a_paintless_rate_is_needed() {
    page().with("labour", "\nconventional,78", "").read().says(&[
        "schedule-labour-missing | operations.csv E4 | an operation needs the labour conventional, which has no rate per hour",
    ]);
    page().with("labour", "\nrefinish,84", "").read().says(&[
        "schedule-labour-missing | typical.csv F4 | a typical time needs the labour refinish, which has no rate per hour",
    ]);
    page().with("labour", "paintless,96\n", "").read().says(&[
        "schedule-labour-missing | side.csv D2 | a rate in hours needs the labour paintless, which has no rate per hour",
    ]);
    let amounts = page().with("side", "hours,per", "amount,per").read();
    assert!(amounts.lines().contains(
        &"schedule-labour-unused | labour.csv B2 | the labour paintless is used by no rate".to_owned()
    ));
    page()
        .plus("labour", "Paintless,90")
        .read()
        .says(&["schedule-name-twice | labour.csv A6 | labour: paintless stands twice"]);
}
