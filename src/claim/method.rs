use super::words::named;

named! {
    /// What is done with a panel, ordered by its distance from paintless.
    pub enum Method {
        /// Nothing to do: no damage that is paid.
        NoRepair = "no repair",
        Paintless = "paintless",
        RefinishAfter = "paintless, then refinish",
        Conventional = "conventional repair",
        Replace = "replace",
        /// A person has to look before anything is decided.
        Refer = "refer to a person",
    }
}
