use super::words::named;

named! {
    /// The side of the road that a country drives on; decides which side is near (the kerb's) and off. Countries by
    /// their names and ISO 3166-1 codes stand in the word list, from memory.
    pub enum Traffic {
        Left = "left-hand traffic",
        Right = "right-hand traffic",
    }
}

named! {
    /// Markets whose rules make the check digit of a VIN binding: the United States (49 CFR 565) and Canada.
    pub enum CheckDigitRule {
        Required = "check digit required",
    }
}
