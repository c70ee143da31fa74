//! The program as people call it.

use crate::storm::Storm;
use std::fs;
use std::io::Read as _;
use std::process::{Command, Stdio};

const ASSESS: &str = "assess storm --schedule prices";

#[test]
fn a_storm_is_assessed_to_the_cent_and_told_on_one_screen() {
    let storm = Storm::new();
    let ran = storm.run(ASSESS).ended(0);
    let claims = storm.rows("storm-assessed/claims.csv");
    let figures: Vec<[&str; 5]> = claims
        .iter()
        .map(|row| ["claim", "outcome", "net", "gross", "insurer pays"].map(|name| row[name].as_str()))
        .collect();
    assert_eq!(
        figures,
        [
            // Hood 90.00 (12 small) + 60.00 (4 middle), roof 90.00 (30 small), door 55.00 (3 middle): 295.00.
            // With 20 % tax 354.00, less an excess of 50.00.
            ["HC-1", "repair", "295.00", "354.00", "304.00"],
            // Hood 45.00; the roof's 80 dents are more than 60: open.
            ["HC-2", "needs a person", "45.00", "54.00", "54.00"],
            // Door 40.00 (9 small); nobody but the owner pays.
            ["J-7", "repair", "40.00", "48.00", "0.00"],
        ]
    );
    for words in ["380.00", "456.00", "1 open panel", "HC-2, roof", "storm-assessed"] {
        assert!(ran.out.contains(words), "{words:?} is not on the screen:\n{}", ran.out);
    }
    let lines = storm.rows("storm-assessed/lines.csv");
    assert_eq!(lines[0]["rate stands in"], "prices/rates.csv D3");
}

#[test]
fn a_screen_foots_and_says_what_is_settled_otherwise_than_by_repair() {
    let vehicles = "claim,insurer,body type,date of loss,settlement,market value,salvage\n\
                    HC-1,Example Mutual,hatchback,2026-06-14,\"total loss, car kept\",2000,300\n\
                    HC-2,Example Mutual,hatchback,2026-06-14,,,\n";
    let counts = "claim,panel,date of inspection,0-10 mm\nHC-1,hood,2026-06-20,2\nHC-2,hood,2026-06-20,12\n";
    let storm = Storm::with(vehicles, counts);
    let terms = fs::read_to_string(storm.path("prices/terms.csv")).unwrap();
    storm.put("prices/terms.csv", &format!("{terms}round total to,5.00\n"));
    let ran = storm.run(ASSESS).ended(0);
    let row = &storm.rows("storm-assessed/claims.csv")[0];
    assert_eq!(
        (row["outcome"].as_str(), row["settled as"].as_str()),
        ("total loss, car kept", "total loss, car kept")
    );
    // 45.00 and 90.00; with 20 % tax 54.00, rounded to 55.00, and 108.00, rounded to 110.00. Settled at 2000.00 of which
    // salvage of 300.00 is kept, and at 110.00.
    for (label, figure) in [
        ("net", "135.00"),
        ("tax", "27.00"),
        ("rounding", "3.00"),
        ("gross", "165.00"),
        ("settled at", "2 110.00"),
        ("insurer pays", "1 810.00"),
        ("owner bears", "0.00"),
        ("salvage kept", "300.00"),
    ] {
        let mut lines = ran.out.lines().map(str::trim).filter_map(|line| line.strip_prefix(label));
        assert!(lines.any(|rest| rest.trim() == figure), "{label} {figure}:\n{}", ran.out);
    }
    assert!(ran.out.contains("of these settled: 1 as total loss, car kept"), "{}", ran.out);
    assert!(ran.out.contains("HC-1, total loss: settled so by the claim sheet"), "{}", ran.out);
    let plain = Storm::new().run(ASSESS).ended(0).out;
    assert!(["rounding", "settled", "salvage"].iter().all(|word| !plain.contains(word)), "{plain}");
}

#[test]
fn the_output_is_the_same_on_any_number_of_threads_and_run_after_run() {
    let storm = Storm::new();
    storm.run(&format!("{ASSESS} --threads 1 --out one")).ended(0);
    storm.run(&format!("{ASSESS} --threads 4 --out four")).ended(0);
    let one = storm.files("one");
    // Seven tables, what describes them, the overview, the bordereau as a page, and the record.
    assert_eq!(one.len(), 3 * 4 + 11, "three claims in four kinds of document: {:?}", one.keys());
    assert_eq!(one, storm.files("four"));
    storm.run(&format!("{ASSESS} --threads 2 --out one")).ended(0);
    assert_eq!(one, storm.files("one"));
}

