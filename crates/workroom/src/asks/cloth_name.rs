//! Cloths as a maker names them, and the one rule by which a name finds its cloth.
//!
//! Of the cloths that answer to a name, and of which something is free (chalk claims and flaws taken
//! off), it is the one with the largest free part; of equals the one with the least number.

use super::error::{AskError, Asked};
use super::heap::Claimed;
use crate::stash::{Item, Stash};
use crate::workroom::Workroom;
use plane::Region;
use quilt::cloth::{Cloth, ClothId, Kind};
use quilt::stage::layers::{BackingChoice, Basting, BattingChoice, Guiding, LayersChoice, Shrink};
use serde::{Deserialize, Serialize};

/// What a plan calls the largest strip set that there is.
const ANY_STRIP_SET: &str = "strip set";

/// A cloth of the heap, as a maker names it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum ClothName {
    /// By its number.
    No(u32),
    /// By what it is called; `strip set` is the largest of those. Its name for ever will do too.
    Name(String),
}

impl ClothName {
    pub(super) fn is(&self, item: &Item) -> bool {
        match self {
            Self::No(no) => item.no == *no,
            Self::Name(name) if name == ANY_STRIP_SET => item.came.kind == Kind::StripSet,
            Self::Name(name) => {
                item.came.name.eq_ignore_ascii_case(name.trim()) || item.came.id.to_string() == *name
            }
        }
    }

    fn none(&self) -> AskError {
        let told = match self {
            Self::No(no) => format!("No. {no}"),
            Self::Name(name) => format!("called `{name}`"),
        };
        AskError::CantBe {
            what: format!("there is no cloth {told} in the heap, or nothing of it is free"),
            hint: "`ragbag heap` lists what is there.".to_owned(),
        }
    }
}

/// Layers, with the cloth of the back by number or name.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct LayersAsk {
    /// How it will be quilted.
    pub guiding: Guiding,
    /// The back.
    pub backing: BackingAsk,
    /// The batting.
    pub batting: BattingChoice,
    /// How the layers are held together; pins, or the frame's own clamps, when `None`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub basting: Option<Basting>,
    /// What quilting and washing take.
    pub shrink: Shrink,
}

/// The back, with its cloth by number or name.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct BackingAsk {
    /// The cloth to take whole.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cloth: Option<ClothName>,
    /// How.
    #[serde(flatten)]
    pub choice: BackingChoice,
}

impl Workroom {
    /// A cloth by number or name, with its largest free part as its outline.
    pub(super) fn cloth_free(&mut self, quilt: &str, head: &str, name: &ClothName) -> Asked<Cloth> {
        let log = self.log(quilt, head)?;
        let stash = self.stash()?;
        largest_free(stash, &Claimed::by(&log, None, stash), name)
    }

    /// The name for ever of a cloth of the heap, for plans of a quilt that isn't there yet.
    ///
    /// # Errors
    /// No such cloth.
    pub(crate) fn cloth_in_heap(&mut self, name: &ClothName) -> Asked<ClothId> {
        largest_free(self.stash()?, &Claimed::nothing(), name).map(|cloth| cloth.id)
    }

    /// The name for ever of a cloth that a head may use, for plans that carry one.
    ///
    /// # Errors
    /// No such cloth, or nothing of it is free; no such quilt or head.
    pub fn cloth_named(&mut self, quilt: &str, head: &str, name: &ClothName) -> Asked<ClothId> {
        self.cloth_free(quilt, head, name).map(|cloth| cloth.id)
    }

    /// The choice that the log keeps.
    pub(super) fn layers_choice(&mut self, quilt: &str, head: &str, ask: &LayersAsk) -> Asked<LayersChoice> {
        let named = ask.backing.cloth.as_ref();
        let cloth = named.map(|name| self.cloth_named(quilt, head, name)).transpose()?;
        let backing =
            BackingChoice { cloth: cloth.or(ask.backing.choice.cloth), ..ask.backing.choice.clone() };
        let LayersAsk { guiding, batting, basting, shrink, .. } = ask.clone();
        Ok(LayersChoice { guiding, backing, batting, basting, shrink })
    }
}

/// Refuses batting where cloth is wanted.
pub(super) fn check_cloth(stash: &Stash, cloth: ClothId) -> Asked<()> {
    match stash.get(cloth) {
        Some(item) if item.came.kind == Kind::Batting => Err(batting(item)),
        _ => Ok(()),
    }
}

fn batting(item: &Item) -> AskError {
    AskError::CantBe {
        what: format!("No. {} ({}) is batting, and cloth is wanted there", item.no, item.came.name),
        hint: "Name a cloth. Batting goes into the layers only.".to_owned(),
    }
}

/// Batting is never meant where there is a cloth of the name.
fn largest_free(stash: &Stash, claimed: &Claimed, name: &ClothName) -> Asked<Cloth> {
    let largest = |item: &Item| claimed.free(item).into_iter().max_by(|a, b| a.area().total_cmp(&b.area()));
    let mut found: Vec<(&Item, Region)> =
        stash.items().filter(|item| name.is(item)).filter_map(|item| Some((item, largest(item)?))).collect();
    if let Some((item, _)) = found.first()
        && found.iter().all(|(item, _)| item.came.kind == Kind::Batting)
    {
        return Err(batting(item));
    }
    found.retain(|(item, _)| item.came.kind != Kind::Batting);
    found.sort_by(|a, b| b.1.area().total_cmp(&a.1.area()).then(a.0.no.cmp(&b.0.no)));
    let (item, outline) = found.into_iter().next().ok_or_else(|| name.none())?;
    let now = item.now.as_ref().unwrap_or(&item.came);
    Ok(Cloth { outline, flaws: Vec::new(), ..now.clone() })
}
