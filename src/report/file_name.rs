//! Names of claim files: one to one with the claims, also where case is ignored, and harmless on every system.
//!
//! A claim number of capitals, digits, `-`, spaces (written `_`) and `/` (written `.`) keeps its look. Every other key
//! gets its readable part and, behind `~`, the first digits of a SHA-256 of the key as written. Keys that are no claim
//! numbers carry their kind in front.

use crate::claim::{JobKey, KeyKind};
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// Longest plain name and longest readable part, so that no name passes 100 characters with its ending.
const LONGEST_PLAIN: usize = 80;
const LONGEST_READABLE: usize = 50;

/// Gives out names; no name twice.
#[derive(Debug, Default)]
pub struct FileNames {
    /// Names given, in capitals.
    taken: BTreeSet<String>,
}

impl FileNames {
    /// None given yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// The name of a claim's files, without an ending, at most 95 characters of ASCII.
    pub fn give(&mut self, key: &JobKey) -> String {
        if let Some(name) = plain(key)
            && self.taken.insert(name.to_ascii_uppercase())
        {
            return name;
        }
        let digest = Sha256::digest(format!("{}\0{}", key.kind.words(), key.text));
        let hex = digest.iter().fold(String::new(), |mut hex, byte| {
            let _ = write!(hex, "{byte:02x}");
            hex
        });
        let readable = readable(key);
        // Eight digits tell the claims of a run apart but for one chance in millions; a number does in any case.
        let by_digest = (8..=40).step_by(8).map(|length| format!("{readable}~{}", &hex[..length]));
        let by_number = (2_u64..).map(|number| format!("{readable}~{}~{number}", &hex[..8]));
        let mut free = by_digest.chain(by_number).filter(|name| self.taken.insert(name.to_ascii_uppercase()));
        free.next().unwrap_or(readable)
    }
}

/// The key as it is, where that is safe and no other key can come out the same.
fn plain(key: &JobKey) -> Option<String> {
    let text = &key.text;
    let allowed = |c: char| c.is_ascii_uppercase() || c.is_ascii_digit() || matches!(c, '-' | ' ' | '/');
    let first_is_sign = text.starts_with(|c: char| c.is_ascii_alphanumeric());
    if !first_is_sign || text.len() > LONGEST_PLAIN || !text.chars().all(allowed) {
        return None;
    }
    let name: String = text
        .chars()
        .map(|c| match c {
            ' ' => '_',
            '/' => '.',
            other => other,
        })
        .collect();
    // A system that ignores case must not take a claim number for a key of another kind.
    let looks_like_a_kind = KINDS
        .iter()
        .any(|(_, word)| name.get(..word.len()).is_some_and(|start| start.eq_ignore_ascii_case(word)));
    match key.kind {
        KeyKind::ClaimNumber if looks_like_a_kind || is_reserved(&name) => None,
        KeyKind::ClaimNumber => Some(name),
        kind => Some(format!("{}{name}", prefix(kind))),
    }
}

/// What stands before keys that are no claim numbers.
const KINDS: [(KeyKind, &str); 4] = [
    (KeyKind::JobNumber, "job-"),
    (KeyKind::Registration, "plate-"),
    (KeyKind::Vin, "vin-"),
    (KeyKind::Sheet, "sheet-"),
];

fn prefix(kind: KeyKind) -> &'static str {
    KINDS.iter().find(|(other, _)| *other == kind).map_or("", |(_, word)| word)
}

/// Letters and digits of the key with `-` for everything else; never empty, hidden or reserved.
fn readable(key: &JobKey) -> String {
    let mut out = prefix(key.kind).to_owned();
    let start = out.len();
    for c in key.text.chars() {
        if c.is_ascii_alphanumeric() {
            out.push(c);
        } else if out.len() > start && !out.ends_with('-') {
            out.push('-');
        }
        if out.len() >= LONGEST_READABLE {
            break;
        }
    }
    match out.trim_end_matches('-') {
        "" => "claim".to_owned(),
        device if is_reserved(device) => format!("claim-{device}"),
        readable => readable.to_owned(),
    }
}

