//! Invented counts of invented cars, read and compared as the program does it.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use stipple::claim::{InputFile, Intake};
use stipple::compare::comparison::{Comparison, Options, compare};
use stipple::problem::{Problem, Sources};
use stipple::quantity::parse_date;
use stipple::report::comparison::Compared;
use stipple::report::comparison::document::{Report, fill};
use stipple::report::document::Imprint;
use stipple::report::tables::Run;
use stipple::report::words::Words;
use stipple::schedule::Schedule;
use stipple::{read, schedule, table};

/// Everything that was read.
pub struct Batch {
    pub intakes: Vec<Intake>,
    pub schedules: Vec<Schedule>,
    pub files: Vec<InputFile>,
    pub problems: Vec<Problem>,
    pub sources: Sources,
}

/// The demonstration's schedule in CSV files.
pub fn rates() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo_claims/schedules/hobbin_and_rusk")
}

/// Reads files and the demonstration's schedule.
pub fn receive(paths: &[PathBuf]) -> Batch {
    let all: Vec<PathBuf> = paths.iter().cloned().chain([rates()]).collect();
    let opened = read::open(&all);
    let forms: Vec<_> = read::forms().iter().chain(schedule::forms()).copied().collect();
    let mut problems = opened.problems;
    let (mut claims, mut rates) = (Vec::new(), Vec::new());
    for sheet in &opened.sheets {
        let recognition = table::recognise(sheet, &forms);
        problems.extend(table::unrecognised(sheet, &recognition, &forms));
        for table in recognition.tables {
            if read::forms().contains(&table.form) { claims.push(table) } else { rates.push(table) }
        }
    }
    let schedules = schedule::groups(&rates, &opened.sources)
        .iter()
        .map(|tables| schedule::read(tables, &opened.files, &opened.sources).unwrap().0)
        .collect();
    let (intakes, of_no_claim) = read::gather(&claims, &opened.sources);
    problems.extend(of_no_claim);
    Batch { intakes, schedules, files: opened.files, problems, sources: opened.sources }
}

/// A batch with its comparison.
pub struct Case {
    pub batch: Batch,
    pub comparison: Comparison,
    pub letters: bool,
}

impl Case {
    /// Of a table of vehicles and a table of counts, both as CSV.
    pub fn of(vehicles: &str, counts: &str) -> Self {
        Self::by(vehicles, counts, &Options::default())
    }

    pub fn by(vehicles: &str, counts: &str, options: &Options) -> Self {
        let dir = tempfile::tempdir().unwrap();
        let (first, second) = (dir.path().join("vehicles.csv"), dir.path().join("counts.csv"));
        std::fs::write(&first, vehicles).unwrap();
        std::fs::write(&second, counts).unwrap();
        let mut batch = receive(&[first, second]);
        // The place of a file is not what is tested.
        for file in &mut batch.files {
            file.path = file.path.rsplit('/').next().unwrap().to_owned();
        }
        let comparison = compare(&batch.intakes[..], &batch.schedules, options).unwrap();
        Self { batch, comparison, letters: options.letters }
    }

    /// None where nothing can be compared.
    pub fn tried(vehicles: &str, counts: &str) -> Option<Self> {
        let dir = tempfile::tempdir().unwrap();
        let (first, second) = (dir.path().join("vehicles.csv"), dir.path().join("counts.csv"));
        std::fs::write(&first, vehicles).unwrap();
        std::fs::write(&second, counts).unwrap();
        let batch = receive(&[first, second]);
        let comparison = compare(&batch.intakes[..], &batch.schedules, &Options::default()).ok()?;
        Some(Self { batch, comparison, letters: false })
    }

    pub fn compared(&self) -> Compared<'_> {
        let (schedules, files) = (self.batch.schedules.as_slice(), self.batch.files.as_slice());
        let run = Run { schedules, sources: &self.batch.sources, files, required: &[] };
        Compared { comparison: &self.comparison, run }
    }

    pub fn report(&self) -> Report {
        let imprint = Imprint {
            tool_version: "0.0.0",
            run_date: parse_date("2025-07-01").ok(),
            words: Words::english(),
        };
        fill(&self.compared(), &imprint, self.letters)
    }
}

