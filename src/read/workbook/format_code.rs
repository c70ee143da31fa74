//! Number formats as workbooks write them: `0%`, `#,##0.00 "EUR"`, `[$€-407] #,##0.00`.

use super::formats::Shown;
use crate::quantity::Currency;

/// What the format of positive numbers adds to them.
pub(super) fn shown(code: &str) -> Option<Shown> {
    let (mut letters, mut rest) = (String::new(), code.chars());
    while let Some(c) = rest.next() {
        match c {
            ';' => break,
            // An escaped letter is shown as it is; a filled or skipped one is not there.
            '\\' => letters.extend(rest.next()),
            '*' | '_' => {
                rest.next();
            }
            '"' => letters.extend(rest.by_ref().take_while(|c| *c != '"')),
            '[' => {
                let inside: String = rest.by_ref().take_while(|c| *c != ']').collect();
                if let Some(money) = inside.strip_prefix('$').and_then(of_place) {
                    return Some(money);
                }
            }
            '%' => return Some(Shown::Share),
            c => letters.push(c),
        }
    }
    let letters: String = letters.chars().filter(|c| !"0#?.,-+() \u{a0}\u{202f}'/".contains(*c)).collect();
    money(&letters)
}

/// A currency beside a place, `€-407`: the place tells which dollar it is. Source: [MS-LCID], from memory.
fn of_place(inside: &str) -> Option<Shown> {
    let (sign, place) = inside.split_once('-').unwrap_or((inside, ""));
    let by_place = match place.to_ascii_uppercase().as_str() {
        "409" => "USD",
        "1009" | "C0C" => "CAD",
        "C09" => "AUD",
        "1409" => "NZD",
        "4809" | "1004" => "SGD",
        "C04" => "HKD",
        _ => "",
    };
    if sign == "$" && !by_place.is_empty() { Some(Shown::Money(by_place.to_owned())) } else { money(sign) }
}

fn money(letters: &str) -> Option<Shown> {
    let code = match letters {
        "\u{20ac}" => "EUR",
        "\u{a3}" => "GBP",
        "US$" => "USD",
        "$" => "$",
        code => Currency::from_code(code).filter(|_| code.len() == 3)?.code(),
    };
    Some(Shown::Money(code.to_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn money(code: &str) -> Shown {
        Shown::Money(code.to_owned())
    }

    #[test]
    fn percentages_and_currencies_are_seen_in_a_format() {
        for code in ["0%", "0.0%", "#,##0.00 %;[Red]-#,##0.00 %", "0\\ %"] {
            assert_eq!(shown(code), Some(Shown::Share), "{code}");
        }
        assert_eq!(shown("#,##0.00\\ [$\u{20ac}-407]"), Some(money("EUR")));
        assert_eq!(shown("_-* #,##0.00 \"\u{20ac}\"_-;-* #,##0.00 \"\u{20ac}\"_-"), Some(money("EUR")));
        assert_eq!(shown("\"$\"#,##0.00"), Some(money("$")));
        assert_eq!(shown("[$$-409]#,##0.00"), Some(money("USD")));
        assert_eq!(shown("#,##0.00 \"CHF\""), Some(money("CHF")));
        assert_eq!(shown("[$CHF] 0.00"), Some(money("CHF")));
        assert_eq!(shown("[$\u{a3}-809]#,##0"), Some(money("GBP")));
    }

    #[test]
    fn other_formats_add_nothing() {
        for code in
            ["General", "0.00", "#,##0", "dd/mm/yyyy", "0 \"mm\"", "@", "[$-409]d-mmm", "[h]:mm", "\"x", "["]
        {
            assert_eq!(shown(code), None, "{code}");
        }
    }
}
