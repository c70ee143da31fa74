//! Agreed versions, against which supplements are written.

use super::{Code, Problem, Severity};

codes! {
    AGREED_NOT_READ = "agreed-not-read", Error, "the agreed version could not be read",
        "`--agreed` names the `assessments.jsonl` of the run that was agreed. This file is not there, or a line of it is \
         not what a run writes: cut off, changed, of another program, or of a form this program does not \
         know.\n\nWhat follows: nothing is read or written, for a supplement to something else than what was agreed is \
         worse than none.\n\nTo mend it, name the file as the earlier run left it; `run.json` beside it holds its \
         digest.\n\nExample: `assess storm --agreed storm-june/assessments.jsonl`.";
    AGREED_VERSION_TWICE = "agreed-version-twice", Error, "a claim stands twice in the agreed version",
        "Two lines of the file carry one claim, so it is not known which of them was agreed.\n\nWhat follows: nothing is \
         read or written.\n\nTo mend it, take out the line that was not agreed. A run writes each claim once; files of \
         several runs that were joined can hold one twice.\n\nExample: `HC-2026-0114` in lines 3 and 9.";
    AGREED_CLAIM_GONE = "agreed-claim-gone", Warning, "a claim that was agreed is in no sheet now",
        "The agreed version holds this claim, and no sheet of this run has a row of it.\n\nWhat follows: it stands in \
         `supplements.csv` with its agreed amounts, and has no document.\n\nTo mend it, give the sheets that hold it, \
         unless it was withdrawn. Where its number was written otherwise, it counts as one gone and one \
         new.\n\nExample: `HC-2026-0114` was agreed, and the sheet now says `HC-2026-0141`.";
    AGREED_NOT_COMPARED = "agreed-not-compared", Error, "a claim could not be held against its agreed version",
        "The difference between what was agreed and what it is now is too large to be an amount here.\n\nWhat follows: \
         this claim has no supplement and no row in `supplements.csv`; all else is written.\n\nTo mend it, look at the \
         amounts of both.\n\nExample: an agreed amount of 90 000 000 000 000 000.00.";
}

/// A line, or with line 0 a file, that is no agreed version.
pub fn not_read(path: &str, line: usize, why: &str, quoted: &str) -> Problem {
    let place = if line == 0 { path.to_owned() } else { format!("{path}, line {line},") };
    let problem = Problem::new(&AGREED_NOT_READ, format!("{place} is no claim of an earlier run: {why}"))
        .help("name the assessments.jsonl that the earlier run wrote");
    if quoted.is_empty() { problem } else { problem.written(quoted) }
}

/// A file that the system does not give.
pub fn refused(path: &str, why: &std::io::Error) -> Problem {
    Problem::new(&AGREED_NOT_READ, format!("{path} could not be read: {why}"))
        .help("name the assessments.jsonl that the earlier run wrote")
}

/// A file without a claim.
pub fn empty(path: &str) -> Problem {
    Problem::new(&AGREED_NOT_READ, format!("{path} holds no claim"))
        .help("name the assessments.jsonl that the earlier run wrote")
}

/// Two lines of one claim.
pub fn twice(path: &str, first: usize, line: usize, claim: &str) -> Problem {
    Problem::new(&AGREED_VERSION_TWICE, format!("{path}: {claim} stands in lines {first} and {line}"))
        .help("take out the line that was not agreed")
}

/// A claim that is in no sheet now.
pub fn gone(path: &str, claim: &str) -> Problem {
    Problem::new(
        &AGREED_CLAIM_GONE,
        format!("{claim} was agreed in {path}, and no sheet has a row of it now"),
    )
    .help("give the sheets that hold it, unless it was withdrawn")
    .of_claim(claim)
}

/// Amounts that cannot be subtracted.
pub fn not_compared(claim: &str, why: &str) -> Problem {
    Problem::new(&AGREED_NOT_COMPARED, format!("{claim} could not be held against its agreed version: {why}"))
        .of_claim(claim)
}
