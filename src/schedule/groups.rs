use super::forms;
use crate::problem::{Source, SourceKind, Sources};
use crate::table::Table;

/// Parts the recognised tables of a run into schedules: the tables of one workbook are one, and so are those of the text
/// files of one folder. Tables of other forms are left out; order is kept.
pub fn groups<'t, 's>(tables: &'t [Table<'s>], sources: &Sources) -> Vec<Vec<&'t Table<'s>>> {
    let mut groups: Vec<(&str, Vec<&'t Table<'s>>)> = Vec::new();
    for table in tables.iter().filter(|table| forms().contains(&table.form)) {
        let home = home(sources.get(table.sheet.source));
        match groups.iter_mut().find(|(of, _)| *of == home) {
            Some((_, tables)) => tables.push(table),
            None => groups.push((home, vec![table])),
        }
    }
    groups.into_iter().map(|(_, tables)| tables).collect()
}

/// Where the tables of one schedule stand together: a workbook's path, or a folder's with its last slash (so that it is no
/// workbook's), which is empty for text files named without a folder.
pub fn home(source: &Source) -> &str {
    match source.kind {
        SourceKind::Sheet => &source.file,
        SourceKind::Text => source.file.rfind('/').map_or("", |slash| &source.file[..=slash]),
    }
}
