use super::{CrossTable, Weights, kappa};
use crate::compare::statistics::number::count;
use crate::compare::statistics::{Choice, Definition, Level, Reason, Statistic};

/// Above this share of one category kappa needs a warning (our rule, no source).
const MOSTLY: f64 = 0.75;
/// Kappa this far below the value for even categories needs a warning (our rule, no source).
const FAR_BELOW: f64 = 0.2;

/// What kappa depends on beside agreement: how unevenly the categories are used.
#[derive(Debug, Clone, PartialEq)]
pub struct Prevalence {
    /// Number of the category that is used most, over both assessors.
    pub commonest: Option<usize>,
    /// Its share.
    pub share: Statistic,
    /// By how much the shares of agreement on the one and the other differ; only two categories have it.
    pub prevalence_index: Option<Statistic>,
    /// By how much the two use the categories differently: half the sum of the differences of their shares.
    pub bias_index: Statistic,
    /// Kappa as it would be if all categories were used alike, with the same agreement.
    pub adjusted: Statistic,
    /// Whether kappa should not be read without these: one category holds most units, or kappa lies far below the
    /// adjusted value.
    pub warns: bool,
}

/// How unevenly the categories are used, and whether that makes kappa hard to read: with nearly all units in one
/// category kappa can be low although the assessors agree on nearly all of them.
pub fn prevalence(table: &CrossTable, level: Level) -> Prevalence {
    const SOURCE: &str = "Byrt, Bishop and Carlin 1993, Journal of Clinical Epidemiology 46, 423-429; more than two \
                          categories: Bennett, Alpert and Goldstein 1954, Public Opinion Quarterly 18, 303-308";
    let categories = table.categories();
    let present = if table.total() == 0 { Err(Reason::NoData) } else { Ok(()) };
    let (first, second) = table.margins();
    let means: Vec<f64> = first.iter().zip(&second).map(|(a, b)| f64::midpoint(*a, *b)).collect();
    // The earliest of equally common ones.
    let commonest = present.ok().and_then(|()| {
        means.iter().enumerate().rev().max_by(|a, b| a.1.total_cmp(b.1)).map(|(index, _)| index)
    });
    let share = present.and_then(|()| commonest.map(|index| means[index]).ok_or(Reason::NoData));
    let agreed: f64 = table.shares().filter(|((i, j), _)| i == j).map(|(_, share)| share).sum();
    let adjusted = present.and_then(|()| {
        let k = count(categories);
        if categories < 2 { Err(Reason::OneCategory) } else { Ok((k * agreed - 1.0) / (k - 1.0)) }
    });
    let on =
        |i: usize| table.shares().filter(|(pair, _)| *pair == (i, i)).map(|(_, share)| share).sum::<f64>();
    let bias = present.map(|()| first.iter().zip(&second).map(|(a, b)| (a - b).abs()).sum::<f64>() / 2.0);
    let plain = kappa(table, Weights::Plain, level).value;
    let far_below = matches!((plain, adjusted), (Ok(kappa), Ok(adjusted)) if adjusted - kappa > FAR_BELOW);
    let used = usize::try_from(table.total()).unwrap_or(usize::MAX);
    let choice = Choice::Number("categories", u64::try_from(categories).unwrap_or(u64::MAX));
    let statistic =
        |name, value, says| Statistic::new(name, value, used, Definition::new(says, SOURCE, [choice]));
    Prevalence {
        commonest,
        share: statistic(
            "share of the commonest category",
            share,
            "mean of its shares with the two assessors",
        ),
        prevalence_index: (categories == 2).then(|| {
            statistic(
                "prevalence index",
                present.map(|()| (on(0) - on(1)).abs()),
                "difference of the shares of units that both put into the one and into the other category",
            )
        }),
        bias_index: statistic(
            "bias index",
            bias,
            "half the sum of the differences between the shares that the two give the categories",
        ),
        adjusted: statistic(
            "prevalence-adjusted kappa",
            adjusted,
            "kappa if all categories were used alike, with the same share of agreement",
        ),
        warns: share.is_ok_and(|share| share > MOSTLY) || plain == Err(Reason::OneCategory) || far_below,
    }
}
