//! Photographs of scraps and pieces, rendered with everything known about them.
//!
//! * [`scene`] lays scraps of a heap and measuring cards on a mat and takes a picture of them.
//! * [`piece_scene`] does so with a piece that is being sewn.
//! * [`Truth`] says what lies where, on the table and in the picture.
//!
//! A picture goes through a perspective, a lens that bends ([`Camera`]), motion and blur, uneven
//! and coloured light, glare, the noise of a sensor ([`Shot`]) and JPEG. Edges are honest: pixels
//! near them are means of 64 samples. How all that is distributed is fixed in [`Recipe`]. Not
//! rendered: waves that lift the cloth or bend cards out of the plane, the sharpening and the tone
//! curves of phones, sensors with one colour a pixel.
//!
//! The same seed gives the same picture, up to what other platforms round otherwise.

mod camera;
mod card;
mod index;
mod lay;
mod mat;
mod piece;
mod recipe;
mod relief;
mod render;
mod scenery;
mod sensor;
mod shot;
mod texture;
mod truth;

pub use camera::{Camera, Stand};
pub use card::CardPattern;
pub use piece::piece_scene;
pub use recipe::{REPORT_SEEDS, Recipe, TUNING_SEEDS};
pub use shot::Shot;
pub use truth::{CardThere, ClothThere, Truth};

use crate::dice::{Dice, mix};
use crate::heap::heap;
use crate::problem::PictureProblem;
use card::Card;
use lay::Table;
use mat::{Kind, MATS, Mat};
use plane::{Pose, Region};
use relief::Relief;
use scenery::{Scenery, Thing};
use sensor::PAPER;
use std::collections::BTreeMap;
use std::sync::Arc;
use texture::Texture;
use vision::Picture;

/// A rendered photograph and what is in it.
#[derive(Clone, Debug)]
pub struct Scene {
    /// What the camera saw, before JPEG.
    pub picture: Picture,
    /// What there was to see.
    pub truth: Truth,
}

impl Scene {
    /// The picture as a JPEG file of the shot's quality, its colours at half resolution as phones
    /// write them.
    ///
    /// # Errors
    /// When the picture has no pixels or is larger than a JPEG can be: 65,535 each way.
    pub fn to_jpeg(&self) -> Result<Vec<u8>, PictureProblem> {
        let Picture { width, height, rgb } = &self.picture;
        let problem = |source| PictureProblem::Jpeg { width: *width, height: *height, source };
        let side = |length: u32| u16::try_from(length).unwrap_or(0);
        let mut bytes = Vec::new();
        let mut encoder = jpeg_encoder::Encoder::new(&mut bytes, self.truth.shot.quality);
        encoder.set_sampling_factor(jpeg_encoder::SamplingFactor::F_2_2);
        let colour = jpeg_encoder::ColorType::Rgb;
        encoder.encode(rgb.as_flattened(), side(*width), side(*height), colour).map_err(problem)?;
        Ok(bytes)
    }
}

/// Scraps of the frozen heap's kind and measuring cards on a mat.
#[must_use]
pub fn scene(recipe: &Recipe, seed: u64, pattern: CardPattern) -> Scene {
    drawn(recipe, seed, pattern, Drawn::All)
}

/// The same table by the same camera and light, but of it only the cards and the mat about them are
/// drawn; all else is one grey. Lengths can be held against the truth in a fraction of the time.
#[must_use]
pub fn cards_scene(recipe: &Recipe, seed: u64, pattern: CardPattern) -> Scene {
    drawn(recipe, seed, pattern, Drawn::Cards)
}

/// What of a scene is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Drawn {
    All,
    Cards,
}

