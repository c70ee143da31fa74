//! The figures of claims as the program and the yardstick wrote them.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::Path;

/// How many of the yardstick's claims have the program's dents, open panels and net, and how many it has.
pub fn same(ours: &Path, theirs: &Path) -> io::Result<(usize, usize)> {
    let ours = figures(ours, ["dents", "panels referred", "net"])?;
    let theirs = figures(theirs, ["dents", "referred", "net"])?;
    let same = theirs.iter().filter(|(claim, figures)| ours.get(*claim) == Some(figures)).count();
    Ok((same, theirs.len()))
}

/// Three columns of a table by the claim in its first column.
fn figures(path: &Path, names: [&str; 3]) -> io::Result<BTreeMap<String, [String; 3]>> {
    let text = fs::read_to_string(path)?;
    let mut lines = text.lines();
    let head = lines.next().map(fields).unwrap_or_default();
    let at = names.map(|name| head.iter().position(|field| field == name).unwrap_or(usize::MAX));
    Ok(lines
        .map(fields)
        .map(|row| {
            let figure = |index: usize| row.get(index).map(|text| plain(text)).unwrap_or_default();
            (row.first().cloned().unwrap_or_default(), at.map(figure))
        })
        .collect())
}

/// `12.50` and `12.5`, `0.00` and `0` are one number.
fn plain(number: &str) -> String {
    let plain =
        if number.contains('.') { number.trim_end_matches('0').trim_end_matches('.') } else { number };
    plain.to_owned()
}

/// Fields of a line, quotation marks taken off; no field of these tables holds a line end or a quotation mark.
fn fields(line: &str) -> Vec<String> {
    let mut fields = vec![String::new()];
    let mut is_quoted = false;
    for c in line.chars() {
        match c {
            '"' => is_quoted = !is_quoted,
            ',' if !is_quoted => fields.push(String::new()),
            other => fields.last_mut().into_iter().for_each(|field| field.push(other)),
        }
    }
    fields
}
