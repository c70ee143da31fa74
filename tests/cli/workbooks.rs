//! The workbooks that a run writes, read back by another library.

use crate::sample::{assessment, euros, files, intake, schedule, sources, stopped};
use calamine::{Data, Reader, Xlsx, open_workbook};
use std::collections::BTreeMap;
use std::path::Path;
use stipple::assess::Assessment;
use stipple::batch::{Done, Totals};
use stipple::claim::{Intake, Settlement};
use stipple::report::folder::OutputFolder;
use stipple::report::groups::Groups;
use stipple::report::tables::{Run, claims, exceptions};
use stipple::report::workbook::{Bordereau, ExceptionsBook, Links};
use tempfile::TempDir;

/// Writes both workbooks over the claims.
fn write(dir: &Path, intakes: &[Intake]) {
    write_by(dir, intakes, assessment);
}

fn write_by(dir: &Path, intakes: &[Intake], assess: impl Fn(&Intake) -> Assessment) {
    let (schedules, sources, files) = (vec![schedule()], sources(), files());
    let run = Run { schedules: &schedules, sources: &sources, files: &files, required: &[] };
    let folder = OutputFolder::begin(&dir.join("out"), 1).unwrap();
    let mut bordereau = Bordereau::new(&folder).unwrap();
    let links = Links::from([("storm/counts.xlsx".to_owned(), "../a storm/counts.xlsx".to_owned())]);
    let mut book = ExceptionsBook::new(&folder, links).unwrap();
    let mut totals = Totals::default();
    for (number, intake) in intakes.iter().enumerate() {
        let result = if intake.is_stopped() { Err(intake.problems.clone()) } else { Ok(assess(intake)) };
        let done = Done { number, intake, result };
        bordereau.claim(&claims::row(&done, Some("claims/x.html"), &run)).unwrap();
        totals.add(&Totals::of(&done));
        for problem in done.problems() {
            book.problem(problem, &exceptions::row(problem, None, &sources), &sources).unwrap();
        }
    }
    let insurers = BTreeMap::from([("Example Mutual".to_owned(), totals.clone())]);
    bordereau.finish((&totals, &insurers), &Groups::default(), &[], &run, &folder, "b.xlsx").unwrap();
    book.finish(&folder, "e.xlsx").unwrap();
    std::fs::write(folder.path().join("run.json"), r#"{"tool":"stipple","files":[]}"#).unwrap();
    folder.swap_in().unwrap();
}

fn cells(dir: &Path, book: &str, sheet: &str) -> Vec<Vec<Data>> {
    let mut book: Xlsx<_> = open_workbook(dir.join("out").join(book)).unwrap();
    book.worksheet_range(sheet).unwrap().rows().map(<[Data]>::to_vec).collect()
}

fn column(rows: &[Vec<Data>], name: &str) -> usize {
    rows[0].iter().position(|cell| *cell == Data::String(name.to_owned())).unwrap()
}

#[test]
fn amounts_are_numbers_dates_are_dates_and_the_sums_hold_formulas_with_their_results() {
    let dir = TempDir::new().unwrap();
    write(dir.path(), &[intake("A-1"), intake("A-2"), stopped("A-3")]);
    let rows = cells(dir.path(), "b.xlsx", "Claims");
    let net = column(&rows, "net");
    assert_eq!(rows[1][net], Data::Float(120.0));
    assert!(matches!(rows[1][column(&rows, "date of loss")], Data::DateTime(_)));
    assert_eq!(rows[3][net], Data::Empty, "a claim that is not priced has no amount");
    let sums = rows.iter().find(|row| row[0] == Data::String("Total EUR".to_owned())).unwrap();
    assert_eq!(sums[net], Data::Float(240.0));
    assert_eq!(sums[column(&rows, "gross")], Data::Float(285.6));
    let mut book: Xlsx<_> = open_workbook(dir.path().join("out/b.xlsx")).unwrap();
    let formulas = book.worksheet_formula("Claims").unwrap();
    let all: Vec<&String> = formulas.rows().flatten().filter(|formula| !formula.is_empty()).collect();
    assert_eq!(all[0], "SUM(T2:T4)");
    assert!(rows.iter().any(|row| row[0].to_string().contains("2 open panels")), "what is in no sum is said");
    assert!(rows.iter().any(|row| row[0].to_string().contains("1 of 3 claims are not priced")));
}

#[test]
fn every_row_and_sum_of_the_listing_foots() {
    // By hand: 120.00 + 22.80 + 0.01 = 142.81; the market value of 500.00 is 220.00 and 80.00 and salvage of 200.00.
    let dir = TempDir::new().unwrap();
    write_by(dir.path(), &[intake("A-1"), intake("A-2")], |intake| {
        let mut loss = assessment(intake);
        loss.totals.rounding = Some(euros(1));
        loss.totals.gross = euros(14_281);
        let settled = &mut loss.settled;
        settled.basis = Settlement::TotalLossKept;
        (settled.amount, settled.salvage_kept) = (euros(50_000), euros(20_000));
        (settled.insurer_pays, settled.owner_bears) = (euros(22_000), euros(8_000));
        (settled.tax_reclaimed, settled.paid_before) = (euros(1_000), euros(2_000));
        (settled.excess, settled.over_limit) = (euros(4_000), euros(1_000));
        loss
    });
    for sheet in ["Claims", "Insurers"] {
        let rows = cells(dir.path(), "b.xlsx", sheet);
        let total = |row: &Vec<Data>| row[0] == Data::String("Total EUR".to_owned());
        let of = |row: &Vec<Data>, name: &str| match row[column(&rows, name)] {
            Data::Float(amount) => format!("{:.0}", amount * 100.0).parse::<i64>().unwrap(),
            ref other => panic!("{name}: {other:?}"),
        };
        for row in rows
            .iter()
            .skip(1)
            .filter(|row| row[0] == Data::String("A-1".to_owned()) || total(row) || sheet == "Insurers")
        {
            let [net, tax, rounding, gross] = ["net", "tax", "rounding", "gross"].map(|name| of(row, name));
            assert_eq!(net + tax + rounding, gross);
            let amount = of(row, "settlement amount");
            let [pays, bears, kept] =
                ["insurer pays", "owner bears", "salvage kept"].map(|name| of(row, name));
            assert_eq!(pays + bears + kept, amount);
            let off = ["tax reclaimed", "paid before", "excess", "beyond policy limit", "salvage kept"];
            assert_eq!(amount - off.map(|name| of(row, name)).iter().sum::<i64>(), pays);
        }
        assert_eq!(rows.iter().filter(|row| total(row)).count(), usize::from(sheet == "Claims"));
    }
    let rows = cells(dir.path(), "b.xlsx", "Claims");
    assert_eq!(rows[1][column(&rows, "settled as")], Data::String("total loss, car kept".to_owned()));
}

#[test]
fn text_that_begins_like_a_formula_is_text_in_a_workbook() {
    let dir = TempDir::new().unwrap();
    write(dir.path(), &[intake("=1+1"), stopped("@x")]);
    let rows = cells(dir.path(), "b.xlsx", "Claims");
    assert_eq!(rows[1][0], Data::String("=1+1".to_owned()));
    let mut book: Xlsx<_> = open_workbook(dir.path().join("out/e.xlsx")).unwrap();
    assert!(book.worksheet_formula("Exceptions").unwrap().rows().flatten().all(String::is_empty));
}

#[test]
fn the_sheets_beside_the_listing_say_what_it_was_made_from_and_what_each_insurer_pays() {
    let dir = TempDir::new().unwrap();
    write(dir.path(), &[intake("A-1"), stopped("A-2")]);
    let insurers = cells(dir.path(), "b.xlsx", "Insurers");
    assert_eq!(insurers[1][0], Data::String("Example Mutual".to_owned()));
    assert_eq!(insurers[1][column(&insurers, "insurer pays")], Data::Float(92.8));
    assert_eq!(insurers[1][column(&insurers, "not priced")], Data::Float(1.0));
    let made_from = cells(dir.path(), "b.xlsx", "Made from");
    assert_eq!(made_from[2][1], Data::String("Invented rates, edition first".to_owned()));
    assert_eq!(made_from.len(), 1 + 1 + 1 + 3);
}

#[test]
fn each_exception_shows_its_cell() {
    let dir = TempDir::new().unwrap();
    write(dir.path(), &[stopped("A-1")]);
    let rows = cells(dir.path(), "e.xlsx", "Exceptions");
    assert_eq!(rows[1][exceptions::CELL], Data::String("D3".to_owned()));
}

#[test]
fn an_empty_list_of_exceptions_says_so() {
    let dir = TempDir::new().unwrap();
    write(dir.path(), &[intake("A-1")]);
    let rows = cells(dir.path(), "e.xlsx", "Exceptions");
    assert_eq!(rows[1][0], Data::String("Nothing to report.".to_owned()));
}

#[test]
fn an_amount_of_more_digits_than_a_spreadsheet_holds_and_text_longer_than_a_cell_are_kept_as_text() {
    let dir = TempDir::new().unwrap();
    let mut long = intake("A-1");
    long.claim.parties.owner.as_mut().unwrap().value = "x".repeat(40_000);
    write_by(dir.path(), &[long], |intake| {
        let mut huge = assessment(intake);
        huge.totals.net = euros(9_007_199_254_740_993);
        huge
    });
    let rows = cells(dir.path(), "b.xlsx", "Claims");
    assert_eq!(rows[1][column(&rows, "net")], Data::String("90071992547409.93".to_owned()));
    assert_eq!(rows[1][column(&rows, "owner")].to_string().chars().count(), 32_767);
}
