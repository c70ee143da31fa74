//! Random workshops with skills, hours, days off, bays and arrivals: whatever the plan, nobody does what they cannot, nobody
//! and no bay is in two places, nothing begins before what it waits for, and every step gets its hours.

use proptest::prelude::*;
use std::collections::BTreeSet;
use stipple::claim::{DaysOff, Place, Skill, SourceId, Weekday, Workshop};
use stipple::plan::{A_DAY, Calendar, Hand, Placed, Shop, Task, morning, planned};
use stipple::quantity::parse_date;

fn skills() -> impl Strategy<Value = Vec<Skill>> {
    prop::sample::subsequence(Skill::ALL.to_vec(), 1..=3)
}

prop_compose! {
    fn hand()(skills in skills(), hours in 1..=10_u64, off in prop::collection::btree_set(0..20_usize, 0..=6)) -> Hand {
        Hand { name: "A".to_owned(), skills, seconds: hours * 3600, off }
    }
}

/// A week with at least Monday worked, and a holiday.
fn calendar() -> impl Strategy<Value = Calendar> {
    (prop::bits::u8::ANY, 0..14_i8).prop_map(|(worked, holiday)| {
        let is_worked = |(number, day): (usize, &Weekday)| (*day, number == 0 || (worked >> number) & 1 == 1);
        let week = Weekday::ALL.iter().enumerate().map(is_worked).collect();
        let day = parse_date(&format!("2026-07-{:02}", 6 + holiday)).unwrap();
        let place = Place::row(SourceId(0), 1);
        let off = DaysOff { place, technician: None, from: day, until: day };
        Calendar::new(
            parse_date("2026-07-06").unwrap(),
            &Workshop { week, days_off: vec![off], ..Workshop::default() },
        )
    })
}

prop_compose! {
    fn shop()(
        calendar in calendar(),
        hands in prop::collection::vec(hand(), 1..=5),
        bays in prop::option::of(prop::collection::vec(prop::option::of(skills()), 1..=4)),
    ) -> Shop {
        let bays = bays.map(|bays| bays.into_iter().map(Option::unwrap_or_default).collect());
        Shop { calendar, hands, bays }
    }
}

/// Cars of up to four steps, one after the other.
fn list() -> impl Strategy<Value = Vec<Task>> {
    let step = (prop::sample::select(Skill::ALL.to_vec()), 1..=200_u64, 0..=12_usize);
    prop::collection::vec(prop::collection::vec(step, 1..=4), 1..=8).prop_map(|cars| {
        let mut tasks: Vec<Task> = Vec::new();
        for car in cars {
            for (index, (skill, tenths, not_before)) in car.into_iter().enumerate() {
                let after = if index == 0 { Vec::new() } else { vec![tasks.len() - 1] };
                tasks.push(Task { skill, seconds: tenths * 360, after, not_before });
            }
        }
        tasks
    })
}

/// Steps that nobody can do or for which there is no bay, and those that wait for them.
fn cannot(tasks: &[Task], shop: &Shop) -> BTreeSet<usize> {
    let mut never = BTreeSet::new();
    for (number, task) in tasks.iter().enumerate() {
        let is_stuck = !shop.has_hand(task.skill) || !shop.has_bay(task.skill);
        if is_stuck || task.after.iter().any(|before| never.contains(before)) {
            never.insert(number);
        }
    }
    never
}

fn apart(spans: &mut [(u64, u64)]) -> bool {
    spans.sort_unstable();
    spans.windows(2).all(|two| two[0].1 <= two[1].0)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn every_plan_can_be_worked_as_it_stands(tasks in list(), shop in shop()) {
        let placed = planned(&tasks, &shop);
        let never = cannot(&tasks, &shop);
        for (number, task) in tasks.iter().enumerate() {
            prop_assert_eq!(placed[number].is_none(), never.contains(&number), "step {}", number);
            let Some(Placed { hand, bay, start, end, days }) = &placed[number] else { continue };
            let hand = &shop.hands[*hand];
            prop_assert!(hand.skills.contains(&task.skill));
            if let (Some(bays), Some(bay)) = (&shop.bays, bay) {
                prop_assert!(bays[*bay].is_empty() || bays[*bay].contains(&task.skill));
            }
            prop_assert_eq!(bay.is_some(), shop.bays.is_some());
            prop_assert!(*start >= morning(task.not_before));
            for before in &task.after {
                prop_assert!(placed[*before].as_ref().is_some_and(|before| before.end <= *start));
            }
            prop_assert_eq!(days.iter().map(|(_, seconds)| seconds).sum::<u64>(), task.seconds);
            for (day, seconds) in days {
                prop_assert!(hand.works(&shop.calendar, *day) && *seconds <= hand.seconds);
            }
            prop_assert!(end % A_DAY <= hand.seconds);
        }
        for hand in 0..shop.hands.len() {
            let own = placed.iter().flatten().filter(|placed| placed.hand == hand);
            prop_assert!(apart(&mut own.map(|placed| (placed.start, placed.end)).collect::<Vec<_>>()));
        }
        for bay in 0..shop.bays.as_ref().map_or(0, Vec::len) {
            let own = placed.iter().flatten().filter(|placed| placed.bay == Some(bay));
            prop_assert!(apart(&mut own.map(|placed| (placed.start, placed.end)).collect::<Vec<_>>()));
        }
    }
}
