//! How often habits and slips are named, and how often wolf is cried, over many simulated batches: by the rules alone, on
//! counts, without documents. What comes out is what the page of comparing prints.

use super::whole::{Car, PANELS, careful, cars, pair, swapped, to_tens, told};
use stipple::claim::{PanelId, PanelKind, Side};
use stipple::compare::habit::{Blanks, Digits, Facing, Rounded, Sheets, Slip, blanks, slips};
use stipple::compare::statistics::standing::against_the_others;
use stipple::compare::statistics::{Level, Random};

/// Batches of each habit; seeds are 1000 and up.
const BATCHES: u64 = 400;

/// The panels that the counts are of.
fn panels() -> Vec<PanelId> {
    let of = |(name, _): &(&str, u64)| {
        let (side, kind) = match name.split_once(' ') {
            Some(("left", kind)) => (Some(Side::Left), kind),
            Some(("right", kind)) => (Some(Side::Right), kind),
            _ => (None, *name),
        };
        PanelId::new(*PanelKind::ALL.iter().find(|known| known.name() == kind).unwrap(), side)
    };
    PANELS.iter().map(of).collect()
}

fn small(count: &[u64; 3]) -> Vec<u32> {
    count.iter().map(|dents| u32::try_from(*dents).unwrap()).collect()
}

fn found(one: &Car, other: &Car) -> Vec<Slip> {
    let facing = panels().into_iter().zip(one.iter().zip(other));
    let facing = facing.map(|(panel, (a, b))| Facing { panel, a: small(a), b: small(b) });
    slips(&facing.collect::<Vec<_>>()).into_iter().map(|found| found.slip).collect()
}

fn rounded(cars: &[Car]) -> Option<Rounded> {
    let mut digits = Digits::default();
    cars.iter().flatten().flat_map(small).for_each(|dents| digits.add(dents));
    digits.rounded()
}

/// A slip on the fourth of fifteen cars: whether it is named there, and whether anything is named on a careful car.
fn slip(spoil: impl Fn(&Car) -> Car, is: impl Fn(&Slip) -> bool) -> (u64, u64) {
    told(BATCHES, |random| {
        let (one, mut other) = pair(random, 15);
        other[3] = spoil(&other[3]);
        let there = found(&one[3], &other[3]).iter().any(&is);
        let careful = one.iter().zip(&other).enumerate().filter(|(number, _)| *number != 3);
        (there, careful.map(|(_, (one, other))| found(one, other)).any(|found| !found.is_empty()))
    })
}

/// Sheets of fifteen cars on which a size without dents is left blank, or is a zero.
fn sheets(cars: &[Car], leaves_blank: bool) -> Sheets {
    let lacks =
        |car: &&Car| car.iter().any(|count| count.contains(&0) && count.iter().any(|dents| *dents > 0));
    let lacking = cars.iter().filter(lacks).count();
    let (with_blanks, with_zeros) = if leaves_blank { (lacking, 0) } else { (0, lacking) };
    Sheets { all: cars.len(), with_blanks, with_zeros }
}

/// Whether the third of four people stands out who counted fourteen cars, and whether anybody does of careful people.
fn misses_one_in(share: u64) -> (u64, u64) {
    told(BATCHES, |random| {
        let truth = cars(random, 14);
        let people: Vec<Vec<Car>> = (0..4).map(|_| careful(random, &truth)).collect();
        let mut few = people.clone();
        for count in few[2].iter_mut().flatten() {
            count[0] -= count[0] / share;
        }
        let stand_out = |people: &[Vec<Car>]| -> Vec<bool> {
            let sum = |car: &Car| u32::try_from(car.iter().flatten().sum::<u64>()).unwrap();
            let units: Vec<Vec<Option<u32>>> =
                (0..14).map(|car| people.iter().map(|cars| Some(sum(&cars[car]))).collect()).collect();
            let places = against_the_others(&units, 4, Level::NINETY_FIVE);
            places.iter().map(stipple::compare::statistics::standing::PairedPlace::stands_out).collect()
        };
        (stand_out(&few)[2], stand_out(&people).contains(&true))
    })
}

fn habits() -> Vec<(&'static str, &'static str, (u64, u64))> {
    let tens = told(BATCHES, |random: &mut Random| {
        let (_, other) = pair(random, 15);
        (rounded(&to_tens(other.clone())).is_some_and(|found| found.to == 10), rounded(&other).is_some())
    });
    let zeros = told(BATCHES, |random: &mut Random| {
        let (one, other) = pair(random, 15);
        let named = |own, others| blanks(own, others) == Some(Blanks::WritesZeros);
        let there = named(sheets(&other, false), sheets(&one, true));
        (there, blanks(sheets(&other, true), sheets(&one, true)).is_some())
    });
    let shifted = |car: &Car| car.iter().map(|count| [0, count[0], count[1] + count[2]]).collect();
    let twice = |car: &Car| {
        let mut car = car.clone();
        car[1] = car[1].map(|dents| 2 * dents);
        car
    };
    let exchanged = |car: &Car| {
        let mut car = car.clone();
        car.swap(1, 5);
        car
    };
    vec![
        ("rounds to tens", "15 cars", tens),
        ("blanks written as zeros", "15 cars", zeros),
        (
            "left and right exchanged",
            "1 car of 15",
            slip(swapped, |found| matches!(found, Slip::SidesExchanged(_))),
        ),
        (
            "two panels exchanged",
            "1 car of 15",
            slip(exchanged, |found| matches!(found, Slip::PanelsExchanged(..))),
        ),
        ("a column one band too high", "1 car of 15", slip(shifted, |found| *found == Slip::BandsShifted(1))),
        ("a panel counted twice", "1 car of 15", slip(twice, |found| matches!(found, Slip::CountedTwice(_)))),
        ("misses one small dent in six", "14 cars, 4 people", misses_one_in(6)),
        ("misses one small dent in ten", "14 cars, 4 people", misses_one_in(10)),
    ]
}

#[test]
fn how_often_habits_are_named_is_what_the_page_says() {
    let page = include_str!("../../src/compare/README.md");
    let row = |(habit, batch, (named, wolf))| {
        format!("| {habit} | {batch} | {named} of {BATCHES} | {wolf} of {BATCHES} |")
    };
    let rows: Vec<String> = habits().into_iter().map(row).collect();
    let lacking: Vec<&String> = rows.iter().filter(|row| !page.contains(row.as_str())).collect();
    assert!(lacking.is_empty(), "the page lacks:\n{lacking:#?}");
}
