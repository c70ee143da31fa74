//! Times reading an XLSX workbook of many panel rows against a bare scan of its cells by the library underneath, and the
//! same table as CSV: `read_workbook [ROWS [REPEATS]]`, 200 000 rows as a rule.
//!
//! Some rows and a column of the workbook are hidden; finding them is part of the reading. Each run is a process of its
//! own, so that no memory is counted twice. Printed are the least computing time (all threads, Linux only), the least
//! wall time, and the most resident memory of each.

use calamine::{Reader, Xlsx};
use rust_xlsxwriter::{Workbook, XlsxError};
use std::error::Error;
use std::fs::{self, File};
use std::io::{BufWriter, Cursor, Write};
use std::path::Path;
use std::process::{Command, ExitCode};
use std::time::Instant;

const SIZES: [&str; 9] =
    ["0-5 mm", "6-10 mm", "11-15 mm", "16-20 mm", "21-25 mm", "26-30 mm", "31-40 mm", "41-50 mm", "51-60 mm"];
const PANELS: [&str; 4] = ["roof", "hood", "left front door", "right quarter panel"];
/// Rows that the workbook hides, and its hidden column.
const HIDDEN_ROWS: u32 = 10;
const HIDDEN_COLUMN: u16 = 2;

/// What one process measured of itself.
struct Measured {
    cells: usize,
    wall: f64,
    computing: f64,
    megabytes: f64,
}

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let done = match &arguments[..] {
        [what, file] if what == "scan" => tell(|| scan(Path::new(file))),
        [what, file] if what == "read" => tell(|| read(Path::new(file))),
        _ => asked_for(&arguments),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}\nusage: read_workbook [ROWS [REPEATS]]");
            ExitCode::FAILURE
        }
    }
}

/// Measures as many rows as often as the arguments say.
fn asked_for(arguments: &[String]) -> Result<(), Box<dyn Error>> {
    let rows = arguments.first().map_or(Ok(200_000), |text| text.parse())?;
    let repeats = arguments.get(1).map_or(Ok(5), |text| text.parse())?;
    let folder = std::env::temp_dir().join(format!("stipple-rows-{}", std::process::id()));
    fs::create_dir_all(&folder)?;
    let done = compare(rows, repeats, &folder);
    fs::remove_dir_all(&folder)?;
    done
}

fn compare(rows: u32, repeats: usize, folder: &Path) -> Result<(), Box<dyn Error>> {
    let (workbook, text) = (folder.join("counts.xlsx"), folder.join("counts.csv"));
    write_workbook(rows, &workbook)?;
    write_text(rows, &text)?;
    let kilobytes = |path: &Path| fs::metadata(path).map(|about| about.len() / 1024);
    println!(
        "{rows} panel rows of {} cells; XLSX {} kB, CSV {} kB",
        SIZES.len() + 3,
        kilobytes(&workbook)?,
        kilobytes(&text)?
    );
    println!("{:<28}{:>12}{:>10}{:>12}{:>12}", "", "computing", "wall", "memory", "cells");
    let runs = [
        ("bare scan of the cells", "scan", &workbook),
        ("XLSX read, cells kept", "read", &workbook),
        ("CSV read, cells kept", "read", &text),
    ];
    let mut least: [Option<Measured>; 3] = [const { None }; 3];
    for _ in 0..repeats.max(1) {
        for ((_, what, file), least) in runs.iter().zip(&mut least) {
            let now = measured(what, file)?;
            let before = least.as_ref();
            *least = Some(Measured {
                computing: before.map_or(now.computing, |before| before.computing.min(now.computing)),
                wall: before.map_or(now.wall, |before| before.wall.min(now.wall)),
                megabytes: before.map_or(now.megabytes, |before| before.megabytes.max(now.megabytes)),
                ..now
            });
        }
    }
    for ((name, ..), Measured { cells, wall, computing, megabytes }) in
        runs.iter().zip(least.iter().flatten())
    {
        println!("{name:<28}{computing:>10.2} s{wall:>8.2} s{megabytes:>9.1} MB{cells:>12}");
    }
    if let [Some(scan), Some(read), _] = &least {
        println!("times the computing of the bare scan {:.2}", read.computing / scan.computing);
        println!("times its wall time                  {:.2}", read.wall / scan.wall);
    }
    Ok(())
}

