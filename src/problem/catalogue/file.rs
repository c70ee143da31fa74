//! Files and tables: cannot be opened, are not what they seem, fit nothing.

use super::{Code, Problem, Severity};
use crate::problem::{Place, column_letters};

codes! {
    FILE_UNREADABLE = "file-unreadable", Error, "a file cannot be read",
        "The file could not be opened or read to its end. The rest of the run goes on without it.\n\nCheck that the \
         path is right, that you may read it, and that no other program holds it open.";
    FILE_CHANGED = "input-changed", Error, "a file was changed while it was read",
        "Long text files are read twice: once to digest them and to find where the rows of each claim stand, and once \
         to assess the claims. In between this one was changed, so its digest would no longer say what was assessed. \
         Nothing was written, and an earlier output was left as it was.\n\nRun again when nothing writes to the file \
         any more.";
    FILE_MISSING = "file-missing", Error, "a file or folder is not there",
        "Nothing stands at the path that was given. The rest of the run goes on without it.\n\nCheck the spelling and \
         the folder you are in; a path with spaces needs quotes: `\"June storm/counts.xlsx\"`.";
    FILE_WRONG_TYPE = "file-wrong-type", Error, "a file is no spreadsheet that can be read",
        "What a file is follows from its first bytes, not from its name. This one is neither text in rows and columns \
         (CSV) nor a workbook (XLSX, ODS, XLS, XLSB) nor a web page with a table. The rest of the run goes on without \
         it.\n\nOpen it in a spreadsheet program and save it as XLSX or as CSV in UTF-8. A PDF or a photograph has to \
         be typed off.";
    FILE_LOCKED = "file-locked", Error, "a workbook is protected by a password",
        "The workbook is encrypted and cannot be read without its password, which is never asked for. The rest of the \
         run goes on without it.\n\nOpen it in your spreadsheet program, save a copy without a password, and give \
         that.";
    FILE_DAMAGED = "file-damaged", Error, "a workbook is damaged",
        "The workbook could not be read to its end: a part of it is missing or contradicts itself. None of it was \
         taken, since half a workbook may be half a claim.\n\nOpen it in your spreadsheet program and save it again; \
         that usually mends it.";
    FILE_TOO_LARGE = "file-too-large", Error, "a file is larger than can be meant",
        "A small file can unpack to more than any machine holds, by accident or on purpose. So there are bounds: 2 GiB \
         of text, 4096 parts and 2 GiB unpacked in a workbook, no large part packed to less than a 150th, 64 MiB of \
         shared texts, as many cells as a workbook of its size can mean (2 million and two for each of its bytes, at \
         most 20 million; twice as many in all rows by the widest), 16 384 columns. None of the file was taken.\n\nSplit it, or copy the cells that matter into \
         a new workbook: a stray format far down a sheet is the usual reason.";
    FILE_NOT_UTF8 = "file-not-utf8", Error, "the letters of a text file cannot be told",
        "Text is read in UTF-8, UTF-16 or Windows-1252. This file holds bytes that are letters in none of them, so names \
         in it would be garbled. None of it was taken.\n\nSave it again as \"CSV UTF-8\" (the choice stands in the list \
         of file types when saving), or as XLSX.";
    FILE_ENCODING = "file-encoding", Note, "a text file is not in UTF-8",
        "The file was read in another encoding, which is named: UTF-16 is told by the file itself, Windows-1252 is taken \
         where the bytes are no UTF-8. Letters beyond plain English ones may then be others than were meant; numbers \
         are the same in all.\n\nLook at the word that is quoted. If it is garbled, save the file again as \"CSV \
         UTF-8\", or as XLSX. Example: `K\u{fc}hler` is right, `K\u{c3}\u{bc}hler` is not.";
    FILE_OPEN_QUOTE = "file-open-quote", Error, "a quotation mark is never closed",
        "A field that begins with a quotation mark runs to the next one, over line ends, too. Here none follows, so the \
         rest of the file would be one cell. None of it was taken.\n\nClose the quotation mark, or double it where it \
         is meant as a sign: `\"up to 3/4\"\"\"`.";
    FILE_EMPTY = "file-empty", Warning, "a file holds nothing",
        "There is not one cell in the file. Nothing follows from it for other files.\n\nIf something should be there, \
         save the file again from the program it came from.";
    FILE_SEEMS_OTHER = "file-seems-other", Note, "a file is something else than its name says",
        "The name of the file ends in one type and its bytes are another that can be read, so it was read as what it \
         is. Nothing else follows.\n\nRename it if you like: `counts.xlsx` that holds text is `counts.csv`.";
    FILES_LEFT_OUT = "files-left-out", Note, "files in a folder are no spreadsheets",
        "A folder was given and holds files whose names do not end in `.csv`, `.tsv`, `.xlsx` or another spreadsheet's \
         ending. They were not opened.\n\nIf one of them is a spreadsheet, name it by itself.";
    FOLDER_LEFT_OUT = "folder-left-out", Note, "a folder is an earlier output",
        "The folder holds a `run.json` of an earlier run: what was written is not read as input.\n\nNothing has to be \
         done. Keep outputs outside the folder of inputs if the note disturbs.";
    FOLDER_EMPTY = "folder-empty", Error, "a folder holds no spreadsheets",
        "No file in the folder, nor in a folder below it, is a spreadsheet. Hidden files, lock files (`~$...`) and \
         earlier outputs do not count.\n\nCheck that it is the right folder.";
    SHEET_HIDDEN = "sheet-hidden", Warning, "a sheet is hidden and was not read",
        "The workbook holds a sheet that nobody sees when it is opened: often last year's. It was not read, since what \
         cannot be seen cannot be checked.\n\nUnhide it if it belongs to the job.";
    HIDDEN_UNSEEN = "hidden-unseen", Note, "what a workbook hides is not seen",
        "In XLS and XLSB workbooks it is not found out which rows and columns are hidden: all of them were read like those \
         that show. Hidden sheets are told as ever.\n\nIf last year's rows may be hidden in it, save it as XLSX and give \
         that, or show all rows and look.";
    NOTES_UNREAD = "notes-unread", Note, "cells carry notes",
        "Notes (comments) at cells were seen and not used, since what they say is for people: \"counted by the owner\", \
         \"without the left side\". They can change what a table means.\n\nRead them. If one of them is a fact of the \
         claim, write it into a `remark` column.";
    WORKBOOK_LINKED = "workbook-linked", Note, "a workbook refers to other workbooks",
        "Some formulas take their values from other files. These were not opened: the results that were stored when the \
         workbook was last saved are used.\n\nIf the other files changed since, open the workbook with them at hand, let \
         it update, and save it.";
    PART_HIDDEN = "part-hidden", Warning, "hidden rows or columns were not read",
        "The sheet hides rows or columns that hold something: often what an earlier storm left, or a filter that is still \
         on. They were not read, since what cannot be seen cannot be checked.\n\nUnhide them, or take the filter off, if \
         they belong to the job; delete them if not.";
    LAYOUT = "layout-read", Note, "a table was read in another arrangement than it stands in",
        "Panels may stand across and sizes down, each panel or each person may have columns of its own, and two tables \
         may stand beside each other. Such a table is read as if it had a row per panel and a column per size; every \
         number keeps its own cell. Counts of several people or passes are never added up.\n\nNothing has to be done \
         if that is how it was meant: `understood` shows every table as it was read.";
    PRICE_LIST = "price-list", Error, "a table of sizes holds amounts of money",
        "The table has panels and sizes as a table of counts has, but most of its numbers carry two decimals or the sign of \
         a currency: it is a price list. Nothing of it was read as dents.\n\nPrices belong to a schedule, in tables of \
         their own; `schedule` shows what these are. If the numbers are dents, write them as whole numbers: `90`, not \
         `90.00`.";
    NOTHING_RECOGNISED = "nothing-recognised", Warning, "a sheet holds no table that is known",
        "Tables are recognised by their headings. No row of this sheet holds the headings of a known table, so nothing \
         on it was used. A cover sheet or notes may well be like that.\n\nIf it should have been read, put a heading row \
         above it: counts need `panel` and a column per size (`0-10 mm`), or `panel`, `size` and `dents`.";
    SHEET_NOT_FILLED_IN = "sheet-not-filled-in", Note, "a form that nobody filled in",
        "A sheet lists panels, and nothing else is written on it: no claim, job, registration or VIN, no number, no \
         remark. It is taken for a form that was not used, and is no job.\n\nIf a car was looked at and is whole, write \
         who it is, and `0` on its panels.";
    TABLE_INCOMPLETE = "table-incomplete", Error, "a table lacks a heading that it needs",
        "A row of this sheet holds several headings of a known table, but not all that the table cannot do without, so \
         nothing on the sheet was used.\n\nAdd or correct the heading that is named. Capitals, spacing and order do not \
         matter: `Panel`, `0 - 10 mm`.";
    HEADING_AMBIGUOUS = "heading-ambiguous", Error, "a heading row fits two kinds of table",
        "The headings fit two known tables equally well, and the two mean different things. What stands below was not \
         used.\n\nAdd a column that only one of them has: a claim's parts carry `claim` and `part price`, a schedule's \
         typical prices carry `vehicle class`.";
    COLUMN_UNKNOWN = "column-unknown", Warning, "a column carries a heading that nobody knows",
        "The table was recognised, but this column's heading is none of its words. What stands in the column was not \
         used. Whole numbers in a table of counts are asked about instead (`column-open`).\n\nIf it matters, use a word of the table: `material`, `access`, `remark`. A size has to be written as a \
         range (`11-20 mm`) or by a name that begins with `size` or `band`.";
    COLUMN_TWICE = "column-twice", Warning, "two columns carry one heading",
        "Two columns of the table mean the same thing. The left one was used, the right one was not.\n\nRemove or \
         rename one of them.";
    COLUMN_UNHEADED = "column-unheaded", Question, "a column of numbers has no heading",
        "Numbers stand in the rows of the table, and nothing stands above them. They may be counts of a size, or anything \
         else. They were not used, and the claims that have a number there are listed and not priced.\n\nWrite the \
         heading (`13-25 mm`, `total`, `remark`), or clear the cells.";
    ROW_RUN_TOGETHER = "row-run-together", Error, "a row stands in one cell",
        "A row within the table holds one cell, and in it what should stand in several: the separator of this row is not \
         that of the file, or quotation marks stand around the whole row. None of it was used. If a claim of the run is \
         named in it, that claim drops out.\n\nPart the cells as in the other rows: `X-1,roof,3,4`, not `X-1;roof;3;4`.";
    TEXT_UNREAD = "text-unread", Note, "text stands outside the tables",
        "Cells above, beside or below a table belong to none of its columns: titles, notes, signatures. They were seen \
         and not used.\n\nIf one of them is a fact of the claim, put it into a table: a `remark` column, or the table \
         of vehicles.";
}