fn drawn(recipe: &Recipe, seed: u64, pattern: CardPattern, drawn: Drawn) -> Scene {
    let mut dice = Dice::new(seed, 0x5cee);
    let shot = Shot::draw(recipe, &mut dice);
    let camera = Camera::new(shot.stand);
    let mat = mat(&mut dice);
    let [fewest, most] = recipe.scraps;
    let count = fewest + dice.below(most - fewest + 1);
    let heap = heap(mix(seed), count, count.max(8));

    let mut table = Table::new(&camera, recipe, Vec::new());
    let cards = cards(recipe, &mut table, pattern, &mut dice);
    let laid = table.scraps(&heap, mat.colour, &mut dice);

    let mut things = Vec::new();
    let mut cloths = Vec::new();
    let mut textures = BTreeMap::new();
    for one in laid {
        let scrap = &heap.scraps[one.scrap];
        let print = &heap.prints[scrap.print];
        let to_print = one.pose.inverse().then(scrap.pose);
        let cloth = ClothThere::new(&scrap.cloth, one.outline, one.cut_off, print, to_print);
        if dice.chance(recipe.ravelled) {
            let labs: Vec<_> = cloth.look.shades.iter().map(|shade| shade.lab).collect();
            things.extend(lay::threads(&cloth.outline, &labs, &mut dice));
        }
        let outline = cloth.outline.clone();
        cloths.push(cloth);
        if drawn == Drawn::All {
            let texture = textures.entry(scrap.print).or_insert_with(|| Arc::new(Texture::of(print)));
            things.push(Thing::Cloth { outline, texture: Arc::clone(texture), to_print });
        }
    }
    if drawn == Drawn::Cards {
        things.clear();
    }
    taken(Setting { recipe, camera, shot, mat, things, cards, cloths, piece: None, drawn }, seed, &mut dice)
}

/// Everything of a scene but its light.
struct Setting<'a> {
    recipe: &'a Recipe,
    camera: Camera,
    shot: Shot,
    mat: Mat,
    things: Vec<Thing>,
    cards: Vec<Card>,
    cloths: Vec<ClothThere>,
    piece: Option<Region>,
    drawn: Drawn,
}

/// Takes the picture.
fn taken(setting: Setting, seed: u64, dice: &mut Dice) -> Scene {
    let Setting { recipe, camera, shot, mat, mut things, cards, cloths, piece, drawn } = setting;
    let there: Vec<CardThere> =
        cards.iter().map(|card| CardThere::new(card.no, card.corners(), &camera)).collect();
    let card_side_in = cards.first().map_or(0.0, |card| card.side_in);
    things.extend(cards.into_iter().map(|card| Thing::Card(Box::new(card))));
    let relief = Relief::new(&things, &shot::falls(recipe, dice), dice);
    let mat_colour = mat.colour;
    let scenery = Scenery::new(mat, things, relief);
    let part = match drawn {
        Drawn::All => render::Part::All,
        Drawn::Cards => render::Part::round(&there.iter().map(|card| card.corners_px).collect::<Vec<_>>()),
    };
    let light = render::render(&camera, &scenery, &part);
    let picture = sensor::expose(light, &shot, &part, dice.bits() ^ seed);
    Scene {
        picture,
        truth: Truth { camera, shot, mat: mat_colour, card_side_in, cards: there, cloths, piece },
    }
}

fn mat(dice: &mut Dice) -> Mat {
    let (colour, kind) = dice.pick(&MATS).unwrap_or((0x80_8080, Kind::Plain));
    Mat::new(colour, kind, dice)
}

/// Lays the cards of a scene, all of one side and each of another number.
fn cards(recipe: &Recipe, table: &mut Table, pattern: CardPattern, dice: &mut Dice) -> Vec<Card> {
    let [fewest, most] = recipe.cards;
    let count = fewest + dice.below(most - fewest + 1);
    let side_in = dice.between(recipe.card_side_in[0], recipe.card_side_in[1]);
    let mut numbers: Vec<_> = (0..NUMBERS).filter_map(|no| Some((no, pattern(no)?))).collect();
    let tint = dice.between(-0.01, 0.02);
    let paper = [PAPER * (1.0 - tint), PAPER, PAPER * (1.0 + tint)].map(|part| part as f32);
    let ink = [dice.between(0.025, 0.06) as f32; 3];
    let poses: Vec<Pose> = table.cards(count, side_in, dice);
    poses
        .into_iter()
        .filter_map(|pose| {
            let chosen = dice.below(numbers.len());
            let (no, pattern) = (!numbers.is_empty()).then(|| numbers.swap_remove(chosen))?;
            Some(Card { no, side_in, pose, pattern, paper, ink })
        })
        .collect()
}

/// Numbers that are asked for patterns.
const NUMBERS: u16 = 64;
