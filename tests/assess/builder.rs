//! Invented schedules and claims, put together in code. Every value gets a cell of its own, so that a working can be
//! followed back.

use std::cell::Cell;
use std::sync::Arc;
use stipple::claim::Place;
use stipple::claim::{
    Claim, Counted, Inspection, Item, JobKey, KeyKind, Located, Mark, MarkKind, PanelCount, PanelId,
    PanelKind, Role, Side, SizeHeading, SizeInterval, SourceId, TallyEntry, WrittenAmount,
};
use stipple::quantity::{
    Currency, Date, Decimal, DecimalMark, Hours, Length, LengthUnit, Money, Percent, Rounding, TimeUnit,
    UnitRate, parse_date, parse_decimal,
};
use stipple::schedule::{
    AppliesTo, CountBand, Factor, FactorEffect, FactorTest, Fit, Grid, GridCell, GroupId, Joint, LabourClass,
    LabourRate, Limit, Measure, MixedRule, Once, Operation, PanelTerms, Per, PercentOf, Plane, Price,
    Schedule, Scope, SizeBand, TaxOn, TaxRate, Terms, Typical,
};

/// The source that cells of schedules stand in.
pub const SCHEDULE: SourceId = SourceId(0);
/// The source that cells of claims stand in.
pub const CLAIM: SourceId = SourceId(1);

thread_local! {
    static NEXT: Cell<u32> = const { Cell::new(1) };
}

/// Starts again with the first cell, for tests that print cells.
pub fn from_the_first_cell() {
    NEXT.with(|next| next.set(1));
}

/// The next free cell of a source.
pub fn cell(source: SourceId) -> Place {
    NEXT.with(|next| {
        let number = next.get();
        next.set(number + 1);
        Place::cell(source, number / 100 + 1, u16::try_from(number % 100 + 1).unwrap())
    })
}

/// A value in a cell of the schedule.
pub fn stated<T>(value: T) -> Located<T> {
    Located::new(value, cell(SCHEDULE))
}

/// A value in a cell of the claim.
pub fn written<T>(value: T) -> Located<T> {
    Located::new(value, cell(CLAIM))
}

pub fn decimal(text: &str) -> Decimal {
    parse_decimal(text, DecimalMark::Point).unwrap()
}

pub fn eur() -> Currency {
    Currency::from_code("EUR").unwrap()
}

pub fn money(text: &str) -> Money {
    Money::from_decimal(decimal(text), eur()).unwrap()
}

pub fn rate(text: &str) -> UnitRate {
    UnitRate::from_decimal(decimal(text), eur()).unwrap()
}

pub fn percent(text: &str) -> Percent {
    Percent::from_decimal(decimal(text)).unwrap()
}

pub fn hours(text: &str) -> Hours {
    Hours::from_decimal(decimal(text)).unwrap()
}

pub fn mm(text: &str) -> Length {
    Length::from_decimal(decimal(text), LengthUnit::Millimetre).unwrap()
}

pub fn date(text: &str) -> Date {
    parse_date(text).unwrap()
}

pub fn amount(text: &str) -> Located<WrittenAmount> {
    written(WrittenAmount { amount: decimal(text), currency: None })
}

