use crate::claim::InputFile;
use crate::report::workbook::Links;
use std::ffi::OsStr;
use std::io;
use std::path::{Component, Path, absolute};

/// The ways from an output folder to the files that were read, relative where they can be, with `/` on every system.
pub fn links(out: &Path, files: &[InputFile]) -> io::Result<Links> {
    let out = absolute(out)?;
    let mut links = Links::new();
    for file in files {
        if let Some(way) = way(&out, &absolute(Path::new(&file.path))?) {
            links.insert(file.path.clone(), way);
        }
    }
    Ok(links)
}

/// The way from a folder to a file, both absolute; none between two drives, and none that is no text.
fn way(folder: &Path, file: &Path) -> Option<String> {
    let (from, to): (Vec<Component<'_>>, Vec<Component<'_>>) =
        (folder.components().collect(), file.components().collect());
    let shared = from.iter().zip(&to).take_while(|(a, b)| a == b).count();
    let starts_apart = shared == 0 || matches!(from.get(shared), Some(Component::Prefix(_)));
    if starts_apart {
        return None;
    }
    let up = from[shared..].iter().map(|_| Some(".."));
    let down = to[shared..].iter().map(|part| OsStr::to_str(part.as_os_str()));
    let parts: Option<Vec<&str>> = up.chain(down).collect();
    parts.map(|parts| parts.join("/"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_link_goes_up_to_the_common_folder_and_down_to_the_file() {
        let way = |from: &str, to: &str| way(Path::new(from), Path::new(to));
        assert_eq!(way("/a/storm-assessed", "/a/storm/c.xlsx").as_deref(), Some("../storm/c.xlsx"));
        assert_eq!(way("/a/out", "/a/out/in/c.xlsx").as_deref(), Some("in/c.xlsx"));
        assert_eq!(way("/x/y/out", "/a/c.xlsx").as_deref(), Some("../../../a/c.xlsx"));
    }
}