#[test]
fn one_bad_cell_takes_out_its_own_claim_and_is_told_with_its_row() {
    let storm = Storm::but("HC-2,,hood,2026-06-20,2,0", "HC-2,,hood,2026-06-20,twelve,0");
    let ran = storm.run(ASSESS).ended(1);
    let outcomes: Vec<String> =
        storm.rows("storm-assessed/claims.csv").iter().map(|row| row["outcome"].clone()).collect();
    assert_eq!(outcomes, ["repair", "not priced", "repair"]);
    let exceptions = storm.rows("storm-assessed/exceptions.csv");
    let found = exceptions.iter().find(|row| row["severity"] == "error").unwrap();
    assert_eq!((found["claim"].as_str(), found["file"].as_str()), ("HC-2", "storm/counts.csv"));
    assert_eq!((found["cell"].as_str(), found["as written"].as_str()), ("E5", "twelve"));
    assert!(ran.err.contains(">> twelve <<"), "{}", ran.err);
    assert!(ran.out.contains("1 not priced"), "{}", ran.out);
}

#[test]
fn without_a_claim_nothing_is_done() {
    let storm = Storm::new();
    storm.put("notes/notes.csv", "shopping\nmilk\n");
    let ran = storm.run("assess notes --schedule prices").ended(2);
    assert!(ran.err.contains("claims-missing"), "{}", ran.err);
    assert!(!storm.path("notes-assessed").exists());
}

#[test]
fn without_a_schedule_nothing_is_done_and_an_earlier_output_stays() {
    let storm = Storm::new();
    storm.run(ASSESS).ended(0);
    let before = storm.files("storm-assessed");
    let ran = storm.run("assess storm").ended(2);
    assert!(ran.err.contains("schedule-missing"), "{}", ran.err);
    assert_eq!(before, storm.files("storm-assessed"));
}

#[test]
fn an_output_folder_with_other_files_is_refused_before_anything_is_read() {
    let storm = Storm::new();
    storm.put("photos/car.jpg", "x");
    let ran = storm.run(&format!("{ASSESS} --out photos")).ended(2);
    assert!(ran.err.contains("output-folder-not-ours") && ran.err.contains("car.jpg"), "{}", ran.err);
    assert_eq!(storm.files("photos").len(), 1);
    let ran = storm.run(&format!("{ASSESS} --out storm")).ended(2);
    assert!(ran.err.contains("counts.csv"), "the input itself is no output: {}", ran.err);
}

#[test]
fn only_the_parts_that_are_asked_for_are_written() {
    let storm = Storm::new();
    storm.run(&format!("{ASSESS} --write claims,lines")).ended(0);
    let files = storm.files("storm-assessed");
    let names: Vec<&String> = files.keys().collect();
    assert_eq!(names, ["claims.csv", "datapackage.json", "exceptions.csv", "lines.csv", "run.json"]);
}

#[test]
fn json_tells_a_program_what_the_screen_tells_a_person() {
    let storm = Storm::new();
    let ran = storm.run(&format!("{ASSESS} --json")).ended(0);
    let told: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(told["exit_code"], 0);
    assert_eq!(told["out"], "storm-assessed");
    assert_eq!(told["run"]["totals"][0]["gross"], "456.00");
    assert_eq!(told["to_decide"][0]["claim"], "HC-2");
    let ran = storm.run("assess storm --json").ended(2);
    let told: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(told["exit_code"], 2);
    assert!(told["problems"].as_array().unwrap().iter().any(|problem| problem["code"] == "schedule-missing"));
}

#[test]
fn a_check_reports_everything_and_writes_nothing() {
    let storm = Storm::but("HC-2,,hood,2026-06-20,2,0", "HC-2,,hood,2026-06-20,-2,0");
    let before = storm.files(".");
    let ran = storm.run("check storm prices").ended(1);
    assert!(ran.err.contains("counts.csv, line 5, column E"), "{}", ran.err);
    assert_eq!(before, storm.files("."));
    Storm::new().run("check storm prices").ended(0);
}

