//! One file of a photograph: its kind by its first bytes, whether it is whole, its digest, and the camera's day.

use crate::claim::{ImageFile, ImageFormat};
use crate::quantity::{Date, parse_date};
use crate::read::file::hexadecimal;
use sha2::{Digest, Sha256};
use std::fs::File;
use std::io::{self, BufRead, BufReader, Read, Seek, SeekFrom};
use std::path::Path;

/// Bytes of the largest file that is taken for a photograph.
const MOST_BYTES: u64 = 64 << 20;
/// Bytes that are read at a time.
const BLOCK: usize = 64 << 10;

/// Why a file is no photograph.
#[derive(Debug)]
pub(super) enum Fault {
    Missing,
    Unreadable(String),
}

impl From<io::Error> for Fault {
    fn from(error: io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => Self::Missing,
            io::ErrorKind::UnexpectedEof => Self::Unreadable("it ends before its picture does".to_owned()),
            _ => Self::Unreadable(error.to_string()),
        }
    }
}

/// Looks at a file.
pub(super) fn look(path: &Path) -> Result<ImageFile, Fault> {
    let refused = |why: &str| Err(Fault::Unreadable(why.to_owned()));
    let about = std::fs::metadata(path)?;
    if !about.is_file() {
        return refused("it is no file");
    }
    let bytes = about.len();
    if bytes > MOST_BYTES {
        return refused("it is larger than 64 MiB");
    }
    let mut file = BufReader::with_capacity(BLOCK, File::open(path)?);
    let Some(format) = format_of(file.fill_buf()?) else {
        return refused("it is neither JPEG, PNG, WebP nor HEIF");
    };
    let mut digest = Sha256::new();
    loop {
        let block = file.fill_buf()?;
        if block.is_empty() {
            break;
        }
        digest.update(block);
        let read = block.len();
        file.consume(read);
    }
    file.rewind()?;
    let is_whole = match format {
        ImageFormat::Jpeg => whole_jpeg(&mut file),
        ImageFormat::Png => whole_png(&mut file),
        ImageFormat::Webp => whole_webp(&mut file, bytes),
        ImageFormat::Heif => whole_heif(&mut file, bytes),
    }?;
    if !is_whole {
        return refused("it ends before its picture does");
    }
    file.rewind()?;
    let sha256 = hexadecimal(&digest.finalize());
    Ok(ImageFile { format, bytes, sha256, taken: taken(&mut file) })
}

/// The kind that the first bytes are a sign of.
fn format_of(first: &[u8]) -> Option<ImageFormat> {
    const BRANDS: [&[u8]; 7] = [b"heic", b"heix", b"hevc", b"mif1", b"msf1", b"heim", b"avif"];
    match first {
        [0xff, 0xd8, 0xff, ..] => Some(ImageFormat::Jpeg),
        [b'R', b'I', b'F', b'F', _, _, _, _, b'W', b'E', b'B', b'P', ..] => Some(ImageFormat::Webp),
        _ if first.starts_with(b"\x89PNG\r\n\x1a\n") => Some(ImageFormat::Png),
        [_, _, _, _, b'f', b't', b'y', b'p', brand @ ..] => {
            BRANDS.iter().any(|known| brand.starts_with(known)).then_some(ImageFormat::Heif)
        }
        _ => None,
    }
}

/// Skips the segments before the picture (one of them may hold a small picture of its own), then looks for its end.
fn whole_jpeg(file: &mut BufReader<File>) -> io::Result<bool> {
    file.seek(SeekFrom::Start(2))?;
    loop {
        let mut marker = [0; 2];
        file.read_exact(&mut marker)?;
        // Fill bytes may stand before a marker.
        while marker == [0xff, 0xff] {
            file.read_exact(&mut marker[1..])?;
        }
        if marker[0] != 0xff {
            return Ok(false);
        }
        let length = u16::from_be_bytes(two(file)?);
        file.seek_relative(i64::from(length) - 2)?;
        if marker[1] == 0xda {
            break;
        }
    }
    let mut is_after_sign = false;
    loop {
        let block = file.fill_buf()?;
        let Some(last) = block.last() else { return Ok(false) };
        if (is_after_sign && block[0] == 0xd9) || block.windows(2).any(|pair| pair == [0xff, 0xd9]) {
            return Ok(true);
        }
        is_after_sign = *last == 0xff;
        let read = block.len();
        file.consume(read);
    }
}

fn two(file: &mut BufReader<File>) -> io::Result<[u8; 2]> {
    let mut two = [0; 2];
    file.read_exact(&mut two)?;
    Ok(two)
}

