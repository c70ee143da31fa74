use super::Node;

/// Widest text before it is broken into lines.
const WIDEST: usize = 72;
/// Spaces a level is moved in.
const STEP: usize = 2;

/// A row before it is aligned.
struct Row<'a> {
    indent: usize,
    lines: Vec<String>,
    figure: &'a str,
    cells: &'a str,
}

/// The tree as lines of text: what, the figure right-aligned, the cells. A blank line stands before each first-level row
/// that has rows below it.
pub(super) fn text(nodes: &[Node]) -> String {
    let mut rows = Vec::new();
    for node in nodes {
        flatten(node, 0, &mut rows);
    }
    let width = |text: &str| text.chars().count();
    let widest = rows.iter().flat_map(|row| row.lines.iter().map(|line| row.indent + width(line))).max();
    let left = widest.unwrap_or(0);
    let right = rows.iter().map(|row| width(row.figure)).max().unwrap_or(0);
    let mut out = String::new();
    for (index, row) in rows.iter().enumerate() {
        if row.indent == 0 && index > 0 {
            out.push('\n');
        }
        for (at, line) in row.lines.iter().enumerate() {
            let mut drawn = format!("{}{line}", " ".repeat(row.indent));
            // Figure and cells stand on the last line of a text that was broken.
            if at + 1 == row.lines.len() {
                let gap = left - width(&drawn) + 2 + right - width(row.figure);
                drawn.push_str(&" ".repeat(gap));
                drawn.push_str(row.figure);
                drawn.push_str("  ");
                drawn.push_str(row.cells);
            }
            out.push_str(drawn.trim_end());
            out.push('\n');
        }
    }
    out
}

fn flatten<'a>(node: &'a Node, indent: usize, rows: &mut Vec<Row<'a>>) {
    let room = WIDEST.saturating_sub(indent).max(WIDEST / 2);
    rows.push(Row { indent, lines: broken(&node.text, room), figure: &node.figure, cells: &node.cells });
    for below in &node.below {
        flatten(below, indent + STEP, rows);
    }
}

/// A text in lines of at most so many characters, broken at spaces; a longer word stays whole.
fn broken(text: &str, room: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split(' ') {
        let line = lines.len() - 1;
        let used = lines[line].chars().count();
        // A sign stays with its number.
        if used > 0 && word != "%" && used + 1 + word.chars().count() > room {
            lines.push(format!("  {word}"));
        } else {
            if used > 0 {
                lines[line].push(' ');
            }
            lines[line].push_str(word);
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_right_aligned_and_long_texts_are_broken_at_spaces() {
        let long =
            "a limit that says very much about very little, and then goes on to say it again in other words";
        let nodes = [
            Node::new("hood").figure("1 246.13").below([Node::new("dents").figure("48.00")]),
            Node::new(long).figure("7.00"),
        ];
        let drawn = text(&nodes);
        let ends: Vec<usize> =
            drawn.lines().filter(|line| line.ends_with(['0', '3'])).map(str::len).collect();
        assert!(ends.len() == 3 && ends.iter().all(|end| *end == ends[0]), "{drawn}");
        assert!(drawn.lines().all(|line| line.chars().count() <= WIDEST + 12), "{drawn}");
        assert_eq!(drawn.matches("\n\n").count(), 1);
    }

    #[test]
    fn a_word_longer_than_the_room_stays_whole_and_nothing_draws_nothing() {
        assert_eq!(broken("abc defghijkl m", 5), ["abc", "  defghijkl", "  m"]);
        assert_eq!(text(&[]), "");
    }
}