#[test]
fn explain_shows_a_claim_or_one_panel_of_it() {
    let storm = Storm::new();
    let ran = storm.run("explain storm prices --claim hc-1").ended(0);
    assert!(ran.out.contains("354.00") || ran.out.contains("295.00"), "{}", ran.out);
    let ran = storm.run("explain storm prices --claim HC-1 --panel roof --json").ended(0);
    let told: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(told["assessment"]["panels"].as_array().unwrap().len(), 1);
    assert_eq!(told["assessment"]["panels"][0]["amount"], "90.00");
    assert!(!told["assessment"]["working"].as_array().unwrap().is_empty());
    let ran = storm.run("explain storm prices --claim HC-3").ended(2);
    assert!(ran.err.contains("no-such-claim") && ran.err.contains("HC-1"), "{}", ran.err);
    let ran = storm.run("explain storm prices --claim HC-1 --panel sunroof").ended(2);
    assert!(ran.err.contains("no-such-panel"), "{}", ran.err);
}

#[test]
fn the_date_given_counts_for_claims_that_carry_none() {
    let job = "job,panel,0-10 mm,10-20 mm\nJ-1,hood,3,1\n";
    let storm = Storm::new();
    storm.put("job.csv", job);
    storm.run("assess job.csv --schedule prices --date 2026-06-20").ended(0);
    assert_eq!(storm.rows("job-assessed/claims.csv")[0]["net"], "105.00");
    storm.run("assess job.csv --schedule prices --date 2025-06-20").ended(1);
    assert_eq!(storm.rows("job-assessed/claims.csv")[0]["outcome"], "not priced");
    let ran = storm.run("assess job.csv --schedule prices --date 31.02.2026").ended(2);
    assert!(ran.err.contains("there is no such day"), "{}", ran.err);
}

#[test]
fn cells_that_mean_harm_do_none() {
    let storm = Storm::but("HC-1", "../../x");
    let counts = fs::read_to_string(storm.path("storm/counts.csv")).unwrap();
    let vehicles = fs::read_to_string(storm.path("storm/vehicles.csv")).unwrap();
    let vehicles = vehicles.replace("A. Owner", "<script>alert(1)</script>").replace("HC-2", "=1+1");
    storm.put("storm/vehicles.csv", &vehicles);
    storm.put("storm/counts.csv", &counts.replace("HC-2", "=1+1"));
    storm.run(ASSESS).ended(0);
    let files = storm.files("storm-assessed");
    assert_eq!(files.keys().filter(|name| name.starts_with("claims/")).count(), 3, "{:?}", files.keys());
    for (name, bytes) in files.iter().filter(|(name, _)| name.starts_with("claims/")) {
        let page = String::from_utf8_lossy(bytes);
        assert!(!page.contains("<script>alert"), "{name}");
    }
    let claims = storm.rows("storm-assessed/claims.csv");
    assert_eq!((claims[0]["claim"].as_str(), claims[1]["claim"].as_str()), ("../../x", "'=1+1"));
}

#[test]
fn what_is_no_terminal_gets_no_colours() {
    let storm = Storm::but("HC-2,,hood,2026-06-20,2,0", "HC-2,,hood,2026-06-20,x\u{1b}[31m,0");
    let ran = storm.run(ASSESS).ended(1);
    assert!(!ran.out.contains('\u{1b}') && !ran.err.contains('\u{1b}'), "{}{}", ran.out, ran.err);
}

#[test]
fn wrong_use_ends_with_two() {
    let storm = Storm::new();
    for line in
        ["", "assess", "assess storm --write letters", "assess storm --threads 0", "problem claim-missing"]
    {
        storm.run(line).ended(2);
    }
    assert!(storm.run("problem claim-missing").err.contains("did you mean: claims-missing"));
}

#[test]
fn every_problem_is_listed_and_explained() {
    let storm = Storm::new();
    let list = storm.run("problem").ended(0).out;
    for code in stipple::problem::all_codes() {
        assert!(list.contains(code.id), "{}", code.id);
    }
    let page = storm.run("problem OUTPUT-FOLDER-BUSY").ended(0).out;
    assert!(page.starts_with("output-folder-busy (error): another run is writing this output"), "{page}");
    assert!(page.lines().all(|line| line.chars().count() <= 100), "{page}");
}

#[test]
fn completions_and_a_man_page_are_printed() {
    let storm = Storm::new();
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        assert!(storm.run(&format!("completions {shell}")).ended(0).out.contains("assess"), "{shell}");
    }
    let page = storm.run("man").ended(0).out;
    for heading in [".SH \"STIPPLE ASSESS\"", ".SH \"EXIT STATUS\""] {
        assert!(page.contains(heading), "{heading}");
    }
}

