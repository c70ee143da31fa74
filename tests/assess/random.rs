//! Random schedules and claims that can be priced, from a seed. Amounts, bands and rules are drawn wide, so that most
//! of what the page of `src/assess` says happens somewhere.

use crate::builder::{
    CLAIM, SCHEDULE, cell, claim, count_band, date, factor, hours, inspection, item, limit, mm, operation,
    percent, schedule, stated, typical, written,
};
use crate::random_panels::{framed, panels};
use stipple::claim::words::Named;
use stipple::claim::{
    Access, Claim, Depth, Drive, MarkKind, Material, Method, Overrule, PaidBefore, Paint, PanelId, PanelKind,
    PartPrice, Position, Role, Settlement, TaxPosition, WrittenAmount,
};
use stipple::quantity::{Area, Currency, Decimal, Money, Percent, Rounding, TimeUnit, UnitRate};
use stipple::schedule::{
    AppliesTo, BetterOf, Betterment, BetweenCounts, Comparator, DiscountOn, DiscountTaken, EditionBy,
    ExcessTaken, FactorEffect, FactorTest, Grid, GroupId, Joint, LabourClass, LossRule, MarkRate, Measure,
    MixedRule, Once, Per, PercentOf, Plane, Price, Schedule, Scope, SeveralMarks, TitleRule, TotalLossTerms,
};

/// A small generator of numbers (xorshift64*; Vigna 2016), so that a seed says everything.
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        self.0.wrapping_mul(0x2545_f491_4f6c_dd1d) >> 11
    }

    /// From 0 up to and without `end`.
    pub fn below(&mut self, end: u32) -> u32 {
        u32::try_from(self.next() % u64::from(end.max(1))).unwrap()
    }

    /// Once in so many.
    pub fn once_in(&mut self, times: u32) -> bool {
        self.below(times) == 0
    }

    pub fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[usize::try_from(self.below(u32::try_from(from.len()).unwrap())).unwrap()]
    }

    pub fn any<T: Named>(&mut self) -> T {
        self.pick(T::ALL)
    }

    pub fn maybe<T>(&mut self, times: u32, make: impl FnOnce(&mut Self) -> T) -> Option<T> {
        self.once_in(times).then(|| make(self))
    }
}

pub const KINDS: [PanelKind; 5] =
    [PanelKind::Hood, PanelKind::Roof, PanelKind::FrontDoor, PanelKind::Fender, PanelKind::QuarterPanel];

/// What amounts are drawn in.
struct Mint {
    currency: Currency,
}

impl Mint {
    fn money(&self, dice: &mut Dice, most: u32) -> Money {
        Money::from_minor(i64::from(dice.below(most)), self.currency)
    }

    fn rate(&self, dice: &mut Dice, most: u32) -> UnitRate {
        let digits = self.currency.decimals() + dice.below(5);
        let scale = 10_i64.pow(digits - self.currency.decimals());
        let value = Decimal::new(i64::from(dice.below(most)) * scale + i64::from(dice.below(9)), digits);
        UnitRate::from_decimal(value, self.currency).unwrap()
    }
}

fn share(dice: &mut Dice, most: u32) -> Percent {
    let fraction = dice.pick(&["", ".5", ".25", ".125"]);
    percent(&format!("{}{fraction}", dice.below(most)))
}

fn scope(dice: &mut Dice) -> Scope {
    match dice.below(8) {
        0 => Scope::Kind(dice.pick(&KINDS)),
        1 => Scope::Group(GroupId(u16::try_from(dice.below(2)).unwrap())),
        2 => Scope::Plane(dice.any::<Plane>()),
        3 => Scope::Joint(dice.any::<Joint>()),
        _ => Scope::Any,
    }
}

pub fn mixed_rule(dice: &mut Dice, sizes: usize) -> MixedRule {
    match dice.below(4) {
        0 => MixedRule::EachBand,
        1 => MixedRule::MostFrequent,
        2 => MixedRule::LargestShare(share(dice, 100)),
        _ => MixedRule::Equivalents(usize::try_from(dice.below(u32::try_from(sizes).unwrap())).unwrap()),
    }
}

