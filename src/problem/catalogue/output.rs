//! Writing: folders, files, locks, and what leaves nothing to write.

use super::{Code, Problem, Severity};
use std::io;

codes! {
    CLAIMS_MISSING = "claims-missing", Error, "no claim was found",
        "None of the files given holds a table of claims: a table with a panel and sizes, a panel and a mark, or a \
         vehicle with a key.\n\nWhat follows: nothing is assessed and nothing is written.\n\nTo mend it, check that the \
         paths are the right ones and that each table has its heading row. The README lists the headings by which a \
         table is recognised.\n\nExample: a sheet with the heading row `claim, panel, 0-10 mm, 10-20 mm`.";
    SCHEDULE_MISSING = "schedule-missing", Error, "no schedule was found",
        "None of the files given is a schedule that stands: none was given, or each one has errors.\n\nWhat follows: \
         nothing can be priced and nothing is written.\n\nTo mend it, put the schedule's workbook or folder among the \
         paths or name it with `--schedule`, and mend its errors: `schedule check PATH` prints all of \
         them.\n\nExample: `assess storm --schedule rates.xlsx`.";
    NO_TWO_LOOKS = "no-car-counted-twice", Error, "no car was counted by two people",
        "A comparison needs cars that at least two people counted. Counts are of one car when they carry the same claim \
         number, the same VIN, or else the same registration; people are told apart by the column `assessor`, and where it \
         is missing by the role of the count.\n\nWhat follows: nothing is compared and nothing is written.\n\nTo mend it, give \
         both people's sheets together, and write who counted in a column `assessor`.\n\nExample: `compare own.xlsx \
         second.xlsx --schedule rates.xlsx`.";
    NO_SUCH_REFERENCE = "no-such-reference", Error, "the reference is nobody who counted",
        "The assessor that the others should be compared with does not stand on any sheet.\n\nWhat follows: nothing is \
         compared and nothing is written.\n\nTo mend it, give the name as the sheets write it; case and punctuation do not \
         matter.\n\nExample: `compare storm --reference \"Tamsin Orrowby\"`.";
    NO_REGISTER = "register-missing", Error, "no register was found",
        "`register` says where claims stand by dated rows of what happened to them, and no file holds such a table, or none of \
         its rows can be read.\n\nWhat follows: nothing is written.\n\nTo mend it, write a table with the headings `claim`, \
         `date` and `event` (and `amount`, `by`), a row for each thing that happened, and give it together with the \
         claims.\n\nExample: `A-1, 2026-06-20, inspected, , O. Brinkwell`.";
    NO_EARLIER_RUN = "earlier-run-missing", Error, "no earlier run stands there",
        "`--earlier` names the output folder of an earlier `assess`, which holds `claims.csv`: the listing from which the cars are \
         known. There is none, or no car in it has a VIN or registration.\n\nWhat follows: nothing is done.\n\nTo mend it, name \
         the folder itself; if the run was written without claims, write it once more with them.\n\nExample: `assess storm \
         --earlier spring-assessed`.";
    NO_SUCH_CLAIM = "no-such-claim", Error, "no claim has that key",
        "The claim that was asked for is not in the files.\n\nWhat follows: nothing is shown.\n\nTo mend it, give the key \
         as the sheets write it: the claim number, else the job number, registration, VIN, or the file and sheet. Case \
         and punctuation do not matter.\n\nExample: `explain storm --claim HC-2026-0114`.";
    NO_SUCH_PANEL = "no-such-panel", Error, "the claim has no panel of that name",
        "The panel that was asked for is not on any sheet of the claim.\n\nWhat follows: nothing is shown.\n\nTo mend it, \
         give the panel as the documents name it.\n\nExample: `explain storm --claim HC-2026-0114 --panel \"left front \
         door\"`.";
    NOTHING_ASKED = "nothing-asked", Error, "nothing was asked to be otherwise",
        "`what-if` assesses every claim as it is and once more by other terms, and no other terms were given.\n\nWhat \
         follows: nothing is read.\n\nTo mend it, give one or more of `--term`, `--labour`, `--tax` and \
         `--instead`.\n\nExample: `what-if storm --term \"mixed sizes=largest present\"`.";
    NO_SUCH_SCHEDULE = "no-such-schedule", Error, "no schedule has that name",
        "The schedule named with `--only` is not among those that are changed.\n\nWhat follows: nothing is \
         shown.\n\nTo mend it, give the name as the schedule's term `schedule` says it; case and punctuation do not \
         matter.\n\nExample: `what-if storm --labour paintless=90 --only \"Our prices\"`.";
    STARTER_EXISTS = "starter-exists", Error, "something stands where the new schedule would be written",
        "`schedule new` writes a file or a folder that does not exist yet, so that no schedule is ever lost. At this path \
         something exists.\n\nWhat follows: nothing is written.\n\nTo mend it, name another path, or move what stands \
         there.\n\nExample: `schedule new prices.xlsx` twice.";
    STARTER_ENDING = "starter-ending", Error, "a new schedule is a workbook or a folder",
        "`schedule new` writes a workbook where the path ends in .xlsx, and else a folder of CSV files with a file for each \
         table. This ending says another kind of file.\n\nWhat follows: nothing is written.\n\nTo mend it, name a path \
         that ends in .xlsx, or one without an ending.\n\nExample: `schedule new prices.xlsx`, or `schedule new prices`.";
    NOT_ONE_EDITION = "not-one-edition", Error, "a path holds no schedule that stands, or several",
        "`schedule diff` holds two editions against each other, one at each path. At this path no schedule stands, or \
         several do, so it is not known which is meant.\n\nWhat follows: nothing is compared.\n\nTo mend it, mend the \
         errors of the schedule, or name the workbook or the folder of the one that is meant.\n\nExample: `schedule diff \
         prices_2025.xlsx prices_2026.xlsx`.";
    AMOUNT_IN_CURRENCIES = "amount-in-currencies", Error, "one amount was given for several currencies",
        "An amount was asked for in place of one in several schedules, and these are in different currencies. One number \
         means something else in each of them.\n\nWhat follows: nothing is shown.\n\nTo mend it, name the schedule \
         that is meant with `--only`.\n\nExample: `what-if storm --labour paintless=90 --only \"Our prices\"`.";
    ASKED_DOES_NOT_STAND = "asked-does-not-stand", Error, "the schedule does not stand with what was asked for",
        "With the values that were asked for in place of its own the schedule has errors, which stand before this \
         message. A row that was not there before is told at its table's headings.\n\nWhat follows: nothing is \
         shown.\n\nTo mend it, correct the value, or ask for what belongs to it as well.\n\nExample: the rule `largest \
         with share` needs the term `mixed share`: `--term \"mixed sizes=largest with share\" --term \"mixed \
         share=30\"`.";
    FOLDER_NOT_OURS = "output-folder-not-ours", Error, "the output folder holds other files",
        "The output folder exists and holds something that an earlier run did not write. An output is swapped in whole, \
         so those files would be lost.\n\nWhat follows: nothing is read or written, and the folder stays as it \
         is.\n\nTo mend it, move the file elsewhere, or name another folder with `--out`.\n\nExample: a letter saved \
         into `storm-assessed` beside the documents.";
    NOTHING_TO_REUSE = "nothing-to-reuse", Error, "there is no earlier output to take documents over from",
        "`--reuse` names an output that an earlier run wrote, so that documents of claims of which nothing changed are \
         taken over from it. In this folder no record of such a run stands (`run.json`).\n\nWhat follows: nothing is read or \
         written.\n\nTo mend it, name the folder that the earlier run wrote, or leave `--reuse` out: the output is the \
         same.\n\nExample: `assess storm --out monday --reuse sunday`, and `sunday` is a folder of spreadsheets.";
    FILE_CHANGED = "output-file-changed", Error, "a file of the earlier output was changed",
        "A file that an earlier run wrote was changed since: its digest is no longer the one in `run.json`. The next run \
         would put a new file in its place, and the change would be lost.\n\nWhat follows: nothing is read or written, \
         and the folder stays as it is.\n\nTo mend it, move the changed file elsewhere (or the whole folder, or delete \
         what you do not need), or name another folder with `--out`.\n\nExample: remarks typed into \
         `bordereau.xlsx`.";
    FILE_OPEN = "output-file-open", Error, "a file of the earlier output is open in another program",
        "A spreadsheet program has a file of the earlier output open: its lock file lies beside it. The next run would put \
         a new file in its place, and what is typed there would be lost.\n\nWhat follows: nothing is read or written, and \
         the folder stays as it is.\n\nTo mend it, close the file and run again, or name another folder with `--out`. If \
         no program has it open, an earlier one ended badly: delete the lock file.\n\nExample: `bordereau.xlsx` is \
         still open in a window behind this one.";
    FOLDER_IS_A_FILE = "output-is-a-file", Error, "the output folder is a file",
        "Where the output folder should stand there is a file of that name.\n\nWhat follows: nothing is read or \
         written.\n\nTo mend it, name another folder with `--out`, or move the file.\n\nExample: `--out \
         storm.xlsx`.";
    FOLDER_BUSY = "output-folder-busy", Error, "another run is writing this output",
        "Another run of the program is writing to the same output folder now.\n\nWhat follows: this run stops before it \
         reads anything; the other goes on.\n\nTo mend it, wait until the other has ended, or name another folder with \
         `--out`.\n\nExample: two windows in which the same command was started.";
    NOT_WRITTEN = "output-not-written", Error, "the output could not be written",
        "The system would not create or write a file or folder: the disk is full, the right to write is missing, the \
         place does not exist, or a file is held open by another program.\n\nWhat follows: the run stops. What it had \
         written is removed, and an earlier output stays as it was.\n\nTo mend it, do what the message says (free space, \
         close the file, choose another folder with `--out`) and run again.\n\nExample: `bordereau.xlsx` of the earlier \
         output is open in a spreadsheet program, which keeps the folder from being replaced on some systems.";
    FORM_EXISTS = "form-exists", Error, "a file stands where the form would be written",
        "A form is written into a new file. The file named is there already, and somebody may have counted in \
         it.\n\nWhat follows: nothing is written, and the file stays as it is.\n\nTo mend it, name another file with \
         `--out`, or move the one that is there.\n\nExample: `form sheets rates.xlsx` a second time, when \
         `sheets.xlsx` is filled in.";
    FORM_BANDS = "form-bands", Error, "the schedules of a form have different size bands",
        "A form has the size bands of a schedule as its columns. The schedules given have different ones, and no column \
         can stand for two bands.\n\nWhat follows: nothing is written.\n\nTo mend it, give one schedule, and write a \
         form for each.\n\nExample: `form sheets insurer_a.xlsx insurer_b.xlsx`, where one has a band up to 10 mm \
         and the other up to 12 mm.";
    NOT_DRAWN = "document-not-drawn", Error, "a document could not be drawn",
        "A document could not be made from its template. The templates come with the program, so this is a mistake in the \
         program and not in your files.\n\nWhat follows: the run stops. What it had written is removed, and an earlier \
         output stays as it was.\n\nTo mend it, report the message; until then `--write \
         claims,panels,lines,workbooks,assessments` writes everything but documents.\n\nExample: a template names a \
         figure that the document does not have.";
    NO_GLYPH = "pdf-character-without-font", Warning, "a character has no font to be printed in",
        "A text holds a character that none of the fonts at hand has. The archive form of PDF wants every character to be \
         readable, so a document with a hole in it is not written.\n\nWhat follows: documents that show this text are \
         missing as PDF. Their HTML stands, and amounts are not touched.\n\nTo mend it, name a folder of fonts that have \
         the character with `--fonts`, or write the text in Latin, Greek or Cyrillic letters.\n\nExample: an owner's name \
         in Chinese characters; `--fonts DIR` with a font for them prints it.";
    FONTS_NOT_READ = "fonts-not-read", Error, "the folder of fonts could not be read",
        "The folder that `--fonts` names is not there, holds no font, or holds one that is damaged.\n\nWhat follows: nothing \
         is read or written.\n\nTo mend it, name a folder with files that end in .ttf, .otf, .ttc or .otc, or leave \
         `--fonts` out: Latin, Greek and Cyrillic letters need none.\n\nExample: `--pdf --fonts fonts`, where `fonts` \
         holds nothing but a licence.";
    NO_LANGUAGE = "no-such-language", Error, "documents cannot be written in that language",
        "`--language` names a language for which the program has no words, or it is no language tag. A tag is the language's \
         two letters, with a country's behind a hyphen where its numbers and days have a form of their own.\n\nWhat \
         follows: nothing is read or written.\n\nTo mend it, name one of the languages that the message lists, or leave \
         `--language` out for English.\n\nExample: `--language de` is German, `--language de-CH` is German with the \
         numbers of Switzerland, and `--language deutsch` is no tag.";
    WORDS_FAULTY = "words-not-understood", Error, "a file of words has a mistake",
        "The file that `--words` names cannot be read, holds a key that no text of the documents has, or an open place that \
         is not filled in that text; or it is for a language that the program does not have, and texts are \
         missing.\n\nWhat follows: nothing is read or written.\n\nTo mend it, correct the line. Keys and open places \
         are those of `templates/words/en.ftl`; the page beside it says how such a file is written (Fluent syntax, \
         1.0).\n\nExample: `label-vehicel = Wagen` in place of `label-vehicle = Wagen`.";
    PDF_LEFT_OUT = "pdf-left-out", Error, "this program was built without PDF",
        "PDF more than doubles what has to be built, so it is left out unless it is asked for when the program is \
         built.\n\nWhat follows: nothing is read or written.\n\nTo mend it, build the program with its feature `pdf`: \
         `cargo build --release --features pdf`. Without it, a browser prints the HTML documents on A4 or Letter, or saves \
         them as PDF.\n\nExample: `cargo run --release --features pdf -- assess storm --pdf`.";
}

