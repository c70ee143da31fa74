mod settlement;

use super::{Section, Shown};
use crate::problem::{Located, Place};
use crate::quantity::TimeUnit;
use crate::schedule::{
    FactorEffect, FactorTest, Fit, GroupId, Limit, Measure, MixedRule, Per, Price, Schedule, Scope,
    SeveralMarks, SizeBand, Terms,
};

/// Every table of a schedule that has a row, in the order of the page of the tables.
pub(super) fn of(schedule: &Schedule) -> Vec<Section> {
    let mut sections = vec![
        terms(&schedule.terms, &schedule.sizes),
        labour(schedule),
        taxes(schedule),
        sizes(schedule),
        counts(schedule),
        panels(schedule),
    ];
    sections.extend((0..schedule.groups.len()).filter_map(|group| rates(schedule, group)));
    sections.extend([
        mark_rates(schedule),
        factors(schedule),
        typical(schedule),
        limits(schedule),
        operations(schedule),
        settlement::betterment(schedule),
        settlement::titles(schedule),
    ]);
    sections.retain(|section| !section.rows.is_empty());
    sections
}

fn terms(terms: &Terms, sizes: &[SizeBand]) -> Section {
    let mut section = Section::new("Terms", &["term", "value"]);
    let mut say = |term: &str, value: Shown| {
        if !value.text.is_empty() {
            section.rows.push(vec![Shown::plain(term), value]);
        }
    };
    let words = |words: &str, place: Place| Shown::at(words, place);
    let yes_no = |written: Located<bool>| words(if written.value { "yes" } else { "no" }, written.place);
    say("schedule", Shown::maybe(Some(&terms.name)));
    say("edition", Shown::maybe(Some(&terms.edition)));
    say("source", Shown::maybe(Some(&terms.source)));
    let names: Vec<&str> = terms.fits.iter().map(|fit| fit_words(&fit.value)).collect();
    if let Some(first) = terms.fits.first() {
        say("holds for", words(&names.join("; "), first.place));
    }
    say("currency", Shown::maybe(Some(&terms.currency)));
    say("valid from", Shown::maybe(Some(&terms.valid_from)));
    say("valid to", Shown::maybe(terms.valid_to.as_ref()));
    say("edition by", Shown::maybe(terms.edition_by.as_ref()));
    say("rounding", words(terms.rounding.value.words(), terms.rounding.place));
    say("round total to", Shown::maybe(terms.total_step.as_ref()));
    say("mixed sizes", words(&mixed_words(terms.mixed.value, sizes), terms.mixed.place));
    say("between count bands", Shown::maybe(terms.between_counts.as_ref()));
    if let Some(several) = terms.several_marks {
        say("several marks", words(&several_words(several.value), several.place));
    }
    if let Some(mode) = terms.scaled_counts {
        say("scaled counts", words(mode.value.words(), mode.place));
    }
    say("factors at most %", Shown::maybe(terms.factors_at_most.as_ref()));
    say("time unit", words(&unit_words(terms.time_unit.value), terms.time_unit.place));
    say("readying share %", Shown::maybe(terms.readying.as_ref()));
    say("minimum per vehicle", Shown::maybe(terms.minimum.as_ref()));
    say("discount %", Shown::maybe(terms.discount.as_ref()));
    say("discount on", Shown::maybe(terms.discount_on.as_ref()));
    say("discount taken", Shown::maybe(terms.discount_taken.as_ref()));
    say("excess taken", Shown::maybe(terms.excess_taken.as_ref()));
    if let Some(loss) = &terms.total_loss {
        say("total loss compares", Shown::maybe(Some(&loss.rule)));
        say("total loss when", Shown::maybe(Some(&loss.comparator)));
        say("total loss share %", Shown::maybe(Some(&loss.share)));
        say("total loss with tax", yes_no(loss.with_tax));
    }
    if let Some(cash) = terms.cash_with_tax {
        say("cash with tax", yes_no(cash));
    }
    say("quotation days", Shown::maybe(terms.quotation_days.as_ref()));
    section
}

fn several_words(rule: SeveralMarks) -> String {
    match rule {
        SeveralMarks::Add => "add".to_owned(),
        SeveralMarks::Further(share) if share.micro() == 0 => "larger only".to_owned(),
        SeveralMarks::Further(share) => format!("share of the second, {share} %"),
    }
}

fn fit_words(fit: &Fit) -> &str {
    match fit {
        Fit::Insurer(name) => name,
        Fit::NoInsurer => "none",
        Fit::Anyone => "any",
    }
}

fn mixed_words(rule: MixedRule, sizes: &[SizeBand]) -> String {
    match rule {
        MixedRule::EachBand => "each band".to_owned(),
        MixedRule::MostFrequent => "most frequent".to_owned(),
        MixedRule::LargestShare(share) if share.micro() == 0 => "largest present".to_owned(),
        MixedRule::LargestShare(share) => format!("largest with share, {share} %"),
        MixedRule::Equivalents(band) => format!("equivalents of {}", sizes[band].name),
    }
}

