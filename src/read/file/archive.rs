//! The container of a workbook: what is in it, and bounds that keep a small file from filling the machine.

use crate::problem::{Problem, catalogue::file as say};
use std::io::{self, BufRead, BufReader, Cursor, Read as _};
use zip::ZipArchive;

/// What an archive holds, by the names of its parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Content {
    Workbook,
    BinaryWorkbook,
    OpenDocument,
    LockedOpenDocument,
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
const WORTH_COUNTING: u64 = 64 << 10;
/// A part beyond this size has to be packed no tighter than real sheets are: some ten to forty times.
const LARGE: u64 = 24 << 20;
const MOST_PACKING: u64 = 150;
/// Parts that are kept whole in memory: shared texts, styles, lists of sheets.
const MOST_KEPT: u64 = 64 << 20;
/// Least bytes of one shared text, to hold a stated number of them against.
const LEAST_TEXT: u64 = 5;
const MOST_TEXTS: u64 = 3_000_000;

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
        open_document(bytes)
    } else {
        Content::Unknown
    }
}

/// What an `OpenDocument` archive is, by its stated type and its list of parts.
fn open_document(bytes: &[u8]) -> Content {
    let head = |part: &str, most: u64| {
        let mut text = String::new();
        if let Some(read) = Parts::of(bytes).as_mut().and_then(|parts| parts.open(part)) {
            let _ = read.take(most).read_to_string(&mut text);
        }
        text
    };
    if head("META-INF/manifest.xml", 1 << 20).contains("encryption-data") {
        return Content::LockedOpenDocument;
    }
    if head("mimetype", 128).starts_with("application/vnd.oasis.opendocument.spreadsheet") {
        Content::OpenDocument
    } else {
        Content::OtherDocument
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
        let packed = part.compressed_size();
        let most = LARGE.max(packed.saturating_mul(MOST_PACKING)).min(MOST_UNPACKED);
        let size = if packed > WORTH_COUNTING {
            io::copy(&mut (&mut part).take(most + 1), &mut io::sink())
                .map_err(|_| Fault::Damaged("a part of it cannot be unpacked".to_owned()))?
        } else {
            part.size()
        };
        unpacked = unpacked.saturating_add(size);
        if unpacked > MOST_UNPACKED {
            return Err(Fault::TooLarge("over 2 GiB unpacked"));
        }
        if size > most {
            return Err(Fault::TooLarge("a part that unpacks to over 150 times its size"));
        }
        if size > MOST_KEPT && is_kept(&name) {
            return Err(Fault::TooLarge("over 64 MiB of texts or styles"));
        }
        drop(part);
        if name.ends_with("sharedstrings.xml") {
            let part = archive.by_index(index).map_err(damaged)?;
            check_texts(BufReader::new(part), size)?;
        }
    }
    Ok(())
}

/// Whether all of a part stands in memory at once.
fn is_kept(name: &str) -> bool {
    name.rsplit('.').next().is_some_and(|ending| matches!(ending, "xml" | "rels" | "bin"))
        && !name.contains("worksheets/")
        && name != "content.xml"
}

/// Holds shared texts against what a part of their size can hold, and counts them where they may be many.
fn check_texts(mut part: impl BufRead, size: u64) -> Result<(), Fault> {
    let mut head = Vec::new();
    let _ = (&mut part).take(4096).read_to_end(&mut head);
    if stated_texts(&String::from_utf8_lossy(&head))
        .is_some_and(|texts| texts > size.max(WORTH_COUNTING) / LEAST_TEXT)
    {
        return Err(Fault::Damaged("it states more shared texts than it can hold".to_owned()));
    }
    if size / LEAST_TEXT <= MOST_TEXTS {
        return Ok(());
    }
    let (mut texts, mut tag) = (0_u64, Vec::new());
    loop {
        tag.clear();
        match (&mut part).take(MOST_KEPT).read_until(b'<', &mut tag) {
            Ok(0) | Err(_) => return Ok(()),
            Ok(_) => texts += u64::from(tag.starts_with(b"si")),
        }
        if texts > MOST_TEXTS {
            return Err(Fault::TooLarge("over 3 million texts"));
        }
    }
}

/// The number of shared texts that a part says it holds.
fn stated_texts(head: &str) -> Option<u64> {
    let (_, after) = head.split_once("uniqueCount")?;
    let digits: String =
        after.chars().skip_while(|c| !c.is_ascii_digit()).take_while(char::is_ascii_digit).collect();
    // A number beyond 64 bits is certainly too large.
    Some(digits.parse().unwrap_or(u64::MAX))
}

/// The parts of an archive, unpacked one by one as they are read.
pub(in crate::read) struct Parts<'b> {
    archive: ZipArchive<Cursor<&'b [u8]>>,
}

impl<'b> Parts<'b> {
    /// The parts of an archive; `None` where its list of them is missing.
    pub(in crate::read) fn of(bytes: &'b [u8]) -> Option<Self> {
        ZipArchive::new(Cursor::new(bytes)).ok().map(|archive| Self { archive })
    }

    /// One part by its name, in any case.
    pub(in crate::read) fn open(&mut self, name: &str) -> Option<impl BufRead> {
        let wanted = name.trim_start_matches('/');
        let index = self.archive.index_for_name(wanted).or_else(|| {
            (0..self.archive.len()).find(|index| {
                self.archive
                    .name_for_index(*index)
                    .and_then(Result::ok)
                    .is_some_and(|name| name.replace('\\', "/").eq_ignore_ascii_case(wanted))
            })
        })?;
        self.archive.by_index(index).ok().map(BufReader::new)
    }

    /// Whether some part stands below a folder.
    pub(in crate::read) fn has_below(&self, folder: &str) -> bool {
        self.archive.file_names().flatten().any(|name| name.starts_with(folder))
    }
}
