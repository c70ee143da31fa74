//! The example on the page stands as printed, and every table of it is understood.

use crate::support::{Tables, input_file, sha256};
use stipple::claim::{Access, Depth, MarkKind, Material, Method, Paint, PanelKind, Position};
use stipple::quantity::{
    Currency, Decimal, DecimalMark, Hours, Length, LengthUnit, Money, Percent, Rounding, TimeUnit,
    parse_decimal,
};
use stipple::schedule::{
    AppliesTo, Comparator, FactorEffect, FactorTest, Fit, GroupId, Joint, LabourClass, LossRule, Measure,
    MixedRule, Once, Per, PercentOf, Plane, Price, Schedule, Scope, TaxOn,
};

fn eur(amount: &str) -> Money {
    let amount = parse_decimal(amount, DecimalMark::Point).unwrap();
    Money::from_decimal(amount, Currency::from_code("EUR").unwrap()).unwrap()
}

fn mm(number: i64) -> Length {
    Length::from_decimal(Decimal::from(number), LengthUnit::Millimetre).unwrap()
}

fn percent(number: i64) -> Percent {
    Percent::from_decimal(Decimal::from(number)).unwrap()
}

fn example() -> Schedule {
    let outcome = Tables::of_the_page().read();
    outcome.says(&[]);
    outcome.stands().clone()
}

#[test]
fn the_terms_are_what_the_page_says() {
    let terms = example().terms;
    assert_eq!(terms.name.value, "Example for the page of the tables");
    assert_eq!((terms.edition.value.as_str(), terms.source.value.as_str()), ("1", "invented"));
    let fits: Vec<Fit> = terms.fits.into_iter().map(|fit| fit.value).collect();
    assert_eq!(fits, [Fit::Insurer("Example Mutual".to_owned()), Fit::NoInsurer]);
    assert_eq!(terms.currency.value.code(), "EUR");
    assert_eq!(terms.valid_from.value.to_string(), "2026-01-01");
    assert_eq!(terms.valid_to.unwrap().value.to_string(), "2026-12-31");
    assert_eq!(terms.rounding.value, Rounding::HalfAway);
    assert_eq!(terms.mixed.value, MixedRule::EachBand);
    assert_eq!(terms.time_unit.value, TimeUnit::Tenths);
    assert_eq!(terms.readying.unwrap().value, percent(60));
    assert_eq!(terms.minimum.unwrap().value, eur("80.00"));
    assert_eq!(terms.discount.unwrap().value, percent(4));
    assert_eq!(terms.total_step, None);
    let loss = terms.total_loss.unwrap();
    assert_eq!(loss.rule.value, LossRule::RepairPlusSalvage);
    assert_eq!(loss.comparator.value, Comparator::AtLeast);
    assert_eq!((loss.share.value, loss.with_tax.value), (percent(100), false));
    assert!(!terms.cash_with_tax.unwrap().value);
    assert_eq!(terms.quotation_days.unwrap().value, 30);
}

#[test]
fn rates_for_labour_and_tax_are_by_class() {
    let schedule = example();
    let rates: Vec<_> =
        schedule.labour.iter().map(|rate| (rate.class, rate.per_hour.value.to_string())).collect();
    assert_eq!(
        rates,
        [
            (LabourClass::Paintless, "96.00".to_owned()),
            (LabourClass::Refit, "72.50".to_owned()),
            (LabourClass::Conventional, "78.00".to_owned()),
            (LabourClass::Refinish, "84.00".to_owned()),
        ]
    );
    let taxed: Vec<TaxOn> = schedule.taxes.iter().map(|rate| rate.on).collect();
    assert_eq!(taxed, [TaxOn::Labour, TaxOn::Parts, TaxOn::PaintMaterial]);
    assert!(schedule.taxes.iter().all(|rate| rate.percent.value == percent(20)));
}

