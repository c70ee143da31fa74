//! What was understood of a sheet, what is asked about it, and answers that come back.

use crate::storm::Storm;
use calamine::{Data, Reader as _, Xlsx, open_workbook};
use std::collections::BTreeMap;

const COUNTS: &str = "claim,job,panel,date of inspection,0-10 mm,10-20 mm,bay\n\
    HC-1,,hood,2026-06-20,12,-,4\n\
    HC-1,,door,2026-06-20,,3,4\n\
    HC-2,,hood,2026-06-20,2,0,\n\
    ,J-7,right front door,2026-06-20,9,,\n";

fn storm() -> Storm {
    let storm = Storm::new();
    storm.put("storm/counts.csv", COUNTS);
    storm
}

#[test]
fn every_heading_is_shown_with_the_rule_it_was_read_by() {
    let ran = storm().run("understood storm --map map.xlsx").ended(0);
    for words in ["wide counts, 4 rows", "(a range of diameters)", "bay", "not used", "(its own name)"] {
        assert!(ran.out.contains(words), "{words:?}:\n{}", ran.out);
    }
}

#[test]
fn a_map_as_it_is_written_changes_nothing() {
    let storm = Storm::new();
    let before = storm.run("check storm --schedule prices --json").ended(0).out;
    storm.run("understood storm --map storm/map.xlsx").ended(0);
    let after = storm.run("check storm --schedule prices --json").ended(0).out;
    let claims = |out: &str| out.split("\"totals\"").nth(1).map(str::to_owned);
    assert!(claims(&before).is_some(), "{before}");
    assert_eq!(claims(&before), claims(&after));
}

#[test]
fn questions_go_out_with_their_choices_and_come_back_as_answers() {
    let storm = storm();
    storm.run("check storm --schedule prices --questions ask.xlsx").ended(1);
    let mut book: Xlsx<_> = open_workbook(storm.path("ask.xlsx")).unwrap();
    let range = book.worksheet_range("Questions").unwrap();
    let text = |cell: &Data| cell.to_string();
    let answers = BTreeMap::from([("bay", "left out"), ("-", "0"), ("door", "left front door")]);
    let mut map = "heading,word,means,beside\n".to_owned();
    let mut asked = Vec::new();
    for row in range.rows().skip(1) {
        let (heading, word, beside) = (text(&row[3]), text(&row[4]), text(&row[7]));
        let about = if word.is_empty() { heading.as_str() } else { word.as_str() };
        map += &[heading.as_str(), word.as_str(), answers[about], beside.as_str()].join(",");
        map.push('\n');
        asked.push(about.to_owned());
        // Each answer that is given can be chosen from the list, too.
        assert!(row[11..].iter().any(|choice| text(choice) == answers[about]), "{about}");
    }
    assert_eq!(asked, ["bay", "-", "door"]);
    storm.put("storm/answers.csv", &map);
    let ran = storm.run("check storm --schedule prices").ended(0);
    assert!(!ran.out.contains("question"), "{}", ran.out);
    // Hood 90.00 (12 small), left front door 55.00 (3 middle): 145.00 net.
    storm.run("assess storm --schedule prices").ended(0);
    assert_eq!(storm.rows("storm-assessed/claims.csv")[0]["net"], "145.00");
}
