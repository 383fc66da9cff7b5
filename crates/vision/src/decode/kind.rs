//! Which kind of picture a file holds, by its first bytes (the formats' own signatures), and what
//! can be told of a JPEG before it is decoded.

use super::PictureProblem;

/// A kind that is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    Jpeg,
    Png,
    WebP,
}

/// First bytes of kinds that are known but not read.
const OTHERS: [(&[u8], &str); 7] = [
    (b"GIF8", "GIF"),
    (b"BM", "BMP"),
    (b"II*\0", "TIFF or camera raw"),
    (b"MM\0*", "TIFF or camera raw"),
    (b"%PDF", "PDF"),
    (b"\xff\x0a", "JPEG XL"),
    (b"8BPS", "PSD"),
];

pub(super) fn of(bytes: &[u8]) -> Result<Kind, PictureProblem> {
    if bytes.is_empty() {
        return Err(PictureProblem::Empty);
    }
    if bytes.starts_with(b"\xff\xd8") {
        return jpeg(bytes);
    }
    if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
        return Ok(Kind::Png);
    }
    if bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"WEBP") {
        return webp(bytes);
    }
    if bytes.get(4..8) == Some(b"ftyp") {
        let brand = bytes.get(8..12).unwrap_or_default();
        let kind = match brand {
            b"avif" | b"avis" => "AVIF",
            b"heic" | b"heix" | b"hevc" | b"heim" | b"heis" | b"mif1" | b"msf1" => "HEIC",
            _ => "film",
        };
        return Err(PictureProblem::OtherKind(kind));
    }
    let other = OTHERS.iter().find(|(first, _)| bytes.starts_with(first));
    Err(other.map_or(PictureProblem::NotAPicture, |(_, name)| PictureProblem::OtherKind(name)))
}

/// The container tells its length, after its name (WebP container specification, RIFF header).
fn webp(bytes: &[u8]) -> Result<Kind, PictureProblem> {
    let told = bytes.get(4..8).and_then(|b| b.try_into().ok()).map_or(0, u32::from_le_bytes);
    if bytes.len() as u64 >= u64::from(told) + 8 { Ok(Kind::WebP) } else { Err(PictureProblem::Truncated) }
}

/// Walks the segments before the picture's own bytes: how many channels it has, and whether its
/// end is there. (ITU-T T.81, annex B: a segment is a marker and a length; in the coded bytes 0xFF
/// is always followed by zero or a restart, so the end's marker can't arise by chance.)
fn jpeg(bytes: &[u8]) -> Result<Kind, PictureProblem> {
    let mut at = 2;
    loop {
        match bytes.get(at..at + 2) {
            None => return Err(PictureProblem::Truncated),
            Some([0xff, 0xff]) => at += 1,
            Some([0xff, 0xd9]) => {
                return Err(PictureProblem::Damaged("there is no picture in it".to_owned()));
            }
            Some([0xff, marker]) => {
                let Some(&[high, low]) = bytes.get(at + 2..at + 4) else {
                    return Err(PictureProblem::Truncated);
                };
                let length = usize::from(u16::from_be_bytes([high, low]));
                let frame = matches!(marker, 0xc0..=0xcf) && !matches!(marker, 0xc4 | 0xc8 | 0xcc);
                if frame && bytes.get(at + 9) == Some(&4) {
                    return Err(PictureProblem::Inks);
                }
                at += 2 + length;
                if *marker == 0xda {
                    break;
                }
            }
            Some(_) => return Err(PictureProblem::Damaged("its parts don't follow each other".to_owned())),
        }
    }
    let rest = bytes.get(at..).unwrap_or_default();
    let whole = rest.windows(2).any(|pair| pair == [0xff, 0xd9]);
    if whole { Ok(Kind::Jpeg) } else { Err(PictureProblem::Truncated) }
}
