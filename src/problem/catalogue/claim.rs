//! Claims as gathered: keys, vehicles, inspections that do not fit together.

use super::{Code, Problem, Severity};
use crate::problem::Place;
use crate::quantity::DateFault;

codes! {
    KEY_MISSING = "key-missing", Error, "a row belongs to no job",
        "The table has a column for the claim, job number, registration or VIN, and this row has none of them, nor is \
         there one above it to take over. What stands in the row was not used.\n\nWrite the claim number into the row. \
         Written once above blank cells it holds for all of them.";
    KEY_PARTED = "key-parted", Question, "a row without claim number is parted from the one above",
        "The row has no claim number, job number, registration or VIN of its own. A number written once holds for the rows \
         right below it, but here a blank row, a total or a line of text stands between: the rows below may belong to \
         another claim. They were not used, and the claim above is listed and not priced.\n\nWrite the claim number into \
         the first row below the gap, or remove the gap.";
    KEY_SPELLINGS = "key-spellings", Note, "one number is written in two ways",
        "Two cells hold the same claim or job number in different letters or spacing: `A-1` and `a-1`. They are taken for \
         one. Nothing else follows.\n\nIf they are two claims, give one of them another number; else write it in one \
         way.";
    KEY_UNREADABLE = "key-unreadable", Error, "a claim number or the like cannot be read",
        "The cell holds a date, an error or a yes/no where a number of a claim or job, a registration or a VIN should \
         stand. What stands in the row was not used.\n\nFormat the column as text and write it again: spreadsheet \
         programs make dates of numbers such as `3-17`.";
    SHEET_AS_REGISTRATION = "sheet-as-registration", Note, "the name of a sheet was taken for a registration",
        "Nothing on the sheet names its claim, and its name is made of capitals and figures, as a registration is. The \
         rows of the sheet are that car's.\n\nIf it is something else, write the claim number or the registration above \
         the table: `Registration:` beside `AB 12 CDE`.";
    KEY_AMBIGUOUS = "key-ambiguous", Question, "a row may belong to two claims",
        "The row is known only by a registration or VIN, and two claims are for that car. The claims are listed and not \
         priced, since either may lack what stands in the row.\n\nWrite the claim number into the row.";
    FACTS_DISAGREE = "facts-disagree", Error, "two cells contradict each other",
        "Two rows of one claim give different values for the same thing, both of which are named. Which holds is not \
         guessed: the claim drops out.\n\nCorrect or remove one of them. Blank cells contradict nothing.";
    LOT_CAPS_DISAGREE = "lot-caps-disagree", Error, "two claims of one lot state different caps of its excess",
        "The vehicles of a lot bear together no more excess than one cap for one event. Two rows of that lot, insurer and \
         event state different ones, both of which are named; the later claim drops out.\n\nWrite the same cap into both, or \
         into one of them alone. Another event needs its own `event` or `date of loss`.";
    LOT_CAP_IDLE = "lot-cap-idle", Warning, "a cap of a lot's excess belongs to no lot",
        "The row states the most that a lot bears as excess, and names no lot or no insurer. Nothing is capped by it.\n\n\
         Write the name of the lot into `lot`, or take the cap away.";
    INSPECTION_OPEN = "inspection-open", Question, "rows may belong to several inspections",
        "The rows leave out the assessor, the date or the pass, and the claim has several inspections that they may \
         belong to: a sheet of marks beside the counts of two people. Each would be paid differently, so the claim is \
         listed and not priced.\n\nWrite the `assessor` and the `date of inspection` of the right one into the rows.";
    CLAIM_TWICE = "claim-twice", Warning, "a table of vehicles lists a claim twice",
        "Two rows of one table of vehicles are for the same claim. They agree, so the claim is assessed once.\n\nRemove \
         one of them if it is a copy. Two cars under one claim number need numbers of their own.";
    CAR_IN_TWO_CLAIMS = "car-in-two-claims", Warning, "one car stands in two claims",
        "Two claims of the run carry the same VIN or the same registration; spaces, hyphens and case do not matter. Both \
         cells are named, at either claim. Each claim is assessed by itself, so that the same dents may be paid \
         twice.\n\nIf one is a copy, remove it. If it is a second count, give it the number of the first claim, with \
         another assessor or date. If a digit was mistyped, correct it. Two claims after two storms are right: nothing \
         has to be done, but compare what was paid before.\n\nA VIN or registration without any digit (`unknown`, `not \
         registered`) is not compared.\n\nExample: `A-1` and `A-7` both have the registration `B 12-345`.";
    CAR_IN_EARLIER_RUN = "car-in-earlier-run", Warning, "the car stands in a claim of an earlier run",
        "The claim carries the VIN or the registration of another claim in the earlier run whose folder was given. Both \
         cells are named. The claim is assessed by itself.\n\nAfter two storms that is right: compare what was counted and \
         paid then, and list payments in a table (`panel`, `paid`). Else it may be the same damage under a new \
         number.\n\nExample: `assess storm --earlier spring-assessed`.";
    CLAIM_WITHOUT_VEHICLE = "claim-without-vehicle", Question, "counts are for a claim that no table of vehicles lists",
        "There are counts under a claim number, but no row of a table of vehicles has it. Without its insurer it would \
         be priced as if the customer paid himself, so it is listed and not priced.\n\nAdd the claim to the table of \
         vehicles, or correct the number: a digit or a hyphen may differ.";
    JOB_WITHOUT_VEHICLE = "job-without-vehicle", Note, "nothing is written about the vehicle of a job",
        "The job has counts and no row in a table of vehicles. It is priced for a customer who pays himself, without \
         anything that depends on the car.\n\nAdd a row with the same job number or registration if more is known: make, \
         model, body type.";
    CLAIM_WITHOUT_INSURER = "claim-without-insurer", Warning, "a claim has a number and no insurer",
        "The claim has the number of an insurer's claim, and no insurer is written for it. It is priced for a customer \
         who pays himself.\n\nFill the column `insurer`; or use `job` instead of `claim` for jobs without an insurer.";
    VEHICLE_WITHOUT_COUNTS = "vehicle-without-counts", Note, "a vehicle has no counts",
        "The table of vehicles lists it and no table holds a count or mark for it. It is listed and cannot be \
         priced.\n\nIf it was inspected, check that its counts carry the same claim number.";
    ROW_INCOMPLETE = "row-incomplete", Error, "a row lacks what it cannot do without",
        "The row holds values that mean nothing without another one: a price without the item, a method without the \
         panel. The claim drops out, since the row would be lost.\n\nFill the cell that is named, or clear the row.";
    WORD_UNKNOWN = "word-unknown", Error, "a word is not known",
        "The column holds one of a few words (materials, kinds of access, roles), and this is none of them. The claim \
         drops out, since the word may change what is paid.\n\nUse one of the words that the message names, or leave the \
         cell blank if nothing is known.";
    WORD_OPEN = "word-open", Question, "a word means two things",
        "`R&R` is used for taking a part off and putting it back, and for putting a new part in its place. The two cost \
         very different amounts, so it is not guessed: the claim is listed and not priced.\n\nWrite `refit` for the same \
         part, or `replace` for a new one.";
    DATE_UNREADABLE = "date-unreadable", Error, "a date cannot be read",
        "The cell is no date, or a date with more than a time after it (`2026-06-20 or 2026-06-21`). The claim drops \
         out.\n\nWrite it as `2026-06-14`, `14.06.2026` or `14 June 2026`; years have four digits. Doubts belong into a remark.";
    DATE_IMPOSSIBLE = "date-impossible", Error, "there is no such day",
        "The cell looks like a date, but no calendar has that day. The claim drops out.\n\nCorrect it: June has 30 days, \
         and February 29 only in leap years.";
    DATE_AMBIGUOUS = "date-ambiguous", Question, "day and month can be exchanged",
        "`05/06/2026` or `05-06-2026` is the 5th of June or the 6th of May, depending on where it was written. A date decides which \
         schedule holds, so it is not guessed: the claim is listed and not priced.\n\nWrite it as `2026-06-05`, or \
         answer once for the column: `order of dates` means `day first`.";
    NUMBER_UNREADABLE = "number-unreadable", Error, "a number cannot be read",
        "The column holds numbers of one kind (hours, percentages, years, areas), and this cell is none. The claim drops \
         out.\n\nWrite a plain number: `1.5`, `2021`. The unit belongs into the heading or after the number.";
    PERCENT_AS_FRACTION = "percent-as-fraction", Question, "a percentage may be a fraction",
        "A bare number above 0 and up to 1 stands where a percentage should. A spreadsheet program that shows 50 % holds \
         0.5, and how a cell is shown is not read: half the tax or half of one percent would be meant. The claim is \
         listed and not priced.\n\nWrite the sign into a cell of text: `50 %`, or `0.5 %` if that is meant. Or write \
         `50` in a cell that is formatted as a plain number.";
    AMOUNT_UNREADABLE = "amount-unreadable", Error, "an amount cannot be read",
        "The cell is no amount of money, or one below zero. The claim drops out.\n\nWrite a plain number (`1250.00`), \
         with the code of its currency if you like: `1250.00 EUR`.";
    CURRENCY_WRONG = "currency-wrong", Error, "a currency is not known or contradicts its heading",
        "The letters beside the amount are no currency of ISO 4217, or another one than the heading names. The claim drops \
         out.\n\nCorrect the code: `EUR`, `GBP`, `USD`. An amount without one is in the schedule's currency.";
    CURRENCY_OPEN = "currency-open", Question, "a sign stands for several currencies",
        "`$` is the sign of many dollars, and the market of the car is not known. The claim is listed and not \
         priced.\n\nWrite the code (`USD`, `CAD`, `AUD`), leave the sign away if the schedule's currency is meant, or give \
         the `market` of the vehicle.";
    VIN_ODD = "vin-odd", Note, "a VIN breaks the usual rules",
        "A vehicle identification number has 17 characters, none of them I, O or Q, and in North America a check digit at \
         position 9 (49 CFR 565.15). This one differs. Nothing follows; elsewhere the check digit is no rule, and older \
         cars have shorter numbers.\n\nCompare it with the car's papers.";
    VIN_WRONG = "vin-wrong", Warning, "a VIN cannot be right",
        "The market is the United States or Canada, where the form and the check digit of a vehicle identification number \
         are binding (49 CFR 565.15). A character is wrong or two are exchanged. The claim is assessed.\n\nCompare it \
         with the car's papers: 0 and O, 1 and I are the usual slips.";
}

