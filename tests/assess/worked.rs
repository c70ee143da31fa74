//! The claim that `src/assess/worked.md` works by hand: its tables are read, the claim is assessed, and every figure of
//! the page is compared, so that neither can drift from the other.

use crate::builder::{
    CLAIM, SCHEDULE, amount, cell, claim, count_band, decimal, dents, factor, heading, hours, item, limit,
    mark, mm, money, operation, percent, put, rate, schedule, size_band, stated, written,
};
use crate::{assessed, panel, way};
use stipple::assess::{Alternative, Assessment, Crossing, Line, Measured, Outcome, Screen};
use stipple::claim::words::Named;
use stipple::claim::{Access, Claim, MarkKind, Material, Method, PanelId, PartPrice, Side};
use stipple::quantity::{Decimal, Money, Rounding};
use stipple::schedule::{
    Comparator, FactorEffect, FactorTest, Grid, GroupId, LossRule, MarkRate, Measure, PanelTerms, Per, Price,
    Schedule, Scope, TotalLossTerms,
};

const PAGE: &str = include_str!("../../src/assess/worked.md");

/// The rows of the table whose first heading is this.
fn table(first: &str) -> Vec<Vec<&'static str>> {
    tables(first).next().unwrap_or_else(|| panic!("the page has no table {first}"))
}

/// The rows of every table whose first heading is this.
fn tables(first: &str) -> impl Iterator<Item = Vec<Vec<&'static str>>> {
    let heading = format!("| {first} |");
    let cells = |line: &'static str| -> Vec<&'static str> {
        line.trim_matches('|').split('|').map(str::trim).collect()
    };
    PAGE.split("\n\n")
        .filter(move |block| block.starts_with(&heading) && block.contains("\n|---"))
        .map(move |block| block.lines().skip(2).take_while(|line| line.starts_with('|')).map(cells).collect())
}

/// The number after some words of the page.
fn said(before: &str) -> &'static str {
    let after = PAGE.split_once(before).unwrap_or_else(|| panic!("the page does not say {before:?}")).1;
    let end = after.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap();
    after[..end].trim_end_matches('.')
}

fn named<T: Named>(name: &str) -> T {
    *T::ALL.iter().find(|value| value.name() == name).unwrap_or_else(|| panic!("nothing is called {name}"))
}

fn panel_id(name: &str) -> PanelId {
    match name.strip_prefix("left ") {
        Some(kind) => PanelId::new(named(kind), Some(Side::Left)),
        None => PanelId::new(named(name), None),
    }
}

