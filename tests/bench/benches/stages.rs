//! Times the stages one by one on an invented batch of 500 claims: opening and gathering, and assessing with and without a
//! working.

use std::path::PathBuf;
use stipple::assess::{Recorder, Silent, Working, assess};
use stipple_bench::{claims, schedule};

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

#[divan::bench]
fn open_and_gather(bencher: divan::Bencher<'_, '_>) {
    let folder = batch();
    bencher.counter(divan::counter::ItemsCount::new(CLAIMS)).bench_local(|| claims(&folder));
}

#[divan::bench]
fn read_a_schedule(bencher: divan::Bencher<'_, '_>) {
    let folder = batch();
    bencher.bench_local(|| schedule(&folder.join("schedule")));
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
    let schedule = schedule(&folder.join("schedule"));
    bencher.counter(divan::counter::ItemsCount::new(intakes.len())).bench_local(|| {
        for intake in &intakes {
            let assessed = assess(&intake.claim, &schedule, 0, None, &mut recorder());
            divan::black_box(assessed.is_ok());
        }
    });
}