/// Steps from chunk to chunk up to the one that ends the picture.
fn whole_png(file: &mut BufReader<File>) -> io::Result<bool> {
    file.seek(SeekFrom::Start(8))?;
    loop {
        let mut head = [0; 8];
        file.read_exact(&mut head)?;
        let [a, b, c, d, kind @ ..] = head;
        let with_sum = i64::from(u32::from_be_bytes([a, b, c, d])) + 4;
        if kind == *b"IEND" {
            let mut sum = [0; 4];
            return file.read_exact(&mut sum).map(|()| true);
        }
        file.seek_relative(with_sum)?;
    }
}

fn whole_webp(file: &mut BufReader<File>, bytes: u64) -> io::Result<bool> {
    file.seek(SeekFrom::Start(4))?;
    let mut length = [0; 4];
    file.read_exact(&mut length)?;
    Ok(u64::from(u32::from_le_bytes(length)) + 8 <= bytes)
}

/// Steps from box to box; the last one has to end where the file does.
fn whole_heif(file: &mut BufReader<File>, bytes: u64) -> io::Result<bool> {
    let mut at: u64 = 0;
    while at < bytes {
        file.seek(SeekFrom::Start(at))?;
        let mut head = [0; 8];
        file.read_exact(&mut head)?;
        let [a, b, c, d, ..] = head;
        let length = match u32::from_be_bytes([a, b, c, d]) {
            0 => return Ok(true),
            1 => {
                let mut long = [0; 8];
                file.read_exact(&mut long)?;
                u64::from_be_bytes(long)
            }
            length => u64::from(length),
        };
        if length < 8 {
            return Ok(false);
        }
        at = at.saturating_add(length);
    }
    Ok(at == bytes)
}

/// The day that the camera wrote: Exif `DateTimeOriginal`. A time that was never set (`0000:00:00`) is no day.
fn taken(file: &mut BufReader<File>) -> Option<Date> {
    let exif = exif::Reader::new().read_from_container(file).ok()?;
    let field = exif.get_field(exif::Tag::DateTimeOriginal, exif::In::PRIMARY)?;
    let exif::Value::Ascii(lines) = &field.value else { return None };
    let time = exif::DateTime::from_ascii(lines.first()?).ok()?;
    parse_date(&format!("{:04}-{:02}-{:02}", time.year, time.month, time.day)).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn looked(bytes: &[u8]) -> Result<ImageFile, Fault> {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("photograph");
        std::fs::write(&path, bytes).unwrap();
        look(&path)
    }

    /// Files of no picture that are whole: a start and an end by ITU-T T.81 annex B (with a small picture of its own in a
    /// segment), ISO/IEC 15948 clause 5, RFC 9649 section 2.4 and ISO/IEC 14496-12 clause 4.2.
    const WHOLE: [(ImageFormat, &[u8]); 4] = [
        (
            ImageFormat::Jpeg,
            b"\xff\xd8\xff\xe1\0\x06\xff\xd8\xff\xd9\xff\xff\xdb\0\x02\xff\xda\0\x04\x01\x02scan\xff\0scan\xff\xd9",
        ),
        (ImageFormat::Png, b"\x89PNG\r\n\x1a\n\0\0\0\x02tEXtab\x01\x02\x03\x04\0\0\0\0IEND\xae\x42\x60\x82"),
        (ImageFormat::Webp, b"RIFF\x0c\0\0\0WEBPVP8 abcd"),
        (ImageFormat::Heif, b"\0\0\0\x10ftypheic\0\0\0\0\0\0\0\x0cmdatabcd"),
    ];

    #[test]
    fn a_photograph_is_whole_and_every_shorter_one_is_not() {
        for (format, bytes) in WHOLE {
            let image = looked(bytes).unwrap();
            assert_eq!((image.format, image.bytes, image.taken), (format, bytes.len() as u64, None));
            for length in 0..bytes.len() {
                // The first box of a HEIF file alone has the length that it says.
                let is_box = format == ImageFormat::Heif && length == 16;
                assert_eq!(looked(&bytes[..length]).is_ok(), is_box, "{} of {length}", format.name());
            }
        }
    }

    #[test]
    fn what_stands_behind_a_photograph_does_no_harm_and_a_digest_is_that_of_the_whole_file() {
        let (_, jpeg) = WHOLE[0];
        let with_film = [jpeg, b"a film that the telephone took, too"].concat();
        let image = looked(&with_film).unwrap();
        assert_eq!(image.sha256, hexadecimal(&Sha256::digest(&with_film)));
    }

    #[test]
    fn a_folder_and_a_file_of_something_else_are_no_photographs() {
        let folder = tempfile::tempdir().unwrap();
        assert!(matches!(look(folder.path()), Err(Fault::Unreadable(_))));
        assert!(matches!(look(&folder.path().join("gone.jpg")), Err(Fault::Missing)));
        assert!(matches!(looked(b"\0\0\0\x10ftypisomabcd"), Err(Fault::Unreadable(_))));
        assert!(matches!(looked(b""), Err(Fault::Unreadable(_))));
    }
}
