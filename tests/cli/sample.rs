//! A small invented run, built in code: two schedules' worth of nothing real, for tests of what is written.

use stipple::assess::{
    Alternative, Assessment, Crossing, DateOrigin, Finding, JobKind, Line, LineKind, MarkAssessment,
    Measured, OpenReason, Outcome, PanelAssessment, PanelState, Screen, Settled, SizeCount, StepId, TaxLine,
    Totals, Unpriced, Unscreened,
};
use stipple::claim::{
    Claim, Counted, InputFile, Inspection, Intake, JobKey, KeyKind, Located, Mark, MarkKind, Method,
    PanelCount, PanelId, PanelKind, Place, Settlement, Side, SourceId,
};
use stipple::problem::{Source, SourceKind, Sources, catalogue};
use stipple::quantity::{Currency, Date, Decimal, Length, Money, Percent, Rounding, TimeUnit};
use stipple::schedule::{
    CountBand, Fit, Grid, GroupId, Limit, Measure, MixedRule, Schedule, Scope, SizeBand, Terms,
};

/// A cell of the counts sheet.
pub fn at(row: u32, column: u16) -> Place {
    Place::cell(SourceId(0), row, column)
}

/// A cell of the schedule.
fn term(row: u32) -> Place {
    Place::cell(SourceId(2), row, 2)
}

/// An amount in euros and cents.
pub fn euros(minor: i64) -> Money {
    Money::from_minor(minor, euro())
}

fn euro() -> Currency {
    Currency::from_code("EUR").unwrap()
}

fn day(year: i16, month: i8, day: i8) -> Date {
    Date::new(year, month, day).unwrap()
}

fn percent(whole: i64) -> Percent {
    Percent::from_decimal(Decimal::from(whole)).unwrap()
}

/// The counts workbook, a text file, and the schedule.
pub fn sources() -> Sources {
    let mut sources = Sources::new();
    for (file, sheet, kind) in [
        ("storm/counts.xlsx", "Counts", SourceKind::Sheet),
        ("storm/east.csv", "", SourceKind::Text),
        ("storm/rates.xlsx", "Terms", SourceKind::Sheet),
    ] {
        sources.add(Source { file: file.to_owned(), sheet: sheet.to_owned(), kind });
    }
    sources
}

/// Their digests, invented.
pub fn files() -> Vec<InputFile> {
    ["storm/counts.xlsx", "storm/east.csv", "storm/rates.xlsx"]
        .iter()
        .map(|path| InputFile { path: (*path).to_owned(), bytes: 1200, sha256: "0".repeat(64) })
        .collect()
}

/// One size band, one count band, one limit.
pub fn schedule() -> Schedule {
    let here = term(1);
    Schedule {
        terms: Terms {
            name: Located::new("Invented rates".to_owned(), here),
            edition: Located::new("first".to_owned(), here),
            source: Located::new("invented for tests".to_owned(), here),
            fits: vec![Located::new(Fit::Anyone, here)],
            currency: Located::new(euro(), here),
            valid_from: Located::new(day(2026, 1, 1), here),
            valid_to: None,
            rounding: Located::new(Rounding::HalfAway, here),
            total_step: None,
            mixed: Located::new(MixedRule::EachBand, here),
            mixed_share: None,
            time_unit: Located::new(TimeUnit::Tenths, here),
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
            place: here,
        },
        labour: Vec::new(),
        taxes: Vec::new(),
        sizes: vec![SizeBand {
            name: "0-10 mm".to_owned(),
            low: Length::ZERO,
            high: Length::from_nanometres(10_000_000),
            goes_by: Vec::new(),
            weight: None,
            place: here,
        }],
        counts: vec![CountBand { name: "1-20 dents".to_owned(), from: 1, to: Some(20), place: here }],
        groups: vec!["hood".to_owned()],
        panels: Vec::new(),
        grid: Grid::new(1, 1, 1),
        mark_rates: Vec::new(),
        factors: Vec::new(),
        typical: Vec::new(),
        limits: vec![Limit {
            name: "too many dents".to_owned(),
            scope: Scope::Any,
            measure: Measure::DentsOver(20),
            then: Method::Refer,
            number: 1,
            place: term(9),
        }],
        operations: Vec::new(),
        titles: Vec::new(),
        betterment: Vec::new(),
        files: Vec::new(),
        digest: "d".repeat(64),
        place: here,
    }
}

/// A claim with a hood of twelve dents, a roof of too many, and a door that nobody looked at.
pub fn intake(key: &str) -> Intake {
    let mut claim = Claim::new(JobKey::new(KeyKind::ClaimNumber, key));
    claim.parties.claim_number = Some(Located::new(key.to_owned(), at(2, 1)));
    claim.parties.insurer = Some(Located::new("Example Mutual".to_owned(), at(2, 5)));
    claim.parties.owner = Some(Located::new("<b>Ann</b> & Söhne".to_owned(), at(2, 6)));
    claim.vehicle.make = Some(Located::new("Example".to_owned(), at(2, 7)));
    claim.event.date = Some(Located::new(day(2026, 6, 14), at(2, 8)));
    claim.sources.insert(SourceId(0));
    let mut panels: Vec<PanelCount> = panel_ids().map(|(id, row)| PanelCount::new(id, at(row, 2))).collect();
    panels[0].marks.push(Mark {
        kind: Located::new(MarkKind::NotDamage, at(2, 9)),
        place: at(2, 9),
        cause: None,
        length: None,
        width: None,
        depth: None,
        position: None,
        access: None,
        remark: None,
    });
    claim.inspections.push(Inspection {
        assessor: Some(Located::new("A. Counter".to_owned(), at(2, 10))),
        date: Some(Located::new(day(2026, 6, 20), at(2, 11))),
        location: None,
        pass: None,
        role: None,
        panels,
    });
    Intake { claim, problems: Vec::new() }
}

