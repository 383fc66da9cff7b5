//! The cloths of a drawing, each looked at once: its colour on either side and its picture.

use crate::ink::UNKNOWN;
use crate::{Paint, wrong_side};
use quilt::cloth::{Cloth, ClothId, Picture};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::Arc;

/// The cloths of a drawing.
pub(crate) struct Looks<'a> {
    cloths: &'a BTreeMap<ClothId, Cloth>,
    /// One more cloth, which goes before one of the same name.
    own: Option<&'a Cloth>,
    seen: RefCell<BTreeMap<ClothId, Seen>>,
}

/// What is drawn of a cloth.
#[derive(Clone)]
struct Seen {
    right: Paint,
    wrong: Paint,
    picture: Option<Arc<Picture>>,
}

impl<'a> Looks<'a> {
    pub(crate) const fn of(cloths: &'a BTreeMap<ClothId, Cloth>) -> Self {
        Self { cloths, own: None, seen: RefCell::new(BTreeMap::new()) }
    }

    /// The cloths, and one more.
    pub(crate) const fn with(cloths: &'a BTreeMap<ClothId, Cloth>, own: &'a Cloth) -> Self {
        Self { cloths, own: Some(own), seen: RefCell::new(BTreeMap::new()) }
    }

    /// A cloth, if it is known.
    pub(crate) fn cloth(&self, id: ClothId) -> Option<&'a Cloth> {
        self.own.filter(|own| own.id == id).or_else(|| self.cloths.get(&id))
    }

    /// The mean colour of a side of a cloth; a plain grey when it isn't known.
    pub(crate) fn paint(&self, id: ClothId, wrong: bool) -> Paint {
        self.look_at(id, |seen| if wrong { seen.wrong } else { seen.right })
    }

    /// The picture of a cloth, if it has one.
    pub(crate) fn picture(&self, id: ClothId) -> Option<Arc<Picture>> {
        self.look_at(id, |seen| seen.picture.clone())
    }

    fn look_at<T>(&self, id: ClothId, ask: impl FnOnce(&Seen) -> T) -> T {
        let mut known = self.seen.borrow_mut();
        ask(known.entry(id).or_insert_with(|| {
            let cloth = self.cloth(id);
            let mean = cloth.map_or_else(|| UNKNOWN.to_lab(), |cloth| cloth.look.mean());
            Seen {
                right: Paint::solid(mean.to_srgb()),
                wrong: Paint::solid(wrong_side(mean).to_srgb()),
                picture: cloth.and_then(|cloth| cloth.picture.clone()).map(Arc::new),
            }
        }))
    }
}
