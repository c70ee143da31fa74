use super::{Access, Counted, Located, Mark, Material, Paint, PanelId, Place, TallyEntry, words::named};
use crate::quantity::{Area, Date};

named! {
    /// Whose count it is, for the purpose of this claim.
    pub enum Role {
        /// The assessor's own.
        Own = "own",
        /// Somebody else's, for comparison.
        Second = "second",
        /// Agreed between the parties: replaces the panels it holds.
        Agreed = "agreed",
        /// Found later: replaces the panels it holds.
        Supplement = "supplement",
    }
}

/// One person's look at one vehicle, keyed by assessor, date and pass.
#[derive(Debug, Clone, PartialEq)]
pub struct Inspection {
    /// Who; not written is one nameless person.
    pub assessor: Option<Located<String>>,
    /// When.
    pub date: Option<Located<Date>>,
    /// Where.
    pub location: Option<Located<String>>,
    /// First, second pass of the same person on the same day; not written is the first.
    pub pass: Option<Located<u32>>,
    /// Whose count it is; not written is own.
    pub role: Option<Located<Role>>,
    /// The panels it holds, by kind and side in document order.
    pub panels: Vec<PanelCount>,
}

impl Inspection {
    /// Its role, where nothing written means own.
    pub fn role(&self) -> Role {
        self.role.map_or(Role::Own, |role| role.value)
    }
}

/// One panel in one inspection.
#[derive(Debug, Clone, PartialEq)]
pub struct PanelCount {
    /// Which panel.
    pub panel: PanelId,
    /// Its first row.
    pub place: Place,
    /// Its counts, a size each; empty where only marks were written.
    pub tally: Vec<TallyEntry>,
    /// Marks measured or noted one by one.
    pub marks: Vec<Mark>,
    /// What it is made of.
    pub material: Option<Located<Material>>,
    /// How its back is reached.
    pub access: Option<Located<Access>>,
    /// State of the paint.
    pub paint: Option<Located<Paint>>,
    /// Depth of its dents as a whole.
    pub depth: Option<Located<super::Depth>>,
    /// Where its dents lie as a whole.
    pub position: Option<Located<super::Position>>,
    /// Area of the frame the dents were counted in, when the count is to be scaled.
    pub frame: Option<Located<Area>>,
    /// Free text.
    pub remarks: Vec<Located<String>>,
}

impl PanelCount {
    /// A panel of which only its name was written yet.
    pub fn new(panel: PanelId, place: Place) -> Self {
        Self {
            panel,
            place,
            tally: Vec::new(),
            marks: Vec::new(),
            material: None,
            access: None,
            paint: None,
            depth: None,
            position: None,
            frame: None,
            remarks: Vec::new(),
        }
    }

    /// Whether anybody looked: a number in any size, or a mark. A panel with neither was not inspected.
    pub fn is_inspected(&self) -> bool {
        !self.marks.is_empty() || self.tally.iter().any(|entry| entry.count != Counted::NoneWritten)
    }
}
