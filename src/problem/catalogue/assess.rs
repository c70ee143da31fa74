//! Assessing: what keeps a claim or a panel from being priced.

use super::{Code, Problem, Severity};
use crate::problem::Place;
use crate::quantity::{Currency, Length, QuantityFault};

codes! {
    NO_INSPECTION = "no-inspection", Question, "a claim has nobody's counts",
        "No count sheet belongs to this claim, or no panel on its sheets has a number or a mark and no damaged item is \
         listed. Blank is not zero, so nothing can be said: the claim is listed and not priced.\n\nAdd the counts, or \
         write 0 where somebody looked and found nothing. If a sheet was meant for this car, compare the claim number \
         or registration on both.\n\nExample: the vehicles sheet lists claim K-12, the counts are headed K-21.";
    TWO_INSPECTIONS = "two-inspections", Error, "two inspections could be the one to assess",
        "One inspection of each claim is assessed: the own one, else the only one there is. Two or more fit, and \
         adding them up would count the same dents twice, so the claim is not priced.\n\nSay which is which in a \
         column 'role': own, second (for comparison), agreed or supplement (both replace panels of the own one). \
         \n\nExample: two assessors' sheets for one car without a role; write 'second' beside the visitor's rows.";
    NO_DATE = "no-date", Question, "no date says which schedule holds",
        "A schedule is valid for dates of loss. This claim has no date of loss and no date of inspection, and the run \
         was given none, so no schedule can be chosen.\n\nWrite the date of loss (2026-06-14), or give the run a date \
         with --date.";
    NO_SCHEDULE = "no-schedule-holds", Error, "no schedule holds for a claim",
        "None of the schedules of this run holds for the claim's insurer (or for jobs without one) on its date. The \
         claim is not priced; no other insurer's schedule is taken instead.\n\nAdd the schedule, or look at its terms: \
         'holds for' lists insurers by name, 'none' for jobs without an insurer and 'any' for everybody else; 'valid \
         from' and 'valid to' bound its dates.\n\nExample: the sheet says 'Harbour Mutual', the schedule holds for \
         'Harbor Mutual'.";
    TWO_SCHEDULES = "two-schedules", Error, "two schedules hold for a claim alike",
        "Of the schedules that are valid on the claim's date, the one that names its insurer is taken before one for \
         anybody. Here two are equally specific, and the tool does not choose between two sets of prices.\n\nGive one of \
         them an end ('valid to'), or take it out of the run.";
    SIZE_STRADDLES = "size-straddles", Error, "a size lies in two bands of the schedule",
        "Dents were counted in a size that is neither inside one size band of the schedule nor the same band with edges \
         one last printed digit apart. How many belong to which band cannot be known, so the claim is not priced. A zero \
         or a blank in such a column does no harm.\n\nCount again in the schedule's bands, or let the schedule say which \
         band that heading goes by.\n\nExample: '10-30 mm' beside bands 0-20 and 20-40.";
    SIZE_BEYOND = "size-beyond", Error, "dents were counted beyond the largest band",
        "Dents larger than the schedule's largest size band are measured and rated one by one. Here they were counted as \
         a number, so their sizes are not known and the claim is not priced.\n\nWrite one row per such dent on a sheet of \
         marks: panel, mark 'oversize dent', length.";
    SIZE_UNKNOWN = "size-unknown", Question, "a heading names no size that the schedule knows",
        "Dents were counted under a heading that cannot be read as a size, and no size band of the schedule goes by that \
         name. The claim waits for an answer.\n\nWrite the size as an interval (10-20 mm), or add the heading to the \
         schedule's column 'goes by' of the band it means.\n\nExample: a column headed with a coin's name.";
    COUNT_NOT_KNOWN = "count-not-known", Question, "a number of dents is not known",
        "A count is an estimate, a range, or something else that is no single number. It is not taken for nothing and not \
         guessed.\n\nWrite the one number that is to be rated, or count again.";
    FRAME_NOT_SCALED = "frame-not-scaled", Question, "dents were counted in a frame only",
        "The sheet says that the dents of this panel were counted in a frame of a stated area. They are a part of the \
         panel's dents, so rating them as they stand would pay too little, and they are scaled only where the schedule \
         says how such counts are rounded and what area the panel has.\n\nState the term 'scaled counts' and the area of \
         the panel in the schedule; or write the dents of the whole panel that are to be rated, and leave the frame \
         out.\n\nExample: 12 dents in a frame of 0.1 m2 on a panel of 1.4 m2 are about 168.";
    FRAME_BEYOND_PANEL = "frame-beyond-panel", Error, "a counting frame is larger than its panel",
        "Dents counted in a frame are scaled by the area of the panel over that of the frame. Here the frame is larger than \
         the panel, so that one of the two areas is wrong: the claim's or the schedule's.\n\nMend whichever it is.\n\n\
         Example: a frame of 1.6 m2 on a hood of 1.4 m2; meant was 0.16 m2.";
    MARK_WITHOUT_LENGTH = "mark-without-length", Question, "a mark is not measured",
        "Dents written one by one, oversize dents, creases, crowns and brace marks are rated by their measured length. \
         This one has none (or one that is not above zero), and it must not vanish from the claim.\n\nMeasure it and write \
         the length or diameter with its unit. Broken paint and marks that are not damage need none.";
    AMOUNT_CURRENCY = "amount-currency", Error, "an amount is in another currency than the schedule",
        "Every amount of a claim is in the currency of its schedule. Currencies are never converted and never added, so \
         the claim is not priced.\n\nWrite the amount in the schedule's currency, or use a schedule in that currency.";
    AMOUNT_TOO_FINE = "amount-too-fine", Error, "an amount has more decimals than its currency",
        "The amount has more decimals than the smallest unit of its currency (ISO 4217). It is not rounded silently.\n\n\
         Write the amount in whole smallest units, for instance 12.35 and not 12.345.";
    AMOUNT_NEGATIVE = "amount-negative", Error, "an amount or a time is below zero",
        "An excess, a value, a price or a time below zero means nothing here. The claim is not priced.\n\nTake the sign \
         away. A credit or what was paid before belongs in the table of amounts paid before.";
    AMOUNT_TOO_LARGE = "amount-too-large", Error, "an amount is too large to compute with",
        "A sum or product goes beyond what is kept exactly (some 92 quadrillion smallest units). Nothing is cut off: the \
         claim is not priced.\n\nLook for a slip at the place named: a count, a rate or a price with too many digits.";
    CURRENCIES_MEET = "currencies-meet", Error, "amounts of two currencies meet in one sum",
        "Two amounts of one computation are in different currencies. They are never added.\n\nA schedule has one currency; \
         look at the place named.";
    VALUE_ODD = "value-odd", Question, "market value and salvage do not fit together",
        "The market value is zero, or what the wreck would fetch is more than the whole car was worth. One of the two is a \
         slip, and total loss cannot be judged with it.\n\nMend the amount; leave it blank if it is not known.";
    SETTLEMENT_NEEDS_VALUE = "settlement-needs-value", Question, "a total loss is settled without its values",
        "The claim sheet says that the claim is settled as a total loss. That needs the market value before the loss, and \
         also what the wreck would fetch where the owner keeps the car. One of them is not written.\n\nWrite it, or take \
         the settlement away: then the repair figures stand.";
    TAX_SHARE_ODD = "tax-share-odd", Question, "the tax an owner gets back does not fit",
        "The share of tax that the owner gets back is not between 0 and 100 percent, or a share is written for an owner \
         who is said to bear the tax.\n\nWrite 'reclaims tax' and the share, or 'bears tax' without one.";
    OVERRULE_NOT_SEEN = "overrule-not-seen", Question, "an overrule names a panel nobody counted",
        "A person decided what is to be done with a panel that has no number and no mark on the assessed sheets. Nothing is \
         known of its damage, so both decisions cannot be shown side by side.\n\nWrite what was seen on the panel (a number, \
         or a mark), or mend the panel's name.";
    OVERRULES_DISAGREE = "overrules-disagree", Error, "two overrules speak of one panel",
        "Two rows decide the same panel. Only one decision can stand.\n\nDelete the row that no longer holds.";
    OVERRULE_UNSIGNED = "overrule-unsigned", Warning, "an overrule lacks its name or its reason",
        "A person's decision against the schedule is shown with who decided and why. One of the two is not written. The \
         decision stands; the document shows what is missing.\n\nWrite the name and the reason.";
    PAID_BEFORE_NOT_SEEN = "paid-before-not-seen", Question, "something was paid before for a panel on no sheet",
        "A row says what was paid before for a panel that no assessed sheet names. What was paid before for a panel comes \
         off what is paid for it now, so with a slip in the panel's name the insurer would pay twice. The claim waits for \
         an answer.\n\nMend the panel's name, or take the row away if that panel is no part of this claim.";
    PAID_BEFORE_IDLE = "paid-before-idle", Warning, "what was paid before for a panel does not come off",
        "What was paid before comes off for panels whose lines are in the totals (for a total loss: for damaged panels). \
         This panel has none: it is open, not inspected, undamaged or not repaired. Nothing is taken off for it.\n\nNothing \
         has to be done if that is meant; look again once an open panel is priced.";
    PART_IDLE = "part-idle", Warning, "a part is priced for a panel without damage",
        "The table of parts has a price or a time for a panel that is not assessed: it is on no sheet, not inspected, or \
         without damage. The row has no effect.\n\nMend the panel's name, write what was seen on it, or take the row away.";
    OVERLAY_LEAVES_OUT = "overlay-leaves-out", Warning, "an agreed or supplementary panel leaves out what it replaces",
        "A panel of an agreed or supplementary inspection replaces the same panel of the one before as a whole, with what \
         it leaves blank. The earlier panel says something that the later one does not, and that moves money: a material, \
         an access, a state of paint, a depth, a position, marks, or a size with dents. It no longer counts.\n\nWrite it \
         on the later sheet as well (a zero for a size without dents), or leave it if it was dropped on purpose.\n\n\
         Example: the roof is aluminium on the own sheet, and the agreed sheet has counts alone.";
    PART_PRICES_DISAGREE = "part-prices-disagree", Error, "two rows price one thing of a panel",
        "Two rows of the parts table state the same price or time for the same panel. Which one holds cannot be known.\n\n\
         Delete the older quotation.";
    YEAR_MISSING = "year-missing", Question, "the vehicle's year is needed for betterment",
        "The schedule has the owner bear a share of new parts or items by the vehicle's age. This claim replaces such a thing \
         and does not say the year of the vehicle, so that the share cannot be known.\n\nWrite the vehicle's year.\n\n\
         Example: a row of betterment holds from 6 years on, a hood is replaced, and the column year is blank.";
    RATE_MISSING = "rate-missing", Error, "the schedule lacks a rate that is needed",
        "The schedule has no rate for a kind of labour that one of its operations needs, no tax rate for a kind of line, or \
         no weight for a size band that is counted as equivalents. No default is put in.\n\nAdd the row to the schedule.";
}