/// A sheet that nothing but its name gives a key.
pub fn sheet_as_registration(place: Place, sheet: &str) -> Problem {
    Problem::new(
        &SHEET_AS_REGISTRATION,
        format!("the sheet's name {sheet} was taken for the registration of its car"),
    )
    .at(place)
}

/// A row without a key.
pub fn key_missing(place: Place) -> Problem {
    Problem::new(
        &KEY_MISSING,
        "this row has no claim, job number, registration or VIN, and none stands above it",
    )
    .at(place)
}

/// Two spellings of one number that are taken for one: each with its cell.
pub fn key_spellings(kind: &str, one: (&str, Place), other: (&str, Place)) -> Problem {
    let (first, second) = if one.1 <= other.1 { (one, other) } else { (other, one) };
    let message = format!("the {kind} \"{}\" is taken for \"{}\"", second.0, first.0);
    Problem::new(&KEY_SPELLINGS, message).at(second.1).and(first.1).written(second.0)
}

/// A row without a key below a gap; the claim above the gap.
pub fn key_parted(place: Place, above: &str) -> Problem {
    let message =
        format!("does this row belong to {above}? It has no claim number, and the rows above end before it");
    Problem::new(&KEY_PARTED, message).at(place).help("write the claim number into the row")
}

/// A key cell that holds no key.
pub fn key_unreadable(place: Place, kind: &str, written: &str) -> Problem {
    Problem::new(&KEY_UNREADABLE, format!("this is no {kind}"))
        .at(place)
        .written(written)
        .help("format the column as text and write it again")
}

