//! Every kind of line, finding, note and caution has words of its own, in one plain form.
use super::fixture::{self, eur, mm, percent};
use stipple::assess::{
    Caution, Crossing, ExclusionReason, Finding, Formula, Line, LineKind, MarkAssessment, Measured, Note,
    OpenReason, Rule, StepId, Unpriced,
};
use stipple::claim::{Access, Depth, MarkKind, Material, Paint, PanelId, PanelKind, Side};
use stipple::quantity::Decimal;
use stipple::report::wording::{self, Piece};
use stipple::report::words::Words;
use stipple::schedule::{Measure, MixedRule};

/// A plain text: something, and nothing that only a programmer would write.
pub fn plain(text: &str) -> &str {
    assert!(!text.trim().is_empty());
    let letters: Vec<char> = text.chars().collect();
    let hump = letters.windows(2).any(|pair| pair[0].is_lowercase() && pair[1].is_uppercase());
    assert!(!hump && !text.contains(['{', '}', '_']) && !text.contains("::"), "{text}");
    text
}

/// All of them plain, and no two alike.
pub fn all_plain_and_different(texts: impl IntoIterator<Item = String>) {
    let mut seen = std::collections::BTreeSet::new();
    for text in texts {
        plain(&text);
        assert!(seen.insert(text.clone()), "{text} stands for two things");
    }
}

#[test]
fn every_kind_of_line_has_words() {
    let case = fixture::storm();
    let (panel, side) = (Some(PanelId::new(PanelKind::RoofRail, Some(Side::Left))), Some(Side::Left));
    let kinds = [
        LineKind::Dents { size: 1, count: 2, dents: 34 },
        LineKind::Equivalents { size: 1, count: 2, equivalents: Decimal::new(125, 1) },
        LineKind::Mark(0),
        LineKind::FurtherMark { mark: 0, share: percent(0) },
        LineKind::FurtherMark { mark: 0, share: percent(50) },
        LineKind::Factor(0),
        LineKind::FactorCeiling,
        LineKind::Floor,
        LineKind::Cap,
        LineKind::UpToNothing,
        LineKind::Readying(percent(70)),
        LineKind::ConventionalLabour,
        LineKind::FittingLabour,
        LineKind::RefinishLabour,
        LineKind::BlendLabour,
        LineKind::Part,
        LineKind::PaintMaterial,
        LineKind::OperationLabour { operation: 0, panel: None, side: None },
        LineKind::OperationLabour { operation: 0, panel, side: None },
        LineKind::OperationLabour { operation: 0, panel: None, side },
        LineKind::OperationParts { operation: 0, panel: None, side: None },
        LineKind::ItemPrice(0),
        LineKind::ItemLabour(0),
        LineKind::Minimum,
        LineKind::Discount(percent(19)),
    ];
    let (amount, tax) = (eur(100), percent(19));
    all_plain_and_different(kinds.into_iter().map(|kind| {
        let line = Line { kind, amount, hours: None, tax, cite: None, step: StepId(0) };
        wording::line(&line, panel, &case.subject())
    }));
}

#[test]
fn dents_of_a_panel_rated_at_one_size_are_worded_differently_from_dents_of_that_size() {
    let mut case = fixture::storm();
    let line = case.assessment.lines().next().unwrap().line.clone();
    assert_eq!(wording::line(&line, None, &case.subject()), "41 dents 0-9 mm, count 33-71");
    case.schedule.terms.mixed.value = MixedRule::MostFrequent;
    assert_eq!(wording::line(&line, None, &case.subject()), "41 dents, rated at 0-9 mm, count 33-71");
}

