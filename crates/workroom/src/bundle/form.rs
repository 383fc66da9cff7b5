//! The form of `quilt.json`, version 1. Stored by makers: it never changes; a next version gets a
//! form of its own.

use crate::papers::OwnWords;
use plane::Region;
use quilt::cloth::Cloth;
use quilt::supply::Supply;
use quilt::wish::Wish;
use serde::{Deserialize, Serialize};

/// What kind of file it is.
pub(super) const FORMAT: &str = "ragbag quilt";

/// What every version has.
#[derive(Debug, Deserialize)]
pub(super) struct Preface {
    pub(super) format: String,
    pub(super) version: u32,
}

/// The document.
#[derive(Debug, Serialize, Deserialize)]
pub(crate) struct Document {
    pub(super) format: String,
    pub(super) version: u32,
    pub(super) name: String,
    pub(super) wish: Wish,
    /// The maker's own words for the pattern.
    #[serde(default, skip_serializing_if = "OwnWords::is_empty")]
    pub(super) words: OwnWords,
    pub(super) heads: Vec<HeadForm>,
    /// Each after its parent.
    pub(super) entries: Vec<EntryForm>,
    pub(super) cloths: Vec<ClothForm>,
    /// The spools of the thread that was chosen.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) supplies: Vec<Supply>,
    pub(super) pictures: Vec<PictureForm>,
}

/// A head.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct HeadForm {
    pub(super) name: String,
    pub(super) tip: Option<String>,
    pub(super) sewn: Option<String>,
}

/// An entry: its stored bytes, which are UTF-8, as a string.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct EntryForm {
    pub(super) id: String,
    pub(super) parent: Option<String>,
    pub(super) stored: String,
}

/// A cloth as it came, and what of it is left.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct ClothForm {
    pub(super) cloth: Cloth,
    pub(super) left: Option<Region>,
}

/// A picture.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct PictureForm {
    pub(super) hash: String,
    pub(super) format: String,
}
