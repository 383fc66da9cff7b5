//! Cloth: anything in the stash.

mod look;

pub use look::{Look, Runs, Shade};

use plane::{Point, Pose, Region, Turn};
use serde::{Deserialize, Serialize};

/// A piece of cloth's name for ever, the same in every workroom it travels to. Shown as sixteen
/// hexadecimal digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(into = "String", try_from = "String")]
pub struct ClothId(pub u64);

impl std::fmt::Display for ClothId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:016x}", self.0)
    }
}

impl From<ClothId> for String {
    fn from(id: ClothId) -> Self {
        id.to_string()
    }
}

impl TryFrom<String> for ClothId {
    type Error = String;
    fn try_from(text: String) -> Result<Self, String> {
        let digits = text.len() == 16 && text.bytes().all(|digit| digit.is_ascii_hexdigit());
        let id = if digits { u64::from_str_radix(&text, 16).ok() } else { None };
        id.map(Self).ok_or_else(|| format!("`{text}` is not a cloth: expected sixteen hexadecimal digits"))
    }
}

/// What sort of thing a cloth is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// An odd piece.
    Scrap,
    /// A length off the bolt.
    Length,
    /// Strips sewn together side by side.
    StripSet,
    /// A leftover of binding.
    Binding,
    /// An offcut that has seams in it.
    Pieced,
    /// A whole back.
    Backing,
    /// Batting.
    Batting,
}

/// What is known of a cloth besides its shape and look.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Facts {
    /// Cotton, linen…; empty when not known.
    #[serde(default)]
    pub fibre: String,
    /// Whether it has been washed.
    #[serde(default)]
    pub washed: Option<bool>,
    /// Whether its colour bleeds.
    #[serde(default)]
    pub bleeds: Option<bool>,
}

/// A flattened picture of the right side. Its rows run along x, its columns down from `top_left`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Picture {
    /// SHA-256 of the file, in hexadecimal; also its name in the workroom's folder of pictures.
    pub hash: String,
    /// `png`, `jpg` or `webp`.
    pub format: String,
    /// Pixels an inch.
    pub pixels_per_in: f64,
    /// Where the picture's top left corner lies on the cloth.
    pub top_left: Point,
    /// Width and height in pixels.
    pub size_px: [u32; 2],
}

/// One cloth sewn into a pieced one (a strip set, an offcut with seams).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Part {
    /// Which cloth it was.
    pub cloth: ClothId,
    /// From that cloth's own coordinates to this one's.
    pub pose: Pose,
    /// The part of it that shows, in this cloth's coordinates.
    pub shows: Vec<Point>,
}

/// Anything in the stash. All coordinates are inches on its right side, y up.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Cloth {
    /// Its name for ever.
    pub id: ClothId,
    /// What its maker calls it.
    pub name: String,
    /// What sort of thing it is.
    pub kind: Kind,
    /// Its edge, with holes.
    pub outline: Region,
    /// Stains and thin places inside the outline that must not be used.
    #[serde(default)]
    pub flaws: Vec<Region>,
    /// Whether its size is only about right.
    #[serde(default)]
    pub about: bool,
    /// How it looks from the right side.
    pub look: Look,
    /// Direction of the lengthwise threads.
    pub grain: Turn,
    /// Scraps with the same number here are cut from the same print.
    #[serde(default)]
    pub print: Option<u64>,
    /// Where it is kept.
    #[serde(default)]
    pub place: String,
    /// What else is known.
    #[serde(default)]
    pub facts: Facts,
    /// Its picture, where it was photographed or drawn.
    #[serde(default)]
    pub picture: Option<Picture>,
    /// The cloths it is pieced from, if it is.
    #[serde(default)]
    pub parts: Vec<Part>,
    /// The cloth it was cut from.
    #[serde(default)]
    pub parent: Option<ClothId>,
}