#[test]
fn bands_have_edges_and_other_names() {
    let schedule = example();
    let sizes: Vec<_> = schedule.sizes.iter().map(|band| (band.name.as_str(), band.low, band.high)).collect();
    assert_eq!(sizes, [("small", mm(0), mm(14)), ("medium", mm(14), mm(27)), ("large", mm(27), mm(45))]);
    assert_eq!(schedule.sizes[0].goes_by, ["S", "below 14"]);
    let counts: Vec<_> = schedule.counts.iter().map(|band| (band.from, band.to)).collect();
    assert_eq!(counts, [(1, Some(4)), (5, Some(13)), (14, Some(40))]);
    assert_eq!(
        [0, 1, 4, 5, 40, 41].map(|dents| schedule.count_band(dents)),
        [None, Some(0), Some(0), Some(1), Some(2), None]
    );
}

#[test]
fn panels_are_rated_as_groups() {
    let schedule = example();
    assert_eq!(schedule.groups, ["flat", "side"]);
    let roof = schedule.panels.iter().find(|panel| panel.kind == PanelKind::Roof).unwrap();
    assert_eq!(
        (roof.group, roof.plane.value, roof.joint.value),
        (GroupId(0), Plane::Horizontal, Joint::Welded)
    );
    assert_eq!(roof.area.unwrap().value.square_millimetres(), 1_900_000);
    assert_eq!((roof.floor.unwrap().value, roof.cap.unwrap().value), (eur("45.00"), eur("900.00")));
    let quarter = schedule.panels.iter().find(|panel| panel.kind == PanelKind::QuarterPanel).unwrap();
    assert_eq!((quarter.group, quarter.area, quarter.cap), (GroupId(1), None, None));
}

#[test]
fn rates_are_found_by_group_size_and_count() {
    let schedule = example();
    let (flat, side) = (GroupId(0), GroupId(1));
    let given = |group, size, count| {
        let cell = schedule.grid.get(group, size, count).unwrap();
        match cell.price {
            Price::Amount(rate) => (rate.to_string(), cell.per),
            Price::Time(hours) => (format!("{hours} h"), cell.per),
        }
    };
    assert_eq!(given(flat, 1, 1), ("133.00".to_owned(), Per::Panel));
    assert_eq!(given(flat, 2, 2), ("320.00".to_owned(), Per::Panel));
    assert_eq!(given(side, 1, 0), ("0.8 h".to_owned(), Per::Panel));
    assert_eq!(given(side, 2, 2), ("0.4 h".to_owned(), Per::Dent));
    let cell = schedule.grid.get(side, 2, 1).unwrap();
    assert_eq!((cell.price, cell.per), (Price::Time(Hours::from_seconds(1440)), Per::Dent));
    assert_eq!((cell.place.row, cell.place.column), (9, 4));
}

#[test]
fn rates_of_marks_are_by_length_and_panel() {
    let schedule = example();
    let rows: Vec<_> =
        schedule.mark_rates.iter().map(|rate| (rate.mark, rate.scope, rate.over, rate.up_to)).collect();
    assert_eq!(rows[0], (MarkKind::OversizeDent, Scope::Any, mm(45), Some(mm(70))));
    assert_eq!(rows[2], (MarkKind::Crease, Scope::Any, mm(0), Some(mm(60))));
    assert_eq!(rows[4], (MarkKind::Crease, Scope::Joint(Joint::Welded), mm(0), None));
}

