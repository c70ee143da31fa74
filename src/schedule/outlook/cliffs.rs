use crate::problem::{Problem, catalogue::outlook as words};
use crate::quantity::{Money, Percent};
use crate::schedule::check::amounts::cell_amount;
use crate::schedule::{GroupId, MixedRule, Schedule};

/// A cell and the dents that are rated there.
type Spot = (usize, usize, u32);

/// A step from one dent to the next.
struct Cliff {
    group: GroupId,
    spots: [Spot; 2],
    /// What the panels are, in words.
    panels: [String; 2],
    amounts: [Money; 2],
}

impl Cliff {
    /// Percent that the one dent adds, whole ones.
    fn percent(&self) -> i128 {
        let [less, more] = self.amounts.map(|amount| i128::from(amount.minor()));
        (more - less) * 100 / less.max(1)
    }
}

/// The steepest step of each group and size that is more than the share, the steepest first.
pub(super) fn check(schedule: &Schedule, share: Percent) -> Vec<Problem> {
    let mut cliffs: Vec<Cliff> = Vec::new();
    for group in 0..schedule.groups.len() {
        let Ok(group) = u16::try_from(group).map(GroupId) else { continue };
        for size in 0..schedule.sizes.len() {
            let steps = in_one_size(schedule, group, size).into_iter();
            let all = steps.chain(to_larger_sizes(schedule, group, size));
            let beyond = all.filter(|cliff| is_beyond(cliff, share));
            cliffs.extend(beyond.max_by_key(|cliff| (cliff.percent(), std::cmp::Reverse(cliff.spots[0].2))));
        }
    }
    // Stable: alike, the order of groups and sizes stays.
    cliffs.sort_by_key(|cliff| std::cmp::Reverse(cliff.percent()));
    cliffs.iter().filter_map(|cliff| told(schedule, cliff)).collect()
}

fn is_beyond(cliff: &Cliff, share: Percent) -> bool {
    let [less, more] = cliff.amounts.map(|amount| i128::from(amount.minor()));
    less > 0 && (more - less) * 100 * i128::from(Percent::MICRO) > less * i128::from(share.micro())
}

fn told(schedule: &Schedule, cliff: &Cliff) -> Option<Problem> {
    let [before, after] = cliff.spots.map(|(size, count, _)| schedule.grid.get(cliff.group, size, count));
    let [few, many] = cliff.panels.each_ref().map(String::as_str);
    let [less, more] = cliff.amounts;
    let group = &schedule.groups[usize::from(cliff.group.0)];
    let problem = words::cliff(group, (few, less), (many, more), cliff.percent());
    Some(problem.at(after?.place).and(before?.place))
}

fn step(schedule: &Schedule, group: GroupId, spots: [Spot; 2], panels: [String; 2]) -> Option<Cliff> {
    let amount = |(size, count, dents): Spot| cell_amount(schedule, group, size, count, dents);
    let amounts = [amount(spots[0])?, amount(spots[1])?];
    Some(Cliff { group, spots, panels, amounts })
}

fn dents_of(dents: u32, size: &str) -> String {
    if dents == 1 { format!("1 dent of {size}") } else { format!("{dents} dents of {size}") }
}

/// From the last count of a band to the first of the next, all dents of one size.
fn in_one_size(schedule: &Schedule, group: GroupId, size: usize) -> Vec<Cliff> {
    if matches!(schedule.terms.mixed.value, MixedRule::Equivalents(band) if band != size) {
        return Vec::new();
    }
    let name = &schedule.sizes[size].name;
    (1..schedule.counts.len())
        .filter_map(|count| {
            let (last, first) = (schedule.counts[count - 1].to?, schedule.counts[count].from);
            let panels = [dents_of(last, name), dents_of(first, name)];
            step(schedule, group, [(size, count - 1, last), (size, count, first)], panels)
        })
        .collect()
}

/// Under the rules that rate all dents at one size: from a panel rated at this size to one rated at a larger one.
fn to_larger_sizes(schedule: &Schedule, group: GroupId, size: usize) -> Vec<Cliff> {
    let rule = schedule.terms.mixed.value;
    let share = match rule {
        MixedRule::LargestShare(share) => share.micro(),
        MixedRule::MostFrequent => 50 * Percent::MICRO,
        MixedRule::EachBand | MixedRule::Equivalents(_) => return Vec::new(),
    };
    // Both ends of each count band: a step lies at one of them, or is the same all along.
    let ends = schedule.counts.iter().flat_map(|band| [Some(band.from), band.to].into_iter().flatten());
    let mut cliffs = Vec::new();
    for dents in ends.filter(|dents| *dents > 1) {
        let reached = u64::from(dents) * u64::try_from(share).unwrap_or(0);
        let larger = reached.div_ceil(100 * u64::try_from(Percent::MICRO).unwrap_or(1)).max(1);
        let Ok(larger) = u32::try_from(larger.min(u64::from(dents))) else { continue };
        let (few, many) = ([dents - larger, larger - 1], [dents - larger, larger]);
        if rule.rated_size(&few) != Some(0) || rule.rated_size(&many) != Some(1) {
            continue;
        }
        let (Some(one), Some(other)) = (schedule.count_band(dents - 1), schedule.count_band(dents)) else {
            continue;
        };
        for target in size + 1..schedule.sizes.len() {
            let of = |dents: [u32; 2]| {
                let names = [&schedule.sizes[size].name, &schedule.sizes[target].name];
                let parts = dents.iter().zip(names).filter(|(dents, _)| **dents > 0);
                parts.map(|(dents, name)| dents_of(*dents, name)).collect::<Vec<_>>().join(" and ")
            };
            let spots = [(size, one, dents - 1), (target, other, dents)];
            cliffs.extend(step(schedule, group, spots, [of(few), of(many)]));
        }
    }
    cliffs
}