/// A row known by something that two claims share.
pub fn key_ambiguous(place: Place, kind: &str, written: &str, claims: &[String]) -> Problem {
    Problem::new(
        &KEY_AMBIGUOUS,
        format!("this {kind} belongs to {}: which of them is meant?", claims.join(" and ")),
    )
    .at(place)
    .written(written)
    .help("write the claim number into the row")
}

/// Two values of one thing.
pub fn facts_disagree(what: &str, first: (&str, Place), second: (&str, Place)) -> Problem {
    Problem::new(&FACTS_DISAGREE, format!("{what} is \"{}\" here and \"{}\" there", second.0, first.0))
        .at(second.1)
        .and(first.1)
}

/// Rows that leave out whose inspection they are: the first of them, and the first rows of those that they may belong to.
pub fn inspection_open(place: Place, wholes: &[Place]) -> Problem {
    let message = format!("to which of {} inspections do these rows belong?", wholes.len());
    let problem = Problem::new(&INSPECTION_OPEN, message)
        .at(place)
        .help("write the assessor and the date of inspection into them");
    wholes.iter().fold(problem, |problem, whole| problem.and(*whole))
}

/// Two rows of one table of vehicles for one claim.
pub fn claim_twice(first: Place, second: Place) -> Problem {
    Problem::new(&CLAIM_TWICE, "an earlier row of this table is for the same claim").at(second).and(first)
}

