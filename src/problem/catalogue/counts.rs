//! Counts as written: headings, sizes, numbers, panels.

use super::{Code, Problem, Severity};
use crate::problem::Place;
use crate::quantity::DecimalMark;
use std::fmt::Display;

codes! {
    COUNT_NOT_A_NUMBER = "count-not-a-number", Error, "a count is no number",
        "The cell stands in a column of counts and holds something else. The claim drops out, since nobody can say how \
         many dents were meant.\n\nWrite a whole number: `12`. Leave the cell blank where nothing was counted, write \
         `0` where you looked and found none. A spreadsheet program may have made a date of `3-4` or `3/4`.";
    COUNT_IS_DATE = "count-is-date", Question, "a count was turned into a date",
        "A spreadsheet program made a date of an entry such as `3-5` or `3/5`. Whether it was a range, two numbers or a \
         slip cannot be told back. The claim is listed and not priced.\n\nFormat the cell as a number and write the count \
         again: `4`.";
    COUNT_NEGATIVE = "count-negative", Error, "a count is below zero",
        "There cannot be fewer dents than none. The claim drops out.\n\nWrite the number without its sign: `3`, not \
         `-3`.";
    COUNT_FRACTIONAL = "count-fractional", Error, "a count is no whole number",
        "Dents are counted in whole numbers. The claim drops out.\n\nCheck whether a length or an amount slipped into the \
         column, or whether the file's decimal mark was taken for the other one: `12`, not `1.2`.";
    COUNT_ABSURD = "count-absurd", Error, "a count is larger than can be meant",
        "More than 2 000 dents of one size on one panel are taken for a slip. The claim drops out.\n\nCheck the number: \
         two cells typed into one (`1214` for `12` and `14`) is the usual reason.";
    COUNT_ESTIMATE = "count-estimate", Question, "a count is an estimate",
        "The cell holds a range or a rough number (`100+`, `~80`, `30-40`). Which number to pay on is not guessed: the \
         claim is listed and not priced.\n\nWrite the number that was agreed, or count again: `85`.";
    COUNT_WORD = "count-word", Question, "a word stands for a count",
        "The cell holds a word or sign such as `-`, `none` or `n/a`. It may mean that there are no dents, or that nobody \
         looked, and the two are paid differently. The claim is listed and not priced.\n\nWrite `0` for no dents; leave \
         the cell blank where nobody looked.";
    COUNT_MERGED = "count-merged", Question, "a merged cell holds a count",
        "One number stands over several rows or columns. Whether it holds for each of them or for all together cannot be \
         seen. The claim is listed and not priced.\n\nUnmerge the cells and write the number that belongs to each.";
    CELL_FAULT = "cell-fault", Error, "a cell holds an error instead of a value",
        "The cell holds an error of the spreadsheet program (`#REF!`), a number beyond all bounds, or a formula whose \
         result was never stored. It is neither blank nor zero, so the claim drops out.\n\nOpen the workbook in the \
         program it came from, let it calculate, mend the formula, and save.";
    NUMBER_BOTH_WAYS = "number-both-ways", Question, "a number can be read in two ways",
        "`1.234` is one and a bit where the point parts the decimals, and one thousand and more where it groups digits. \
         No other number of the file proves which holds. The claim is listed and not priced.\n\nWrite it without \
         grouping (`1234`) or with its decimals (`1234.00`), or answer once for the column: `decimal mark` means `comma`.";
    NUMBER_OTHER_MARK = "number-other-mark", Error, "a number is written with the other decimal mark",
        "The other numbers of the file part their decimals with a comma, and this one with a point, or the other way \
         round. A number is never read in two ways within one file: the claim drops out.\n\nWrite it like the others: \
         `12,5` in a file of commas, `12.5` in one of points.";
    FORMULA_AS_TEXT = "formula-as-text", Error, "a formula stands as text",
        "The cell holds the text of a formula (`=1+2`) and not its result: a text file stores none, and a workbook stores \
         it as text where the cell was formatted so. It is not calculated here, so the claim drops out.\n\nWrite the \
         value itself: `3`; or save the file again from the program it came from.";
    SIZE_WITHOUT_UNIT = "size-without-unit", Question, "a size has no unit",
        "The size is a range without a unit, and neither another heading nor a title above names one. 10 millimetres and \
         10 inches are not guessed between: the claims of this table are listed and not priced.\n\nWrite the unit into \
         the heading (`0-10 mm`) or into a title above it (`sizes in mm`).";
    SIZE_IS_DATE = "size-is-date", Question, "a size was turned into a date",
        "A spreadsheet program made a date of a heading such as `3-5`. Which range it was cannot be told back. The \
         claims of this table are listed and not priced.\n\nFormat the cell as text and write the heading again, with \
         its unit: `3-5 mm`.";
    COLUMN_OPEN = "column-open", Question, "numbers stand below a heading that nobody knows",
        "A table of counts has a column of whole numbers, and its heading is neither a size nor another word of the table. \
         It may be a size with a slip in it (`10-2O mm` with a letter O), and its dents would be lost. The claims with \
         numbers in it are listed and not priced.\n\nWrite the size as a range (`10-20 mm`) or by a name that begins with \
         `size` or `band`. Where the numbers are no dents, put the word `note` into the heading: `bay (note)`.";
    SIZE_MISSING = "size-missing", Error, "a count has no size",
        "The row has a number of dents and no size beside it. What they would be paid as is unknown, so the claim drops \
         out.\n\nWrite the size into the row, as a range (`11-20 mm`) or by a name that the schedule lists.";
    PANEL_UNKNOWN = "panel-unknown", Error, "a panel is not known",
        "The name is none of the words for a panel, American or British. The claim drops out, since what was counted on \
         it would be lost.\n\nUse a usual name: `hood` or `bonnet`, `left front door`, `RR quarter`. Glass, lamps and \
         mouldings are items and stand in a table of their own.";
    PANEL_MISSING = "panel-missing", Error, "a row names no panel",
        "The row holds counts or measures and no panel. The claim drops out, since they would be lost.\n\nWrite the \
         panel into the row. In a table with a row per size it may stand once above blank cells.";
    PANEL_WHICH = "panel-which", Question, "a name may mean several panels",
        "The name fits several panels of this car: a `door` is a front or a rear one. The claim is listed and not \
         priced.\n\nSay which: `left front door`. The body type in the table of vehicles settles it where the car has \
         only one kind.";
    PANEL_WORD = "panel-word", Question, "a word means two things on this car",
        "On a convertible `hood` may be the bonnet or the soft top; on a car with luggage bars `roof rail` may be the \
         body's frame or the bar. The claim is listed and not priced.\n\nWrite `bonnet` or `cant rail` for the panel; a \
         soft top or a luggage bar stands in the table of items.";
    PANEL_LACKING = "panel-lacking", Error, "this body type has no such panel",
        "No car of the body type in the table of vehicles has this panel: no rear door on a two-door car. Either the panel \
         or the body type is wrong, so the claim drops out.\n\nCorrect whichever it is. On a pick-up the outer side of \
         the bed is a `bed side`, on a van the side is a `front van side` or `rear van side`.";
    PANEL_TWICE = "panel-twice", Error, "a panel is counted twice",
        "Two rows of one inspection give a number for the same panel and size. Which holds is not guessed, and adding \
         them would pay twice: the claim drops out.\n\nRemove one, or answer which row, sheet or file holds. Another \
         person's or day's count needs its `assessor`, `date of inspection` or `pass`, and is another inspection.";
    AGREED_TWICE = "agreed-twice", Note, "an agreed count is given twice alike",
        "Two files give the same agreed numbers for a panel, as the workbook and the text file of one table to agree on do. \
         They are taken once.\n\nNothing has to be done. Where the two differ (`12` in the workbook, `14` in the text \
         file), both cells are named and the claim waits: remove the older file.";
    SIDE_MISSING = "side-missing", Error, "a side is missing",
        "The car has this panel on the left and on the right, and the row does not say which. The claim drops \
         out.\n\nWrite the side into the name (`left fender`, `LF door`) or into a column `side`. Left and right are as \
         seated, facing forward.";
    SIDE_NEEDLESS = "side-needless", Error, "a panel that has no sides carries one",
        "The car has only one such panel, so a side is probably meant for another one. The claim drops out.\n\nCorrect \
         the name: not `left hood` but `hood`, or `left fender`.";
    SIDE_CLASH = "side-clash", Error, "two sides are given for one panel",
        "The name of the panel and the column `side`, or two words of the name, say left and right at once. The claim \
         drops out.\n\nKeep the one that is right.";
    SIDE_BOTH = "side-both", Question, "one row speaks of both sides",
        "A number stands for the left and the right panel at once. How many dents each has cannot be told back, and each \
         panel is rated by itself. The claim is listed and not priced.\n\nWrite a row for each side, or answer: the \
         one, the other, or `each side`.";
    SIDE_VIEW = "side-view", Question, "sides may be meant as seen from the front",
        "A title or heading says that left and right are meant as seen from in front of the car. Everywhere else they are as \
         seated, facing forward. The claims of the table are listed and not priced.\n\nAnswer it (`sides` means `as seated`, \
         or `as seen from the front`), or exchange left and right and take the words away.";
    PANEL_CORNER = "panel-corner", Question, "a corner is named without a panel",
        "`LF` or `rear right` is a corner of the car, where a fender, a door, a pillar and more may be meant. The claim is \
         listed and not priced.\n\nAdd the panel: `LF fender`, `RR quarter`.";
    OVERSIZE_OPEN = "oversize-open", Question, "numbers below oversize may be sizes",
        "A number below `oversize` may be how many such dents there are, or how large the one is. The two are paid very \
         differently. The claims of this table are listed and not priced; a column of zeros harms \
         nothing.\n\nHead the column with a range if it holds numbers of dents (`over 50 mm`), or with `size oversize` \
         where the schedule lists that. Measured dents stand in a table of marks: `panel`, `mark`, `length mm`.";
    SIDE_RELATIVE = "side-relative", Question, "a side depends on the country or the steering",
        "Near and off side change with the side of the road a country drives on, driver's and passenger's side with the \
         steering. It is not written for this car. The claim is listed and not priced.\n\nWrite `left` or `right`; or \
         give `market` (a country) or `steering` in the table of vehicles.";
    LENGTH_UNREADABLE = "length-unreadable", Error, "a length cannot be read",
        "The cell is no length. The claim drops out, since a mark is paid by its length.\n\nWrite a number with its \
         unit: `55 mm`, `2 1/4 in`; or put the unit into the heading (`length mm`) and write numbers.";
    LENGTH_WITHOUT_UNIT = "length-without-unit", Question, "a length has no unit",
        "The cell is a bare number, and its heading names no unit. The claim is listed and not priced.\n\nWrite the unit \
         into the cell (`55 mm`) or into the heading (`length mm`).";
    TOTAL_DISAGREES = "total-disagrees", Warning, "a total differs from its cells",
        "A row or column headed `total` holds another number, or another amount, than its cells add up to. The cells are used, the total is \
         not.\n\nCheck which is right: a number may have been typed into the wrong cell, or the total copied from \
         another sheet.";
}

