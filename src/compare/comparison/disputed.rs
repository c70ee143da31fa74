use super::{CarComparison, Notes};
use crate::claim::{Method, PanelId};
use crate::compare::agree::{Proposal, ProposalRule, propose};
use crate::compare::money::Cause;
use crate::quantity::Money;
use std::collections::{BTreeMap, BTreeSet};

/// One look at a panel that is to be agreed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DisputedLook<'a> {
    /// Who, by number.
    pub assessor: usize,
    /// Dents in each size band of the schedule; none where the panel was not inspected.
    pub counts: Option<&'a [u32]>,
    /// What is to be done; none where the panel was not inspected.
    pub method: Option<Method>,
    /// What the panel comes to, where it is priced.
    pub amount: Option<Money>,
}

/// What is cheapest to look at again on a panel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Recount {
    /// Count this size band: only there do the counts differ, or there most.
    Band {
        /// Size band of the schedule.
        size: u16,
        /// Largest count less the smallest.
        apart: u32,
        /// Whether the counts of all other bands are equal.
        only: bool,
    },
    /// What was noted of the panel moves most: of these, something differs.
    Noted(Noted),
    /// Marks measured one by one move most.
    Marks,
    /// A person's decision moves most.
    Overrule,
    /// The counts are equal: look at what was noted of the panel, or at the marks.
    Notes,
    /// A look did not inspect the panel: inspect it.
    Inspect,
}

/// What of that which is noted of a panel differs between looks: material, access, paint, depth, position.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Noted(pub [bool; 5]);

/// The words for what can be noted, in the order of [`Notes::words`].
const NOTED: [&str; 5] = ["material", "access", "paint", "depth", "position"];

impl Noted {
    /// Of what several looks noted.
    fn of(notes: &[Notes]) -> Self {
        let mut differs = [false; 5];
        for pair in notes.windows(2) {
            for (differs, (a, b)) in differs.iter_mut().zip(pair[0].words().into_iter().zip(pair[1].words()))
            {
                *differs |= a != b;
            }
        }
        Self(differs)
    }

    /// The words for what differs.
    pub fn names(self) -> Vec<&'static str> {
        NOTED.into_iter().zip(self.0).filter(|(_, differs)| *differs).map(|(name, _)| name).collect()
    }
}

/// A panel that is to be agreed on, as it is kept: the rest stands on the looks' sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ToAgree {
    panel: PanelId,
    recount: Recount,
}

/// A panel of which the amount or the method differs between looks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Disputed<'a> {
    /// Which panel.
    pub panel: PanelId,
    /// Every look at the car, in the order of the car's looks.
    pub looks: Vec<DisputedLook<'a>>,
    /// Largest amount less the smallest, of the looks that are priced.
    pub at_stake: Option<Money>,
    /// What is cheapest to look at again.
    pub recount: Recount,
    /// A proposed count for each size band, by the median of the looks that inspected it; a proposal, never an entry.
    pub proposed: Vec<Proposal>,
}