#[test]
fn every_limit_says_what_was_measured_beside_it_crossed_or_not_or_cannot_be_told() {
    let mut case = fixture::storm();
    let amounts = Measured::Amounts { paintless: eur(61_240), other: eur(78_667), threshold: eur(59_000) };
    let rows = [
        (Measure::Material(Material::Plastic), Measured::Material(Material::Plastic), "plastic"),
        (
            Measure::Material(Material::Plastic),
            Measured::Material(Material::MildSteel),
            "mild steel, not plastic",
        ),
        (
            Measure::Material(Material::Plastic),
            Measured::Nothing,
            "material not written; the limit is plastic",
        ),
        (Measure::Paint(Paint::Broken), Measured::Paint(Paint::Broken), "paint broken"),
        (Measure::Paint(Paint::Filler), Measured::Paint(Paint::Intact), "paint intact, not filler"),
        (Measure::Access(Access::NoAccess), Measured::Access(Access::NoAccess), "access none"),
        (Measure::Depth(Depth::Stretched), Measured::Depth(Depth::Stretched), "stretched"),
        (Measure::Depth(Depth::Stretched), Measured::Nothing, "depth not written; the limit is stretched"),
        (
            Measure::MarkLength(MarkKind::Crease, mm(60)),
            Measured::Length(mm(85)),
            "crease of 85 mm; the limit is 60 mm",
        ),
        (Measure::MarkLength(MarkKind::Crease, mm(60)), Measured::Nothing, "no crease; the limit is 60 mm"),
        (Measure::DentsOver(140), Measured::Dents(1_168), "1\u{202f}168 dents; the limit is 140"),
        (
            Measure::DentsOfSizeOver(2, 12),
            Measured::Dents(1),
            "1 dent of 17-29 mm or larger; the limit is 12",
        ),
        (
            Measure::ShareOfReplacing(percent(75)),
            amounts,
            "paintless 612.40; 75 % of replacing (786.67) is 590.00",
        ),
        (
            Measure::ShareOfConventional(percent(75)),
            amounts,
            "paintless 612.40; 75 % of conventional repair (786.67) is 590.00",
        ),
    ];
    for (measure, measured, expected) in rows {
        case.schedule.limits[0].measure = measure;
        let crossing = if expected.contains(", not ") { Crossing::No } else { Crossing::Yes };
        let finding = Finding { limit: 0, measured, crossing, cells: Vec::new() };
        assert_eq!(wording::finding(&finding, &case.subject()), expected);
        plain(&wording::measured(&finding));
        plain(&wording::limit(&case.schedule.limits[0], &case.subject()));
    }
    let unknown =
        Finding { limit: 8, measured: Measured::Nothing, crossing: Crossing::CannotTell, cells: Vec::new() };
    assert_eq!(
        wording::finding(&unknown, &case.subject()),
        "cannot be told: paintless or replacing is not priced"
    );
}

#[test]
fn bands_whose_names_do_not_say_them_are_told_by_their_edges_and_counts() {
    let mut case = fixture::storm();
    assert_eq!(case.document().panels.bands, None, "0-9 mm says itself");
    for (band, name) in case.schedule.sizes.iter_mut().zip(["small", "middle", "17-29 mm", "large"]) {
        band.name = name.to_owned();
    }
    let bands = case.document().panels.bands.unwrap();
    assert_eq!(bands, "Size bands: small up to 9 mm; middle over 9 mm to 17 mm; large over 29 mm to 46 mm.");
    assert!(fixture::html(&case).contains(&bands));
    let band = case.schedule.counts.iter_mut().find(|band| band.from == 33).unwrap();
    let said = wording::count_band(band);
    assert_eq!(said, band.name);
    (band.name, band.from, band.to) = ("many".to_owned(), 33, Some(71));
    assert_eq!(wording::count_band(band), "many (33 to 71)");
    band.to = None;
    assert_eq!(wording::count_band(band), "many (33 or more)");
    let line = case.assessment.lines().next().unwrap().line.clone();
    assert!(wording::line(&line, None, &case.subject()).ends_with(", count many (33 or more)"));
}

