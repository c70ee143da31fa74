use super::{GroupId, LabourClass, Per, Price, Schedule};
use crate::quantity::{Money, UnitRate};

impl Schedule {
    /// The count band of a number of dents; `None` for no dents and beyond the last band.
    pub fn count_band(&self, dents: u32) -> Option<usize> {
        self.counts.iter().position(|band| band.from <= dents && band.to.is_none_or(|to| dents <= to))
    }

    /// The rate of one kind of labour, if the schedule prices it.
    pub fn labour_rate(&self, class: LabourClass) -> Option<UnitRate> {
        self.labour.iter().find(|rate| rate.class == class).map(|rate| rate.per_hour.value)
    }

    /// What so many dents come to at one cell of the grid, rounded once: the amount, or the time at the paintless rate,
    /// for the panel or for each dent. `None` where the cell or that rate is absent, or the amount does not fit.
    pub fn cell_amount(&self, group: GroupId, size: usize, count: usize, dents: u32) -> Option<Money> {
        let cell = self.grid.get(group, size, count)?;
        let rounding = self.terms.rounding.value;
        let times = match cell.per {
            Per::Panel => 1,
            Per::Dent => dents,
        };
        match cell.price {
            Price::Amount(rate) => rate.times(times, rounding).ok(),
            Price::Time(hours) => {
                let time = hours.times(times.into(), self.terms.time_unit.value, rounding).ok()?;
                time.at(self.labour_rate(LabourClass::Paintless)?, rounding).ok()
            }
        }
    }
}
