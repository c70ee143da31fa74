use super::{Compared, name, text};
use crate::compare::comparison::{MoneyByCause, PanelRef};
use crate::quantity::Money;
use crate::report::comparison::tables::turned;
use serde::Serialize;

#[derive(Debug, Serialize)]
pub(super) struct MoneyView<'a> {
    currency: &'static str,
    cars: usize,
    panels: usize,
    panels_that_differ: usize,
    panels_open: usize,
    first: String,
    second: String,
    difference: String,
    without_signs: String,
    by_cause: Vec<PartView>,
    came_about_by: Vec<PartView>,
    to_the_total: Vec<PartView>,
    largest: Vec<PanelView<'a>>,
    panels_that_carry_four_fifths: usize,
}

#[derive(Debug, Serialize)]
struct PartView {
    what: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    panels: Option<usize>,
    net: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    without_signs: Option<String>,
}

#[derive(Debug, Serialize)]
struct PanelView<'a> {
    claim: &'a str,
    panel: String,
    first: &'a str,
    second: &'a str,
    difference: String,
}

pub(super) fn money_view<'a>(money: &MoneyByCause, compared: &Compared<'a>) -> MoneyView<'a> {
    let part = |what, panels, net: Money, gross: Option<Money>| PartView {
        what,
        panels,
        net: net.to_string(),
        without_signs: gross.map(text),
    };
    MoneyView {
        currency: money.currency.code(),
        cars: money.cars,
        panels: money.panels,
        panels_that_differ: money.differing,
        panels_open: money.open,
        first: money.first.to_string(),
        second: money.second.to_string(),
        difference: money.difference.to_string(),
        without_signs: money.gross.to_string(),
        by_cause: money
            .causes
            .iter()
            .map(|of| {
                let what = of.cause.map_or("causes together", crate::compare::money::Cause::name);
                part(what, Some(of.panels), of.net, Some(of.gross))
            })
            .collect(),
        came_about_by: money
            .turns
            .iter()
            .map(|of| part(turned(of.turned), Some(of.panels), of.net, Some(of.gross)))
            .collect(),
        to_the_total: money.shares.iter().map(|of| part(of.share.words(), None, of.net, None)).collect(),
        largest: money.largest.iter().map(|panel| panel_view(panel, compared)).collect(),
        panels_that_carry_four_fifths: money.carry_most,
    }
}

fn panel_view<'a>(panel: &PanelRef, compared: &Compared<'a>) -> PanelView<'a> {
    let car = &compared.comparison.cars[panel.car];
    let pair = &car.pairs[panel.pair];
    PanelView {
        claim: &car.key,
        panel: panel.panel.to_string(),
        first: name(compared, pair.first),
        second: name(compared, pair.second),
        difference: panel.difference.to_string(),
    }
}
