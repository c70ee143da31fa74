//! Schedules: tables that contradict themselves or leave a gap. The codes and their pages stand here; the sentences for
//! single cells in `cells`, those for rules that several cells have to keep in `rules`.

mod cells;
mod rules;

pub use cells::*;
pub use rules::*;

use super::{Code, Severity};

codes! {
    TABLES_NONE = "schedule-tables-none", Error, "there is no table of a schedule",
        "None of the tables that were read is one of a schedule, so nothing can be rated.\n\nA table is known by its \
         headings: the terms, for one, by the headings term and value in one row. Look at the headings of the sheets, \
         or name the workbook or folder that holds the schedule.";
    TABLE_MISSING = "schedule-table-missing", Error, "a table of the schedule is missing",
        "A schedule needs its terms, taxes, size bands, count bands, panels and rates; one of these tables was not \
         found in the workbook or folder. The schedule is not used.\n\nA table is known by its headings, so a \
         misspelt heading hides it: a sheet headed size bnad, from, to is no table of size bands. The tables of one \
         schedule stand in one workbook, or as CSV files in one folder.";
    COLUMN_UNKNOWN = "schedule-column-unknown", Warning, "a heading is not known",
        "The table has a column whose heading means nothing to a schedule. The column is left out, which matters when \
         it was meant: a heading flor beside panels gives no panel a floor.\n\nCorrect the heading. Columns headed \
         remark, note or comment are yours and are never looked at.";
    COLUMN_TWICE = "schedule-column-twice", Error, "a heading stands twice",
        "Two columns of one table have the same heading, so it is not known which of them holds.\n\nGive each column a \
         heading of its own. Two rate grids side by side have this problem too: put one below the other, or on a \
         sheet of its own.";
    TEXT_LOOSE = "schedule-text-loose", Note, "text beside a table was not read",
        "A single cell stands by itself after a blank row under a table. It was taken for a note and not for a row.\n\n\
         If it was meant as a row, take the blank row above it away and fill in its other cells.";
    CELL_MISSING = "schedule-cell-missing", Error, "a needed cell is blank",
        "The row cannot be used without this cell. Blank is not zero: nothing is put in its place.\n\nFill the cell \
         in, or take the row away. A size band, for one, needs its name, from and to.";
    CELL_UNREADABLE = "schedule-cell-unreadable", Error, "a cell cannot be read as what it has to be",
        "The cell holds something else than a number, a length, a date or a name where one of these is needed.\n\n\
         Write plain numbers (12.50, or 12,50 where the file has decimal commas), lengths with their unit (12 mm, \
         1/2 in), dates as 2026-05-01. Spreadsheet programs turn names such as 5-10 into dates: format the cell as \
         text and type the name again. A formula that shows an error, or whose result was never stored, has to be \
         mended in the spreadsheet program.";
    OUT_OF_RANGE = "schedule-out-of-range", Error, "a value is not possible here",
        "The number can be read but cannot be meant: an amount below zero, a tax of 400 percent, a share of nothing.\n\n\
         The message says what is possible. Correct the cell.";
    TOO_PRECISE = "schedule-too-precise", Error, "a value is finer than it can be",
        "Amounts are whole minor units of the schedule's currency (cents), rates per dent or hour four decimals finer, \
         times whole seconds. Nothing is rounded silently, so 12.345 in a currency with cents is told.\n\nRound the \
         value in the way you mean it.";
    UNIT_MISSING = "schedule-unit-missing", Error, "a length has no unit",
        "A length was written as a bare number and nothing around it says its unit.\n\nWrite 12 mm or 1/2 in into the \
         cell, or the unit into the heading: from mm.";
    UNIT_CLASH = "schedule-unit-clash", Error, "a heading says another unit than the schedule",
        "The heading of a column ends in a currency or a unit of time that the terms contradict, or in a unit that \
         does not fit what the column holds.\n\nAll amounts of a schedule are in the currency of its terms, all times \
         in its time unit. Take the unit out of the heading, or change the values and the heading together.";
    PERCENT_AS_FRACTION = "schedule-percent-as-fraction", Warning, "a percentage is below one",
        "A percentage was read as less than one percent. Cells that a spreadsheet program shows as 25 % often hold \
         0.25, and 0.25 is what was read.\n\nIf 25 percent is meant, format the cell as a plain number and write 25. \
         If a quarter of one percent is meant, nothing is wrong.";
    NAME_UNKNOWN = "schedule-name-unknown", Error, "a name is not known",
        "The cell names something that does not exist: a term, a kind of panel, a group, a band, or one of the words \
         that a column allows.\n\nThe nearest right words are suggested. Groups, size bands and count bands exist when \
         their own table lists them; panels are written without left or right.";
    NAME_TWICE = "schedule-name-twice", Error, "two rows say the same",
        "Two rows have the same name, or hold for the same thing, so it is not known which of them counts.\n\nTake one \
         of the two rows away, or tell them apart. Both places are given.";
    NAME_MEANS_TWO = "schedule-name-means-two", Warning, "a name is a kind of panel and a group of several",
        "The word names one kind of panel, and also a group in which other panels are rated. It was taken for the kind \
         of panel alone.\n\nIf the group is meant, give it a name that is no panel: roof parts instead of roof.";
    HOLDS_FOR_NONE = "schedule-holds-for-none", Warning, "a row holds for no panel of the schedule",
        "The row names panels, but the schedule's table of panels lists none such, so the row is never used.\n\nList \
         the panel in the table of panels, or take the row away.";
    TERM_MISSING = "schedule-term-missing", Error, "a needed term is missing",
        "The terms lack a row that no schedule can do without, or its value is blank.\n\nAdd the row: the page of the \
         tables lists the terms that are needed. Nothing is assumed for a currency, a date or a way of rounding.";
    TERMS_INCOMPLETE = "schedule-terms-incomplete", Error, "terms that belong together are not all there",
        "A rule was begun and not finished. The four terms of the total-loss screen come together or not at all; the \
         rule largest with share needs mixed share; the rule equivalents needs equivalents of and a weight for every \
         size band.\n\nAdd what is missing, or take the rest away.";
    IDLE = "schedule-idle", Warning, "something written has no effect",
        "A cell or row is filled in and nothing follows from it, so something else was probably meant.\n\nThe message \
         says why it has no effect. Take it away, or add what it belongs to.";
    TAKES_OFF = "schedule-takes-off", Warning, "a factor takes a fixed amount off",
        "The factor adds a fixed amount below zero to every panel for which it holds, also to one that is worth less. A \
         panel that would come below zero is priced at nothing, with a line that says so.\n\nWrite a percentage where \
         the amount is meant to grow with the work, or leave it if the fixed amount is agreed.";
    DATES_REVERSED = "schedule-dates-reversed", Error, "the schedule ends before it begins",
        "Valid to is an earlier day than valid from, so the schedule holds on no day.\n\nCorrect one of the two dates. \
         Without valid to the schedule has no end.";
    TIME_UNIT = "schedule-time-unit", Error, "a work unit is no whole number of seconds",
        "Times are kept in whole seconds, so the number of work units to the hour has to divide 3600: 10, 12, 20, 60 \
         or 100 do, 7 does not.\n\nWrite work units and such a number.";
    BAND_GAP = "schedule-band-gap", Error, "there is a gap between bands",
        "Between two bands, or before the first, lie sizes or counts that no band holds. A dent of that size would have \
         no price.\n\nBands follow on each other: 0-10 and 10-20, or 0-10 and 11-20 when both are printed in whole \
         millimetres. Size bands begin at 0, count bands at 1.";
    BAND_OVERLAP = "schedule-band-overlap", Error, "two bands overlap",
        "Some sizes or counts lie in two bands, so they would have two prices.\n\nLet each band begin where the one \
         before ends. A count band without to dents is open-ended and can only be the last.";
    BAND_EMPTY = "schedule-band-empty", Error, "a band holds nothing",
        "The upper edge of the band is not above its lower edge, so no dent lies in it.\n\nThe two edges were perhaps \
         exchanged. An upper edge belongs to its band, a lower edge to the band before.";
    BANDS_TOO_MANY = "schedule-bands-too-many", Error, "there are too many bands",
        "The table has more rows than any schedule has bands. It is probably another table under the headings of \
         bands.\n\nUp to 60 size bands and 200 count bands are read.";
    EDGES_JOINED = "schedule-edges-joined", Note, "two edges were taken for one",
        "The upper edge of a band and the lower edge of the next are one last printed digit apart (10 and 11), so they \
         mean one edge. The upper edge as printed holds.\n\nNothing has to be done. To be rid of the note, print the \
         same number twice.";
    WEIGHT_NOT_ONE = "schedule-weight-not-one", Warning, "the band of equivalents does not weigh one",
        "Dents are counted as equivalents of one size band, and a dent of that band does not weigh 1. The weights are \
         used as they stand.\n\nGive the band the weight 1 and scale the others, or check the term equivalents of.";
    FLOOR_ABOVE_CAP = "schedule-floor-above-cap", Error, "a panel's floor is above its cap",
        "The least amount of the panel is more than the most that it can be, so no amount is right.\n\nExchange or \
         correct the two amounts.";
    CAPTION_MISSING = "schedule-caption-missing", Error, "a rate grid does not say what it is",
        "Above the heading row of a rate grid stand a row rated as with the group's name in the next cell, and a row \
         gives with amount per panel, amount per dent, hours per panel or hours per dent. One of the two is missing or \
         has nothing beside it.\n\nAdd it directly above the heading row.";
    VALUE_CHOICE = "schedule-value-choice", Error, "one of two cells has to be filled, and only one",
        "A rate is an amount or a time, a factor a percentage or an amount. Both cells are filled, or neither.\n\n\
         Fill exactly one of them.";
    RATE_TWICE = "schedule-rate-twice", Error, "two cells give the same rate",
        "Two cells stand for the same group, size band and count band. Even when they agree it is not known which one \
         is kept up to date.\n\nTake one of the two away. Both cells are named.";
    RATES_MISSING = "schedule-rates-missing", Warning, "a group has no rate for some sizes and counts",
        "Some cells of the grid are empty. A panel that comes to one of them has no paintless price and stays open \
         unless a limit decides it.\n\nIf that is agreed, nothing is wrong; otherwise fill the cells in.";
    GROUP_WITHOUT_RATES = "schedule-group-without-rates", Error, "a group has no rate at all",
        "A panel is rated as this group, and no rate grid and no row of rates gives it a single price.\n\nAdd its rates, \
         or rate the panel as another group.";
    AMOUNT_FALLS = "schedule-amount-falls", Warning, "an amount falls as dents become more or larger",
        "A panel with more or larger dents would cost less than one with fewer or smaller ones. Panel amounts are \
         compared, at the counts where one band ends and the next begins; a lower rate per dent alone is no fall.\n\n\
         Both cells are named: one of them is probably a slip.";
    ONE_MORE_COSTS_LESS = "schedule-one-more-costs-less", Warning, "one more dent can lower an amount",
        "The schedule rates all dents of a panel at one size band, and one more small dent can move the panel to a \
         smaller and cheaper band. One example is given; documents say so where it happens.\n\nThis lies in the rule, \
         not in a slip. Rating each band by itself, or by equivalents, does not have it.";
    ROWS_TIED = "schedule-rows-tied", Error, "two rows hold equally for one panel",
        "Of several rows that hold for a panel the most particular is taken: a kind of panel before a group, a group \
         before horizontal, vertical, bolted or welded, and those before any. Here two are equally particular.\n\nName \
         the panel itself in one of them, or take one away. Rows of mark rates meet only where their lengths overlap.";
    LENGTHS_UNRATED = "schedule-lengths-unrated", Warning, "marks of some lengths have no rate",
        "Between two rows of mark rates, or before the first, lie lengths that no row holds. A panel with such a mark \
         has no paintless price. Oversize dents begin where the largest size band ends.\n\nLet each row begin where the \
         one before ends, unless nothing is agreed there.";
    LABOUR_MISSING = "schedule-labour-missing", Warning, "labour is needed that no row prices",
        "A time in the schedule needs a rate per hour that the labour table does not have. What needs it is not \
         priced.\n\nAdd a row to the labour table: paintless for rates in hours, remove and refit for fitting and \
         operations, conventional, refinish.";
    LABOUR_UNUSED = "schedule-labour-unused", Note, "a paintless rate per hour is not used",
        "All rates of the schedule are amounts, so the rate per hour of paintless work prices nothing.\n\nNothing has to \
         be done, unless some rates were meant as hours: then the grid has to say gives, hours per panel.";
    TAX_MISSING = "schedule-tax-missing", Error, "a tax rate is missing",
        "Labour, parts and paint material each need a row in the table of taxes.\n\nWhere one is not taxed, write 0.";
    LIMIT_LATE = "schedule-limit-late", Warning, "a limit begins after the last count band",
        "The rates end at the last count band, and of the limits on dents that hold for a panel the first is crossed only \
         at a higher count. A panel between the two has no price and no limit: it stays open until a person decides. \
         Where each size band is rated by itself, that is a panel with so many dents of one size.\n\nAdd a limit at the \
         last count that has a rate, or extend the count bands.";
    OPERATION_REPEATED = "schedule-operation-repeated", Warning, "an operation has several rows",
        "Two rows have the same name and are charged once per vehicle, each by itself: a vehicle with both panels pays \
         twice.\n\nIf it is the same work, write one row for a group that holds both panels. If not, give each its own \
         name.";
}