/// No inspection, or nothing written in any.
pub fn no_inspection() -> Problem {
    Problem::new(&NO_INSPECTION, "nobody's counts belong to this claim, so nothing can be said of its damage")
        .help(
            "add a count sheet with this claim's number, or write 0 where somebody looked and found nothing",
        )
}

/// Several inspections of one role, where one has to be assessed.
pub fn two_inspections(role: &str, places: &[Place]) -> Problem {
    let problem = Problem::new(
        &TWO_INSPECTIONS,
        format!("{} inspections have the role '{role}', and one has to be assessed", places.len()),
    )
    .help("write 'second', 'agreed' or 'supplement' in a column 'role' beside the others");
    at_all(problem, places)
}

/// No date anywhere, or not the one that the schedule's editions go by.
pub fn no_date(by: Option<(&str, Place)>) -> Problem {
    let (missing, write) = match by {
        None => ("date of loss and no date of inspection", "date of loss"),
        Some((by, _)) => (by, by),
    };
    let problem = Problem::new(&NO_DATE, format!("there is no {missing} to choose a schedule by"))
        .help(format!("write the {write}, or give the run a date with --date"));
    match by {
        Some((_, place)) => problem.at(place),
        None => problem,
    }
}

/// No schedule fits.
pub fn no_schedule(insurer: Option<&str>, date: &str, known: &[String]) -> Problem {
    let whom = match insurer {
        Some(name) => format!("the insurer '{name}'"),
        None => "jobs without an insurer".to_owned(),
    };
    let there = if known.is_empty() { "there is none".to_owned() } else { known.join("; ") };
    Problem::new(&NO_SCHEDULE, format!("no schedule holds for {whom} on {date}"))
        .help(format!("schedules of this run: {there}"))
}

