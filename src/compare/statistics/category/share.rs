use super::CrossTable;
use crate::compare::statistics::distribution::beta_quantile;
use crate::compare::statistics::{Definition, Interval, Level, Reason, Statistic, real};

/// The share of units that have something. The interval is Wilson's; the exact one of Clopper and Pearson, which is
/// wider, stands beside it.
pub fn share(name: &'static str, says: &'static str, having: u64, units: u64, level: Level) -> Statistic {
    let definition = Definition::new(
        says,
        "intervals: Wilson 1927, Journal of the American Statistical Association 22, 209-212; Clopper and Pearson \
         1934, Biometrika 26, 404-413",
        [],
    );
    let having = having.min(units);
    let value = if units == 0 { Err(Reason::NoData) } else { Ok(real(having) / real(units)) };
    let used = usize::try_from(units).unwrap_or(usize::MAX);
    Statistic::new(name, value, used, definition)
        .with_interval(wilson(having, units, level))
        .with_also(clopper_pearson(having, units, level))
}

/// The share of units that both put into the same category.
pub fn same_category(table: &CrossTable, level: Level) -> Statistic {
    let says = "share of the units that both put into the same category";
    share("same category", says, table.on_diagonal(), table.total(), level)
}

fn wilson(having: u64, units: u64, level: Level) -> Result<Interval, Reason> {
    let (x, n, z) = (real(having), real(units), level.z());
    let centre = (x + z * z / 2.0) / (n + z * z);
    let reach = z / (n + z * z) * (x * (n - x) / n + z * z / 4.0).sqrt();
    // At none and at all the formula gives the end of the scale but for rounding.
    let low = if having == 0 { 0.0 } else { centre - reach };
    let high = if having == units { 1.0 } else { centre + reach };
    Interval::new(low, high, level, "Wilson's score")
}

pub fn clopper_pearson(having: u64, units: u64, level: Level) -> Result<Interval, Reason> {
    let (x, rest) = (real(having), real(units.saturating_sub(having)));
    let low = if having == 0 { 0.0 } else { beta_quantile(level.tail(), x, rest + 1.0) };
    let high = if having >= units { 1.0 } else { beta_quantile(1.0 - level.tail(), x + 1.0, rest) };
    Interval::new(low, high, level, "exact, Clopper and Pearson")
}
