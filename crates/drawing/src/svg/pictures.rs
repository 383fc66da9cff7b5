//! Where the pictures of a drawing come from.

use super::base64;
use quilt::cloth::Picture;

/// How a file refers to its pictures.
#[derive(Clone, Copy)]
pub enum Pictures<'a> {
    /// By address: this before, then the hash, a dot and the format (`/pictures/3fa1….png`).
    Linked(&'a str),
    /// Inside the file. A picture that isn't found is left out, and its cloth's mean colour shows.
    Inside(&'a dyn Fn(&Picture) -> Option<Vec<u8>>),
    /// None at all: mean colours.
    None,
}

impl std::fmt::Debug for Pictures<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Linked(before) => f.debug_tuple("Linked").field(before).finish(),
            Self::Inside(_) => f.write_str("Inside(_)"),
            Self::None => f.write_str("None"),
        }
    }
}

impl Pictures<'_> {
    /// The address of a picture, or `None` when it is left out.
    #[must_use]
    pub(super) fn address(&self, picture: &Picture) -> Option<String> {
        match self {
            Self::Linked(before) => Some(format!("{before}{}.{}", picture.hash, picture.format)),
            Self::Inside(find) => find(picture).map(|bytes| {
                format!("data:image/{};base64,{}", kind(&picture.format), base64::encode(&bytes))
            }),
            Self::None => None,
        }
    }
}

fn kind(format: &str) -> &str {
    match format {
        "jpg" | "jpeg" => "jpeg",
        "webp" => "webp",
        _ => "png",
    }
}
