//! Looking at a photograph: how far it can be trusted, and which cloths lie there.

use super::clip::{Clipped, PIXELS_PER_IN};
use super::likeness::{Alike, Candidate, Known, alike};
use super::source::Source;
use super::stages::{Reading, Watch};
use super::{MOST_PHOTO_BYTES, PhotoProblem, check_side, doubts, looks};
use crate::asks::{AskError, Asked};
use crate::pictures::hash_of;
use crate::workroom::Workroom;
use plane::{Point, Region, RegionProblem, polygon};
use quilt::cloth::Look;
use quilt::length::many;
use serde::Serialize;
use vision::Found;

/// How a photograph is to be looked at. `None` is what is usual.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PhotoAsk {
    /// Side of the cards' black square in inches; that of the workroom when `None`.
    pub side_in: Option<f64>,
    /// Pixels an inch of the cloths' pictures, 40 to 150; those of the photograph when `None`.
    pub pixels_per_in: Option<f64>,
}

/// What a photograph was measured by, and how far it can be trusted.
#[derive(Clone, Debug, Serialize)]
pub struct PhotoMeasured {
    /// The picture's name.
    pub name: String,
    /// SHA-256 of its bytes, in hexadecimal.
    pub hash: String,
    /// Its width and height, upright, in pixels.
    pub size_px: [u32; 2],
    /// The side of the cards' black square that was taken for true, in inches.
    pub side_in: f64,
    /// How far the cards' corners lie from where they should, root of the mean square, in 1/64 inch.
    pub residual_64ths: f64,
    /// The share of the picture, 0 to 1, in which lengths are likely right to half a percent.
    pub holds_share: f64,
    /// The corners round that part, in the picture's pixels; empty where it holds nowhere.
    pub holds_px: Vec<Point>,
    /// How far the camera was tilted from straight down, in degrees.
    pub tilt_deg: f64,
    /// Pixels an inch at the picture's middle.
    pub pixels_per_in: f64,
    /// The cards it was measured by.
    pub cards: Vec<CardSeen>,
    /// The cards that were left out.
    pub left_out: Vec<CardUnused>,
    /// What should be known before it is trusted, a sentence each.
    pub cautions: Vec<String>,
    /// The picture and its map, for what is asked later.
    #[serde(skip)]
    pub(super) source: Source,
}

/// What was seen in a photograph of cloth.
#[derive(Clone, Debug, Serialize)]
pub struct PhotoRead {
    /// How it was measured.
    #[serde(flatten)]
    pub measured: PhotoMeasured,
    /// The cloths, largest first.
    pub cloths: Vec<PhotoCloth>,
    /// The numbers of the cloths that were entered from the same picture before and are still known;
    /// empty when it is new.
    pub entered_before: Vec<u32>,
    /// Pixels an inch that were wished for the cloths' pictures.
    #[serde(skip)]
    pub(super) wished_per_in: Option<f64>,
}

/// A card that a picture was measured by.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CardSeen {
    /// Its number.
    pub no: u16,
    /// The corners of its black square, in pixels.
    pub corners_px: [Point; 4],
}

/// A card that was left out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CardUnused {
    /// Its number.
    pub no: u16,
    /// Its middle in the picture, in pixels.
    pub at_px: Point,
    /// Why, in a sentence.
    pub why: String,
}

/// A cloth that was found in a picture.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PhotoCloth {
    /// Its outline on the table, in inches.
    pub outline: Region,
    /// The same in the picture, in pixels: the outer ring, then the holes.
    pub outline_px: Vec<Vec<Point>>,
    /// Whether it runs out of the picture, so that more of it is there than was seen.
    pub cut_off: bool,
    /// What speaks against the outline, a sentence each.
    pub doubts: Vec<String>,
    /// How it looks, in the table's directions.
    pub look: Look,
    /// What is printed on it is about so large, in inches; 0 for a plain cloth.
    pub motif_in: f64,
    /// The word for its colour.
    pub colour: String,
    /// Prints of the heap that look like it, likest first.
    pub candidates: Vec<Candidate>,
    /// Cloths of the same picture that look like it, likest first.
    pub alike: Vec<Alike>,
}

