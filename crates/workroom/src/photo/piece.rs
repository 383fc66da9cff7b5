//! A photograph of the piece on the table: its outline as it was really sewn.

use super::read::{PhotoAsk, PhotoCloth, PhotoMeasured, PhotoRead};
use super::stages::{Reading, Watch};
use super::{PhotoProblem, doubts};
use crate::asks::{Asked, Remeasured};
use crate::quilts::{At, Head};
use crate::workroom::Workroom;
use plane::{Point, Region, Turn};
use serde::Serialize;
use vision::{Flat, Found};

/// What a photograph shows of the piece, against what was planned.
#[derive(Clone, Debug, Serialize)]
pub struct PhotoRemeasured {
    /// How the picture was measured.
    #[serde(flatten)]
    pub measured: PhotoMeasured,
    /// The piece's outline on the table, in inches.
    pub outline: Region,
    /// The same in the picture, in pixels: the outer ring, then the holes.
    pub outline_px: Vec<Vec<Point>>,
    /// What speaks against the outline, a sentence each.
    pub doubts: Vec<String>,
    /// How it was laid on the plan, and every difference.
    #[serde(flatten)]
    pub remeasured: Remeasured,
}

impl PhotoMeasured {
    /// The piece, in the picture from straight above.
    fn piece(&self, flat: &Flat) -> Result<Found, PhotoProblem> {
        let name = || self.name.clone();
        let found = vision::find_piece(flat, &self.source.paper())
            .ok_or_else(|| PhotoProblem::NoCloth { name: name() })?;
        if found.cut_off { Err(PhotoProblem::PieceCutOff { name: name() }) } else { Ok(found) }
    }
}

impl Workroom {
    /// Looks at a photograph of the piece for its outline alone, as the one cloth that is there. The
    /// outline can be put right before [`Workroom::look_at_outline`] holds it against the plan. Nothing
    /// is changed.
    ///
    /// # Errors
    /// As [`Workroom::read_photo`]; a piece that runs out of the picture.
    pub fn read_piece(&mut self, name: &str, bytes: &[u8], ask: &PhotoAsk) -> Asked<PhotoRead> {
        self.read_piece_watched(name, bytes, ask, &|_| ())
    }

    /// As [`Workroom::read_piece`], telling how far it has come.
    ///
    /// # Errors
    /// As [`Workroom::read_piece`].
    pub fn read_piece_watched(
        &mut self,
        name: &str,
        bytes: &[u8],
        ask: &PhotoAsk,
        watch: Watch<'_>,
    ) -> Asked<PhotoRead> {
        let measured = PhotoMeasured::of(name, bytes, self.side_of(ask)?, watch)?;
        watch(Reading::Outlines);
        let flat = measured.source.whole();
        let found = measured.piece(&flat)?;
        watch(Reading::Looks);
        let look = vision::look(&flat, &found.outline);
        let rings = std::iter::once(&found.outline.outer).chain(&found.outline.holes);
        let outline_px = rings.map(|ring| measured.ring_px(ring)).collect();
        let cloths = vec![PhotoCloth::of(found, outline_px, &look, Vec::new(), Vec::new())];
        Ok(PhotoRead { measured, cloths, entered_before: Vec::new(), wished_per_in: None })
    }

    /// Looks at a photograph of the piece, with measuring cards beside it, and tells every difference
    /// from what was planned. `near` is the turn by which the picture must be turned to stand as the
    /// drawing does, as far as the maker knows. Nothing is changed.
    ///
    /// # Errors
    /// [`PhotoProblem`]; nothing on the table; an outline that is another piece's.
    pub fn look_at_photo(
        &mut self,
        quilt: &str,
        head: &str,
        (name, bytes): (&str, &[u8]),
        ask: &PhotoAsk,
        near: Turn,
    ) -> Asked<PhotoRemeasured> {
        let measured = PhotoMeasured::of(name, bytes, self.side_of(ask)?, &|_| ())?;
        let found = measured.piece(&measured.source.whole())?;
        let remeasured = self.look_at_outline(quilt, head, &found.outline.outer, near)?;
        let rings = std::iter::once(&found.outline.outer).chain(&found.outline.holes);
        let outline_px = rings.map(|ring| measured.ring_px(ring)).collect();
        let doubts = doubts::of(&found);
        Ok(PhotoRemeasured { measured, outline: found.outline, outline_px, doubts, remeasured })
    }

    /// Puts the outline that a photograph shows in the place of the planned one, and keeps the piece's
    /// picture, to be shown under what is planned.
    ///
    /// # Errors
    /// As [`Workroom::look_at_photo`]; a head that moved in the meantime. Nothing is changed then.
    pub fn remeasure_photo(
        &mut self,
        at: &At,
        (name, bytes): (&str, &[u8]),
        ask: &PhotoAsk,
        near: Turn,
    ) -> Asked<(Head, PhotoRemeasured)> {
        let look = self.look_at_photo(&at.quilt, &at.head, (name, bytes), ask, near)?;
        let clipped = look.measured.source.clipped(&look.outline, ask.pixels_per_in)?;
        let (head, _) = self.remeasure_shown(at, &look.outline.outer, near, &clipped)?;
        Ok((head, look))
    }
}
