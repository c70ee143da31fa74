use super::Options;
use crate::claim::words::folded;
use crate::compare::pairing::{Aside, Car, Look};
use crate::problem::Problem;
use std::collections::{BTreeMap, BTreeSet};
use std::convert::Infallible;

/// One person of the comparison.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Assessor {
    /// As documents call them: as first written, or a letter.
    pub name: String,
    /// Whether the others are compared with this one.
    pub is_reference: bool,
    /// Looks that are compared, repeat counts aside.
    pub looks: usize,
    /// Further counts of cars that they had counted already.
    pub repeats: usize,
}

/// Why a look is not compared.
#[derive(Debug, Clone, PartialEq)]
pub enum WhyAside {
    /// It is agreed or supplementary: made knowing the others.
    Overlay,
    /// Nobody else looked at the car.
    Alone,
    /// The reference did not count the car.
    NoReference,
    /// Reading its claim found an error.
    Stopped,
    /// No schedule holds for the car.
    NoSchedule(Box<Problem>),
    /// The engine could not price it; the first problem that stood in the way.
    NotPriced(Box<Problem>),
    /// It is compared by its counts alone; why it is not priced.
    CountsAlone(Box<Problem>),
}

impl WhyAside {
    /// Whether something is wrong that can be mended.
    pub const fn is_a_problem(&self) -> bool {
        matches!(self, Self::Stopped | Self::NoSchedule(_) | Self::NotPriced(_) | Self::CountsAlone(_))
    }

    /// One sentence.
    pub fn words(&self) -> String {
        match self {
            Self::Overlay => "an agreed or supplementary count, made knowing the others".to_owned(),
            Self::Alone => "nobody else counted this car".to_owned(),
            Self::NoReference => "the reference did not count this car".to_owned(),
            Self::Stopped => "reading its claim found an error".to_owned(),
            Self::NoSchedule(problem) | Self::NotPriced(problem) => problem.message.clone(),
            Self::CountsAlone(problem) => format!("compared by counts alone: {}", problem.message),
        }
    }
}

/// A look that is not compared.
#[derive(Debug, Clone, PartialEq)]
pub struct SetAside {
    /// The claim it is written in, by its number in the batch.
    pub claim: usize,
    /// That claim's key.
    pub key: String,
    /// The inspection's number in that claim.
    pub inspection: usize,
    /// Who, by number.
    pub assessor: usize,
    /// Why.
    pub why: WhyAside,
}

/// Everybody of a batch, by number.
#[derive(Debug)]
pub(super) struct Roll {
    /// The people: the reference, then those with compared looks, then the others; each in the order of their names.
    pub people: Vec<Assessor>,
    /// Numbers by folded name.
    numbers: BTreeMap<String, usize>,
}

impl Roll {
    /// Numbers the people of these cars and of the looks that were put aside; none when the reference is nobody of
    /// them.
    pub fn of<E>(cars: &[Car], aside: &[Aside], options: &Options) -> Result<Self, NoComparison<E>> {
        let wanted = options.reference.as_deref().map(folded);
        let mut known: BTreeMap<(bool, bool, String), Assessor> = BTreeMap::new();
        let compared = cars.iter().filter(|car| car.looks.len() > 1).flat_map(|car| &car.looks);
        let names: BTreeSet<String> = compared.map(|look| folded(&look.assessor)).collect();
        let repeats = cars.iter().flat_map(|car| &car.repeats).map(|look| (look, 0, 1));
        let looks = cars.iter().flat_map(|car| {
            let is_compared = usize::from(car.looks.len() > 1);
            car.looks.iter().map(move |look| (look, is_compared, 0))
        });
        let others = aside.iter().map(|aside| (aside.look(), 0, 0));
        for (look, looks, repeats) in looks.chain(repeats).chain(others) {
            let name = folded(&look.assessor);
            let is_reference = wanted.as_ref() == Some(&name);
            let key = (!is_reference, !names.contains(&name), name);
            let person = known.entry(key).or_insert_with(|| Assessor {
                name: look.assessor.to_string(),
                is_reference,
                looks: 0,
                repeats: 0,
            });
            person.looks += looks;
            person.repeats += repeats;
        }
        let is_found = wanted.is_none() || known.values().any(|person| person.is_reference);
        let numbers = known.keys().enumerate().map(|(number, (.., name))| (name.clone(), number)).collect();
        let mut people: Vec<Assessor> = known.into_values().collect();
        if !is_found {
            return Err(NoComparison::NoReference(people.into_iter().map(|person| person.name).collect()));
        }
        if options.letters {
            for (number, person) in people.iter_mut().enumerate() {
                person.name = letters(number);
            }
        }
        Ok(Self { people, numbers })
    }

    /// How many of them have looks that are compared: the first so many.
    pub fn compared(&self) -> usize {
        self.people.iter().filter(|person| person.looks > 0).count()
    }

    /// The number of a look's assessor.
    pub fn number(&self, look: &Look) -> usize {
        self.numbers.get(&folded(&look.assessor)).copied().unwrap_or(0)
    }
}

/// A, B, ..., Z, AA, AB, ...
fn letters(number: usize) -> String {
    let mut letters = Vec::new();
    let mut rest = number + 1;
    while rest > 0 {
        letters.push(char::from(b'A' + u8::try_from((rest - 1) % 26).unwrap_or(0)));
        rest = (rest - 1) / 26;
    }
    letters.into_iter().rev().collect()
}

/// Why nothing at all is compared. `E` is why claims could not be had.
#[derive(Debug, Clone, PartialEq)]
pub enum NoComparison<E = Infallible> {
    /// The claims could not be had.
    NotRead(E),
    /// No car has two looks that can be compared; the looks, and why not.
    NoPairs(Vec<SetAside>),
    /// The reference that was named looked at no car; those who did.
    NoReference(Vec<String>),
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_go_on_after_the_alphabet() {
        assert_eq!([0, 25, 26, 27, 701, 702].map(letters), ["A", "Z", "AA", "AB", "ZZ", "AAA"]);
    }
}
