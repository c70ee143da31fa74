//! Headlines, outcomes, screens and counts in words, and what no document may say.

use super::fixture::{self, eur, every_case, labour};
use super::words::all_plain_and_different;
use stipple::assess::{DateOrigin, OpenReason, Outcome, Screen, ScreenFigures, StepId, Unpriced, Unscreened};
use stipple::claim::{Counted, Method, Settlement};
use stipple::problem::catalogue::claim::vin;
use stipple::quantity::{Hours, TimeUnit};
use stipple::report::wording::{self};
use stipple::report::words::Words;

#[test]
fn every_outcome_and_way_of_settling_has_a_headline() {
    let mut case = fixture::storm();
    let mut headlines = Vec::new();
    for outcome in Outcome::ALL {
        for basis in Settlement::ALL {
            case.assessment.outcome = outcome;
            case.assessment.settled.basis = *basis;
            let headline = wording::headline(&case.subject());
            let is_loss = matches!(basis, Settlement::TotalLoss | Settlement::TotalLossKept);
            assert_eq!(headline.contains("ettled as total loss"), is_loss, "{headline}");
            headlines.push(headline);
        }
    }
    all_plain_and_different(headlines);
}

#[test]
fn a_total_loss_that_no_screen_bears_out_is_called_one_and_needs_a_person() {
    let mut case = fixture::storm();
    (case.assessment.outcome, case.assessment.screen) = (Outcome::Repair, Screen::Not(Unscreened::NoTerms));
    assert_eq!(wording::outcome(&case.assessment), "repair");
    assert_eq!(wording::settled_unscreened(&case.assessment), None);
    case.assessment.settled.basis = Settlement::TotalLossKept;
    assert_eq!(wording::outcome(&case.assessment), "total loss, car kept");
    let said = "Total loss: settled so by the claim sheet, though there is no screen, as the schedule has no terms for it; \
                a licensed adjuster decides.";
    assert!(case.document().summary.person.iter().any(|need| need == said));
    // Reached: the sentence about the screen stands instead.
    let mut case = fixture::total_loss();
    case.assessment.settled.basis = Settlement::TotalLoss;
    assert_eq!(wording::settled_unscreened(&case.assessment), None);
    assert_eq!(wording::outcome(&case.assessment), "probable total loss");
}

#[test]
fn a_screen_at_the_whole_market_value_names_it_once() {
    let mut case = fixture::total_loss();
    let Screen::Reached(mut figures) = case.assessment.screen else { panic!("reached") };
    assert!(wording::headline(&case.subject()).contains(", which is "));
    figures.limit = figures.value;
    case.assessment.screen = Screen::Reached(figures);
    for text in [wording::headline(&case.subject()), wording::screen(&case.subject())] {
        assert_eq!(text.matches(&wording::amount(figures.value)).count(), 1, "{text}");
    }
}

#[test]
fn every_screen_says_what_was_compared_or_why_nothing_was() {
    let mut case = fixture::total_loss();
    let (cost_step, limit_step) = (StepId(0), StepId(0));
    let figures = ScreenFigures {
        cost: eur(100),
        limit: eur(650),
        value: eur(1_000),
        salvage: None,
        cost_step,
        limit_step,
    };
    let screens = [
        Screen::Not(Unscreened::NoTerms),
        Screen::Not(Unscreened::NoMarketValue),
        Screen::Not(Unscreened::NoSalvage),
        Screen::Below(figures),
        Screen::Open(figures),
        Screen::Reached(figures),
    ];
    all_plain_and_different(screens.map(|screen| {
        case.assessment.screen = screen;
        wording::screen(&case.subject())
    }));
    let origins = [DateOrigin::Loss, DateOrigin::Inspection, DateOrigin::Run];
    all_plain_and_different(origins.map(|origin| {
        case.assessment.dated.1 = origin;
        wording::dated(&case.assessment)
    }));
}