/// A claim that an error of reading stops.
pub fn stopped(key: &str) -> Intake {
    let mut intake = intake(key);
    intake.problems.push(
        catalogue::file::unreadable("=HYPERLINK(\"x\")", "it is not a number of dents")
            .at(at(3, 4))
            .and(at(3, 1))
            .written("=HYPERLINK(\"x\")")
            .help("write a whole number such as 12")
            .of_claim(key),
    );
    intake
}

fn panel_ids() -> impl Iterator<Item = (PanelId, u32)> {
    [
        (PanelId::new(PanelKind::Hood, None), 2),
        (PanelId::new(PanelKind::Roof, None), 3),
        (PanelId::new(PanelKind::FrontDoor, Some(Side::Left)), 4),
    ]
    .into_iter()
}

/// The panels: twelve dents that are priced, too many that are referred, none inspected.
fn panels() -> Vec<PanelAssessment> {
    let step = StepId(0);
    let [hood, roof, door]: [PanelAssessment; 3] = panel_ids()
        .enumerate()
        .map(|(index, (panel, row))| PanelAssessment {
            panel,
            inspection: 0,
            index,
            group: None,
            state: PanelState::NotInspected,
            counts: vec![SizeCount { count: Counted::NoneWritten, from_marks: 0, cells: vec![at(row, 3)] }],
            dents: 0,
            rated_at: None,
            marks: Vec::new(),
            findings: Vec::new(),
            alternatives: Vec::new(),
            method: Method::NoRepair,
            decided_by: None,
            overruled: None,
            open: None,
        })
        .collect::<Vec<_>>()
        .try_into()
        .unwrap();
    let line = Line {
        kind: LineKind::Dents { size: 0, count: 0, dents: 12 },
        amount: euros(12_000),
        hours: None,
        tax: percent(19),
        cite: Some(term(20)),
        step,
    };
    let hood = PanelAssessment {
        group: Some(GroupId(0)),
        state: PanelState::Assessed,
        counts: vec![SizeCount { count: Counted::Counted(12), from_marks: 0, cells: vec![at(2, 3)] }],
        dents: 12,
        marks: vec![MarkAssessment::Excluded],
        findings: vec![dents(12, Crossing::No)],
        alternatives: vec![Alternative {
            method: Method::Paintless,
            lines: vec![line],
            amount: Ok(euros(12_000)),
            typical: false,
            step,
        }],
        method: Method::Paintless,
        ..hood
    };
    let roof = PanelAssessment {
        state: PanelState::Assessed,
        counts: vec![SizeCount { count: Counted::Counted(168), from_marks: 0, cells: vec![at(3, 3)] }],
        dents: 168,
        findings: vec![dents(168, Crossing::Yes)],
        alternatives: vec![Alternative {
            method: Method::Paintless,
            lines: Vec::new(),
            amount: Err(Unpriced::BeyondCounts),
            typical: false,
            step,
        }],
        method: Method::Refer,
        decided_by: Some(0),
        open: Some(OpenReason::Referred),
        ..roof
    };
    vec![hood, roof, door]
}

/// What assessing it would give: 120.00 net for the hood, 19 % tax, the roof open.
pub fn assessment(intake: &Intake) -> Assessment {
    let step = StepId(0);
    let zero = Money::zero(euro());
    Assessment {
        key: intake.claim.key.clone(),
        kind: JobKind::Claim,
        schedule: 0,
        dated: (day(2026, 6, 14), DateOrigin::Loss),
        currency: euro(),
        inspection: Some(0),
        overlays: Vec::new(),
        panels: panels(),
        range: None,
        titles: Vec::new(),
        vehicle_lines: Vec::new(),
        open_items: Vec::new(),
        excluded: Vec::new(),
        totals: Totals {
            net: euros(12_000),
            taxes: vec![TaxLine {
                percent: percent(19),
                taxable: euros(12_000),
                tax: euros(2_280),
                cells: vec![term(21)],
                step,
            }],
            tax: euros(2_280),
            rounding: None,
            gross: euros(14_280),
            net_step: step,
            rounding_step: None,
            gross_step: step,
        },
        screen: Screen::Not(Unscreened::NoTerms),
        settled: Settled {
            basis: Settlement::Repair,
            amount: euros(14_280),
            tax_reclaimed: zero,
            betterment: zero,
            paid_before: zero,
            excess: euros(5_000),
            is_limit_first: false,
            over_limit: zero,
            insurer_pays: euros(9_280),
            owner_bears: euros(5_000),
            salvage_kept: zero,
            amount_step: step,
            excess_step: step,
            insurer_step: step,
            owner_step: step,
        },
        outcome: Outcome::NeedsAPerson,
        hours: Vec::new(),
        cautions: Vec::new(),
        notes: Vec::new(),
        problems: Vec::new(),
        working: None,
    }
}

fn dents(count: u32, crossing: Crossing) -> Finding {
    Finding { limit: 0, measured: Measured::Dents(count), crossing, cells: vec![at(3, 3)] }
}
