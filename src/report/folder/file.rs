use sha2::{Digest, Sha256};
use std::fmt::Write as _;
use std::fs::File;
use std::io::{self, BufWriter, Read, Write};
use std::path::Path;

/// A file of an output, as its record lists it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
pub struct Written {
    /// Its path in the output folder, with `/`.
    pub path: String,
    /// Its length in bytes.
    pub bytes: u64,
    /// SHA-256 of its bytes, in lower-case hexadecimal.
    pub sha256: String,
}

impl Written {
    /// A file that stands already, digested; `name` is what records call it.
    pub fn of_file(at: &Path, name: &str) -> io::Result<Self> {
        digest(at, name)
    }
}

/// Bytes that are put together before they go to the disk: few for the many documents, many for tables.
const BUFFER: usize = 1 << 16;

/// A file that is digested while it is written.
#[derive(Debug)]
pub struct Digesting {
    file: BufWriter<File>,
    path: String,
    bytes: u64,
    digest: Sha256,
}

impl Digesting {
    /// Creates the file; `name` is what its record calls it.
    pub(super) fn create(at: &Path, name: &str) -> io::Result<Self> {
        let file = BufWriter::with_capacity(BUFFER, File::create_new(at)?);
        Ok(Self { file, path: name.to_owned(), bytes: 0, digest: Sha256::new() })
    }

    /// Ends the file.
    pub fn finish(mut self) -> io::Result<Written> {
        self.file.flush()?;
        Ok(Written { path: self.path, bytes: self.bytes, sha256: hex(&self.digest.finalize()) })
    }
}

impl Write for Digesting {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let taken = self.file.write(bytes)?;
        self.digest.update(&bytes[..taken]);
        self.bytes += taken as u64;
        Ok(taken)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.file.flush()
    }
}

/// Reads a file for its length and digest.
pub(super) fn digest(at: &Path, name: &str) -> io::Result<Written> {
    let mut file = File::open(at)?;
    let mut digest = Sha256::new();
    let mut bytes = 0;
    let mut buffer = vec![0; 1 << 16];
    loop {
        let read = match file.read(&mut buffer) {
            Ok(0) => break,
            Ok(read) => read,
            Err(error) if error.kind() == io::ErrorKind::Interrupted => continue,
            Err(error) => return Err(error),
        };
        digest.update(&buffer[..read]);
        bytes += read as u64;
    }
    Ok(Written { path: name.to_owned(), bytes, sha256: hex(&digest.finalize()) })
}

/// A digest in lower-case hexadecimal.
pub(super) fn hex(digest: &[u8]) -> String {
    digest.iter().fold(String::new(), |mut hex, byte| {
        let _ = write!(hex, "{byte:02x}");
        hex
    })
}