#[test]
fn the_five_kinds_of_count_stay_apart() {
    let estimated = |best, high| Counted::Estimated { low: 30, best, high, how: "30+".to_owned() };
    let counts = [
        (Counted::NoneWritten, "\u{2013}"),
        (Counted::Counted(0), "0"),
        (Counted::Counted(1_204), "1\u{202f}204"),
        (estimated(Some(40), Some(60)), "about 40 (30 to 60)"),
        (estimated(None, Some(60)), "about 30 to 60"),
        (estimated(None, None), "about 30 or more"),
        (Counted::Open, "open"),
    ];
    for (counted, expected) in counts {
        assert_eq!(wording::count(&counted), expected);
    }
}

#[test]
fn a_time_is_printed_in_the_unit_that_it_is_priced_in() {
    let rows = [
        (labour(12), TimeUnit::Tenths, "1.2", "1.2 h"),
        (labour(20), TimeUnit::Tenths, "2.0", "2.0 h"),
        (Hours::from_seconds(2_700), TimeUnit::Minutes, "45", "45 min"),
        (Hours::from_seconds(2_700), TimeUnit::WorkUnits(12), "9", "9 work units"),
        (Hours::from_seconds(90), TimeUnit::Minutes, "0.025 h", "0.025 h"),
    ];
    for (time, unit, bare, with_unit) in rows {
        assert_eq!(wording::time(time, unit, Words::english()), bare);
        assert_eq!(wording::time_with_unit(time, unit, Words::english()), with_unit);
    }
    let units = [TimeUnit::Tenths, TimeUnit::Minutes, TimeUnit::WorkUnits(12)];
    all_plain_and_different(units.map(wording::time_unit));
}

#[test]
fn numbers_of_lines_are_said_in_runs() {
    assert_eq!(wording::line_numbers(&[1, 2, 3, 7, 9, 10]), "lines 1 to 3, 7 and 9 to 10");
    assert_eq!(wording::line_numbers(&[4]), "line 4");
}

#[test]
fn a_panel_that_waits_for_a_person_is_named_first_with_its_reason_and_in_no_total() {
    let summary = fixture::storm().document().summary;
    assert_eq!(
        summary.person[0],
        "Roof: refer to a person. Too many dents: 241 dents; the limit is 140 (s11 C8). In no total."
    );
    assert_eq!(summary.without.as_deref(), Some("without 1 open panel and 1 open item"));
    let mut case = fixture::storm();
    case.assessment.panels[3].method = Method::Replace;
    case.assessment.panels[3].open = Some(OpenReason::NotPriced(Unpriced::NoPart));
    let roof = &case.document().summary.person[0];
    assert!(roof.starts_with("Roof: replace. ") && roof.matches("ot priced").count() == 1, "{roof}");
}

#[test]
fn nothing_on_any_document_is_in_a_programmers_form() {
    // Names of people, files and digests apart, every text of every case is our own.
    for (name, case) in every_case() {
        let json = serde_json::to_value(case.document()).unwrap();
        let mut left = vec![&json];
        while let Some(value) = left.pop() {
            match value {
                serde_json::Value::String(text) if !text.is_empty() => {
                    assert!(
                        !text.contains("Some(") && !text.contains("None") && !text.contains("::"),
                        "{name}: {text}"
                    );
                    let letters: Vec<char> = text.chars().collect();
                    let hump =
                        letters.windows(2).any(|pair| pair[0].is_lowercase() && pair[1].is_uppercase());
                    assert!(!hump, "{name}: {text}");
                }
                serde_json::Value::Array(inner) => left.extend(inner),
                serde_json::Value::Object(inner) => left.extend(inner.values()),
                _ => {}
            }
        }
    }
}

#[test]
fn what_reading_met_with_stands_on_the_document_the_worst_first_and_with_its_cell() {
    let mut case = fixture::storm();
    case.assessment.problems.clear();
    let place = fixture::at(fixture::sheet::VEHICLES, 5, 4);
    case.problems = [false, true].map(|binding| vin(place, "X1", "2 characters, not 17", binding)).to_vec();
    let look_at = case.document().look_at;
    assert_eq!(look_at.len(), 2);
    assert!(look_at[0].starts_with("Warning: ") && look_at[1].starts_with("Note: "), "{look_at:?}");
    assert!(look_at[0].contains("(s2 D5)"), "{look_at:?}");
    let page = fixture::html(&case);
    assert!(page.contains("What to look at") && page.contains("(s2 D5)"));
}
