use crate::compare::statistics::real;

/// How often each pair of categories was given: rows are the first assessor's, columns the second's.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CrossTable {
    categories: usize,
    cells: Vec<u64>,
}

impl CrossTable {
    /// A table of so many categories, nothing in it yet.
    pub fn new(categories: usize) -> Self {
        Self { categories, cells: vec![0; categories * categories] }
    }

    /// Counts a unit that the first put into one category and the second into another, by their numbers. Numbers
    /// beyond the categories are none of this table's and change nothing.
    pub fn add(&mut self, first: usize, second: usize, units: u64) {
        if first < self.categories && second < self.categories {
            self.cells[first * self.categories + second] += units;
        }
    }

    /// Number of categories.
    pub const fn categories(&self) -> usize {
        self.categories
    }

    /// Units with this pair of categories.
    pub fn units(&self, first: usize, second: usize) -> u64 {
        self.cells[first * self.categories + second]
    }

    /// All units.
    pub fn total(&self) -> u64 {
        self.cells.iter().sum()
    }

    /// Every pair of categories with the share of units in it.
    pub(super) fn shares(&self) -> impl Iterator<Item = ((usize, usize), f64)> + '_ {
        let total = real(self.total());
        (0..self.categories)
            .flat_map(move |i| (0..self.categories).map(move |j| (i, j)))
            .map(move |(i, j)| ((i, j), real(self.units(i, j)) / total))
    }

    /// Shares of the categories with the first and with the second assessor.
    pub(super) fn margins(&self) -> (Vec<f64>, Vec<f64>) {
        let mut first = vec![0.0; self.categories];
        let mut second = vec![0.0; self.categories];
        for ((i, j), share) in self.shares() {
            first[i] += share;
            second[j] += share;
        }
        (first, second)
    }

    /// Units that both put into the same category.
    pub fn on_diagonal(&self) -> u64 {
        (0..self.categories).map(|i| self.units(i, i)).sum()
    }
}
