//! Counts the memory that a comparison takes beside what reading holds: `weigh_comparing CARS PEOPLE FOLDER`.
//!
//! Every allocation is counted, so that memory which reading gave back does not hide what comparing takes. One thread and
//! two give nearly the same; sizes are those of any build.

use std::alloc::{GlobalAlloc, Layout, System};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::atomic::{AtomicU64, Ordering::Relaxed};
use stipple::compare::comparison::{Options, compare};
use stipple::table::{Table, recognise};
use stipple::{read, schedule};
use stipple_bench::{generate_looks, megabytes};

/// Bytes held now, and the most that were.
static HELD: AtomicU64 = AtomicU64::new(0);
static MOST: AtomicU64 = AtomicU64::new(0);

/// The system's allocator, counted.
struct Counted;

// SAFETY: every call goes to the system's allocator as it came.
unsafe impl GlobalAlloc for Counted {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        let held = HELD.fetch_add(layout.size() as u64, Relaxed) + layout.size() as u64;
        MOST.fetch_max(held, Relaxed);
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, pointer: *mut u8, layout: Layout) {
        HELD.fetch_sub(layout.size() as u64, Relaxed);
        unsafe { System.dealloc(pointer, layout) }
    }
}

#[global_allocator]
static ALLOCATOR: Counted = Counted;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [cars, people, folder] = &arguments[..] else {
        eprintln!("usage: weigh_comparing CARS PEOPLE FOLDER");
        return ExitCode::from(2);
    };
    let (Ok(cars), Ok(people)) = (cars.parse(), people.parse()) else {
        eprintln!("CARS and PEOPLE are whole numbers");
        return ExitCode::from(2);
    };
    match weigh(cars, people, Path::new(folder)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn weigh(cars: u64, people: u64, folder: &Path) -> Result<(), String> {
    let batch = folder.join("batch");
    generate_looks(cars, people, &batch).map_err(|error| error.to_string())?;
    let intakes = {
        let paths: Vec<PathBuf> = ["counts.csv", "vehicles.csv"].map(|name| batch.join(name)).into();
        let opened = read::open(&paths);
        let of_sheet = |sheet| recognise(sheet, read::forms()).tables;
        let tables: Vec<Table<'_>> = opened.sheets.iter().flat_map(of_sheet).collect();
        read::gather(&tables, &opened.sources).0
    };
    let opened = read::open(&[batch.join("schedule")]);
    let tables: Vec<Table<'_>> =
        opened.sheets.iter().flat_map(|sheet| recognise(sheet, schedule::forms()).tables).collect();
    let tables: Vec<&Table<'_>> = tables.iter().collect();
    let (terms, _) = schedule::read(&tables, &opened.files, &opened.sources)
        .map_err(|problems| format!("{} problems in the schedule", problems.len()))?;
    let before = HELD.load(Relaxed);
    MOST.store(before, Relaxed);
    let comparison = compare(&intakes[..], &[terms], &Options::default());
    let (held, most) = (HELD.load(Relaxed), MOST.load(Relaxed));
    let cars = comparison.map_err(|none| format!("nothing is compared: {none:?}"))?.cars.len();
    println!("{cars} cars compared by {people} people");
    println!("claims as read      {:>12}", megabytes(before));
    println!("the comparison      {:>12}", megabytes(held.saturating_sub(before)));
    println!("at most beside both {:>12}", megabytes(most.saturating_sub(held)));
    Ok(())
}