/// One row for two panels.
pub fn side_both(place: Place, written: &str) -> Problem {
    Problem::new(&SIDE_BOTH, "how many of these dents are on the left, and how many on the right?")
        .at(place)
        .written(written)
        .help("write a row for each side")
}

/// Words that turn left and right round.
pub fn side_view(place: Place, written: &str) -> Problem {
    Problem::new(&SIDE_VIEW, "are left and right meant as seen from in front of the car?")
        .at(place)
        .written(written)
        .help("write sides as seated, facing forward")
}

/// A corner of the car.
pub fn panel_corner(place: Place, written: &str) -> Problem {
    Problem::new(&PANEL_CORNER, "which panel at this corner?")
        .at(place)
        .written(written)
        .help("add the panel, such as `LF fender`")
}

/// A column of numbers or of sizes.
pub fn oversize_open(place: Place, heading: &str) -> Problem {
    Problem::new(&OVERSIZE_OPEN, format!("are the numbers below \"{heading}\" numbers of dents, or sizes?"))
        .at(place)
        .written(heading)
        .help("head the column with a range such as `over 50 mm` if they are numbers of dents")
}

/// Something in a column of counts that is none.
pub fn not_a_number(place: Place, written: &str) -> Problem {
    Problem::new(&COUNT_NOT_A_NUMBER, "this is no number of dents")
        .at(place)
        .written(written)
        .help("write a whole number, or leave the cell blank")
}

