use crate::claim::{Located, Place, words::named};
use crate::quantity::{Currency, Date, Money, Percent, Rounding, TimeUnit, UnitRate};

/// Whom a schedule holds for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fit {
    /// An insurer, by name (compared folded).
    Insurer(String),
    /// Jobs without an insurer.
    NoInsurer,
    /// Everybody for whom no other schedule is meant.
    Anyone,
}

/// How several sizes on one panel are rated.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MixedRule {
    /// Each band by itself, added.
    EachBand,
    /// The whole count at the band with most dents; a tie goes to the larger.
    MostFrequent,
    /// The whole count at the largest band for which the dents in it or larger are at least one and at least this
    /// share of all; share 0 is the largest size present.
    LargestShare(Percent),
    /// Dents weighted into equivalents of one band (by its number in the size bands).
    Equivalents(usize),
}

impl MixedRule {
    /// The size band at which all dents of a panel are rated, given its dents by size band; `None` without dents, and
    /// under the rules that rate no panel at one of its own bands.
    pub fn rated_size(self, dents: &[u32]) -> Option<usize> {
        let all: u64 = dents.iter().map(|n| u64::from(*n)).sum();
        match self {
            Self::EachBand | Self::Equivalents(_) => None,
            Self::MostFrequent => {
                // The last of several with the most: a tie goes to the larger band.
                (0..dents.len()).filter(|size| dents[*size] > 0).max_by_key(|size| dents[*size])
            }
            Self::LargestShare(share) => (0..dents.len()).rev().find(|size| {
                let here_or_larger: u64 = dents[*size..].iter().map(|n| u64::from(*n)).sum();
                let hundredfold = i128::from(here_or_larger) * 100 * i128::from(Percent::MICRO);
                here_or_larger > 0 && hundredfold >= i128::from(all) * i128::from(share.micro())
            }),
        }
    }
}

/// How several marks on one panel count, each rated by its own length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SeveralMarks {
    /// Each in full.
    Add,
    /// The dearest in full, each other at this share of its amount; at nothing where only the larger amount counts.
    Further(Percent),
}

named! {
    /// Kinds of labour that have a rate each.
    pub enum LabourClass {
        Paintless = "paintless",
        Refit = "remove and refit",
        Conventional = "conventional",
        Refinish = "refinish",
    }
}

/// The rate of one kind of labour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LabourRate {
    /// Which labour.
    pub class: LabourClass,
    /// Amount per hour.
    pub per_hour: Located<UnitRate>,
}

named! {
    /// What a tax rate is on.
    pub enum TaxOn {
        Labour = "labour",
        Parts = "parts",
        PaintMaterial = "paint material",
    }
}

/// The tax on one kind of line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TaxRate {
    /// Which lines.
    pub on: TaxOn,
    /// How much.
    pub percent: Located<Percent>,
}

named! {
    /// Which lines of a vehicle the discount is taken of.
    pub enum DiscountOn {
        All = "all lines",
        Labour = "labour",
    }
}

named! {
    /// Whether the discount comes off before or after the vehicle is brought up to its minimum.
    pub enum DiscountTaken {
        AfterMinimum = "after the minimum",
        BeforeMinimum = "before the minimum",
    }
}

named! {
    /// The date by which an edition is chosen.
    pub enum EditionBy {
        Loss = "date of loss",
        Inspection = "date of inspection",
    }
}

named! {
    /// What a panel costs between the counts at which two count bands begin.
    pub enum BetweenCounts {
        Stepped = "stepped",
        Interpolated = "interpolated",
    }
}

named! {
    /// Whether the excess comes off before or after the insurer's part is held to the policy limit.
    pub enum ExcessTaken {
        BeforeLimit = "before the limit",
        AfterLimit = "after the limit",
    }
}

named! {
    /// What the screen compares with the market value.
    pub enum LossRule {
        Repair = "repair",
        RepairPlusSalvage = "repair plus salvage",
    }
}

