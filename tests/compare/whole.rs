//! Whole comparisons of invented batches: what must hold whatever was counted, and whether known habits are named.

use std::fmt::Write as _;
use std::fs;
use std::path::PathBuf;
use stipple::claim::Intake;
use stipple::compare::comparison::{CarComparison, Comparison, NoComparison, Options, compare};
use stipple::compare::habit::Slip;
use stipple::compare::money::{Cause, Share};
use stipple::compare::statistics::Random;
use stipple::schedule::Schedule;
use stipple::table::{Table, recognise};
use tempfile::TempDir;

/// Panels with the dents they have on average.
pub const PANELS: [(&str, u64); 8] = [
    ("hood", 40),
    ("roof", 60),
    ("left fender", 9),
    ("right fender", 14),
    ("left front door", 5),
    ("right front door", 24),
    ("left rear door", 4),
    ("right rear door", 18),
];

const SCHEDULE: [(&str, &str); 7] = [
    (
        "terms.csv",
        "term,value\nschedule,Invented prices\nedition,2026\nsource,invented for tests\nholds for,any\n\
         currency,EUR\nvalid from,2026-01-01\nrounding,half away from zero\nmixed sizes,each band\n",
    ),
    ("taxes.csv", "tax on,percent\nlabour,20\nparts,20\npaint material,20\n"),
    ("labour.csv", "labour,per hour\npaintless,80.00\n"),
    ("sizes.csv", "size band,from mm,to mm\nsmall,0,10\nmiddle,10,20\nlarge,20,40\n"),
    ("bands.csv", "count band,from dents,to dents\n1 to 10,1,10\n11 to 50,11,50\n51 to 999,51,999\n"),
    (
        "panels.csv",
        "panel,rated as,lies,joined\nhood,top,horizontal,bolted\nroof,top,horizontal,welded\n\
         fender,side,vertical,bolted\nfront door,side,vertical,bolted\nrear door,side,vertical,bolted\n",
    ),
    (
        "rates.csv",
        "rated as,size band,count band,amount\ntop,small,1 to 10,45.01\ntop,small,11 to 50,90.07\n\
         top,small,51 to 999,190.00\ntop,middle,1 to 10,60.00\ntop,middle,11 to 50,130.00\n\
         top,middle,51 to 999,230.00\ntop,large,1 to 10,75.00\ntop,large,11 to 50,170.00\n\
         top,large,51 to 999,290.00\nside,small,1 to 10,40.00\nside,small,11 to 50,80.03\n\
         side,small,51 to 999,150.00\nside,middle,1 to 10,55.00\nside,middle,11 to 50,115.00\n\
         side,middle,51 to 999,195.00\nside,large,1 to 10,70.00\nside,large,11 to 50,140.00\n\
         side,large,51 to 999,240.00\n",
    ),
];

/// One count of one panel: small, middle, large.
pub type Count = [u64; 3];
/// A car: its panels' counts.
pub type Car = Vec<Count>;
/// A person's counts, car by car.
type Counts = (String, Vec<Car>);

fn read(text: &str) -> (Vec<Intake>, Vec<Schedule>) {
    read_all(&[("counts.csv", text)])
}

/// Claims from these tables, and the invented prices.
pub fn read_all(tables: &[(&str, &str)]) -> (Vec<Intake>, Vec<Schedule>) {
    let folder = TempDir::new().unwrap();
    let claims: Vec<PathBuf> = tables.iter().map(|(name, _)| folder.path().join(name)).collect();
    for (path, (_, text)) in claims.iter().zip(tables) {
        fs::write(path, text).unwrap();
    }
    fs::create_dir(folder.path().join("prices")).unwrap();
    for (name, table) in SCHEDULE {
        fs::write(folder.path().join("prices").join(name), table).unwrap();
    }
    let opened = stipple::read::open(&claims);
    let tables: Vec<Table<'_>> =
        opened.sheets.iter().flat_map(|sheet| recognise(sheet, stipple::read::forms()).tables).collect();
    let (intakes, _) = stipple::read::gather(&tables, &opened.sources);
    let opened = stipple::read::open(&[folder.path().join("prices")]);
    let tables: Vec<Table<'_>> =
        opened.sheets.iter().flat_map(|sheet| recognise(sheet, stipple::schedule::forms()).tables).collect();
    let tables: Vec<&Table<'_>> = tables.iter().collect();
    let (schedule, _) = stipple::schedule::read(&tables, &opened.files, &opened.sources)
        .map_err(|problems| format!("{problems:?}"))
        .unwrap();
    (intakes, vec![schedule])
}

