//! What several cells have to keep together: terms, rates, marks, factors, limits, operations, labour.

use crate::support::Tables;
use stipple::quantity::{Percent, TimeUnit};
use stipple::schedule::{Fit, MixedRule, Scope};

fn page() -> Tables {
    Tables::of_the_page()
}

#[test]
fn every_needed_table_is_asked_for() {
    for (tables, name) in [
        (&["taxes"][..], "taxes"),
        (&["sizes"], "size bands"),
        (&["counts"], "count bands"),
        (&["panels"], "schedule panels"),
        (&["flat", "side"], "rates"),
        (&["terms"], "schedule terms"),
    ] {
        let without = tables.iter().fold(page(), |page, table| page.without(table));
        let outcome = without.read();
        let line = format!("the schedule has no {name}");
        let told: Vec<_> = outcome.problems.iter().filter(|problem| problem.message == line).collect();
        assert_eq!(told.len(), 1, "{line}\n{}", outcome.text());
        assert_eq!((told[0].code.id, outcome.schedule.is_none()), ("schedule-table-missing", true));
        assert_eq!(outcome.lines().len(), 1, "what follows is not told as well:\n{}", outcome.text());
    }
    page()
        .instead("counts", "count band,from dents,to dents")
        .read()
        .says(&["schedule-table-missing | counts.csv row 1 | the schedule has no count bands"]);
    for table in ["labour", "marks", "factors", "typical", "limits", "operations"] {
        assert!(page().without(table).read().schedule.is_some(), "{table} is optional");
    }
}

#[test]
fn every_needed_term_is_asked_for() {
    for (row, term) in [
        ("schedule,Example for the page of the tables", "schedule"),
        ("edition,1", "edition"),
        ("source,invented", "source"),
        ("holds for,Example Mutual; none", "holds for"),
        ("currency,EUR", "currency"),
        ("valid from,2026-01-01", "valid from"),
        ("rounding,half away from zero", "rounding"),
        ("mixed sizes,each band", "mixed sizes"),
    ] {
        let line = format!("the terms do not say {term}");
        let gone = page().with("terms", &format!("\n{row}"), "").read();
        gone.says(&[&format!("schedule-term-missing | terms.csv row 1 | {line}")]);
        let (name, _) = row.split_once(',').unwrap();
        let blank = page().with("terms", row, &format!("{name},")).read();
        assert_eq!(blank.lines().len(), 1, "{}", blank.text());
        assert!(blank.lines()[0].starts_with("schedule-term-missing | terms.csv A"), "{}", blank.text());
    }
    page()
        .with("terms", "Example Mutual; none", ";")
        .read()
        .says(&["schedule-term-missing | terms.csv B5 | the terms do not say holds for"]);
}

#[test]
fn whom_a_schedule_holds_for_is_a_list_without_repeats() {
    let outcome = page().with("terms", "Example Mutual; none", "Any;Example Mutual ; Second Example").read();
    let fits: Vec<&Fit> = outcome.stands().terms.fits.iter().map(|fit| &fit.value).collect();
    assert_eq!(
        fits,
        [
            &Fit::Anyone,
            &Fit::Insurer("Example Mutual".to_owned()),
            &Fit::Insurer("Second Example".to_owned())
        ]
    );
    page()
        .with("terms", "Example Mutual; none", "none; Example Mutual; example mutual")
        .read()
        .says(&["schedule-name-twice | terms.csv B5 | name under holds for: example mutual stands twice"]);
}

#[test]
fn a_term_that_stands_twice_is_told_with_both_places() {
    let outcome = page().plus("terms", "Discount,5").read();
    outcome.says(&["schedule-name-twice | terms.csv A21 | term: discount stands twice"]);
    assert_eq!(outcome.sources.short(outcome.problems[0].also[0]), "example/terms.csv A14");
}

#[test]
fn a_schedule_does_not_end_before_it_begins() {
    let outcome = page().with("terms", "2026-12-31", "2025-12-31").read();
    outcome.says(&[
        "schedule-dates-reversed | terms.csv B8 | valid to 2025-12-31 is before valid from 2026-01-01",
    ]);
    assert_eq!(outcome.sources.short(outcome.problems[0].also[0]), "example/terms.csv B7");
    page().with("terms", "2026-12-31", "01.01.2026").read().says(&[]);
}

