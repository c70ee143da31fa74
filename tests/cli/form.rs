//! Forms to count on.

use crate::storm::Storm;
use std::fs;

const KINDS: [(&str, &str); 4] =
    [("sheets", "sheets.xlsx"), ("list", "list.xlsx"), ("tally", "tally.html"), ("page", "page.html")];

#[test]
fn each_kind_of_form_is_written_and_is_the_same_every_time() {
    let storm = Storm::new();
    for (kind, file) in KINDS {
        let ran = storm.run(&format!("form {kind} prices --body hatchback --cars 2")).ended(0);
        assert!(ran.out.contains(file) && ran.out.contains("Invented prices, edition 2026"), "{}", ran.out);
        storm.run(&format!("form {kind} prices --body hatchback --cars 2 --out again.{kind}")).ended(0);
        let (one, again) =
            (fs::read(storm.path(file)).unwrap(), fs::read(storm.path(&format!("again.{kind}"))).unwrap());
        assert!(!one.is_empty() && one == again, "{kind}");
    }
}

#[test]
fn forms_that_nobody_filled_in_are_listed_and_are_no_jobs() {
    let storm = Storm::new();
    storm.run("form sheets prices --cars 2 --out storm/sheets.xlsx").ended(0);
    storm.run("form list prices --out storm/list.xlsx").ended(0);
    let ran = storm.run("check storm prices").ended(0);
    let told = format!("{}{}", ran.out, ran.err);
    assert_eq!(ran.err.matches("sheet-not-filled-in").count(), 2, "{told}");
    // The three jobs of the storm are all there are.
    assert!(told.contains("2 repair") && told.contains("1 needs a person"), "{told}");
    storm.put("one.csv", "panel,0-10 mm,10-20 mm,remark\nhood,,,\nroof,,,too dirty to count\n");
    let ran = storm.run("check one.csv --schedule prices --date 2026-06-20");
    assert!(!ran.err.contains("sheet-not-filled-in"), "a remark is something: {}", ran.err);
}

#[test]
fn a_file_that_is_there_is_never_written_over() {
    let storm = Storm::new();
    storm.put("sheets.xlsx", "counted in");
    let ran = storm.run("form sheets prices").ended(2);
    assert!(ran.err.contains("form-exists") && ran.err.contains("sheets.xlsx"), "{}", ran.err);
    assert_eq!(fs::read_to_string(storm.path("sheets.xlsx")).unwrap(), "counted in");
    let ran = storm.run("form page prices --out storm").ended(2);
    assert!(ran.err.contains("form-exists"), "{}", ran.err);
    let ran = storm.run("form page prices --out nowhere/page.html").ended(2);
    assert!(ran.err.contains("output-not-written"), "{}", ran.err);
}

#[test]
fn a_form_needs_a_schedule_that_stands() {
    let storm = Storm::new();
    let ran = storm.run("form sheets storm").ended(2);
    assert!(ran.err.contains("schedule-missing"), "{}", ran.err);
    storm.put("prices/sizes.csv", "size band,from mm,to mm\nsmall,0,10\nmiddle,12,20\n");
    let ran = storm.run("form sheets prices").ended(2);
    assert!(ran.err.contains("schedule-missing") && ran.err.contains("sizes.csv"), "{}", ran.err);
    assert!(!storm.path("sheets.xlsx").exists());
}

#[test]
fn schedules_with_different_bands_make_no_form_and_with_the_same_ones_one() {
    let storm = Storm::new();
    for (name, bytes) in storm.files("prices") {
        storm.put(&format!("others/{name}"), std::str::from_utf8(&bytes).unwrap());
    }
    storm.run("form list prices others").ended(0);
    let sizes = fs::read_to_string(storm.path("others/sizes.csv")).unwrap();
    storm.put("others/sizes.csv", &sizes.replace("10", "12"));
    let ran = storm.run("form page prices others").ended(2);
    assert!(ran.err.contains("form-bands"), "{}", ran.err);
}

#[test]
fn wrong_words_are_told_with_the_right_ones() {
    let storm = Storm::new();
    assert!(storm.run("form letter prices").ended(2).err.contains("tally"));
    assert!(storm.run("form sheets prices --body sedn").ended(2).err.contains("sedan"));
    storm.run("form sheets prices --cars 0").ended(2);
    storm.run("form sheets").ended(2);
}

#[test]
fn a_page_is_one_file_with_every_body_and_a_hostile_name_stays_text() {
    let storm = Storm::new();
    let terms = fs::read_to_string(storm.path("prices/terms.csv")).unwrap();
    let name = "x</script><script>alert(1)//";
    storm.put("prices/terms.csv", &terms.replace("Invented prices", name));
    for (kind, file) in [("page", "page.html"), ("tally", "tally.html")] {
        storm.run(&format!("form {kind} prices")).ended(0);
        let page = fs::read_to_string(storm.path(file)).unwrap();
        assert!(!page.contains("<script>alert"), "{kind}");
        assert!(!page.contains(" src=") && !page.contains("<link"), "{kind} fetches nothing");
    }
    let page = fs::read_to_string(storm.path("page.html")).unwrap();
    for body in stipple::claim::BodyType::ALL {
        assert!(page.contains(&format!("&quot;{}&quot;", body.name())), "{body}");
    }
}

#[test]
fn a_gauge_is_drawn_in_millimetres() {
    let storm = Storm::new();
    storm.run("form tally prices --body coupe").ended(0);
    let page = fs::read_to_string(storm.path("tally.html")).unwrap();
    // Edges of 10 and 20 mm: circles of half that, in a drawing whose unit is a millimetre.
    assert!(page.contains("width=\"178mm\"") && page.contains("viewBox=\"0 0 178 "), "no millimetres");
    assert!(page.contains("r=\"5\"") && page.contains("r=\"10\"") && page.contains("M0 4H100"), "no gauge");
    assert!(page.contains("left quarter panel") && !page.contains("rear door"), "panels of a coupe");
}
