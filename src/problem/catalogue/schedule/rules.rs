use super::super::Problem;
use super::{
    AMOUNT_FALLS, BAND_EMPTY, BAND_GAP, BAND_OVERLAP, BANDS_TOO_MANY, DATES_REVERSED, EDGES_JOINED,
    FLOOR_ABOVE_CAP, GROUP_WITHOUT_RATES, HOLDS_FOR_NONE, IDLE, LABOUR_MISSING, LABOUR_UNUSED,
    LENGTHS_UNRATED, LIMIT_LATE, NAME_MEANS_TWO, ONE_MORE_COSTS_LESS, OPERATION_REPEATED, RATE_TWICE,
    RATES_MISSING, ROWS_TIED, TABLE_MISSING, TABLES_NONE, TAKES_OFF, TAX_MISSING, TERM_MISSING,
    TERMS_INCOMPLETE, TIME_UNIT, WEIGHT_NOT_ONE,
};
use crate::quantity::{Date, Decimal, Length, Money};

/// No table at all.
pub fn no_tables() -> Problem {
    Problem::new(&TABLES_NONE, "no table of a schedule was found")
}

/// A table that no schedule can do without.
pub fn table_missing(table: &str, columns: &str) -> Problem {
    Problem::new(&TABLE_MISSING, format!("the schedule has no {table}"))
        .help(format!("Add a table with the headings {columns}"))
}

/// A term that no schedule can do without.
pub fn term_missing(term: &str) -> Problem {
    Problem::new(&TERM_MISSING, format!("the terms do not say {term}"))
}

/// A rule that is not finished.
pub fn incomplete(rule: &str, missing: &str) -> Problem {
    Problem::new(&TERMS_INCOMPLETE, format!("{rule} lacks {missing}"))
}

/// Something without effect.
pub fn idle(what: &str, why: &str) -> Problem {
    Problem::new(&IDLE, format!("{what} has no effect: {why}"))
}

/// A factor that adds a fixed amount below zero.
pub fn takes_off(factor: &str, amount: &str) -> Problem {
    Problem::new(
        &TAKES_OFF,
        format!("{factor} adds {amount} to every panel it holds for, however little it is worth"),
    )
}

/// A schedule that ends before it begins.
pub fn dates_reversed(from: Date, to: Date) -> Problem {
    Problem::new(&DATES_REVERSED, format!("valid to {to} is before valid from {from}"))
}

/// Work units that are no whole seconds.
pub fn time_unit() -> Problem {
    Problem::new(&TIME_UNIT, "the work units to the hour do not divide its 3600 seconds")
        .help("Write work units and a divisor of 3600, such as work units 12")
}

/// Sizes that no band holds.
pub fn size_gap(from: Length, to: Length) -> Problem {
    Problem::new(&BAND_GAP, format!("no size band holds dents between {from} and {to}"))
}

/// Sizes that two bands hold.
pub fn size_overlap(from: Length, to: Length) -> Problem {
    Problem::new(&BAND_OVERLAP, format!("two size bands hold dents between {from} and {to}"))
}

/// Two edges that are one.
pub fn edges_joined(edge: Length, other: Length) -> Problem {
    Problem::new(&EDGES_JOINED, format!("{edge} and {other} are one edge; {edge} holds"))
}

/// Counts that no band holds.
pub fn count_gap(from: u32, to: u32) -> Problem {
    let counts = if from == to { format!("{from} dents") } else { format!("{from} to {to} dents") };
    Problem::new(&BAND_GAP, format!("no count band holds {counts}"))
}

/// A first count band that begins below one dent.
pub fn count_from_zero() -> Problem {
    Problem::new(&BAND_OVERLAP, "the first count band begins at no dents")
        .help("Begin with 1: a panel without dents is not rated")
}

/// Counts that two bands hold.
pub fn count_overlap(from: u32, to: u32) -> Problem {
    let counts = if from == to { format!("{from} dents") } else { format!("{from} to {to} dents") };
    Problem::new(&BAND_OVERLAP, format!("two count bands hold {counts}"))
}

/// A count band after the open-ended one.
pub fn count_after_open(name: &str) -> Problem {
    Problem::new(&BAND_OVERLAP, format!("count band {name} begins after one without an end"))
        .help("Only the last count band can have a blank to dents")
}