/// No claim table in any file.
pub fn no_claims() -> Problem {
    Problem::new(&CLAIMS_MISSING, "no claim was found in the files given")
        .help("a table of claims has a heading row such as: claim, panel, 0-10 mm, 10-20 mm")
}

/// No schedule that stands.
pub fn no_schedule() -> Problem {
    Problem::new(&SCHEDULE_MISSING, "no schedule was found that stands, so nothing can be priced")
        .help("put a schedule among the paths or name it with --schedule; schedule check prints what is wrong with it")
}

/// No car with two looks, and why looks were put aside: the most frequent reason, if any.
pub fn no_two_looks(aside: Option<&str>) -> Problem {
    let problem =
        Problem::new(&NO_TWO_LOOKS, "no car was counted by two people, so there is nothing to compare");
    match aside {
        Some(reason) => problem.help(format!("of the looks that were put aside most say: {reason}")),
        None => problem.help("give both people's sheets together, with their names in a column assessor"),
    }
}

/// Nobody of that name counted; the nearest names, if any.
pub fn no_such_reference(name: &str, nearest: &[&str]) -> Problem {
    suggest(Problem::new(&NO_SUCH_REFERENCE, format!("nobody called {name} counted a car")), nearest)
}

/// No claim of that key; the nearest keys, if any.
pub fn no_such_claim(key: &str, nearest: &[&str]) -> Problem {
    suggest(Problem::new(&NO_SUCH_CLAIM, format!("no claim has the key {key}")), nearest)
}

