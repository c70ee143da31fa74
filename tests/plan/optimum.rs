//! The rule against the best plan there is, found by trying every order and every machine: never better, and where all can do
//! everything and work the same hours never beyond Graham's bound of 2 - 1/m.

use crate::graham::{ends, machines};
use proptest::prelude::*;
use stipple::claim::Skill;
use stipple::plan::Task;

/// The earliest end of all plans: every step in every order that its waits allow, on every machine, as early as it can. Some
/// best plan is among these, for a step may begin earlier until something keeps it from that.
fn best(tasks: &[Task], machines: usize) -> u64 {
    fn search(tasks: &[Task], ends: &mut Vec<Option<u64>>, free: &mut Vec<u64>, best: &mut u64) {
        if let Some(last) = ends.iter().copied().collect::<Option<Vec<u64>>>() {
            *best = (*best).min(last.into_iter().max().unwrap_or(0));
            return;
        }
        for number in 0..tasks.len() {
            let before: Option<Vec<u64>> = tasks[number].after.iter().map(|before| ends[*before]).collect();
            let (None, Some(before)) = (ends[number], before) else { continue };
            let ready = before.into_iter().max().unwrap_or(0);
            for machine in 0..free.len() {
                // Machines that are free at one time are alike.
                if free[..machine].contains(&free[machine]) {
                    continue;
                }
                let was = free[machine];
                let end = was.max(ready) + tasks[number].seconds;
                if end < *best {
                    (free[machine], ends[number]) = (end, Some(end));
                    search(tasks, ends, free, best);
                    (free[machine], ends[number]) = (was, None);
                }
            }
        }
    }
    let mut best = u64::MAX;
    search(tasks, &mut vec![None; tasks.len()], &mut vec![0; machines], &mut best);
    best
}

/// Up to six steps, each of which may wait for earlier ones.
fn tasks() -> impl Strategy<Value = Vec<Task>> {
    prop::collection::vec((1..=9_u64, prop::bits::u8::ANY), 1..=6).prop_map(|steps| {
        let task = |(number, (seconds, waits)): (usize, (u64, u8))| Task {
            skill: Skill::Paintless,
            seconds,
            // A step in three waits for each earlier one, or so.
            after: (0..number)
                .filter(|before| (waits >> before) & 1 == 1 && (number + before) % 2 == 1)
                .collect(),
            not_before: 0,
        };
        steps.into_iter().enumerate().map(task).collect()
    })
}

#[test]
fn the_solver_finds_the_best_plan_of_the_published_examples() {
    use crate::graham::list;
    let nine: [(u64, &[usize]); 9] =
        [(3, &[]), (2, &[]), (2, &[]), (2, &[]), (4, &[3]), (4, &[3]), (4, &[3]), (4, &[3]), (9, &[0])];
    assert_eq!(best(&list(&nine), 3), 12);
    assert_eq!(best(&list(&[(1, &[]), (1, &[]), (2, &[])]), 2), 2);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn a_plan_is_never_better_than_the_best_and_never_beyond_grahams_bound(tasks in tasks(), number in 1..=3_usize) {
        let best = best(&tasks, number);
        let taken = ends(&tasks, &machines(number));
        prop_assert!(taken >= best, "{taken} is better than {best}");
        let m = u64::try_from(number).unwrap();
        prop_assert!(m * taken <= (2 * m - 1) * best, "{taken} is beyond the bound of {best} on {m} machines");
    }
}