/// Two schedules fit equally well.
pub fn two_schedules(names: &[String], date: &str, places: &[Place]) -> Problem {
    let problem = Problem::new(&TWO_SCHEDULES, format!("{} hold alike on {date}", names.join(" and ")))
        .help("give one of them a 'valid to', or take it out of the run");
    at_all(problem, places)
}

/// A size over several bands.
pub fn size_straddles(heading: &str, first: &str, last: &str, cell: Place, head: Place) -> Problem {
    Problem::new(
        &SIZE_STRADDLES,
        format!("the size '{heading}' lies in the schedule's bands '{first}' and '{last}'"),
    )
    .at(cell)
    .and(head)
    .help("count in the schedule's bands, write each dent as a mark with its length, or let the schedule say which band \
           this heading goes by")
}

/// Counted dents beyond the largest band.
pub fn size_beyond(heading: &str, largest: Option<&str>, cell: Place, head: Place) -> Problem {
    let largest = largest.unwrap_or("none");
    Problem::new(
        &SIZE_BEYOND,
        format!("the size '{heading}' goes beyond the schedule's largest band '{largest}'"),
    )
    .at(cell)
    .and(head)
    .help("measure these dents and write each as a mark 'oversize dent' with its length")
}

/// A heading that no band goes by.
pub fn size_unknown(heading: &str, known: &[String], cell: Place, head: Place) -> Problem {
    Problem::new(&SIZE_UNKNOWN, format!("no size band of the schedule goes by '{heading}'"))
        .at(cell)
        .and(head)
        .help(format!("write a range of sizes; the schedule's bands are: {}", known.join(", ")))
}