/// A date in a column of counts.
pub fn count_is_date(place: Place, written: &str) -> Problem {
    Problem::new(&COUNT_IS_DATE, "this count was turned into a date: how many dents was it?")
        .at(place)
        .written(written)
        .help("a spreadsheet program makes dates of entries such as 3-4: format the cell as a number and write it again")
}

/// Below zero.
pub fn negative(place: Place, written: &str) -> Problem {
    Problem::new(&COUNT_NEGATIVE, "a number of dents cannot be below zero").at(place).written(written)
}

/// Not whole.
pub fn fractional(place: Place, written: &str) -> Problem {
    Problem::new(&COUNT_FRACTIONAL, "a number of dents has to be whole").at(place).written(written)
}

/// More than can be meant.
pub fn absurd(place: Place, written: &str, most: u32) -> Problem {
    Problem::new(
        &COUNT_ABSURD,
        format!("more than {most} dents of one size on one panel are taken for a slip"),
    )
    .at(place)
    .written(written)
}

/// An estimate.
pub fn estimate(place: Place, written: &str) -> Problem {
    Problem::new(&COUNT_ESTIMATE, "this is an estimate: which number holds?")
        .at(place)
        .written(written)
        .help("write one whole number")
}

/// A word or sign.
pub fn word(place: Place, written: &str) -> Problem {
    Problem::new(&COUNT_WORD, "does this mean no dents, or that nobody looked?")
        .at(place)
        .written(written)
        .help("write 0 for no dents; leave the cell blank where nobody looked")
}

