//! The working as a tree for the terminal.

use crate::builder::{CLAIM, SCHEDULE, claim_with, counted, dents, from_the_first_cell, hood, left, roof};
use crate::random::{Dice, random_claim, random_schedule};
use crate::worked::{the_claim, the_schedule};
use crate::{assessed, try_assess};
use stipple::assess::{Assessment, Silent, assess};
use stipple::claim::{Claim, PanelId, PanelKind};
use stipple::problem::{Source, SourceKind, Sources};
use stipple::report::Subject;
use stipple::report::explain::explain;
use stipple::report::wording::amount;
use stipple::report::words::Words;
use stipple::schedule::Schedule;

fn explained(
    claim: &Claim,
    schedule: &Schedule,
    assessment: &Assessment,
    panels: Option<&[PanelId]>,
) -> String {
    let mut sources = Sources::new();
    for (id, file, sheet) in [(SCHEDULE, "terms.xlsx", "Terms"), (CLAIM, "storm.xlsx", "Counts")] {
        let source = Source { file: file.to_owned(), sheet: sheet.to_owned(), kind: SourceKind::Sheet };
        assert_eq!(sources.add(source), id);
    }
    explain(
        &Subject {
            claim,
            assessment,
            schedule,
            sources: &sources,
            files: &[],
            problems: &[],
            words: Words::english(),
        },
        panels,
    )
}

#[test]
fn one_panel_is_followed_from_its_amount_down_to_its_cells() {
    from_the_first_cell();
    let (claim, schedule) = (the_claim(), the_schedule());
    let assessment = assessed(&claim, &schedule);
    let fender = left(PanelKind::Fender);
    insta::assert_snapshot!(explained(&claim, &schedule, &assessment, Some(&[fender])), @"
    K-1, gross in EUR                                                          645.95
      Repair: 2 panels paintless; 1 panel repaired conventionally; 1 item.
      Invented terms, edition 1; date of loss, 14 June 2026
      each size band is rated by itself and added; rounded half away from
        zero

    left fender: paintless                                                      45.00
      2 dents 0-12 mm, count 1-8: rate at 0-12 mm, count band 1-8               28.00  terms.xlsx Terms!V2
        by the schedule                                                       0-12 mm  terms.xlsx Terms!D2
        count band: the row that holds 2                                          1-8  terms.xlsx Terms!F2
          as written                                                                2  storm.xlsx Counts!O1
      up to the least amount of this panel: 45.00 − 28.00, at least 0           17.00  terms.xlsx Terms!M2
        by the schedule                                                         45.00  terms.xlsx Terms!M2
        amount of this way of repair                                            28.00
      other ways of repair
        paintless, then refinish: not priced, no refinish time is known
          readying for paint: 100 % of paintless                                45.00
        conventional repair: not priced, no conventional repair time is
          known
        replace: not priced, no price of the part is known
      limits
        Dearer than conventional: cannot be told: paintless or conventional
          repair is not priced                                                         terms.xlsx Terms!AC2
        Dearer than a new one: cannot be told: paintless or replacing is not
          priced                                                                       terms.xlsx Terms!AD2
        Too many: 2 dents; the limit is 48                                             terms.xlsx Terms!AE2, storm.xlsx Counts!O1, Q1
    ");
}

#[test]
fn a_claim_shows_every_amount_alternative_limit_and_who_pays() {
    let (claim, schedule) = (the_claim(), the_schedule());
    let assessment = assessed(&claim, &schedule);
    let text = explained(&claim, &schedule, &assessment, None);
    for part in [
        "glue only: 10 % of 223.75",
        "crease 85 mm: rated by itself",
        "80 % of conventional repair (191.15) is 152.92; crossed and decides: conventional repair",
        "replace: not priced, no price of the part is known",
        "discount 5 % on lines with 10 % tax: part 1 of \u{2212}28.41, split by largest remainder over 18.50, 549.68",
        "rounding of the total: 645.97 to the nearest multiple of 0.05, less the amount",
        "insurer pays: 645.95 \u{2212} 150.00, at least 0",
    ] {
        let unbroken = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(unbroken.contains(part), "{part} is not in\n{text}");
    }
    let order =
        ["hood: paintless", "left front door", "\nvehicle\n", "\ntotals\n", "settlement amount (repair)"];
    assert!(order.map(|part| text.find(part).unwrap()).is_sorted());
}

#[test]
fn without_a_recorded_working_the_amounts_and_the_cells_of_their_rates_remain() {
    let (claim, schedule) = (the_claim(), the_schedule());
    let assessment = assess(&claim, &schedule, 0, None, &mut Silent).unwrap();
    let text = explained(&claim, &schedule, &assessment, Some(&[hood()]));
    assert!(text.contains("aluminium") && text.contains("44.75  terms.xlsx") && !text.contains("179.00"));
}

#[test]
fn what_was_not_looked_at_and_what_is_open_is_said() {
    let claim = claim_with(vec![
        counted(roof(), [None; 3]),
        dents(left(PanelKind::APillar), 1, 0, 0),
        dents(hood(), 0, 0, 0),
    ]);
    let schedule = crate::builder::schedule();
    let text = explained(&claim, &schedule, &assessed(&claim, &schedule), None);
    assert!(text.contains("roof: not inspected") && text.contains("hood: no damage found"));
    assert!(text.contains("open, in no total: not priced: the schedule does not list this panel"), "{text}");
    assert!(text.contains("totals, without 1 open panel"));
}

#[test]
fn every_random_claim_can_be_explained_with_all_its_lines() {
    for seed in 0..150 {
        let dice = &mut Dice::new(seed);
        let schedule = random_schedule(dice);
        let claim = random_claim(dice, &schedule);
        let Ok(assessment) = try_assess(&claim, &schedule) else { continue };
        let text = explained(&claim, &schedule, &assessment, None);
        for line in assessment.lines() {
            assert!(text.contains(&amount(line.line.amount)), "{:?} is not in\n{text}", line.line);
        }
        assert!(text.lines().all(|line| line.trim_end() == line), "{text}");
        assert!(text.lines().count() < 3_000, "{} lines", text.lines().count());
    }
}