#[test]
fn a_formula_names_its_steps_in_the_order_of_its_operands() {
    let id = |number| StepId(number);
    let (a, b, c) = (id(3), id(1), id(2));
    let formulas = [
        Formula::Sum(vec![a, b, c]),
        Formula::Difference(a, b),
        Formula::Negative(a),
        Formula::Times { rate: a, by: b },
        Formula::PercentOf { percent: a, of: b },
        Formula::Weighted(vec![(a, b), (c, a)]),
        Formula::BandOf(a),
        Formula::ChosenSize(vec![(0, a), (1, b)]),
        Formula::GridCell { size: a, count: b },
        Formula::UpTo { floor: a, amount: b },
        Formula::DownTo { cap: a, amount: b },
        Formula::Part { total: a, weights: vec![b, c], index: 1 },
        Formula::ToStep { amount: a, step: b },
        Formula::Smallest(vec![a, b]),
        Formula::AtLeastZero(a, b),
    ];
    for formula in formulas {
        let pieces = wording::formula(&formula).into_iter();
        let steps: Vec<StepId> = pieces
            .filter_map(|piece| match piece {
                Piece::Step(id) => Some(id),
                Piece::Words(_) => None,
            })
            .collect();
        assert_eq!(steps, wording::operands(&formula), "{formula:?}");
    }
    assert_eq!(wording::formula(&Formula::Read), [Piece::Words("as written".into())]);
}

#[test]
fn a_cell_that_chose_a_rate_by_its_measure_is_not_named_as_one_that_the_rate_was_read_from() {
    let mut case = fixture::quotation();
    let length = case.claim.inspections[0].panels[0].marks[0].length.unwrap();
    let rate = fixture::at(fixture::sheet::RATES, 6, 5);
    let step = case.assessment.panels[0].alternatives[0].lines[0].step;
    let steps = &mut case.assessment.working.as_mut().unwrap().steps;
    let (formula, cells) = (Formula::Read, vec![rate, length.place]);
    let step = &mut steps[step.0 as usize];
    (step.formula, step.cells) = (formula, cells);
    let page = fixture::html(&case);
    assert!(page.contains("as written [s4 E6] by length 110 mm [s1 D4]"), "{page}");
}

#[test]
fn every_reason_for_no_price_has_words_long_and_short() {
    let case = fixture::storm();
    let reasons = [
        Unpriced::NoPanelTerms,
        Unpriced::BeyondCounts,
        Unpriced::NoGridCell { size: 0, count: 1 },
        Unpriced::NoMarkRate(0),
        Unpriced::NoPart,
        Unpriced::NoFitting,
        Unpriced::NoConventional,
        Unpriced::NoRefinish,
        Unpriced::NoLabourRate,
    ];
    all_plain_and_different(reasons.map(|why| wording::unpriced(why, &case.subject())));
    all_plain_and_different(reasons.map(|why| wording::unpriced_in_short(why).to_owned()));
    let open = [OpenReason::Referred, OpenReason::NotPriced(Unpriced::NoPart)];
    all_plain_and_different(open.map(|reason| wording::open(reason, &case.subject())));
    assert_eq!(wording::unpriced(Unpriced::BeyondCounts, &case.subject()), "the schedule stops at 140 dents");
}

