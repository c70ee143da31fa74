//! Registers: where claims stand by what their rows say.

use super::{Code, Problem, Severity};
use crate::problem::Place;
use crate::quantity::Date;

codes! {
    REGISTER_ROW_WITHOUT_CLAIM = "register-row-without-claim", Warning, "a row of the register is for a claim that is not in the files",
        "The row names a claim by its number, job number, registration or VIN, and none of the files that were read holds such \
         a claim. The row is listed and counts in no sum.\n\nGive the claim's files to the run, or correct the number.";
    CLAIM_WITHOUT_REGISTER_ROW = "claim-without-register-row", Note, "a claim has no row in the register",
        "The files hold counts or a vehicle of the claim, and no row of the register is for it. It is listed as waiting for the \
         technician since the day of its inspection, else of its loss.\n\nWrite its first row: the date, and `listed` or \
         `inspected`.";
    REGISTER_OUT_OF_ORDER = "register-out-of-order", Warning, "something happened before what comes first",
        "The days of two rows do not follow the course of a claim: it is listed, inspected, submitted, agreed, repaired, handed \
         over; parts come before the repair ends; a supplement and a payment after something was submitted. Both rows are \
         named. The claim stands where the row of the latest day says.\n\nCorrect the date that was mistyped. Where it did \
         happen so, nothing has to be done.\n\nExample: `agreed` on 3 July, `submitted` on 5 July.";
    REGISTER_AMOUNT_DIFFERS = "register-amount-differs", Warning, "an amount of the register is not what was assessed",
        "What was submitted (with its supplements) or agreed is neither the gross amount that the files come to now, nor the \
         settlement amount, nor what the insurer pays. Either the amount was mistyped; or the counts, prices or schedule \
         changed since; or less was agreed than was asked for.\n\nAn agreed count belongs into the counts (role `agreed`): then the \
         files come to what was agreed. The register changes no amount.";
    REGISTER_PAID_MORE = "register-paid-more", Warning, "more was paid than was agreed",
        "The payments of the claim add up to more than its latest agreed amount. The row of the payment that goes beyond it is \
         named.\n\nLook whether a payment was written twice, or belongs to another claim; or write the row in which more was \
         agreed.";
    REGISTER_AMOUNT_UNUSABLE = "register-amount-unusable", Warning, "an amount of the register has no currency, or cannot be one",
        "The amount carries no currency, and neither the claim's assessment nor a single schedule says which it is in; or it \
         has more decimals than its currency, or another currency than other amounts of the claim. It counts in no \
         sum.\n\nWrite the ISO 4217 code into the cell or the heading: `EUR 1200.00`.";
    REGISTER_ROW_LATER = "register-row-later", Note, "a row of the register is of a later day than is asked about",
        "The run says where claims stood on a day (`--date`), and the row is of a later one: it was left out.\n\nNothing has to be \
         done; without `--date` the latest day of the register is taken.";
}

/// A row for no claim that is known; the numbers nearest to it.
pub fn register_row_without_claim(place: Place, written: &str, near: &[&str]) -> Problem {
    let problem = Problem::new(&REGISTER_ROW_WITHOUT_CLAIM, "no claim of the files has this number or car")
        .at(place)
        .written(written);
    match near {
        [] => problem,
        near => problem.help(format!("did you mean {}?", near.join(" or "))),
    }
}

/// A claim for which there is no row.
pub fn claim_without_register_row(place: Option<Place>) -> Problem {
    let problem = Problem::new(&CLAIM_WITHOUT_REGISTER_ROW, "no row of the register is for this claim");
    place.map_or(problem.clone(), |place| problem.at(place))
}

/// Two rows whose days do not follow the course of a claim.
pub fn register_out_of_order(first: (&str, Date, Place), second: (&str, Date, Place)) -> Problem {
    let message = format!("{} on {}, and {} only on {}", first.0, first.1, second.0, second.1);
    Problem::new(&REGISTER_OUT_OF_ORDER, message)
        .at(first.2)
        .and(second.2)
        .help("is one of the days mistyped?")
}

/// An amount that is none of those assessed.
pub fn register_amount_differs(place: Place, what: &str, written: &str, assessed: &str) -> Problem {
    let message = format!("{what}: {written}; the files come to {assessed} gross");
    Problem::new(&REGISTER_AMOUNT_DIFFERS, message).at(place)
}

/// A payment that goes beyond what was agreed.
pub fn register_paid_more(place: Place, agreed: Place, paid: &str, was_agreed: &str) -> Problem {
    let message = format!("with this payment {paid} is paid, and {was_agreed} was agreed");
    Problem::new(&REGISTER_PAID_MORE, message).at(place).and(agreed)
}

/// An amount that cannot be used.
pub fn register_amount_unusable(place: Place, written: &str, why: &str) -> Problem {
    Problem::new(&REGISTER_AMOUNT_UNUSABLE, format!("the amount counts in no sum: {why}"))
        .at(place)
        .written(written)
        .help("write the code of its currency beside it, and as many decimals as it has")
}

/// A row of a later day.
pub fn register_row_later(place: Place, on: Date, day: Date) -> Problem {
    Problem::new(&REGISTER_ROW_LATER, format!("this is of {on}, after {day}")).at(place)
}
