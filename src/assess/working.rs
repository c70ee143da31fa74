use super::End;
use crate::claim::Place;
use crate::quantity::{Area, Decimal, Hours, Length, Money, Percent, UnitRate};
use crate::schedule::Comparator;

/// Number of a step in its claim's working. Without a working it means nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StepId(pub u32);

impl StepId {
    /// No step: of everything when nothing is recorded.
    pub const NONE: Self = Self(u32::MAX);
}

/// A value as a working shows it.
#[derive(Debug, Clone, PartialEq)]
pub enum Shown {
    /// An amount.
    Money(Money),
    /// An amount per hour or per dent.
    Rate(UnitRate),
    /// A number of dents.
    Count(u32),
    /// Dents weighted into equivalents.
    Weighted(Decimal),
    /// A time.
    Time(Hours),
    /// A length.
    Length(Length),
    /// An area.
    Area(Area),
    /// A percentage.
    Percent(Percent),
    /// A size band, by its number in the schedule.
    SizeBand(usize),
    /// A count band, by its number in the schedule.
    CountBand(usize),
    /// A word as written or chosen.
    Word(String),
}

/// The plain quantities as themselves.
macro_rules! shown_as {
    ($($quantity:ty => $variant:ident),+) => {
        $(impl From<$quantity> for Shown {
            fn from(quantity: $quantity) -> Self {
                Self::$variant(quantity)
            }
        })+
    };
}

shown_as!(Money => Money, UnitRate => Rate, u32 => Count, Decimal => Weighted, Hours => Time, Percent => Percent, Area => Area);

/// Why a step is made; the report words it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rule {
    /// A cell of the claim's sheets: a count, a length, a price.
    Input,
    /// A cell of the schedule.
    Term,
    /// Dents of one panel added up.
    DentsOfPanel,
    /// Dents of one size band on one panel.
    DentsOfSize,
    /// Dents of one size counted in a frame, scaled to the whole panel.
    ScaledDents,
    /// The lower end of their interval.
    LowestDents,
    /// The upper end of their interval.
    HighestDents,
    /// The size band that the mixed-size rule rates the panel at.
    RatedSize,
    /// Weighted equivalents of the panel's dents.
    EquivalentDents,
    /// The count band of a number of dents.
    BandOfCount,
    /// The amount of a grid cell for a panel, or per dent times dents, or time times rate.
    Base,
    /// A time per dent times the dents, rounded to the schedule's unit.
    LabourTime,
    /// The amount of a mark.
    MarkAmount,
    /// The share at which a mark counts beside a dearer one.
    FurtherMark,
    /// The lines that a factor is taken of.
    FactorBase,
    /// What a factor adds.
    FactorAmount,
    /// What all factors of a panel add.
    FactorSum,
    /// The most that they add.
    FactorCeiling,
    /// What that takes off.
    FactorTakeOff,
    /// What tops an amount up to the panel's floor.
    FloorTopUp,
    /// What a panel's cap takes off.
    CapTakeOff,
    /// What brings a panel's amount below zero up to nothing.
    UpToNothing,
    /// The amount of one way of repair.
    MethodAmount,
    /// The share of the paintless amount that readies a panel for paint.
    Readying,
    /// A time at its rate.
    LabourAmount,
    /// A price.
    PriceAmount,
    /// The amount at which a share limit is crossed.
    LimitAmount,
    /// An operation's labour or parts.
    OperationAmount,
    /// An item's labour or price.
    ItemAmount,
    /// A share of what is new that the owner bears, and all of them.
    Betterment,
    /// What was paid before.
    PaidBefore,
    /// Value of a wreck that the owner keeps.
    SalvageKept,
    /// All lines before minimum and discount.
    NetBeforeMinimum,
    /// What tops the vehicle up to its minimum.
    MinimumTopUp,
    /// The lines that a discount is taken of which the schedule names.
    Discounted,
    /// The whole discount.
    DiscountTotal,
    /// One tax rate's part of the discount.
    DiscountPart,
    /// The lines of one tax rate.
    Taxable,
    /// Tax of one rate.
    Tax,
    /// All lines after discount.
    Net,
    /// What brings the gross amount to its step.
    TotalRounding,
    /// Net, tax and rounding.
    Gross,
    /// The share of the market value that the screen compares with.
    ScreenLimit,
    /// The cost that the screen compares.
    ScreenCost,
    /// The share of the market value from which a title is noted, rounded by over or at least.
    TitleLimit(Comparator),
    /// The cost that a title rule compares.
    TitleCost,
    /// The amount the claim is settled at.
    SettlementAmount,
    /// Tax that the owner gets back and therefore pays.
    TaxReclaimed,
    /// Excess that is taken.
    Excess,
    /// What goes beyond the policy limit.
    OverLimit,
    /// What the insurer pays.
    InsurerPays,
    /// What the owner bears.
    OwnerBears,
}

