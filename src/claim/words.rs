//! Words for the things a claim speaks of, and the one way to look them up.
//!
//! Names of the enums are data: each lists a canonical name (used on documents) and, in `words.csv`, what else people
//! write. Matching ignores case, spacing and punctuation. The words are common practice, no source.

pub mod panel;

use crate::problem::nearest;
use std::collections::BTreeMap;

/// Declares an enum whose values have a canonical name, and `ALL`, `name()` and `Display`.
macro_rules! named {
    ($(#[$meta:meta])* pub enum $type:ident { $($(#[$vmeta:meta])* $variant:ident = $name:literal,)+ }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $type { $($(#[$vmeta])* #[doc = $name] $variant,)+ }

        impl $type {
            /// Every value, in the order in which documents list them.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The canonical name, in lower case.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name),+ }
            }
        }

        impl std::fmt::Display for $type {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.name())
            }
        }

        impl $crate::claim::words::Named for $type {
            const ALL: &'static [Self] = <$type>::ALL;
            const SET: &'static str = stringify!($type);
            fn name(self) -> &'static str { self.name() }
            fn vocabulary() -> &'static $crate::claim::words::Vocabulary {
                static WORDS: std::sync::LazyLock<$crate::claim::words::Vocabulary> = std::sync::LazyLock::new(
                    || $crate::claim::words::Vocabulary::of::<$type>(stringify!($type)),
                );
                &WORDS
            }
        }
    };
}
pub(crate) use named;

/// A closed set of named values.
pub trait Named: Copy + 'static {
    /// Every value.
    const ALL: &'static [Self];
    /// The name of the set, as the rows of `words.csv` give it.
    const SET: &'static str;
    /// The canonical name.
    fn name(self) -> &'static str;
    /// The words that people write for the values.
    fn vocabulary() -> &'static Vocabulary;
}

/// What people write for the values of one set: folded word to the value's number in `ALL`.
#[derive(Debug)]
pub struct Vocabulary {
    by_word: BTreeMap<String, usize>,
}

/// One row per value: the set, the canonical name, and other words, parted by semicolons.
const WORDS: &str = include_str!("words.csv");

impl Vocabulary {
    /// The canonical names of a set, and its rows in `words.csv`.
    pub fn of<T: Named>(set: &str) -> Self {
        let mut by_word: BTreeMap<String, usize> =
            T::ALL.iter().enumerate().map(|(index, value)| (folded(value.name()), index)).collect();
        for (name, also) in rows().filter(|(of, ..)| *of == set).map(|(_, name, also)| (name, also)) {
            let Some(index) = by_word.get(&folded(name)).copied() else { continue };
            for word in also.split(';').map(folded).filter(|word| !word.is_empty()) {
                by_word.entry(word).or_insert(index);
            }
        }
        Self { by_word }
    }
}

/// The rows of `words.csv` below its heading. A name that holds a comma is quoted; nothing else is.
fn rows() -> impl Iterator<Item = (&'static str, &'static str, &'static str)> {
    WORDS.lines().skip(1).filter_map(|line| {
        let (of, rest) = line.split_once(',')?;
        let (name, also) = match rest.strip_prefix('"') {
            Some(quoted) => quoted.split_once("\",")?,
            None => rest.split_once(',')?,
        };
        Some((of, name, also))
    })
}

/// The value that a text stands for, by its canonical name or any other word for it.
pub fn find<T: Named>(text: &str) -> Option<T> {
    T::ALL.iter().copied().find(|value| value.name() == text).or_else(|| find_folded(&folded(text)))
}

/// Likewise of a text that is already folded.
pub fn find_folded<T: Named>(folded: &str) -> Option<T> {
    T::vocabulary().by_word.get(folded).map(|index| T::ALL[*index])
}

/// The words nearest to a text that [`find`] does not know, at most three, best first: as people write them, with the
/// canonical name beside a word that is another.
pub fn suggest<T: Named>(text: &str) -> Vec<String> {
    let words = &T::vocabulary().by_word;
    let mut names = Vec::new();
    let mut suggested = Vec::new();
    for near in nearest(&folded(text), words.keys().map(String::as_str)) {
        let Some(name) = words.get(near).map(|index| T::ALL[*index].name()) else { continue };
        if names.contains(&name) {
            continue;
        }
        names.push(name);
        suggested.push(if folded(name) == near { name.to_owned() } else { format!("{near} ({name})") });
    }
    suggested
}

/// A text as it is compared: lower case, punctuation and runs of space as one space.
pub fn folded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if c.is_alphanumeric() {
            out.extend(c.to_lowercase());
        } else if !out.ends_with(' ') && !out.is_empty() {
            out.push(' ');
        }
    }
    if out.ends_with(' ') {
        out.pop();
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::claim::{Access, BodyType, Material, Method, PanelKind, Settlement};

    #[test]
    fn british_and_american_words_mean_the_same_thing() {
        for (word, kind) in [
            ("Bonnet", PanelKind::Hood),
            ("hood", PanelKind::Hood),
            ("WING", PanelKind::Fender),
            ("boot-lid", PanelKind::TrunkLid),
            ("sill", PanelKind::Rocker),
            ("a pillar", PanelKind::APillar),
        ] {
            assert_eq!(find::<PanelKind>(word), Some(kind), "{word}");
        }
        assert_eq!(find::<Material>("Aluminum"), Some(Material::Aluminium));
        assert_eq!(find::<BodyType>("Station wagon"), Some(BodyType::Estate));
        assert_eq!(find::<Access>("braced"), Some(Access::BehindBrace));
    }

    #[test]
    fn names_with_a_comma_are_found_by_their_other_words() {
        assert_eq!(find::<Method>("PDR then paint"), Some(Method::RefinishAfter));
        assert_eq!(find::<Settlement>("owner keeps"), Some(Settlement::TotalLossKept));
    }

    #[test]
    fn an_unknown_word_gets_the_nearest_written_one_and_its_canonical_name() {
        assert_eq!(find::<Material>("alumnium"), None);
        assert_eq!(suggest::<Material>("alumnium"), ["aluminium"]);
        assert_eq!(suggest::<Material>("bonet"), Vec::<&str>::new());
        assert_eq!(suggest::<PanelKind>("bonet"), ["bonnet (hood)"]);
    }
}