/// A sheet of panels without anything else; the first of its rows.
pub fn sheet_not_filled_in(place: Place) -> Problem {
    Problem::new(&SHEET_NOT_FILLED_IN, "this sheet lists panels and was not filled in, so it is no job")
        .at(place)
}

/// The operating system would not give the file's bytes.
pub fn unreadable(file: &str, why: &str) -> Problem {
    Problem::new(&FILE_UNREADABLE, format!("{file} cannot be read: {why}"))
}

/// A long file is no longer what was digested.
pub fn changed_meanwhile(file: &str) -> Problem {
    Problem::new(&FILE_CHANGED, format!("{file} was changed while it was read"))
        .help("run again when nothing writes to it any more")
}

/// Nothing stands at a path.
pub fn missing(path: &str) -> Problem {
    Problem::new(&FILE_MISSING, format!("{path} is not there"))
}

/// The bytes are of a type that cannot be read: what it is, and what to do.
pub fn wrong_type(file: &str, what: &str, remedy: &str) -> Problem {
    Problem::new(&FILE_WRONG_TYPE, format!("{file} is {what}")).help(remedy)
}

/// An encrypted workbook.
pub fn locked(file: &str) -> Problem {
    Problem::new(&FILE_LOCKED, format!("{file} is protected by a password"))
        .help("save a copy without a password and give that")
}