/// No panel of that name on the claim; the nearest names, if any.
pub fn no_such_panel(claim: &str, panel: &str, nearest: &[&str]) -> Problem {
    suggest(Problem::new(&NO_SUCH_PANEL, format!("claim {claim} has no panel called {panel}")), nearest)
}

/// No other terms to assess by.
pub fn nothing_asked() -> Problem {
    Problem::new(&NOTHING_ASKED, "nothing was asked to be otherwise")
        .help("give one or more of --term, --labour, --tax and --instead")
}

/// No schedule of that name among these.
pub fn no_such_schedule(name: &str, known: &[&str]) -> Problem {
    Problem::new(&NO_SUCH_SCHEDULE, format!("no schedule is called {name}"))
        .help(format!("there are: {}", known.join("; ")))
}

/// Something exists where a new schedule would be written.
pub fn starter_exists(path: &str) -> Problem {
    Problem::new(&STARTER_EXISTS, format!("{path} exists and is not overwritten"))
        .help("name another path, or move what stands there")
}

/// An ending that is neither a workbook's nor a folder's.
pub fn starter_ending(path: &str, ending: &str) -> Problem {
    Problem::new(&STARTER_ENDING, format!("{path} would be neither a workbook nor a folder: .{ending}"))
        .help("name a path that ends in .xlsx, or one without an ending")
}