/// A table of so many cars on the demonstration's invented insurer.
pub fn vehicles(cars: usize) -> String {
    let mut text = "claim,registration,insurer,make,model,body type,date of loss\n".to_owned();
    for car in 1..=cars {
        let _ = writeln!(text, "EX-{car:03},EX {car:03},Hobbin & Rusk,Example,One,saloon,2025-06-20");
    }
    text
}

/// The headings of a table of counts in the schedule's sizes.
pub const COUNTS: &str = "claim,assessor,role,panel,side,0-17 mm,17-29 mm,29-46 mm\n";

/// A reproducible row of small numbers, from a linear congruential generator (Knuth's MMIX constants).
pub struct Numbers(pub u64);

impl Numbers {
    pub fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % most.max(1)
    }
}

/// Counts of so many cars by these people: what is there, and what each of them makes of it.
pub fn storm(cars: usize, people: &[(&str, &str)]) -> String {
    const PANELS: [(&str, &str, u64); 9] = [
        ("hood", "", 60),
        ("roof", "", 90),
        ("fender", "left", 14),
        ("fender", "right", 14),
        ("front door", "left", 18),
        ("front door", "right", 18),
        ("rear door", "left", 12),
        ("rear door", "right", 12),
        ("trunk lid", "", 40),
    ];
    let mut numbers = Numbers(8);
    let mut rows: Vec<String> = vec![String::new(); people.len()];
    for car in 1..=cars {
        let hail = 1 + numbers.below(3);
        for (panel, side, most) in PANELS {
            let there =
                [numbers.below(most * hail) / 2, numbers.below(most * hail) / 6, numbers.below(most) / 20];
            for (index, (who, role)) in people.iter().enumerate() {
                let seen: Vec<String> = there
                    .iter()
                    .map(|dents| {
                        let missed = (dents * numbers.below(9)) / 24;
                        (dents - missed + if index == 0 { dents / 12 } else { 0 }).to_string()
                    })
                    .collect();
                let _ = writeln!(rows[index], "EX-{car:03},{who},{role},{panel},{side},{}", seen.join(","));
            }
        }
    }
    format!("{COUNTS}{}", rows.concat())
}

/// Two people and a few cars.
pub fn two() -> Case {
    Case::of(&vehicles(6), &storm(6, &[("Ilka Sund", "own"), ("Per Marrow", "second")]))
}

/// So many people who counted the same cars.
pub fn many(people: usize, cars: usize) -> Case {
    let names: Vec<String> = (1..=people).map(|number| format!("Person {number:02}")).collect();
    let roles = std::iter::once("own").chain(std::iter::repeat("second"));
    let people: Vec<(&str, &str)> = names.iter().map(String::as_str).zip(roles).collect();
    Case::of(&vehicles(cars), &storm(cars, &people))
}

/// One panel that two people counted, differently.
pub fn one() -> Case {
    Case::of(
        &vehicles(1),
        &format!("{COUNTS}EX-001,Ilka Sund,own,hood,,30,4,0\nEX-001,Per Marrow,second,hood,,41,4,0\n"),
    )
}

/// Two equal counts.
pub fn equal() -> Case {
    Case::of(
        &vehicles(1),
        &format!("{COUNTS}EX-001,Ilka Sund,own,hood,,30,4,0\nEX-001,Per Marrow,second,hood,,30,4,0\n"),
    )
}

/// Two people who looked at different panels of one car.
pub fn apart() -> Case {
    Case::of(
        &vehicles(1),
        &format!("{COUNTS}EX-001,Ilka Sund,own,hood,,30,4,0\nEX-001,Per Marrow,second,roof,,41,4,0\n"),
    )
}
