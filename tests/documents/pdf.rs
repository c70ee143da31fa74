//! The same documents as PDF. What stands on their pages is read by a program from outside: `tests/programs/printed.py`.

use super::escaping::poison;
use super::fixture::{self, Case};
use std::collections::BTreeMap;
use stipple::claim::Located;
use stipple::quantity::Date;
use stipple::report::pdf::{Fonts, PaperSize, Press, Unset};
use stipple::report::wording::label::LABELS;
use stipple::report::words::Words;

const DAY: Option<Date> = Some(Date::constant(2026, 7, 3));

fn press(paper: PaperSize) -> Press {
    Press::new(paper, Fonts::bundled(), Words::english(), Some(1)).unwrap()
}

/// The three documents of a case.
fn printed(press: &Press, case: &Case) -> [Result<Vec<u8>, Unset>; 3] {
    [
        press.claim(&case.document(), DAY),
        press.work_order(&case.work_order(), DAY),
        press.owner_sheet(&case.owner_sheet(), DAY),
    ]
}

fn every_pdf(press: &Press) -> BTreeMap<String, Vec<u8>> {
    let mut all = BTreeMap::new();
    for (name, case) in fixture::every_case() {
        for (kind, pdf) in ["claim", "work-order", "owner"].into_iter().zip(printed(press, &case)) {
            all.insert(format!("{name}-{kind}"), pdf.unwrap_or_else(|why| panic!("{name} {kind}: {why}")));
        }
    }
    all
}

/// Typst refuses what is neither PDF/A-2a nor PDF/UA-1, so a document that comes out is both as far as it can tell.
#[test]
fn every_document_is_set_as_tagged_archive_pdf_and_again_as_the_same_bytes() {
    let press = press(PaperSize::A4);
    let first = every_pdf(&press);
    for (name, pdf) in &first {
        let metadata = String::from_utf8_lossy(pdf);
        for words in ["%PDF-1.7", "<pdfaid:part>2<", "<pdfaid:conformance>A<", "<pdfuaid:part>1<"] {
            assert!(metadata.contains(words), "{name} does not say {words}");
        }
    }
    assert_eq!(first.len(), 15);
    let again = every_pdf(&press);
    assert!(first == again, "a second time other bytes came out");
}

#[test]
fn letter_is_another_paper_than_a4() {
    let case = fixture::nothing_found();
    let sheet = |paper| press(paper).owner_sheet(&case.owner_sheet(), DAY).unwrap();
    assert_ne!(sheet(PaperSize::A4), sheet(PaperSize::Letter));
}

#[test]
fn hostile_texts_in_every_field_are_text_and_nothing_else() {
    let press = press(PaperSize::A4);
    let hostile: [fn(usize) -> String; 3] = [
        |i| {
            format!(
                "#panic(\"{i}\") $x/0$ @no-label <label> \\u{{41}} *_`[] {i} #import \"@preview/a:0.1.0\": b // /*"
            )
        },
        |i| {
            format!(
                "\u{202e}{i} \u{5d0}\u{5d1} \u{2066}\u{627}\u{644} \u{2067}\u{2069}\u{2069}\u{200d}\u{feff}\u{0}\u{7}\n\t{i}"
            )
        },
        |i| format!("#read(\"/etc/passwd\")\"{i}\\ \u{1f600} =SUM(A1) ../.. \u{2014} {}", "wide".repeat(9)),
    ];
    for make in hostile {
        let mut case = fixture::storm();
        assert!(poison(&mut case, make).len() > 70);
        for pdf in printed(&press, &case) {
            pdf.unwrap();
        }
    }
}

#[test]
fn a_text_of_ten_thousand_characters_without_a_space_is_set_on_as_many_pages_as_it_needs() {
    let press = press(PaperSize::A4);
    let mut case = fixture::quotation();
    let place = fixture::at(fixture::sheet::VEHICLES, 5, 4);
    case.claim.parties.owner = Some(Located::new("Q".repeat(10_000), place));
    case.claim.inspections[0].panels[0].remarks.push(Located::new("W".repeat(10_000), place));
    for pdf in printed(&press, &case) {
        pdf.unwrap();
    }
}

