use super::rank;
use crate::claim::Method;
use crate::problem::{Problem, catalogue::outlook as words};
use crate::quantity::Percent;
use crate::schedule::{GroupId, Limit, Measure, MixedRule, PanelTerms, Schedule};

/// Tells the cells of the grid and the rates of marks at which no panel is ever paid, unless a person overrules.
pub(super) fn check(schedule: &Schedule, problems: &mut Vec<Problem>) {
    for group in 0..schedule.groups.len() {
        let Ok(group) = u16::try_from(group).map(GroupId) else { continue };
        if let MixedRule::Equivalents(band) = schedule.terms.mixed.value {
            other_bands(schedule, group, band, problems);
        } else {
            beyond_limits(schedule, group, problems);
        }
    }
    for rate in &schedule.mark_rates {
        let panels = schedule.panels.iter().filter(|panel| rate.scope.holds_for(panel));
        let is_before = |limit: &Limit| match limit.measure {
            Measure::MarkLength(mark, length) => mark == rate.mark && length <= rate.over,
            _ => false,
        };
        let deciding: Option<Vec<&Limit>> =
            panels.map(|panel| deciding(schedule, panel, is_before)).collect();
        if let Some(limit) = deciding.as_deref().and_then(|limits| limits.first()) {
            let problem = words::marks_beyond_limit(rate.mark.name(), &limit.name);
            problems.push(problem.at(rate.place).and(limit.place));
        }
    }
}

/// Rates of size bands that dents are never counted as.
fn other_bands(schedule: &Schedule, group: GroupId, band: usize, problems: &mut Vec<Problem>) {
    for size in (0..schedule.sizes.len()).filter(|size| *size != band) {
        let mut cells = (0..schedule.counts.len()).filter_map(|count| schedule.grid.get(group, size, count));
        if let Some(cell) = cells.next() {
            let group = &schedule.groups[usize::from(group.0)];
            let names = [size, band].map(|size| schedule.sizes[size].name.as_str());
            problems.push(words::cells_of_other_band(group, names[0], names[1]).at(cell.place));
        }
    }
}

/// Cells of a group that a limit on dents lies before, on every panel of the group.
fn beyond_limits(schedule: &Schedule, group: GroupId, problems: &mut Vec<Problem>) {
    let panels: Vec<&PanelTerms> = schedule.panels.iter().filter(|panel| panel.group == group).collect();
    let mut found = Vec::new();
    for size in 0..schedule.sizes.len() {
        for count in 0..schedule.counts.len() {
            let Some(cell) = schedule.grid.get(group, size, count) else { continue };
            let is_before = |limit: &Limit| lies_before(schedule, limit, size, schedule.counts[count].from);
            let all: Option<Vec<&Limit>> =
                panels.iter().map(|panel| deciding(schedule, panel, is_before)).collect();
            if let Some(limit) = all.and_then(|limits| limits.first().copied()) {
                found.push((size, count, cell.place, limit));
            }
        }
    }
    if let Some((size, count, place, limit)) = found.first() {
        let first = format!("{}, {}", schedule.sizes[*size].name, schedule.counts[*count].name);
        let group = &schedule.groups[usize::from(group.0)];
        let problem = words::cells_beyond_limit(group, found.len(), &first, &limit.name);
        problems.push(problem.at(*place).and(limit.place));
    }
}

/// A limit that decides on another way than paintless wherever `is_before` holds, if nothing that looks at the paintless
/// amount could still go further.
fn deciding<'s>(
    schedule: &'s Schedule,
    panel: &PanelTerms,
    is_before: impl Fn(&Limit) -> bool,
) -> Option<&'s Limit> {
    let mut holding = schedule.limits.iter().filter(|limit| limit.scope.holds_for(panel));
    let furthest = holding
        .clone()
        .filter(|limit| rank(limit.then) > rank(Method::RefinishAfter) && is_before(limit))
        .max_by_key(|limit| (rank(limit.then), std::cmp::Reverse(limit.number)))?;
    let looks_at_amount = holding.any(|limit| {
        matches!(limit.measure, Measure::ShareOfReplacing(_) | Measure::ShareOfConventional(_))
            && rank(limit.then) > rank(furthest.then)
    });
    (!looks_at_amount).then_some(furthest)
}

/// Whether every panel that is rated at a size and a count of at least so many crosses a limit on dents.
fn lies_before(schedule: &Schedule, limit: &Limit, size: usize, from: u32) -> bool {
    let from = u64::from(from);
    // At least so many dents are of the size it is rated at, or larger.
    let of_size = match schedule.terms.mixed.value {
        MixedRule::EachBand => from,
        MixedRule::MostFrequent => from.div_ceil(schedule.sizes.len().max(1) as u64),
        MixedRule::LargestShare(share) => {
            let micro = u64::try_from(share.micro()).unwrap_or(0);
            (from * micro).div_ceil(100 * u64::try_from(Percent::MICRO).unwrap_or(1)).max(1)
        }
        MixedRule::Equivalents(_) => return false,
    };
    match limit.measure {
        Measure::DentsOver(over) => from > u64::from(over),
        Measure::DentsOfSizeOver(band, over) => band <= size && of_size > u64::from(over),
        _ => false,
    }
}
