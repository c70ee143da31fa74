//! The worked example and the worst case of R. L. Graham, Bounds on multiprocessing timing anomalies, SIAM Journal on Applied
//! Mathematics 17 (1969), 416-429, and Bounds for certain multiprocessing anomalies, Bell System Technical Journal 45 (1966),
//! 1563-1581. Values from memory; each was drawn again by hand.

use std::collections::BTreeSet;
use stipple::claim::{Skill, Weekday, Workshop};
use stipple::plan::{Calendar, Hand, Shop, Task, planned};
use stipple::quantity::parse_date;

/// So many people who can do one thing, around the clock.
pub fn machines(number: usize) -> Shop {
    let week = Weekday::ALL.iter().map(|day| (*day, true)).collect();
    let calendar =
        Calendar::new(parse_date("2026-07-06").unwrap(), &Workshop { week, ..Workshop::default() });
    let hand = |number: usize| Hand {
        name: format!("P{number}"),
        skills: vec![Skill::Paintless],
        seconds: 86_400,
        off: BTreeSet::new(),
    };
    Shop { calendar, hands: (1..=number).map(hand).collect(), bays: None }
}

/// Steps of these lengths, each after these others, by their numbers from 0.
pub fn list(steps: &[(u64, &[usize])]) -> Vec<Task> {
    let task = |(seconds, after): &(u64, &[usize])| Task {
        skill: Skill::Paintless,
        seconds: *seconds,
        after: after.to_vec(),
        not_before: 0,
    };
    steps.iter().map(task).collect()
}

/// When the last step ends.
pub fn ends(tasks: &[Task], shop: &Shop) -> u64 {
    planned(tasks, shop).into_iter().map(|placed| placed.unwrap().end).max().unwrap()
}

/// T1 before T9; T4 before T5 to T8.
const EXAMPLE: [(u64, &[usize]); 9] =
    [(3, &[]), (2, &[]), (2, &[]), (2, &[]), (4, &[3]), (4, &[3]), (4, &[3]), (4, &[3]), (9, &[0])];

#[test]
fn the_published_example_takes_twelve_on_three_machines() {
    assert_eq!(ends(&list(&EXAMPLE), &machines(3)), 12);
}

#[test]
fn one_more_machine_makes_the_published_example_longer() {
    assert_eq!(ends(&list(&EXAMPLE), &machines(4)), 15);
}

#[test]
fn shorter_steps_make_the_published_example_longer() {
    let shorter = EXAMPLE.map(|(seconds, after)| (seconds - 1, after));
    assert_eq!(ends(&list(&shorter), &machines(3)), 13);
}

#[test]
fn fewer_steps_to_wait_for_make_the_published_example_longer() {
    let mut fewer = EXAMPLE;
    (fewer[4].1, fewer[5].1) = (&[], &[]);
    assert_eq!(ends(&list(&fewer), &machines(3)), 16);
}

#[test]
fn another_order_of_the_list_makes_the_published_example_longer() {
    // T1, T2, T4, T5, T6, T3, T9, T7, T8.
    let other: [(u64, &[usize]); 9] =
        [(3, &[]), (2, &[]), (2, &[]), (4, &[2]), (4, &[2]), (2, &[]), (9, &[0]), (4, &[2]), (4, &[2])];
    assert_eq!(ends(&list(&other), &machines(3)), 14);
}

#[test]
fn the_worst_case_reaches_the_bound() {
    // m (m - 1) steps of 1 before one of m: the best plan takes m, the list 2 m - 1.
    for machines_number in 2..=6_usize {
        let m = u64::try_from(machines_number).unwrap();
        let mut steps: Vec<(u64, &[usize])> = vec![(1, &[]); machines_number * (machines_number - 1)];
        steps.push((m, &[]));
        let shop = machines(machines_number);
        assert_eq!(ends(&list(&steps), &shop), 2 * m - 1, "{m} machines");
        steps.rotate_right(1);
        assert_eq!(ends(&list(&steps), &shop), m, "{m} machines, the long step first");
    }
}
