use super::{list, percent, said};
use crate::assess::Rule;
use crate::claim::Method;
use crate::quantity::Percent;
use crate::schedule::{MixedRule, Schedule};

/// What a step of a working is, where it is no line that has words of its own.
pub fn rule(rule: Rule) -> &'static str {
    match rule {
        Rule::Input => "as written",
        Rule::Term => "by the schedule",
        Rule::DentsOfPanel => "dents of the panel",
        Rule::DentsOfSize => "dents of one size",
        Rule::ScaledDents => "dents scaled to the panel, an estimate",
        Rule::LowestDents => "the estimate's lower end",
        Rule::HighestDents => "the estimate's upper end",
        Rule::RatedSize => "size the panel is rated at",
        Rule::EquivalentDents => "equivalent dents",
        Rule::BandOfCount => "count band",
        Rule::Base => "base",
        Rule::LabourTime => "time for all dents",
        Rule::FactorBase => "what the factor is taken of",
        Rule::MarkAmount => "mark",
        Rule::FurtherMark => "mark beside a dearer one",
        Rule::FactorAmount => "factor",
        Rule::FactorSum => "all factors",
        Rule::FactorCeiling => "most that factors add together",
        Rule::FactorTakeOff => "down to the most that factors add together",
        Rule::FloorTopUp => "up to the floor",
        Rule::CapTakeOff => "down to the cap",
        Rule::UpToNothing => "up to nothing",
        Rule::MethodAmount => "amount of this way of repair",
        Rule::Readying => "readying for paint",
        Rule::LabourAmount => "labour",
        Rule::PriceAmount => "price",
        Rule::LimitAmount => "amount at which the limit is crossed",
        Rule::OperationAmount => "operation",
        Rule::ItemAmount => "item",
        Rule::Betterment => "the owner's share of what is new",
        Rule::PaidBefore => "paid before",
        Rule::SalvageKept => "value of the wreck kept",
        Rule::NetBeforeMinimum => "lines before minimum and discount",
        Rule::MinimumTopUp => "up to the minimum",
        Rule::Discounted => "lines that the discount is taken of",
        Rule::DiscountTotal => "discount in all",
        Rule::DiscountPart => "discount",
        Rule::Taxable => "lines of one tax rate",
        Rule::Tax => "tax",
        Rule::Net => "net",
        Rule::TotalRounding => "rounding",
        Rule::Gross => "gross",
        Rule::ScreenLimit => "total-loss screen: share of the market value",
        Rule::ScreenCost => "total-loss screen: cost",
        Rule::TitleLimit(_) => "limit of the title rule",
        Rule::TitleCost => "cost that the title rule compares",
        Rule::SettlementAmount => "settlement amount",
        Rule::TaxReclaimed => "tax the owner reclaims",
        Rule::Excess => "excess taken",
        Rule::OverLimit => "beyond the policy limit",
        Rule::InsurerPays => "insurer pays",
        Rule::OwnerBears => "owner bears",
    }
}

/// How the schedule rates several sizes on one panel.
pub fn mixed(schedule: &Schedule) -> String {
    match schedule.terms.mixed.value {
        MixedRule::EachBand => "each size band is rated by itself and added".to_owned(),
        MixedRule::MostFrequent => {
            "all dents of a panel are rated at its most frequent size band, a tie at the larger".to_owned()
        }
        MixedRule::LargestShare(share) if share.micro() == 0 => {
            "all dents of a panel are rated at the largest size band present".to_owned()
        }
        MixedRule::LargestShare(share) => format!(
            "all dents of a panel are rated at the largest size band that, with larger ones, holds at least {} of them",
            percent(share)
        ),
        MixedRule::Equivalents(size) => {
            format!("dents are weighted into equivalents of {}", said(&schedule.sizes[size].name))
        }
    }
}

/// What the sum of a way of repair is called in the working.
pub fn amount_of_method(method: Method) -> &'static str {
    match method {
        Method::NoRepair => "no repair",
        Method::Paintless => "paintless amount",
        Method::RefinishAfter => "paintless, then refinish: amount",
        Method::Conventional => "conventional repair: amount",
        Method::Replace => "replace: amount",
        Method::Refer => "refer to a person",
    }
}

/// What the sum of a way of repair is called where something of it is not priced.
pub fn as_far_as_priced(method: Method) -> String {
    format!("{method}: as far as it is priced")
}

/// `dents of 8-16 mm`.
pub fn dents_of_size(size: &str) -> String {
    format!("dents of {}", said(size))
}

/// Lines by their numbers, in rising order: "lines 1 to 4, 7 and 9 to 39".
pub fn line_numbers(numbers: &[usize]) -> String {
    let runs: Vec<String> = numbers
        .chunk_by(|before, after| before + 1 == *after)
        .filter_map(|run| Some((*run.first()?, *run.last()?)))
        .map(|(first, last)| if first == last { first.to_string() } else { format!("{first} to {last}") })
        .collect();
    format!("{} {}", if numbers.len() == 1 { "line" } else { "lines" }, list(&runs))
}

/// `tax 19 %`.
pub fn tax_line(rate: Percent) -> String {
    format!("tax {}", percent(rate))
}

/// How a working is read, and the rules of the schedule that hold for all of it.
pub fn working_intro(schedule: &Schedule) -> Vec<String> {
    let terms = &schedule.terms;
    let mut step = "1".to_owned();
    if terms.currency.value.decimals() > 0 {
        step = format!("0.{}1", "0".repeat(terms.currency.value.decimals() as usize - 1));
    }
    vec![
        "A letter and a number name a step (B3). Square brackets name the cell that a value was read from: [s2 D14] is \
         cell D14 of sheet s2 in the list of files."
            .to_owned(),
        format!(
            "Every amount is rounded once to {step} {}, {}; percentages are taken of printed amounts. Mixed sizes: {}. \
             A dent exactly at the upper edge of a size band belongs to that band.",
            terms.currency.value,
            terms.rounding.value.words(),
            mixed(schedule)
        ),
    ]
}
