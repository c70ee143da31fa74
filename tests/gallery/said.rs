//! A model in lines of text.

use std::fmt::Write as _;
use std::path::Path;
use stipple::claim::{Claim, Counted, Inspection, Mark, PanelCount};
use stipple::problem::{Problem, Sources};
use stipple::read::{arrange, forms, gather, open};
use stipple::table::{recognise, unrecognised};

/// Everything that is read from a file or folder, and everything that is said of it.
pub fn said(path: &Path) -> String {
    let opened = open(&[path.to_owned()]);
    let arranged = arrange(&opened.sheets, &opened.sources, forms());
    let mut problems: Vec<&Problem> = opened.problems.iter().chain(&arranged.problems).collect();
    let mut tables = Vec::new();
    let mut unknown = Vec::new();
    for sheet in &arranged.sheets {
        let recognition = recognise(sheet, forms());
        unknown.extend(unrecognised(sheet, &recognition, forms()));
        tables.extend(recognition.tables);
    }
    let (intakes, of_tables) = gather(&tables, &opened.sources);
    problems.extend(unknown.iter().chain(&of_tables));
    let mut out = String::new();
    for intake in &intakes {
        claim(&intake.claim, &opened.sources, &mut out);
        for problem in &intake.problems {
            told(problem, &opened.sources, "  ", &mut out);
        }
    }
    for problem in problems {
        told(problem, &opened.sources, "", &mut out);
    }
    out
}

fn told(problem: &Problem, sources: &Sources, indent: &str, out: &mut String) {
    let place = problem.place.map(|place| sources.short(place)).unwrap_or_default();
    let place = place.rsplit('/').next().unwrap_or_default().to_owned();
    let (severity, message) = (problem.severity(), &problem.message);
    // Paths are of this machine.
    let message = message.replace(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/gallery/sheets/"), "");
    let written = problem.written.as_ref().map(|text| format!(" [{text}]")).unwrap_or_default();
    let _ = writeln!(out, "{indent}{severity} {} at {place}: {message}{written}", problem.code.id);
}

fn claim(claim: &Claim, sources: &Sources, out: &mut String) {
    let key = claim.key.text.rsplit('/').next().unwrap_or_default();
    let _ = write!(out, "{} {key}", claim.key.kind.words());
    let vehicle = &claim.vehicle;
    let texts =
        [&vehicle.registration, &vehicle.make, &vehicle.model, &claim.parties.insurer, &claim.parties.owner];
    for text in texts.into_iter().flatten() {
        let _ = write!(out, ", {}", text.value);
    }
    if let Some(excess) = &claim.parties.excess {
        let _ = write!(out, ", excess {}", excess.value.amount);
    }
    out.push('\n');
    claim.inspections.iter().for_each(|one| inspection(one, sources, out));
    for item in &claim.items {
        let _ = writeln!(out, "  item {}", item.name.value);
    }
    for remark in &claim.remarks {
        let _ = writeln!(out, "  remark {}", remark.text);
    }
}

fn inspection(inspection: &Inspection, sources: &Sources, out: &mut String) {
    let _ = write!(out, "  {} count", inspection.role());
    if let Some(assessor) = &inspection.assessor {
        let _ = write!(out, " by {}", assessor.value);
    }
    if let Some(date) = &inspection.date {
        let _ = write!(out, " on {}", date.value);
    }
    if let Some(pass) = &inspection.pass {
        let _ = write!(out, ", pass {}", pass.value);
    }
    out.push('\n');
    inspection.panels.iter().for_each(|one| panel(one, sources, out));
}

fn panel(panel: &PanelCount, sources: &Sources, out: &mut String) {
    let _ = write!(out, "    {}", panel.panel);
    for entry in &panel.tally {
        let size = match entry.size.interval {
            Some(_) => entry.size.text.clone(),
            None => format!("\"{}\"", entry.size.text),
        };
        let count = match &entry.count {
            Counted::NoneWritten => "-".to_owned(),
            Counted::Counted(count) => {
                let place = sources.short(entry.place);
                format!("{count} ({})", place.rsplit([' ', '!']).next().unwrap_or_default())
            }
            Counted::Estimated { how, .. } => format!("about {how}"),
            Counted::Open => "?".to_owned(),
        };
        let _ = write!(out, " | {size}: {count}");
    }
    out.push('\n');
    for remark in &panel.remarks {
        let _ = writeln!(out, "      remark {}", remark.value);
    }
    panel.marks.iter().for_each(|one| mark(one, out));
}

fn mark(mark: &Mark, out: &mut String) {
    let _ = write!(out, "      {}", mark.kind.value);
    for length in [mark.length, mark.width].into_iter().flatten() {
        let _ = write!(out, " {}", length.value);
    }
    if let Some(depth) = mark.depth {
        let _ = write!(out, ", {}", depth.value);
    }
    if let Some(position) = mark.position {
        let _ = write!(out, ", {}", position.value);
    }
    if let Some(remark) = &mark.remark {
        let _ = write!(out, ", {}", remark.value);
    }
    out.push('\n');
}
