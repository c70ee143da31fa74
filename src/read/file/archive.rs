//! The container of a workbook: what is in it, and bounds that keep a small file from filling the machine.

use crate::problem::{Problem, catalogue::file as say};
use std::io::{self, Cursor, Read as _};
use zip::ZipArchive;

/// What an archive holds, by the names of its parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Content {
    Workbook,
    BinaryWorkbook,
    OpenDocument,
    OtherDocument,
    Unknown,
}

/// Why a workbook's container is not opened.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Fault {
    /// A part cannot be unpacked.
    Damaged(String),
    /// A bound is passed.
    TooLarge(&'static str),
}

impl Fault {
    pub(super) fn problem(&self, file: &str) -> Problem {
        match self {
            Self::Damaged(why) => say::damaged(file, why),
            Self::TooLarge(what) => say::too_large(file, what),
        }
    }
}

const MOST_PARTS: usize = 4096;
const MOST_UNPACKED: u64 = 2 << 30;
/// Packed bytes of a part that are unpacked once to see whether the size it states is true: a deflated byte becomes at
/// most 1032, so that smaller parts cannot do harm.
const WORTH_COUNTING: u64 = 256 << 10;
/// Least bytes of one shared text, to hold a stated number of them against.
const LEAST_TEXT: u64 = 5;

pub(super) fn content(bytes: &[u8]) -> Content {
    // A damaged list of parts is told when the workbook is opened.
    let Ok(archive) = ZipArchive::new(Cursor::new(bytes)) else { return Content::Workbook };
    let has = |end: &str| archive.file_names().flatten().any(|name| name.to_lowercase().ends_with(end));
    if has("workbook.xml") {
        Content::Workbook
    } else if has("workbook.bin") {
        Content::BinaryWorkbook
    } else if has("[content_types].xml") {
        Content::OtherDocument
    } else if archive.index_for_name("mimetype").is_some() {
        Content::OpenDocument
    } else {
        Content::Unknown
    }
}

/// Holds the container against its bounds: number of parts, stated and true sizes, and the number of shared texts, for
/// which room is made before the first is read.
pub(super) fn check(bytes: &[u8]) -> Result<(), Fault> {
    let damaged = |_| Fault::Damaged("a part of it cannot be unpacked".to_owned());
    let mut archive =
        ZipArchive::new(Cursor::new(bytes)).map_err(|_| Fault::Damaged("its end is missing".to_owned()))?;
    if archive.len() > MOST_PARTS {
        return Err(Fault::TooLarge("over 4096 parts"));
    }
    let mut unpacked = 0_u64;
    for index in 0..archive.len() {
        let mut part = archive.by_index(index).map_err(damaged)?;
        let name = part.name().map_err(damaged)?.to_lowercase();
        let size = if part.compressed_size() > WORTH_COUNTING {
            io::copy(&mut (&mut part).take(MOST_UNPACKED + 1), &mut io::sink())
                .map_err(|_| Fault::Damaged("a part of it cannot be unpacked".to_owned()))?
        } else {
            part.size()
        };
        unpacked = unpacked.saturating_add(size);
        if unpacked > MOST_UNPACKED {
            return Err(Fault::TooLarge("over 2 GiB unpacked"));
        }
        drop(part);
        if name.ends_with("sharedstrings.xml") {
            let part = archive.by_index(index).map_err(damaged)?;
            let mut head = String::new();
            let _ = part.take(4096).read_to_string(&mut head);
            if stated_texts(&head).is_some_and(|texts| texts > size.max(WORTH_COUNTING) / LEAST_TEXT) {
                return Err(Fault::Damaged("it states more shared texts than it can hold".to_owned()));
            }
        }
    }
    Ok(())
}

/// The number of shared texts that a part says it holds.
fn stated_texts(head: &str) -> Option<u64> {
    let (_, after) = head.split_once("uniqueCount")?;
    let digits: String =
        after.chars().skip_while(|c| !c.is_ascii_digit()).take_while(char::is_ascii_digit).collect();
    // A number beyond 64 bits is certainly too large.
    Some(digits.parse().unwrap_or(u64::MAX))
}
