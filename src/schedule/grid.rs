use super::GroupId;
use crate::claim::Place;
use crate::quantity::{Hours, UnitRate};

/// What one cell gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Price {
    /// An amount.
    Amount(UnitRate),
    /// A time at the paintless labour rate.
    Time(Hours),
}

/// What the price is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Per {
    /// The panel as a whole.
    Panel,
    /// Each dent.
    Dent,
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

    fn index(&self, group: GroupId, size: usize, count: usize) -> usize {
        (usize::from(group.0) * self.sizes + size) * self.counts + count
    }
}
