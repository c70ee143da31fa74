use crate::claim::{PanelId, Side};

/// Fewest dents of difference that a slip has to remove.
const LEAST: u64 = 10;
/// What may remain of the difference on the panels that a slip concerns: one part in this many.
const REMAINS: u64 = 5;

/// One panel that both looks inspected: dents by size band of the schedule.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Facing {
    /// Which panel.
    pub panel: PanelId,
    /// The first look's dents.
    pub a: Vec<u32>,
    /// The second look's dents.
    pub b: Vec<u32>,
}

impl Facing {
    fn difference(&self) -> u64 {
        apart(&self.a, &self.b)
    }
}

/// A way in which one look at a car may have been written down wrongly. It does not say whose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Slip {
    /// Left and right panels are exchanged on these kinds of panel (their left ones are named).
    SidesExchanged(Vec<PanelId>),
    /// Two panels are exchanged.
    PanelsExchanged(PanelId, PanelId),
    /// All counts of the second look stand so many size bands too high (positive) or too low.
    BandsShifted(i8),
    /// A panel of the second look repeats the sum of its other panels.
    TotalAsPanel(PanelId),
    /// One look has about twice the other's dents on this panel alone, as if its rows were counted twice.
    CountedTwice(PanelId),
}

/// A slip that would explain most of a difference.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Suggestion {
    /// What it looks like.
    pub slip: Slip,
    /// Difference in dents, over all bands of the panels it concerns, as written.
    pub before: u64,
    /// The same if the slip is undone.
    pub after: u64,
}

/// Looks for slips between two looks at one car. The strongest explanations come first; explanations of the same panels
/// by a weaker one are left out.
pub fn slips(car: &[Facing]) -> Vec<Suggestion> {
    let mut found = Vec::new();
    found.extend(sides(car));
    found.extend(shifted(car));
    found.extend(total_as_panel(car));
    found.extend(twice(car));
    if !found.iter().any(|suggestion: &Suggestion| matches!(suggestion.slip, Slip::SidesExchanged(_))) {
        found.extend(panels(car));
    }
    found.sort_by_key(|suggestion| std::cmp::Reverse(suggestion.before - suggestion.after));
    found
}

fn convincing(slip: Slip, before: u64, after: u64) -> Option<Suggestion> {
    let is = before.saturating_sub(after) >= LEAST && after.saturating_mul(REMAINS) <= before;
    is.then_some(Suggestion { slip, before, after })
}

/// Left and right exchanged, over every kind of panel of which both sides were inspected. One kind alone could be two
/// panels exchanged; it is told as that.
fn sides(car: &[Facing]) -> Option<Suggestion> {
    let pairs: Vec<(&Facing, &Facing)> = car
        .iter()
        .filter(|left| left.panel.side == Some(Side::Left))
        .filter_map(|left| {
            let other = PanelId::new(left.panel.kind, Some(Side::Right));
            car.iter().find(|right| right.panel == other).map(|right| (left, right))
        })
        .collect();
    let differing = pairs.iter().filter(|(left, right)| left.difference() + right.difference() > 0);
    if differing.count() < 2 {
        return None;
    }
    let before = pairs.iter().map(|(left, right)| left.difference() + right.difference()).sum();
    let after = pairs.iter().map(|(left, right)| apart(&left.a, &right.b) + apart(&right.a, &left.b)).sum();
    convincing(Slip::SidesExchanged(pairs.iter().map(|(left, _)| left.panel).collect()), before, after)
}

fn panels(car: &[Facing]) -> Vec<Suggestion> {
    let mut found = Vec::new();
    for (index, p) in car.iter().enumerate() {
        for q in &car[index + 1..] {
            // Exchanged panels differ both ways; a panel that agrees as it stands was not exchanged.
            if p.difference() == 0 || q.difference() == 0 {
                continue;
            }
            let before = p.difference() + q.difference();
            let after = apart(&p.a, &q.b) + apart(&q.a, &p.b);
            found.extend(convincing(Slip::PanelsExchanged(p.panel, q.panel), before, after));
        }
    }
    found
}

fn shifted(car: &[Facing]) -> Option<Suggestion> {
    let before: u64 = car.iter().map(Facing::difference).sum();
    let moved = |by: i8| -> u64 {
        car.iter()
            .map(|facing| {
                let (lower, higher): (&[u32], &[u32]) =
                    if by > 0 { (&facing.a, &facing.b) } else { (&facing.b, &facing.a) };
                let (Some((fallen_off, _)), Some((_, kept))) = (higher.split_first(), higher.split_first())
                else {
                    return 0;
                };
                // What stands in the last band of the lower one has nothing to face.
                let faced = kept.len();
                apart(&lower[..faced], kept)
                    + u64::from(*fallen_off)
                    + lower[faced..].iter().map(|dents| u64::from(*dents)).sum::<u64>()
            })
            .sum()
    };
    [1_i8, -1].into_iter().find_map(|by| convincing(Slip::BandsShifted(by), before, moved(by)))
}

fn total_as_panel(car: &[Facing]) -> Option<Suggestion> {
    car.iter().find_map(|panel| {
        let others: Vec<u32> = (0..panel.b.len())
            .map(|band| {
                car.iter()
                    .filter(|other| other.panel != panel.panel)
                    .filter_map(|other| other.b.get(band))
                    .fold(0, |sum: u32, dents| sum.saturating_add(*dents))
            })
            .collect();
        let repeats = panel.b == others && others.iter().filter(|dents| **dents > 0).count() >= 2;
        // Undone, the panel agrees: what it should hold is not known from the sheet.
        if repeats { convincing(Slip::TotalAsPanel(panel.panel), panel.difference(), 0) } else { None }
    })
}

