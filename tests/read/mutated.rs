//! Real files of every kind, changed at random: whatever comes of it, nothing panics, no file is lost, and every
//! problem has a place that exists. The numbers are fixed, so that a failure can be repeated; `STIPPLE_CASES` asks for
//! more cases of each kind than a test run takes.

use crate::hostile::packed_bytes;
use crate::{Run, write};
use std::io::Read as _;
use tempfile::tempdir;

/// Cases of each kind.
const CASES: u64 = 40;
/// Digits that are put where a number may stand.
const ABSURD: [&str; 6] = ["99999999999999999999", "-1", "1048577", "4294967295", "1e400", "NaN"];

/// Numbers by xorshift (Marsaglia 2003, 13, 7, 17).
struct Random(u64);

impl Random {
    fn below(&mut self, most: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % u64::try_from(most.max(1)).unwrap()).unwrap()
    }
}

fn changed(bytes: &[u8], random: &mut Random) -> Vec<u8> {
    let mut out = bytes.to_vec();
    for _ in 0..=random.below(4) {
        let at = random.below(out.len());
        let until = (at + random.below(24)).min(out.len());
        match random.below(6) {
            0 if !out.is_empty() => out[at] = u8::try_from(random.below(256)).unwrap(),
            1 => drop(out.drain(at..until)),
            2 => {
                let again = out[at..until].to_vec();
                out.splice(at..at, again);
            }
            3 => {
                let number = ABSURD[random.below(ABSURD.len())];
                out.splice(at..until, number.bytes());
            }
            4 => {
                // A number that stands there becomes another.
                let digit = (at..out.len()).find(|at| out[*at].is_ascii_digit()).unwrap_or(at);
                let end = (digit..out.len()).find(|at| !out[*at].is_ascii_digit()).unwrap_or(digit);
                out.splice(digit..end, ABSURD[random.below(ABSURD.len())].bytes());
            }
            _ => out.truncate(out.len() - random.below(out.len() / 8 + 1)),
        }
    }
    out
}

/// An archive with one of its parts changed, so that the change gets past the archive's own checks.
fn changed_inside(bytes: &[u8], random: &mut Random) -> Vec<u8> {
    let mut archive = zip::ZipArchive::new(std::io::Cursor::new(bytes)).unwrap();
    let chosen = random.below(archive.len());
    let parts: Vec<(String, Vec<u8>)> = (0..archive.len())
        .map(|index| {
            let mut part = archive.by_index(index).unwrap();
            let name = part.name().unwrap().into_owned();
            let mut content = Vec::new();
            part.read_to_end(&mut content).unwrap();
            if index == chosen && !content.is_empty() {
                content = changed(&content, random);
            }
            (name, content)
        })
        .collect();
    packed_bytes(&parts)
}

fn survives(name: &str, bytes: &[u8], case: u64) {
    let folder = tempdir().unwrap();
    let path = write(folder.path(), name, bytes);
    let run = Run::of(&[path]);
    assert!(!run.opened.files.is_empty() || !run.problems.is_empty(), "{name} was lost in case {case}");
    let of_claims = run.intakes.iter().flat_map(|intake| &intake.problems);
    for problem in run.problems.iter().chain(of_claims) {
        assert!(!stipple::problem::render_text(problem, &run.opened.sources).is_empty());
    }
}

fn mutate(name: &str, bytes: &[u8], seed: u64) {
    let cases = std::env::var("STIPPLE_CASES").ok().and_then(|cases| cases.parse().ok()).unwrap_or(CASES);
    let mut random = Random(0x9e37_79b9_7f4a_7c15 ^ seed);
    for case in 0..cases {
        let bytes = if bytes.starts_with(b"PK") && case % 4 != 0 {
            changed_inside(bytes, &mut random)
        } else {
            changed(bytes, &mut random)
        };
        survives(name, &bytes, case);
    }
}

fn written(name: &str) -> Vec<u8> {
    std::fs::read(std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/read/written").join(name))
        .unwrap()
}

#[test]
fn changed_xlsx_workbooks_are_survived() {
    mutate("counts.xlsx", &written("counts.xlsx"), 1);
}

#[test]
fn changed_ods_workbooks_are_survived() {
    mutate("counts.ods", &written("counts.ods"), 2);
}

#[test]
fn changed_xls_workbooks_are_survived() {
    mutate("counts.xls", &written("counts.xls"), 3);
}

#[test]
fn changed_xlsb_workbooks_are_survived() {
    let rows: &[&[&str]] = &[&["claim", "panel", "0-10 mm"], &["A-1", "roof", "12"], &["A-1", "hood", "3"]];
    mutate("counts.xlsb", &crate::xlsb::workbook(rows), 4);
}

#[test]
fn changed_text_files_and_web_pages_are_survived() {
    let text = "claim;panel;up to \"10 mm\";11-20 mm;remark\r\nA-1;roof;4;0,5;\"a\r\nb\"\r\nA-1;K\u{fc}hler;1.234;~80;\r\n";
    mutate("counts.csv", text.as_bytes(), 5);
    let wide: Vec<u8> = "\u{feff}"
        .chars()
        .chain(text.chars())
        .collect::<String>()
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    mutate("wide.csv", &wide, 6);
    let page = "<html><table><tr><th>claim<th>panel<th>0-10 mm</tr><tr><td rowspan=\"2\">A-1</td><td>roof</td>\
                <td>4&nbsp;</td></tr><tr><td colspan='2'>hood &#252;</td><!-- x --></tr></table></html>";
    mutate("page.xls", page.as_bytes(), 7);
}