/// A schedule with something of everything.
pub fn random_schedule(dice: &mut Dice) -> Schedule {
    let currency = Currency::from_code(dice.pick(&["EUR", "USD", "JPY", "KWD"])).unwrap();
    let mint = Mint { currency };
    let mut made = schedule();
    for (band, weight) in made.sizes.iter_mut().zip(["0.5", "1", "2.75"]) {
        band.weight = Some(crate::builder::decimal(weight));
    }
    made.counts = vec![count_band("1-4", 1, Some(4)), count_band("5-20", 5, Some(20))];
    made.counts.push(count_band("more", 21, dice.maybe(2, |dice| 30 + dice.below(40))));
    terms(dice, &mint, &mut made);
    for rate in &mut made.labour {
        rate.per_hour = stated(mint.rate(dice, 9_000));
    }
    if dice.once_in(6) {
        let class = dice.any::<LabourClass>();
        made.labour.retain(|rate| rate.class != class);
    }
    for tax in &mut made.taxes {
        tax.percent = stated(percent(dice.pick(&["0", "7", "19", "20", "8.25"])));
    }
    made.grid = Grid::new(2, 3, 3);
    for group in 0..2 {
        for size in 0..3 {
            for count in 0..3 {
                if !dice.once_in(25) {
                    let (price, per) = price(dice, &mint);
                    crate::builder::put(&mut made, group, size, count, price, per);
                }
            }
        }
    }
    for terms in &mut made.panels {
        terms.floor = dice.maybe(4, |dice| stated(mint.money(dice, 9_000)));
        terms.area = dice.maybe(2, |dice| {
            let millimetres = i64::from(900_000 + dice.below(2_000_000));
            stated(Area::from_square_metres(Decimal::new(millimetres, 6)).unwrap())
        });
        terms.class = dice.maybe(2, |_| stated("Large".to_owned()));
        terms.cap = dice.maybe(4, |dice| stated(mint.money(dice, 60_000)));
    }
    rows(dice, &mint, &mut made);
    for _ in 0..dice.below(3) {
        made.titles.push(title(dice));
    }
    if dice.once_in(2) {
        let on = dice.any::<BetterOf>();
        made.betterment.push(betterment(on, dice));
    }
    made
}

fn betterment(on: BetterOf, dice: &mut Dice) -> Betterment {
    Betterment {
        on,
        scope: scope(dice),
        item: None,
        from_years: dice.below(8),
        to_years: None,
        share: stated(share(dice, 100)),
        place: cell(SCHEDULE),
    }
}

fn title(dice: &mut Dice) -> TitleRule {
    TitleRule {
        place: stated("Invented State".to_owned()),
        note: stated("salvage".to_owned()),
        rule: stated(dice.any::<LossRule>()),
        comparator: stated(dice.any::<Comparator>()),
        share: stated(share(dice, 120)),
        with_tax: stated(dice.once_in(2)),
        not_from: dice.maybe(3, |_| "hail".to_owned()).into_iter().collect(),
        valid_from: stated(date("2020-01-01")),
        valid_to: None,
        source: stated("invented".to_owned()),
        row: cell(SCHEDULE),
    }
}

fn price(dice: &mut Dice, mint: &Mint) -> (Price, Per) {
    if dice.once_in(4) {
        let time = hours(dice.pick(&["0.1", "0.3", "0.05", "1.2"]));
        return (Price::Time(time), dice.pick(&[Per::Panel, Per::Dent]));
    }
    let per = dice.pick(&[Per::Panel, Per::Panel, Per::Dent]);
    let most = if per == Per::Dent { 900 } else { 30_000 };
    let amount = Decimal::new(i64::from(dice.below(most)), mint.currency.decimals());
    (Price::Amount(UnitRate::from_decimal(amount, mint.currency).unwrap()), per)
}

fn terms(dice: &mut Dice, mint: &Mint, made: &mut Schedule) {
    let modes = [Rounding::HalfAway, Rounding::HalfEven, Rounding::Up, Rounding::Down];
    let terms = &mut made.terms;
    terms.currency = stated(mint.currency);
    terms.rounding = stated(dice.pick(&modes));
    terms.total_step =
        dice.maybe(3, |dice| stated(Money::from_minor(dice.pick(&[5, 10, 100]), mint.currency)));
    terms.mixed = stated(mixed_rule(dice, 3));
    terms.time_unit = stated(dice.pick(&[TimeUnit::Tenths, TimeUnit::Minutes, TimeUnit::WorkUnits(12)]));
    terms.scaled_counts = dice.maybe(2, |dice| stated(dice.pick(&modes)));
    terms.several_marks = match dice.below(4) {
        0 => Some(stated(SeveralMarks::Further(Percent::default()))),
        1 => Some(stated(SeveralMarks::Further(share(dice, 100)))),
        _ => None,
    };
    terms.factors_at_most = dice.maybe(3, |dice| stated(share(dice, 60)));
    terms.readying = dice.maybe(2, |dice| stated(share(dice, 100)));
    terms.minimum = dice.maybe(3, |dice| stated(mint.money(dice, 60_000)));
    terms.discount = dice.maybe(2, |dice| stated(share(dice, 30)));
    terms.discount_on = dice.maybe(2, |dice| stated(dice.any::<DiscountOn>()));
    terms.discount_taken = dice.maybe(2, |dice| stated(dice.any::<DiscountTaken>()));
    terms.excess_taken = dice.maybe(2, |dice| stated(dice.any::<ExcessTaken>()));
    terms.edition_by = dice.maybe(3, |dice| stated(dice.any::<EditionBy>()));
    terms.between_counts = dice.maybe(2, |dice| stated(dice.any::<BetweenCounts>()));
    terms.cash_with_tax = dice.maybe(2, |dice| stated(dice.once_in(2)));
    terms.total_loss = dice.maybe(2, |dice| TotalLossTerms {
        rule: stated(dice.any::<LossRule>()),
        comparator: stated(dice.any::<Comparator>()),
        share: stated(share(dice, 110)),
        with_tax: stated(dice.once_in(2)),
    });
}