/// The workbook, or one of its sheets, cannot be read to its end.
pub fn damaged(file: &str, why: &str) -> Problem {
    Problem::new(&FILE_DAMAGED, format!("{file} is cut off or damaged: {why}"))
        .help("copy the file again from where it came from, or open it in your spreadsheet program and save it again")
}

/// A bound is passed: which, in words.
pub fn too_large(file: &str, what: &str) -> Problem {
    Problem::new(&FILE_TOO_LARGE, format!("{file} holds {what}, more than is read"))
}

/// Text in none of the encodings that are read: the first byte that is no UTF-8.
pub fn no_letter(file: &str, byte: u8) -> Problem {
    let message = format!("in {file} the byte {byte:#04X} may be one letter or another");
    Problem::new(&FILE_NOT_UTF8, message).help("save it again as \"CSV UTF-8\", or as XLSX")
}

/// Text that was read in another encoding, with a word that shows whether it is the right one.
pub fn encoding(file: &str, name: &str, word: Option<&str>) -> Problem {
    let problem = Problem::new(&FILE_ENCODING, format!("{file} is not in UTF-8 and was read as {name}"));
    match word {
        Some(word) => {
            problem.help(format!("if \"{word}\" is not as it should be, save the file as \"CSV UTF-8\""))
        }
        None => problem,
    }
}

