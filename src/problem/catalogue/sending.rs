//! Before a claim is sent: what insurers want it to hold.

use super::{Code, Problem, Severity};
use crate::problem::Place;

codes! {
    REQUIREMENT_UNKNOWN = "requirement-unknown", Error, "a table says that something is required that nobody knows",
        "In a table of what insurers require, a row names neither `photograph`, `count`, `document`, `consent` nor a column of \
         the table of vehicles that can be required. The row asks for nothing; all others hold.\n\nWrite one of these words. \
         A paper is a `document`, with its name in the column `which`.\n\nExample: required `document`, which `order signed \
         by the owner`.";
    REQUIREMENT_PER = "requirement-per", Error, "something is required of each thing that it cannot be had of",
        "The column `per` says of what each the row wants something: `claim` (also where it is blank); `panel` for \
         photographs and counts; `mark` for photographs. This row says something else, and asks for nothing; all others \
         hold.\n\nCorrect the cell.\n\nExample: required `photograph`, per `panel`, at least `2`.";
    CLAIM_NOT_READY = "claim-not-ready", Warning, "something that the insurer requires is missing",
        "A table says what this insurer wants a submission to hold, and the claim lacks some of it. What is missing is listed in \
         the order in which one would fetch it: at the car, from the owner, from the insurer. The claim is assessed as it \
         is; the listing of claims marks it as not ready to send.\n\nFetch what is missing and list it: photographs in a table \
         with `photograph` and `shows`, papers and the insurer's consent in one with a `document` for each row, all else in the \
         table of vehicles. A photograph counts if its file is there and whole.\n\nThe other cells named are the rows that \
         require it.";
}

/// A row that requires something that nobody knows; the words nearest to it.
pub fn requirement_unknown(place: Place, written: &str, near: &[&str]) -> Problem {
    let problem =
        Problem::new(&REQUIREMENT_UNKNOWN, "nothing of that name can be required").at(place).written(written);
    match near {
        [] => {
            problem.help("write photograph, count, document, consent, or a column of the table of vehicles")
        }
        near => problem.help(format!("did you mean {}?", near.join(" or "))),
    }
}

/// A row whose `per` does not fit.
pub fn requirement_per(place: Place, written: &str, wanted: &str) -> Problem {
    let fits = match wanted {
        "photograph" => "claim, panel or mark",
        "count" => "claim or panel",
        _ => "claim, or leave it blank",
    };
    Problem::new(&REQUIREMENT_PER, format!("a {wanted} is not required of each of these"))
        .at(place)
        .written(written)
        .help(format!("write {fits}"))
}

/// What a claim lacks that is fetched in one place, each with the row that requires it.
pub fn claim_not_ready(place: Option<Place>, fetched: &str, lacks: &[(String, Place)]) -> Problem {
    let all: Vec<&str> = lacks.iter().map(|(what, _)| what.as_str()).collect();
    let problem = Problem::new(&CLAIM_NOT_READY, format!("not ready to send: {fetched}: {}", all.join("; ")));
    let mut rows: Vec<Place> = lacks.iter().map(|(_, row)| *row).collect();
    rows.sort_unstable();
    rows.dedup();
    let problem = match place {
        Some(place) => problem.at(place),
        None => problem,
    };
    rows.into_iter().fold(problem, Problem::and)
}

/// So many photographs of each of some panels (or of the claim, where none is named), and how many there are of each.
pub fn photographs(
    panels: &[String],
    of_marks: bool,
    which: Option<&str>,
    need: usize,
    have: usize,
) -> String {
    let things = if need == 1 { "photograph" } else { "photographs" };
    let each = if panels.len() > 1 { " each" } else { "" };
    let marks = if of_marks { " of marks on the" } else { " of the" };
    let of = match panels {
        [] => String::new(),
        panels => format!("{each}{marks} {}", panels.join(", ")),
    };
    let which = which.map_or(String::new(), |which| format!(" that shows: {which}"));
    let have = match have {
        0 => "none is there".to_owned(),
        1 => "1 is there".to_owned(),
        more => format!("{more} are there"),
    };
    format!("{need} {things}{of}{which} ({have})")
}

/// A count of a panel, or of so many panels.
pub fn counts(of: Option<&str>, need: usize, have: usize) -> String {
    match of {
        Some(panel) => format!("a count of the {panel}"),
        None => format!("counts of {need} panels ({have} are there)"),
    }
}

/// Something that is written of a claim.
pub fn fact(name: &str) -> String {
    match name {
        "vin" => "the VIN".to_owned(),
        "claim" => "the claim number".to_owned(),
        "policy" => "the policy number".to_owned(),
        other => format!("the {other}"),
    }
}

/// The insurer's consent, where the gross amount is above a limit.
pub fn consent(above: Option<&str>) -> String {
    above.map_or_else(
        || "the insurer's consent".to_owned(),
        |limit| format!("the insurer's consent, since the gross amount is above {limit}"),
    )
}
