//! Figures on a page, read back from its markup, are the assessment's own, and its lines sum to its totals.

use super::fixture::{self, Case, eur, every_case, html};
use super::markup::{Piece, pieces};
use std::collections::BTreeSet;
use stipple::assess::{Rule, Shown};
use stipple::claim::Settlement;
use stipple::quantity::{Currency, Date, Decimal, DecimalMark, Money, parse_decimal};
use stipple::report::document::{AnnexStep, Imprint, fill};
use stipple::report::words::Words;

/// The rows of all tables with their id and their cells' texts.
fn rows(html: &str) -> Vec<(Option<String>, Vec<String>)> {
    let mut rows = Vec::new();
    let mut in_cell = false;
    for piece in pieces(html) {
        match piece {
            Piece::Open("tr", attributes) => {
                rows.push((attributes.get("id").map(|id| (*id).to_owned()), Vec::new()));
            }
            Piece::Open("td" | "th", _) => {
                in_cell = true;
                rows.last_mut().unwrap().1.push(String::new());
            }
            Piece::Close("td" | "th") => in_cell = false,
            Piece::Text(text) if in_cell => rows.last_mut().unwrap().1.last_mut().unwrap().push_str(text),
            _ => {}
        }
    }
    rows
}

fn money(text: &str) -> Money {
    let decimal = parse_decimal(text, DecimalMark::Point).unwrap_or_else(|_| panic!("{text:?} is no amount"));
    Money::from_decimal(decimal, Currency::from_code("EUR").unwrap()).unwrap()
}

fn sum(amounts: impl IntoIterator<Item = Money>) -> Money {
    Money::sum(eur(0).currency(), amounts).unwrap()
}

/// The printed amounts of lines, in their order, and of sums by their label.
struct Printed {
    lines: Vec<Money>,
    rows: Vec<(Option<String>, Vec<String>)>,
}

impl Printed {
    fn of(case: &Case) -> Self {
        let rows = rows(&html(case));
        let is_line = |id: &Option<String>| id.as_ref().is_some_and(|id| id.starts_with("line"));
        let amount = |cells: &Vec<String>| money(&cells[cells.len() - 2]);
        let lines = rows.iter().filter(|(id, _)| is_line(id)).map(|(_, cells)| amount(cells)).collect();
        Self { lines, rows }
    }

    fn labelled(&self, label: &str) -> Money {
        let row = self.rows.iter().find(|(_, cells)| cells.first().is_some_and(|first| first == label));
        money(&row.unwrap_or_else(|| panic!("no row {label}")).1[1])
    }

    /// Amounts of all rows whose label begins so.
    fn beginning(&self, label: &str) -> Vec<Money> {
        let begins = |cells: &Vec<String>| cells.first().is_some_and(|first| first.starts_with(label));
        self.rows
            .iter()
            .filter(|(_, cells)| begins(cells) && cells.len() == 3)
            .map(|(_, cells)| money(&cells[1]))
            .collect()
    }
}

#[test]
fn every_line_is_printed_once_with_its_own_amount() {
    for (name, case) in every_case() {
        let expected: Vec<Money> = case.assessment.lines().map(|numbered| numbered.line.amount).collect();
        assert_eq!(Printed::of(&case).lines, expected, "{name}");
    }
}

#[test]
fn printed_lines_sum_to_printed_totals() {
    for (name, case) in every_case() {
        let printed = Printed::of(&case);
        let net = printed.labelled("Net");
        assert_eq!(sum(printed.lines.iter().copied()), net, "{name}: lines sum to net");
        let taxes = printed.beginning("Tax ");
        assert_eq!(taxes.len(), case.assessment.totals.taxes.len(), "{name}");
        let gross = sum([net].into_iter().chain(taxes).chain(printed.beginning("Rounding")));
        assert_eq!(gross, printed.labelled("Gross"), "{name}: net, tax and rounding sum to gross");
        assert_eq!(gross, case.assessment.totals.gross, "{name}");
    }
}

#[test]
fn what_brings_the_gross_amount_to_its_step_is_a_printed_line_too() {
    let mut case = fixture::total_loss();
    let totals = &mut case.assessment.totals;
    totals.rounding = Some(eur(-1));
    totals.gross = totals.gross.plus(eur(-1)).unwrap();
    let printed = Printed::of(&case);
    assert_eq!(printed.beginning("Rounding"), [eur(-1)]);
    let parts = [vec![printed.labelled("Net")], printed.beginning("Tax "), printed.beginning("Rounding")];
    assert_eq!(sum(parts.concat()), printed.labelled("Gross"));
}

