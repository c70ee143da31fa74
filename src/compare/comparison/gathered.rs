//! The batch's claims as they come: each is worked through at once, and only what is compared is kept of it. Which claims
//! speak of one car is known when all have passed by; those of cars with several are then asked for once more, together.

use super::work::{Floor, Members, Worked};
use crate::claim::Intake;
use crate::compare::pairing::{self, Aside, Car, Card};
use rayon::prelude::*;
use std::borrow::Cow;
use std::collections::BTreeSet;
use std::convert::Infallible;

/// Claims that a core asks for at a time.
const TOGETHER: usize = 32;

/// Where the claims of a comparison come from. Any core may ask for some of them, and for the same ones again.
pub trait Source: Sync {
    /// Why claims cannot be had.
    type Error: Send;

    /// How many there are.
    fn count(&self) -> usize;

    /// Some of them, by ascending numbers from 0.
    fn some(&self, numbers: &[usize]) -> Result<Vec<Cow<'_, Intake>>, Self::Error>;
}

impl Source for [Intake] {
    type Error = Infallible;

    fn count(&self) -> usize {
        self.len()
    }

    fn some(&self, numbers: &[usize]) -> Result<Vec<Cow<'_, Intake>>, Infallible> {
        Ok(numbers.iter().filter_map(|number| self.get(*number)).map(Cow::Borrowed).collect())
    }
}

/// A batch whose claims have all passed by.
pub(super) struct Gathered {
    /// What is kept of every claim.
    pub cards: Vec<Card>,
    /// Cars with anything to compare.
    pub cars: Vec<Car>,
    /// Looks that pairing put aside.
    pub alone: Vec<Aside>,
    /// Each of these cars, worked through.
    pub worked: Vec<Worked>,
}

/// Does something with every claim of a batch, on all cores; the results in the order of the batch.
pub(super) fn of_each<S: Source + ?Sized, T: Send>(
    claims: &S,
    what: impl Fn(usize, &Intake, &mut BTreeSet<std::sync::Arc<str>>) -> T + Sync,
) -> Result<Vec<T>, S::Error> {
    let groups: Vec<Vec<T>> = (0..claims.count().div_ceil(TOGETHER))
        .into_par_iter()
        .map(|group| {
            let start = group * TOGETHER;
            let numbers: Vec<usize> = (start..claims.count().min(start + TOGETHER)).collect();
            let mut names = BTreeSet::new();
            let read = claims.some(&numbers)?;
            Ok(numbers.iter().zip(&read).map(|(number, intake)| what(*number, intake, &mut names)).collect())
        })
        .collect::<Result<_, _>>()?;
    Ok(groups.into_iter().flatten().collect())
}

/// Works through every car of a batch.
pub(super) fn gathered<S: Source + ?Sized>(claims: &S, floor: Floor<'_>) -> Result<Gathered, S::Error> {
    let read = of_each(claims, |number, intake, names| {
        let card = Card::of(intake, number, names);
        let worked = card.car(number).map(|car| Box::new(floor.car(&car, &Members::new([(number, intake)]))));
        (card, worked)
    })?;
    let (known, mut single): (Vec<Card>, Vec<Option<Box<Worked>>>) = read.into_iter().unzip();
    let (cars, alone) = pairing::cars(&known);
    let (mut worked, mut several) = (Vec::with_capacity(cars.len()), Vec::new());
    for (number, car) in cars.iter().enumerate() {
        let done = match car.claims[..] {
            [claim] => single[claim].take(),
            _ => None,
        };
        if done.is_none() {
            several.push(number);
        }
        worked.push(done.map_or_else(Worked::default, |done| *done));
    }
    drop(single);
    let joined: Vec<Vec<Worked>> = several
        .par_chunks(TOGETHER)
        .map(|chunk| {
            let numbers: BTreeSet<usize> =
                chunk.iter().flat_map(|car| cars[*car].claims.iter().copied()).collect();
            let numbers: Vec<usize> = numbers.into_iter().collect();
            let read = claims.some(&numbers)?;
            let members = Members::new(numbers.iter().copied().zip(read.iter().map(AsRef::as_ref)));
            Ok(chunk.iter().map(|car| floor.car(&cars[*car], &members)).collect())
        })
        .collect::<Result<_, _>>()?;
    for (car, found) in several.into_iter().zip(joined.into_iter().flatten()) {
        worked[car] = found;
    }
    Ok(Gathered { cards: known, cars, alone, worked })
}