/// A VIN or registration that other claims carry, too: their keys and cells, and how many more there are.
pub fn car_in_two_claims(place: Place, what: &str, others: &[(&str, Place)], more: usize) -> Problem {
    let message = format!("this {what} also stands in {}", super::named_others(others, more));
    let problem =
        Problem::new(&CAR_IN_TWO_CLAIMS, message).at(place).help("is one of them a copy, or a second count?");
    others.iter().fold(problem, |problem, (_, other)| problem.and(*other))
}

/// A VIN or registration that a claim of an earlier run carries: its key, and the cell in words.
pub fn car_in_earlier_run(place: Place, what: &str, earlier: &str, at: &str) -> Problem {
    Problem::new(&CAR_IN_EARLIER_RUN, format!("this {what} stands in {earlier} of the earlier run ({at})"))
        .at(place)
        .help("is it the same damage, or another storm?")
}

/// Counts under a claim number that no table of vehicles lists; the nearest numbers that are listed.
pub fn claim_without_vehicle(place: Place, claim: &str, near: &[String]) -> Problem {
    let problem =
        Problem::new(&CLAIM_WITHOUT_VEHICLE, format!("no table of vehicles lists claim {claim}")).at(place);
    if near.is_empty() { problem } else { problem.help(format!("did you mean {}?", near.join(" or "))) }
}

/// Counts of a job about whose car nothing is written.
pub fn job_without_vehicle(place: Place) -> Problem {
    Problem::new(
        &JOB_WITHOUT_VEHICLE,
        "nothing is written about the vehicle; it is priced for a customer who pays",
    )
    .at(place)
}

/// A claim number without an insurer.
pub fn claim_without_insurer(place: Place, claim: &str) -> Problem {
    Problem::new(
        &CLAIM_WITHOUT_INSURER,
        format!("claim {claim} has no insurer; it is priced for a customer who pays"),
    )
    .at(place)
}

/// A vehicle without a count or mark.
pub fn vehicle_without_counts(place: Place) -> Problem {
    Problem::new(&VEHICLE_WITHOUT_COUNTS, "there are no counts for this vehicle").at(place)
}

/// A row that lacks a cell.
pub fn row_incomplete(place: Place, table: &str, lacks: &str) -> Problem {
    Problem::new(&ROW_INCOMPLETE, format!("this row of the table of {table} lacks `{lacks}`")).at(place)
}

/// A word that a column does not know: the nearest it knows, else all of them.
pub fn word_unknown(place: Place, column: &str, written: &str, near: &[String], all: &[&str]) -> Problem {
    let help = if near.is_empty() {
        format!("it can be {}", all.join(", "))
    } else {
        format!("did you mean {}?", near.join(" or "))
    };
    Problem::new(&WORD_UNKNOWN, format!("`{column}` cannot be \"{written}\""))
        .at(place)
        .written(written)
        .help(help)
}

/// "R&R".
pub fn word_open(place: Place, written: &str) -> Problem {
    Problem::new(&WORD_OPEN, "is the same part put back, or a new one fitted?")
        .at(place)
        .written(written)
        .help("write refit or replace")
}