/// Three size bands, three count bands and amounts per panel, taxes of 20 and 10 percent; no factor, limit,
/// operation or typical price.
pub fn schedule() -> Schedule {
    let sizes = [("small", "0", "10"), ("medium", "10", "20"), ("large", "20", "40")];
    let counts = [("1-5", 1, Some(5)), ("6-15", 6, Some(15)), ("16-40", 16, Some(40))];
    let mut schedule = Schedule {
        terms: terms(),
        labour: [
            (LabourClass::Paintless, "60"),
            (LabourClass::Refit, "54.50"),
            (LabourClass::Conventional, "62"),
            (LabourClass::Refinish, "66"),
        ]
        .map(|(class, per_hour)| LabourRate { class, per_hour: stated(rate(per_hour)) })
        .to_vec(),
        taxes: [(TaxOn::Labour, "20"), (TaxOn::Parts, "20"), (TaxOn::PaintMaterial, "10")]
            .map(|(on, tax)| TaxRate { on, percent: stated(percent(tax)) })
            .to_vec(),
        sizes: sizes.map(|(name, low, high)| size_band(name, low, high)).to_vec(),
        counts: counts.map(|(name, from, to)| count_band(name, from, to)).to_vec(),
        groups: vec!["flat".into(), "side".into()],
        panels: Vec::new(),
        grid: Grid::new(2, 3, 3),
        mark_rates: Vec::new(),
        factors: Vec::new(),
        typical: Vec::new(),
        limits: Vec::new(),
        operations: Vec::new(),
        titles: Vec::new(),
        betterment: Vec::new(),
        files: Vec::new(),
        digest: "0".repeat(64),
        place: Place::whole(SCHEDULE),
    };
    for (kind, group, plane, joint) in [
        (PanelKind::Hood, 0, Plane::Horizontal, Joint::Bolted),
        (PanelKind::Roof, 0, Plane::Horizontal, Joint::Welded),
        (PanelKind::FrontDoor, 1, Plane::Vertical, Joint::Bolted),
        (PanelKind::Fender, 1, Plane::Vertical, Joint::Bolted),
        (PanelKind::QuarterPanel, 1, Plane::Vertical, Joint::Welded),
    ] {
        schedule.panels.push(PanelTerms {
            kind,
            group: GroupId(group),
            plane: stated(plane),
            joint: stated(joint),
            class: None,
            area: None,
            floor: None,
            cap: None,
            place: cell(SCHEDULE),
        });
    }
    let flat = [["40", "75", "120"], ["60", "110", "180"], ["95", "170", "260"]];
    let side = [["30", "55", "90"], ["45", "85", "140"], ["70", "130", "200"]];
    for (group, rows) in [(0, flat), (1, side)] {
        for (size, row) in rows.iter().enumerate() {
            for (count, price) in row.iter().enumerate() {
                put(&mut schedule, group, size, count, Price::Amount(rate(price)), Per::Panel);
            }
        }
    }
    schedule
}

fn terms() -> Terms {
    Terms {
        name: stated("Invented terms".to_owned()),
        edition: stated("1".to_owned()),
        source: stated("invented for tests".to_owned()),
        fits: vec![stated(Fit::Anyone)],
        currency: stated(eur()),
        valid_from: stated(date("2026-01-01")),
        valid_to: None,
        rounding: stated(Rounding::HalfAway),
        total_step: None,
        mixed: stated(MixedRule::EachBand),
        mixed_share: None,
        time_unit: stated(TimeUnit::Tenths),
        several_marks: None,
        scaled_counts: None,
        factors_at_most: None,
        readying: None,
        minimum: None,
        discount: None,
        discount_on: None,
        discount_taken: None,
        excess_taken: None,
        edition_by: None,
        between_counts: None,
        total_loss: None,
        cash_with_tax: None,
        quotation_days: None,
        place: Place::whole(SCHEDULE),
    }
}

pub fn size_band(name: &str, low: &str, high: &str) -> SizeBand {
    SizeBand {
        name: name.to_owned(),
        low: mm(low),
        high: mm(high),
        goes_by: Vec::new(),
        weight: None,
        place: cell(SCHEDULE),
    }
}

pub fn count_band(name: &str, from: u32, to: Option<u32>) -> CountBand {
    CountBand { name: name.to_owned(), from, to, place: cell(SCHEDULE) }
}

/// Puts a cell of the grid, in place of one that is there.
pub fn put(schedule: &mut Schedule, group: u16, size: usize, count: usize, price: Price, per: Per) -> Place {
    let place = cell(SCHEDULE);
    schedule.grid.put(GroupId(group), size, count, GridCell { price, per, place });
    place
}

/// The schedule's row of a kind of panel.
pub fn panel_terms(schedule: &mut Schedule, kind: PanelKind) -> &mut PanelTerms {
    schedule.panels.iter_mut().find(|terms| terms.kind == kind).unwrap()
}

/// A factor on dents and marks of any panel.
pub fn factor(name: &str, test: FactorTest, effect: FactorEffect) -> Factor {
    Factor {
        name: name.to_owned(),
        scope: Scope::Any,
        test,
        effect,
        not_with: Vec::new(),
        applies_to: AppliesTo::Both,
        order: 1,
        place: cell(SCHEDULE),
    }
}

/// A percentage of the base.
pub fn of_base(share: &str) -> FactorEffect {
    FactorEffect::Percent(percent(share), PercentOf::Base)
}

