//! The form and the check digit of vehicle identification numbers, after 49 CFR 565.15: 17 characters without I, O
//! and Q; letters are given values, multiplied by the weight of their position and added; the remainder modulo 11
//! stands at position 9, ten written X. Outside the United States and Canada a check digit is no rule.

/// What is wrong with a VIN.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum VinFault {
    /// Not 17 characters but so many.
    Length(usize),
    /// A character that no VIN has, at this position from 1.
    Character(char, usize),
    /// Position 9 and what it should be.
    CheckDigit {
        /// As written.
        written: char,
        /// As computed.
        computed: char,
    },
    /// Position 10 is none of the codes of a model year.
    ModelYear(char),
}

/// Weights of the positions, source: 49 CFR 565.15(c), table IV.
const WEIGHTS: [u32; 17] = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];

/// A VIN as it is compared: capitals, without spaces and hyphens.
pub fn normalised(vin: &str) -> String {
    vin.chars().filter(|c| !c.is_whitespace() && *c != '-').flat_map(char::to_uppercase).collect()
}

/// Holds a VIN against the rules, its form first.
pub fn check(vin: &str) -> Result<(), VinFault> {
    let characters: Vec<char> = normalised(vin).chars().collect();
    if characters.len() != WEIGHTS.len() {
        return Err(VinFault::Length(characters.len()));
    }
    let mut sum = 0;
    for (index, (character, weight)) in characters.iter().zip(WEIGHTS).enumerate() {
        sum += value(*character).ok_or(VinFault::Character(*character, index + 1))? * weight;
    }
    let computed = char::from_digit(sum % 11, 10).unwrap_or('X');
    if characters[8] != computed {
        return Err(VinFault::CheckDigit { written: characters[8], computed });
    }
    // Source: 49 CFR 565.15(d), table VII.
    if matches!(characters[9], '0' | 'U' | 'Z') {
        return Err(VinFault::ModelYear(characters[9]));
    }
    Ok(())
}

/// The value of a character, source: 49 CFR 565.15(c), table III.
fn value(character: char) -> Option<u32> {
    match character {
        '0'..='9' => character.to_digit(10),
        'A'..='H' => Some(character as u32 - 'A' as u32 + 1),
        'J'..='N' => Some(character as u32 - 'J' as u32 + 1),
        'P' => Some(7),
        'R' => Some(9),
        'S'..='Z' => Some(character as u32 - 'S' as u32 + 2),
        _ => None,
    }
}
