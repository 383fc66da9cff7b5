//! A cloth on its way into the stash: everything but its name for ever. This is what every way in
//! delivers, photographs too when they come.

use plane::{Region, Turn};
use quilt::cloth::{Cloth, ClothId, Facts, Kind, Look, Picture};
use serde::{Deserialize, Serialize};

/// A cloth without an id. Inches, right side up, y up.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct NewCloth {
    /// What its maker calls it.
    pub name: String,
    /// What sort of thing it is.
    pub kind: Kind,
    /// Its edge.
    pub outline: Region,
    /// Stains and thin places.
    #[serde(default)]
    pub flaws: Vec<Region>,
    /// Whether its size is only about right.
    #[serde(default)]
    pub about: bool,
    /// How it looks.
    pub look: Look,
    /// Direction of the lengthwise threads.
    pub grain: Turn,
    /// Of which print it is, by the print's number; a print of its own when `None`.
    #[serde(default)]
    pub print: Option<u64>,
    /// Scraps with the same words here are of one print; used while several come in together.
    #[serde(default)]
    pub print_name: Option<String>,
    /// Where it is kept.
    #[serde(default)]
    pub place: String,
    /// What else is known.
    #[serde(default)]
    pub facts: Facts,
    /// Its picture; the file must be in the workroom.
    #[serde(default)]
    pub picture: Option<Picture>,
}

impl NewCloth {
    /// A scrap with this outline and look, grain along y.
    #[must_use]
    pub fn scrap(name: &str, outline: Region, look: Look) -> Self {
        Self {
            name: name.to_owned(),
            kind: Kind::Scrap,
            outline,
            flaws: Vec::new(),
            about: false,
            look,
            grain: Turn::QUARTER,
            print: None,
            print_name: None,
            place: String::new(),
            facts: Facts::default(),
            picture: None,
        }
    }

    pub(super) fn named(self, id: ClothId, print: u64) -> Cloth {
        Cloth {
            id,
            name: self.name,
            kind: self.kind,
            outline: self.outline,
            flaws: self.flaws,
            about: self.about,
            look: self.look,
            grain: self.grain,
            print: Some(self.print.unwrap_or(print)),
            place: self.place,
            facts: self.facts,
            picture: self.picture,
            parts: Vec::new(),
            parent: None,
        }
    }
}