/// One run in a process of its own.
fn measured(what: &str, file: &Path) -> Result<Measured, Box<dyn Error>> {
    let output = Command::new(std::env::current_exe()?).arg(what).arg(file).output()?;
    let said = String::from_utf8(output.stdout)?;
    let fields: Vec<&str> = said.split_whitespace().collect();
    let [cells, wall, computing, megabytes] = &fields[..] else {
        return Err(String::from_utf8_lossy(&output.stderr).into_owned().into());
    };
    Ok(Measured {
        cells: cells.parse()?,
        wall: wall.parse()?,
        computing: computing.parse()?,
        megabytes: megabytes.parse()?,
    })
}

/// Runs, and prints what it took.
fn tell(run: impl FnOnce() -> Result<usize, Box<dyn Error>>) -> Result<(), Box<dyn Error>> {
    let start = Instant::now();
    let cells = run()?;
    let wall = start.elapsed().as_secs_f64();
    println!("{cells} {wall} {} {}", computing(), peak());
    Ok(())
}

/// Seconds that all threads of this process computed, to a hundredth: 0 elsewhere than on Linux.
fn computing() -> f64 {
    let about = fs::read_to_string("/proc/self/stat").unwrap_or_default();
    // The name of the program may hold blanks; after it the 12th and 13th field are what was used in its own code and
    // in the kernel, in hundredths of a second.
    let after = about.rsplit_once(") ").map_or("", |(_, after)| after);
    after.split(' ').skip(11).take(2).filter_map(|ticks| ticks.parse::<f64>().ok()).sum::<f64>() / 100.0
}

/// The kernel's high-water mark of this process, in megabytes: 0 elsewhere than on Linux.
fn peak() -> f64 {
    let about = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = about.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap_or_default();
    let kilobytes = line.split_whitespace().next().and_then(|kilobytes| kilobytes.parse::<f64>().ok());
    kilobytes.unwrap_or_default() * 1024.0 / 1e6
}

fn scan(path: &Path) -> Result<usize, Box<dyn Error>> {
    let bytes = fs::read(path)?;
    let mut book = Xlsx::new(Cursor::new(&bytes))?;
    let sheet = book.sheet_names().first().cloned().ok_or("no sheet")?;
    let mut reader = book.worksheet_cells_reader(&sheet)?;
    let mut cells = 0;
    while reader.next_cell()?.is_some() {
        cells += 1;
    }
    Ok(cells)
}

fn read(path: &Path) -> Result<usize, Box<dyn Error>> {
    let opened = stipple::read::open(&[path.to_owned()]);
    let sheet = opened.sheets.first().ok_or("no sheet was read")?;
    let hidden = (sheet.hidden_rows.len(), sheet.hidden_columns.len());
    if path.extension().is_some_and(|ending| ending == "xlsx") && hidden != (HIDDEN_ROWS as usize, 1) {
        return Err("the hidden parts were not found".into());
    }
    Ok(sheet.rows.iter().map(|row| row.cells.len()).sum())
}

/// The cells of a row: names, then counts.
fn names(row: u32) -> [String; 3] {
    let panel = PANELS[row as usize % PANELS.len()].to_owned();
    [format!("A-{}", row / 13), panel, "seen twice".to_owned()]
}

fn counts(row: u32) -> [u32; SIZES.len()] {
    std::array::from_fn(|size| (row * 7 + size as u32) % 40)
}

const HEADINGS: [&str; 3] = ["claim", "panel", "remark"];

fn write_workbook(rows: u32, path: &Path) -> Result<(), XlsxError> {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet_with_constant_memory()?;
    sheet.set_column_hidden(HIDDEN_COLUMN)?;
    for (column, heading) in (0..).zip(HEADINGS.into_iter().chain(SIZES)) {
        sheet.write_string(0, column, heading)?;
    }
    for row in 1..=rows {
        if row <= HIDDEN_ROWS {
            sheet.set_row_hidden(row)?;
        }
        for (column, name) in (0..).zip(names(row)) {
            sheet.write_string(row, column, name)?;
        }
        for (column, count) in (3..).zip(counts(row)) {
            sheet.write_number(row, column, count)?;
        }
    }
    book.save(path)
}

fn write_text(rows: u32, path: &Path) -> std::io::Result<()> {
    let mut out = BufWriter::new(File::create(path)?);
    writeln!(out, "{},{}", HEADINGS.join(","), SIZES.join(","))?;
    for row in 1..=rows {
        write!(out, "{}", names(row).join(","))?;
        for count in counts(row) {
            write!(out, ",{count}")?;
        }
        writeln!(out)?;
    }
    out.flush()
}
