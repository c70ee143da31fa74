use crate::quantity::Decimal;

/// A value that is asked for in place of the one that a schedule states. Rows are named as the tables name them; a name
/// that no table knows is a problem of the schedule that is read so.
#[derive(Debug, Clone, PartialEq)]
pub enum Asked {
    /// Another value of a term; an empty one takes the term away.
    Term {
        /// The term.
        name: String,
        /// Its value as a cell would hold it, numbers with a decimal point.
        value: String,
    },
    /// Another labour rate.
    Labour {
        /// The class of labour.
        class: String,
        /// Amount per hour, in the schedule's currency.
        per_hour: Decimal,
    },
    /// Another tax rate.
    Tax {
        /// What it is on.
        on: String,
        /// Percent.
        percent: Decimal,
    },
}

impl Asked {
    /// Whether it is an amount, which means nothing in another currency.
    pub fn is_amount(&self) -> bool {
        match self {
            Self::Labour { .. } => true,
            Self::Tax { .. } => false,
            Self::Term { name, .. } => {
                let amounts = ["minimum per vehicle", "round total to"];
                amounts.contains(&crate::claim::words::folded(name).as_str())
            }
        }
    }
}