pub fn the_schedule() -> Schedule {
    let mut made = schedule();
    made.terms.rounding = stated(Rounding::HalfAway);
    made.terms.total_step = Some(stated(money(said("rounded to "))));
    made.terms.discount = Some(stated(percent(said("The discount is\n"))));
    made.terms.total_loss = Some(TotalLossTerms {
        rule: stated(LossRule::Repair),
        comparator: stated(Comparator::AtLeast),
        share: stated(percent(said("is at least "))),
        with_tax: stated(false),
    });
    let millimetres = |text: &str| text.trim_end_matches(" mm").to_owned();
    let sizes = table("size band");
    made.sizes = sizes.iter().map(|r| size_band(r[0], &millimetres(r[1]), &millimetres(r[2]))).collect();
    let counts = table("count band");
    made.counts =
        counts.iter().map(|r| count_band(r[0], r[1].parse().unwrap(), Some(r[2].parse().unwrap()))).collect();
    made.groups = vec!["top".to_owned(), "side".to_owned()];
    let group =
        |name: &str| u16::try_from(["top", "side"].iter().position(|group| *group == name).unwrap()).unwrap();
    made.panels = table("panel")
        .iter()
        .map(|row| PanelTerms {
            kind: named(row[0]),
            group: GroupId(group(row[1])),
            plane: stated(named(row[2])),
            joint: stated(named(row[3])),
            class: None,
            area: None,
            floor: (!row[4].is_empty()).then(|| stated(money(row[4]))),
            cap: None,
            place: cell(SCHEDULE),
        })
        .collect();
    made.grid = Grid::new(2, sizes.len(), counts.len());
    for row in table("rated as") {
        let size = sizes.iter().position(|size| size[0] == row[1]).unwrap();
        let count = counts.iter().position(|count| count[0] == row[2]).unwrap();
        put(&mut made, group(row[0]), size, count, Price::Amount(rate(row[3])), Per::Panel);
    }
    made.mark_rates = table("mark")
        .iter()
        .map(|row| MarkRate {
            mark: named(row[0]),
            scope: Scope::Any,
            over: mm(&millimetres(row[1])),
            up_to: Some(mm(&millimetres(row[2]))),
            price: Price::Amount(rate(row[3])),
            place: cell(SCHEDULE),
        })
        .collect();
    for row in table("factor") {
        let test = match row[1] {
            "material" => FactorTest::Material(named(row[2])),
            _ => FactorTest::Access(named(row[2])),
        };
        made.factors.push(factor(row[0], test, FactorEffect::Percent(percent(row[3]), named(row[4]))));
    }
    for (labour, row) in made.labour.iter_mut().zip(table("labour")) {
        assert_eq!(labour.class.name(), row[0]);
        labour.per_hour.value = rate(row[1]);
    }
    for (tax, row) in made.taxes.iter_mut().zip(table("tax on")) {
        assert_eq!(tax.on.name(), row[0]);
        tax.percent.value = percent(row[1]);
    }
    for row in table("limit") {
        let measure = match row[1] {
            "dents" => Measure::DentsOver(row[2].parse().unwrap()),
            "share of replacing" => Measure::ShareOfReplacing(percent(row[2])),
            _ => Measure::ShareOfConventional(percent(row[2])),
        };
        let mut made_limit = limit(measure, named(row[3]));
        made_limit.name = row[0].to_owned();
        made_limit.number = u32::try_from(made.limits.len() + 1).unwrap();
        made.limits.push(made_limit);
    }
    for row in table("operation") {
        let (scope, parts) = (Scope::Kind(named(row[1])), (!row[3].is_empty()).then_some(row[3]));
        made.operations.push(operation(row[0], scope, Some(row[2]), parts, named(row[4])));
    }
    made
}

pub fn the_claim() -> Claim {
    let mut made = claim();
    made.parties.excess = Some(amount(said("Excess ")));
    made.parties.market_value = Some(amount(said("market value ")));
    // The first table headed `panel` is the schedule's; that of the claim has the size bands as headings.
    for row in tables("panel").nth(1).unwrap() {
        let mut counted = dents(panel_id(row[0]), row[1].parse().unwrap(), row[2].parse().unwrap(), 0);
        counted.tally.truncate(2);
        counted.tally[0].size = heading("0-12 mm", "0", Some("12"));
        counted.tally[1].size = heading("12-25 mm", "12", Some("25"));
        made.inspections[0].panels.push(counted);
    }
    let hood = &mut made.inspections[0].panels[0];
    hood.material = Some(written(Material::Aluminium));
    hood.access = Some(written(Access::GlueOnly));
    made.inspections[0].panels[2].marks.push(mark(MarkKind::Crease, Some(said("a crease of "))));
    for row in table("part of") {
        made.parts.push(PartPrice {
            place: cell(CLAIM),
            panel: panel_id(row[0]),
            price: Some(amount(row[1])),
            fitting: Some(written(hours(row[2]))),
            conventional: Some(written(hours(row[3]))),
            refinish: Some(written(hours(row[4]))),
            paint_material: Some(amount(row[5])),
            source: None,
            date: None,
        });
    }
    made.items = table("item").iter().map(|row| item(row[0], Some(row[1]), Some(row[2]))).collect();
    made
}

/// Compares a table's amounts with figures, and works out its sums.
fn compare(title: &str, figures: &[Money]) {
    let rows = table(title);
    let printed: Vec<String> = rows.iter().map(|row| row[2].to_owned()).collect();
    let found: Vec<String> = figures.iter().map(ToString::to_string).collect();
    assert_eq!(printed, found, "{title}");
    for row in rows {
        assert_eq!(worked_out(row[1]), decimal(row[2]), "{title}: {}", row[0]);
    }
}

