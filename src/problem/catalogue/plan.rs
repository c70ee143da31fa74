//! Planning the work: what keeps a plan from being made, and what is odd about a workshop's tables.

use super::{Code, Problem, Severity};
use crate::problem::Place;
use crate::quantity::Date;

codes! {
    NO_FIRST_DAY = "plan-without-first-day", Error, "a plan needs its first day",
        "A plan begins on a day, and the program never looks at the clock: the same files give the same plan at any \
         time.\n\nWhat follows: nothing is planned and nothing is written.\n\nTo mend it, name the first day with \
         `--date`.\n\nExample: `plan storm workshop.xlsx --date 2026-07-06`.";
    NO_TECHNICIANS = "plan-without-technicians", Error, "no table of technicians was found",
        "A plan needs to know who works: a table with the headings `technician`, `skills` and `hours a day`. None of the \
         files holds one, or none of its rows could be used.\n\nWhat follows: nothing is planned and nothing is \
         written.\n\nTo mend it, put the table among the paths. `src/read/README.md` lists its columns.\n\nExample: a row \
         `A`, `paintless; fitting`, `8`.";
    NO_WORKING_DAY = "plan-without-working-day", Error, "no day of the week is worked",
        "The table of the week says `no` for every day, so nothing can ever begin.\n\nWhat follows: nothing is planned and \
         nothing is written.\n\nTo mend it, write `yes` beside the days that are worked. Without the table these are \
         Monday to Friday.\n\nExample: `saturday, yes`.";
    TECHNICIAN_TWICE = "technician-twice", Error, "one technician stands in two rows",
        "Two rows of the table of technicians carry the same name or letter. Case and punctuation do not matter.\n\nWhat \
         follows: the first row holds and the later one is left out, so that nobody is planned twice.\n\nTo mend it, put \
         all skills into one row, or give the two people different names.\n\nExample: `A` and `a`.";
    TECHNICIAN_UNKNOWN = "technician-unknown", Error, "days off of somebody who is no technician",
        "A row of days off names somebody who stands in no row of the table of technicians.\n\nWhat follows: the row is \
         left out: nobody gets these days off.\n\nTo mend it, write the name as the table of technicians has it, or \
         leave it blank where the whole workshop is closed.\n\nExample: days off of `Anna` where the table has `A`.";
    TOO_MANY_TECHNICIANS = "technicians-too-many", Error, "more technicians than a workshop has",
        "The table of technicians has more rows than a plan takes.\n\nWhat follows: those beyond are left out.\n\nTo mend \
         it, look whether the table is another kind of list; a plan is for one workshop.\n\nExample: a list of a whole \
         company's staff.";
    DAYS_REVERSED = "days-off-reversed", Error, "days off end before they begin",
        "The last day off lies before the first.\n\nWhat follows: the row is left out.\n\nTo mend it, exchange the two \
         days, or correct the year.\n\nExample: from 2026-12-24 until 2026-01-02.";
    PACE_TWICE = "pace-twice", Error, "two paces of paintless work for one currency",
        "What an hour of paintless work brings in is stated twice for one currency.\n\nWhat follows: the first row \
         holds.\n\nTo mend it, leave one of the two.\n\nExample: 80 EUR and 95 EUR.";
    ARRIVAL_UNKNOWN = "arrival-of-no-claim", Warning, "parts arrive for a car that is not planned",
        "A row of arrivals names a claim, job, registration or VIN that none of the planned cars has, or a panel of the car \
         that gets no new part.\n\nWhat follows: the row holds nothing up.\n\nTo mend it, write the key or the panel as the \
         documents do; where the car is not planned, or needs no such part, nothing has to be done.\n\nExample: \
         parts for `VM-25-411` where the claim is `VM-25-0411`.";
}

/// No `--date`.
pub fn no_first_day() -> Problem {
    Problem::new(&NO_FIRST_DAY, "a plan needs its first day")
        .help("name it with --date, such as --date 2026-07-06")
}

/// No row of technicians.
pub fn no_technicians() -> Problem {
    Problem::new(&NO_TECHNICIANS, "no table of technicians was found")
        .help("give a table with the headings technician, skills and hours a day")
}

/// Every weekday is closed.
pub fn no_working_day() -> Problem {
    Problem::new(&NO_WORKING_DAY, "no day of the week is worked").help("write yes beside the days that are")
}

/// A second row of one name.
pub fn technician_twice(place: Place, name: &str, first: Place) -> Problem {
    Problem::new(&TECHNICIAN_TWICE, format!("technician \"{name}\" stands in the table already"))
        .at(place)
        .and(first)
        .written(name)
}

/// A name without a row.
pub fn technician_unknown(place: Place, name: &str) -> Problem {
    Problem::new(&TECHNICIAN_UNKNOWN, format!("there is no technician \"{name}\""))
        .at(place)
        .written(name)
        .help("leave the cell blank where the whole workshop is closed")
}

/// The first row beyond the most.
pub fn too_many_technicians(place: Place, most: usize) -> Problem {
    Problem::new(&TOO_MANY_TECHNICIANS, format!("more than {most} technicians")).at(place)
}

/// Days that run backwards.
pub fn days_reversed(place: Place, from: Date, until: Date) -> Problem {
    Problem::new(&DAYS_REVERSED, format!("days off from {from} end on {until}"))
        .at(place)
        .written(until.to_string())
}

/// A second pace of one currency.
pub fn pace_twice(place: Place, first: Place) -> Problem {
    Problem::new(&PACE_TWICE, "what an hour of paintless work brings in is stated already")
        .at(place)
        .and(first)
}

/// An arrival that no planned part waits for.
pub fn arrival_unknown(place: Place, key: &str) -> Problem {
    Problem::new(&ARRIVAL_UNKNOWN, format!("no planned part of \"{key}\" waits for this"))
        .at(place)
        .written(key)
}