fn sheet(people: &[Counts]) -> String {
    let mut text = "job,date of inspection,assessor,role,panel,0-10 mm,10-20 mm,20-40 mm\n".to_owned();
    for (number, (name, cars)) in people.iter().enumerate() {
        let role = if number == 0 { "own" } else { "second" };
        for (car, panels) in cars.iter().enumerate() {
            for ((panel, _), [small, middle, large]) in PANELS.iter().zip(panels) {
                let _ = writeln!(text, "J-{car},2026-06-20,{name},{role},{panel},{small},{middle},{large}");
            }
        }
    }
    text
}

fn compared(people: &[Counts]) -> Comparison {
    let (intakes, schedules) = read(&sheet(people));
    compare(&intakes[..], &schedules, &Options::default()).unwrap()
}

/// What is really there.
pub fn cars(random: &mut Random, number: usize) -> Vec<Car> {
    let count = |random: &mut Random, mean: u64| {
        let dents = mean / 2 + random.below(mean + 1);
        let middle = dents / 4 + random.below(2);
        [dents.saturating_sub(middle), middle, random.below(3)]
    };
    (0..number).map(|_| PANELS.iter().map(|(_, mean)| count(random, *mean)).collect()).collect()
}

/// A careful count of what is there: a dent here and there is missed or seen twice.
pub fn careful(random: &mut Random, truth: &[Car]) -> Vec<Car> {
    let near = |random: &mut Random, dents: u64| {
        let miss = (0..dents).filter(|_| random.below(20) == 0).count() as u64;
        let twice = (0..dents).filter(|_| random.below(40) == 0).count() as u64;
        dents - miss + twice
    };
    truth.iter().map(|car| car.iter().map(|count| count.map(|dents| near(random, dents))).collect()).collect()
}

fn named(name: &str, cars: Vec<Car>) -> Counts {
    (name.to_owned(), cars)
}

pub fn pair(random: &mut Random, number: usize) -> (Vec<Car>, Vec<Car>) {
    let truth = cars(random, number);
    (careful(random, &truth), careful(random, &truth))
}

#[test]
fn a_sheet_against_itself_shows_nothing() {
    let (one, _) = pair(&mut Random::new(1), 12);
    let comparison = compared(&[named("Ada", one.clone()), named("Bo", one)]);
    let page = &comparison.overall.page_one;
    assert_eq!(page.bias.value, Ok(0.0));
    assert_eq!(page.spread.value, Ok(0.0));
    assert_eq!(page.same_band.value, Ok(1.0));
    assert_eq!(page.same_decision.value, Ok(1.0));
    let money = &comparison.overall.money[0];
    assert!(money.difference.is_zero() && money.gross.is_zero());
    assert!(money.causes.is_empty() && money.turns.is_empty() && money.carry_most == 0);
    assert!(comparison.cars.iter().all(|car| car.to_agree.is_empty() && car.pairs[0].slips.is_empty()));
    assert!(comparison.everyone.outliers.is_empty());
}