fn rows(dice: &mut Dice, mint: &Mint, made: &mut Schedule) {
    for kind in [MarkKind::OversizeDent, MarkKind::Crease, MarkKind::Crown, MarkKind::BraceMark] {
        for (over, up_to) in [("0", Some("60")), ("60", None)] {
            let price = match dice.below(3) {
                0 => Price::Time(hours("0.4")),
                _ => Price::Amount(mint.rate(dice, 5_000)),
            };
            let (over, up_to) = (mm(over), up_to.map(mm));
            let place = cell(SCHEDULE);
            made.mark_rates.push(MarkRate { mark: kind, scope: Scope::Any, over, up_to, price, place });
        }
    }
    for number in 0..dice.below(6) {
        let effect = match dice.below(5) {
            4 => FactorEffect::Time(hours("0.3")),
            0 => FactorEffect::Amount(mint.money(dice, 3_000)),
            1 => FactorEffect::Percent(percent("-12.5"), PercentOf::Running),
            _ => FactorEffect::Percent(share(dice, 60), dice.any::<PercentOf>()),
        };
        let mut row = factor(&format!("factor {number}"), factor_test(dice), effect);
        row.scope = scope(dice);
        row.applies_to = dice.any::<AppliesTo>();
        row.not_with = if number > 0 && dice.once_in(3) { vec![0] } else { Vec::new() };
        made.factors.push(row);
    }
    for _ in 0..dice.below(5) {
        let mut row = typical(scope(dice));
        row.class = dice.maybe(3, |_| "van".to_owned());
        row.part = dice.maybe(2, |dice| stated(mint.money(dice, 90_000)));
        row.paint_material = dice.maybe(2, |dice| stated(mint.money(dice, 9_000)));
        let time = |dice: &mut Dice| dice.maybe(2, |_| stated(hours("1.7")));
        row.fitting = time(dice);
        row.conventional = time(dice);
        row.refinish = time(dice);
        row.blend = time(dice);
        made.typical.push(row);
    }
    for _ in 0..dice.below(7) {
        let then = [Method::RefinishAfter, Method::Conventional, Method::Replace, Method::Refer];
        let mut row = limit(measure(dice), dice.pick(&then));
        row.scope = scope(dice);
        made.limits.push(row);
    }
    for number in 0..dice.below(4) {
        let mut row = operation(&format!("operation {number}"), scope(dice), None, None, dice.any::<Once>());
        row.parts = dice.maybe(2, |dice| stated(mint.money(dice, 2_000)));
        // An operation whose labour has no rate stops every claim: only those that are there are drawn.
        let classes: Vec<LabourClass> = made.labour.iter().map(|rate| rate.class).collect();
        row.class = dice.pick(&classes);
        row.hours = dice.maybe(2, |_| stated(hours("0.6")));
        row.access = dice.maybe(4, Dice::any::<Access>);
        made.operations.push(row);
    }
}

fn factor_test(dice: &mut Dice) -> FactorTest {
    match dice.below(9) {
        0 => FactorTest::Material(Material::Aluminium),
        1 => FactorTest::Access(dice.any::<Access>()),
        2 => FactorTest::Paint(dice.any::<Paint>()),
        3 => FactorTest::Depth(dice.any::<Depth>()),
        4 => FactorTest::Position(dice.any::<Position>()),
        5 => FactorTest::VehicleClass("van".to_owned()),
        6 => FactorTest::PanelClass("large".to_owned()),
        _ => FactorTest::Always,
    }
}

