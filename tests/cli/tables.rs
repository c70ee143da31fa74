//! What a run writes, over claims built in code.

use crate::sample::{assessment, files, intake, schedule, sources, stopped};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use stipple::batch::{EarlierCars, Stopped, run_with};
use stipple::claim::{InputFile, Intake};
use stipple::problem::{Problem, Sources, catalogue};
use stipple::report::Subject;
use stipple::report::batch_page::BatchOverview;
use stipple::report::bordereau_page::BordereauPage;
use stipple::report::document::SupplementPage;
use stipple::report::folder::{OutputFolder, Written};
use stipple::report::lot_page::LotPage;
use stipple::report::output::{Draw, Order, Output, Paper, Part};
use stipple::report::overview::Keep;
use stipple::report::run_record::{CLAIMS, RECORD};
use stipple::report::tables::Run;
use stipple::report::workbook::Links;
use stipple::schedule::Schedule;
use tempfile::TempDir;

const ALL: [Part; 7] = [
    Part::Documents,
    Part::Claims,
    Part::Panels,
    Part::Lines,
    Part::Workbooks,
    Part::Assessments,
    Part::Overview,
];

/// Draws each document by a function, and an overview that is the same for all.
struct Drawn<F>(F);

impl<F: Fn(&Subject<'_>) -> Result<String, Problem> + Sync> Draw for Drawn<F> {
    fn paper(&self, paper: Paper, subject: &Subject<'_>) -> Result<String, Problem> {
        assert_eq!(paper, Paper::Claim);
        self.0(subject)
    }

    fn lot(&self, _: &LotPage) -> Result<String, Problem> {
        Ok("<p>lot</p>".to_owned())
    }

    fn print(&self, _: Paper, _: &Subject<'_>) -> Option<Result<Vec<u8>, Vec<Problem>>> {
        None
    }

    fn supplement(&self, page: &SupplementPage) -> Result<String, Problem> {
        Ok(page.answer.clone())
    }

    fn print_supplement(&self, _: &SupplementPage, _: &Subject<'_>) -> Option<Result<Vec<u8>, Vec<Problem>>> {
        None
    }

    fn claim_workbook(&self, subject: &Subject<'_>) -> Result<Vec<u8>, Problem> {
        Ok(subject.assessment.totals.gross.to_string().into_bytes())
    }

    fn bordereau(&self, _: &BordereauPage) -> Result<String, Problem> {
        Ok("<p>bordereau</p>".to_owned())
    }

    fn overview(&self, _: &BatchOverview) -> Result<String, Problem> {
        Ok("<p>overview</p>".to_owned())
    }
}

/// A run over claims built in code; documents are one line each.
struct Sample {
    schedules: Vec<Schedule>,
    sources: Sources,
    files: Vec<InputFile>,
    intakes: Vec<Intake>,
}

impl Sample {
    fn of(intakes: Vec<Intake>) -> Self {
        Self { schedules: vec![schedule()], sources: sources(), files: files(), intakes }
    }

    fn write(&self, out: &Path, threads: usize, parts: &[Part]) -> Result<Vec<Written>, Problem> {
        let page = |subject: &Subject<'_>| Ok(format!("<p>{}</p>", subject.assessment.totals.gross));
        self.write_by(out, threads, parts, &Drawn(page))
    }

    fn write_by(
        &self,
        out: &Path,
        threads: usize,
        parts: &[Part],
        draw: &dyn Draw,
    ) -> Result<Vec<Written>, Problem> {
        let run =
            Run { schedules: &self.schedules, sources: &self.sources, files: &self.files, required: &[] };
        let links = Links::from([("storm/counts.xlsx".to_owned(), "../storm/counts.xlsx".to_owned())]);
        let parts = parts.iter().copied().collect();
        let order = Order {
            folder: OutputFolder::begin(out, 1)?,
            parts,
            date: None,
            links,
            draw,
            keep: Keep::ALL,
            agreed: None,
            earlier: EarlierCars::default(),
            reused: None,
            for_all: BTreeSet::new(),
        };
        let mut output = Output::begin(order, run)?;
        output.report(&catalogue::file::unreadable("storm/lost.csv", "not there"))?;
        let assess = |intake: &Intake| {
            if intake.is_stopped() { Err(intake.problems.clone()) } else { Ok(assessment(intake)) }
        };
        run_with(&*self.intakes, Some(threads), assess, &mut output).map_err(|stopped| match stopped {
            Stopped::Sink(problem) => problem,
            Stopped::Source(never) => match never {},
        })?;
        output.finish().map(|(_, written)| written)
    }
}

