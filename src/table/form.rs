/// A column that a form knows: what it holds, and what people write above it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column {
    /// Name by which the reading stage asks for it, unique in its form and folded; also the first word people may write.
    pub id: &'static str,
    /// Further headings, already folded (lower case, punctuation as single spaces). A trailing unit ("from mm",
    /// "price EUR") is taken off before comparing.
    pub words: &'static [&'static str],
    /// Whether the form cannot be recognised without it.
    pub needed: bool,
}

impl Column {
    /// A column that the form cannot do without.
    pub const fn needed(id: &'static str, words: &'static [&'static str]) -> Self {
        Self { id, words, needed: true }
    }

    /// A column that may be absent.
    pub const fn optional(id: &'static str, words: &'static [&'static str]) -> Self {
        Self { id, words, needed: false }
    }

    /// Whether a folded heading is its name or one of its words.
    pub fn goes_by(&self, folded: &str) -> bool {
        self.id == folded || self.words.contains(&folded)
    }
}

/// A kind of table, recognised by its headings alone.
#[derive(Debug, Clone, Copy)]
pub struct Form {
    /// What it is called in messages: "vehicles", "size bands".
    pub name: &'static str,
    /// Its columns.
    pub columns: &'static [Column],
    /// Tells a heading of an open-ended family (one column per size band); at least one is then needed.
    pub family: Option<fn(&str) -> bool>,
    /// At least one of these columns has to be there, too; empty for none.
    pub one_of: &'static [&'static str],
}

impl PartialEq for Form {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name
    }
}