impl PhotoMeasured {
    /// Reads and measures a picture.
    pub(super) fn of(name: &str, bytes: &[u8], side_in: f64, watch: Watch<'_>) -> Result<Self, PhotoProblem> {
        let size = bytes.len() as u64;
        if size > MOST_PHOTO_BYTES {
            let (megabytes, most) = (size.div_ceil(1 << 20), MOST_PHOTO_BYTES >> 20);
            return Err(PhotoProblem::TooManyBytes { name: name.to_owned(), megabytes, most });
        }
        let source = Source::read(name, bytes, side_in, watch)?;
        let map = &source.map;
        let size_px = [source.picture.width, source.picture.height];
        let seen = |card: &vision::Card| CardSeen { no: card.no, corners_px: card.corners };
        let unused = |out: &vision::flatten::LeftOut| CardUnused {
            no: out.no,
            at_px: out.at_px,
            why: doubts::why_left_out(out.why),
        };
        let hidden = |seen: &vision::cards::Sighting| CardUnused {
            no: seen.no,
            at_px: seen.at_px,
            why: "too much of it is covered, blurred or lit by a lamp to measure it".to_owned(),
        };
        Ok(Self {
            name: name.to_owned(),
            hash: hash_of(bytes),
            size_px,
            side_in,
            residual_64ths: 64.0 * map.residual_in(),
            holds_share: map.share_that_holds(),
            holds_px: holds(&source),
            tilt_deg: map.tilt_deg(),
            pixels_per_in: source.pixels_per_in(),
            cards: map.used().iter().map(seen).collect(),
            left_out: map.left_out().iter().map(unused).chain(source.unmeasured.iter().map(hidden)).collect(),
            cautions: doubts::cautions(&source),
            source,
        })
    }

    /// Where a place of the picture, in pixels, lies on the table, in inches; nothing above the horizon.
    #[must_use]
    pub fn on_table(&self, px: Point) -> Option<Point> {
        Some(self.source.map.to_table(px)).filter(|p| p.is_finite())
    }

    /// Where a place on the table, in inches, lies in the picture, in pixels.
    #[must_use]
    pub fn in_picture(&self, inch: Point) -> Option<Point> {
        Some(self.source.map.to_picture(inch)).filter(|p| p.is_finite())
    }

    /// A ring on the table as it lies in the picture. The lens bends straight sides: places are no
    /// farther than an inch apart.
    pub(super) fn ring_px(&self, ring: &[Point]) -> Vec<Point> {
        let places = polygon::edges(ring).flat_map(|(a, b)| {
            let parts = a.distance(b).ceil().clamp(1.0, 200.0) as usize;
            (0..parts).map(move |i| a.lerp(b, i as f64 / parts as f64))
        });
        places.filter_map(|inch| self.in_picture(inch)).collect()
    }

    /// How it was measured, in sentences.
    #[must_use]
    pub fn words(&self) -> Vec<String> {
        let numbers: Vec<String> = self.cards.iter().map(|card| card.no.to_string()).collect();
        let mut words = vec![format!(
            "Measured by {} ({}), {:.1} pixels an inch; the cards agree to {:.1}/64 inch; lengths hold in {:.0} % of the picture.",
            many(self.cards.len(), "card", "cards"),
            numbers.join(", "),
            self.pixels_per_in,
            self.residual_64ths,
            100.0 * self.holds_share,
        )];
        words.extend(self.left_out.iter().map(|out| format!("Card {} was left out: {}.", out.no, out.why)));
        words.extend(self.cautions.iter().cloned());
        words
    }
}

impl PhotoRead {
    /// The flattened picture of a cloth, within its outline as found or as corrected. `which` counts
    /// from 0.
    ///
    /// # Errors
    /// A cloth that wasn't found.
    pub fn clipped(&self, which: usize, outline: Option<&Region>) -> Asked<Clipped> {
        let outline = outline.unwrap_or(&self.cloth(which)?.outline);
        self.measured.source.clipped(outline, self.wished_per_in)
    }

    /// An outline put right by the maker's points on the table, in inches: each takes the place of the
    /// nearest corner within [`REACH_IN`], or becomes a corner of the nearest side.
    ///
    /// # Errors
    /// A cloth that wasn't found; points that make no outline.
    pub fn corrected(&self, which: usize, points: &[Point]) -> Asked<Region> {
        let outline = &self.cloth(which)?.outline;
        let wrong = |why| self.wrong_outline(which, why);
        Ok(vision::corrected(outline, points, REACH_IN).map_err(wrong)?)
    }

    pub(super) fn cloth(&self, which: usize) -> Result<&PhotoCloth, PhotoProblem> {
        self.cloths.get(which).ok_or_else(|| PhotoProblem::NoSuchFound {
            name: self.measured.name.clone(),
            no: which.saturating_add(1),
            have: self.cloths.len(),
        })
    }