/// A workbook of a kind whose hidden rows and columns are not seen.
pub fn hidden_unseen(file: &str, what: &str) -> Problem {
    let message = format!("{file} is {what}: which of its rows and columns are hidden is not seen");
    Problem::new(&HIDDEN_UNSEEN, message).help("save it as XLSX if it may hide rows that do not count")
}

/// Notes at the cells of a sheet, the first of them quoted.
pub fn notes_unread(place: Place, count: usize, first: &str) -> Problem {
    let message = if count == 1 {
        "a note at a cell was not used".to_owned()
    } else {
        format!("{count} notes at cells were not used, the first of them here")
    };
    Problem::new(&NOTES_UNREAD, message).at(place).written(shortened(first))
}

/// A workbook with links to others.
pub fn linked(file: &str) -> Problem {
    Problem::new(&WORKBOOK_LINKED, format!("{file} refers to other workbooks; its stored values are used"))
}

/// Text in another encoding: the first byte that is no UTF-8.
pub fn not_utf8(file: &str, byte: u8) -> Problem {
    let message = format!("{file} is not in UTF-8: byte {byte:#04X} stands for no letter there");
    Problem::new(&FILE_NOT_UTF8, message).help("save it again as \"CSV UTF-8\", or as XLSX")
}

/// A quoted field runs to the end of the file.
pub fn open_quote(file: &str) -> Problem {
    Problem::new(&FILE_OPEN_QUOTE, format!("in {file} a quotation mark is never closed"))
        .help("close it at the end of its field, or double it where the sign itself is meant")
}

/// Not one cell.
pub fn empty(file: &str) -> Problem {
    Problem::new(&FILE_EMPTY, format!("{file} holds nothing"))
}

/// The name's ending says one thing, the bytes another.
pub fn seems_other(file: &str, is: &str) -> Problem {
    Problem::new(&FILE_SEEMS_OTHER, format!("{file} is {is}, whatever its name says, and was read as that"))
}

/// Files of a folder that were not opened, by name.
pub fn files_left_out(folder: &str, names: &[String]) -> Problem {
    const SHOWN: usize = 5;
    let shown = names.iter().take(SHOWN).map(String::as_str).collect::<Vec<_>>().join(", ");
    let more = if names.len() > SHOWN { format!(" and {} more", names.len() - SHOWN) } else { String::new() };
    Problem::new(
        &FILES_LEFT_OUT,
        format!("in {folder} these are no spreadsheets and were not read: {shown}{more}"),
    )
}

/// A folder of our own output.
pub fn folder_left_out(folder: &str) -> Problem {
    Problem::new(&FOLDER_LEFT_OUT, format!("{folder} holds an earlier output and was not read"))
}

/// A folder without spreadsheets.
pub fn folder_empty(folder: &str) -> Problem {
    Problem::new(&FOLDER_EMPTY, format!("{folder} holds no spreadsheet"))
}

/// Rows and columns that a sheet hides: how many hold something, how many cells, and what the first of them says.
pub fn part_hidden(place: Place, rows: usize, columns: usize, cells: usize, first: &str) -> Problem {
    let many = |count: usize, one: &str| match count {
        0 => None,
        1 => Some(format!("1 hidden {one}")),
        _ => Some(format!("{count} hidden {one}s")),
    };
    let parts: Vec<String> = [many(rows, "row"), many(columns, "column")].into_iter().flatten().collect();
    let cells = if cells == 1 { "1 cell".to_owned() } else { format!("{cells} cells") };
    Problem::new(&PART_HIDDEN, format!("{} with {cells} were not read", parts.join(" and ")))
        .at(place)
        .written(first)
        .help("unhide them if they belong to the job")
}

