//! What several cells have to keep together: terms, panels, taxes, factors, limits, operations.

use crate::support::Tables;
use stipple::quantity::{Hours, Percent, TimeUnit};
use stipple::schedule::{DiscountOn, DiscountTaken, FactorEffect, Fit, MixedRule, Scope, SeveralMarks};

fn page() -> Tables {
    Tables::of_the_page()
}

#[test]
fn every_needed_table_is_asked_for() {
    for (tables, name) in [
        (&["taxes"][..], "taxes"),
        (&["sizes"], "size bands"),
        (&["counts"], "count bands"),
        (&["panels"], "panels"),
        (&["flat", "side"], "rates"),
        (&["terms"], "terms"),
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
    let share = stated.stands().terms.mixed_share.unwrap();
    assert_eq!(stated.sources.short(share), "example/terms.csv B21");
    let present = page().with("terms", "each band", "largest present").read();
    assert_eq!(present.stands().terms.mixed.value, MixedRule::LargestShare(Percent::default()));
    assert_eq!(present.stands().terms.mixed_share, None);
}

#[test]
fn how_several_marks_count_is_one_of_three_rules() {
    let marks = |rows: &str| page().plus("terms", rows).read();
    let rule = |rows: &str| marks(rows).stands().terms.several_marks.map(|rule| rule.value);
    let share = |percent: i64| SeveralMarks::Further(Percent::from_decimal(percent.into()).unwrap());
    assert_eq!(page().read().stands().terms.several_marks, None);
    assert_eq!(rule("several marks,Add"), Some(SeveralMarks::Add));
    assert_eq!(rule("several marks,larger only"), Some(share(0)));
    assert_eq!(rule("several marks,share of the second\nsecond mark share,40 %"), Some(share(40)));
    marks("several marks,share of the second").says(&[
        "schedule-terms-incomplete | terms.csv B21 | several marks: share of the second lacks second mark share",
    ]);
    let idle = "has no effect: it belongs to several marks: share of the second";
    for (rows, cell) in [("second mark share,40", "A21"), ("several marks,add\nsecond mark share,40", "A22")]
    {
        marks(rows).says(&[&format!("schedule-idle | terms.csv {cell} | the term second mark share {idle}")]);
    }
    for (rows, code) in [
        ("several marks,share of the second\nsecond mark share,140", "schedule-out-of-range"),
        ("several marks,most", "schedule-name-unknown"),
    ] {
        assert!(marks(rows).lines()[0].starts_with(code), "{}", marks(rows).text());
    }
}

#[test]
fn what_the_discount_is_taken_of_and_when_are_words() {
    let terms = page().plus("terms", "discount on,Labour\ndiscount taken,before the minimum").read();
    let terms = &terms.stands().terms;
    assert_eq!(terms.discount_on.map(|on| on.value), Some(DiscountOn::Labour));
    assert_eq!(terms.discount_taken.map(|taken| taken.value), Some(DiscountTaken::BeforeMinimum));
    page()
        .plus("terms", "discount on,parts")
        .read()
        .says(&["schedule-name-unknown | terms.csv B21 | discount on: parts is not known"]);
    let without =
        |term: &str| page().with("terms", term, "").plus("terms", "discount taken,after the minimum").read();
    without("discount,4\n").says(&[
        "schedule-idle | terms.csv A20 | the term discount taken has no effect: the schedule has no discount",
    ]);
    without("minimum per vehicle,80\n").says(&[
        "schedule-idle | terms.csv A20 | the term discount taken has no effect: the schedule has no minimum per vehicle",
    ]);
}

#[test]
fn factors_exclude_each_other_by_name_whichever_row_says_so() {
    let table = "factor,looks at,is,order,percent,adds,hours,not with\n";
    let rows = "late,always,,3,5,,,early; twin\nearly,always,,1,,,0.4,\ntwin,material,plastic,2,3,,,\n\
                twin,material,aluminium,2,4,,,";
    let outcome = page().instead("factors", &format!("{table}{rows}")).read();
    let factors = &outcome.stands().factors;
    let excluded: Vec<_> = factors.iter().map(|it| (it.name.as_str(), it.not_with.clone())).collect();
    let expected = [("early", vec![3]), ("twin", vec![3]), ("twin", vec![3]), ("late", vec![0, 1, 2])];
    assert_eq!(excluded, expected);
    assert_eq!(factors[0].effect, FactorEffect::Time(Hours::from_seconds(1440)));
    let wrong = |row: &str| page().instead("factors", &format!("{table}{row}")).read();
    wrong("one,always,,1,5,,,one")
        .says(&["schedule-idle | factors.csv H2 | not with has no effect: it names this factor alone"]);
    wrong("one,always,,1,5,,,two")
        .says(&["schedule-name-unknown | factors.csv H2 | not with: two is not known"]);
    wrong("one,always,,1,5,,0.3,").says(&[
        "schedule-value-choice | factors.csv E2 | the row has a percentage and a time, and only one of them can hold",
    ]);
    wrong("one,always,,1,,,-0.3,")
        .says(&["schedule-out-of-range | factors.csv G2 | hours is not possible: it is below zero"]);
    let none = page().without("factors").plus("terms", "factors at most,30").read();
    none.says(&[
        "schedule-idle | terms.csv B21 | the term factors at most has no effect: there are no factors",
    ]);
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
    let late = |over: u32, dents: &str| {
        format!(
            "more than 40 {dents} have no rate and this limit begins above {over}: a panel between has neither"
        )
    };
    page()
        .plus("limits", "more,dents,60,refer to a person,")
        .read()
        .says(&[&format!("schedule-limit-late | limits.csv C9 | {}", late(60, "dents of one size"))]);
    page()
        .with("limits", "dents of large,20", "dents of large,41")
        .read()
        .says(&[&format!("schedule-limit-late | limits.csv C6 | {}", late(41, "dents of one size"))]);
    // A limit at the last count covers a later one; so does one on these dents or larger.
    page()
        .plus("limits", "more,dents,60,refer to a person,\nat once,dents,40,conventional repair,")
        .read()
        .says(&[]);
    page()
        .plus("limits", "more,dents,60,refer to a person,\nat once,dents of small,40,conventional repair,")
        .read()
        .says(&[]);
    page()
        .with("terms", "each band", "largest present")
        .plus("limits", "more,dents,60,refer to a person,")
        .read()
        .says(&[&format!("schedule-limit-late | limits.csv C9 | {}", late(60, "dents"))]);
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

#[test]
fn title_rules_say_everything_but_causes_and_a_last_day_and_none_stands_twice() {
    let read = page().read();
    let rule = &read.schedule.as_ref().unwrap().titles[0];
    assert_eq!((rule.note.value.as_str(), rule.not_from.len(), rule.valid_to), ("salvage", 2, None));
    page()
        .with("titles", "salvage,Example State,repair,at least,75,yes,", "salvage,Example State,repair,,75,,")
        .read()
        .says(&[
            "schedule-cell-missing | titles.csv D2 | a row of the title rules has nothing under when",
            "schedule-cell-missing | titles.csv F2 | a row of the title rules has nothing under with tax",
        ]);
    let twice =
        "flood; fire,2026-01-01,,invented\nSALVAGE,example state,repair,over,80,no,,2027-01-01,,invented";
    let told = page().with("titles", "flood; fire,2026-01-01,,invented", twice).read();
    assert_eq!(told.lines().len(), 1, "{}", told.text());
    assert!(told.lines()[0].starts_with("schedule-rows-tied"), "{}", told.text());
}

#[test]
fn scaled_counts_are_rounded_in_a_mode_that_exists() {
    let with = |mode: &str| {
        page().with("terms", "time unit,tenths", &format!("time unit,tenths\nscaled counts,{mode}"))
    };
    assert!(with("half to even").read().schedule.unwrap().terms.scaled_counts.is_some());
    let wrong = with("sideways").read();
    assert!(wrong.lines()[0].starts_with("schedule-name-unknown | terms.csv B"), "{}", wrong.text());
}