#[test]
fn a_large_claim_with_long_names_in_three_scripts_needs_no_font_from_outside() {
    let press = press(PaperSize::Letter);
    let mut case = fixture::large();
    let place = fixture::at(fixture::sheet::VEHICLES, 5, 4);
    let names = [
        "Συνεταιρισμός Ελαιοπαραγωγών Κάτω Παραδείγματος και των Γύρω Χωριών",
        "Товарищество с вымышленным именем «Нижняя Пристань» и сыновья",
        "Żółć & Łąka Þórðardóttir-Nguyễn, Šťastný och Ærøskøbing Vognlakering",
    ];
    for name in names {
        case.claim.parties.owner = Some(Located::new(name.to_owned(), place));
        case.claim.parties.insurer = Some(Located::new(name.to_owned(), place));
        press.claim(&case.document(), DAY).unwrap();
    }
}

#[test]
fn a_character_that_no_font_has_is_told_once_with_its_field_and_cell_and_the_others_are_printed() {
    let press = press(PaperSize::A4);
    let mut case = fixture::storm();
    let place = fixture::at(fixture::sheet::VEHICLES, 5, 4);
    case.claim.parties.owner = Some(Located::new("\u{6771}\u{4eac} Motors".to_owned(), place));
    let [claim, order, owner] = printed(&press, &case);
    let problems = claim.unwrap_err().problems(&case.claim);
    assert_eq!(problems.len(), 1, "{problems:?}");
    assert_eq!(problems[0].code.id, "pdf-character-without-font");
    assert_eq!(
        (problems[0].place, problems[0].written.as_deref()),
        (Some(place), Some("\u{6771}\u{4eac} Motors"))
    );
    assert!(problems[0].message.contains(LABELS.owner) && problems[0].message.contains("U+4EAC"));
    assert_eq!(owner.unwrap_err().problems(&case.claim), problems);
    assert!(order.is_ok(), "the work order names no owner");
    // A character of private use has no meaning to read out, whatever fonts draw it.
    case.claim.parties.owner = Some(Located::new("\u{e000}".to_owned(), place));
    assert!(press.claim(&case.document(), DAY).is_err());
    // Where no field of the claim holds it, the text is quoted.
    case.claim.parties.owner = None;
    case.schedule.terms.name.value = "\u{4eac}".to_owned();
    let problems = press.claim(&case.document(), DAY).unwrap_err().problems(&case.claim);
    assert_eq!((problems[0].place, problems[0].written.as_deref()), (None, Some("\u{4eac}, edition 2026-2")));
}

/// Resident memory in kilobytes, where the system says it.
#[cfg(target_os = "linux")]
fn resident() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap();
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:")).unwrap();
    line.trim().trim_end_matches("kB").trim().parse().unwrap()
}

/// How long a document takes and what memory a thousand of them leave behind; to be read by hand, in a release build.
#[cfg(target_os = "linux")]
#[test]
#[ignore = "measures; run it in release, on one thread"]
fn a_thousand_documents_leave_no_memory_behind() {
    let press = press(PaperSize::A4);
    let cases = fixture::every_case();
    let print = |times: usize| {
        for _ in 0..times {
            for (_, case) in &cases {
                for pdf in printed(&press, case) {
                    pdf.unwrap();
                }
            }
        }
    };
    print(1);
    let (start, before) = (std::time::Instant::now(), resident());
    print(67);
    let (took, after) = (start.elapsed(), resident());
    let each = took / (67 * 15);
    println!("1005 documents: {each:?} each, {before} kB before, {after} kB after");
    assert!(after < before + 100_000, "{before} kB before, {after} kB after");
}