/// A number over several cells.
pub fn merged(place: Place, written: &str) -> Problem {
    Problem::new(&COUNT_MERGED, "this number stands over several cells: for which of them does it hold?")
        .at(place)
        .written(written)
        .help("unmerge the cells and write each number by itself")
}

/// An error of the spreadsheet program, or a formula without a result.
pub fn cell_fault(place: Place, written: &str) -> Problem {
    Problem::new(&CELL_FAULT, "this cell holds no value")
        .at(place)
        .written(written)
        .help("open the workbook in the program it came from, mend the formula, and save")
}

/// A number that the two decimal marks read differently.
pub fn both_ways(place: Place, written: &str) -> Problem {
    Problem::new(&NUMBER_BOTH_WAYS, "the point or comma here can part decimals or group thousands")
        .at(place)
        .written(written)
        .help("write it without grouping, or with its decimals")
}

/// A number with a point in a file of commas, or the other way round.
pub fn other_mark(place: Place, written: &str, of_file: DecimalMark) -> Problem {
    let (has, not) = match of_file {
        DecimalMark::Point => ("point", "comma"),
        DecimalMark::Comma => ("comma", "point"),
    };
    Problem::new(&NUMBER_OTHER_MARK, format!("this file writes decimals with a {has}, here stands a {not}"))
        .at(place)
        .written(written)
        .help(format!("write it with a {has}, as the other numbers of the file"))
}

/// The text of a formula where a value is asked for.
pub fn formula_as_text(place: Place, written: &str) -> Problem {
    Problem::new(&FORMULA_AS_TEXT, "this is a formula as text, not a value")
        .at(place)
        .written(written)
        .help("write the value itself")
}

/// A range without a unit: the headings concerned.
pub fn size_without_unit(place: Place, sizes: &[&str]) -> Problem {
    let message = format!("in which unit are these sizes: {}?", sizes.join(", "));
    Problem::new(&SIZE_WITHOUT_UNIT, message)
        .at(place)
        .help("write the unit into the heading, or into a title above it")
}

/// A heading that became a date.
pub fn size_is_date(place: Place, written: &str) -> Problem {
    Problem::new(&SIZE_IS_DATE, "this size was turned into a date: which range was it?")
        .at(place)
        .written(written)
        .help("format the cell as text and write the range again, with its unit")
}

/// Numbers below a heading that nobody knows; the nearest known words.
pub fn column_open(place: Place, heading: &str, near: &[&str]) -> Problem {
    let meant =
        if near.is_empty() { String::new() } else { format!("did you mean `{}`? ", near.join("` or `")) };
    Problem::new(&COLUMN_OPEN, format!("are the numbers below \"{heading}\" dents?"))
        .at(place)
        .written(heading)
        .help(format!("{meant}write the heading as a size, or put the word note into it"))
}

/// Dents without a size.
pub fn size_missing(place: Place) -> Problem {
    Problem::new(&SIZE_MISSING, "these dents have no size").at(place)
}

