//! Long text files, of which only some claims are held at a time, give what they give when they are held whole.

use crate::Run;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use stipple::claim::Intake;
use stipple::problem::Problem;
use stipple::read::{Claims, forms, open_for_claims, plan};
use stipple::table::{recognise, unrecognised};
use tempfile::tempdir;

const PANELS: [&str; 6] = ["hood", "roof", "left front door", "right rear door", "boot lid", "LF wing"];

/// What is read of some claims at a time, and what concerns no claim.
fn some_at_a_time(folder: &Path) -> (Run, Claims) {
    let (mut opened, longs) = open_for_claims(&[folder.to_owned()], None, forms());
    let mut problems = std::mem::take(&mut opened.problems);
    let mut tables = Vec::new();
    for sheet in &opened.sheets {
        let recognition = recognise(sheet, forms());
        problems.extend(unrecognised(sheet, &recognition, forms()));
        tables.extend(recognition.tables);
    }
    let (claims, of_tables) = plan(longs, &tables, &opened.sources).unwrap();
    drop(tables);
    problems.extend(of_tables);
    let groups = (0..claims.groups()).map(|group| claims.group(group, &opened.sources).unwrap());
    let intakes: Vec<Intake> = groups.flatten().map(std::borrow::Cow::into_owned).collect();
    assert_eq!(claims.len(), intakes.len());
    (Run { opened, intakes, problems }, claims)
}

/// Reads files both ways, finds them the same, and says how many files were not held and how many claims were.
fn both_ways(files: &[(&str, &str)]) -> (usize, usize) {
    let folder = tempdir().unwrap();
    for (name, text) in files {
        crate::write(folder.path(), name, text.as_bytes());
    }
    let (some, claims) = some_at_a_time(folder.path());
    let whole = Run::of(&[folder.path().to_owned()]);
    let keys = |run: &Run| run.intakes.iter().map(|intake| intake.claim.key.text.clone()).collect::<Vec<_>>();
    assert_eq!(keys(&some), keys(&whole));
    for (one, other) in some.intakes.iter().zip(&whole.intakes) {
        assert_eq!(one, other);
    }
    assert_eq!(some.problems, whole.problems);
    assert_eq!(some.opened.files, whole.opened.files);
    assert_eq!(some.opened.sources, whole.opened.sources);
    for problem in whole.intakes.iter().flat_map(|intake| &intake.problems) {
        let place = problem.place.unwrap();
        let Some(row) = claims.row(place) else { continue };
        let sheet = whole.opened.sheets.iter().find(|sheet| sheet.source == place.source).unwrap();
        assert_eq!(Some(&row), sheet.rows.iter().find(|row| row.number == place.row));
    }
    (claims.files().len(), claims.held().len())
}

/// Rows of counts long enough for their file to be long; `odd` may say another row of a claim and panel.
fn rows(odd: impl Fn(usize, usize) -> Option<String>) -> Vec<String> {
    let row = |claim: usize, panel: usize| {
        odd(claim, panel).unwrap_or_else(|| {
            let counts = match (claim + panel) % 7 {
                0 => ",".to_owned(),
                count => format!("{},{}", count * 3, panel % 2),
            };
            format!(
                "Q-{claim:05},{},aluminium,{counts},{}",
                PANELS[panel],
                "a remark that is not short ".repeat(2)
            )
        })
    };
    (0..700)
        .flat_map(|claim| (0..PANELS.len()).map(move |panel| (claim, panel)))
        .map(|(c, p)| row(c, p))
        .collect()
}

fn usual(_: usize, _: usize) -> Option<String> {
    None
}

fn counts(rows: &[String]) -> String {
    format!("Storm of the tests\n\nclaim,panel,material,0-10 mm,11-20 mm,remark\n{}\n", rows.join("\n"))
}

/// A row for each car, and long enough, too.
fn vehicles(claims: impl Iterator<Item = usize>) -> String {
    let mut text = "claim,registration,vin,insurer,owner,market value\n".to_owned();
    for claim in claims {
        let owner = format!("Owner {claim} {}", "of a long and invented name ".repeat(14));
        let _ = writeln!(text, "q-{claim:05},AB {claim},,Alder Mutual,{owner},{claim}1.50");
    }
    text
}

#[test]
fn a_file_in_the_order_of_its_claims_is_not_held() {
    let counts = counts(&rows(usual));
    assert_eq!(both_ways(&[("counts.csv", &counts), ("vehicles.csv", &vehicles(0..700))]), (2, 0));
    assert_eq!(both_ways(&[("counts.csv", &counts), ("vehicles.csv", &vehicles((3..705).rev()))]), (2, 0));
    let other = counts.replace(',', ";").replace('\n', "\r\n");
    assert_eq!(both_ways(&[("counts.csv", &format!("\u{feff}sep=;\r\n{other}"))]), (1, 0));
}

#[test]
fn rows_of_a_claim_may_stand_anywhere_in_it() {
    let mut by_panel = rows(usual);
    by_panel.sort_by_key(|row| row.split(',').nth(1).map(str::to_owned));
    let vehicles = vehicles(0..700);
    assert_eq!(both_ways(&[("counts.csv", &counts(&by_panel)), ("vehicles.csv", &vehicles)]), (2, 0));
    let mut strewn: Vec<(usize, String)> =
        rows(usual).into_iter().enumerate().map(|(number, row)| (number * 7919 % 4200, row)).collect();
    strewn.sort();
    let strewn: Vec<String> = strewn.into_iter().map(|(_, row)| row).collect();
    assert_eq!(both_ways(&[("counts.csv", &counts(&strewn)), ("vehicles.csv", &vehicles)]), (2, 0));
}