/// A count without a number to rate.
pub fn count_not_known(written: Option<&str>, cell: Place) -> Problem {
    let problem =
        Problem::new(&COUNT_NOT_KNOWN, "this count has no single number that could be rated").at(cell);
    match written {
        Some(written) => problem.written(written),
        None => problem,
    }
}

/// Dents of a part of a panel.
pub fn frame_not_scaled(panel: &str, frame: &str, has_rule: bool, cell: Place) -> Problem {
    let lacking = if has_rule { "the panel's area" } else { "the term 'scaled counts'" };
    let message = format!("{panel}: the dents of a frame of {frame} are not those of the whole panel");
    Problem::new(&FRAME_NOT_SCALED, message).at(cell).help(format!(
        "state {lacking} in the schedule, or write the dents of the whole panel without the frame"
    ))
}

/// A part that is larger than the whole.
pub fn frame_beyond_panel(panel: &str, frame: &str, area: &str, cell: Place, stated: Place) -> Problem {
    let message = format!("{panel}: the frame of {frame} is larger than the panel, which has {area}");
    Problem::new(&FRAME_BEYOND_PANEL, message).at(cell).and(stated)
}

/// More dents on one panel than can be counted.
pub fn too_many_dents(panel: Place) -> Problem {
    Problem::new(&AMOUNT_TOO_LARGE, "the dents of this panel are more than can be counted").at(panel)
}

/// A mark that is rated by its length and has none.
pub fn mark_without_length(mark: &str, length: Option<Length>, row: Place) -> Problem {
    let message = match length {
        None => format!("this {mark} has no length, and it is rated by it"),
        Some(length) => format!("this {mark} is {length} long, which is no length"),
    };
    Problem::new(&MARK_WITHOUT_LENGTH, message)
        .at(row)
        .help("write its length or diameter with the unit, or call it 'not damage'")
}

/// An amount of a claim that cannot be taken as it stands.
pub fn amount(what: &str, written: &str, fault: QuantityFault, place: Place) -> Problem {
    match fault {
        QuantityFault::Currencies(said, schedule) => amount_currency(what, said, schedule, place),
        QuantityFault::TooPrecise => Problem::new(
            &AMOUNT_TOO_FINE,
            format!("{what} has more decimals than the smallest unit of its currency"),
        )
        .at(place),
        QuantityFault::Overflow => {
            Problem::new(&AMOUNT_TOO_LARGE, format!("{what} is too large to compute with")).at(place)
        }
    }
    .written(written)
}

fn amount_currency(what: &str, said: Currency, schedule: Currency, place: Place) -> Problem {
    Problem::new(&AMOUNT_CURRENCY, format!("{what} is in {said}, but the schedule is in {schedule}"))
        .at(place)
        .help(format!("write it in {schedule}"))
}

/// Below zero.
pub fn amount_negative(what: &str, written: &str, place: Place) -> Problem {
    Problem::new(&AMOUNT_NEGATIVE, format!("{what} is below zero")).at(place).written(written)
}

/// A computation without a result.
pub fn cannot_compute(fault: QuantityFault, place: Place) -> Problem {
    match fault {
        QuantityFault::Currencies(a, b) => {
            Problem::new(&CURRENCIES_MEET, format!("an amount in {a} meets one in {b}"))
        }
        QuantityFault::Overflow | QuantityFault::TooPrecise => {
            Problem::new(&AMOUNT_TOO_LARGE, "what is computed from here is too large to keep exactly")
        }
    }
    .at(place)
}