fn unit_words(unit: TimeUnit) -> String {
    match unit {
        TimeUnit::Tenths => "tenths".to_owned(),
        TimeUnit::Minutes => "minutes".to_owned(),
        TimeUnit::WorkUnits(per_hour) => format!("work units {per_hour}"),
    }
}

fn labour(schedule: &Schedule) -> Section {
    let per_hour = format!("per hour {}", schedule.terms.currency.value);
    let mut section = Section::new("Labour", &["labour", &per_hour]);
    for rate in &schedule.labour {
        section.rows.push(vec![Shown::plain(rate.class.name()), Shown::maybe(Some(&rate.per_hour))]);
    }
    section
}

fn taxes(schedule: &Schedule) -> Section {
    let mut section = Section::new("Taxes", &["tax on", "percent"]);
    for rate in &schedule.taxes {
        section.rows.push(vec![Shown::plain(rate.on.name()), Shown::maybe(Some(&rate.percent))]);
    }
    section
}

fn sizes(schedule: &Schedule) -> Section {
    let mut section = Section::new("Size bands", &["size band", "over", "up to", "goes by", "weight"]);
    for band in &schedule.sizes {
        section.rows.push(vec![
            Shown::at(&band.name, band.place),
            Shown::plain(band.low.to_string()),
            Shown::plain(band.high.to_string()),
            Shown::plain(band.goes_by.join("; ")),
            Shown::plain(band.weight.map_or(String::new(), |weight| weight.to_string())),
        ]);
    }
    section
}

fn counts(schedule: &Schedule) -> Section {
    let mut section = Section::new("Count bands", &["count band", "from dents", "to dents"]);
    for band in &schedule.counts {
        section.rows.push(vec![
            Shown::at(&band.name, band.place),
            Shown::plain(band.from.to_string()),
            Shown::plain(band.to.map_or("open".to_owned(), |to| to.to_string())),
        ]);
    }
    section
}

fn panels(schedule: &Schedule) -> Section {
    let headings = ["panel", "rated as", "lies", "joined", "panel class", "area", "floor", "cap"];
    let mut section = Section::new("Panels", &headings);
    for panel in &schedule.panels {
        section.rows.push(vec![
            Shown::at(panel.kind.name(), panel.place),
            Shown::plain(group_name(schedule, panel.group)),
            Shown::maybe(Some(&panel.plane)),
            Shown::maybe(Some(&panel.joint)),
            Shown::maybe(panel.class.as_ref()),
            Shown::maybe(panel.area.as_ref()),
            Shown::maybe(panel.floor.as_ref()),
            Shown::maybe(panel.cap.as_ref()),
        ]);
    }
    if schedule.panels.iter().all(|panel| panel.class.is_none()) {
        section.without("panel class");
    }
    section
}

fn group_name(schedule: &Schedule, group: GroupId) -> &str {
    &schedule.groups[usize::from(group.0)]
}

/// The grid of one group, sizes across and counts down.
fn rates(schedule: &Schedule, group: usize) -> Option<Section> {
    let id = GroupId(u16::try_from(group).ok()?);
    let mut headings = vec!["count band"];
    headings.extend(schedule.sizes.iter().map(|band| band.name.as_str()));
    let title = format!("Rates of {} ({})", schedule.groups[group], schedule.terms.currency.value);
    let mut section = Section::new(title, &headings);
    for (count, band) in schedule.counts.iter().enumerate() {
        let mut row = vec![Shown::plain(&band.name)];
        row.extend((0..schedule.sizes.len()).map(|size| {
            schedule.grid.get(id, size, count).map_or_else(
                || Shown::plain("-"),
                |cell| Shown::at(price_words(cell.price, cell.per), cell.place),
            )
        }));
        section.rows.push(row);
    }
    Some(section)
}

/// `58.00`, `9.50 a dent`, `0.6 h`, `0.4 h a dent`.
fn price_words(price: Price, per: Per) -> String {
    let price = match price {
        Price::Amount(rate) => rate.to_string(),
        Price::Time(hours) => format!("{hours} h"),
    };
    match per {
        Per::Panel => price,
        Per::Dent => format!("{price} a dent"),
    }
}

fn mark_rates(schedule: &Schedule) -> Section {
    let each = format!("each {}", schedule.terms.currency.value);
    let mut section = Section::new("Mark rates", &["mark", "panel", "over", "up to", &each]);
    for rate in &schedule.mark_rates {
        section.rows.push(vec![
            Shown::plain(rate.mark.name()),
            Shown::plain(scope_words(schedule, rate.scope)),
            Shown::plain(rate.over.to_string()),
            Shown::plain(rate.up_to.map_or("open".to_owned(), |up_to| up_to.to_string())),
            Shown::at(price_words(rate.price, Per::Panel), rate.place),
        ]);
    }
    section
}

fn scope_words(schedule: &Schedule, scope: Scope) -> String {
    match scope {
        Scope::Any => "any".to_owned(),
        Scope::Kind(kind) => kind.name().to_owned(),
        Scope::Group(group) => format!("group {}", group_name(schedule, group)),
        Scope::Plane(plane) => plane.name().to_owned(),
        Scope::Joint(joint) => joint.name().to_owned(),
    }
}

