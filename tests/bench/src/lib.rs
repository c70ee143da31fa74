//! An invented batch of any size for benchmarks: counts and vehicles as two CSV files, a schedule in our tables, and
//! the same terms as plain tables for the yardstick.
//!
//! Names, amounts, bands and frequencies are made up; they follow no price list and no real storm. The same number of
//! claims gives the same bytes on every machine.

mod loaded;
mod looks;
mod run;
mod schedule;

pub use loaded::{claims, schedule};
pub use looks::generate_looks;
pub use run::{Ran, megabytes, run, weigh};

use std::fs::{self, File};
use std::io::{self, BufWriter, Write};
use std::path::Path;

/// Thirteen panels of a four-door car, each with the dents it has on average.
const PANELS: [(&str, u64); 13] = [
    ("hood", 41),
    ("roof", 57),
    ("trunk lid", 23),
    ("left roof rail", 9),
    ("right roof rail", 9),
    ("left fender", 8),
    ("right fender", 8),
    ("left front door", 6),
    ("right front door", 6),
    ("left rear door", 6),
    ("right rear door", 6),
    ("left quarter panel", 8),
    ("right quarter panel", 8),
];

/// Size bands: name, edges in millimetres, share of a panel's dents in thousandths.
const SIZES: [(&str, u64, u64, u64); 4] =
    [("0-11 mm", 0, 11, 610), ("11-21 mm", 11, 21, 310), ("21-33 mm", 21, 33, 70), ("33-48 mm", 33, 48, 10)];

const MATERIALS: [&str; 5] = ["mild steel", "mild steel", "mild steel", "mild steel", "aluminium"];
const ACCESSES: [&str; 5] = ["open", "open", "open", "behind brace", "glue only"];
const PAINTS: [&str; 20] = {
    let mut paints = ["intact"; 20];
    paints[19] = "broken";
    paints
};
const INSURERS: [&str; 2] = ["First Invented Insurer", "Second Invented Insurer"];

/// Pseudo-random numbers by `SplitMix64` (Steele, Lea and Flood, 2014): small, and the same everywhere.
struct Random(u64);

impl Random {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, limit: u64) -> u64 {
        self.next() % limit
    }

    fn pick(&mut self, words: &[&'static str]) -> &'static str {
        words[usize::try_from(self.below(words.len() as u64)).unwrap_or(0)]
    }

    /// A number with a long tail: mostly below the mean, sometimes three times as much.
    fn long_tail(&mut self, mean: u64) -> u64 {
        let square = self.below(1000) * self.below(1000) / 1000;
        mean * square * 4 / 1000
    }
}

/// In which order counts stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Order {
    /// Claim by claim.
    Claims,
    /// Every claim's hood, then every claim's roof.
    Panels,
}

/// Writes `counts.csv`, `vehicles.csv`, `schedule/`, `everything/` (the same schedule with every term and table that there is) and
/// `terms/` into a folder, which is made if it is not there. Counts are a
/// row per panel with a column per size; a size without dents is left blank, a panel without dents has one zero.
pub fn generate(claims: u64, order: Order, folder: &Path) -> io::Result<()> {
    fs::create_dir_all(folder)?;
    let mut random = Random(2026);
    let mut out = BufWriter::new(File::create(folder.join("counts.csv"))?);
    counts(claims, order, &mut out)?;
    out.flush()?;
    let mut out = BufWriter::new(File::create(folder.join("vehicles.csv"))?);
    vehicles(claims, &mut random, &mut out)?;
    out.flush()?;
    for (below, tables) in [
        ("schedule", schedule::tables()),
        ("everything", schedule::tables_with_everything()),
        ("terms", schedule::plain_tables()),
    ] {
        fs::create_dir_all(folder.join(below))?;
        for (name, text) in tables {
            fs::write(folder.join(below).join(name), text)?;
        }
    }
    Ok(())
}

fn counts(claims: u64, order: Order, out: &mut impl Write) -> io::Result<()> {
    write!(out, "claim,panel,material,access,paint")?;
    for (size, ..) in SIZES {
        write!(out, ",{size}")?;
    }
    writeln!(out)?;
    match order {
        Order::Claims => {
            for claim in 1..=claims {
                for panel in 0..PANELS.len() {
                    count(claim, panel, out)?;
                }
            }
        }
        Order::Panels => {
            for panel in 0..PANELS.len() {
                for claim in 1..=claims {
                    count(claim, panel, out)?;
                }
            }
        }
    }
    Ok(())
}

/// One row: the same for a claim and panel in whatever order the rows stand.
fn count(claim: u64, panel: usize, out: &mut impl Write) -> io::Result<()> {
    let random = &mut Random(claim << 8 | panel as u64);
    let (name, mean) = PANELS[panel];
    let (material, access) = (random.pick(&MATERIALS), random.pick(&ACCESSES));
    let paint = random.pick(&PAINTS);
    let dents = random.long_tail(mean);
    let larger: Vec<u64> =
        SIZES[1..].iter().map(|(.., share)| (dents * share + random.below(1000)) / 1000).collect();
    let smallest = dents.saturating_sub(larger.iter().sum());
    // Where nothing hit, nothing broke.
    let paint = if smallest == 0 && larger.iter().all(|dents| *dents == 0) { PAINTS[0] } else { paint };
    write!(out, "BM-{claim:07},{name},{material},{access},{paint}")?;
    match (smallest, larger.iter().sum()) {
        (0, 0) => write!(out, ",0")?,
        (0, 1..) => write!(out, ",")?,
        (here, _) => write!(out, ",{here}")?,
    }
    for here in larger {
        match here {
            0 => write!(out, ",")?,
            here => write!(out, ",{here}")?,
        }
    }
    writeln!(out)
}

fn vehicles(claims: u64, random: &mut Random, out: &mut impl Write) -> io::Result<()> {
    writeln!(out, "claim,vin,year,insurer,date of loss,market value,excess")?;
    for claim in 1..=claims {
        let (vin, insurer) = (vin(random), random.pick(&INSURERS));
        let (value, excess) = (3000 + 50 * random.below(1100), 150 * random.below(4));
        writeln!(out, "BM-{claim:07},{vin},{},{insurer},2026-06-14,{value},{excess}", 2010 + claim % 17)?;
    }
    Ok(())
}

/// A number of 17 signs with the check digit of 49 CFR 565.15, of no real car.
fn vin(random: &mut Random) -> String {
    const SIGNS: &[u8] = b"ABCDEFGHJKLMNPRSTVWXY123456789";
    const WEIGHTS: [u64; 17] = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];
    let value = |sign: u8| match sign {
        b'0'..=b'9' => u64::from(sign - b'0'),
        b'A'..=b'H' => u64::from(sign - b'A') + 1,
        b'J'..=b'R' => u64::from(sign - b'J') + 1,
        _ => u64::from(sign - b'S') + 2,
    };
    let mut signs: Vec<u8> =
        (0..17).map(|_| SIGNS[usize::try_from(random.below(SIGNS.len() as u64)).unwrap_or(0)]).collect();
    let sum: u64 = signs.iter().zip(WEIGHTS).map(|(sign, weight)| value(*sign) * weight).sum();
    signs[8] = match u8::try_from(sum % 11) {
        Ok(digit @ 0..=9) => b'0' + digit,
        _ => b'X',
    };
    String::from_utf8(signs).unwrap_or_default()
}