/// Amounts where counts would stand.
pub fn price_list(place: Place) -> Problem {
    Problem::new(&PRICE_LIST, "this looks like a price list: its numbers are amounts of money, not dents")
        .at(place)
}

/// A table that was rearranged.
pub fn layout(place: Place, how: &str) -> Problem {
    Problem::new(&LAYOUT, how).at(place)
}

/// A sheet that nobody sees.
pub fn sheet_hidden(sheet: &str) -> Problem {
    Problem::new(&SHEET_HIDDEN, format!("sheet {sheet} is hidden and was not read"))
        .help("unhide it if it belongs to the job")
}

/// No table at all; the form that comes nearest, with what is missing for it.
pub fn nothing_recognised(place: Place, near: Option<(&str, Vec<String>)>) -> Problem {
    let problem = Problem::new(&NOTHING_RECOGNISED, "no table was recognised here").at(place);
    match near {
        Some((form, missing)) => problem
            .help(format!("nearest is the table of {form}, which also needs {}", missing.join(" and "))),
        None => problem.help("no row holds a heading of a known table"),
    }
}

/// A heading row that lacks something: what it has, what it lacks, and headings that may be slips of a known word.
pub fn table_incomplete(
    place: Place,
    form: &str,
    known: &[String],
    missing: &[String],
    slips: &[(String, String)],
) -> Problem {
    let message = if missing.is_empty() {
        format!("this looks like the table of {form}, but most of its headings are not known")
    } else {
        format!("this looks like the table of {form}, but it lacks {}", missing.join(" and "))
    };
    let mut help: Vec<String> =
        slips.iter().map(|(heading, word)| format!("\"{heading}\": did you mean `{word}`?")).collect();
    if !known.is_empty() {
        help.push(format!("known here: {}", known.join(", ")));
    }
    Problem::new(&TABLE_INCOMPLETE, message).at(place).help(help.join("; "))
}

/// A tie between forms.
pub fn heading_ambiguous(place: Place, forms: &[&str]) -> Problem {
    Problem::new(&HEADING_AMBIGUOUS, format!("these headings fit {} equally well", forms.join(" and ")))
        .at(place)
}

/// A column that nobody knows; the nearest known words.
pub fn column_unknown(place: Place, heading: &str, form: &str, near: &[&str]) -> Problem {
    let message = format!("the table of {form} knows no column \"{heading}\"; what stands in it is not used");
    let problem = Problem::new(&COLUMN_UNKNOWN, message).at(place);
    if near.is_empty() { problem } else { problem.help(format!("did you mean `{}`?", near.join("` or `"))) }
}

/// A second column of one meaning.
pub fn column_twice(place: Place, heading: &str, first: Place) -> Problem {
    let message = format!("\"{heading}\" means the same as an earlier column; what stands in it is not used");
    Problem::new(&COLUMN_TWICE, message).at(place).and(first)
}

/// Numbers below no heading: the first of them, and its column's letters.
pub fn column_unheaded(place: Place, written: &str) -> Problem {
    let letters = column_letters(place.column);
    Problem::new(&COLUMN_UNHEADED, format!("column {letters} has numbers and no heading: what are they?"))
        .at(place)
        .written(written)
        .help("write a heading above it, such as a size, or clear the cells")
}

/// A row in one cell.
pub fn row_run_together(place: Place, written: &str) -> Problem {
    Problem::new(&ROW_RUN_TOGETHER, "this row stands in one cell; nothing of it is used")
        .at(place)
        .written(written)
        .help("part its cells as in the rows above")
}

/// Cells outside the tables of one sheet, the first of them quoted.
pub fn text_unread(place: Place, count: usize, first: &str) -> Problem {
    let message = if count == 1 {
        "a cell outside the tables was not used".to_owned()
    } else {
        format!("{count} cells outside the tables were not used, the first of them here")
    };
    Problem::new(&TEXT_UNREAD, message).at(place).written(shortened(first))
}

/// The beginning of a text.
fn shortened(text: &str) -> String {
    const SHOWN: usize = 60;
    let mut shown: String = text.chars().take(SHOWN).collect();
    if text.chars().count() > SHOWN {
        shown.push('\u{2026}');
    }
    shown
}