/// One panel doubled, while the two agree on the other panels: their sums lie within one in five of each other there.
fn twice(car: &[Facing]) -> Option<Suggestion> {
    let sum = |counts: &[u32]| counts.iter().map(|dents| u64::from(*dents)).sum::<u64>();
    let (all_a, all_b) = car.iter().fold((0, 0), |(a, b), facing| (a + sum(&facing.a), b + sum(&facing.b)));
    let mut found = car.iter().filter_map(|panel| {
        let (rest_a, rest_b) = (all_a - sum(&panel.a), all_b - sum(&panel.b));
        let is_usual = rest_a.min(rest_b) > 0 && rest_a.abs_diff(rest_b) * 5 <= rest_a.max(rest_b);
        let (less, more) =
            if sum(&panel.a) < sum(&panel.b) { (&panel.a, &panel.b) } else { (&panel.b, &panel.a) };
        let half: Vec<u32> = more.iter().map(|dents| dents.div_ceil(2)).collect();
        let slip = Slip::CountedTwice(panel.panel);
        is_usual.then(|| convincing(slip, panel.difference(), apart(less, &half))).flatten()
    });
    // Two such panels on a car are no slip of one row.
    found.next().filter(|_| found.next().is_none())
}

fn apart(a: &[u32], b: &[u32]) -> u64 {
    a.iter().zip(b).map(|(x, y)| u64::from(x.abs_diff(*y))).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::claim::PanelKind;

    fn facing(kind: PanelKind, side: Option<Side>, a: &[u32], b: &[u32]) -> Facing {
        Facing { panel: PanelId::new(kind, side), a: a.to_vec(), b: b.to_vec() }
    }

    fn both(kind: PanelKind, left: (&[u32], &[u32]), right: (&[u32], &[u32])) -> [Facing; 2] {
        [facing(kind, Some(Side::Left), left.0, left.1), facing(kind, Some(Side::Right), right.0, right.1)]
    }

    #[test]
    fn sides_exchanged_on_several_panels_are_named_once() {
        let mut car = Vec::new();
        car.extend(both(PanelKind::FrontDoor, (&[20, 4], &[2, 0]), (&[2, 0], &[20, 4])));
        car.extend(both(PanelKind::Fender, (&[9, 1], &[1, 1]), (&[1, 1], &[9, 1])));
        let found = slips(&car);
        assert_eq!(found.len(), 1);
        assert!(matches!(&found[0].slip, Slip::SidesExchanged(kinds) if kinds.len() == 2));
        assert_eq!(found[0].after, 0);
    }

    #[test]
    fn hood_and_roof_exchanged_are_two_panels() {
        let car = [
            facing(PanelKind::Hood, None, &[40, 5], &[12, 1]),
            facing(PanelKind::Roof, None, &[12, 1], &[40, 5]),
        ];
        assert!(matches!(slips(&car)[0].slip, Slip::PanelsExchanged(..)));
    }

    #[test]
    fn a_column_off_by_one_is_a_shift() {
        let car = [
            facing(PanelKind::Hood, None, &[30, 8, 0], &[0, 30, 8]),
            facing(PanelKind::Roof, None, &[25, 3, 0], &[0, 25, 3]),
        ];
        assert_eq!(slips(&car)[0].slip, Slip::BandsShifted(1));
        let turned: Vec<Facing> =
            car.iter().map(|f| Facing { a: f.b.clone(), b: f.a.clone(), ..f.clone() }).collect();
        assert_eq!(slips(&turned)[0].slip, Slip::BandsShifted(-1));
    }

    #[test]
    fn a_totals_row_taken_for_a_panel_is_named() {
        let car = [
            facing(PanelKind::Hood, None, &[30, 8], &[29, 8]),
            facing(PanelKind::Roof, None, &[25, 3], &[26, 3]),
            facing(PanelKind::Tailgate, None, &[2, 0], &[55, 11]),
        ];
        assert!(matches!(slips(&car)[0].slip, Slip::TotalAsPanel(_)));
    }

    #[test]
    fn a_panel_with_twice_the_dents_is_named_where_the_others_agree() {
        let hood = facing(PanelKind::Hood, None, &[30, 8], &[60, 16]);
        let roof = facing(PanelKind::Roof, None, &[25, 3], &[26, 4]);
        let found = slips(&[hood.clone(), roof]);
        assert_eq!(found.len(), 1);
        assert_eq!((&found[0].slip, found[0].after), (&Slip::CountedTwice(hood.panel), 0));
        let roof = facing(PanelKind::Roof, None, &[25, 3], &[50, 6]);
        assert!(slips(&[hood, roof]).is_empty());
    }

    #[test]
    fn ordinary_disagreement_is_no_slip() {
        let car = [
            facing(PanelKind::Hood, None, &[30, 8, 1], &[34, 6, 0]),
            facing(PanelKind::Roof, None, &[25, 3, 0], &[21, 5, 1]),
        ];
        assert!(slips(&car).is_empty());
        assert!(slips(&[]).is_empty());
    }
}
