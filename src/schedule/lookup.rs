use super::Schedule;

impl Schedule {
    /// The count band of a number of dents; `None` for no dents and beyond the last band.
    pub fn count_band(&self, dents: u32) -> Option<usize> {
        self.counts.iter().position(|band| band.from <= dents && band.to.is_none_or(|to| dents <= to))
    }
}
