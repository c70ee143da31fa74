use crate::claim::words::named;

named! {
    /// An input in which two looks at one panel can differ. Ties of the split go to the earlier one.
    pub enum Cause {
        /// How many dents there are.
        Number = "number of dents",
        /// How they lie over the size bands.
        Size = "size of dents",
        /// Number and size together: one side has no dents, so that there are no shares of sizes, or a mixture of the two is
        /// not priced.
        Dents = "number and size together",
        /// Material, access, paint, depth and position of the panel.
        Attributes = "what was noted of the panel",
        /// Marks that are rated by themselves or bear on a limit.
        Marks = "marks measured one by one",
        /// A decision on the panel that stands in one look's claim alone, or otherwise there.
        Overrule = "what a person decided",
    }
}