/// A path at which not exactly one schedule stands.
pub fn not_one_edition(path: &str, found: &[String]) -> Problem {
    let said = if found.is_empty() { "no schedule stands".to_owned() } else { found.join("; ") };
    Problem::new(&NOT_ONE_EDITION, format!("{path} has to hold one edition: {said}"))
}

/// One amount in place of amounts in several currencies.
pub fn amount_in_currencies(asked: &str, currencies: &[&str]) -> Problem {
    Problem::new(
        &AMOUNT_IN_CURRENCIES,
        format!("{asked} would be an amount in {} at once", currencies.join(" and ")),
    )
    .help("name the schedule that is meant with --only")
}

/// A schedule that has errors with the values asked for.
pub fn asked_does_not_stand(schedule: &str, asked: &str) -> Problem {
    Problem::new(&ASKED_DOES_NOT_STAND, format!("{schedule} does not stand with {asked}"))
}

fn suggest(problem: Problem, nearest: &[&str]) -> Problem {
    if nearest.is_empty() { problem } else { problem.help(format!("did you mean: {}", nearest.join(", "))) }
}

/// Something in the output folder is not of an earlier run.
pub fn folder_not_ours(folder: &str, found: &str) -> Problem {
    Problem::new(&FOLDER_NOT_OURS, format!("{folder} holds {found}, which no earlier run wrote"))
        .help("move it elsewhere, or name another folder with --out")
}