/// A band whose upper edge is not above its lower edge.
pub fn band_empty(what: &str, name: &str) -> Problem {
    Problem::new(&BAND_EMPTY, format!("{what} {name} ends before it begins"))
}

/// More bands than any schedule has.
pub fn too_many_bands(what: &str, most: usize) -> Problem {
    Problem::new(&BANDS_TOO_MANY, format!("there are more than {most} {what}"))
}

/// A reference band that does not weigh one.
pub fn own_weight(band: &str, weight: Decimal) -> Problem {
    Problem::new(&WEIGHT_NOT_ONE, format!("a dent of {band} weighs {weight} equivalents of {band}"))
}

/// A floor above its cap.
pub fn floor_above_cap(panel: &str) -> Problem {
    Problem::new(&FLOOR_ABOVE_CAP, format!("{panel}: the floor is above the cap"))
}

/// A name of a kind of panel that is also a wider group.
pub fn kind_and_group(name: &str) -> Problem {
    Problem::new(
        &NAME_MEANS_TWO,
        format!("{name} is a kind of panel and a group with other panels in it; it is taken for the panel"),
    )
}

/// A row that no listed panel is meant by.
pub fn holds_for_no_panel(name: &str) -> Problem {
    Problem::new(&HOLDS_FOR_NONE, format!("the table of panels lists no {name}; the row is never used"))
}

/// Two cells for one place of the grid.
pub fn rate_twice(group: &str, size: &str, count: &str) -> Problem {
    Problem::new(&RATE_TWICE, format!("the rate of {group}, {size}, {count} stands twice"))
}

/// Cells of a group that are empty.
pub fn rates_missing(group: &str, which: &str) -> Problem {
    Problem::new(&RATES_MISSING, format!("{group} has no rate for {which}"))
}

/// A group without a single cell.
pub fn group_without_rates(group: &str) -> Problem {
    Problem::new(&GROUP_WITHOUT_RATES, format!("{group} has no rate at all"))
}

/// An amount that falls.
pub fn amount_falls(group: &str, before: &str, less: Money, after: &str, more: Money) -> Problem {
    Problem::new(&AMOUNT_FALLS, format!("{group}: {more} for {after}, but {less} for {before}"))
}

/// A panel on which one more dent costs less.
pub fn one_more_costs_less(group: &str, panel: &str, amount: Money, added: &str, less: Money) -> Problem {
    Problem::new(
        &ONE_MORE_COSTS_LESS,
        format!("{group}: {amount} for {panel}, but {less} with one more of {added}"),
    )
}

/// Two rows that are equally particular.
pub fn rows_tied(what: &str) -> Problem {
    Problem::new(&ROWS_TIED, format!("two rows of {what} are equally particular for one panel"))
        .help("Name the panel itself in one of them")
}

/// Lengths of marks without a rate.
pub fn lengths_unrated(mark: &str, from: Length, to: Length, panels: &str) -> Problem {
    Problem::new(&LENGTHS_UNRATED, format!("{mark}: no rate over {from} up to {to} on {panels}"))
}

/// Labour that is needed and not priced.
pub fn labour_missing(class: &str, what: &str) -> Problem {
    Problem::new(&LABOUR_MISSING, format!("{what} needs the labour {class}, which has no rate per hour"))
}

/// A labour rate that prices nothing.
pub fn labour_unused(class: &str) -> Problem {
    Problem::new(&LABOUR_UNUSED, format!("the labour {class} is used by no rate"))
}

/// A missing tax rate.
pub fn tax_missing(on: &str) -> Problem {
    Problem::new(&TAX_MISSING, format!("the taxes have no row for {on}"))
        .help("Write 0 where nothing is taxed")
}

/// A limit that begins beyond the last count that has a rate.
pub fn limit_late(over: u32, to: u32, of_one_size: bool) -> Problem {
    let dents = if of_one_size { "dents of one size" } else { "dents" };
    Problem::new(
        &LIMIT_LATE,
        format!(
            "more than {to} {dents} have no rate and this limit begins above {over}: a panel between has neither"
        ),
    )
}

/// An operation in several rows.
pub fn operation_repeated(name: &str) -> Problem {
    Problem::new(&OPERATION_REPEATED, format!("operation {name} is charged once for each of its rows"))
}
