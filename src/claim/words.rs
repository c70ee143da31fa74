//! Words for the things a claim speaks of, and the one way to look them up.
//!
//! Names of the enums are data: each lists a canonical name (used on documents) and, in `words.csv`, what else people
//! write. Matching ignores case, spacing and punctuation.

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
            const ALL: &'static [Self] = &[$(Self::$variant),+];
            fn name(self) -> &'static str { self.name() }
        }
    };
}
pub(crate) use named;

/// A closed set of named values.
pub trait Named: Copy + 'static {
    /// Every value.
    const ALL: &'static [Self];
    /// The canonical name.
    fn name(self) -> &'static str;
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