#[test]
fn a_panels_printed_sum_is_that_of_the_lines_below_it() {
    let case = fixture::storm();
    let html = html(&case);
    let mut groups: Vec<(Option<Money>, Vec<Money>)> = Vec::new();
    for (id, cells) in rows(&html) {
        if id.is_some_and(|id| id.starts_with("line")) {
            groups.last_mut().unwrap().1.push(money(&cells[cells.len() - 2]));
        } else if cells.len() == 4 && cells[0].is_empty() {
            groups.push(((!cells[2].is_empty()).then(|| money(&cells[2])), Vec::new()));
        }
    }
    let with_sum: Vec<_> =
        groups.iter().filter_map(|(total, lines)| total.map(|total| (total, lines))).collect();
    assert_eq!(with_sum.len(), 10);
    for (total, lines) in with_sum {
        assert_eq!(sum(lines.iter().copied()), total);
    }
}

#[test]
fn from_the_settlement_amount_each_printed_step_leads_to_what_the_insurer_pays() {
    // A claim with everything that comes off, by hand: 1000.00 - 60.00 - 120.00 - 200.00 - 300.00 - 20.00 = 300.00;
    // the owner bears 500.00 and keeps salvage of 200.00, which together with 300.00 is 1000.00.
    let mut case = fixture::total_loss();
    let settled = &mut case.assessment.settled;
    settled.amount = eur(100_000);
    settled.tax_reclaimed = eur(6_000);
    settled.paid_before = eur(12_000);
    settled.salvage_kept = eur(20_000);
    settled.excess = eur(30_000);
    settled.over_limit = eur(2_000);
    settled.insurer_pays = eur(30_000);
    settled.owner_bears = eur(50_000);
    let printed = Printed::of(&case);
    let left = printed.beginning("Settlement amount")[0].minus(sum(printed.beginning("less "))).unwrap();
    assert_eq!(left, printed.labelled("Insurer pays"));
    let parts =
        ["Insurer pays", "Owner bears", "Salvage kept by the owner"].map(|label| printed.labelled(label));
    assert_eq!(sum(parts), eur(100_000));
    // In the order in which each comes off what is left: see "Who pays what" of the assessment.
    let comes_off = ["tax", "salvage", "paid", "excess", "beyond"];
    let labels: Vec<String> = case.document().lines.settlement.into_iter().map(|row| row.label).collect();
    for (label, wanted) in labels[1..].iter().zip(comes_off) {
        assert!(label.contains(wanted), "{labels:?}");
    }
}

#[test]
fn the_settlement_amount_leads_where_it_is_not_the_gross_and_rounding_stands_beside_net_and_tax() {
    let mut case = fixture::storm();
    let label = |case: &Case| case.document().summary.figures[0].label;
    assert_eq!(label(&case), "Gross");
    case.assessment.settled.basis = Settlement::Cash;
    case.assessment.settled.amount = case.assessment.totals.net;
    case.assessment.totals.rounding = Some(eur(2));
    let figures = case.document().summary.figures;
    let (first, second) = (&figures[0], &figures[1]);
    assert_eq!((first.label, first.amount.0), ("Settlement amount", case.assessment.totals.net));
    assert_eq!(first.note.as_deref(), Some("cash in place of repair"));
    assert_eq!((second.label, second.amount.0), ("Repair, gross", case.assessment.totals.gross));
    assert!(second.note.as_ref().unwrap().ends_with(", rounding 0.02"));
}

#[test]
fn the_amount_of_every_alternative_stands_beside_the_others_or_says_why_there_is_none() {
    let case = fixture::storm();
    let document = case.document();
    for decision in &document.decisions.rows {
        let panel = case
            .assessment
            .panels
            .iter()
            .find(|panel| panel.panel.to_string().eq_ignore_ascii_case(&decision.panel));
        for (alternative, choice) in panel.unwrap().alternatives.iter().zip(&decision.choices) {
            let choice = choice.as_ref().unwrap();
            assert_eq!(choice.amount.map(|figure| figure.0), alternative.amount.ok());
            assert_eq!(choice.unpriced.is_some(), alternative.amount.is_err());
        }
    }
}