/// A cell that is no date, by why it is none.
pub fn date_fault(place: Place, written: &str, fault: DateFault) -> Problem {
    match fault {
        DateFault::NotADate => date_unreadable(place, written),
        DateFault::Impossible => date_impossible(place, written),
        DateFault::Ambiguous => date_ambiguous(place, written),
        DateFault::ShortYear => date_short_year(place, written),
    }
}

/// A problem of a word that stands in further cells of the claim, too: how many.
pub fn and_more_cells(mut problem: Problem, more: usize) -> Problem {
    let cells = if more == 1 { "cell" } else { "cells" };
    if more > 0 {
        problem.message = format!("{} (here and in {more} more {cells})", problem.message);
    }
    problem
}

/// A cell that is no date.
fn date_unreadable(place: Place, written: &str) -> Problem {
    Problem::new(&DATE_UNREADABLE, "this is no date")
        .at(place)
        .written(written)
        .help("write the year in four digits, then month and day: YYYY-MM-DD")
}

/// A date whose year has two digits.
fn date_short_year(place: Place, written: &str) -> Problem {
    Problem::new(
        &DATE_UNREADABLE,
        "the year of this date has two digits, so that its parts cannot be told apart",
    )
    .at(place)
    .written(written)
    .help("write the year in four digits, then month and day: YYYY-MM-DD")
}

/// A day that no calendar has.
fn date_impossible(place: Place, written: &str) -> Problem {
    Problem::new(&DATE_IMPOSSIBLE, "there is no such day").at(place).written(written)
}

/// Day and month can be exchanged.
fn date_ambiguous(place: Place, written: &str) -> Problem {
    Problem::new(&DATE_AMBIGUOUS, "which is the day and which the month?")
        .at(place)
        .written(written)
        .help("write the year first, then month and day: YYYY-MM-DD")
}

/// A number of a kind ("hours"), and why it is none.
pub fn number_unreadable(place: Place, column: &str, written: &str, wanted: &str) -> Problem {
    Problem::new(&NUMBER_UNREADABLE, format!("`{column}` cannot be \"{written}\""))
        .at(place)
        .written(written)
        .help(format!("write {wanted}"))
}

/// A percentage up to one without its sign.
pub fn percent_as_fraction(place: Place, column: &str, written: &str) -> Problem {
    Problem::new(&PERCENT_AS_FRACTION, format!("is this `{column}` a percentage or a fraction of one?"))
        .at(place)
        .written(written)
        .help("write it with its sign: 50 %")
}

/// An amount, and why it is none.
pub fn amount_unreadable(place: Place, written: &str, why: &str) -> Problem {
    Problem::new(&AMOUNT_UNREADABLE, format!("this amount cannot be read: {why}")).at(place).written(written)
}

/// Letters that are no currency, or another than the heading's.
pub fn currency_wrong(place: Place, written: &str, currency: &str, heading: Option<&str>) -> Problem {
    let message = match heading {
        Some(heading) => format!("this amount is in {currency}, its heading says {heading}"),
        None => format!("there is no currency {currency}"),
    };
    Problem::new(&CURRENCY_WRONG, message).at(place).written(written)
}

/// Two caps for one lot.
pub fn lot_caps_disagree(first: Place, second: Place) -> Problem {
    Problem::new(&LOT_CAPS_DISAGREE, "another claim of this lot states another cap of its excess")
        .at(second)
        .and(first)
}

/// A cap without a lot.
pub fn lot_cap_idle(place: Place) -> Problem {
    Problem::new(&LOT_CAP_IDLE, "this cap belongs to no lot of an insurer").at(place)
}

/// A sign of several currencies.
pub fn currency_open(place: Place, written: &str) -> Problem {
    Problem::new(&CURRENCY_OPEN, "which dollar is this?")
        .at(place)
        .written(written)
        .help("write the currency's code, or give the market of the vehicle")
}

/// A VIN against the rules: as a hint, or where they bind as a warning.
pub fn vin(place: Place, written: &str, why: &str, is_binding: bool) -> Problem {
    let code = if is_binding { &VIN_WRONG } else { &VIN_ODD };
    Problem::new(code, format!("this VIN is odd: {why}")).at(place).written(written)
}
