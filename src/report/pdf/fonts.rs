//! The fonts that documents are set in: those that come with the tool, and others that are given.

use typst::foundations::Bytes;
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;

/// Latin, Greek and Cyrillic in two weights, and a wide one for signs and further scripts. Their licences stand beside
/// them.
const BUNDLED: [&[u8]; 3] = [
    include_bytes!("../../../templates/fonts/LiberationSans-Regular.ttf"),
    include_bytes!("../../../templates/fonts/LiberationSans-Bold.ttf"),
    include_bytes!("../../../templates/fonts/DejaVuSans.ttf"),
];

/// Bits of a word of [`Fonts::covered`].
const BITS: u32 = 64;

/// Fonts, and which characters one of them has.
pub struct Fonts {
    book: LazyHash<FontBook>,
    all: Vec<Font>,
    covered: Vec<u64>,
}

impl Fonts {
    /// Those that come with the tool.
    pub fn bundled() -> Self {
        Self::of(bundled().collect())
    }

    /// Those, and the fonts in further files for characters that they lack. Where several have a character, the order
    /// of the files counts. `None` when a file holds no font that can be read.
    pub fn with(files: Vec<Vec<u8>>) -> Option<Self> {
        let mut fonts: Vec<Font> = bundled().collect();
        for file in files {
            let known = fonts.len();
            fonts.extend(Font::iter(Bytes::new(file)));
            if fonts.len() == known {
                return None;
            }
        }
        Some(Self::of(fonts))
    }

    fn of(fonts: Vec<Font>) -> Self {
        let mut covered = vec![0; (u32::from(char::MAX) / BITS + 1) as usize];
        for font in &fonts {
            for code in font.info().coverage.iter() {
                if let Some(word) = covered.get_mut((code / BITS) as usize) {
                    *word |= 1_u64 << (code % BITS);
                }
            }
        }
        Self { book: LazyHash::new(FontBook::from_fonts(&fonts)), all: fonts, covered }
    }

    /// Whether a font has the character.
    pub fn have(&self, c: char) -> bool {
        let code = u32::from(c);
        self.covered.get((code / BITS) as usize).is_some_and(|word| word >> (code % BITS) & 1 == 1)
    }

    pub(super) fn book(&self) -> &LazyHash<FontBook> {
        &self.book
    }

    pub(super) fn font(&self, index: usize) -> Option<Font> {
        self.all.get(index).cloned()
    }
}

fn bundled() -> impl Iterator<Item = Font> {
    BUNDLED.into_iter().flat_map(|file| Font::iter(Bytes::new(file)))
}
