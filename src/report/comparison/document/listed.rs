use super::super::tables;
use super::names::car_name;
use super::table::{StatisticRow, Table, count, number, words as text};
use super::{Filling, counted, figure};
use crate::compare::comparison::Outlier;
use crate::compare::statistics::Statistic;
use crate::report::wording::{amount, said, so_many};

/// Rows of a list on the page.
const ROWS: usize = 40;

/// Lists after the statistics: what looks like a slip, who stands out, what is not compared.
pub(super) fn lists(filling: &Filling<'_>) -> Vec<Table> {
    let by_counts = [counted::panels(filling), counted::bands(filling)];
    let others = [
        slips(filling),
        people(filling),
        outliers(filling),
        unpaired(filling),
        aside(filling),
        joined(filling),
    ];
    let others = others.into_iter().flatten().map(|table| table.at_most(ROWS, "in the workbook"));
    by_counts.into_iter().flatten().chain(others).collect()
}

/// Every pattern that looks like a slip.
pub(super) fn slips(filling: &Filling<'_>) -> Option<Table> {
    let mut rows = Vec::new();
    for car in &filling.comparison.cars {
        for pair in &car.pairs {
            for slip in &pair.slips {
                rows.push(vec![
                    text(car_name(car)),
                    text(filling.name(pair.first)),
                    text(filling.name(pair.second)),
                    text(tables::slip(slip)),
                    number(slip.before.saturating_sub(slip.after).to_string()),
                ]);
            }
        }
    }
    Table::new(
        "Looks like a slip",
        "Suggestions only: nothing is undone here, and chance can look like this. Which of the two it is, the car says.",
        &["Car", "First", "Second", "What it looks like", "Dents it would take away#"],
        rows,
    )
}

/// Each assessor, and what can be said of them.
fn people(filling: &Filling<'_>) -> Option<Table> {
    let everyone = &filling.comparison.everyone;
    let rows = everyone
        .people
        .iter()
        .map(|person| {
            let assessor = filling.comparison.assessors.get(person.assessor);
            let digits = person.digits.map(tables::digits);
            let blanks = person.blanks.map(|blanks| tables::blanks(blanks).to_owned());
            let traces = digits.into_iter().chain(blanks).collect::<Vec<_>>().join("; ");
            vec![
                text(filling.name(person.assessor)),
                count(person.looks),
                count(assessor.map_or(0, |assessor| assessor.repeats)),
                count(person.looks_with_blanks),
                text(traces),
                text(person.says.clone()),
            ]
        })
        .collect();
    Table::new(
        "Assessors",
        "Blanks are sizes left blank beside numbers: none written, rated as none.",
        &[
            "Who",
            "Counts of cars#",
            "Repeat counts#",
            "With blanks#",
            "How numbers are written",
            "What can be said",
        ],
        rows,
    )
}

fn outliers(filling: &Filling<'_>) -> Option<Table> {
    let row = |outlier: &Outlier| {
        let car = filling.comparison.cars.get(outlier.car)?;
        let pair = car.pairs.get(outlier.pair)?;
        Some(vec![
            text(car_name(car)),
            text(filling.name(pair.first)),
            text(filling.name(pair.second)),
            number(figure::signed_whole(outlier.dents)),
            number(figure::decimal(outlier.z, 1)),
            outlier.money.and_then(|money| number(figure::difference(money))),
            outlier.panel.and_then(|panel| text(panel.panel.to_string())),
        ])
    };
    let rows = filling.comparison.everyone.outliers.iter().filter_map(row).collect();
    Table::new(
        "Cars that stand out",
        "Their difference in dents lies far from what is usual between the two.",
        &["Car", "First", "Second", "Dents#", "Robust z#", "Money#", "Most of it on"],
        rows,
    )
}

