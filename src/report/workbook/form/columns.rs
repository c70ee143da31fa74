use crate::report::form::CountForm;

/// What a cell takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Check {
    /// Any text.
    Free,
    /// A word of a list.
    Word(Vec<&'static str>),
    /// A whole number of dents.
    Dents,
    /// A year.
    Year,
    /// An amount of money.
    Amount,
    /// A length in millimetres.
    Length,
    /// A day.
    Date,
}

/// A column of a table to fill in.
#[derive(Debug, Clone)]
pub(super) struct Column {
    /// Its heading, one that the reader knows.
    pub(super) heading: String,
    /// Its width in characters.
    pub(super) width: u32,
    /// What its cells take.
    pub(super) check: Check,
}

fn column(heading: &str, width: u32, check: Check) -> Column {
    Column { heading: heading.to_owned(), width, check }
}

/// A panel and its side. A list of words in one cell holds 255 characters, too few for all panels with their sides.
fn panel(form: &CountForm, kinds: &[&'static str]) -> [Column; 2] {
    let side = form.words.side.clone();
    [column("panel", 20, Check::Word(kinds.to_vec())), column("side", 8, Check::Word(side))]
}

/// Counts: a panel a row, a size a column. `panels` are those to choose from.
pub(super) fn counts(form: &CountForm, panels: &[&'static str]) -> Vec<Column> {
    let sizes = form.bands.iter().map(|band| column(&band.heading, 12, Check::Dents));
    panel(form, panels)
        .into_iter()
        .chain(sizes)
        .chain([
            column("material", 18, Check::Word(form.words.material.clone())),
            column("access", 14, Check::Word(form.words.access.clone())),
            column("paint", 11, Check::Word(form.words.paint.clone())),
            column("depth", 11, Check::Word(form.words.depth.clone())),
            column("position", 12, Check::Word(form.words.position.clone())),
            column("remark", 30, Check::Free),
        ])
        .collect()
}

/// Marks, a row each.
pub(super) fn marks(form: &CountForm, panels: &[&'static str]) -> Vec<Column> {
    let [panel, side] = panel(form, panels);
    vec![
        panel,
        side,
        column("mark", 15, Check::Word(form.words.mark.clone())),
        column("length mm", 10, Check::Length),
        column("width mm", 10, Check::Length),
        column("cause", 15, Check::Word(form.words.cause.clone())),
        column("depth", 11, Check::Word(form.words.depth.clone())),
        column("position", 12, Check::Word(form.words.position.clone())),
        column("access", 14, Check::Word(form.words.access.clone())),
        column("remark", 30, Check::Free),
    ]
}

/// A car, its owner and its claim.
pub(super) fn car(form: &CountForm) -> Vec<Column> {
    vec![
        column("make", 14, Check::Free),
        column("model", 14, Check::Free),
        column("year", 8, Check::Year),
        column("body type", 18, Check::Word(form.words.body.clone())),
        column("steering", 16, Check::Word(form.words.steering.clone())),
        column("owner", 22, Check::Free),
        column("insurer", 20, Check::Free),
        column("policy", 14, Check::Free),
        column("date of loss", 12, Check::Date),
        column("excess", 10, Check::Amount),
        column("market value", 12, Check::Amount),
        column("tax position", 14, Check::Word(form.words.tax_position.clone())),
    ]
}

/// The columns of a table for many cars: its keys first, and whose count it is.
pub(super) fn in_list(columns: &[Column], form: &CountForm) -> Vec<Column> {
    let is_of_panels = columns.iter().any(|column| column.heading == "panel");
    let mut all = vec![column("claim", 14, Check::Free), column("registration", 13, Check::Free)];
    if is_of_panels {
        all.extend([
            column("assessor", 14, Check::Free),
            column("date of inspection", 12, Check::Date),
            column("role", 11, Check::Word(form.words.role.clone())),
        ]);
    } else {
        all.push(column("vin", 20, Check::Free));
    }
    all.extend(columns.iter().cloned());
    all
}
