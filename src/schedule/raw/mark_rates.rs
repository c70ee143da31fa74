use super::Edge;
use super::rates::{Kind, needed_price};
use super::row::RowReader;
use crate::problem::Located;
use crate::quantity::Decimal;

/// One row of mark rates.
#[derive(Debug)]
pub(in crate::schedule) struct RawMarkRate {
    pub mark: Located<String>,
    pub panel: Option<Located<String>>,
    pub over: Option<Edge>,
    pub up_to: Option<Edge>,
    pub price: Option<(Kind, Located<Decimal>)>,
    /// Whether everything could be read; a blank `up to` is an open end only then.
    pub sound: bool,
}

impl RawMarkRate {
    pub(super) fn read(row: &mut RowReader<'_>) -> Option<Self> {
        let place = row.place();
        let mark = row.needed("mark", RowReader::text)?;
        let panel = row.text("panel");
        let over = row.needed("over", RowReader::edge);
        let up_to = row.edge("up to");
        let price = needed_price(row, place);
        Some(Self { mark, panel, over, up_to, price, sound: row.is_sound() })
    }
}
