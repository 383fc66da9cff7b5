//! A photograph as it was read, with its map to the table and its light.

use super::PhotoProblem;
use super::stages::{Reading, Watch};
use std::sync::Arc;
use vision::cards::Sighting;
use vision::{Card, Flat, Flattening, Light, Picture, Window, resample};

/// A picture, what leads from it to the table, and the light on it. Cheap to hand on.
#[derive(Clone, Debug)]
pub(super) struct Source {
    pub(super) picture: Arc<Picture>,
    pub(super) cards: Vec<Card>,
    /// Cards that lie there but can't be measured.
    pub(super) unmeasured: Vec<Sighting>,
    pub(super) map: Flattening,
    pub(super) light: Option<Light>,
}

impl Source {
    /// Reads and measures a picture by the cards in it.
    pub(super) fn read(
        name: &str,
        bytes: &[u8],
        side_in: f64,
        watch: Watch<'_>,
    ) -> Result<Self, PhotoProblem> {
        watch(Reading::Opening);
        let picture =
            vision::decode(bytes).map_err(|why| PhotoProblem::Unreadable { name: name.to_owned(), why })?;
        watch(Reading::Cards);
        let vision::cards::Seen { cards, unmeasured } = vision::see_cards(&picture);
        let map = vision::flatten(&cards, side_in, [picture.width, picture.height])
            .map_err(|why| PhotoProblem::NotMeasured { name: name.to_owned(), why })?;
        let light = vision::read_light(&picture, &map);
        Ok(Self { picture: Arc::new(picture), cards, unmeasured, map, light })
    }

    /// Pixels an inch at the picture's middle, as far as a flat of the whole is drawn: that at which
    /// outlines were measured and found right.
    pub(super) fn pixels_per_in(&self) -> f64 {
        self.map.pixels_per_in(self.middle())
    }

    fn middle(&self) -> plane::Point {
        let [width, height] = [self.picture.width, self.picture.height].map(f64::from);
        plane::Point::new(width / 2.0, height / 2.0)
    }

    /// A part of the table in true size and in daylight.
    pub(super) fn flat(&self, window: Window, pixels_per_in: f64) -> Flat {
        let mut flat = resample(&self.picture, &self.map, window, pixels_per_in);
        if let Some(light) = &self.light {
            light.correct(&mut flat);
        }
        flat
    }

    /// All that the picture shows well, flattened, to look for cloth in.
    pub(super) fn whole(&self) -> Flat {
        self.flat(self.map.field(), self.pixels_per_in().clamp(FEWEST_PER_IN, MOST_PER_IN))
    }

    /// Where the cards lie on the table, those left out too: they are no cloth either.
    pub(super) fn paper(&self) -> Vec<Vec<plane::Point>> {
        self.cards.iter().map(|card| card.corners.map(|px| self.map.to_table(px)).to_vec()).collect()
    }
}

/// Fewest and most pixels an inch at which cloth is looked for.
const FEWEST_PER_IN: f64 = 40.0;
const MOST_PER_IN: f64 = 100.0;
