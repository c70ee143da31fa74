//! Times the stages one by one on an invented batch of 500 claims: opening and gathering, and assessing with and without a
//! working.

use std::path::PathBuf;
use stipple::assess::{Recorder, Silent, Working, assess};
use stipple::claim::Intake;
use stipple::problem::Sources;
use stipple::read::{Opened, gather, open};
use stipple::schedule::Schedule;
use stipple::table::{Form, Sheet, Table, recognise};

const CLAIMS: u64 = 500;

fn main() {
    divan::main();
}

/// The batch, written once into a folder of its own.
fn batch() -> PathBuf {
    let folder = std::env::temp_dir().join(format!("stipple-stages-{}", std::process::id()));
    stipple_bench::generate(CLAIMS, stipple_bench::Order::Claims, &folder)
        .expect("the temporary folder can be written");
    folder
}

fn tables<'s>(sheets: &'s [Sheet], forms: &[&'static Form]) -> Vec<Table<'s>> {
    sheets.iter().flat_map(|sheet| recognise(sheet, forms).tables).collect()
}

fn claims(folder: &std::path::Path) -> (Vec<Intake>, Sources) {
    let opened = open(&[folder.join("counts.csv"), folder.join("vehicles.csv")]);
    let tables = tables(&opened.sheets, stipple::read::forms());
    let (intakes, _) = gather(&tables, &opened.sources);
    (intakes, opened.sources)
}

fn schedule(folder: &std::path::Path) -> Schedule {
    let opened: Opened = open(&[folder.join("schedule")]);
    let tables = tables(&opened.sheets, stipple::schedule::forms());
    let tables: Vec<&Table<'_>> = tables.iter().collect();
    match stipple::schedule::read(&tables, &opened.files, &opened.sources) {
        Ok((schedule, _)) => schedule,
        Err(problems) => panic!("the invented schedule does not stand: {problems:?}"),
    }
}

#[divan::bench]
fn open_and_gather(bencher: divan::Bencher<'_, '_>) {
    let folder = batch();
    bencher.counter(divan::counter::ItemsCount::new(CLAIMS)).bench_local(|| claims(&folder));
}

#[divan::bench]
fn read_a_schedule(bencher: divan::Bencher<'_, '_>) {
    let folder = batch();
    bencher.bench_local(|| schedule(&folder));
}

#[divan::bench]
fn assess_without_working(bencher: divan::Bencher<'_, '_>) {
    assess_all(bencher, || Silent);
}

#[divan::bench]
fn assess_with_working(bencher: divan::Bencher<'_, '_>) {
    assess_all(bencher, Working::default);
}

fn assess_all<R: Recorder>(bencher: divan::Bencher<'_, '_>, recorder: impl Fn() -> R) {
    let folder = batch();
    let (intakes, _) = claims(&folder);
    let schedule = schedule(&folder);
    bencher.counter(divan::counter::ItemsCount::new(intakes.len())).bench_local(|| {
        for intake in &intakes {
            let assessed = assess(&intake.claim, &schedule, 0, None, &mut recorder());
            divan::black_box(assessed.is_ok());
        }
    });
}
