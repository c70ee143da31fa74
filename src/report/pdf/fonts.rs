//! The fonts that documents are set in: those that come with the tool, and others from a folder.

use crate::problem::{Problem, catalogue::output};
use std::fs;
use std::path::{Path, PathBuf};
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

/// What a font's file is called.
const ENDINGS: [&str; 4] = ["ttf", "otf", "ttc", "otc"];

/// Bits of a word of [`Fonts::covered`].
const BITS: u32 = 64;

/// Fonts, and which characters one of them has.
pub struct Fonts {
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
    covered: Vec<u64>,
}

impl Fonts {
    /// Those that come with the tool.
    pub fn bundled() -> Self {
        Self::of(BUNDLED.into_iter().flat_map(|file| Font::iter(Bytes::new(file))).collect())
    }

    /// Those, and the fonts in a folder for characters that they lack. Fonts are taken in the order of their files'
    /// names, so that the same folder gives the same bytes.
    pub fn with_folder(folder: &Path) -> Result<Self, Problem> {
        let refused = |why: &str| output::fonts_not_read(&folder.display().to_string(), why);
        let entries = fs::read_dir(folder).map_err(|error| refused(&error.to_string()))?;
        let paths = entries.map(|entry| entry.map(|entry| entry.path())).collect::<Result<Vec<_>, _>>();
        let mut paths: Vec<PathBuf> = paths.map_err(|error| refused(&error.to_string()))?;
        paths.retain(|path| is_font(path));
        paths.sort_unstable();
        let mut fonts: Vec<Font> =
            BUNDLED.into_iter().flat_map(|file| Font::iter(Bytes::new(file))).collect();
        let bundled = fonts.len();
        for path in paths {
            let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            let file = fs::read(&path).map_err(|error| refused(&format!("{name}: {error}")))?;
            let known = fonts.len();
            fonts.extend(Font::iter(Bytes::new(file)));
            if fonts.len() == known {
                return Err(refused(&format!("{name} is no font that can be read")));
            }
        }
        if fonts.len() == bundled {
            return Err(refused("it holds no file that ends in .ttf, .otf, .ttc or .otc"));
        }
        Ok(Self::of(fonts))
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
        Self { book: LazyHash::new(FontBook::from_fonts(&fonts)), fonts, covered }
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
        self.fonts.get(index).cloned()
    }
}

fn is_font(path: &Path) -> bool {
    let ending = path.extension().unwrap_or_default().to_string_lossy().to_ascii_lowercase();
    ENDINGS.contains(&ending.as_str())
}