fn measure(dice: &mut Dice) -> Measure {
    match dice.below(9) {
        0 => Measure::Material(Material::Aluminium),
        1 => Measure::Paint(Paint::Broken),
        2 => Measure::Access(dice.any::<Access>()),
        3 => Measure::Depth(dice.any::<Depth>()),
        4 => Measure::MarkLength(MarkKind::Crease, mm("50")),
        5 => Measure::DentsOver(dice.below(40)),
        6 => Measure::DentsOfSizeOver(1, dice.below(10)),
        7 => Measure::ShareOfReplacing(share(dice, 120)),
        _ => Measure::ShareOfConventional(share(dice, 120)),
    }
}

/// A claim for a schedule of [`random_schedule`].
pub fn random_claim(dice: &mut Dice, schedule: &Schedule) -> Claim {
    let mint = Mint { currency: schedule.terms.currency.value };
    let mut made = claim();
    made.inspections[0].panels = panels(dice);
    if dice.once_in(4) {
        let mut overlay = inspection(Some(dice.pick(&[Role::Agreed, Role::Supplement, Role::Second])));
        overlay.panels = panels(dice);
        made.inspections.push(overlay);
    }
    for panel in made.inspections.iter_mut().flat_map(|inspection| &mut inspection.panels) {
        framed(dice, panel, schedule);
    }
    let amount = |dice: &mut Dice, most| {
        let amount = mint.money(dice, most).to_decimal();
        written(WrittenAmount { amount, currency: dice.maybe(2, |_| mint.currency) })
    };
    if dice.once_in(5) {
        made.parties.insurer = None;
    }
    let parties = &mut made.parties;
    parties.excess = dice.maybe(2, |dice| amount(dice, 50_000));
    parties.market_value = dice.maybe(2, |dice| {
        let value = Money::from_minor(100_000 + i64::from(dice.below(900_000)), mint.currency).to_decimal();
        written(WrittenAmount { amount: value, currency: None })
    });
    parties.salvage = dice.maybe(2, |dice| amount(dice, 100_000));
    parties.policy_limit = dice.maybe(4, |dice| amount(dice, 200_000));
    parties.tax_position = dice.maybe(3, |_| written(TaxPosition::Reclaims));
    parties.tax_share = dice.maybe(5, |dice| written(share(dice, 100)));
    if parties.market_value.is_some() && parties.salvage.is_some() {
        parties.settlement = dice.maybe(2, |dice| written(dice.any::<Settlement>()));
    }
    made.vehicle.year = Some(written(u16::try_from(2010 + dice.below(17)).unwrap()));
    made.inspections[0].date = Some(written(date("2026-06-20")));
    made.vehicle.registered_in = dice.maybe(2, |_| written("Invented State".to_owned()));
    made.event.cause = dice.maybe(2, |dice| written(dice.pick(&["hail", "flood"]).to_owned()));
    made.vehicle.class = dice.maybe(3, |_| written("Van".to_owned()));
    made.vehicle.drive = dice.maybe(3, |dice| written(dice.any::<Drive>()));
    for number in 0..dice.below(3) {
        let mut row = item(&format!("lamp {number}"), None, None);
        row.price = dice.maybe(2, |dice| amount(dice, 40_000));
        row.hours = dice.maybe(2, |_| written(hours("0.8")));
        made.items.push(row);
    }
    for panel in seen(&made) {
        if dice.once_in(3) {
            made.parts.push(part(dice, panel, &amount));
        }
        if dice.once_in(8) {
            let amount = amount(dice, 20_000);
            made.paid_before.push(PaidBefore { place: cell(CLAIM), panel, amount, event: None, date: None });
        }
        let is_inspected = made.inspections[0].panels.iter().any(|p| p.panel == panel && p.is_inspected());
        if is_inspected && dice.once_in(10) {
            made.overrules.push(Overrule {
                place: cell(CLAIM),
                panel,
                method: written(dice.any::<Method>()),
                by: Some(written("A. Sample".to_owned())),
                reason: Some(written("seen".to_owned())),
                date: None,
            });
        }
    }
    made
}

fn seen(claim: &Claim) -> Vec<PanelId> {
    claim.inspections[0].panels.iter().map(|panel| panel.panel).collect()
}

fn part(
    dice: &mut Dice,
    panel: PanelId,
    amount: &impl Fn(&mut Dice, u32) -> stipple::claim::Located<WrittenAmount>,
) -> PartPrice {
    PartPrice {
        place: cell(CLAIM),
        panel,
        price: dice.maybe(2, |dice| amount(dice, 90_000)),
        fitting: dice.maybe(2, |_| written(hours("2.1"))),
        conventional: dice.maybe(2, |_| written(hours("3.3"))),
        refinish: dice.maybe(2, |_| written(hours("1.9"))),
        paint_material: dice.maybe(2, |dice| amount(dice, 9_000)),
        source: None,
        date: None,
    }
}