#[test]
fn factors_stand_in_their_order() {
    let schedule = example();
    let names: Vec<&str> = schedule.factors.iter().map(|factor| factor.name.as_str()).collect();
    assert_eq!(names, ["aluminium", "body line", "large van", "sharp dents"]);
    assert_eq!(schedule.factors[0].test, FactorTest::Material(Material::Aluminium));
    assert_eq!(schedule.factors[0].effect, FactorEffect::Percent(percent(22), PercentOf::Base));
    assert_eq!(schedule.factors[1].test, FactorTest::Position(Position::BodyLine));
    assert_eq!(schedule.factors[1].applies_to, AppliesTo::Marks);
    assert_eq!(schedule.factors[2].test, FactorTest::VehicleClass("large van".to_owned()));
    assert_eq!(schedule.factors[2].effect, FactorEffect::Amount(eur("18.00")));
    assert_eq!(schedule.factors[3].test, FactorTest::Depth(Depth::Sharp));
    assert_eq!(schedule.factors[3].effect, FactorEffect::Percent(percent(10), PercentOf::Running));
}

#[test]
fn typical_prices_stand_the_most_particular_first() {
    let schedule = example();
    let order: Vec<_> = schedule.typical.iter().map(|row| (row.scope, row.class.as_deref())).collect();
    assert_eq!(
        order,
        [
            (Scope::Kind(PanelKind::Roof), Some("small car")),
            (Scope::Kind(PanelKind::Hood), None),
            (Scope::Joint(Joint::Bolted), None)
        ]
    );
    let roof = &schedule.typical[0];
    assert_eq!(roof.part.unwrap().value, eur("560.00"));
    assert_eq!(roof.fitting.unwrap().value, Hours::from_seconds(9 * 3600));
    assert_eq!(roof.conventional.unwrap().value, Hours::from_seconds(23_400));
    assert_eq!(roof.paint_material.unwrap().value, eur("88.00"));
}

#[test]
fn limits_say_what_follows() {
    let schedule = example();
    let limits: Vec<_> =
        schedule.limits.iter().map(|limit| (limit.number, limit.measure, limit.then)).collect();
    assert_eq!(
        limits,
        [
            (1, Measure::Material(Material::Plastic), Method::Refer),
            (2, Measure::Paint(Paint::Broken), Method::RefinishAfter),
            (3, Measure::Depth(Depth::Stretched), Method::Conventional),
            (4, Measure::DentsOver(40), Method::Replace),
            (5, Measure::DentsOfSizeOver(2, 20), Method::Refer),
            (6, Measure::MarkLength(MarkKind::Crease, mm(180)), Method::Conventional),
            (7, Measure::ShareOfReplacing(percent(75)), Method::Replace),
        ]
    );
    assert_eq!(schedule.limits[3].scope, Scope::Joint(Joint::Bolted));
}

#[test]
fn operations_say_when_and_how_often() {
    let schedule = example();
    let [headliner, trim, isolate] = &schedule.operations[..] else { panic!("three operations") };
    assert_eq!((headliner.scope, headliner.once), (Scope::Kind(PanelKind::Roof), Once::Vehicle));
    assert_eq!(headliner.hours.unwrap().value, Hours::from_seconds(8640));
    assert_eq!(headliner.parts.unwrap().value, eur("12.50"));
    assert_eq!(headliner.caution.as_ref().unwrap().value, "airbag");
    assert_eq!((trim.once, trim.class), (Once::Panel, LabourClass::Refit));
    assert_eq!((isolate.method, isolate.class), (Some(Method::Replace), LabourClass::Conventional));
    assert_eq!(isolate.access, None::<Access>);
}

#[test]
fn its_files_are_kept_by_path_with_one_digest_over_theirs() {
    let tables = Tables::of_the_page();
    let schedule = tables.read().stands().clone();
    let mut files: Vec<_> = tables
        .0
        .iter()
        .map(|(name, text)| input_file(&format!("example/{name}.csv"), text.as_bytes()))
        .collect();
    files.sort_by(|a, b| a.path.cmp(&b.path));
    assert_eq!(schedule.files, files);
    let mut lines = String::new();
    for file in &files {
        lines.push_str(&file.sha256);
        lines.push('\n');
    }
    assert_eq!(schedule.digest, sha256(lines.as_bytes()));
    assert_eq!((schedule.place.row, schedule.place.column), (0, 0));
}
