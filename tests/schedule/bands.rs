//! Size bands and count bands: gaps, overlaps, joined edges, absurd numbers of them.

use crate::support::Tables;
use std::fmt::Write as _;
use stipple::schedule::MixedRule;

fn page() -> Tables {
    Tables::of_the_page()
}

/// The page's tables with other edges for its three size bands.
fn sizes(edges: [&str; 6]) -> Tables {
    let rows: Vec<String> = ["small", "medium", "large"]
        .iter()
        .zip(edges.chunks(2))
        .map(|(name, edges)| format!("{name},{}", edges.join(",")))
        .collect();
    page().instead("sizes", &format!("size band,from,to\n{}", rows.join("\n")))
}

#[test]
fn edges_one_printed_digit_apart_are_one_and_the_lower_bands_top_holds() {
    let outcome = sizes(["0", "14 mm", "15 mm", "27 mm", "28 mm", "45 mm"]).read();
    outcome.says(&[
        "schedule-edges-joined | sizes.csv B3 | 14 mm and 15 mm are one edge; 14 mm holds",
        "schedule-edges-joined | sizes.csv B4 | 27 mm and 28 mm are one edge; 27 mm holds",
    ]);
    assert_eq!(
        outcome.stands().sizes,
        page()
            .with("sizes", ",goes by", "")
            .with("sizes", ",S; below 14", "")
            .with("sizes", ",M", "")
            .with("sizes", ",L", "")
            .read()
            .stands()
            .sizes
    );
    // The other way about, at the very beginning, in tenths, in fractions of an inch, and with the finer print deciding.
    sizes(["1 mm", "14 mm", "13 mm", "27 mm", "27 mm", "45 mm"]).read().says(&[
        "schedule-edges-joined | sizes.csv B2 | 0 mm and 1 mm are one edge; 0 mm holds",
        "schedule-edges-joined | sizes.csv B3 | 14 mm and 13 mm are one edge; 14 mm holds",
    ]);
    sizes(["0", "0.5 in", "0.6 in", "27 mm", "27 mm", "45 mm"])
        .read()
        .says(&["schedule-edges-joined | sizes.csv B3 | 12.7 mm and 15.24 mm are one edge; 12.7 mm holds"]);
    sizes(["0", "1/2 in", "9/16 in", "27 mm", "27 mm", "45 mm"])
        .read()
        .says(&["schedule-edges-joined | sizes.csv B3 | 12.7 mm and 14.2875 mm are one edge; 12.7 mm holds"]);
}

#[test]
fn a_gap_between_sizes_is_told_with_both_edges() {
    let outcome = sizes(["0", "14 mm", "16 mm", "27 mm", "27 mm", "45 mm"]).read();
    outcome.says(&["schedule-band-gap | sizes.csv B3 | no size band holds dents between 14 mm and 16 mm"]);
    assert_eq!(outcome.sources.short(outcome.problems[0].also[0]), "example/sizes.csv C2");
    sizes(["5 mm", "14 mm", "14 mm", "27 mm", "27 mm", "45 mm"])
        .read()
        .says(&["schedule-band-gap | sizes.csv B2 | no size band holds dents between 0 mm and 5 mm"]);
    sizes(["0", "14.0 mm", "15 mm", "27 mm", "27 mm", "45 mm"])
        .read()
        .says(&["schedule-band-gap | sizes.csv B3 | no size band holds dents between 14 mm and 15 mm"]);
    // Whole inches and quarters say their edges exactly.
    sizes(["0", "1/2 in", "3/4 in", "27 mm", "27 mm", "45 mm"])
        .read()
        .says(&["schedule-band-gap | sizes.csv B3 | no size band holds dents between 12.7 mm and 19.05 mm"]);
}

#[test]
fn sizes_in_two_bands_are_told() {
    sizes(["0", "14 mm", "12 mm", "27 mm", "27 mm", "45 mm"])
        .read()
        .says(&["schedule-band-overlap | sizes.csv B3 | two size bands hold dents between 12 mm and 14 mm"]);
}

#[test]
fn a_band_that_ends_before_it_begins_is_told() {
    sizes(["0", "14 mm", "27 mm", "14 mm", "27 mm", "45 mm"]).read();
    let outcome = sizes(["0", "14 mm", "14 mm", "14 mm", "14 mm", "45 mm"]).read();
    outcome.says(&["schedule-band-empty | sizes.csv row 3 | size band medium ends before it begins"]);
    let outcome = page().with("counts", "5-13,5,13", "5-13,5,3").read();
    assert!(
        outcome.lines().contains(
            &"schedule-band-empty | counts.csv C3 | count band 5-13 ends before it begins".to_owned()
        )
    );
    page()
        .with("marks", "crease,,60 mm,", "crease,,60 mm,20 mm")
        .read()
        .says(&["schedule-band-empty | marks.csv D5 | mark rate crease ends before it begins"]);
}

#[test]
fn bands_may_stand_in_any_order() {
    let turned = page()
        .instead(
            "sizes",
            "to,size band,from,goes by\n45 mm,large,27 mm,L\n14 mm,small,0,S; below 14\n27 mm,medium,14 mm,M",
        )
        .instead("counts", "count band,from dents,to dents\n14-40,14,40\n1-4,1,4\n5-13,5,13");
    let (turned, straight) = (turned.read(), page().read());
    turned.says(&[]);
    let names = |bands: &[stipple::schedule::SizeBand]| {
        bands.iter().map(|band| band.name.clone()).collect::<Vec<_>>()
    };
    assert_eq!(names(&turned.stands().sizes), names(&straight.stands().sizes));
    assert_eq!(turned.stands().grid, straight.stands().grid);
}

