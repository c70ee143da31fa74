/// Strokes of a tally, as text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Strokes {
    /// They are as many.
    Exactly(u32),
    /// As many as are written; more, if the cross stroke of each group of four was lost on the way into text.
    Open {
        /// As written.
        written: u32,
        /// With a cross stroke for each group of four.
        crossed: u32,
    },
}

/// Strokes of a tally: `|||`, `||||| ||`, `||||/ ||`, or three and more capital I's. Groups of five, or of four and a
/// cross stroke, are clear, as is a single group of up to five; another group after one of four strokes means that the
/// four were complete, and so perhaps five. `None` for anything else: `II` may be a typed 11, `ll` certainly may.
/// Groups of five are common practice, no source.
pub fn parse_strokes(text: &str) -> Option<Strokes> {
    let groups: Vec<&str> = text.split_whitespace().collect();
    let upright = text.trim_start().chars().next().filter(|c| matches!(c, '|' | 'I'))?;
    let (mut written, mut fours) = (0_u32, 0_u32);
    for (at, group) in groups.iter().enumerate() {
        let is_last = at + 1 == groups.len();
        let (strokes, is_crossed) =
            group.strip_suffix(['/', '\\']).map_or((*group, false), |strokes| (strokes, true));
        if !strokes.chars().all(|c| c == upright) {
            return None;
        }
        match (strokes.len(), is_crossed, is_last) {
            (4, true, _) | (5, false, _) => written = written.checked_add(5)?,
            (4, false, false) => {
                written = written.checked_add(4)?;
                fours += 1;
            }
            (few @ 1..=4, false, true) => written = written.checked_add(u32::try_from(few).ok()?)?,
            _ => return None,
        }
    }
    if upright == 'I' && written < 3 {
        return None;
    }
    // Beside groups of four, a last group of four is as complete as the others.
    fours += u32::from(fours > 0 && groups.last().is_some_and(|group| group.len() == 4));
    Some(match fours {
        0 => Strokes::Exactly(written),
        fours => Strokes::Open { written, crossed: written.checked_add(fours)? },
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn groups_of_five_and_single_groups_are_exact() {
        for (text, count) in [
            ("|", 1),
            ("|||", 3),
            ("||||", 4),
            ("|||||", 5),
            ("||||| ||", 7),
            ("||||/ ||||\\  |", 11),
            ("IIII", 4),
            ("IIIII II", 7),
        ] {
            assert_eq!(parse_strokes(text), Some(Strokes::Exactly(count)), "{text}");
        }
    }

    #[test]
    fn a_group_after_one_of_four_may_follow_a_five_whose_cross_stroke_was_lost() {
        assert_eq!(parse_strokes("|||| ||"), Some(Strokes::Open { written: 6, crossed: 7 }));
        assert_eq!(parse_strokes("IIII IIII"), Some(Strokes::Open { written: 8, crossed: 10 }));
    }

    #[test]
    fn what_may_be_digits_or_letters_is_no_tally() {
        for text in ["", " ", "I", "II", "ll", "111", "|| |||", "||||||", "|x|", "IV", "/", "|I", "||| ?"] {
            assert_eq!(parse_strokes(text), None, "{text}");
        }
    }
}
