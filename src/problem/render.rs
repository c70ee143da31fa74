use super::{Place, Problem, Sources};
use std::fmt::Write as _;

/// A row as it was written, for quoting beside a problem.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct QuotedRow {
    /// Its cells that are not blank, as text, in order.
    pub cells: Vec<String>,
    /// Which of them the problem is about.
    pub marked: Option<usize>,
}

/// Cells quoted on each side of the marked one.
const BESIDE: usize = 4;
/// Characters quoted of a cell.
const OF_A_CELL: usize = 32;
/// Characters of a message: what people write can be of any length.
const OF_A_MESSAGE: usize = 400;
/// Characters quoted of the marked cell.
const OF_THE_MARKED: usize = 64;

/// A problem as a few lines of text: what, where, the cell as written, what would be right. No colour; the command
/// line adds that.
pub fn render_text(problem: &Problem, sources: &Sources) -> String {
    render_with_row(problem, sources, |_| None)
}

/// Likewise with the whole row as it was written, its cell marked, where `row` finds it.
pub fn render_with_row(
    problem: &Problem,
    sources: &Sources,
    row: impl FnOnce(Place) -> Option<QuotedRow>,
) -> String {
    let mut out = format!(
        "{}: {} ({})\n",
        problem.severity(),
        clipped(&visible(&problem.message), OF_A_MESSAGE),
        problem.code.id
    );
    if let Some(claim) = &problem.claim {
        let _ = writeln!(out, "  claim {}", visible(claim));
    }
    if let Some(place) = problem.place {
        let _ = writeln!(out, "  at {}", visible(&sources.describe(place)));
    }
    for place in &problem.also {
        let _ = writeln!(out, "  and {}", visible(&sources.describe(*place)));
    }
    let quoted = problem.place.and_then(row);
    if let Some(quoted) = &quoted {
        let _ = writeln!(out, "    {}", row_text(quoted));
    }
    let is_shown = quoted.is_some_and(|quoted| quoted.marked.is_some());
    if let Some(written) = problem.written.as_ref().filter(|_| !is_shown) {
        let _ = writeln!(out, "  written: {}", clipped(&visible(written), OF_THE_MARKED));
    }
    if let Some(help) = &problem.help {
        let _ = writeln!(out, "  {}", visible(help));
    }
    out
}

/// `C-1004 | left fender | >> twelve << | 3`, cut to what stands near the mark.
fn row_text(row: &QuotedRow) -> String {
    let mark = row.marked.unwrap_or(0);
    let first = mark.saturating_sub(BESIDE);
    let last = (mark + BESIDE + 1).min(row.cells.len());
    let mut parts = Vec::new();
    if first > 0 {
        parts.push("\u{2026}".to_owned());
    }
    for (number, cell) in row.cells.iter().enumerate().take(last).skip(first) {
        let cell = visible(cell);
        parts.push(if row.marked == Some(number) {
            format!(">> {} <<", clipped(&cell, OF_THE_MARKED))
        } else {
            clipped(&cell, OF_A_CELL)
        });
    }
    if last < row.cells.len() {
        parts.push("\u{2026}".to_owned());
    }
    parts.join(" | ")
}

fn clipped(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    text.chars().take(most - 1).chain(['\u{2026}']).collect()
}

/// Text of others that is safe on a terminal: line ends become spaces, other control signs and signs that turn the
/// direction of writing are shown as unreadable.
pub fn visible(text: &str) -> String {
    let shown = |c: char| match c {
        '\n' | '\r' | '\t' => ' ',
        '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => '\u{fffd}',
        c if c.is_control() => '\u{fffd}',
        c => c,
    };
    text.chars().map(shown).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::problem::{Source, SourceKind, catalogue};

    fn problem() -> (Problem, Sources) {
        let mut sources = Sources::new();
        let source = sources.add(Source {
            file: "storm.xlsx".to_owned(),
            sheet: "Counts".to_owned(),
            kind: SourceKind::Sheet,
        });
        let problem = catalogue::file::unreadable("twelve", "no number")
            .at(Place::cell(source, 7, 4))
            .written("twelve")
            .of_claim("C-1004")
            .help("write a whole number such as 12");
        (problem, sources)
    }

    fn row(cells: &[&str], marked: Option<usize>) -> QuotedRow {
        QuotedRow { cells: cells.iter().map(|cell| (*cell).to_owned()).collect(), marked }
    }

    #[test]
    fn a_problem_shows_its_place_the_row_with_the_cell_marked_and_what_would_be_right() {
        let (problem, sources) = problem();
        let text = render_with_row(&problem, &sources, |place| {
            assert_eq!((place.row, place.column), (7, 4));
            Some(row(&["C-1004", "left fender", "twelve", "3"], Some(2)))
        });
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(
            lines,
            [
                "error: twelve cannot be read: no number (file-unreadable)",
                "  claim C-1004",
                "  at storm.xlsx, sheet Counts, cell D7",
                "    C-1004 | left fender | >> twelve << | 3",
                "  write a whole number such as 12",
            ]
        );
    }

    #[test]
    fn without_its_row_the_cell_alone_is_quoted() {
        let (problem, sources) = problem();
        assert!(render_text(&problem, &sources).contains("  written: twelve\n"));
    }

    #[test]
    fn a_long_row_is_cut_to_what_stands_near_the_mark() {
        let cells: Vec<String> = (0..40).map(|i| format!("{i}").repeat(20)).collect();
        let text = row_text(&QuotedRow { cells, marked: Some(20) });
        assert!(text.starts_with('\u{2026}') && text.ends_with('\u{2026}'), "{text}");
        assert!(text.chars().count() < 400, "{text}");
        assert!(text.contains(">> 2020"), "{text}");
    }

    #[test]
    fn control_signs_of_a_cell_do_nothing_to_the_terminal() {
        let (mut problem, sources) = problem();
        problem.message = "a\u{1b}[31mred\u{7}\nnext\u{202e}".to_owned();
        let text = render_text(&problem, &sources);
        let first = text.lines().next().unwrap();
        assert_eq!(first, "error: a\u{fffd}[31mred\u{fffd} next\u{fffd} (file-unreadable)");
    }
}