fn storm() -> Sample {
    let key = |i: usize| format!("HC-{i:03}");
    Sample::of((0..150).map(|i| if i % 7 == 6 { stopped(&key(i)) } else { intake(&key(i)) }).collect())
}

fn text(out: &Path, name: &str) -> String {
    fs::read_to_string(out.join(name)).unwrap()
}

fn rows(out: &Path, name: &str) -> Vec<BTreeMap<String, String>> {
    crate::storm::rows(&out.join(name))
}

#[test]
fn the_same_input_gives_the_same_bytes_whatever_the_number_of_threads() {
    let dir = TempDir::new().unwrap();
    let storm = storm();
    let one = storm.write(&dir.path().join("one"), 1, &ALL).unwrap();
    let four = storm.write(&dir.path().join("four"), 4, &ALL).unwrap();
    assert_eq!(one, four, "every file by its digest");
    assert_eq!(
        one.len(),
        129 + 9,
        "a document for each priced claim, seven tables, what describes them, the overview"
    );
    assert_eq!(text(&dir.path().join("one"), RECORD), text(&dir.path().join("four"), RECORD));
}

#[test]
fn only_what_is_asked_for_is_written_and_exceptions_and_the_record_always() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    let written = storm().write(&out, 2, &[Part::Lines]).unwrap();
    let names: Vec<&str> = written.iter().map(|file| file.path.as_str()).collect();
    assert_eq!(names, ["datapackage.json", "exceptions.csv", "lines.csv"]);
    assert_eq!(fs::read_dir(&out).unwrap().count(), 4);
}

#[test]
fn every_claim_is_listed_priced_or_not() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    storm().write(&out, 2, &ALL).unwrap();
    let claims = rows(&out, "claims.csv");
    assert_eq!(claims.len(), 150);
    let priced = &claims[0];
    assert_eq!(priced["claim"], "HC-000");
    assert_eq!(priced["outcome"], "needs a person");
    assert_eq!((priced["net"].as_str(), priced["gross"].as_str()), ("120.00", "142.80"));
    assert_eq!((priced["insurer pays"].as_str(), priced["owner bears"].as_str()), ("92.80", "50.00"));
    assert_eq!((priced["open panels"].as_str(), priced["panels referred"].as_str()), ("1", "1"));
    assert_eq!(text(&out, &priced["document"]), "<p>142.80</p>");
    let stopped = &claims[6];
    assert_eq!(stopped["outcome"], "not priced");
    assert_eq!(
        (stopped["net"].as_str(), stopped["document"].as_str(), stopped["errors"].as_str()),
        ("", "", "1")
    );
}

#[test]
fn the_lines_of_a_claim_sum_to_its_net() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    storm().write(&out, 2, &ALL).unwrap();
    let lines = rows(&out, "lines.csv");
    assert_eq!(lines.len(), 129);
    assert_eq!(lines[0]["amount"], rows(&out, "claims.csv")[0]["net"]);
    assert_eq!(lines[0]["what for"], "12 dents 0-10 mm, count 1-20 dents");
    assert_eq!(lines[0]["rate stands in"], "storm/rates.xlsx Terms!B20");
}

#[test]
fn a_panel_keeps_none_written_not_inspected_and_open_apart() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    storm().write(&out, 2, &ALL).unwrap();
    let panels = rows(&out, "panels.csv");
    assert_eq!((panels[0]["panel"].as_str(), panels[0]["counts"].as_str()), ("hood", "0-10 mm: 12"));
    assert_eq!(panels[1]["open because"], "a person has to look at it");
    assert_eq!((panels[1]["amount"].as_str(), panels[1]["measured"].as_str()), ("", "168 dents"));
    assert_eq!((panels[2]["state"].as_str(), panels[2]["counts"].as_str()), ("not inspected", ""));
}

