use super::super::figure::difference;
use super::axis::{Axis, place};
use crate::quantity::Money;
use serde::Serialize;

/// Left and right end of the field of bars, in the drawing's units.
const FIELD: (f64, f64) = (190.0, 540.0);
/// Height of a row.
const ROW: u32 = 26;

/// Amounts that add up to a difference, one below the other, each beginning where the one before ended.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Steps {
    /// Height of the drawing.
    pub height: u32,
    /// Where nothing is.
    pub zero: String,
    /// A bar for each amount, and the last for their sum.
    pub bars: Vec<Bar>,
}

/// One amount.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Bar {
    /// What it is.
    pub label: String,
    /// The amount with its sign.
    pub amount: String,
    /// Left end of the bar.
    pub x: String,
    /// Its length, at least a hairline.
    pub width: String,
    /// Top of the bar.
    pub y: u32,
    /// Where its texts stand, from the top.
    pub text_at: u32,
    /// Where it ends, from the left: the next one begins there.
    pub end: String,
    /// `up`, `down` or `sum`.
    pub kind: &'static str,
}

impl Steps {
    /// Lays the amounts out, and their sum below them. A sum too large to be held is left out by its caller.
    pub fn new(parts: &[(String, Money)], (name, sum): (&str, Money)) -> Self {
        let mut ends = vec![0.0];
        for (_, part) in parts {
            let last = ends.last().copied().unwrap_or(0.0);
            ends.push(last + units(*part));
        }
        let axis = Axis::new(ends.iter().copied().chain([units(sum)]), FIELD.0, FIELD.1);
        let mut bars = Vec::with_capacity(parts.len() + 1);
        let mut y = 4;
        for ((label, money), span) in parts.iter().zip(ends.windows(2)) {
            let kind = if money.minor() < 0 { "down" } else { "up" };
            bars.push(bar(&axis, (label, *money), (span[0], span[1]), y, kind));
            y += ROW;
        }
        bars.push(bar(&axis, (name, sum), (0.0, units(sum)), y + 4, "sum"));
        Self { height: y + ROW + 8, zero: place(axis.at(0.0)), bars }
    }
}

fn bar(
    axis: &Axis,
    (label, money): (&str, Money),
    (from, to): (f64, f64),
    y: u32,
    kind: &'static str,
) -> Bar {
    let (from, to) = (axis.at(from), axis.at(to));
    Bar {
        label: label.to_owned(),
        amount: difference(money),
        x: place(from.min(to)),
        width: place((from - to).abs().max(0.8)),
        y,
        text_at: y + 13,
        end: place(to),
        kind,
    }
}

/// An amount as a length; only the drawing rests on it.
fn units(money: Money) -> f64 {
    money.minor().to_string().parse().unwrap_or(0.0)
}