#[test]
fn rows_with_something_wrong_in_them_are_told_with_their_claims() {
    let odd = |claim: usize, panel: usize| match (claim % 50, panel) {
        (1, 0) => Some(format!("Q-{claim:05},bonet,aluminium,1,2,")),
        (2, 1) => Some(format!("Q-{claim:05},,aluminium,1,2,no panel")),
        (3, 2) => Some(format!("Q-{claim:05},roof,alumnium,100+,-,")),
        (4, 3) => Some(format!("q-{claim:05},roof,,,,")),
        (5, 4) => Some(format!("Q-{claim:05},hood,,1.234,\"1,5\",\"a \"\"remark\"\" of\ntwo lines\"")),
        (6, 5) => Some(format!("Q-{claim:05},total loss,,1,2,total")),
        (7, 0) => Some(format!("\r\n  Q-{claim:05}  ,hood,steel,1,2,after a blank line")),
        _ => None,
    };
    let counts = counts(&rows(odd));
    assert_eq!(both_ways(&[("counts.csv", &counts)]), (1, 0));
    assert_eq!(both_ways(&[("counts.csv", &counts), ("vehicles.csv", &vehicles(0..600))]), (2, 0));
}

#[test]
fn claims_with_a_row_in_what_is_held_are_held_with_it() {
    let counts = counts(&rows(usual));
    let vehicles = vehicles(0..700);
    let marks =
        "claim,panel,mark,length mm\nQ-00003,roof,crease,80\nQ-00699,roof,crease,60\nX-1,roof,crease,70\n";
    let files = [("counts.csv", &*counts), ("vehicles.csv", &vehicles)];
    assert_eq!(both_ways(&[files[0], files[1], ("marks.csv", marks)]), (2, 3));
    assert_eq!(both_ways(&[files[0], files[1], ("a_marks.csv", marks)]), (2, 3));
    // By a key that only the table of vehicles links to the claim.
    let second = "registration,assessor,role,panel,0-10 mm\nab-17,B. Sample,second,roof,4\nZZ 1,B. Sample,second,roof,4\n";
    assert_eq!(both_ways(&[files[0], files[1], ("second.csv", second)]), (2, 2));
}

#[test]
fn a_file_whose_rows_need_each_other_is_held_whole() {
    let vehicles = vehicles(0..700);
    let with = |number: usize, row: &str| {
        let mut rows = rows(usual);
        rows.insert(number, row.to_owned());
        counts(&rows)
    };
    for row in [
        "Total,,,900,12,",
        ",roof,,1,2,no key",
        "\nclaim,panel,material,0-10 mm,11-20 mm,remark",
        "Q-00001;roof;3;4",
        "counted by somebody",
        "Q-00001,roof,,1,2,,,beside the table",
        // Its columns prove different decimal marks.
        "Q-00001,roof,,0.5,\"0,5\",",
    ] {
        assert_eq!(
            both_ways(&[("counts.csv", &with(2000, row)), ("vehicles.csv", &vehicles)]),
            (1, 700),
            "{row}"
        );
    }
    // Words of one's own hold for all files of a run.
    let own = with(2000, "Q-00001,lid skin,,1,2,");
    let words = "word,meaning\nlid skin,hood\n";
    assert_eq!(
        both_ways(&[("counts.csv", &own), ("vehicles.csv", &vehicles), ("words.csv", words)]),
        (0, 700)
    );
    // Numbers below a heading that nobody knows are asked about in every claim that has one.
    let doubtful = counts(&rows(usual)).replace("remark\n", "rmk\n").replacen("not short ", "", 2);
    assert_eq!(both_ways(&[("counts.csv", &doubtful), ("vehicles.csv", &vehicles)]), (2, 0));
    let doubtful = doubtful.replace("a remark that is not short a remark that is not short ", "12");
    assert_eq!(both_ways(&[("counts.csv", &doubtful), ("vehicles.csv", &vehicles)]).0, 1);
}

fn changed(path: &Path, then: &str) -> Vec<Problem> {
    let folder = path.parent().unwrap().to_owned();
    let (opened, longs) = open_for_claims(&[folder], None, forms());
    let (claims, _) = plan(longs, &[], &opened.sources).unwrap();
    assert!(claims.check().is_ok());
    fs::write(path, then).unwrap();
    let problems: Vec<Problem> = claims.group(0, &opened.sources).err().into_iter().collect();
    problems.into_iter().chain(claims.check().err()).collect()
}

#[test]
fn a_file_that_changes_while_it_is_read_is_told() {
    let folder = tempdir().unwrap();
    let text = counts(&rows(usual));
    let path = crate::write(folder.path(), "counts.csv", text.as_bytes());
    let problems = changed(&path, &text[..text.len() - 1]);
    assert_eq!(
        problems.iter().map(|problem| problem.code.id).collect::<Vec<_>>(),
        ["input-changed", "input-changed"]
    );
}
