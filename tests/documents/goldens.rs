//! Exact copies of what is filled and drawn. `cargo insta review`, or `INSTA_UPDATE=always cargo test`, blesses a change.

use super::fixture::{self, Case, html};
use stipple::report::words::{BUILT_IN, Words};

fn golden(name: &str, text: &str) {
    insta::with_settings!({ snapshot_path => "goldens", prepend_module_to_snapshot => false, omit_expression => true }, {
        insta::assert_snapshot!(name, text);
    });
}

/// The model as readable JSON; a long working is left to the goldens of a shorter document.
fn model(case: &Case, with_annex: bool) -> String {
    let mut document = case.document();
    if !with_annex {
        document.annex = None;
    }
    serde_json::to_string_pretty(&document).unwrap()
}

#[test]
fn the_model_of_a_claim_with_every_feature() {
    golden("storm.json", &model(&fixture::storm(), false));
}

#[test]
fn the_model_of_a_quotation_with_its_working() {
    golden("quotation.json", &model(&fixture::quotation(), true));
}

#[test]
fn the_model_of_a_claim_without_damage() {
    golden("nothing-found.json", &model(&fixture::nothing_found(), true));
}

#[test]
fn a_probable_total_loss_as_a_page() {
    golden("total-loss.html", &html(&fixture::total_loss()));
}

#[test]
fn the_work_order_of_a_claim_with_every_feature() {
    golden("storm-work-order.json", &serde_json::to_string_pretty(&fixture::storm().work_order()).unwrap());
}

#[test]
fn the_owners_sheet_of_a_claim_with_every_feature() {
    golden("storm-owner.json", &serde_json::to_string_pretty(&fixture::storm().owner_sheet()).unwrap());
}

#[test]
fn the_owners_sheet_in_every_other_language() {
    for (tag, _) in BUILT_IN.iter().filter(|(tag, _)| *tag != "en") {
        let sheet = fixture::storm().owner_sheet_in(Words::of(tag, None).unwrap());
        golden(&format!("storm-owner-{tag}.json"), &serde_json::to_string_pretty(&sheet).unwrap());
    }
}

#[test]
fn the_same_case_gives_the_same_bytes() {
    assert_eq!(html(&fixture::storm()), html(&fixture::storm()));
}
