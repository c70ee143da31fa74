//! The owner's sheet: figures of the assessment in plain words.

use super::fixture::{self, every_case};
use stipple::assess::JobKind;

#[test]
fn what_the_owner_bears_is_the_assessments_own_figure() {
    for (name, case) in every_case() {
        let sheet = case.owner_sheet();
        let figure = |label: &str| {
            sheet.figures.iter().find(|figure| figure.label == label).map(|figure| figure.amount.0)
        };
        let assessment = &case.assessment;
        match assessment.kind {
            JobKind::Claim => {
                assert_eq!(figure("You bear"), Some(assessment.settled.owner_bears), "{name}");
                assert_eq!(figure("Insurer pays"), Some(assessment.settled.insurer_pays), "{name}");
                assert_eq!(figure("Repair with tax"), Some(assessment.totals.gross), "{name}");
            }
            JobKind::Quotation => {
                assert_eq!(figure("Price with tax"), Some(assessment.totals.gross), "{name}");
                assert_eq!(sheet.why, Vec::<String>::new());
            }
        }
    }
}

#[test]
fn every_mark_that_is_not_paid_stands_there_with_its_reason() {
    let case = fixture::storm();
    let sheet = case.owner_sheet();
    for excluded in &case.assessment.excluded {
        let words = stipple::report::wording::excluded_mark(excluded, &case.subject());
        assert!(sheet.not_covered.contains(&words), "{words}");
    }
    assert!(!case.assessment.excluded.is_empty());
}
