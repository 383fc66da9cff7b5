//! The photograph of the piece under its drawing: the one it was measured by last, each patch of it where
//! the patch lies now.

use super::error::Asked;
use crate::error::WorkroomError;
use crate::workroom::Workroom;
use drawing::{Photographed, Placement};
use quilt::log::{Entry, Mark, Shown, Step, StepId};
use quilt::table::{Top, replay};
use std::collections::BTreeMap;
use std::sync::Arc;

impl Workroom {
    /// The photograph by which the piece was measured last up to a step, with the step that measured it.
    /// `None` when it never was.
    ///
    /// # Errors
    /// No such step; a log that can't be read.
    pub fn photographed(&self, tip: StepId) -> Asked<Option<(Mark, Photographed)>> {
        let entries: Vec<Entry> = self.path(tip)?.into_iter().map(|step| step.entry).collect();
        let last = entries.iter().enumerate().rev().find_map(|(i, entry)| match &entry.step {
            Step::Measure { top, shown: Some(shown), .. } => Some((i, entry.mark, *top, shown)),
            _ => None,
        });
        let Some((place, mark, top, shown)) = last else { return Ok(None) };
        // What lay there when it was taken; later steps move patches, never their own coordinates.
        let (then, _) = replay(entries.get(..=place).unwrap_or_default());
        let lies = then.top(top).map(|top| lies(top, shown)).unwrap_or_default();
        Ok(Some((mark, Photographed { picture: Arc::new(shown.picture.clone()), lies })))
    }

    /// Whether the file of a kept photograph is still in the workroom.
    ///
    /// # Errors
    /// Trouble with the store.
    pub fn has_picture(&self, hash: &str) -> Result<bool, WorkroomError> {
        Ok(self.picture_file(hash)?.is_some_and(|file| file.is_file()))
    }
}

/// From the photographed table to each patch. A patch that lies in two places is left out: it shows its
/// cloth.
fn lies(top: &Top, shown: &Shown) -> BTreeMap<Mark, Placement> {
    let mut places: BTreeMap<Mark, Option<plane::Pose>> = BTreeMap::new();
    for face in top.faces().values() {
        let place = places.entry(face.patch).or_insert(Some(face.pose));
        if place.is_some_and(|place| place != face.pose) {
            *place = None;
        }
    }
    let placed = |pose: plane::Pose| Placement::moved(shown.lies.then(pose.inverse()));
    places.into_iter().filter_map(|(patch, pose)| Some((patch, placed(pose?)))).collect()
}
