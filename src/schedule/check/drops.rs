use super::amounts::cell_amount;
use crate::problem::{Problem, catalogue::schedule as words};
use crate::quantity::Money;
use crate::schedule::{GroupId, MixedRule, Schedule};

/// Dents in all up to which panels are tried. A rule that can lower an amount does so among few dents already.
const MOST_DENTS: u32 = 40;

/// A panel on which one more dent costs less.
struct Drop {
    group: GroupId,
    /// Dents of two size bands, before.
    before: [(usize, u32); 2],
    /// The size band of the one more.
    added: usize,
    amounts: [Money; 2],
}

/// Under the rules that rate all dents of a panel at one size band, one more small dent can lower the amount. Tells the
/// smallest panel on which it does, for an example.
pub(super) fn check(schedule: &Schedule, problems: &mut Vec<Problem>) {
    if !matches!(schedule.terms.mixed.value, MixedRule::MostFrequent | MixedRule::LargestShare(_)) {
        return;
    }
    let Some(drop) = (2..=MOST_DENTS).find_map(|dents| find(schedule, dents)) else { return };
    let name = |size: usize| schedule.sizes[size].name.as_str();
    let [(smaller, few), (larger, many)] = drop.before;
    let panel = format!("{few} of {} and {many} of {}", name(smaller), name(larger));
    let group = &schedule.groups[usize::from(drop.group.0)];
    problems.push(
        words::one_more_costs_less(group, &panel, drop.amounts[0], name(drop.added), drop.amounts[1])
            .at(schedule.terms.mixed.place),
    );
}

fn find(schedule: &Schedule, dents: u32) -> Option<Drop> {
    let sizes = schedule.sizes.len();
    for group in 0..schedule.groups.len() {
        let group = GroupId(u16::try_from(group).ok()?);
        for smaller in 0..sizes {
            for larger in smaller + 1..sizes {
                for few in 1..dents {
                    let before = [(smaller, few), (larger, dents - few)];
                    for added in [smaller, larger] {
                        let drop = compare(schedule, group, before, added);
                        if drop.is_some() {
                            return drop;
                        }
                    }
                }
            }
        }
    }
    None
}

fn compare(schedule: &Schedule, group: GroupId, before: [(usize, u32); 2], added: usize) -> Option<Drop> {
    let after = before.map(|(size, dents)| (size, if size == added { dents + 1 } else { dents }));
    let less = amount(schedule, group, before)?;
    let more = amount(schedule, group, after)?;
    (more.minor() < less.minor()).then_some(Drop { group, before, added, amounts: [less, more] })
}

/// The amount of a panel with dents of two size bands.
fn amount(schedule: &Schedule, group: GroupId, tally: [(usize, u32); 2]) -> Option<Money> {
    let mut dents = vec![0; schedule.sizes.len()];
    for (size, number) in tally {
        dents[size] = number;
    }
    let all = tally.iter().map(|(_, number)| number).sum();
    let size = schedule.terms.mixed.value.rated_size(&dents)?;
    let count = schedule.count_band(all)?;
    cell_amount(schedule, group, size, count, all)
}