pub fn limit(measure: Measure, then: stipple::claim::Method) -> Limit {
    let place = cell(SCHEDULE);
    Limit { name: format!("{measure:?}"), scope: Scope::Any, measure, then, number: place.row, place }
}

pub fn operation(name: &str, scope: Scope, time: Option<&str>, parts: Option<&str>, once: Once) -> Operation {
    Operation {
        name: name.to_owned(),
        scope,
        access: None,
        method: None,
        hours: time.map(|time| stated(hours(time))),
        class: LabourClass::Refit,
        parts: parts.map(|parts| stated(money(parts))),
        once,
        caution: None,
        place: cell(SCHEDULE),
    }
}

/// Typical prices of any panel in any class: nothing stated yet.
pub fn typical(scope: Scope) -> Typical {
    Typical {
        scope,
        class: None,
        part: None,
        fitting: None,
        conventional: None,
        refinish: None,
        blend: None,
        paint_material: None,
        source: None,
        place: cell(SCHEDULE),
    }
}

/// A claim of an insurer with one own inspection without panels.
pub fn claim() -> Claim {
    let mut claim = Claim::new(JobKey::new(KeyKind::ClaimNumber, "K-1"));
    claim.event.date = Some(written(date("2026-06-14")));
    claim.parties.insurer = Some(written("Invented Mutual".to_owned()));
    claim.inspections.push(inspection(None));
    claim
}

pub fn inspection(role: Option<Role>) -> Inspection {
    Inspection {
        assessor: None,
        date: None,
        location: None,
        pass: None,
        role: role.map(written),
        panels: Vec::new(),
    }
}

/// A claim with these panels in its own inspection.
pub fn claim_with(panels: Vec<PanelCount>) -> Claim {
    let mut claim = claim();
    claim.inspections[0].panels = panels;
    claim
}

pub fn hood() -> PanelId {
    PanelId::new(PanelKind::Hood, None)
}

pub fn roof() -> PanelId {
    PanelId::new(PanelKind::Roof, None)
}

pub fn left(kind: PanelKind) -> PanelId {
    PanelId::new(kind, Some(Side::Left))
}

pub fn right(kind: PanelKind) -> PanelId {
    PanelId::new(kind, Some(Side::Right))
}

/// A panel counted in the three bands of [`schedule`]; `None` is a blank cell.
pub fn counted(panel: PanelId, dents: [Option<u32>; 3]) -> PanelCount {
    let mut count = PanelCount::new(panel, cell(CLAIM));
    let headings = [("0-10 mm", "0", "10"), ("10-20 mm", "10", "20"), ("20-40 mm", "20", "40")];
    for ((text, low, high), dents) in headings.into_iter().zip(dents) {
        count.tally.push(entry(heading(text, low, Some(high)), dents));
    }
    count
}

/// A panel with a number in every band.
pub fn dents(panel: PanelId, small: u32, medium: u32, large: u32) -> PanelCount {
    counted(panel, [Some(small), Some(medium), Some(large)])
}

pub fn heading(text: &str, low: &str, high: Option<&str>) -> Arc<SizeHeading> {
    let interval = SizeInterval { low: mm(low), high: high.map(mm), digit: mm("1") };
    Arc::new(SizeHeading { text: text.to_owned(), interval: Some(interval) })
}

pub fn entry(size: Arc<SizeHeading>, dents: Option<u32>) -> TallyEntry {
    let count = dents.map_or(Counted::NoneWritten, Counted::Counted);
    TallyEntry { size, size_place: cell(CLAIM), count, place: cell(CLAIM) }
}

pub fn mark(kind: MarkKind, length: Option<&str>) -> Mark {
    Mark {
        place: cell(CLAIM),
        kind: written(kind),
        cause: None,
        length: length.map(|length| written(mm(length))),
        width: None,
        depth: None,
        position: None,
        access: None,
        remark: None,
    }
}

pub fn item(name: &str, price: Option<&str>, time: Option<&str>) -> Item {
    Item {
        place: cell(CLAIM),
        name: written(name.to_owned()),
        action: None,
        price: price.map(amount),
        hours: time.map(|time| written(hours(time))),
        calibration: None,
        source: None,
        date: None,
        remark: None,
    }
}