/// A panel that nobody knows.
pub fn panel_unknown(place: Place, written: &str, near: &[String]) -> Problem {
    let problem =
        Problem::new(&PANEL_UNKNOWN, format!("no panel is called \"{written}\"")).at(place).written(written);
    if near.is_empty() { problem } else { problem.help(format!("did you mean {}?", near.join(" or "))) }
}

/// Counts or measures without a panel.
pub fn panel_missing(place: Place) -> Problem {
    Problem::new(&PANEL_MISSING, "this row names no panel").at(place)
}

/// A name for several panels of this car.
pub fn panel_which(place: Place, written: &str, kinds: &[&str]) -> Problem {
    Problem::new(&PANEL_WHICH, format!("\"{written}\" may be {}", kinds.join(" or ")))
        .at(place)
        .written(written)
}

/// A word that means two things on this car: the panel and the other thing, and the word for the panel.
pub fn panel_word(place: Place, written: &str, meanings: [&str; 2], panel: &str) -> Problem {
    let [one, other] = meanings;
    Problem::new(&PANEL_WORD, format!("on this car \"{written}\" may be {one} or {other}"))
        .at(place)
        .written(written)
        .help(format!("write `{panel}` for the panel; the other is an item"))
}

/// A panel that the body type lacks.
pub fn panel_lacking(place: Place, panel: &str, body: &str, body_place: Place, instead: &[&str]) -> Problem {
    let problem = Problem::new(&PANEL_LACKING, format!("a {body} has no {panel}")).at(place).and(body_place);
    if instead.is_empty() { problem } else { problem.help(format!("there it has {}", instead.join(" or "))) }
}

/// Two numbers for one size of one panel in one inspection.
pub fn panel_twice(first: Place, second: Place, panel: &str, size: &str) -> Problem {
    Problem::new(&PANEL_TWICE, format!("{panel} has two numbers for {size} in one inspection"))
        .at(second)
        .and(first)
        .help("remove one, or tell the inspections apart by assessor, date or pass")
}

/// The same agreed numbers of a panel in two files.
pub fn agreed_twice(first: Place, second: Place, panel: &str) -> Problem {
    Problem::new(&AGREED_TWICE, format!("{panel} is agreed twice alike, and taken once"))
        .at(second)
        .and(first)
}

/// A paired panel without side.
pub fn side_missing(place: Place, written: &str, panel: &str) -> Problem {
    Problem::new(&SIDE_MISSING, format!("is this the left or the right {panel}?"))
        .at(place)
        .written(written)
        .help(format!("write `left {panel}` or `right {panel}`"))
}

/// A side on a panel that stands alone.
pub fn side_needless(place: Place, written: &str, panel: &str) -> Problem {
    Problem::new(&SIDE_NEEDLESS, format!("a car has only one {panel}, so it has no side"))
        .at(place)
        .written(written)
}

/// Two sides at once.
pub fn side_clash(place: Place, written: &str) -> Problem {
    Problem::new(&SIDE_CLASH, "this names two sides at once").at(place).written(written)
}

/// A side that needs the country or the steering.
pub fn side_relative(place: Place, written: &str, needs: &str) -> Problem {
    Problem::new(&SIDE_RELATIVE, format!("which side this is depends on the {needs}, which is not known"))
        .at(place)
        .written(written)
        .help(match needs {
            "market" => {
                "write `left` or `right`, or a country in the column `market` of the table of vehicles: `GB`"
            }
            _ => "write `left` or `right`, or fill the column `steering` of the table of vehicles: `left`",
        })
}

/// A cell that is no length, and why.
pub fn length_unreadable(place: Place, written: &str, why: &str) -> Problem {
    Problem::new(&LENGTH_UNREADABLE, format!("this length cannot be read: {why}"))
        .at(place)
        .written(written)
        .help("write a number with its unit, such as 55 mm")
}

/// A bare number where a length is asked for.
pub fn length_without_unit(place: Place, written: &str) -> Problem {
    Problem::new(&LENGTH_WITHOUT_UNIT, "in which unit is this length?")
        .at(place)
        .written(written)
        .help("write the unit into the cell or into its heading")
}

/// A total and what its cells, the first of which is named, add up to.
pub fn total_disagrees(place: Place, written: impl Display, sum: impl Display, first: Place) -> Problem {
    Problem::new(&TOTAL_DISAGREES, format!("this total says {written}, its cells add up to {sum}"))
        .at(place)
        .and(first)
        .written(written.to_string())
}
