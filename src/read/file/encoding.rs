//! Which letters the bytes of a text file stand for. Everything behind this sees UTF-8.

use encoding_rs::{UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};
use encoding_rs_io::DecodeReaderBytesBuilder;
use std::borrow::Cow;
use std::io::{self, Read};

/// The encodings that spreadsheet programs write text files in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Encoding {
    Utf8,
    Utf16Le,
    Utf16Be,
    /// What older programs write in western Europe and the Americas.
    Windows1252,
}

/// Bytes that Windows-1252 has no letters for (Encoding Standard, index windows-1252: control characters).
const NO_LETTER: [u8; 5] = [0x81, 0x8d, 0x8f, 0x90, 0x9d];

impl Encoding {
    /// By the byte order mark, else by the bytes. `Err` with the first byte that is a letter in none of them, and where.
    pub(super) fn of(bytes: &[u8]) -> Result<Self, (usize, u8)> {
        if let Some(marked) = Self::marked(bytes) {
            return Ok(marked);
        }
        let Err(error) = std::str::from_utf8(bytes) else { return Ok(Self::Utf8) };
        match bytes.iter().position(|byte| NO_LETTER.contains(byte)) {
            None => Ok(Self::Windows1252),
            Some(_) => {
                Err((error.valid_up_to(), bytes.get(error.valid_up_to()).copied().unwrap_or_default()))
            }
        }
    }

    /// What the first bytes say: a byte order mark, or the nulls of plain letters in UTF-16 without one.
    pub(super) fn marked(bytes: &[u8]) -> Option<Self> {
        const SAMPLE: usize = 64;
        match bytes {
            [0xff, 0xfe, ..] => return Some(Self::Utf16Le),
            [0xfe, 0xff, ..] => return Some(Self::Utf16Be),
            _ => {}
        }
        let pairs: Vec<&[u8]> = bytes.chunks_exact(2).take(SAMPLE).collect();
        let all = |is: fn(&[u8]) -> bool| pairs.len() > 1 && pairs.iter().all(|pair| is(pair));
        if all(|pair| pair[0] != 0 && pair[1] == 0) {
            Some(Self::Utf16Le)
        } else if all(|pair| pair[0] == 0 && pair[1] != 0) {
            Some(Self::Utf16Be)
        } else {
            None
        }
    }

    /// As people know it.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Utf8 => "UTF-8",
            Self::Utf16Le | Self::Utf16Be => "UTF-16",
            Self::Windows1252 => "Windows-1252",
        }
    }

    /// The text as UTF-8, decoded as it is read. A byte order mark is left away.
    pub(super) fn decode<'r>(self, bytes: impl Read + 'r) -> impl Read + 'r {
        let table = match self {
            Self::Utf8 => UTF_8,
            Self::Utf16Le => UTF_16LE,
            Self::Utf16Be => UTF_16BE,
            Self::Windows1252 => WINDOWS_1252,
        };
        DecodeReaderBytesBuilder::new().encoding(Some(table)).bom_sniffing(false).strip_bom(true).build(bytes)
    }

    /// All of a text as UTF-8.
    pub(super) fn whole(self, bytes: &[u8]) -> io::Result<Cow<'_, [u8]>> {
        if self == Self::Utf8 {
            return Ok(Cow::Borrowed(bytes));
        }
        let mut text = Vec::with_capacity(bytes.len());
        self.decode(bytes).read_to_end(&mut text)?;
        Ok(Cow::Owned(text))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(bytes: &[u8]) -> (Encoding, String) {
        let encoding = Encoding::of(bytes).unwrap();
        (encoding, String::from_utf8(encoding.whole(bytes).unwrap().into_owned()).unwrap())
    }

    #[test]
    fn letters_are_the_same_in_every_encoding() {
        let text = "K\u{fc}hler;\u{20ac};\u{bd}\"\n";
        let wide = |order: fn(u16) -> [u8; 2]| text.encode_utf16().flat_map(order).collect::<Vec<u8>>();
        let with = |mark: &[u8], bytes: Vec<u8>| [mark.to_vec(), bytes].concat();
        let plain = text.to_owned();
        assert_eq!(read(text.as_bytes()), (Encoding::Utf8, plain.clone()));
        assert_eq!(read(&with(b"\xff\xfe", wide(u16::to_le_bytes))), (Encoding::Utf16Le, plain.clone()));
        assert_eq!(read(&with(b"\xfe\xff", wide(u16::to_be_bytes))), (Encoding::Utf16Be, plain.clone()));
        assert_eq!(read(b"K\xfchler;\x80;\xbd\"\n"), (Encoding::Windows1252, plain));
    }

    #[test]
    fn utf16_without_a_mark_is_known_by_its_nulls() {
        let text = "claim;panel\n";
        let wide: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
        assert_eq!(read(&wide), (Encoding::Utf16Le, text.to_owned()));
        assert_eq!(Encoding::marked(b"claim;panel\0\0"), None);
        assert_eq!(Encoding::marked(b"a"), None);
    }

    #[test]
    fn a_byte_without_a_letter_in_any_of_them_is_told() {
        assert_eq!(Encoding::of(b"a\nK\xfchl\x81r\n"), Err((3, 0xfc)));
    }
}