#[test]
fn counts_follow_on_each_other_from_one() {
    for (from, to, line) in [
        ("5-13,5,13", "5-13,7,13", "schedule-band-gap | counts.csv B3 | no count band holds 5 to 6 dents"),
        ("5-13,5,13", "5-13,6,13", "schedule-band-gap | counts.csv B3 | no count band holds 5 dents"),
        ("5-13,5,13", "5-13,4,13", "schedule-band-overlap | counts.csv B3 | two count bands hold 4 dents"),
        (
            "5-13,5,13",
            "5-13,3,13",
            "schedule-band-overlap | counts.csv B3 | two count bands hold 3 to 4 dents",
        ),
        ("1-4,1,4", "1-4,2,4", "schedule-band-gap | counts.csv B2 | no count band holds 1 dents"),
        (
            "1-4,1,4",
            "1-4,0,4",
            "schedule-band-overlap | counts.csv B2 | the first count band begins at no dents",
        ),
        (
            "5-13,5,13",
            "5-13,5,",
            "schedule-band-overlap | counts.csv B4 | count band 14-40 begins after one without an end",
        ),
    ] {
        page().with("counts", from, to).read().says(&[line]);
    }
    let open = page().with("counts", "14-40,14,40", "14-40,14,").read();
    open.says(&[]);
    assert_eq!(open.stands().counts[2].to, None);
    assert_eq!(open.stands().count_band(99_999), Some(2));
}

#[test]
fn a_name_that_stands_twice_is_told_with_both_places() {
    let outcome = page().with("sizes", "medium,", "Small,").read();
    assert!(
        outcome
            .lines()
            .contains(&"schedule-name-twice | sizes.csv A3 | size band: Small stands twice".to_owned())
    );
    page()
        .with("sizes", "27 mm,M", "27 mm,M; s")
        .read()
        .says(&["schedule-name-twice | sizes.csv D3 | heading that a size band goes by: s stands twice"]);
    let outcome = page().with("counts", "5-13,5", "1-4,5").read();
    assert!(
        outcome
            .lines()
            .contains(&"schedule-name-twice | counts.csv A3 | count band: 1-4 stands twice".to_owned())
    );
}

#[test]
fn a_table_of_the_wrong_kind_under_these_headings_does_not_fill_the_memory() {
    let mut many = String::from("count band,from dents,to dents");
    for band in 1..=2_000 {
        write!(many, "\n{band},{band},{band}").unwrap();
    }
    let outcome = page().instead("counts", &many).read();
    assert!(outcome.lines().contains(
        &"schedule-bands-too-many | counts.csv row 202 | there are more than 200 count bands".to_owned()
    ));
    let mut many = String::from("size band,from mm,to mm");
    for band in 0..70 {
        write!(many, "\n{band},{band},{}", band + 1).unwrap();
    }
    let outcome = page().instead("sizes", &many).read();
    assert!(outcome.lines().contains(
        &"schedule-bands-too-many | sizes.csv row 62 | there are more than 60 size bands".to_owned()
    ));
}

#[test]
fn equivalents_need_their_band_and_a_weight_for_each() {
    let weighed = page().with("terms", "each band", "equivalents").instead(
        "sizes",
        "size band,from,to,weight\nsmall,0,14 mm,1\nmedium,14 mm,27 mm,1.6\nlarge,27 mm,45 mm,2.75",
    );
    let outcome = weighed.clone().plus("terms", "equivalents of,small").read();
    outcome.says(&[]);
    assert_eq!(outcome.stands().terms.mixed.value, MixedRule::Equivalents(0));
    assert_eq!(outcome.stands().sizes[2].weight.unwrap().to_string(), "2.75");
    weighed
        .clone()
        .read()
        .says(&["schedule-terms-incomplete | terms.csv B10 | the rule equivalents lacks equivalents of"]);
    weighed.clone().plus("terms", "equivalents of,small").with("sizes", "27 mm,1.6", "27 mm,").read().says(&[
        "schedule-terms-incomplete | sizes.csv row 3 | the rule equivalents lacks the weight of size band medium",
    ]);
    weighed.clone().plus("terms", "equivalents of,medium").read().says(&[
        "schedule-weight-not-one | sizes.csv row 3 | a dent of medium weighs 1.6 equivalents of medium",
    ]);
    weighed
        .clone()
        .plus("terms", "equivalents of,tiny")
        .read()
        .says(&["schedule-name-unknown | terms.csv B21 | size band: tiny is not known"]);
    for (weight, line) in [
        ("0", "schedule-out-of-range | sizes.csv D3 | weight is not possible: it has to be above zero"),
        ("1001", "schedule-out-of-range | sizes.csv D3 | weight is not possible: it is above 1000"),
        ("1.1234567", "schedule-too-precise | sizes.csv D3 | weight is too fine"),
    ] {
        let outcome =
            weighed.clone().plus("terms", "equivalents of,small").with("sizes", "1.6", weight).read();
        assert!(outcome.lines().contains(&line.to_owned()), "{}", outcome.text());
    }
}