named! {
    /// When the screen says yes.
    pub enum Comparator {
        Over = "over",
        AtLeast = "at least",
    }
}

/// The economic total-loss screen by the policy's terms.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TotalLossTerms {
    /// What is compared.
    pub rule: Located<LossRule>,
    /// Over or at least.
    pub comparator: Located<Comparator>,
    /// Share of the market value.
    pub share: Located<Percent>,
    /// Whether tax counts as cost.
    pub with_tax: Located<bool>,
}

/// A schedule's name, validity and general rules.
#[derive(Debug, Clone, PartialEq)]
pub struct Terms {
    /// Its name.
    pub name: Located<String>,
    /// Its edition.
    pub edition: Located<String>,
    /// Where its amounts come from, in the user's words.
    pub source: Located<String>,
    /// Whom it holds for.
    pub fits: Vec<Located<Fit>>,
    /// The currency of every amount in it.
    pub currency: Located<Currency>,
    /// First day.
    pub valid_from: Located<Date>,
    /// Last day; none is open-ended.
    pub valid_to: Option<Located<Date>>,
    /// The date that has to lie in its days; without the term that of loss, else of inspection.
    pub edition_by: Option<Located<EditionBy>>,
    /// How each line is rounded.
    pub rounding: Located<Rounding>,
    /// Step that the gross amount is rounded to, as a line of its own.
    pub total_step: Option<Located<Money>>,
    /// How several sizes on one panel are rated.
    pub mixed: Located<MixedRule>,
    /// The cell of the share, under the rule that has one.
    pub mixed_share: Option<Place>,
    /// What counts between the beginnings of two count bands cost; without the term what the band's cell says.
    pub between_counts: Option<Located<BetweenCounts>>,
    /// How several marks on one panel count; without the term each in full.
    pub several_marks: Option<Located<SeveralMarks>>,
    /// How a count that is scaled from a frame to its panel is rounded; without the term none is scaled.
    pub scaled_counts: Option<Located<Rounding>>,
    /// The most that all factors of a panel add, as a share of its dents and marks.
    pub factors_at_most: Option<Located<Percent>>,
    /// Unit of times written in it and of computed times.
    pub time_unit: Located<TimeUnit>,
    /// Share of the paintless amount that readies a panel for paint.
    pub readying: Option<Located<Percent>>,
    /// Least amount of a vehicle before tax.
    pub minimum: Option<Located<Money>>,
    /// Stated discount.
    pub discount: Option<Located<Percent>>,
    /// What the discount is taken of; without the term, all lines.
    pub discount_on: Option<Located<DiscountOn>>,
    /// Whether the discount comes before the minimum; without the term, after it.
    pub discount_taken: Option<Located<DiscountTaken>>,
    /// Whether the excess comes before the policy limit; without the term, before it.
    pub excess_taken: Option<Located<ExcessTaken>>,
    /// The total-loss screen.
    pub total_loss: Option<TotalLossTerms>,
    /// Whether a settlement in cash includes tax that was not incurred.
    pub cash_with_tax: Option<Located<bool>>,
    /// Days that a quotation is valid.
    pub quotation_days: Option<Located<u32>>,
    /// The table's place.
    pub place: Place,
}

impl Terms {
    /// Whether its editions go by the date of inspection.
    pub fn is_by_inspection(&self) -> bool {
        self.edition_by.is_some_and(|by| by.value == EditionBy::Inspection)
    }

    /// Whether amounts rise evenly between count bands.
    pub fn is_interpolated(&self) -> bool {
        self.between_counts.is_some_and(|between| between.value == BetweenCounts::Interpolated)
    }

    /// Whether the policy limit comes before the excess.
    pub fn is_limit_first(&self) -> bool {
        self.excess_taken.is_some_and(|taken| taken.value == ExcessTaken::AfterLimit)
    }
}