#[test]
fn work_units_divide_the_hour_into_whole_seconds() {
    let units = |text: &str| page().with("terms", "tenths", text).read();
    let twelfths = units("work units 12");
    assert_eq!(twelfths.schedule.unwrap().terms.time_unit.value, TimeUnit::WorkUnits(12));
    for text in ["work units 7", "work units 0", "work units", "work units 99999999999"] {
        let outcome = units(text);
        outcome.says(&[
            "schedule-time-unit | terms.csv B11 | the work units to the hour do not divide its 3600 seconds",
        ]);
    }
    let minutes = page().with("terms", "tenths", "minutes").with("operations", "2.4", "145").read();
    assert_eq!(minutes.stands().operations[0].hours.unwrap().value.seconds(), 145 * 60);
}

#[test]
fn terms_that_belong_together_come_together() {
    page()
        .with("terms", "\ntotal loss share,100", "")
        .read()
        .says(&["schedule-terms-incomplete | terms.csv A15 | the total-loss screen lacks total loss share"]);
    let share = page().with("terms", "each band", "largest with share");
    share
        .clone()
        .read()
        .says(&["schedule-terms-incomplete | terms.csv B10 | the rule largest with share lacks mixed share"]);
    let stated = share.plus("terms", "mixed share,25 %").read();
    let twenty_five = Percent::from_decimal(25.into()).unwrap();
    assert_eq!(stated.stands().terms.mixed.value, MixedRule::LargestShare(twenty_five));
    let present = page().with("terms", "each band", "largest present").read();
    assert_eq!(present.stands().terms.mixed.value, MixedRule::LargestShare(Percent::default()));
}

#[test]
fn what_has_no_effect_is_warned_about() {
    page().plus("terms", "mixed share,25").read().says(&[
        "schedule-idle | terms.csv A21 | the term mixed share has no effect: it belongs to the rule largest with share",
    ]);
    page().plus("factors", "always,always,yes,5,1,,,").read().says(&[
        "schedule-idle | factors.csv C6 | is has no effect: a factor that always holds waits for nothing",
    ]);
    page().with("factors", ",18,,", ",18,base,").read().says(&[
        "schedule-idle | factors.csv G4 | of has no effect: a fixed amount is a percentage of nothing",
    ]);
    page()
        .plus("typical", "fender,,,,,,,,")
        .read()
        .says(&["schedule-idle | typical.csv row 5 | the row has no effect: it gives no price and no time"]);
    page().plus("operations", "look,hood,,,,,,,").read().says(&[
        "schedule-idle | operations.csv row 5 | the row has no effect: it says neither hours nor parts nor a caution",
    ]);
    page().with("operations", "welded,,replace", "welded,,refer").read().says(&[
        "schedule-idle | operations.csv D4 | the row has no effect: no work is done on such a panel",
    ]);
}

#[test]
fn a_panel_stands_once_and_its_floor_below_its_cap() {
    page()
        .plus("panels", "bonnet,flat,horizontal,bolted,,,")
        .read()
        .says(&["schedule-name-twice | panels.csv A7 | panel: hood stands twice"]);
    page()
        .with("panels", "1.9,45,900", "1.9,45,40")
        .read()
        .says(&["schedule-floor-above-cap | panels.csv F3 | roof: the floor is above the cap"]);
}

#[test]
fn a_panel_without_a_group_is_rated_as_itself_under_any_of_its_names() {
    let own = page()
        .plus("panels", "tailgate,,vertical,bolted,,,\nbonnet,,horizontal,bolted,,,")
        .with("panels", "hood,flat,horizontal,bolted,1.4,45,\n", "")
        .plus("side", "Tailgate,small,1-4,0.5,panel\nhood,small,1-4,0.5,panel")
        .read();
    assert_eq!(own.stands().groups, ["flat", "side", "tailgate", "hood"]);
    assert_eq!(own.stands().grid.cells().count(), 20);
}

