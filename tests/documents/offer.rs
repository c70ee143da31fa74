//! What a quotation says of itself and of the work.

use super::fixture::{self, eur, html, labour, percent};
use stipple::assess::{Excluded, ExclusionReason, Line, LineKind, MarkAssessment, PanelState, StepId};
use stipple::claim::{MarkKind, Method};
use stipple::report::document::{Imprint, fill};
use stipple::report::words::Words;
use stipple::schedule::LabourClass;

#[test]
fn a_quotation_names_its_schedule_and_bears_the_day_of_the_inspection_where_it_has_no_other() {
    let case = fixture::quotation();
    let name = case.schedule.terms.name.value.as_str();
    let head =
        fill(&case.subject(), &Imprint { tool_version: "0.0.0", run_date: None, words: Words::english() })
            .head;
    assert_eq!((head.schedule.as_deref(), head.date.as_deref()), (Some(name), Some("29 June 2026")));
    assert!(html(&case).contains(&format!("by the schedule <bdi>{name}</bdi>, 3 July 2026</p>")));
    assert_eq!(fixture::storm().document().head.schedule, None);
}

#[test]
fn all_work_that_is_charged_is_included_once_by_its_labour_or_its_parts() {
    let mut case = fixture::quotation();
    let line = |kind| Line {
        kind,
        amount: eur(100),
        hours: Some((LabourClass::Refit, labour(1))),
        tax: percent(19),
        cite: None,
        step: StepId(0),
    };
    let (operation, panel, side) = (0, None, None);
    case.claim.items = fixture::storm().claim.items;
    let first = case.schedule.operations[0].name.clone();
    let item = case.claim.items[0].name.value.clone();
    for kinds in [
        vec![LineKind::OperationParts { operation, panel, side }, LineKind::ItemLabour(0)],
        vec![
            LineKind::OperationLabour { operation, panel, side },
            LineKind::OperationParts { operation, panel, side },
            LineKind::ItemPrice(0),
            LineKind::ItemLabour(0),
        ],
    ] {
        case.assessment.vehicle_lines = kinds.into_iter().map(line).collect();
        let included = case.document().offer.unwrap().included;
        for work in [&first, &item] {
            let wanted = format!("{work}.").to_lowercase();
            assert_eq!(included.iter().filter(|one| one.to_lowercase() == wanted).count(), 1, "{included:?}");
        }
    }
}

#[test]
fn a_panel_is_included_by_what_is_found_on_it_and_one_that_stays_as_it_is_is_not() {
    let mut case = fixture::storm();
    let broken =
        case.assessment.panels.iter().position(|panel| panel.method == Method::RefinishAfter).unwrap();
    let panel = &mut case.assessment.panels[broken];
    panel.dents = 0;
    panel.marks.clear();
    let words = stipple::report::wording::included_panel(&case.assessment.panels[broken], &case.subject());
    assert!(words.ends_with(": paint broken; repaired, then painted."), "{words}");
    case.assessment.panels[broken].decided_by = None;
    let words = stipple::report::wording::included_panel(&case.assessment.panels[broken], &case.subject());
    assert!(words.ends_with(": repaired, then painted.") && words.matches(':').count() == 1, "{words}");

    let mut case = fixture::quotation();
    let left = case.assessment.panels.iter().position(|panel| panel.state == PanelState::Assessed).unwrap();
    case.assessment.panels[left].method = Method::NoRepair;
    let offer = case.document().offer.unwrap();
    assert!(!offer.included.iter().any(|one| one.contains("not repaired")), "{:?}", offer.included);
    assert!(offer.not_included[0].ends_with("; not repaired."), "{:?}", offer.not_included);
}

#[test]
fn a_mark_that_is_no_damage_is_called_so_once() {
    let mut case = fixture::quotation();
    let panel = case.assessment.panels.iter().position(|panel| !panel.marks.is_empty()).unwrap();
    let assessed = &mut case.assessment.panels[panel];
    assessed.marks[0] = MarkAssessment::Excluded;
    let (name, place) = (assessed.panel, fixture::at(fixture::sheet::EAST, 2, 1));
    let counted = &mut case.claim.inspections[assessed.inspection].panels[assessed.index];
    counted.marks[0].kind.value = MarkKind::NotDamage;
    (counted.marks[0].length, counted.marks[0].width) = (None, None);
    case.assessment.excluded =
        vec![Excluded { panel: name, mark: 0, reason: ExclusionReason::NotDamage, place }];
    let offer = case.document().offer.unwrap();
    assert!(offer.not_included.iter().any(|one| one.ends_with(": not damage.")), "{:?}", offer.not_included);
}
