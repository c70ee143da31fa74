//! What is sent along: papers that are listed, and what the files of photographs are.

use super::written::{Cell, Cells};
use crate::claim::{Enclosure, ImageFile};
use serde::Serialize;

/// A file of a photograph.
#[derive(Debug, Serialize)]
pub struct ImageView {
    format: &'static str,
    bytes: u64,
    sha256: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    taken: Option<String>,
}

impl ImageView {
    pub(super) fn new(image: &ImageFile) -> Self {
        Self {
            format: image.format.name(),
            bytes: image.bytes,
            sha256: image.sha256.clone(),
            taken: image.taken.map(|day| day.to_string()),
        }
    }
}

/// A paper that is listed.
#[derive(Debug, Serialize)]
pub struct EnclosureView {
    at: String,
    name: Cell,
    #[serde(skip_serializing_if = "Option::is_none")]
    file: Option<Cell>,
    #[serde(skip_serializing_if = "Option::is_none")]
    date: Option<Cell>,
}

impl EnclosureView {
    pub(super) fn all(enclosures: &[Enclosure], cells: Cells<'_>) -> Vec<Self> {
        let view = |paper: &Enclosure| Self {
            at: cells.at(paper.place),
            name: cells.of(&paper.name),
            file: cells.maybe(paper.file.as_ref()),
            date: cells.maybe(paper.date.as_ref()),
        };
        enclosures.iter().map(view).collect()
    }
}