/// How a step's result follows from other steps. With the rounding of the working each can be recomputed.
#[derive(Debug, Clone, PartialEq)]
pub enum Formula {
    /// Stands in the step's cells as it is.
    Read,
    /// All of these added.
    Sum(Vec<StepId>),
    /// The first less the second.
    Difference(StepId, StepId),
    /// The sign turned.
    Negative(StepId),
    /// A rate times a count, an exact weighted count, or hours; rounded once. A time times a count is a time, rounded
    /// to the schedule's unit.
    Times {
        /// The rate, or the time per dent.
        rate: StepId,
        /// Count, weighted count or time.
        by: StepId,
    },
    /// A percentage of an amount; rounded. For a total-loss limit it is rounded down where the cost has to be *over* it
    /// and up where it has to be *at least* that, so that comparing with it is comparing exactly.
    PercentOf {
        /// The percentage.
        percent: StepId,
        /// The amount.
        of: StepId,
    },
    /// Counts times weights, added exactly.
    Weighted(Vec<(StepId, StepId)>),
    /// A count in a part of a panel, or an end of its exact 95 % Poisson interval to six decimals, times the whole area over
    /// that part; rounded by the schedule's rule for scaled counts.
    Scaled {
        /// Dents in the part.
        count: StepId,
        /// Area of the part.
        part: StepId,
        /// Area of the panel.
        whole: StepId,
        /// Which number.
        end: End,
    },
    /// The band that holds a number.
    BandOf(StepId),
    /// The size band chosen by the schedule's mixed-size rule from the counts of size bands, by their numbers; a band that
    /// is not named has no dents.
    ChosenSize(Vec<(usize, StepId)>),
    /// The cell of the grid at a size band and a count band: an amount per panel (rounded), a rate per dent, or a time.
    GridCell {
        /// Step of the size band.
        size: StepId,
        /// Step of the count band.
        count: StepId,
    },
    /// The larger one, less the amount: what is missing to a floor; zero when nothing is.
    UpTo {
        /// The floor.
        floor: StepId,
        /// The amount.
        amount: StepId,
    },
    /// The smaller one, less the amount: what a cap takes off (not positive); zero when nothing is.
    DownTo {
        /// The cap.
        cap: StepId,
        /// The amount.
        amount: StepId,
    },
    /// From one amount or time to another as far as a number lies between two counts: low + (high - low) x (at - from) /
    /// (to - from), rounded once; a time to the schedule's unit.
    Between {
        /// What the lower count gives.
        low: StepId,
        /// What the higher count gives.
        high: StepId,
        /// The number.
        at: StepId,
        /// The lower count.
        from: StepId,
        /// The higher count.
        to: StepId,
    },
    /// One part of an amount split by largest remainder.
    Part {
        /// What is split.
        total: StepId,
        /// The weights.
        weights: Vec<StepId>,
        /// Which part, from 0.
        index: usize,
    },
    /// To the nearest multiple of a step, less the amount.
    ToStep {
        /// The amount.
        amount: StepId,
        /// The step.
        step: StepId,
    },
    /// The smallest of these, at least zero.
    Smallest(Vec<StepId>),
    /// The first less the second, at least zero.
    AtLeastZero(StepId, StepId),
}

/// One line of a working.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Why.
    pub rule: Rule,
    /// How.
    pub formula: Formula,
    /// What came out.
    pub result: Shown,
    /// Cells of schedule or claim that this step itself rests on (its operands have their own).
    pub cells: Vec<Place>,
}

/// Every step of one claim, in the order they were made; operands come before what uses them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Working {
    /// The steps; [`StepId`] counts in them.
    pub steps: Vec<Step>,
}

impl Working {
    /// The step of a number that this working gave.
    pub fn get(&self, id: StepId) -> &Step {
        &self.steps[id.0 as usize]
    }
}

/// Takes the steps of an assessment, or lets them go. Amounts are the same either way.
pub trait Recorder {
    /// Whether steps are kept: work that serves the working alone is left out otherwise.
    const KEEPS: bool;

    /// Keeps a step; the closure runs only if somebody keeps it.
    fn step(&mut self, make: impl FnOnce() -> Step) -> StepId;

    /// What was kept, if anything.
    fn finish(&mut self) -> Option<Working>;
}

/// Keeps nothing.
#[derive(Debug, Clone, Copy, Default)]
pub struct Silent;

impl Recorder for Silent {
    const KEEPS: bool = false;

    fn step(&mut self, _make: impl FnOnce() -> Step) -> StepId {
        StepId::NONE
    }

    fn finish(&mut self) -> Option<Working> {
        None
    }
}

impl Recorder for Working {
    const KEEPS: bool = true;

    fn step(&mut self, make: impl FnOnce() -> Step) -> StepId {
        let id = StepId(u32::try_from(self.steps.len()).unwrap_or(u32::MAX));
        self.steps.push(make());
        id
    }

    fn finish(&mut self) -> Option<Working> {
        Some(std::mem::take(self))
    }
}
