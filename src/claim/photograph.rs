use super::{Located, PanelId, Place};
use crate::quantity::Date;

/// A photograph listed for the claim.
#[derive(Debug, Clone, PartialEq)]
pub struct Photograph {
    /// Its row.
    pub place: Place,
    /// File name as written: a path below the folder of the list.
    pub file: Located<String>,
    /// What it shows.
    pub shows: Option<Located<String>>,
    /// The panel it shows, when it is one.
    pub panel: Option<Located<PanelId>>,
    /// The mark it shows, in the words of the list, when it is one that is measured by itself.
    pub mark: Option<Located<String>>,
    /// When it was taken, by the list.
    pub date: Option<Located<Date>>,
    /// What the file is; none where it was not looked at, or is no photograph.
    pub image: Option<ImageFile>,
}

/// What kind of picture a file holds, by its bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ImageFormat {
    /// ISO/IEC 10918.
    Jpeg,
    /// ISO/IEC 15948.
    Png,
    /// RFC 9649.
    Webp,
    /// ISO/IEC 23008-12, as many telephones write it; AVIF, too.
    Heif,
}

impl ImageFormat {
    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Jpeg => "JPEG",
            Self::Png => "PNG",
            Self::Webp => "WebP",
            Self::Heif => "HEIF",
        }
    }
}

/// A file of a photograph, as it was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ImageFile {
    /// By its bytes, whatever its name says.
    pub format: ImageFormat,
    /// Its length.
    pub bytes: u64,
    /// SHA-256 of its bytes, in lower-case hexadecimal.
    pub sha256: String,
    /// The day on which it was taken, by the camera (Exif `DateTimeOriginal`).
    pub taken: Option<Date>,
}
