use super::table::{StatisticRow, Table, count, number, words as text};
use super::{Filling, figure, front, words};
use crate::compare::comparison::{Annex, Categories, PairAgreement, Story};
use crate::compare::statistics::Statistic;
use crate::report::wording::{amount, said, sentence, so_many};
use serde::Serialize;

/// Pairs that have an annex of their own; of more, the workbook holds every statistic.
const PAIRS: usize = 6;
/// Rows of a table on the page.
const ROWS: usize = 60;

const PANELS: (&str, &str) = ("panel", "panels");

/// Everything about one pair of assessors, or all pairs together.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PairAnnex {
    /// Whose.
    pub title: String,
    /// What it is over.
    pub over: String,
    /// What to mind: the scale to read, prevalence.
    pub notes: Vec<String>,
    /// Every statistic over all panels.
    pub statistics: Vec<StatisticRow>,
    /// Sums by three rules, parts of the panels, tables of categories, money.
    pub tables: Vec<Table>,
}

/// The annexes: all pairs together, and each pair where they are few.
pub(super) fn annexes(filling: &Filling<'_>) -> Vec<PairAnnex> {
    let comparison = filling.comparison;
    let mut annexes = vec![pair(filling, &comparison.overall)];
    if comparison.assessors.len() > 2 && comparison.pairs.len() <= PAIRS {
        annexes.extend(comparison.pairs.iter().map(|agreement| pair(filling, agreement)));
    }
    annexes
}

/// The five figures of every pair, where there are several.
pub(super) fn every_pair(filling: &Filling<'_>) -> Option<Table> {
    if filling.comparison.pairs.len() < 2 {
        return None;
    }
    let cell = |statistic: &Statistic, show: fn(f64) -> String| {
        statistic.value.ok().and_then(|value| number(show(value)))
    };
    let rows = filling
        .comparison
        .pairs
        .iter()
        .map(|agreement| {
            let page = &agreement.page_one;
            let sides = filling.sides(agreement);
            let money: Vec<String> = agreement
                .money
                .iter()
                .map(|money| format!("{} {}", figure::difference(money.difference), money.currency.code()))
                .collect();
            vec![
                text(sides.first),
                text(sides.second),
                count(agreement.cars),
                count(agreement.panels),
                cell(&page.bias, |bias| figure::signed(bias, 1)),
                cell(&page.spread, figure::dents),
                cell(&page.same_band, figure::share),
                cell(&page.same_decision, figure::share),
                number(money.join("; ")),
            ]
        })
        .collect();
    let headings = [
        "First",
        "Second",
        "Cars#",
        "Panels#",
        "Bias#",
        "Typical spread#",
        "Same count band#",
        "Same decision#",
        "First minus second#",
    ];
    Table::new("Every pair of assessors", words::DIRECTION, &headings, rows)
        .map(|table| table.at_most(ROWS, "in the workbook"))
}

/// Every pair's figures, period by period.
pub(super) fn over_time(filling: &Filling<'_>) -> Option<Table> {
    let cell = |statistic: &Statistic, show: fn(f64) -> String| {
        let value = show(statistic.value.ok()?);
        let shown = figure::interval(statistic, show);
        number(shown.map_or_else(|_| value.clone(), |interval| format!("{value} ({interval})")))
    };
    let rows = filling
        .comparison
        .periods
        .iter()
        .map(|period| {
            let (first, second) = period.between;
            let page = &period.page_one;
            vec![
                text(format!("{} minus {}", filling.name(first), filling.name(second))),
                text(said(&period.name)),
                count(period.cars),
                count(period.panels),
                cell(&page.bias, |bias| figure::signed(bias, 1)),
                cell(&page.spread, figure::dents),
                cell(&page.same_band, figure::share),
                cell(&page.same_decision, figure::share),
            ]
        })
        .collect();
    let headings =
        ["Who", "When", "Cars#", "Panels#", "Bias#", "Typical spread#", "Same count band#", "Same decision#"];
    Table::new(
        "Over time",
        "By event, or by month where a car names none. In brackets the 95 % interval: figures whose intervals overlap widely \
         show no change. An earlier comparison is not read again: give its counts among the files, and they stand here, too.",
        &headings,
        rows,
    )
    .map(|table| table.at_most(ROWS, "in the workbook"))
}