#[test]
fn swapping_the_people_flips_signs_and_nothing_else() {
    let (one, other) = pair(&mut Random::new(2), 12);
    let forth = compared(&[named("Ada", one.clone()), named("Bo", other.clone())]);
    let back = compared(&[named("Ada", other), named("Bo", one)]);
    assert_eq!(forth.overall.page_one.bias.value, back.overall.page_one.bias.value.map(|bias| -bias));
    assert_eq!(forth.overall.page_one.spread, back.overall.page_one.spread);
    assert_eq!(forth.overall.page_one.same_band.value, back.overall.page_one.same_band.value);
    let splits = |comparison: &Comparison, sign: i64| -> Vec<Vec<(Cause, i64)>> {
        let panels = comparison.cars.iter().flat_map(|car| car.panels(&car.pairs[0]));
        panels
            .map(|panel| {
                let parts = panel.split.unwrap();
                parts.iter().map(|(cause, part)| (cause, sign * part.minor())).collect()
            })
            .collect()
    };
    assert_eq!(splits(&forth, 1), splits(&back, -1));
    assert_eq!(forth.overall.money[0].difference.minor(), -back.overall.money[0].difference.minor());
    assert_eq!(forth.overall.money[0].gross, back.overall.money[0].gross);
}

#[test]
fn the_split_adds_up_on_every_panel_and_over_the_batch() {
    let (one, other) = pair(&mut Random::new(3), 25);
    let comparison = compared(&[named("Ada", one), named("Bo", other)]);
    for panel in comparison.cars.iter().flat_map(|car| car.panels(&car.pairs[0])) {
        let parts: i64 = panel.split.unwrap().iter().map(|(_, part)| part.minor()).sum();
        let (first, second) = panel.amounts().unwrap();
        assert_eq!(parts, first.minor() - second.minor());
    }
    let money = &comparison.overall.money[0];
    assert!(money.gross.minor() > 0);
    let sum = |nets: &mut dyn Iterator<Item = i64>| nets.sum::<i64>();
    assert_eq!(sum(&mut money.causes.iter().map(|of| of.net.minor())), money.difference.minor());
    assert_eq!(sum(&mut money.turns.iter().map(|of| of.net.minor())), money.difference.minor());
    for car in &comparison.cars {
        let vehicle = car.pairs[0].vehicle.as_ref().unwrap();
        assert_eq!(sum(&mut vehicle.shares.iter().map(|share| share.minor())), vehicle.insurer.minor());
        let to_gross = Share::ALL.iter().zip(vehicle.shares).filter(|(share, _)| !share.is_beyond_gross());
        assert_eq!(sum(&mut to_gross.map(|(_, part)| part.minor())), vehicle.gross.minor());
    }
}

#[test]
fn adding_a_constant_to_one_person_shifts_the_bias_by_it() {
    let (one, other) = pair(&mut Random::new(4), 12);
    let more = one.iter().map(|car| car.iter().map(|[s, m, l]| [s + 3, *m, *l]).collect()).collect();
    let before = compared(&[named("Ada", one), named("Bo", other.clone())]);
    let after = compared(&[named("Ada", more), named("Bo", other)]);
    let bias = |comparison: &Comparison| comparison.overall.page_one.bias.value.unwrap();
    assert!((bias(&after) - bias(&before) - 3.0).abs() < 1e-12);
}

#[test]
fn a_third_person_who_repeats_the_second_changes_no_pair() {
    let (one, other) = pair(&mut Random::new(5), 12);
    let two = compared(&[named("Ada", one.clone()), named("Bo", other.clone())]);
    let three = compared(&[named("Ada", one), named("Bo", other.clone()), named("Cy", other)]);
    assert_eq!(three.pairs.len(), 3);
    let ada_and_bo = &three.pairs[0];
    assert_eq!(ada_and_bo.page_one, two.pairs[0].page_one);
    assert_eq!(ada_and_bo.annex, two.pairs[0].annex);
    assert_eq!(ada_and_bo.money[0].causes, two.pairs[0].money[0].causes);
    assert!(three.pairs[2].money[0].gross.is_zero());
}

