//! What can be changed of a cloth once it is in the stash. Its shape changes only by cutting, or
//! by measuring it better.

use super::{Item, portion};
use plane::{Region, Turn};
use quilt::cloth::{Cloth, Facts, Kind, Look, Picture};
use serde::{Deserialize, Serialize};

/// New values; what is `None` stays as it is.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Changes {
    /// What its maker calls it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// What sort of thing it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub kind: Option<Kind>,
    /// Its edge, measured better.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub outline: Option<Region>,
    /// Stains and thin places.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub flaws: Option<Vec<Region>>,
    /// Whether its size is only about right.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub about: Option<bool>,
    /// How it looks.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub look: Option<Look>,
    /// Direction of the lengthwise threads.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grain: Option<Turn>,
    /// Of which print it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub print: Option<u64>,
    /// Where it is kept.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
    /// What else is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub facts: Option<Facts>,
    /// Its picture.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub picture: Option<Picture>,
}

impl Changes {
    /// Changes what is known of a cloth. One that is measured anew after it was cut is still
    /// without what was cut out of it.
    pub(super) fn apply_to(&self, item: &mut Item) {
        let whole = item.came.outline.clone();
        self.apply(&mut item.came);
        let Some(now) = &mut item.now else { return };
        let outline = match &self.outline {
            Some(outline) if now.outline != whole => {
                let gone = plane::difference(&whole, std::slice::from_ref(&now.outline));
                let left = plane::difference(outline, &gone).into_iter();
                left.max_by(|a, b| a.area().total_cmp(&b.area()))
            }
            _ => None,
        };
        self.apply(now);
        if let Some(outline) = outline {
            *now = portion(&now.clone(), outline, now.id);
        }
    }

    fn apply(&self, cloth: &mut Cloth) {
        fn set<T: Clone>(to: &mut T, from: Option<&T>) {
            if let Some(value) = from {
                to.clone_from(value);
            }
        }
        set(&mut cloth.name, self.name.as_ref());
        set(&mut cloth.kind, self.kind.as_ref());
        set(&mut cloth.outline, self.outline.as_ref());
        set(&mut cloth.flaws, self.flaws.as_ref());
        set(&mut cloth.about, self.about.as_ref());
        set(&mut cloth.look, self.look.as_ref());
        set(&mut cloth.grain, self.grain.as_ref());
        set(&mut cloth.place, self.place.as_ref());
        set(&mut cloth.facts, self.facts.as_ref());
        if self.print.is_some() {
            cloth.print = self.print;
        }
        if self.picture.is_some() {
            cloth.picture.clone_from(&self.picture);
        }
    }
}
