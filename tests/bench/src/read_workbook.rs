//! Times reading an XLSX workbook of many panel rows against a bare scan of its cells by the same library:
//! `read-workbook [ROWS]`. Some rows and columns of it are hidden; finding them is part of the reading.
//!
//! Memory is the kernel's high-water mark of this process (Linux), so that the second figure holds the first.

use calamine::{Reader, Xlsx};
use rust_xlsxwriter::Workbook;
use std::fs;
use std::io::Cursor;
use std::path::Path;
use std::process::ExitCode;
use std::time::Instant;

/// Runs of each, of which the fastest counts.
const RUNS: usize = 3;
const SIZES: [&str; 9] =
    ["0-5 mm", "6-10 mm", "11-15 mm", "16-20 mm", "21-25 mm", "26-30 mm", "31-40 mm", "41-50 mm", "51-60 mm"];

fn main() -> ExitCode {
    let rows = std::env::args().nth(1).and_then(|rows| rows.parse().ok()).unwrap_or(200_000);
    let folder = std::env::temp_dir().join(format!("stipple-workbook-{}", std::process::id()));
    let measured = fs::create_dir_all(&folder).map_err(Into::into).and_then(|()| measure(rows, &folder));
    let _ = fs::remove_dir_all(&folder);
    match measured {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn measure(rows: u32, folder: &Path) -> Result<(), Box<dyn std::error::Error>> {
    let path = folder.join("counts.xlsx");
    write(rows, &path)?;
    let bytes = fs::read(&path)?;
    println!("{rows} rows of {} cells, {} kB", SIZES.len() + 3, bytes.len() / 1024);
    let (scan, cells) = fastest(|| scan(&bytes))?;
    println!("bare scan of the cells  {scan:>8.2} s  {:>6} MB  {cells} cells", peak());
    let (read, cells) = fastest(|| {
        let opened = stipple::read::open(std::slice::from_ref(&path));
        let sheet = opened.sheets.first().ok_or("no sheet was read")?;
        if sheet.hidden_rows.len() != 10 || sheet.hidden_columns.len() != 1 {
            return Err("the hidden parts were not found".into());
        }
        Ok(sheet.rows.iter().map(|row| row.cells.len()).sum())
    })?;
    println!("read, all cells kept    {read:>8.2} s  {:>6} MB  {cells} cells", peak());
    println!("times as long           {:>8.2}", read / scan);
    Ok(())
}

fn fastest(
    run: impl Fn() -> Result<usize, Box<dyn std::error::Error>>,
) -> Result<(f64, usize), Box<dyn std::error::Error>> {
    let mut best = (f64::INFINITY, 0);
    for _ in 0..RUNS {
        let start = Instant::now();
        let cells = run()?;
        let seconds = start.elapsed().as_secs_f64();
        if seconds < best.0 {
            best = (seconds, cells);
        }
    }
    Ok(best)
}

fn scan(bytes: &[u8]) -> Result<usize, Box<dyn std::error::Error>> {
    let mut book = Xlsx::new(Cursor::new(bytes))?;
    let sheet = book.sheet_names().first().cloned().ok_or("no sheet")?;
    let mut reader = book.worksheet_cells_reader(&sheet)?;
    let mut cells = 0;
    while reader.next_cell()?.is_some() {
        cells += 1;
    }
    Ok(cells)
}

fn write(rows: u32, path: &Path) -> Result<(), Box<dyn std::error::Error>> {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet_with_low_memory()?;
    sheet.set_column_hidden(2)?;
    for (column, heading) in (0..).zip(["claim", "panel", "remark"].into_iter().chain(SIZES)) {
        sheet.write_string(0, column, heading)?;
    }
    for row in 1..=rows {
        sheet.write_string(row, 0, format!("A-{}", row / 13))?;
        sheet.write_string(row, 1, "roof")?;
        sheet.write_string(row, 2, "seen twice")?;
        for column in 3..12 {
            sheet.write_number(row, column, f64::from((row * 7 + u32::from(column)) % 40))?;
        }
        if row <= 10 {
            sheet.set_row_hidden(row)?;
        }
    }
    book.save(path)?;
    Ok(())
}

/// Megabytes.
fn peak() -> u64 {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap_or_default();
    line.split_whitespace().next().and_then(|kilobytes| kilobytes.parse::<u64>().ok()).unwrap_or_default()
        / 1024
}
