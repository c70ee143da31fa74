//! Diameters that go by a name: coins of a country that is named with them, and hailstones by their usual objects. The
//! two are kept apart: a hailstone the size of a quarter is larger than the coin.
//!
//! Sources: United States Mint, Coin Specifications, and 31 U.S.C. 5112(a); Council Regulation (EU) No 729/2014, Annex I;
//! Royal Mint, designs and specifications (heptagons at their widest); hailstones by the conversion list of the National
//! Weather Service's Storm Prediction Center, the pea by other offices of it. A British pound is not among them: the
//! coin of 2017 has twelve sides, the one before it was smaller.

use super::{DecimalMark, Length, LengthUnit};
use std::collections::BTreeMap;
use std::sync::LazyLock;

const NAMES: &str = include_str!("named_sizes.csv");

/// Diameters in millimetres by name; of a name that stands twice the first holds.
static BY_NAME: LazyLock<BTreeMap<String, &str>> = LazyLock::new(|| {
    let mut by_name = BTreeMap::new();
    let rows = NAMES.lines().skip(1).filter_map(|row| {
        let (canonical, rest) = row.split_once(',')?;
        let (millimetres, also) = rest.split_once(',')?;
        Some((canonical, millimetres, also))
    });
    for (canonical, millimetres, also) in rows {
        by_name.entry(canonical.to_lowercase()).or_insert(millimetres);
        for name in also.split("; ").filter(|name| !name.is_empty()) {
            by_name.entry(name.to_owned()).or_insert(millimetres);
        }
    }
    by_name
});

/// The diameter of a coin or hailstone whose name says which one it is: `US quarter`, `2 euro`, `UK 50p`, `hail golf
/// ball`. A bare `quarter` or `dime` is none: whose it is, or whether it is a coin at all, has to be said.
pub fn named_size(text: &str) -> Option<Length> {
    let folded: String = text.chars().map(|c| if c.is_alphanumeric() { c } else { ' ' }).collect();
    let words: Vec<String> = folded.to_lowercase().split_whitespace().map(str::to_owned).collect();
    let name = words.join(" ").replace("usa ", "us ");
    let name = name.strip_suffix(" coin").filter(|name| *name != "us dollar").unwrap_or(&name);
    let millimetres = BY_NAME.get(name)?;
    Length::parse(millimetres, LengthUnit::Millimetre, DecimalMark::Point).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn millimetres(text: &str) -> Option<String> {
        named_size(text).map(|length| length.to_string())
    }

    #[test]
    fn a_coin_is_as_wide_as_its_mint_says() {
        for (text, wide) in [
            ("US quarter", "24.26 mm"),
            ("us dime", "17.91 mm"),
            ("USA half dollar", "30.61 mm"),
            ("US dollar coin", "26.49 mm"),
            ("2 Euro", "25.75 mm"),
            ("EU 50 cent coin", "24.25 mm"),
            ("UK 50p", "27.3 mm"),
            ("gb 10 pence", "24.5 mm"),
        ] {
            assert_eq!(millimetres(text).as_deref(), Some(wide), "{text}");
        }
    }

    #[test]
    fn a_hailstone_is_not_the_coin_that_it_is_likened_to() {
        // 1.00, 0.88 and 1.75 inches.
        assert_eq!(millimetres("hail quarter").as_deref(), Some("25.4 mm"));
        assert_eq!(millimetres("nickel-size hail").as_deref(), Some("22.352 mm"));
        assert_eq!(millimetres("golf ball hail").as_deref(), Some("44.45 mm"));
    }

    #[test]
    fn a_name_that_leaves_open_whose_coin_it_is_has_no_size() {
        for text in ["quarter", "dime", "penny", "50 cent", "1 pound", "golf ball", "coin", ""] {
            assert_eq!(named_size(text), None, "{text}");
        }
    }
}
