use crate::problem::Problem;

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
    /// Reading its claim found an error.
    Stopped,
    /// No schedule holds for the car.
    NoSchedule(Box<Problem>),
    /// The engine could not price it; the first problem that stood in the way.
    NotPriced(Box<Problem>),
}

impl WhyAside {
    /// One sentence.
    pub fn words(&self) -> String {
        match self {
            Self::Overlay => "an agreed or supplementary count, made knowing the others".to_owned(),
            Self::Alone => "nobody else counted this car".to_owned(),
            Self::Stopped => "reading its claim found an error".to_owned(),
            Self::NoSchedule(problem) | Self::NotPriced(problem) => problem.message.clone(),
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

/// Why nothing at all is compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoComparison {
    /// No car has two looks.
    NoPairs,
    /// The reference that was named looked at no car.
    NoReference,
}