/// Names that Windows keeps for devices, whatever ending they get (Microsoft, "Naming Files, Paths, and Namespaces").
fn is_reserved(name: &str) -> bool {
    const DEVICES: [&str; 6] = ["CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$"];
    let stem = name.split(['.', '~']).next().unwrap_or_default().trim_end().to_ascii_uppercase();
    let numbered = stem
        .strip_prefix("COM")
        .or_else(|| stem.strip_prefix("LPT"))
        .is_some_and(|digit| digit.len() == 1 && digit.bytes().all(|b| b.is_ascii_digit()));
    numbered || DEVICES.contains(&stem.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn name(text: &str) -> String {
        FileNames::new().give(&JobKey::new(KeyKind::ClaimNumber, text))
    }

    #[test]
    fn claim_numbers_as_insurers_write_them_keep_their_look() {
        assert_eq!(name("HC-2026-0114"), "HC-2026-0114");
        assert_eq!(name("2026/114 B"), "2026.114_B");
    }

    #[test]
    fn other_keys_carry_their_kind() {
        let mut names = FileNames::new();
        assert_eq!(names.give(&JobKey::new(KeyKind::JobNumber, "12")), "job-12");
        assert_eq!(names.give(&JobKey::new(KeyKind::Registration, "AB 123")), "plate-AB_123");
        assert!(names.give(&JobKey::new(KeyKind::ClaimNumber, "JOB-12")).starts_with("JOB-12~"));
        assert!(names.give(&JobKey::new(KeyKind::Sheet, "van.csv")).starts_with("sheet-van-csv~"));
    }

    #[test]
    fn a_hostile_key_names_a_harmless_file() {
        for key in [
            "../../x",
            "..",
            ".",
            "/",
            "\\\\host\\share",
            "C:\\x",
            "CON",
            "nul",
            "COM1",
            "LPT9.txt",
            "a\0b",
            "x\ny",
            "",
            " ",
            "-rf",
            "~",
            ".hidden",
            "CON/1",
            "Ä",
            "\u{202e}fdp",
            "名前",
            "<img src=x>",
            "a*b?c|d\"e",
            "%2e%2e%2f",
            "AUX ",
        ] {
            let name = name(key);
            assert!(is_harmless(&name), "{key:?} gives {name:?}");
        }
    }

    #[test]
    fn keys_that_differ_in_case_alone_get_names_that_differ_where_case_is_ignored() {
        let mut names = FileNames::new();
        let given: BTreeSet<String> = ["AB-1", "ab-1", "Ab-1", "aB-1"]
            .iter()
            .map(|key| names.give(&JobKey::new(KeyKind::ClaimNumber, *key)).to_lowercase())
            .collect();
        assert_eq!(given.len(), 4);
    }

    #[test]
    fn one_key_given_twice_is_still_two_names() {
        let mut names = FileNames::new();
        let key = JobKey::new(KeyKind::ClaimNumber, "A-1");
        let given: BTreeSet<String> = (0..20).map(|_| names.give(&key)).collect();
        assert_eq!(given.len(), 20);
    }

    fn is_harmless(name: &str) -> bool {
        !name.is_empty()
            && name.len() <= 95
            && name.chars().all(|c| c.is_ascii_alphanumeric() || "-_.~".contains(c))
            && !name.starts_with(['.', '-', '~'])
            && !is_reserved(&format!("{name}.html"))
    }

    proptest! {
        #[test]
        fn any_two_keys_get_two_harmless_names(keys in proptest::collection::btree_set("(?s).{0,120}|[A-Ca-c/ -]{0,4}", 1..40)) {
            let mut names = FileNames::new();
            let mut given = BTreeSet::new();
            for key in &keys {
                for kind in [KeyKind::ClaimNumber, KeyKind::JobNumber, KeyKind::Sheet] {
                    let name = names.give(&JobKey::new(kind, key.as_str()));
                    prop_assert!(is_harmless(&name), "{:?} gives {:?}", key, name);
                    prop_assert!(given.insert(name.to_lowercase()), "{:?} twice", name);
                }
            }
        }

        #[test]
        fn a_name_follows_from_the_key_alone(keys in proptest::collection::btree_set("(?s).{0,60}", 1..30)) {
            let mut names = FileNames::new();
            for key in &keys {
                let key = JobKey::new(KeyKind::ClaimNumber, key.as_str());
                prop_assert_eq!(names.give(&key), FileNames::new().give(&key));
            }
        }
    }
}
