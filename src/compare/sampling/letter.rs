/// How much is looked at for the size of the lot. II is the usual one; the special levels make small samples.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum InspectionLevel {
    /// Special level S-1.
    SpecialOne,
    /// Special level S-2.
    SpecialTwo,
    /// Special level S-3.
    SpecialThree,
    /// Special level S-4.
    SpecialFour,
    /// General level I.
    One,
    /// General level II.
    Two,
    /// General level III.
    Three,
}

impl InspectionLevel {
    /// Every level, in the order of the table.
    pub const ALL: [Self; 7] = [
        Self::SpecialOne,
        Self::SpecialTwo,
        Self::SpecialThree,
        Self::SpecialFour,
        Self::One,
        Self::Two,
        Self::Three,
    ];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::SpecialOne => "S-1",
            Self::SpecialTwo => "S-2",
            Self::SpecialThree => "S-3",
            Self::SpecialFour => "S-4",
            Self::One => "I",
            Self::Two => "II",
            Self::Three => "III",
        }
    }
}

/// Letters of the standard, in order; I and O are not used.
const LETTERS: &str = "ABCDEFGHJKLMNPQR";

/// Sample sizes of the letters.
const SIZES: [u64; 16] = [2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800, 1250, 2000];

/// A sample size code letter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct CodeLetter(usize);

impl CodeLetter {
    /// How many there are.
    pub(super) const COUNT: usize = SIZES.len();

    /// By its number from 0.
    pub(super) const fn new(index: usize) -> Option<Self> {
        if index < Self::COUNT { Some(Self(index)) } else { None }
    }

    /// Its number from 0.
    pub(super) const fn index(self) -> usize {
        self.0
    }

    /// By its letter.
    pub fn find(letter: char) -> Option<Self> {
        LETTERS.chars().position(|known| known == letter.to_ascii_uppercase()).map(Self)
    }

    /// The letter.
    pub fn letter(self) -> char {
        LETTERS.chars().nth(self.0).unwrap_or('?')
    }

    /// The sample size that it stands for.
    pub const fn size(self) -> u64 {
        SIZES[self.0]
    }
}

/// Table I of MIL-STD-105E: the largest lot of each row, and its letters by level. The last row has no end.
const TABLE: [(u64, &str); 15] = [
    (8, "AAAAAAB"),
    (15, "AAAAABC"),
    (25, "AABBBCD"),
    (50, "ABBCCDE"),
    (90, "BBCCCEF"),
    (150, "BBCDDFG"),
    (280, "BCDEEGH"),
    (500, "BCDEFHJ"),
    (1200, "CCEFGJK"),
    (3200, "CDEGHKL"),
    (10_000, "CDFGJLM"),
    (35_000, "CDFHKMN"),
    (150_000, "DEGJLNP"),
    (500_000, "DEGJMPQ"),
    (u64::MAX, "DEHKNQR"),
];

/// The code letter for a lot; a lot of fewer than two has none.
pub fn code_letter(lot: u64, level: InspectionLevel) -> Option<CodeLetter> {
    if lot < 2 {
        return None;
    }
    let column = InspectionLevel::ALL.iter().position(|known| *known == level)?;
    let (_, letters) = TABLE.iter().find(|(largest, _)| lot <= *largest)?;
    letters.chars().nth(column).and_then(CodeLetter::find)
}