/// A market value of nothing.
pub fn value_nothing(place: Place) -> Problem {
    Problem::new(&VALUE_ODD, "the market value is zero").at(place).help("leave it blank if it is not known")
}

/// A wreck worth more than the car.
pub fn salvage_above_value(salvage: Place, value: Place) -> Problem {
    Problem::new(&VALUE_ODD, "the wreck would fetch more than the car was worth").at(salvage).and(value)
}

/// A total loss without market value or salvage.
pub fn settlement_needs_value(missing: &str, place: Place) -> Problem {
    Problem::new(&SETTLEMENT_NEEDS_VALUE, format!("to settle a total loss the {missing} is needed")).at(place)
}

/// A share of tax that does not fit.
pub fn tax_share_odd(share: Place, position: Option<Place>) -> Problem {
    let problem = Problem::new(&TAX_SHARE_ODD, "this share of tax does not fit the owner's tax position");
    let problem = problem.at(share).help("write 'reclaims tax' and a share from 0 to 100");
    match position {
        Some(position) => problem.and(position),
        None => problem,
    }
}

/// An overrule of a panel that was not counted.
pub fn overrule_not_seen(panel: &str, row: Place) -> Problem {
    Problem::new(&OVERRULE_NOT_SEEN, format!("{panel} is overruled, but has no number and no mark")).at(row)
}

/// Something paid before for a panel that nobody's assessed sheet names.
pub fn paid_before_not_seen(panel: &str, row: Place) -> Problem {
    Problem::new(
        &PAID_BEFORE_NOT_SEEN,
        format!("something was paid before for {panel}, which is on no assessed sheet"),
    )
    .at(row)
    .help("mend the panel's name, or take the row away")
}

/// Something paid before for a panel without lines in the totals.
pub fn paid_before_idle(panel: &str, row: Place) -> Problem {
    Problem::new(
        &PAID_BEFORE_IDLE,
        format!("what was paid before for {panel} does not come off: nothing is paid for it now"),
    )
    .at(row)
}

/// A row of the parts table for a panel that is not assessed.
pub fn part_idle(panel: &str, row: Place) -> Problem {
    Problem::new(&PART_IDLE, format!("a part or a time is stated for {panel}, where no damage was counted"))
        .at(row)
}

/// A panel of a later inspection without something that the panel it replaces says.
pub fn overlay_leaves_out(panel: &str, role: &str, what: &[String], later: Place, earlier: Place) -> Problem {
    Problem::new(
        &OVERLAY_LEAVES_OUT,
        format!("the {role} {panel} replaces an earlier one and leaves out its {}", what.join(", ")),
    )
    .at(later)
    .and(earlier)
    .help("write it on the later sheet as well, or leave it if it was dropped on purpose")
}

/// Two overrules of one panel.
pub fn overrules_disagree(panel: &str, first: Place, second: Place) -> Problem {
    Problem::new(&OVERRULES_DISAGREE, format!("{panel} is overruled twice")).at(second).and(first)
}

/// An overrule without name or reason.
pub fn overrule_unsigned(panel: &str, missing: &str, row: Place) -> Problem {
    Problem::new(&OVERRULE_UNSIGNED, format!("the overrule of {panel} lacks its {missing}")).at(row)
}

/// Two prices or times of one kind for one panel.
pub fn part_prices_disagree(what: &str, panel: &str, first: Place, second: Place) -> Problem {
    Problem::new(&PART_PRICES_DISAGREE, format!("the {what} of {panel} is stated twice"))
        .at(second)
        .and(first)
}

/// A rate that the schedule lacks.
pub fn rate_missing(what: &str, place: Place) -> Problem {
    Problem::new(&RATE_MISSING, format!("the schedule has no {what}")).at(place)
}

fn at_all(problem: Problem, places: &[Place]) -> Problem {
    let mut places = places.iter();
    let problem = match places.next() {
        Some(first) => problem.at(*first),
        None => problem,
    };
    places.fold(problem, |problem, place| problem.and(*place))
}

/// Betterment by age, and no year.
pub fn year_missing(row: Place) -> Problem {
    Problem::new(&YEAR_MISSING, "betterment goes by the vehicle's age, and its year is not written")
        .at(row)
        .help("write the vehicle's year in a column 'year'")
}
