//! What typst may see while it sets one document.

use super::fonts::Fonts;
use std::fmt::Write as _;
use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, PathError, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, World, WorldExt};

/// The templates by the names by which they import each other.
const TEMPLATES: [(&str, &str); 6] = [
    ("pieces.typ", include_str!("../../../templates/pdf/pieces.typ")),
    ("claim.typ", include_str!("../../../templates/pdf/claim.typ")),
    ("quotation.typ", include_str!("../../../templates/pdf/quotation.typ")),
    ("work_order.typ", include_str!("../../../templates/pdf/work_order.typ")),
    ("supplement.typ", include_str!("../../../templates/pdf/supplement.typ")),
    ("owner.typ", include_str!("../../../templates/pdf/owner.typ")),
];

/// The file in which templates find a document's model.
const DATA: &str = "document.json";

/// The templates, parsed once.
pub struct Templates {
    sources: Vec<Source>,
    data: FileId,
}

impl Templates {
    /// Parses the templates that come with the tool.
    pub fn new() -> Result<Self, PathError> {
        let id = |name: &str| Ok(RootedPath::new(VirtualRoot::Project, VirtualPath::new(name)?).intern());
        let parsed = |(name, text): (&str, &str)| Ok(Source::new(id(name)?, text.to_owned()));
        let sources = TEMPLATES.into_iter().map(parsed).collect::<Result<_, PathError>>()?;
        Ok(Self { sources, data: id(DATA)? })
    }

    /// The template of that name.
    pub fn id(&self, name: &str) -> Option<FileId> {
        let named = |source: &&Source| source.id().vpath().get_without_slash() == name;
        self.sources.iter().find(named).map(Source::id)
    }
}

/// One document on its way: its template, its data, and what all documents share.
pub struct Desk<'p> {
    /// typst's own functions.
    pub library: &'p LazyHash<Library>,
    /// The templates.
    pub templates: &'p Templates,
    /// The fonts.
    pub fonts: &'p Fonts,
    /// The document's template.
    pub main: FileId,
    /// Its model as JSON.
    pub data: Bytes,
}

impl Desk<'_> {
    /// Mistakes of templates in words, each with its file and line.
    pub fn told(&self, errors: &[SourceDiagnostic]) -> String {
        let mut out = String::new();
        for error in errors {
            let source = error.span.id().and_then(|id| self.source(id).ok());
            let line = source.as_ref().zip(self.range(error.span)).and_then(|(source, range)| {
                let line = source.lines().byte_to_line(range.start)?;
                Some((source.id().vpath().get_without_slash().to_owned(), line + 1))
            });
            if !out.is_empty() {
                out.push_str("; ");
            }
            if let Some((file, line)) = line {
                let _ = write!(out, "{file}, line {line}: ");
            }
            out.push_str(&error.message);
        }
        out
    }
}

impl World for Desk<'_> {
    fn library(&self) -> &LazyHash<Library> {
        self.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        self.fonts.book()
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        self.templates.sources.iter().find(|source| source.id() == id).cloned().ok_or(FileError::AccessDenied)
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        if id == self.templates.data { Ok(self.data.clone()) } else { Err(FileError::AccessDenied) }
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.fonts.font(index)
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}
