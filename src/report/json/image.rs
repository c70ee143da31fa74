//! What the file of a photograph is.

use crate::claim::ImageFile;
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
