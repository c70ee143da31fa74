//! What the documents say: the figures of the comparison, and sentences where there are none.

use super::drawn::{pages, texts};
use super::fixture::{self, COUNTS, Case};
use stipple::compare::comparison::Options;
use stipple::quantity::Money;
use stipple::report::wording::amount;

/// An amount with its sign, as a difference is printed.
fn difference(money: Money) -> String {
    if money.minor() > 0 { format!("+{}", amount(money)) } else { amount(money) }
}

fn golden(name: &str, text: &str) {
    insta::with_settings!({ snapshot_path => "goldens", prepend_module_to_snapshot => false, omit_expression => true }, {
        insta::assert_snapshot!(name, text);
    });
}

#[test]
fn the_first_page_of_one_panel_counted_by_two() {
    golden("front.json", &serde_json::to_string_pretty(&fixture::one().report().front).unwrap());
}

#[test]
fn the_letter_of_one_panel_counted_by_two() {
    golden("letter.json", &serde_json::to_string_pretty(&fixture::one().report().letters).unwrap());
}

#[test]
fn figures_on_the_page_are_those_of_the_comparison() {
    let case = fixture::two();
    let shown = texts(&pages(&case)[0].1);
    let overall = &case.comparison.overall;
    let page = &overall.page_one;
    let bias = page.bias.value.unwrap();
    assert!(shown.contains(&format!("{bias:+.1}").replace('-', "\u{2212}")), "bias {bias}");
    let same = page.same_band.value.unwrap() * 100.0;
    assert!(shown.contains(&format!("{same:.0} %")), "same band {same}");
    let money = &overall.money[0];
    for sum in [money.first, money.second, money.gross] {
        assert!(shown.contains(&amount(sum)), "{sum}");
    }
    assert!(shown.contains(&difference(money.difference)));
    for cause in &money.causes {
        assert!(shown.contains(&difference(cause.net)) && shown.contains(&amount(cause.gross)));
    }
    for panel in money.largest.iter().take(money.carry_most.min(8)) {
        assert!(shown.contains(&difference(panel.difference)), "{:?}", panel.panel);
    }
}

#[test]
fn the_bars_of_money_by_cause_are_the_causes_and_their_sum() {
    let case = fixture::two();
    let money = &case.comparison.overall.money[0];
    let plots = case.report().plots;
    let steps = plots.iter().find_map(|plot| plot.steps.as_ref()).unwrap();
    let wanted: Vec<String> =
        money.causes.iter().map(|of| of.net).chain([money.difference]).map(difference).collect();
    assert_eq!(steps.bars.iter().map(|bar| bar.amount.clone()).collect::<Vec<_>>(), wanted);
    let ends: Vec<&str> = steps.bars.iter().map(|bar| bar.end.as_str()).collect();
    assert_eq!(ends[ends.len() - 2], ends[ends.len() - 1], "the last cause ends where the sum does");
}

#[test]
fn nothing_in_common_is_told_in_sentences() {
    let front = fixture::apart().report().front;
    assert_eq!(front.agree, "No panel was inspected by both, so nothing can be said.");
    assert_eq!(front.look, "Nothing: no amount differs.");
    assert!(
        front.figures.iter().all(|figure| figure.value == "none" && !figure.says.is_empty()),
        "{front:?}"
    );
    assert!(front.small.is_some());
}

#[test]
fn equal_counts_leave_nothing_to_agree_on() {
    let report = fixture::equal().report();
    assert_eq!(
        report.adjudication.says,
        "There is nothing to agree on: amounts and methods are the same on every panel."
    );
    assert!(report.adjudication.cars.is_empty());
    assert_eq!(report.letters[0].asks, "There is nothing to be agreed.");
    assert!(report.front.costs[0].starts_with("Nothing: 1 panel"), "{:?}", report.front.costs);
}

#[test]
fn several_people_without_a_reference_have_no_direction_and_with_one_they_have() {
    let without = fixture::many(3, 2).report();
    assert!(without.front.sums.is_empty());
    assert!(!without.plots.iter().any(|plot| plot.steps.is_some()));
    assert!(without.every_pair.is_some());
    let people = [("Ilka Sund", "own"), ("Per Marrow", "second"), ("Una Field", "second")];
    let options = Options { reference: Some("Per Marrow".to_owned()), ..Options::default() };
    let with = Case::by(&fixture::vehicles(2), &fixture::storm(2, &people), &options).report();
    assert_eq!(with.front.sums[0].first_name, "Per Marrow");
    assert_eq!(with.front.sums[0].second_name, "the others");
}

#[test]
fn a_panel_with_sides_exchanged_is_listed_as_a_suggestion_and_nobody_is_blamed() {
    let counts = format!(
        "{COUNTS}EX-001,Ilka Sund,own,front door,left,20,4,0\nEX-001,Ilka Sund,own,front door,right,2,0,0\n\
         EX-001,Ilka Sund,own,fender,left,9,3,0\nEX-001,Ilka Sund,own,fender,right,1,0,0\n\
         EX-001,Per Marrow,second,front door,left,2,0,0\nEX-001,Per Marrow,second,front door,right,20,4,0\n\
         EX-001,Per Marrow,second,fender,left,1,0,0\nEX-001,Per Marrow,second,fender,right,9,3,0\n"
    );
    let case = Case::of(&fixture::vehicles(1), &counts);
    let slips = case.report().lists.into_iter().find(|table| table.title == "Looks like a slip").unwrap();
    assert_eq!(slips.rows.len(), 1);
    assert!(slips.says.starts_with("Suggestions only"));
    let shown = texts(&pages(&case)[0].1).to_lowercase();
    for blame in ["wrong", "mistake", "fault", "cheat", "fraud", "inflated"] {
        assert!(!shown.contains(blame), "{blame}");
    }
}

#[test]
fn of_several_pairs_without_a_reference_the_pair_furthest_apart_stands_by_name() {
    let case = fixture::many(4, 6);
    let front = case.report().front;
    let bias = &front.figures[0];
    let largest = case.comparison.pairs.iter().map(|pair| pair.page_one.bias.value.unwrap());
    let largest = largest.fold(0.0, |most: f64, bias| if bias.abs() > most.abs() { bias } else { most });
    assert_eq!(bias.name, "Bias, dents a panel: the pair furthest apart");
    assert_eq!(bias.value.replace('\u{2212}', "-"), format!("{largest:+.1}"));
    assert!(bias.says.contains("Person 01") && bias.says.contains("largest of 6 pairs"), "{}", bias.says);
    assert!(front.figures.iter().all(|figure| figure.value != "none"));
}
