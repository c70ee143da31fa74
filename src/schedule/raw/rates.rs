use super::row::RowReader;
use crate::problem::{Located, Place, catalogue::schedule as words};
use crate::quantity::Decimal;

/// Whether a number is an amount or a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::schedule) enum Kind {
    Amount,
    Time,
}

/// One row of the long table of rates. A row without a price says that nothing is agreed there.
#[derive(Debug)]
pub(in crate::schedule) struct RawRate {
    pub rated_as: Located<String>,
    pub size: Located<String>,
    pub count: Located<String>,
    pub price: Option<(Kind, Located<Decimal>)>,
    pub per: Option<Located<String>>,
}

impl RawRate {
    pub(super) fn read(row: &mut RowReader<'_>) -> Option<Self> {
        let rated_as = row.needed("rated as", RowReader::text);
        let size = row.needed("size band", RowReader::text);
        let count = row.needed("count band", RowReader::text);
        let price = amount_or_hours(row);
        let per = row.text("per");
        Some(Self { rated_as: rated_as?, size: size?, count: count?, price, per })
    }
}

/// The one of the cells `amount` and `hours` that is filled; both are told.
pub(super) fn amount_or_hours(row: &mut RowReader<'_>) -> Option<(Kind, Located<Decimal>)> {
    match (row.number("amount"), row.number("hours")) {
        (Some(amount), Some(hours)) => {
            let problem = words::one_of_two("an amount", "hours").at(amount.place).and(hours.place);
            row.tell(problem);
            None
        }
        (Some(amount), None) => Some((Kind::Amount, amount)),
        (None, Some(hours)) => Some((Kind::Time, hours)),
        (None, None) => None,
    }
}

/// The price that a row cannot do without.
pub(super) fn needed_price(row: &mut RowReader<'_>, place: Place) -> Option<(Kind, Located<Decimal>)> {
    let price = amount_or_hours(row);
    if price.is_none() && row.is_sound() {
        row.tell(words::neither_of_two("an amount", "hours").at(place));
    }
    price
}
