//! Tax sums against published invoices and the same lines under EN 16931's rule.

use crate::builder::{decimal, percent};
use std::collections::BTreeMap;
use stipple::assess::{tax_on, taxable_by_rate};
use stipple::quantity::{Currency, Money, Rounding};

fn records(text: &str) -> Vec<csv::StringRecord> {
    csv::Reader::from_reader(text.as_bytes()).records().map(Result::unwrap).collect()
}

#[test]
fn the_example_invoices_of_en_16931_add_up_as_published() {
    let mut breakdowns: BTreeMap<String, Vec<csv::StringRecord>> = BTreeMap::new();
    for row in records(include_str!("../published/en16931_vat_breakdown.csv")) {
        breakdowns.entry(row[0].to_owned()).or_default().push(row);
    }
    let invoices = records(include_str!("../published/en16931_invoices.csv"));
    let mut ties = 0;
    for invoice in &invoices {
        let currency = Currency::from_code(&invoice[1]).unwrap();
        let money = |text: &str| Money::from_decimal(decimal(text), currency).unwrap();
        let groups = &breakdowns[&invoice[0]];
        let amounts = groups.iter().map(|group| (percent(&group[2]), money(&group[3])));
        let rates = taxable_by_rate(currency, amounts).unwrap();
        assert!(rates.is_sorted_by(|a, b| a.0 < b.0), "rates from low to high");
        let mut tax = Money::zero(currency);
        for (rate, taxable) in &rates {
            let of_rate = |column: usize| {
                let of_rate = groups.iter().filter(|group| percent(&group[2]) == *rate);
                Money::sum(currency, of_rate.map(|group| money(&group[column]))).unwrap()
            };
            assert_eq!(*taxable, of_rate(3), "{invoice:?}");
            let rounded = tax_on(*taxable, *rate, Rounding::HalfAway).unwrap();
            assert_eq!(rounded, of_rate(4), "BR-CO-17 of {invoice:?}");
            ties += usize::from(tax_on(*taxable, *rate, Rounding::HalfEven).unwrap() != rounded);
            tax = tax.plus(rounded).unwrap();
        }
        let net = Money::sum(currency, rates.iter().map(|(_, taxable)| *taxable)).unwrap();
        assert_eq!(net, money(&invoice[6]), "BT-109 of {invoice:?}");
        assert_eq!(tax, money(&invoice[7]), "BR-CO-14 of {invoice:?}");
        assert_eq!(net.plus(tax).unwrap(), money(&invoice[8]), "BR-CO-15 of {invoice:?}");
    }
    assert_eq!((invoices.len(), ties), (19, 4), "ties are what tells half away from half even");
}

#[test]
fn tax_is_taken_of_the_sum_of_the_lines_and_not_of_each() {
    let lines: [(&str, &[&str]); 7] = [
        ("10", &["0.05", "0.05", "0.05"]),
        ("20", &["9.99", "9.99"]),
        ("15", &["0.33", "0.33", "0.33"]),
        ("10", &["12.25", "12.35", "12.45"]),
        ("25", &["1460.50"]),
        ("10", &["0.05"]),
        ("25", &["-1460.50"]),
    ];
    let rows = records(include_str!("../published/tax_rounding.csv"));
    assert_eq!(rows.len(), lines.len());
    let currency = crate::builder::eur();
    for (row, (rate, lines)) in rows.iter().zip(lines) {
        let money = |text: &&str| Money::from_decimal(decimal(text), currency).unwrap();
        assert!(row[0].contains(&format!("at {rate}%")), "{row:?}");
        let rates = taxable_by_rate(currency, lines.iter().map(|line| (percent(rate), money(line)))).unwrap();
        let tax = |rounding| tax_on(rates[0].1, rates[0].0, rounding).unwrap().to_string();
        assert_eq!(tax(Rounding::HalfAway), row[4], "{row:?}");
        assert_eq!(tax(Rounding::HalfEven), row[6], "{row:?}");
        assert_eq!(tax(Rounding::Down), row[9], "{row:?}");
    }
}

/// Exact limits of a Poisson mean against the published table (Garwood 1936, as chi-squared quantiles).
#[test]
fn poisson_limits_are_those_of_the_table() {
    for row in records(include_str!("../published/poisson_limits.csv")) {
        let millionths = |text: &str| text.replace('.', "").parse::<i64>().unwrap();
        let found = stipple::distribution::poisson_limits(row[0].parse().unwrap());
        assert_eq!(found, (millionths(&row[1]), millionths(&row[2])), "{row:?}");
    }
}