/// `48.00`, `25 % of 179.00`, `1.5 h x 61.50`, `1 + 2 - 3`; to the cent, half away from zero.
fn worked_out(how: &str) -> Decimal {
    let exact = if let Some((share, of)) = how.split_once(" % of ") {
        decimal(share) * decimal(of) / Decimal::ONE_HUNDRED
    } else if let Some((hours, rate)) = how.split_once(" h x ") {
        decimal(hours) * decimal(rate)
    } else {
        let mut sum = Decimal::ZERO;
        let mut sign = Decimal::ONE;
        for word in how.split(' ') {
            match word {
                "+" => sign = Decimal::ONE,
                "-" => sign = -Decimal::ONE,
                number => sum += sign * decimal(number),
            }
        }
        sum
    };
    exact.round_dp_with_strategy(2, rust_decimal::RoundingStrategy::MidpointAwayFromZero)
}

fn lines_and_sum(alternative: &Alternative) -> Vec<Money> {
    alternative.lines.iter().map(|line| line.amount).chain([alternative.amount.unwrap()]).collect()
}

fn the_assessment() -> Assessment {
    assessed(&the_claim(), &the_schedule())
}

#[test]
fn the_panels_of_the_worked_claim_come_to_the_figures_of_the_page() {
    let assessment = the_assessment();
    let door = panel(&assessment, panel_id("left front door"));
    let paintless = |name| way(panel(&assessment, panel_id(name)), Method::Paintless);
    compare("hood", &lines_and_sum(paintless("hood")));
    compare("left fender", &lines_and_sum(paintless("left fender")));
    compare("left front door, paintless", &lines_and_sum(paintless("left front door")));
    compare("left front door, conventional repair", &lines_and_sum(way(door, Method::Conventional)));
    compare("left front door, replace", &lines_and_sum(way(door, Method::Replace)));
}

#[test]
fn the_worked_claim_is_decided_as_the_page_says() {
    let assessment = the_assessment();
    let methods: Vec<Method> = assessment.panels.iter().map(|panel| panel.method).collect();
    assert_eq!(methods, [Method::Paintless, Method::Paintless, Method::Conventional]);
    let crossings = |id: &str| -> Vec<Crossing> {
        panel(&assessment, panel_id(id)).findings.iter().map(|finding| finding.crossing).collect()
    };
    assert_eq!(crossings("hood"), [Crossing::CannotTell, Crossing::CannotTell, Crossing::No]);
    assert_eq!(crossings("left front door"), [Crossing::Yes, Crossing::No, Crossing::No]);
    let thresholds: Vec<Money> = panel(&assessment, panel_id("left front door"))
        .findings
        .iter()
        .filter_map(|finding| match finding.measured {
            Measured::Amounts { threshold, .. } => Some(threshold),
            _ => None,
        })
        .collect();
    compare("limit on the left front door", &thresholds);
    assert_eq!(assessment.outcome, Outcome::Repair);
}

#[test]
fn the_totals_of_the_worked_claim_come_to_the_figures_of_the_page() {
    let assessment = the_assessment();
    let vehicle: Vec<Money> = assessment.vehicle_lines.iter().map(|line: &Line| line.amount).collect();
    compare("vehicle", &vehicle);
    let totals = &assessment.totals;
    let taxes = totals.taxes.iter().map(|tax| tax.tax);
    let figures: Vec<Money> =
        [totals.net].into_iter().chain(taxes).chain([totals.rounding.unwrap(), totals.gross]).collect();
    compare("total", &figures);
    let Screen::Below(screen) = assessment.screen else { panic!("{:?}", assessment.screen) };
    compare("screen", &[screen.cost, screen.limit]);
    let settled = &assessment.settled;
    compare("settlement", &[settled.amount, settled.excess, settled.insurer_pays, settled.owner_bears]);
}