/// Panels that enter no statistic.
pub(super) fn unpaired(filling: &Filling<'_>) -> Option<Table> {
    let mut rows = Vec::new();
    for car in &filling.comparison.cars {
        for pair in &car.pairs {
            for panel in &pair.unpaired {
                rows.push(vec![
                    text(car_name(car)),
                    text(panel.panel.to_string()),
                    text(filling.name(pair.first)),
                    text(filling.name(pair.second)),
                    text(panel.why.words()),
                    panel.dents.and_then(|dents| number(dents.to_string())),
                    panel.amount.and_then(|money| number(amount(money))),
                ]);
            }
        }
    }
    let all = rows.len();
    Table::new(
        "Panels that were not compared",
        format!(
            "{}: none written, not inspected and zero are three things, and only counts that both made are compared.",
            so_many(all, "panel", "panels")
        ),
        &["Car", "Panel", "First", "Second", "Why", "Dents#", "Amount#"],
        rows,
    )
}

/// Counts that enter nothing.
pub(super) fn aside(filling: &Filling<'_>) -> Option<Table> {
    let rows = filling
        .comparison
        .aside
        .iter()
        .map(|aside| {
            vec![text(said(&aside.key)), text(filling.name(aside.assessor)), text(said(&aside.why.words()))]
        })
        .collect();
    Table::new("Counts that were not compared, or not in money", "", &["Claim", "Who", "Why"], rows)
}

/// Cars whose claims carry different numbers.
fn joined(filling: &Filling<'_>) -> Option<Table> {
    let rows = filling
        .comparison
        .cars
        .iter()
        .filter(|car| car.joined != crate::compare::pairing::JoinedBy::Claim)
        .map(|car| {
            let keys: std::collections::BTreeSet<String> = car.keys.iter().map(|key| said(key)).collect();
            vec![
                text(car_name(car)),
                text(tables::joined(car.joined)),
                text(keys.into_iter().collect::<Vec<_>>().join("; ")),
            ]
        })
        .collect();
    Table::new(
        "Cars found under different claim numbers",
        "They are taken for one car because of what stands beside them.",
        &["Car", "Found by", "Claims"],
        rows,
    )
}

/// The statistics over all assessors.
pub(super) fn everyone(filling: &Filling<'_>) -> Vec<StatisticRow> {
    let everyone = &filling.comparison.everyone;
    let panels = ("panel", "panels");
    let named = |name: String, statistic: &Statistic, unit| StatisticRow::named(name, statistic, unit);
    let mut rows = Vec::new();
    if filling.comparison.assessors.len() > 2 {
        rows.extend(everyone.intraclass.forms.iter().map(|form| named(form.name.to_owned(), form, panels)));
    }
    for (metric, alpha) in &everyone.alpha {
        rows.push(named(format!("Krippendorff's alpha, {}", metric.name()), alpha, panels));
    }
    if let Ok(kappa) = &everyone.bands {
        rows.push(named("Fleiss' kappa, count band".to_owned(), &kappa.overall, panels));
    }
    if let Ok(kappa) = &everyone.decisions {
        rows.push(named("Fleiss' kappa, decision".to_owned(), &kappa.overall, panels));
    }
    rows.push(named(
        "Dispersion of the funnel".to_owned(),
        &everyone.funnel.dispersion,
        ("person", "people"),
    ));
    rows.push(named(
        "Standard deviation between assessors".to_owned(),
        &everyone.funnel.between,
        ("person", "people"),
    ));
    for person in &everyone.people {
        let name = format!("{} beside the others, dents a car", filling.name(person.assessor));
        rows.push(named(name, &person.paired.difference, ("car", "cars")));
    }
    if let Some(precision) = &everyone.precision {
        for (name, statistic) in [
            ("Repeatability", &precision.repeatability),
            ("Repeatability limit", &precision.repeatability_limit),
            ("Reproducibility", &precision.reproducibility),
            ("Reproducibility limit", &precision.reproducibility_limit),
        ] {
            rows.push(named(name.to_owned(), statistic, panels));
        }
    }
    rows
}
