use crate::problem::Problem;
use crate::problem::catalogue::output;
use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::Path;

/// Writes a form into a new file. A file that is there already may be filled in, so that it is never replaced.
pub fn write_new(path: &Path, bytes: &[u8]) -> Result<(), Problem> {
    let shown = path.display().to_string();
    let mut file = File::create_new(path).map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => output::form_exists(&shown),
        _ => output::not_written(&shown, &error),
    })?;
    file.write_all(bytes).and_then(|()| file.sync_all()).map_err(|error| {
        // Half a form is none; what cannot be removed is told as not written all the same.
        let _ = fs::remove_file(path);
        output::not_written(&shown, &error)
    })
}
