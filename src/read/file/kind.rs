//! What a file is, by its first bytes: names lie.

use super::archive::{self, Content};
use super::encoding::Encoding;
use super::folder::ENDINGS;

/// What can be done with a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::read) enum Kind {
    /// Rows and columns of text.
    Text,
    /// A table of a web page, as some programs write it under the name of a workbook.
    WebPage,
    /// An XLSX workbook.
    Workbook,
    /// An `OpenDocument` workbook.
    OpenDocument,
    /// An XLS or XLSB workbook.
    OldWorkbook {
        /// What it is: "an XLS workbook".
        what: &'static str,
    },
    /// An encrypted workbook.
    Locked,
    /// Not a byte, or only a byte order mark.
    Empty,
    /// Something that is not read.
    Other {
        /// What it is: "a PDF document".
        what: &'static str,
        /// What to do.
        remedy: &'static str,
    },
}

pub(super) const SAVE_AS: &str = "open it in a spreadsheet program and save it as XLSX or CSV";
const TYPE_OFF: &str = "counts have to stand in a spreadsheet (XLSX or CSV)";
const UNPACK: &str = "unpack it and give the spreadsheets in it";

/// First bytes that tell what a file is.
const BEGINNINGS: [(&[u8], &str, &str); 14] = [
    (b"%PDF", "a PDF document", TYPE_OFF),
    (b"\x89PNG", "a picture", TYPE_OFF),
    (b"\xff\xd8\xff", "a photograph", TYPE_OFF),
    (b"GIF8", "a picture", TYPE_OFF),
    (b"II*\0", "a picture", TYPE_OFF),
    (b"MM\0*", "a picture", TYPE_OFF),
    (b"RIFF", "a picture or a recording", TYPE_OFF),
    (b"{\\rtf", "a text document", TYPE_OFF),
    (b"\x1f\x8b", "a compressed file", UNPACK),
    (b"7z\xbc\xaf", "an archive", UNPACK),
    (b"Rar!", "an archive", UNPACK),
    (b"SQLite format 3", "a database", "export its tables as CSV"),
    (b"PAR1", "a table for programs (Parquet)", "export it as CSV"),
    (b"<?xml", "an XML file", SAVE_AS),
];

/// A file of the container in which older office programs keep documents.
const COMPOUND: &[u8] = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1";

/// How the records of a workbook begin, for a file that was cut off before the names of its streams.
const BIFF8: &[u8] = b"\x09\x08\x10\x00\x00\x06\x05\x00";

pub(in crate::read) fn of(bytes: &[u8]) -> Kind {
    let text = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    if text.is_empty() {
        return Kind::Empty;
    }
    if bytes.starts_with(b"PK\x03\x04") || bytes.starts_with(b"PK\x05\x06") {
        return packed(bytes);
    }
    if bytes.starts_with(COMPOUND) {
        return compound(bytes);
    }
    if let Some((_, what, remedy)) = BEGINNINGS.iter().find(|(start, ..)| text.starts_with(start)) {
        return Kind::Other { what, remedy };
    }
    if bytes.get(4..8) == Some(b"ftyp") {
        return Kind::Other { what: "a photograph or a film", remedy: TYPE_OFF };
    }
    let head = &text[..text.len().min(1024)];
    let head: Vec<u8> = head.iter().copied().filter(|byte| *byte != 0).collect();
    let head = head.strip_prefix(b"\xff\xfe").unwrap_or(&head).trim_ascii_start().to_ascii_lowercase();
    if [&b"<!doctype html"[..], b"<html", b"<table", b"<head", b"<meta", b"<!--"]
        .iter()
        .any(|tag| head.starts_with(tag))
    {
        return Kind::WebPage;
    }
    if Encoding::marked(text).is_none() && text.iter().take(1 << 16).any(|byte| *byte == 0) {
        return Kind::Other { what: "neither text nor a workbook", remedy: TYPE_OFF };
    }
    Kind::Text
}

fn packed(bytes: &[u8]) -> Kind {
    match archive::content(bytes) {
        Content::Workbook => Kind::Workbook,
        Content::BinaryWorkbook => Kind::OldWorkbook { what: "an XLSB workbook" },
        Content::OpenDocument => Kind::OpenDocument,
        Content::LockedOpenDocument => Kind::Locked,
        Content::OtherDocument => Kind::Other { what: "a document, no workbook", remedy: TYPE_OFF },
        Content::Unknown => Kind::Other { what: "an archive", remedy: UNPACK },
    }
}

fn compound(bytes: &[u8]) -> Kind {
    // Names of its streams stand in UTF-16.
    let holds = |name: &str| {
        let wide: Vec<u8> = name.encode_utf16().flat_map(u16::to_le_bytes).collect();
        bytes.windows(wide.len()).any(|window| window == wide)
    };
    if holds("EncryptedPackage") {
        Kind::Locked
    } else if holds("Workbook") || holds("Book") || bytes.windows(BIFF8.len()).any(|head| head == BIFF8) {
        Kind::OldWorkbook { what: "an XLS workbook" }
    } else {
        Kind::Other { what: "a document of an old kind", remedy: TYPE_OFF }
    }
}

impl Kind {
    /// What a file that was read is, where the ending of its name says otherwise.
    pub(in crate::read) fn unlike_ending(self, file: &str) -> Option<&'static str> {
        let ending = file.rsplit_once('.').map(|(_, ending)| ending.to_lowercase()).unwrap_or_default();
        let (endings, what): (&[&str], _) = match self {
            Self::Text => (&["csv", "tsv", "tab", "txt"], "text in rows and columns (CSV)"),
            Self::WebPage => (&["htm", "html", "xhtml"], "a web page with a table"),
            Self::Workbook => (&["xlsx", "xlsm", "xltx", "xltm"], "an XLSX workbook"),
            Self::OpenDocument => (&["ods", "ots"], "an OpenDocument workbook (ODS)"),
            Self::OldWorkbook { what } if what.contains("XLSB") => (&["xlsb"], what),
            Self::OldWorkbook { what } => (&["xls", "xlt"], what),
            Self::Locked | Self::Empty | Self::Other { .. } => return None,
        };
        let is_known = ENDINGS.contains(&ending.as_str());
        (is_known && !endings.contains(&ending.as_str())).then_some(what)
    }
}