#[test]
fn every_note_caution_and_outcome_of_a_mark_has_words() {
    let case = fixture::storm();
    let door = case.assessment.panels[6].panel;
    let notes = [
        Note::PanelsNotListed(vec![door]),
        Note::PanelsNotListed(vec![door, case.assessment.panels[0].panel]),
        Note::NoneWritten(1),
        Note::NoneWritten(14),
        Note::SizeTakenAs { place: fixture::at(0, 3, 4), heading: "10-20".to_owned(), band: 1 },
        Note::SecondInspection(1),
        Note::NotOversize(door, 1),
        Note::MoreCouldBeLess(door),
        Note::MinimumWaits(case.assessment.totals.net),
    ];
    all_plain_and_different(
        notes.iter().map(|note| wording::note(note, &case.subject(), |_| "s1 D5".to_owned())),
    );
    let cautions = [
        Caution::Airbag,
        Caution::HighVoltage,
        Caution::Calibration,
        Caution::Structural,
        Caution::Heat,
        Caution::Glass,
        Caution::Chemicals,
        Caution::Stated(2),
    ];
    all_plain_and_different(cautions.iter().flat_map(|caution| {
        let (about, text) = wording::caution(caution, &case.subject());
        [about, text]
    }));
    let marks = [
        MarkAssessment::Counted(1),
        MarkAssessment::Rated,
        MarkAssessment::Noted,
        MarkAssessment::Excluded,
        MarkAssessment::NotPriced,
    ];
    all_plain_and_different(marks.iter().map(|mark| wording::mark_outcome(mark, &case.subject())));
    let reasons = [ExclusionReason::NotDamage, ExclusionReason::OtherEvent, ExclusionReason::Earlier];
    all_plain_and_different(reasons.map(|reason| wording::excluded(reason, Words::english())));
}

#[test]
fn cautions_that_can_hurt_say_who_decides() {
    let case = fixture::storm();
    for caution in [
        Caution::Airbag,
        Caution::HighVoltage,
        Caution::Calibration,
        Caution::Structural,
        Caution::Heat,
        Caution::Glass,
        Caution::Chemicals,
    ] {
        let (_, text) = wording::caution(&caution, &case.subject());
        assert!(text.contains("maker"), "{text}");
    }
    assert!(wording::standing_caution().contains("licensed adjuster"));
    let loss = fixture::total_loss();
    assert!(wording::headline(&loss.subject()).contains("a licensed adjuster decides"));
    assert!(loss.document().summary.person[0].contains("licensed adjuster"));
}

#[test]
fn every_rule_of_a_working_has_words() {
    let rules = [
        Rule::Input,
        Rule::Term,
        Rule::DentsOfPanel,
        Rule::DentsOfSize,
        Rule::RatedSize,
        Rule::EquivalentDents,
        Rule::BandOfCount,
        Rule::Base,
        Rule::MarkAmount,
        Rule::FurtherMark,
        Rule::FactorAmount,
        Rule::FactorSum,
        Rule::FactorCeiling,
        Rule::FactorTakeOff,
        Rule::FloorTopUp,
        Rule::UpToNothing,
        Rule::CapTakeOff,
        Rule::MethodAmount,
        Rule::Readying,
        Rule::LabourAmount,
        Rule::PriceAmount,
        Rule::LimitAmount,
        Rule::OperationAmount,
        Rule::ItemAmount,
        Rule::PaidBefore,
        Rule::Betterment,
        Rule::SalvageKept,
        Rule::NetBeforeMinimum,
        Rule::MinimumTopUp,
        Rule::Discounted,
        Rule::DiscountTotal,
        Rule::DiscountPart,
        Rule::Taxable,
        Rule::Tax,
        Rule::Net,
        Rule::TotalRounding,
        Rule::Gross,
        Rule::ScreenLimit,
        Rule::ScreenCost,
        Rule::SettlementAmount,
        Rule::TaxReclaimed,
        Rule::Excess,
        Rule::OverLimit,
        Rule::InsurerPays,
        Rule::OwnerBears,
    ];
    all_plain_and_different(rules.map(|rule| wording::rule(rule).to_owned()));
    let mut schedule = fixture::storm().schedule;
    let mixed = [
        MixedRule::EachBand,
        MixedRule::MostFrequent,
        MixedRule::LargestShare(percent(0)),
        MixedRule::LargestShare(percent(20)),
        MixedRule::Equivalents(1),
    ];
    all_plain_and_different(mixed.map(|rule| {
        schedule.terms.mixed.value = rule;
        wording::mixed(&schedule)
    }));
}
