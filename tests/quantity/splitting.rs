use crate::records;
use stipple::quantity::largest_remainder;

#[test]
fn totals_are_split_as_published() {
    let rows = records(include_str!("../published/allocation_largest_remainder.csv"));
    for row in &rows {
        let weights: Vec<u64> = row[1].split(' ').map(|weight| weight.parse().unwrap()).collect();
        let parts: Vec<i64> = row[2].split(' ').map(|part| part.parse().unwrap()).collect();
        let total: i64 = row[0].parse().unwrap();
        assert_eq!(largest_remainder(total, &weights), parts, "{row:?}");
        let mirrored: Vec<i64> = parts.iter().map(|part| -part).collect();
        assert_eq!(largest_remainder(-total, &weights), mirrored, "{row:?}");
    }
    assert_eq!(rows.len(), 10);
}

#[test]
fn the_census_of_1790_gives_hamiltons_120_seats() {
    let rows = records(include_str!("../published/hamilton_1791.csv"));
    let populations: Vec<u64> = rows.iter().map(|row| row[1].parse().unwrap()).collect();
    let seats: Vec<i64> = rows.iter().map(|row| row[3].parse().unwrap()).collect();
    assert_eq!(populations.iter().sum::<u64>(), 3_615_920);
    assert_eq!(largest_remainder(120, &populations), seats);
}

/// The law gives every state at least one seat, which the method itself does not know: Nevada's is taken from the state
/// that came last among those rounded up. So Illinois has 18 of 299 seats, and Alabama, with one seat more to give, 7.
#[test]
fn one_seat_more_costs_alabama_one_as_published() {
    let rows = records(include_str!("../published/hamilton_1880_alabama_paradox.csv"));
    let populations: Vec<u64> = rows.iter().map(|row| row[1].parse().unwrap()).collect();
    for (quota, column, seats, last) in [(2, 3, 299, "Illinois"), (4, 5, 300, "Alabama")] {
        let mut parts = largest_remainder(seats, &populations);
        let remainder = |row: &csv::StringRecord| row[quota].split_once('.').unwrap().1.to_owned();
        let whole = |row: &csv::StringRecord| row[quota].split_once('.').unwrap().0.parse::<i64>().unwrap();
        let rounded_up = (0..rows.len()).filter(|index| parts[*index] > whole(&rows[*index]));
        let last_up = rounded_up.min_by_key(|index| remainder(&rows[*index])).unwrap();
        assert_eq!(&rows[last_up][0], last);
        let nevada = rows.iter().position(|row| &row[0] == "Nevada").unwrap();
        parts[last_up] -= 1;
        parts[nevada] += 1;
        let published: Vec<i64> = rows.iter().map(|row| row[column].parse().unwrap()).collect();
        assert_eq!(parts, published, "{seats} seats");
    }
}

#[test]
fn a_part_may_shrink_when_the_total_grows_which_is_the_methods_own() {
    assert_eq!(largest_remainder(10, &[6, 6, 2]), [4, 4, 2]);
    assert_eq!(largest_remainder(11, &[6, 6, 2]), [5, 5, 1]);
}

#[test]
fn parts_sum_to_the_total_at_its_far_ends() {
    for total in [i64::MIN, i64::MIN + 1, -1, 0, 1, i64::MAX] {
        for weights in [&[1_u64][..], &[u64::MAX, 1, u64::MAX], &[3, 3, 3, 1]] {
            let sum: i128 = largest_remainder(total, weights).into_iter().map(i128::from).sum();
            assert_eq!(sum, i128::from(total), "{total} over {weights:?}");
        }
    }
    assert_eq!(largest_remainder(5, &[0, 0]), [0, 0]);
    assert!(largest_remainder(5, &[]).is_empty());
}
