//! Lines that are wider than the terminal, broken between words below the column they stand in.

/// Columns are parted by this.
const GAP: &str = "  ";

/// Breaks a line wider than `width`; what is carried over stands below its last column. Without a width (no terminal)
/// nothing is broken, so that other programs find one record on one line.
pub fn wrapped(line: &str, width: Option<usize>) -> Vec<String> {
    let Some(width) = width else { return vec![line.to_owned()] };
    let indent = last_column(line).min(width * 2 / 3);
    let mut lines = Vec::new();
    let mut current = String::new();
    let mut used = 0;
    for (index, word) in line.split(' ').enumerate() {
        let length = word.chars().count();
        if used > indent && length > 0 && used + 1 + length > width {
            let full = std::mem::replace(&mut current, " ".repeat(indent));
            lines.push(full.trim_end().to_owned());
            used = indent;
        } else if index > 0 {
            current.push(' ');
            used += 1;
        }
        current.push_str(word);
        used += length;
    }
    lines.push(current);
    lines
}

/// Where the last column of a line begins, in characters.
fn last_column(line: &str) -> usize {
    let start = line.trim_end().rfind(GAP).map_or(0, |gap| gap + GAP.len());
    line[..start].chars().count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_does_not_fit_stands_below_its_column() {
        let line = "4 warning  a group has no rate for sizes";
        let expected = ["4 warning  a group has no", "           rate for sizes"];
        assert_eq!(wrapped(line, Some(28)), expected);
        assert_eq!(wrapped(line, None), [line]);
        assert_eq!(wrapped(line, Some(80)), [line]);
    }

    #[test]
    fn a_word_wider_than_the_terminal_is_left_whole() {
        let path = "/a/path/that/is/longer/than/the/terminal/is/wide, with 2 documents";
        assert_eq!(wrapped(path, Some(30))[0], "/a/path/that/is/longer/than/the/terminal/is/wide,");
    }
}
