//! Several people's counts of one invented batch.

use crate::{ACCESSES, MATERIALS, PANELS, Random, SIZES, schedule, vehicles};
use std::fs::{self, File};
use std::io::{self, BufWriter, Write};
use std::path::Path;

/// What one panel is like.
struct Panel {
    dents: [u64; SIZES.len()],
    material: &'static str,
    access: &'static str,
}

/// Writes `counts.csv`, `vehicles.csv` and `schedule/` as [`crate::generate`] does, with so many people who counted every
/// car. Beside the first, each counts a few dents more or less of every size, so that number and size differ on nearly
/// every damaged panel, and notes another material on one panel of three: up to three causes on a panel.
pub fn generate_looks(cars: u64, people: u64, folder: &Path) -> io::Result<()> {
    let terms = folder.join("schedule");
    fs::create_dir_all(&terms)?;
    let mut random = Random(2026);
    let mut out = BufWriter::new(File::create(folder.join("counts.csv"))?);
    write!(out, "claim,assessor,role,panel,material,access")?;
    for (size, ..) in SIZES {
        write!(out, ",{size}")?;
    }
    writeln!(out)?;
    for car in 1..=cars {
        let there: Vec<Panel> = PANELS.iter().map(|(_, mean)| panel(&mut random, *mean)).collect();
        for person in 1..=people {
            let role = if person == 1 { "own" } else { "second" };
            for ((name, _), panel) in PANELS.iter().zip(&there) {
                let seen = if person == 1 { None } else { Some(&mut random) };
                let (dents, material) = count(panel, seen);
                write!(out, "BM-{car:07},Person {person:02},{role},{name},{material},{}", panel.access)?;
                for here in dents {
                    write!(out, ",{here}")?;
                }
                writeln!(out)?;
            }
        }
    }
    out.flush()?;
    let mut out = BufWriter::new(File::create(folder.join("vehicles.csv"))?);
    vehicles(cars, &mut random, &mut out)?;
    out.flush()?;
    for (name, text) in schedule::tables() {
        fs::write(terms.join(name), text)?;
    }
    Ok(())
}

fn panel(random: &mut Random, mean: u64) -> Panel {
    let dents = random.long_tail(mean);
    let dents = SIZES.map(|(.., share)| (dents * share + random.below(1000)) / 1000);
    Panel { dents, material: random.pick(&MATERIALS), access: random.pick(&ACCESSES) }
}

/// What somebody writes down of it; exactly what is there where nothing is left to chance.
fn count(panel: &Panel, seen: Option<&mut Random>) -> ([u64; SIZES.len()], &'static str) {
    let Some(random) = seen else { return (panel.dents, panel.material) };
    let dents = panel.dents.map(|dents| {
        let by = 1 + dents / 8;
        (dents + random.below(2 * by + 1)).saturating_sub(by)
    });
    let material = if random.below(3) == 0 { random.pick(&MATERIALS) } else { panel.material };
    (dents, material)
}
