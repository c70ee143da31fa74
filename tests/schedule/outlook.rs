//! What follows from a schedule that stands: cliffs, what nothing reaches, limits that decide nothing, and editions.

use crate::support::Tables;
use stipple::quantity::{Decimal, Percent};
use stipple::schedule::{editions, outlook};

fn percent(text: &str) -> Percent {
    Percent::from_decimal(text.parse::<Decimal>().unwrap()).unwrap()
}

/// One line for each thing that is told of a schedule: its code, its place, its sentence.
fn told(tables: &Tables, cliff: &str) -> Vec<String> {
    let read = tables.read();
    let lines = outlook(read.stands(), percent(cliff)).into_iter().map(|problem| {
        let places = problem.place.into_iter().chain(problem.also.clone());
        let places: Vec<String> =
            places.map(|place| read.sources.short(place).replace("example/", "")).collect();
        format!("{} | {} | {}", problem.code.id, places.join(", "), problem.message)
    });
    lines.collect()
}

#[test]
fn the_pages_example_has_nothing_that_follows_from_it() {
    assert_eq!(told(&Tables::of_the_page(), "100"), [] as [&str; 0]);
}

#[test]
fn a_step_of_more_than_the_stated_share_is_told_with_both_cells_the_steepest_first() {
    // Of flat panels, medium: 71, 133 (87 %), 241 (81 %); large: 92, 170 (84 %), 320 (88 %). Of sides, an hour at 96: small
    // 0.6, 1.2 (100 %), 2.1; medium 0.8, 1.6 (100 %), 2.9; large 1.1 for all of 4 dents, 0.4 for each of 5 (81 %).
    assert_eq!(
        told(&Tables::of_the_page(), "86"),
        [
            "schedule-cliff | side.csv D3, side.csv D2 | side: 57.60 for 4 dents of small, but 115.20 for 5 dents of small: \
             one more dent adds 100 %",
            "schedule-cliff | side.csv D6, side.csv D5 | side: 76.80 for 4 dents of medium, but 153.60 for 5 dents of \
             medium: one more dent adds 100 %",
            "schedule-cliff | flat.csv D7, flat.csv D6 | flat: 170.00 for 13 dents of large, but 320.00 for 14 dents of \
             large: one more dent adds 88 %",
            "schedule-cliff | flat.csv C6, flat.csv C5 | flat: 71.00 for 4 dents of medium, but 133.00 for 5 dents of \
             medium: one more dent adds 87 %",
        ]
    );
}

#[test]
fn under_one_rule_for_the_whole_panel_a_larger_dent_is_a_step_of_its_own() {
    let largest = Tables::of_the_page().with("terms", "each band", "largest present");
    let told = told(&largest, "100");
    // 13 small dents on a flat panel are 104.00; with a large one 14 are rated as large, at 320.00.
    let flat = "schedule-cliff | flat.csv D7, flat.csv B6 | flat: 104.00 for 13 dents of small, but 320.00 for 13 dents of \
                small and 1 dent of large: one more dent adds 207 %";
    assert!(told.contains(&flat.to_owned()), "{told:#?}");
}

#[test]
fn cells_that_lie_beyond_a_limit_on_every_panel_are_told() {
    let tables = Tables::of_the_page().with(
        "limits",
        "too many dents,dents,40,replace,bolted",
        "too many dents,dents,13,refer to a person,",
    );
    let told = told(&tables, "1000");
    assert_eq!(
        told,
        [
            "schedule-cell-unreached | flat.csv B7, limits.csv C5 | flat: no panel is paid at 3 cells from small, 14-40 on: \
             the limit too many dents decides before",
            "schedule-cell-unreached | side.csv D4, limits.csv C5 | side: no panel is paid at 3 cells from small, 14-40 on: \
             the limit too many dents decides before",
            "schedule-limit-never | limits.csv C6, limits.csv C5 | too many large dents never changes what is done: too many \
             dents is crossed whenever it is, and goes as far",
        ]
    );
    // A limit that holds for bolted panels alone leaves the cells to the welded ones.
    let bolted = Tables::of_the_page().with("limits", "dents,40,replace,bolted", "dents,13,replace,bolted");
    assert_eq!(self::told(&bolted, "1000"), [] as [&str; 0]);
}

#[test]
fn cells_of_bands_that_dents_are_never_counted_as_are_told() {
    let tables = Tables::of_the_page()
        .with("terms", "mixed sizes,each band", "mixed sizes,equivalents\nequivalents of,medium")
        .instead(
            "sizes",
            "size band,from,to,weight\nsmall,0,14 mm,0.5\nmedium,14 mm,27 mm,1\nlarge,27 mm,45 mm,2",
        );
    let told = told(&tables, "1000");
    assert_eq!(told.iter().filter(|line| line.contains("are never looked up")).count(), 4, "{told:#?}");
    assert!(
        told[0].ends_with("flat: the rates of small are never looked up: dents are counted as medium"),
        "{told:#?}"
    );
}

