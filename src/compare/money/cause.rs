use crate::claim::words::named;

named! {
    /// An input in which two looks at one panel can differ. Ties of the split go to the earlier one.
    pub enum Cause {
        /// How many dents there are.
        Number = "number of dents",
        /// How they lie over the size bands.
        Size = "size of dents",
        /// Number and size together, where one side has no dents and a share of sizes cannot be told.
        Dents = "dents on one side only",
        /// Material, access, paint, depth and position of the panel.
        Attributes = "what was noted of the panel",
        /// Marks that are rated by themselves or bear on a limit.
        Marks = "marks measured one by one",
    }
}