#[test]
fn exceptions_hold_the_problems_of_the_run_and_of_every_claim_with_their_cells() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    storm().write(&out, 2, &ALL).unwrap();
    let exceptions = rows(&out, "exceptions.csv");
    assert_eq!(exceptions.len(), 1 + 21);
    assert_eq!((exceptions[0]["claim"].as_str(), exceptions[0]["file"].as_str()), ("", ""));
    let of_claim = &exceptions[1];
    assert_eq!(of_claim["claim"], "HC-006");
    assert_eq!(of_claim["file"], "storm/counts.xlsx");
    assert_eq!((of_claim["sheet"].as_str(), of_claim["cell"].as_str()), ("Counts", "D3"));
    assert_eq!(of_claim["as written"], "'=HYPERLINK(\"x\")", "a formula is guarded");
    assert_eq!(of_claim["see also"], "storm/counts.xlsx Counts!A3");
}

#[test]
fn assessments_are_one_object_per_claim_with_amounts_and_places_as_strings() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    storm().write(&out, 2, &ALL).unwrap();
    let lines: Vec<serde_json::Value> =
        text(&out, "assessments.jsonl").lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(lines.len(), 150);
    let claim = &lines[0];
    assert_eq!(claim["format"], 1);
    assert_eq!(claim["assessment"]["totals"]["gross"], "142.80");
    assert_eq!(claim["assessment"]["panels"][1]["limits"][0]["crossed"], "yes");
    assert_eq!(claim["assessment"]["panels"][1]["open"]["is"], "referred");
    assert_eq!(claim["written"]["parties"]["owner"]["at"], "storm/counts.xlsx Counts!F2");
    assert!(lines[6]["assessment"].is_null());
    assert_eq!(lines[6]["problems"][0]["at"], "storm/counts.xlsx Counts!D3");
}

#[test]
fn the_record_counts_and_sums_and_lists_every_file_with_its_digest() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    let written = storm().write(&out, 2, &ALL).unwrap();
    let record: serde_json::Value = serde_json::from_str(&text(&out, RECORD)).unwrap();
    assert_eq!(record["claims"]["all"], 150);
    assert_eq!(record["claims"]["not_priced"], 21);
    assert_eq!(record["panels"]["by_method"]["refer to a person"], 129);
    assert_eq!(record["totals"][0]["net"], "15480.00");
    assert_eq!(record["problems"]["by_code"]["file-unreadable"], 22);
    assert_eq!(record["files"].as_array().unwrap().len(), written.len());
    assert_eq!(record["schedules"][0]["digest"], "d".repeat(64));
}

#[test]
fn hostile_claim_numbers_stay_inside_the_output() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    let keys = ["../../x", "/etc/passwd", "con", "a/../../b", "=cmd|' /c calc'!A1", "\u{0}", "<script>"];
    Sample::of(keys.iter().map(|key| intake(key)).collect()).write(&out, 2, &ALL).unwrap();
    assert_eq!(fs::read_dir(out.join(CLAIMS)).unwrap().count(), keys.len());
    assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 1);
    let claims = rows(&out, "claims.csv");
    assert_eq!(claims[0]["claim"], "../../x");
    assert_eq!(claims[4]["claim"], "'=cmd|' /c calc'!A1");
}

#[test]
fn a_document_that_cannot_be_drawn_ends_the_run_and_the_earlier_output_stands() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    let storm = storm();
    storm.write(&out, 2, &ALL).unwrap();
    let before = text(&out, RECORD);
    let refuse = |subject: &Subject<'_>| match subject.claim.key.text.as_str() {
        "HC-100" => Err(catalogue::output::not_drawn("HC-100", "claim.html:3:7 names no figure")),
        _ => Ok("other".to_owned()),
    };
    let refused = storm.write_by(&out, 4, &ALL, &Drawn(refuse)).unwrap_err();
    assert_eq!(refused.code.id, "document-not-drawn");
    assert_eq!(text(&out, RECORD), before);
    assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 1);
}

#[test]
fn a_run_without_a_claim_still_writes_its_exceptions() {
    let dir = TempDir::new().unwrap();
    let out = dir.path().join("out");
    Sample::of(Vec::new()).write(&out, 1, &ALL).unwrap();
    assert_eq!(rows(&out, "exceptions.csv").len(), 1);
    assert_eq!(rows(&out, "claims.csv").len(), 0);
}
