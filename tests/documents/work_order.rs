//! The work order: everything to be done, and no money.

use super::fixture::{self, every_case};
use super::markup::{Piece, pieces};
use stipple::assess::{Caution, MarkAssessment};
use stipple::claim::Method;
use stipple::report::html::Pages;
use stipple::report::wording::{self, work};

#[test]
fn no_amount_and_no_currency_stands_on_a_work_order() {
    for (name, case) in every_case() {
        let page = Pages::new().unwrap().work_order(&case.work_order()).unwrap();
        let parts = pieces(&page);
        let mut in_style = false;
        for piece in parts {
            match piece {
                Piece::Open("style", _) => in_style = true,
                Piece::Close("style") => in_style = false,
                Piece::Text(text) if !in_style => {
                    assert!(!text.contains("EUR"), "{name}: {text}");
                    let words: Vec<&str> = text.split_whitespace().chain([""]).collect();
                    for pair in words.windows(2) {
                        let decimals = pair[0].split_once('.').map_or("", |(_, decimals)| decimals);
                        let two = decimals.trim_end_matches([',', '.', ';', ')']);
                        let is_amount = two.len() == 2 && two.bytes().all(|byte| byte.is_ascii_digit());
                        assert!(!is_amount || pair[1].starts_with("mm"), "{name}: {text}");
                    }
                }
                _ => {}
            }
        }
    }
}

#[test]
fn every_panel_that_is_worked_has_its_work_once_and_every_open_one_waits() {
    for (name, case) in every_case() {
        let order = case.work_order();
        for panel in &case.assessment.panels {
            let title = format!("{}: ", wording::sentence(&panel.panel.to_string()));
            let worked = order.panels.iter().filter(|work| work.title.starts_with(&title)).count();
            let waits = order.waits.iter().filter(|wait| wait.starts_with(&title)).count();
            let to_do = !matches!(panel.method, Method::NoRepair | Method::Refer);
            assert_eq!(worked, usize::from(to_do && panel.open.is_none()), "{name}: {title}");
            assert_eq!(waits, usize::from(panel.open.is_some()), "{name}: {title}");
        }
    }
}

#[test]
fn every_caution_of_the_claim_is_spelled_out_once_beside_a_step_or_at_the_end() {
    for (name, case) in every_case() {
        let order = case.work_order();
        let tasks = order.before.iter().chain(&order.items).chain(&order.hand_over);
        let tasks = tasks.chain(order.panels.iter().flat_map(|panel| &panel.tasks));
        let heeds: Vec<_> = tasks.flat_map(|task| &task.heed).chain(&order.heed).collect();
        for caution in &case.assessment.cautions {
            let (about, text) = wording::caution(caution, &case.subject());
            let full = heeds.iter().filter(|heed| heed.text.as_ref() == Some(&text)).count();
            assert_eq!(full, 1, "{name}: {about}");
        }
    }
}

#[test]
fn marks_that_are_not_paid_are_left_alone_with_their_reason() {
    let case = fixture::storm();
    let order = case.work_order();
    let left: usize = order.panels.iter().map(|panel| panel.leave.len()).sum();
    let open = case.assessment.panels.iter().filter(|panel| panel.open.is_none());
    let excluded = open.flat_map(|panel| &panel.marks).filter(|mark| **mark == MarkAssessment::Excluded);
    assert_eq!(left, excluded.count());
    assert!(left > 0);
}

#[test]
fn high_metal_is_released_before_the_rest_is_lifted_and_the_look_comes_last() {
    let case = fixture::quotation();
    for panel in case.work_order().panels {
        let at = |words: &str| panel.tasks.iter().position(|task| task.text == words).expect(words);
        let order = [work::DEGREASE, work::PULL, work::RELEASE, work::LIFT, work::FINISH, work::LOOK].map(at);
        assert!(order.is_sorted(), "{order:?}");
    }
}

#[test]
fn a_panel_that_waits_for_an_adjuster_says_so_first() {
    let case = fixture::total_loss();
    assert!(case.work_order().waits[0].contains("licensed adjuster"), "{:?}", case.work_order().waits);
    assert!(case.assessment.cautions.contains(&Caution::Structural));
}
