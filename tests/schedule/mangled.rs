//! Whatever stands in the cells of a schedule, reading it ends: with a schedule that stands, or with errors that say where.

use crate::support::{Outcome, Tables};
use proptest::prelude::*;
use stipple::problem::Severity;

/// What people, programs and accidents leave in cells.
const ODD: &[&str] = &[
    "",
    "0",
    "-1",
    "1",
    "0.1",
    "99999",
    "99999999999999999999",
    "0.00000000001",
    "1e400",
    "NaN",
    "1/0 mm",
    "1/2 in",
    "9223372036854775807 mm",
    "100000000000000 in",
    "work units 3600000000",
    "2026-13-45",
    "-100 %",
    "=1+1",
    "any",
    "none",
    "horizontal",
    "hood",
    "roof",
    "small",
    "1-4",
    "dents of ",
    "equivalents",
    "largest with share",
    "most frequent",
    "rated as",
    "gives",
    "count band",
    "\u{202e}\u{0}\u{1F697}",
    ";;;",
];

fn mangled(changes: &[(usize, usize, usize, usize)]) -> Tables {
    let mut tables = Tables::of_the_page();
    for (table, row, column, odd) in changes {
        let count = tables.0.len();
        let text = &mut tables.0[table % count].1;
        let mut rows: Vec<Vec<String>> =
            text.lines().map(|line| line.split(',').map(str::to_owned).collect()).collect();
        let count = rows.len();
        let cells = &mut rows[row % count];
        let count = cells.len();
        ODD[odd % ODD.len()].clone_into(&mut cells[column % count]);
        *text = rows.iter().map(|cells| cells.join(",")).collect::<Vec<_>>().join("\n");
    }
    tables
}

fn holds_together(outcome: &Outcome) {
    let errors: Vec<_> =
        outcome.problems.iter().filter(|problem| problem.severity() == Severity::Error).collect();
    let Some(schedule) = &outcome.schedule else {
        assert!(!errors.is_empty(), "a schedule that does not stand says why");
        assert!(errors.iter().all(|problem| problem.place.is_some()), "{}", outcome.text());
        return;
    };
    assert!(errors.is_empty(), "{}", outcome.text());
    let sizes = &schedule.sizes;
    assert!(sizes.iter().all(|band| band.low < band.high) && sizes[0].low.nanometres() == 0);
    assert!(sizes.windows(2).all(|pair| pair[0].high == pair[1].low));
    let counts = &schedule.counts;
    assert_eq!(counts[0].from, 1);
    assert!(counts.windows(2).all(|pair| pair[0].to.map(|to| to + 1) == Some(pair[1].from)));
    assert!(schedule.panels.iter().all(|panel| usize::from(panel.group.0) < schedule.groups.len()));
    assert_eq!(schedule.taxes.len(), 3);
    assert!(schedule.factors.windows(2).all(|pair| pair[0].order <= pair[1].order));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_schedule_with_odd_cells_stands_or_says_where_it_does_not(
        changes in prop::collection::vec((0..64_usize, 0..64_usize, 0..64_usize, 0..ODD.len()), 1..6)
    ) {
        holds_together(&mangled(&changes).read());
    }
}

#[test]
fn one_odd_value_down_a_whole_column_is_survived() {
    for (table, rows) in [(0, 20), (3, 4), (4, 4)] {
        for odd in 0..ODD.len() {
            let changes: Vec<_> = (1..rows).map(|row| (table, row, 1, odd)).collect();
            holds_together(&mangled(&changes).read());
        }
    }
}
