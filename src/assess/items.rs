//! Damaged things that are no panels: price and labour, a line each.

use super::desk::Desk;
use super::draft::Labour;
use super::{Formula, ItemUnpriced, Line, LineKind, OpenItem, Recorder, Rule};
use crate::claim::Item;
use crate::problem::Problem;
use crate::schedule::{LabourClass, TaxOn};

/// Adds the lines of the items. Those without price and time, and those whose time has no rate, come back as open.
pub(super) fn items<R: Recorder>(
    desk: &mut Desk<'_, R>,
    lines: &mut Vec<Line>,
) -> Result<Vec<OpenItem>, Problem> {
    let mut open = Vec::new();
    for (index, item) in desk.claim.items.iter().enumerate() {
        let why = match (&item.price, item.hours) {
            (None, None) => ItemUnpriced::NothingWritten,
            (_, Some(_)) if desk.labour(LabourClass::Refit).is_none() => ItemUnpriced::NoLabourRate,
            _ => {
                lines_of(desk, lines, index, item)?;
                continue;
            }
        };
        open.push(OpenItem { item: index, why });
    }
    Ok(open)
}

fn lines_of<R: Recorder>(
    desk: &mut Desk<'_, R>,
    lines: &mut Vec<Line>,
    index: usize,
    item: &Item,
) -> Result<(), Problem> {
    if let Some(price) = &item.price {
        let (amount, input) = desk.amount(price)?;
        let step = desk.step(Rule::ItemAmount, amount, || Formula::Sum(vec![input]));
        let (kind, tax) = (LineKind::ItemPrice(index), desk.tax_rate(TaxOn::Parts));
        lines.push(Line { kind, amount, hours: None, tax, cite: Some(price.place), step });
    }
    let class = LabourClass::Refit;
    if let (Some(hours), Some(rate)) = (item.hours, desk.labour(class)) {
        let step = desk.input(hours.place, hours.value);
        let labour = Labour { class, rate, hours: hours.value, place: hours.place, step };
        lines.push(labour.line(desk, LineKind::ItemLabour(index), Rule::ItemAmount)?);
    }
    Ok(())
}