#[test]
fn a_reader_that_goes_away_is_no_error() {
    let mut program = Command::new(env!("CARGO_BIN_EXE_stipple"))
        .args(["completions", "zsh"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(program.stdout.take());
    let mut told = String::new();
    program.stderr.take().unwrap().read_to_string(&mut told).unwrap();
    assert_eq!(program.wait().unwrap().code(), Some(0));
    assert_eq!(told, "");
}

#[cfg(not(feature = "pdf"))]
#[test]
fn a_program_without_pdf_says_how_to_get_it_before_anything_is_read_or_written() {
    let storm = Storm::new();
    let ran = storm.run(&format!("{ASSESS} --pdf")).ended(2);
    assert!(ran.err.contains("pdf-left-out") && ran.err.contains("--features pdf"), "{}", ran.err);
    assert!(!storm.path("storm-assessed").exists());
    storm.run(&format!("{ASSESS} --paper letter")).ended(2);
}

#[cfg(feature = "pdf")]
#[test]
fn pdf_files_stand_beside_the_pages_and_what_no_font_can_draw_is_told_with_its_cell() {
    let storm = Storm::with(
        "claim,insurer,owner,body type,date of loss\nHC-1,Example Mutual,Ωραία Жук,hatchback,2026-06-14\n\
         HC-2,Example Mutual,\u{6771}\u{4eac},hatchback,2026-06-14\n",
        "claim,panel,date of inspection,0-10 mm\nHC-1,hood,2026-06-20,2\nHC-2,hood,2026-06-20,12\n",
    );
    storm.run(&format!("{ASSESS} --pdf --paper letter")).ended(0);
    let exists = |name: &str| storm.path(&format!("storm-assessed/{name}")).exists();
    for below in ["claims", "work-orders", "owners"] {
        for name in ["HC-1", "HC-2"] {
            assert!(exists(&format!("{below}/{name}.html")), "{below}/{name}");
        }
        assert!(exists(&format!("{below}/HC-1.pdf")), "{below}");
    }
    assert!(!exists("claims/HC-2.pdf") && !exists("owners/HC-2.pdf"));
    assert!(exists("work-orders/HC-2.pdf"), "it names no owner");
    let told: Vec<_> = storm
        .rows("storm-assessed/exceptions.csv")
        .into_iter()
        .filter(|row| row["code"] == "pdf-character-without-font")
        .map(|row| {
            [row["severity"].clone(), row["claim"].clone(), row["cell"].clone(), row["as written"].clone()]
        })
        .collect();
    assert_eq!(told, [["warning", "HC-2", "C3", "\u{6771}\u{4eac}"]]);
}

#[cfg(feature = "pdf")]
#[test]
fn a_folder_of_fonts_for_pdf_without_one_that_can_be_read_is_refused_before_anything_is_written() {
    let storm = Storm::new();
    for (name, text) in [("none/licence.txt", "free"), ("broken/a.ttf", "no font")] {
        storm.put(name, text);
        let folder = name.split('/').next().unwrap();
        let ran = storm.run(&format!("{ASSESS} --pdf --fonts {folder}")).ended(2);
        assert!(ran.err.contains("fonts-not-read") && ran.err.contains(folder), "{}", ran.err);
    }
    storm.run(&format!("{ASSESS} --pdf --fonts nowhere")).ended(2);
    assert!(!storm.path("storm-assessed").exists());
}

#[cfg(feature = "pdf")]
#[test]
fn pdf_files_of_a_batch_are_the_same_bytes_on_one_thread_and_on_two() {
    // More claims than a thread's stack would hold, were each begun inside the one before.
    let numbers = 1..=50;
    let rows = |heading: &str, row: fn(u32) -> String| {
        let rows: Vec<String> = numbers.clone().map(row).collect();
        format!("{heading}\n{}\n", rows.join("\n"))
    };
    let vehicles = rows("claim,insurer,body type,date of loss", |number| {
        format!("HC-{number},Example Mutual,hatchback,2026-06-14")
    });
    let counts = rows("claim,panel,date of inspection,0-10 mm", |number| {
        format!("HC-{number},hood,2026-06-20,{}", number % 9 + 1)
    });
    let storm = Storm::with(&vehicles, &counts);
    for threads in ["1", "2"] {
        storm.run(&format!("{ASSESS} --pdf --write owners --threads {threads} --out on-{threads}")).ended(0);
    }
    for number in numbers {
        let read = |out: &str| fs::read(storm.path(&format!("{out}/owners/HC-{number}.pdf"))).unwrap();
        assert!(read("on-1") == read("on-2"), "HC-{number}");
    }
}