impl CarComparison {
    /// The panels to be agreed on, in document order.
    pub fn disputed(&self) -> impl Iterator<Item = Disputed<'_>> {
        self.to_agree.iter().map(|to_agree| {
            let looks = self.looks_at(to_agree.panel);
            Disputed {
                panel: to_agree.panel,
                at_stake: at_stake(&looks),
                recount: to_agree.recount,
                proposed: propose(&counts(&looks), ProposalRule::Median),
                looks,
            }
        })
    }

    fn looks_at(&self, panel: PanelId) -> Vec<DisputedLook<'_>> {
        let looks = self.looks.iter().map(|look| {
            let seen = look.sheet.find(panel);
            DisputedLook {
                assessor: look.assessor,
                counts: seen.map(|seen| seen.counts),
                method: seen.map(|seen| seen.method),
                amount: seen.and_then(|seen| seen.amount),
            }
        });
        looks.collect()
    }

    /// The panels on which the looks differ in amount or method, or which only some of them inspected and found damaged.
    pub(super) fn find_disputed(&self) -> Box<[ToAgree]> {
        let panels: BTreeSet<PanelId> =
            self.looks.iter().flat_map(|look| look.sheet.sides()).map(|side| side.panel).collect();
        panels.into_iter().filter_map(|panel| self.dispute(panel)).collect()
    }

    /// What the looks noted of a panel, where they inspected it.
    pub fn notes(&self, panel: PanelId) -> Vec<Notes> {
        self.looks.iter().filter_map(|look| look.sheet.find(panel)).map(|side| side.notes).collect()
    }

    fn dispute(&self, panel: PanelId) -> Option<ToAgree> {
        let looks = self.looks_at(panel);
        let inspected = || looks.iter().filter(|look| look.method.is_some());
        let first = inspected().next()?;
        let is_everywhere = looks.iter().all(|look| look.method.is_some());
        let is_damaged = inspected().any(|look| look.method != Some(Method::NoRepair));
        let differs = inspected().any(|look| look.method != first.method || look.amount != first.amount);
        if !differs && (is_everywhere || !is_damaged) {
            return None;
        }
        let recount = match self.costliest(panel) {
            _ if !is_everywhere => Recount::Inspect,
            Some(Cause::Attributes) => Recount::Noted(Noted::of(&self.notes(panel))),
            Some(Cause::Marks) => Recount::Marks,
            Some(Cause::Overrule) => Recount::Overrule,
            _ => recount(&counts(&looks)),
        };
        Some(ToAgree { panel, recount })
    }

    /// The cause that moves most on a panel, over all pairs and without signs; the earlier of equal ones.
    fn costliest(&self, panel: PanelId) -> Option<Cause> {
        let mut sums: BTreeMap<Cause, u64> = BTreeMap::new();
        let paired =
            self.pairs.iter().filter_map(|pair| self.panels(pair).find(|paired| paired.panel == panel));
        for (cause, part) in paired.filter_map(|paired| paired.split.ok()).flat_map(super::Parts::iter) {
            let sum = sums.entry(cause).or_default();
            *sum = sum.saturating_add(part.minor().unsigned_abs());
        }
        let most = sums.values().copied().max().filter(|most| *most > 0)?;
        sums.into_iter().find(|(_, sum)| *sum == most).map(|(cause, _)| cause)
    }
}

/// Largest amount less the smallest, of the looks that are priced.
fn at_stake(looks: &[DisputedLook<'_>]) -> Option<Money> {
    let amounts = || looks.iter().filter_map(|look| look.amount);
    let most = amounts().max_by_key(|amount| amount.minor());
    let least = amounts().min_by_key(|amount| amount.minor());
    most.zip(least).and_then(|(most, least)| most.minus(least).ok())
}

fn counts<'a>(looks: &[DisputedLook<'a>]) -> Vec<&'a [u32]> {
    looks.iter().filter_map(|look| look.counts).collect()
}

/// The band in which the counts lie farthest apart, the largest of equal ones: fewest dents are quickest counted again.
fn recount(counts: &[&[u32]]) -> Recount {
    let bands = counts.first().map_or(0, |counts| counts.len());
    let spreads: Vec<u32> = (0..bands)
        .map(|band| {
            let of_band = || counts.iter().filter_map(|counts| counts.get(band)).copied();
            of_band().max().unwrap_or(0) - of_band().min().unwrap_or(0)
        })
        .collect();
    let only = spreads.iter().filter(|apart| **apart > 0).count() == 1;
    match spreads.iter().enumerate().max_by_key(|(band, apart)| (**apart, *band)) {
        Some((size, apart)) if *apart > 0 => {
            Recount::Band { size: u16::try_from(size).unwrap_or(u16::MAX), apart: *apart, only }
        }
        _ => Recount::Notes,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_band_farthest_apart_is_counted_again() {
        assert_eq!(recount(&[&[10, 4, 0], &[12, 9, 0]]), Recount::Band { size: 1, apart: 5, only: false });
        assert_eq!(recount(&[&[10, 4, 0], &[12, 4, 0]]), Recount::Band { size: 0, apart: 2, only: true });
        assert_eq!(recount(&[&[10, 4, 0], &[10, 4, 0]]), Recount::Notes);
    }
}