fn pair(filling: &Filling<'_>, agreement: &PairAgreement) -> PairAnnex {
    let sides = filling.sides(agreement);
    let all_pairs = agreement.between.is_none() && filling.comparison.assessors.len() > 2;
    let mut notes = Vec::new();
    if let Some(annex) = agreement.annex.first() {
        notes.push(match annex.counts.scale.reading {
            Ok(reading) => words::reading(reading).to_owned(),
            Err(reason) => format!("Which scale the limits are to be read on cannot be said: {reason}."),
        });
    }
    for categories in categories(agreement).filter(|categories| categories.prevalence.warns) {
        let commonest = categories.prevalence.commonest.and_then(|number| categories.names.get(number));
        notes.push(format!(
            "{}: most panels lie in one category{}, so kappa is low even where nearly all agree. Read the table and the \
             share beside it.",
            sentence(&said(&categories.of)),
            commonest.map_or_else(String::new, |name| format!(" ({})", said(name)))
        ));
    }
    if agreement.stories.differ {
        notes.push(
            "The three ways of adding up tell different stories; the comparison is about common panels."
                .to_owned(),
        );
    }
    let mut tables = Vec::new();
    tables.extend(stories(agreement, &sides.first, &sides.second));
    tables.extend(parts(agreement));
    tables.extend(
        categories(agreement).filter_map(|categories| crossed(categories, &sides.first, &sides.second)),
    );
    if agreement.between.is_some() && filling.comparison.assessors.len() > 2 {
        tables.extend(agreement.money.iter().filter_map(|money| front::causes(money, Some(&sides))));
    }
    tables.extend(agreement.money.iter().filter_map(shares));
    PairAnnex {
        title: if all_pairs { "All pairs together".to_owned() } else { sides.both() },
        over: format!(
            "{} that both inspected, on {}; {} not compared. {}",
            so_many(agreement.panels, "panel", "panels"),
            so_many(agreement.cars, "car", "cars"),
            so_many(agreement.unpaired, "panel", "panels"),
            words::DIRECTION
        ),
        notes,
        statistics: statistics(agreement).into_iter().map(|(_, row)| row).collect(),
        tables,
    }
}

/// The tables of categories of a pair: count bands, then decisions.
pub(super) fn categories(agreement: &PairAgreement) -> impl Iterator<Item = &Categories> {
    agreement.bands.iter().chain(agreement.decisions.as_ref().ok())
}

/// Every statistic over all panels, each with the part it belongs to.
pub(super) fn statistics(agreement: &PairAgreement) -> Vec<(String, StatisticRow)> {
    let mut rows = Vec::new();
    if let Some(annex) = agreement.annex.first() {
        rows.extend(of_counts(annex).into_iter().map(|row| (annex.over.clone(), row)));
    }
    for categories in categories(agreement) {
        let over = said(&categories.of);
        let named = |name: &str, statistic: &Statistic| {
            (over.clone(), StatisticRow::named(format!("{name}, {over}"), statistic, PANELS))
        };
        rows.push(named("Same category", &categories.same));
        rows.push(named("Kappa", &categories.plain));
        rows.push(named("Kappa with linear weights", &categories.linear));
        rows.push(named("Kappa with quadratic weights", &categories.quadratic));
        rows.push(named("Share of the commonest category", &categories.prevalence.share));
        if let Some(index) = &categories.prevalence.prevalence_index {
            rows.push(named("Prevalence index", index));
        }
        rows.push(named("Bias index", &categories.prevalence.bias_index));
        rows.push(named("Kappa for even categories", &categories.prevalence.adjusted));
    }
    rows
}

/// The statistics of counts over one part of the panels.
pub(super) fn of_counts(annex: &Annex) -> Vec<StatisticRow> {
    let mut rows = Vec::new();
    let mut add = |name: &str, statistic: &Statistic| rows.push(StatisticRow::named(name, statistic, PANELS));
    let counts = &annex.counts;
    add("Bias, by car", &annex.bias);
    add("Typical spread", &annex.spread);
    if let Some((band, decision)) = &annex.same {
        add("Same count band", band);
        add("Same decision", decision);
    }
    for (limits, of) in [(&counts.limits, "differences"), (&counts.ratios, "ratios")] {
        add(&format!("Mean of the {of}"), &limits.bias);
        add(&format!("Standard deviation of the {of}"), &limits.spread);
        add(&format!("Lower limit of agreement of the {of}"), &limits.lower);
        add(&format!("Upper limit of agreement of the {of}"), &limits.upper);
    }
    add("Spread of the differences against the level", &counts.scale.difference);
    add("Spread of the ratios against the level", &counts.scale.ratio);
    add("Slope of the difference on the mean", &counts.scale.slope);
    add("Concordance correlation", &counts.concordance.concordance);
    add("Correlation", &counts.concordance.correlation);
    add("Bias factor of the concordance", &counts.concordance.bias_factor);
    if let Some(intraclass) = &counts.intraclass {
        for form in &intraclass.forms {
            add(form.name, form);
        }
    }
    if let Some(line) = &counts.line {
        add("Slope of the line with errors in both", &line.slope);
        add("Intercept of the line with errors in both", &line.intercept);
    }
    rows
}