#[test]
fn two_people_over_two_months_are_followed_and_over_one_are_not() {
    let (one, other) = pair(&mut Random::new(12), 6);
    let people = [named("Ada", one), named("Bo", other)];
    assert!(compared(&people).periods.is_empty());
    let dated: String = sheet(&people)
        .lines()
        .map(|line| {
            let later = ["J-3,", "J-4,", "J-5,"].iter().any(|job| line.starts_with(job));
            let line = if later { line.replace("2026-06-20", "2026-07-02") } else { line.to_owned() };
            line + "\n"
        })
        .collect();
    let (intakes, schedules) = read(&dated);
    let comparison = compare(&intakes[..], &schedules, &Options::default()).unwrap();
    let told: Vec<(&str, usize)> =
        comparison.periods.iter().map(|period| (period.name.as_str(), period.cars)).collect();
    assert_eq!(told, [("2026-06", 3), ("2026-07", 3)]);
    let panels: usize = comparison.periods.iter().map(|period| period.panels).sum();
    assert_eq!(panels, comparison.overall.panels);
}

#[test]
fn of_many_people_each_is_compared_with_the_next_in_a_ring() {
    let truth = cars(&mut Random::new(9), 2);
    let people: Vec<Counts> = (0..11).map(|number| named(&format!("P{number:02}"), truth.clone())).collect();
    let comparison = compared(&people);
    let pairs: Vec<(usize, usize)> =
        comparison.cars[0].pairs.iter().map(|pair| (pair.first, pair.second)).collect();
    assert_eq!(pairs.len(), 11);
    assert!(
        (0..11).all(|who| pairs.iter().filter(|(a, b)| *a == who || *b == who).count() == 2),
        "{pairs:?}"
    );
    assert_eq!(comparison.everyone.people.len(), 11);
    assert_eq!(compared(&people[..8]).cars[0].pairs.len(), 28);
}

#[test]
fn the_order_of_rows_and_the_number_of_threads_change_nothing() {
    let (one, other) = pair(&mut Random::new(6), 12);
    let (intakes, schedules) = read(&sheet(&[named("Ada", one), named("Bo", other)]));
    let with = |threads| {
        let options = Options { threads: Some(threads), ..Options::default() };
        compare(&intakes[..], &schedules, &options).unwrap()
    };
    assert_eq!(with(1), with(3));
}

#[test]
fn a_reference_is_first_and_letters_stand_for_every_name() {
    let (one, other) = pair(&mut Random::new(7), 4);
    let (intakes, schedules) = read(&sheet(&[named("Ada", one), named("Bo", other)]));
    let options = Options { reference: Some("bo".to_owned()), letters: true, ..Options::default() };
    let comparison = compare(&intakes[..], &schedules, &options).unwrap();
    assert!(comparison.assessors[0].is_reference);
    assert_eq!(
        comparison.assessors.iter().map(|person| person.name.as_str()).collect::<Vec<_>>(),
        ["A", "B"]
    );
    let all = format!("{comparison:?}");
    assert!(!all.contains("Ada") && !all.contains("\"Bo\""));
    let nobody = Options { reference: Some("Dee".to_owned()), ..Options::default() };
    let none = compare(&intakes[..], &schedules, &nobody).unwrap_err();
    assert_eq!(none, NoComparison::NoReference(vec!["Ada".to_owned(), "Bo".to_owned()]));
}

#[test]
fn one_car_and_no_dents_give_reasons_and_no_number_that_is_none() {
    let blank: Vec<Car> = vec![vec![[0, 0, 0]; PANELS.len()]];
    let comparison = compared(&[named("Ada", blank.clone()), named("Bo", blank)]);
    assert_eq!(comparison.overall.page_one.bias.value, Ok(0.0));
    assert!(comparison.overall.page_one.bias.interval.is_err());
    let all = format!("{comparison:?}");
    assert!(!all.contains("NaN") && !all.contains(": inf"));
    assert!(comparison.everyone.people[0].says.starts_with("cannot tell"));
    let (one, _) = pair(&mut Random::new(8), 1);
    let (intakes, schedules) = read(&sheet(&[named("Ada", one)]));
    let none = compare(&intakes[..], &schedules, &Options::default()).unwrap_err();
    assert!(matches!(none, NoComparison::NoPairs(aside) if aside.len() == 1));
}