    pub(super) fn wrong_outline(&self, which: usize, why: RegionProblem) -> PhotoProblem {
        PhotoProblem::Outline { name: self.measured.name.clone(), no: which.saturating_add(1), why }
    }
}

/// A point this near a corner moves it, in inches.
pub const REACH_IN: f64 = 0.25;

impl Workroom {
    /// Looks at a photograph of cloth with measuring cards. Nothing is changed.
    ///
    /// # Errors
    /// [`PhotoProblem`]: no picture, no cards, nothing beside them; numbers that can't be meant.
    pub fn read_photo(&mut self, name: &str, bytes: &[u8], ask: &PhotoAsk) -> Asked<PhotoRead> {
        self.read_photo_watched(name, bytes, ask, &|_| ())
    }

    /// As [`Workroom::read_photo`], telling how far it has come.
    ///
    /// # Errors
    /// As [`Workroom::read_photo`].
    pub fn read_photo_watched(
        &mut self,
        name: &str,
        bytes: &[u8],
        ask: &PhotoAsk,
        watch: Watch<'_>,
    ) -> Asked<PhotoRead> {
        check_per_in(ask.pixels_per_in)?;
        let measured = PhotoMeasured::of(name, bytes, self.side_of(ask)?, watch)?;
        watch(Reading::Outlines);
        let flat = measured.source.whole();
        let found = vision::find_cloths(&flat, &measured.source.paper());
        if found.is_empty() {
            return Err(PhotoProblem::NoCloth { name: name.to_owned() }.into());
        }
        watch(Reading::Looks);
        let outlines: Vec<&Region> = found.iter().map(|one| &one.outline).collect();
        let looks = vision::looks(&flat, &outlines);
        let known = Known::of(self.stash()?);
        let alike = alike(&looks);
        let cloths = found.into_iter().zip(looks).zip(alike);
        let cloths = cloths.map(|((found, look), alike)| {
            let rings = std::iter::once(&found.outline.outer).chain(&found.outline.holes);
            let outline_px = rings.map(|ring| measured.ring_px(ring)).collect();
            PhotoCloth::of(found, outline_px, &look, known.like(&look), alike)
        });
        let cloths = cloths.collect();
        let entered_before = self.entered_from(&measured.hash)?;
        Ok(PhotoRead { measured, cloths, entered_before, wished_per_in: ask.pixels_per_in })
    }

    /// The side of a card that is to be taken for true.
    pub(super) fn side_of(&self, ask: &PhotoAsk) -> Asked<f64> {
        let side_in = ask.side_in.map_or_else(|| self.card_side(), Ok)?;
        check_side(side_in)?;
        Ok(side_in)
    }
}

impl PhotoCloth {
    pub(super) fn of(
        found: Found,
        outline_px: Vec<Vec<Point>>,
        look: &vision::Look,
        candidates: Vec<Candidate>,
        alike: Vec<Alike>,
    ) -> Self {
        let doubts = doubts::of(&found);
        let (outline, cut_off, motif_in) = (found.outline, found.cut_off, look.motif_in);
        let look = looks::as_cloth(look);
        let colour = looks::colour_of(&look);
        Self { outline, outline_px, cut_off, doubts, look, motif_in, colour, candidates, alike }
    }
}

fn check_per_in(wished: Option<f64>) -> Asked<()> {
    let [least, most] = PIXELS_PER_IN;
    match wished {
        Some(per_in) if !(least..=most).contains(&per_in) => Err(AskError::Nonsense {
            what: format!("{per_in} pixels an inch is asked for; a cloth's picture has {least} to {most}"),
            hint: "Leave it out: then it has as many as the photograph.".to_owned(),
        }),
        _ => Ok(()),
    }
}

/// The corners round the part of the picture in which lengths hold.
fn holds(source: &Source) -> Vec<Point> {
    const ACROSS: u32 = 16;
    let [width, height] = [source.picture.width, source.picture.height].map(f64::from);
    let at = |i: u32, length: f64| length * f64::from(i) / f64::from(ACROSS);
    let places = (0..=ACROSS).flat_map(|i| (0..=ACROSS).map(move |j| (i, j)));
    let places = places.map(|(i, j)| Point::new(at(i, width), at(j, height)));
    let holding: Vec<Point> = places.filter(|px| source.map.holds_at(*px)).collect();
    polygon::hull(&holding)
}