#[test]
fn a_word_that_is_a_kind_and_a_wider_group_means_the_kind_and_is_warned_about() {
    let mut tables = page().with("operations", "up,roof", "up,Roof");
    for table in ["panels", "flat"] {
        let text = tables.0.iter_mut().find(|(name, _)| name == table).unwrap();
        text.1 = text
            .1
            .replace("hood,flat", "hood,roof")
            .replace("roof,flat", "roof,roof")
            .replace("as,flat", "as,roof");
    }
    let outcome = tables.read();
    let line = "roof is a kind of panel and a group with other panels in it; it is taken for the panel";
    outcome.says(&[
        &format!("schedule-name-means-two | typical.csv A4 | {line}"),
        &format!("schedule-name-means-two | operations.csv B2 | {line}"),
    ]);
}

#[test]
fn a_row_for_a_panel_that_is_not_listed_is_warned_about() {
    page().with("operations", "front door", "tailgate").read().says(&[
        "schedule-holds-for-none | operations.csv B3 | the table of panels lists no tailgate; the row is never used",
    ]);
    let scope = page().with("operations", "front door", "any").read().stands().operations[1].scope;
    assert_eq!(scope, Scope::Any);
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
        "schedule-value-choice | factors.csv row 5 | the row has neither a percentage nor an amount",
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

#[test]
fn every_tax_has_one_row() {
    let outcome = page().with("taxes", "\nparts,20", "").read();
    outcome.says(&["schedule-tax-missing | taxes.csv row 1 | the taxes have no row for parts"]);
    assert_eq!(outcome.help(), "Write 0 where nothing is taxed");
    page()
        .plus("taxes", "labour,10")
        .read()
        .says(&["schedule-name-twice | taxes.csv A5 | tax on: labour stands twice"]);
    page().with("taxes", "labour,20", "labour,0").read().says(&[]);
}

#[test]
fn factors_keep_the_order_they_are_given() {
    let outcome = page()
        .with("factors", "aluminium,1,", "aluminium,9,")
        .with("factors", "body line,2,", "body line,9,")
        .read();
    let names: Vec<&str> = outcome.stands().factors.iter().map(|factor| factor.name.as_str()).collect();
    assert_eq!(names, ["large van", "sharp dents", "aluminium", "body line"]);
    let unnumbered =
        page().instead("factors", "factor,looks at,is,percent\nb,material,aluminium,2\na,always,,-3");
    let outcome = unnumbered.read();
    let orders: Vec<u32> = outcome.stands().factors.iter().map(|factor| factor.order).collect();
    assert_eq!(orders, [1, 2]);
    page()
        .with("factors", "aluminium,1,", "aluminium,,")
        .read()
        .says(&["schedule-cell-missing | factors.csv D2 | a row of the factors has nothing under order"]);
    page()
        .plus("factors", "Aluminium,material,aluminium,7,3,,,")
        .read()
        .says(&["schedule-name-twice | factors.csv A6 | factor: Aluminium stands twice"]);
}

#[test]
fn limits_that_repeat_or_begin_too_late_are_told() {
    page()
        .plus("limits", "again,dents,40,refer to a person,bolted")
        .read()
        .says(&["schedule-name-twice | limits.csv A9 | limit: again stands twice"]);
    page().plus("limits", "more,dents,60,refer to a person,").read().says(&[
        "schedule-limit-late | limits.csv C9 | the rates end at 40 dents and this limit begins above 60: between them is \
         neither",
    ]);
    page().with("limits", "dents of large,12", "dents of large,41").read().says(&[
        "schedule-limit-late | limits.csv C6 | the rates end at 40 dents and this limit begins above 41: between them is \
         neither",
    ]);
}

#[test]
fn operations_that_repeat_are_told() {
    page()
        .plus("operations", "door trim off and on,front door,,,0.7,,,panel,")
        .read()
        .says(&["schedule-name-twice | operations.csv A5 | operation: door trim off and on stands twice"]);
    page().plus("operations", "headliner down and up,quarter panel,,,2,,,,").read().says(&[
        "schedule-operation-repeated | operations.csv row 5 | operation headliner down and up is charged once for each of \
         its rows",
    ]);
}