#[test]
fn a_rate_of_marks_beyond_a_limit_is_told() {
    let tables = Tables::of_the_page().with("limits", "crease,180 mm", "crease,60 mm").with(
        "limits",
        "\ncheaper to replace,share of replacing,75,replace,bolted",
        "",
    );
    assert_eq!(
        told(&tables, "1000"),
        [
            "schedule-cell-unreached | marks.csv E5, limits.csv C7 | crease: no panel is paid at this length: the limit long \
          crease decides before"
        ]
    );
}

#[test]
fn a_limit_that_another_one_covers_never_changes_what_is_done() {
    let tables = Tables::of_the_page().plus("limits", "many dents,dents,30,refer to a person,");
    assert_eq!(
        told(&tables, "1000"),
        [
            "schedule-limit-never | limits.csv C5, limits.csv C9 | too many dents never changes what is done: many dents is \
          crossed whenever it is, and goes as far"
        ]
    );
    // A limit on a share of an amount can go further than one on a length, so the amount is still looked at.
    let share = Tables::of_the_page().with("limits", "crease,180 mm", "crease,60 mm");
    assert_eq!(told(&share, "1000"), [] as [&str; 0]);
    // One that goes less far decides by itself below the other.
    let lower = Tables::of_the_page().plus("limits", "some dents,dents,30,conventional repair,");
    assert_eq!(told(&lower, "1000"), [] as [&str; 0]);
}

#[test]
fn a_limit_that_everything_crosses_is_noted() {
    let tables =
        Tables::of_the_page().plus("limits", "any oversize,oversize dent,45 mm,conventional repair,");
    let told = told(&tables, "1000");
    let line = "schedule-limit-always | limits.csv C9 | any oversize is crossed by every oversize dent: they are all longer \
                than 45 mm";
    assert!(told.contains(&line.to_owned()), "{told:#?}");
}

#[test]
fn a_method_that_costs_less_than_the_dents_before_its_limit_is_told() {
    // 40 large dents on a door are 16 h at 96; replacing one is 280 + 1.5 x 72.50 + 2.2 x 84 + 58 + 0.6 x 84.
    let tables = Tables::of_the_page()
        .with("limits", "too many large dents,dents of large,20,refer to a person,\n", "")
        .with("limits", "\ncheaper to replace,share of replacing,75,replace,bolted", "");
    let falls = "schedule-falls-at-limit | limits.csv C5, panels.csv row 4 | too many dents: 40 dents of large on a fender \
                 cost 1536.00, and with one more it is replace at 681.95";
    assert!(told(&tables, "200").contains(&falls.to_owned()), "{:#?}", told(&tables, "200"));
    let capped = tables.with("panels", "fender,side,vertical,bolted,,,", "fender,side,vertical,bolted,,,600");
    assert!(told(&capped, "200").iter().any(|line| line.contains("on a front door")), "the furthest is told");
    let referred =
        Tables::of_the_page().with("limits", "\ncheaper to replace,share of replacing,75,replace,bolted", "");
    assert!(
        !told(&referred, "200").iter().any(|line| line.contains("falls-at-limit")),
        "another limit is crossed before"
    );
}

/// An edition of the page's example.
fn edition(name: &str, from: &str, to: &str) -> stipple::schedule::Schedule {
    let tables = Tables::of_the_page()
        .with("terms", "edition,1", &format!("edition,{name}"))
        .with("terms", "valid from,2026-01-01", &format!("valid from,{from}"))
        .with("terms", "valid to,2026-12-31", &format!("valid to,{to}"));
    tables.read().stands().clone()
}

#[test]
fn editions_that_overlap_or_leave_days_out_are_told_with_both_dates() {
    let all = [
        edition("3", "2027-02-01", "2027-12-31"),
        edition("1", "2026-01-01", "2026-12-31"),
        edition("2", "2026-10-01", "2026-12-30"),
    ];
    let problems = editions(&all);
    let said: Vec<String> = problems.iter().map(|it| format!("{} | {}", it.code.id, it.message)).collect();
    let name = "Example for the page of the tables";
    let overlap = |whom: &str| {
        format!(
            "schedule-editions-overlap | {name}, edition 1 and {name}, edition 2 both hold for {whom} from 2026-10-01 to \
             2026-12-30"
        )
    };
    let gap = |whom: &str| {
        format!(
            "schedule-editions-gap | nothing holds for {whom} from 2027-01-01 to 2027-01-31, between {name}, edition 1 and \
             {name}, edition 3"
        )
    };
    let both = "Example Mutual and jobs without an insurer";
    assert_eq!(said, [overlap(both), gap(both)], "what holds for several is told once");
    assert!(problems.iter().all(|problem| problem.place.is_some() && problem.also.len() == 1));
}

#[test]
fn editions_that_follow_on_each_other_are_not_told() {
    assert_eq!(editions(&[edition("1", "2026-01-01", "2026-12-31"), edition("2", "2027-01-01", "")]), []);
}