/// A file of an earlier output is not as it was written.
pub fn file_changed(folder: &str, file: &str) -> Problem {
    Problem::new(&FILE_CHANGED, format!("{folder}/{file} was changed after it was written"))
        .help("move it elsewhere if the change matters, else delete it; or name another folder with --out")
}

/// A spreadsheet program holds a file of an earlier output.
pub fn file_open(folder: &str, file: &str) -> Problem {
    Problem::new(&FILE_OPEN, format!("{folder}/{file} is open in a spreadsheet program"))
        .help("close it and run again, or name another folder with --out")
}

/// A file stands where the folder should.
pub fn folder_is_a_file(folder: &str) -> Problem {
    Problem::new(&FOLDER_IS_A_FILE, format!("{folder} is a file, not a folder"))
        .help("name another folder with --out")
}

/// Another run holds the folder.
pub fn folder_busy(folder: &str) -> Problem {
    Problem::new(&FOLDER_BUSY, format!("another run is writing to {folder} now"))
        .help("wait until it has ended, or name another folder with --out")
}

/// A file stands where a form would be written.
pub fn form_exists(file: &str) -> Problem {
    Problem::new(&FORM_EXISTS, format!("{file} is there already, and may be filled in"))
        .help("name another file with --out, or move it")
}

/// Two schedules of one form differ in their bands.
pub fn form_bands(first: &str, other: &str) -> Problem {
    Problem::new(&FORM_BANDS, format!("the schedules {first} and {other} have different size bands"))
        .help("give one schedule, and write a form for each")
}