fn stories(agreement: &PairAgreement, first: &str, second: &str) -> Option<Table> {
    let stories = &agreement.stories;
    let row = |story: &Story| {
        let money = |pick: fn(
            &(crate::quantity::Currency, crate::quantity::Money, crate::quantity::Money),
        ) -> String| { story.money.iter().map(pick).collect::<Vec<_>>().join("; ") };
        vec![
            text(story.rule),
            count(story.cars),
            number(story.first.to_string()),
            number(story.second.to_string()),
            number(money(|(currency, first, _)| format!("{} {}", amount(*first), currency.code()))),
            number(money(|(currency, _, second)| format!("{} {}", amount(*second), currency.code()))),
        ]
    };
    // Where all panels are common, there is one story to tell.
    let told = if stories.differ {
        vec![&stories.common, &stories.own, &stories.complete]
    } else {
        vec![&stories.common]
    };
    let headings = [
        "Rule".to_owned(),
        "Cars#".to_owned(),
        format!("{first}, dents#"),
        format!("{second}, dents#"),
        format!("{first}, amounts#"),
        format!("{second}, amounts#"),
    ];
    let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
    Table::new("Sums of what was counted", "", &headings, told.into_iter().map(row).collect())
}

/// Kinds of panel and size bands, a row each.
fn parts(agreement: &PairAgreement) -> Option<Table> {
    let value = |statistic: &Statistic, show: fn(f64) -> String| {
        statistic.value.map_or_else(|reason| text(format!("none: {reason}")), |value| number(show(value)))
    };
    let interval = |statistic: &Statistic| match statistic.value {
        Ok(_) => figure::interval(statistic, figure::plain)
            .map_or_else(|reason| text(format!("none: {reason}")), number),
        Err(_) => None,
    };
    let rows = agreement
        .annex
        .iter()
        .skip(1)
        .map(|annex| {
            let limits = &annex.counts.limits;
            let same = |pick: fn(&(Statistic, Statistic)) -> &Statistic| {
                annex.same.as_ref().and_then(|same| value(pick(same), figure::share))
            };
            vec![
                text(said(&annex.over)),
                count(annex.bias.used),
                value(&annex.bias, |bias| figure::signed(bias, 2)),
                interval(&annex.bias),
                value(&annex.spread, figure::dents),
                value(&limits.lower, |limit| figure::signed(limit, 1)),
                value(&limits.upper, |limit| figure::signed(limit, 1)),
                same(|same| &same.0),
                same(|same| &same.1),
            ]
        })
        .collect();
    let headings = [
        "Over",
        "Panels#",
        "Bias#",
        "95 % interval#",
        "Typical spread#",
        "Lower limit#",
        "Upper limit#",
        "Same count band#",
        "Same decision#",
    ];
    Table::new("By kind of panel and size", "Definitions are those of the statistics below.", &headings, rows)
        .map(|table| table.at_most(ROWS, "in the workbook"))
}

/// How often each pair of categories was given.
fn crossed(categories: &Categories, first: &str, second: &str) -> Option<Table> {
    let all = categories.table.categories();
    let used: Vec<usize> = (0..all)
        .filter(|index| {
            (0..all).any(|other| {
                categories.table.units(*index, other) + categories.table.units(other, *index) > 0
            })
        })
        .collect();
    let name = |index: usize| categories.names.get(index).map_or_else(String::new, |name| said(name));
    let headings: Vec<String> = std::iter::once(format!("{first} down, {second} across"))
        .chain(used.iter().map(|index| format!("{}#", name(*index))))
        .collect();
    let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
    let rows = used
        .iter()
        .map(|row| {
            let cells = used.iter().map(|column| {
                let units = categories.table.units(*row, *column);
                if units == 0 { None } else { number(units.to_string()) }
            });
            std::iter::once(text(name(*row))).chain(cells).collect()
        })
        .collect();
    Table::new(
        format!("Panels by {}", said(&categories.of)),
        "On the diagonal both gave the same; categories that neither used are left out.",
        &headings,
        rows,
    )
}

/// From panels to totals.
fn shares(money: &crate::compare::comparison::MoneyByCause) -> Option<Table> {
    let rows = money
        .shares
        .iter()
        .filter(|of| of.net.minor() != 0)
        .map(|of| vec![text(of.share.words()), number(figure::difference(of.net))])
        .collect();
    Table::new(
        format!("From panels to what the insurer pays, {}", money.currency.code()),
        "Differences over whole cars, by where they arise. What others bear comes off, so more of it counts as less.",
        &["Part", "First minus second#"],
        rows,
    )
}
