//! What follows from a schedule that stands, and from the editions of a run together.

use super::{Code, Problem, Severity};
use crate::quantity::{Date, Money};

codes! {
    CLIFF = "schedule-cliff", Warning, "one more dent adds more than a stated share",
        "At one count the amount of a panel jumps: with one more dent it grows by more than the share that was asked about \
         (100 percent if nothing was said). Whether a dent was seen or not then decides over much money, and two people \
         who count will differ there.\n\nBoth cells are named, the steepest step of each group and size. If the step is \
         meant, leave it. Otherwise make the count bands narrower, or write amounts per dent.\n\n`schedule check --cliff \
         PERCENT` asks about another share.";
    CELL_UNREACHED = "schedule-cell-unreached", Warning, "no claim can reach some cells",
        "No panel is ever paid at these cells. Either dents are counted as equivalents of another size band, so the rates \
         of this one are never looked up; or wherever the cell would be looked up, a limit has already decided on another \
         way of repair. Only a person who overrules the decision comes there.\n\nTake the cells away, or look whether the \
         limit is the one that is meant.\n\nExample: rates up to 60 dents, and a limit by which more than 40 are replaced.";
    LIMIT_NEVER = "schedule-limit-never", Warning, "a limit can never change what is done",
        "Whenever this limit is crossed, another one that holds for the same panels is crossed as well and goes at least as \
         far. The limit stands on documents and decides nothing.\n\nTake it away, or look which of the two numbers is \
         meant.\n\nExample: more than 40 dents are repaired conventionally, and more than 30 are replaced.";
    LIMIT_ALWAYS = "schedule-limit-always", Note, "a limit is crossed by everything that it measures",
        "No value of what the limit measures stays below it: more than 0 dents, or an oversize dent longer than a size at \
         which dents are not yet oversize. That is a way to say that such damage is always decided so.\n\nIf that is \
         meant, nothing has to be done. If not, a number is missing or in another unit.";
    FALLS_AT_LIMIT = "schedule-falls-at-limit", Warning, "one more dent lowers the amount where a limit is crossed",
        "With one more dent a limit decides on another way of repair, and by the typical prices for any class of vehicle that \
         costs less than the paintless work before it: the panel with more damage is paid less. Factors are not looked at, \
         and prices of a claim's own parts may say otherwise. Of each limit the panel and size are named where the amount \
         falls furthest.\n\nLet a limit on the share of replacing or of conventional repair decide first, or look at the \
         number of dents and the rates below it.\n\nExample: 40 dents cost 1 500, with 41 the door is replaced for 700.";
    EDITIONS_OVERLAP = "schedule-editions-overlap", Warning, "two schedules hold for the same on the same days",
        "Two schedules of the run hold for the same insurer (or both for jobs without one, or for any) and are both valid on \
         some days. A claim of such a day is not priced: the tool does not choose between two sets of prices.\n\nLet the \
         earlier edition end (`valid to`) on the day before the later one begins, or take one of them out of the run.";
    EDITIONS_GAP = "schedule-editions-gap", Warning, "there are days on which no edition holds",
        "Of the schedules that hold for one insurer, one ends and the next begins only later. A claim of a day between \
         is not priced, unless a schedule for any holds.\n\nCorrect `valid to` or `valid from`, or add the edition that is \
         missing.";
}

/// A step of a panel's amount from one dent to the next.
pub fn cliff(group: &str, before: (&str, Money), after: (&str, Money), percent: i128) -> Problem {
    let ((few, less), (many, more)) = (before, after);
    Problem::new(
        &CLIFF,
        format!("{group}: {less} for {few}, but {more} for {many}: one more dent adds {percent} %"),
    )
}

/// Cells of a size band that nothing is counted as.
pub fn cells_of_other_band(group: &str, size: &str, counted_as: &str) -> Problem {
    Problem::new(
        &CELL_UNREACHED,
        format!("{group}: the rates of {size} are never looked up: dents are counted as {counted_as}"),
    )
}

/// Cells beyond a limit.
pub fn cells_beyond_limit(group: &str, cells: usize, first: &str, limit: &str) -> Problem {
    let cells = if cells == 1 { "1 cell".to_owned() } else { format!("{cells} cells") };
    Problem::new(
        &CELL_UNREACHED,
        format!("{group}: no panel is paid at {cells} from {first} on: the limit {limit} decides before"),
    )
}

/// A rate of marks beyond a limit.
pub fn marks_beyond_limit(mark: &str, limit: &str) -> Problem {
    Problem::new(
        &CELL_UNREACHED,
        format!("{mark}: no panel is paid at this length: the limit {limit} decides before"),
    )
}

/// A limit that another one covers.
pub fn limit_never(limit: &str, other: &str) -> Problem {
    Problem::new(
        &LIMIT_NEVER,
        format!("{limit} never changes what is done: {other} is crossed whenever it is, and goes as far"),
    )
}

/// A limit that is crossed by all that it measures.
pub fn limit_always(limit: &str, what: &str) -> Problem {
    Problem::new(&LIMIT_ALWAYS, format!("{limit} is crossed by {what}"))
}

/// A limit beyond which a panel costs less.
pub fn falls_at_limit(
    (limit, then): (&str, &str),
    (panel, dents, size): (&str, u32, &str),
    [before, after]: [Money; 2],
) -> Problem {
    Problem::new(
        &FALLS_AT_LIMIT,
        format!(
            "{limit}: {dents} dents of {size} on a {panel} cost {before}, and with one more it is {then} at {after}"
        ),
    )
}

/// Two editions on the same days.
pub fn editions_overlap(names: [&str; 2], whom: &str, from: Date, to: Option<Date>) -> Problem {
    let days = to.map_or_else(|| format!("from {from} on"), |to| format!("from {from} to {to}"));
    Problem::new(&EDITIONS_OVERLAP, format!("{} and {} both hold for {whom} {days}", names[0], names[1]))
}

/// Days without an edition.
pub fn editions_gap(names: [&str; 2], whom: &str, from: Date, to: Date) -> Problem {
    let days = if from == to { format!("on {from}") } else { format!("from {from} to {to}") };
    Problem::new(
        &EDITIONS_GAP,
        format!("nothing holds for {whom} {days}, between {} and {}", names[0], names[1]),
    )
}