/// There is no register.
pub fn no_register() -> Problem {
    Problem::new(&NO_REGISTER, "no row of a register was found among the files")
        .help("a register has the headings claim, date and event")
}

/// There is no listing of an earlier run, or it knows no car.
pub fn no_earlier_run(listing: &str) -> Problem {
    Problem::new(&NO_EARLIER_RUN, format!("{listing} names no cars of an earlier run"))
        .help("name the output folder of an earlier assess")
}

/// A document's template failed.
pub fn not_drawn(what: &str, why: &str) -> Problem {
    Problem::new(&NOT_DRAWN, format!("{what} could not be drawn: {why}"))
        .help("this is a mistake in the program; leave documents out with --write until it is mended")
}

/// A text has characters that no font has; the field it stands in, where it is one of the claim's.
pub fn no_glyph(field: Option<&str>, text: &str, characters: &[char]) -> Problem {
    const MOST: usize = 8;
    let mut named: Vec<String> =
        characters.iter().take(MOST).map(|c| format!("{c} (U+{:04X})", u32::from(*c))).collect();
    if characters.len() > MOST {
        named.push(format!("{} more", characters.len() - MOST));
    }
    let lacks = format!("has characters that no font at hand has: {}", named.join(", "));
    let message = match field {
        Some(field) => format!("the text under {field:?} {lacks}"),
        None => format!("a text of the schedule or the files {lacks}"),
    };
    Problem::new(&NO_GLYPH, message)
        .help("name a folder of fonts that have them with --fonts; until then only the HTML document shows the text")
        .written(text)
}

/// The folder of fonts is of no use.
pub fn fonts_not_read(folder: &str, why: &str) -> Problem {
    Problem::new(&FONTS_NOT_READ, format!("no fonts could be read from {folder}: {why}"))
        .help("name a folder of .ttf or .otf files, or leave --fonts out")
}

/// A language without words, or no language at all; `known` are those that there are.
pub fn no_such_language(what: &str, known: &[&str]) -> Problem {
    Problem::new(&NO_LANGUAGE, what).help(format!("the languages are {}", known.join(", ")))
}

/// A mistake in a file of words, its line, and the names that may have been meant.
pub fn words_not_understood(file: &str, line: Option<usize>, what: &str, near: &[&str]) -> Problem {
    let line = line.map_or_else(String::new, |line| format!(", line {line}"));
    let problem = Problem::new(&WORDS_FAULTY, format!("{file}{line}: {what}"));
    if near.is_empty() { problem } else { problem.help(format!("perhaps {} is meant", near.join(" or "))) }
}

/// PDF was asked for, and the program cannot make it.
pub fn pdf_left_out() -> Problem {
    Problem::new(&PDF_LEFT_OUT, "this program was built without PDF, so --pdf cannot be done").help(
        "build it with: cargo build --release --features pdf; or print the HTML documents from a browser",
    )
}

/// A folder is no output of ours.
pub fn no_earlier_output(folder: &str) -> Problem {
    Problem::new(&NOTHING_TO_REUSE, format!("{folder} is no output of an earlier run"))
        .help("name the folder that an earlier run wrote, or leave --reuse out")
}

/// The system refused; what to do follows from why.
pub fn not_written(path: &str, why: &io::Error) -> Problem {
    let help = match why.kind() {
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded | io::ErrorKind::FileTooLarge => {
            "free some space, or name a folder on another disk with --out"
        }
        io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => {
            "close it if another program holds it open; else name a folder that you may write to with --out"
        }
        io::ErrorKind::ResourceBusy | io::ErrorKind::ExecutableFileBusy => {
            "close the program that holds it open"
        }
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => "check the folder that --out names",
        io::ErrorKind::InvalidFilename => "name another folder with --out",
        _ => "mend that, or name another folder with --out",
    };
    Problem::new(&NOT_WRITTEN, format!("{path} could not be written: {why}"))
        .help(format!("{help}; nothing of an earlier output was changed"))
}
