//! Tables as workbooks, by `rust_xlsxwriter`: rows go to disk as they come, so that a listing of any length needs little
//! memory.

mod bordereau;
pub mod claim;
mod comparison;
mod exceptions;
pub mod form;
mod listing;
pub mod map;
pub mod plan;
mod register;
mod starter;
pub mod to_agree;

pub use bordereau::Bordereau;
pub use comparison::ComparisonBook;
pub use exceptions::{ExceptionsBook, Links};
pub use register::RegisterBook;
pub use starter::starter;

use super::folder::{OutputFolder, Written};
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Workbook, XlsxError};
use std::any::Any;
use std::io::{self, Write};
use std::panic::{AssertUnwindSafe, catch_unwind};

/// The start of the writer's panics when a disk is full; `main` keeps them off the screen, for they come back as
/// errors.
pub const WRITE_PANIC: &str = "Couldn't write to xml file";

/// A new workbook whose rows wait in the output folder's own place, with no time in it.
fn book(folder: &OutputFolder, title: &str) -> io::Result<Workbook> {
    let mut workbook = Workbook::new();
    workbook.set_properties(&properties(title).map_err(as_io)?);
    workbook.set_tempdir(folder.path()).map_err(as_io)?;
    Ok(workbook)
}

/// A workbook's properties, with no time in them.
fn properties(title: &str) -> Result<DocProperties, XlsxError> {
    let created = ExcelDateTime::from_ymd(2000, 1, 1)?;
    Ok(DocProperties::new().set_title(title).set_creation_datetime(&created))
}

/// Runs a step of writing a workbook. The library panics where the disk is full; that is an error like any other here.
fn guarded<T>(step: impl FnOnce() -> Result<T, XlsxError>) -> io::Result<T> {
    match catch_unwind(AssertUnwindSafe(step)) {
        Ok(result) => result.map_err(as_io),
        Err(panic) => Err(full(panic.as_ref())),
    }
}

/// The error that a panic of the library stands for.
fn full(panic: &(dyn Any + Send)) -> io::Error {
    let text = panic.downcast_ref::<String>().map_or("", String::as_str);
    if text.contains("StorageFull") {
        io::Error::from(io::ErrorKind::StorageFull)
    } else {
        io::Error::other("the workbook could not be written")
    }
}

/// Writes the finished workbook into the output.
fn save(mut workbook: Workbook, folder: &OutputFolder, name: &str) -> io::Result<Written> {
    let mut file = Remembering { inner: folder.create(name)?, fault: None };
    guarded(|| workbook.save_to_writer(&mut file))?;
    match file.fault {
        Some(fault) => Err(fault),
        None => file.inner.finish(),
    }
}

/// Takes every byte and remembers the first error: the library would panic at it.
struct Remembering<W> {
    inner: W,
    fault: Option<io::Error>,
}

impl<W: Write> Write for Remembering<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if self.fault.is_none() {
            self.fault = self.inner.write_all(bytes).err();
        }
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        if self.fault.is_none() {
            self.fault = self.inner.flush().err();
        }
        Ok(())
    }
}

fn as_io(error: XlsxError) -> io::Error {
    match error {
        XlsxError::IoError(error) => error,
        other => io::Error::other(other.to_string()),
    }
}
