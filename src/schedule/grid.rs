use super::GroupId;
use crate::claim::{Place, words::named};
use crate::quantity::{Hours, UnitRate};

/// What one cell gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Price {
    /// An amount.
    Amount(UnitRate),
    /// A time at the paintless labour rate.
    Time(Hours),
}

named! {
    /// What a price is for: the panel as a whole, or each dent.
    pub enum Per {
        Panel = "panel",
        Dent = "dent",
    }
}

/// One cell of the rate grid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct GridCell {
    /// What it gives.
    pub price: Price,
    /// For what.
    pub per: Per,
    /// Where it stands.
    pub place: Place,
}

/// Prices by group, size band and count band. Cells may be absent: no price is known there.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Grid {
    sizes: usize,
    counts: usize,
    cells: Vec<Option<GridCell>>,
}

impl Grid {
    /// An empty grid for so many groups, size bands and count bands.
    pub fn new(groups: usize, sizes: usize, counts: usize) -> Self {
        Self { sizes, counts, cells: vec![None; groups * sizes * counts] }
    }

    /// Puts a cell; returns the one that was there, which is a contradiction.
    pub fn put(&mut self, group: GroupId, size: usize, count: usize, cell: GridCell) -> Option<GridCell> {
        let index = self.index(group, size, count);
        self.cells[index].replace(cell)
    }

    /// The cell of a group, size band and count band.
    pub fn get(&self, group: GroupId, size: usize, count: usize) -> Option<&GridCell> {
        self.cells.get(self.index(group, size, count)).and_then(Option::as_ref)
    }

    /// Every cell there is, group by group, size by size.
    pub fn cells(&self) -> impl Iterator<Item = &GridCell> {
        self.cells.iter().flatten()
    }

    /// The cells of one group.
    pub fn cells_of(&self, group: GroupId) -> impl Iterator<Item = &GridCell> {
        let from = self.index(group, 0, 0);
        self.cells.iter().skip(from).take(self.sizes * self.counts).flatten()
    }

    fn index(&self, group: GroupId, size: usize, count: usize) -> usize {
        (usize::from(group.0) * self.sizes + size) * self.counts + count
    }
}