/// Rounds counts from 15 on to tens.
pub fn to_tens(cars: Vec<Car>) -> Vec<Car> {
    let round = |dents: u64| if dents < 15 { dents } else { (dents + 5) / 10 * 10 };
    cars.into_iter().map(|car| car.into_iter().map(|count| count.map(round)).collect()).collect()
}

/// Exchanges left and right.
pub fn swapped(car: &Car) -> Car {
    [0, 1, 3, 2, 5, 4, 7, 6].iter().map(|panel| car[*panel]).collect()
}

/// How often something is named when it is there and when it is not, over so many batches.
pub fn told(batches: u64, mut named_in: impl FnMut(&mut Random) -> (bool, bool)) -> (u64, u64) {
    let mut told = (0, 0);
    for seed in 0..batches {
        let (there, not_there) = named_in(&mut Random::new(1000 + seed));
        told.0 += u64::from(there);
        told.1 += u64::from(not_there);
    }
    told
}

// How often habits are named and how often wolf is cried, over fixed seeds, through the whole comparison. Many more batches, by
// the rules alone: `habits`.
fn habits(batches: u64) -> [(&'static str, (u64, u64)); 4] {
    let has_digits = |comparison: &Comparison| comparison.everyone.people[1].digits.is_some();
    let tens = told(batches, |random| {
        let (one, other) = pair(random, 15);
        let rounds = compared(&[named("Ada", one.clone()), named("Bo", to_tens(other.clone()))]);
        let plain = compared(&[named("Ada", one), named("Bo", other)]);
        (rounds.everyone.people[1].digits.is_some_and(|digits| digits.to == 10), has_digits(&plain))
    });
    let has_sides = |comparison: &Comparison, car: usize| {
        let slips = &comparison.cars[car].pairs[0].slips;
        slips.iter().any(|found| matches!(found.slip, Slip::SidesExchanged(_)))
    };
    let sides = told(batches, |random| {
        let (one, mut other) = pair(random, 2);
        other[0] = swapped(&other[0]);
        let comparison = compared(&[named("Ada", one), named("Bo", other)]);
        (has_sides(&comparison, 0), !comparison.cars[1].pairs[0].slips.is_empty())
    });
    let twice = told(batches, |random| {
        let (one, mut other) = pair(random, 15);
        other[3][1] = other[3][1].map(|dents| 2 * dents);
        let comparison = compared(&[named("Ada", one), named("Bo", other)]);
        let is_named = |car: &CarComparison| {
            car.pairs[0].slips.iter().any(|found| matches!(found.slip, Slip::CountedTwice(_)))
        };
        let mut cars = comparison.cars.iter().enumerate();
        (is_named(&comparison.cars[3]), cars.any(|(number, car)| number != 3 && is_named(car)))
    });
    let misses = told(batches, |random| {
        let truth = cars(random, 14);
        let people: Vec<Vec<Car>> = (0..4).map(|_| careful(random, &truth)).collect();
        let mut few = people.clone();
        for count in few[2].iter_mut().flatten() {
            count[0] -= count[0] / 6;
        }
        let names = ["Ada", "Bo", "Cy", "Dee"];
        let of = |people: Vec<Vec<Car>>| {
            compared(&names.iter().zip(people).map(|(name, cars)| named(name, cars)).collect::<Vec<_>>())
        };
        let stands_out =
            |comparison: &Comparison, number: usize| comparison.everyone.people[number].paired.stands_out();
        let (odd, even) = (of(few), of(people));
        (stands_out(&odd, 2), (0..4).any(|number| stands_out(&even, number)))
    });
    [
        ("rounds to tens", tens),
        ("sides exchanged", sides),
        ("counts a panel twice", twice),
        ("misses small dents", misses),
    ]
}

#[test]
fn known_habits_are_named_and_careful_people_rarely_are() {
    for (habit, (there, not_there)) in habits(2) {
        assert!(there == 2, "{habit}: named in {there} of 2 batches");
        assert!(not_there <= 1, "{habit}: cried wolf in {not_there} of 2 batches");
    }
}