#[test]
fn every_amount_leads_to_a_step_of_the_annex_with_the_same_result() {
    for (name, case) in every_case() {
        let document = case.document();
        let annex = document.annex.as_ref().unwrap();
        let result = |step: &Option<String>| {
            let step = step.as_ref().unwrap_or_else(|| panic!("{name}: an amount without a step"));
            let steps = annex.sections.iter().flat_map(|section| &section.steps);
            money(&steps.clone().find(|other| other.name == *step).unwrap().result)
        };
        for line in document.lines.groups.iter().flat_map(|group| &group.lines) {
            assert_eq!(result(&line.step), line.amount.0, "{name}: line {}", line.number);
        }
        for total in document.lines.totals.iter().chain(&document.lines.settlement) {
            assert_eq!(result(&total.step), total.amount.0, "{name}: {}", total.label);
        }
    }
}

#[test]
fn no_computed_amount_is_left_out_of_the_annex_and_none_of_a_panel_stands_twice() {
    for (name, case) in every_case() {
        let annex = case.document().annex.unwrap();
        for section in &annex.sections {
            let panels_own = section.title != "Vehicle, totals and settlement";
            for (index, step) in section.steps.iter().enumerate().filter(|_| panels_own) {
                let same = |other: &&AnnexStep| {
                    (&other.what, &other.how, &other.result) == (&step.what, &step.how, &step.result)
                };
                assert_eq!(section.steps[..index].iter().find(same), None, "{name}: {}", section.title);
            }
        }
        let results: BTreeSet<&str> = annex
            .sections
            .iter()
            .flat_map(|section| &section.steps)
            .map(|step| step.result.as_str())
            .collect();
        let working = case.assessment.working.as_ref().unwrap();
        for step in &working.steps {
            // Plain values stand inside the arithmetic that uses them; these have rows of their own.
            let Shown::Money(amount) = step.result else { continue };
            let plain = matches!(step.rule, Rule::Input | Rule::Term);
            // The sum of a way of which nothing is priced.
            let nothing = step.rule == Rule::MethodAmount && amount == eur(0);
            if !plain && !nothing {
                let shown = stipple::report::wording::amount(amount);
                assert!(results.contains(shown.as_str()), "{name}: {:?} {shown}", step.rule);
            }
        }
    }
}

#[test]
fn a_quotation_is_valid_for_the_days_of_the_schedule_and_no_date_is_invented() {
    let mut case = fixture::quotation();
    let until = |case: &Case, run_date| {
        fill(&case.subject(), &Imprint { tool_version: "0.0.0", run_date, words: Words::english() })
            .offer
            .unwrap()
            .valid_until
    };
    // 30 days after 3 July and after 29 June, counted in a calendar; the day of the hail counts for nothing.
    case.claim.event.date = Some(fixture::located(Date::constant(2025, 6, 14), fixture::sheet::EAST, 2, 3));
    let of_run = "Valid until 2 August 2026, counted from the date of this run, 3 July 2026.";
    assert_eq!(until(&case, Some(Date::constant(2026, 7, 3))).as_deref(), Some(of_run));
    let of_inspection = "Valid until 29 July 2026, counted from the date of inspection, 29 June 2026.";
    assert_eq!(until(&case, None).as_deref(), Some(of_inspection));
    case.claim.inspections[0].date = None;
    assert_eq!(until(&case, None), None);
    case.schedule.terms.quotation_days = None;
    assert_eq!(until(&case, Some(Date::constant(2026, 7, 3))), None);
    let mut far = fixture::quotation();
    far.schedule.terms.quotation_days.as_mut().unwrap().value = u32::MAX;
    assert_eq!(until(&far, None), None);
}

#[test]
fn a_printed_amount_reads_back_as_itself() {
    for minor in [0, 1, -1, 99, 100, -100, 12_345, 100_000, -123_456_789, i64::MAX, i64::MIN] {
        assert_eq!(money(&stipple::report::wording::amount(eur(minor))), eur(minor));
    }
    let code = |code| Currency::from_code(code).unwrap();
    // ISO 4217: the yen has no minor unit, the Kuwaiti dinar a thousandth.
    let printed =
        |minor, currency| stipple::report::wording::amount(Money::from_minor(minor, code(currency)));
    assert_eq!(printed(1_234_567, "JPY"), "1\u{202f}234\u{202f}567");
    assert_eq!(printed(1_234_567, "KWD"), "1\u{202f}234.567");
    assert_eq!(printed(-5, "EUR"), "\u{2212}0.05");
    assert_eq!(stipple::report::wording::number(Decimal::new(12_500, 1)), "1\u{202f}250.0");
}