fn factors(schedule: &Schedule) -> Section {
    let headings = ["order", "factor", "looks at", "is", "panel", "on", "adds", "of", "not with"];
    let mut section = Section::new("Factors, in the order in which they are applied", &headings);
    for factor in &schedule.factors {
        let (looks_at, is) = match &factor.test {
            FactorTest::Material(value) => ("material", value.name()),
            FactorTest::Access(value) => ("access", value.name()),
            FactorTest::Paint(value) => ("paint", value.name()),
            FactorTest::Depth(value) => ("depth", value.name()),
            FactorTest::Position(value) => ("position", value.name()),
            FactorTest::PanelClass(class) => ("panel class", class.as_str()),
            FactorTest::VehicleClass(class) => ("vehicle class", class.as_str()),
            FactorTest::Always => ("always", ""),
        };
        let (adds, of) = match factor.effect {
            FactorEffect::Percent(share, of) => (format!("{share} %"), of.name()),
            FactorEffect::Amount(amount) => (format!("{amount} {}", amount.currency()), ""),
            FactorEffect::Time(hours) => (format!("{hours} h"), ""),
        };
        let excluded: Vec<&str> =
            factor.not_with.iter().map(|other| schedule.factors[*other].name.as_str()).collect();
        section.rows.push(vec![
            Shown::plain(factor.order.to_string()),
            Shown::plain(&factor.name),
            Shown::plain(looks_at),
            Shown::plain(is),
            Shown::plain(scope_words(schedule, factor.scope)),
            Shown::plain(factor.applies_to.name()),
            Shown::at(adds, factor.place),
            Shown::plain(of),
            Shown::plain(excluded.join("; ")),
        ]);
    }
    section
}

fn typical(schedule: &Schedule) -> Section {
    let headings = [
        "panel",
        "vehicle class",
        "part",
        "fitting h",
        "conventional h",
        "refinish h",
        "blend h",
        "paint material",
        "source",
    ];
    let mut section = Section::new("Typical prices, the most particular first", &headings);
    for row in &schedule.typical {
        section.rows.push(vec![
            Shown::at(scope_words(schedule, row.scope), row.place),
            Shown::plain(row.class.as_deref().unwrap_or("any")),
            Shown::maybe(row.part.as_ref()),
            Shown::maybe(row.fitting.as_ref()),
            Shown::maybe(row.conventional.as_ref()),
            Shown::maybe(row.refinish.as_ref()),
            Shown::maybe(row.blend.as_ref()),
            Shown::maybe(row.paint_material.as_ref()),
            Shown::maybe(row.source.as_ref()),
        ]);
    }
    section
}

fn limits(schedule: &Schedule) -> Section {
    let mut section = Section::new("Limits", &["number", "limit", "panel", "measures", "beyond", "then"]);
    for limit in &schedule.limits {
        let (measures, beyond) = measure_words(limit, &schedule.sizes);
        section.rows.push(vec![
            Shown::plain(limit.number.to_string()),
            Shown::plain(&limit.name),
            Shown::plain(scope_words(schedule, limit.scope)),
            Shown::plain(measures),
            Shown::at(beyond, limit.place),
            Shown::plain(limit.then.name()),
        ]);
    }
    section
}

fn measure_words(limit: &Limit, sizes: &[SizeBand]) -> (String, String) {
    let (measures, beyond) = match limit.measure {
        Measure::Material(value) => ("material", value.name().to_owned()),
        Measure::Paint(value) => ("paint", value.name().to_owned()),
        Measure::Access(value) => ("access", value.name().to_owned()),
        Measure::Depth(value) => ("depth", value.name().to_owned()),
        Measure::MarkLength(mark, length) => (mark.name(), length.to_string()),
        Measure::DentsOver(dents) => ("dents", dents.to_string()),
        Measure::DentsOfSizeOver(size, dents) => {
            return (format!("dents of {} or larger", sizes[size].name), dents.to_string());
        }
        Measure::ShareOfReplacing(share) => ("share of replacing", format!("{share} %")),
        Measure::ShareOfConventional(share) => ("share of conventional repair", format!("{share} %")),
    };
    (measures.to_owned(), beyond)
}

fn operations(schedule: &Schedule) -> Section {
    let headings =
        ["operation", "panel", "access", "method", "hours", "labour", "parts", "once per", "caution"];
    let mut section = Section::new("Operations", &headings);
    for row in &schedule.operations {
        section.rows.push(vec![
            Shown::at(&row.name, row.place),
            Shown::plain(scope_words(schedule, row.scope)),
            Shown::plain(row.access.map_or("any", |access| access.name())),
            Shown::plain(row.method.map_or("any", |method| method.name())),
            Shown::maybe(row.hours.as_ref()),
            Shown::plain(row.class.name()),
            Shown::maybe(row.parts.as_ref()),
            Shown::plain(row.once.name()),
            Shown::maybe(row.caution.as_ref()),
        ]);
    }
    section
}
