//! Prints: seamless designs in real size, drawn by our own rules.
//!
//! In a print's own coordinates y runs up the cloth, along the lengthwise threads, and the lower
//! left corner of one repeat is the origin.

mod creatures;
mod curve;
mod lines;
mod measure;
mod plants;
mod plate;
mod recipe;
mod scatter;
mod spots;
mod water;

use crate::dice::{Dice, mix};
use crate::raster::Raster;
use colour::{Linear, Oklab, Srgb};
use measure::Measures;
use plane::Turn;
use plate::Plate;
use quilt::cloth::{Look, Runs};
use recipe::{MOTIFS_IN, RECIPES, Recipe, Way};
use std::sync::OnceLock;

pub(crate) use recipe::{HOT, HOT_AND_PALE};

/// A printed cotton: a design in certain inks.
#[derive(Clone, Debug)]
pub struct Print {
    /// Its number for ever; scraps of it carry it.
    pub number: u64,
    /// What a maker would call it.
    pub name: String,
    /// Its colours, the ground first.
    pub inks: Vec<Srgb>,
    /// Which of the designs it is.
    design: usize,
}

/// All designs of *Low Tide*, from the hot centre to the cool edge, as dyed in the lot `seed`: lot
/// 0 has the colours as they were meant, every other is a little off in each.
#[must_use]
pub fn prints(seed: u64) -> Vec<Print> {
    (0..RECIPES.len()).map(|design| Print::dyed(design, seed)).collect()
}

impl Print {
    /// The design `design` (counted round) from the dye lot `lot`.
    pub(crate) fn dyed(design: usize, lot: u64) -> Self {
        let design = design % RECIPES.len();
        let recipe = &RECIPES[design];
        let number = mix(mix(design as u64) ^ lot.rotate_left(17));
        let inks = recipe.inks.iter().map(|&ink| Srgb::from_number(ink));
        let inks = if lot == 0 { inks.collect() } else { off_shade(inks, number) };
        Self { number, name: recipe.name.to_owned(), inks, design }
    }

    /// Width and height of the repeat, in inches.
    #[must_use]
    pub fn repeat_in(&self) -> [f64; 2] {
        self.recipe().repeat_in
    }

    /// How large what is printed is, in inches across.
    #[must_use]
    pub fn motif_in(&self) -> f64 {
        MOTIFS_IN[self.design]
    }

    /// How far its strokes lean from up the cloth, in degrees counter-clockwise.
    #[must_use]
    pub fn leans_deg(&self) -> f64 {
        if self.name == recipe::DRIZZLE { recipe::DRIZZLE_DEG - 90.0 } else { 0.0 }
    }

    /// How it looks, in its own coordinates. Known from the design; nothing is painted but, once
    /// for each design, a small plate.
    #[must_use]
    pub fn look(&self) -> Look {
        let measures = measures(self.design);
        let up = Turn::QUARTER;
        let runs = match self.recipe().way {
            Way::Any => Runs::AnyWay,
            Way::Both => Runs::BothWays(up),
            Way::One => Runs::OneWay(up),
        };
        let [width, height] = self.repeat_in();
        Look {
            shades: measures.shades(&self.inks),
            busy: measures.busy(&self.inks),
            runs,
            repeat_in: Some(width.max(height)),
        }
    }

    /// One repeat as printed on cotton, at about so many pixels an inch (the repeat is a whole
    /// number of pixels). Left and right, top and bottom edges join.
    #[must_use]
    pub fn draw(&self, pixels_per_in: f64) -> Raster {
        let plate = plate(self.design, pixels_per_in);
        let inks: Vec<Linear> = self.inks.iter().map(|ink| ink.to_linear()).collect();
        let [width, height] = plate.cells;
        let weave = Weave::new(self.number, plate.cells);
        let mut raster = Raster::new(width as u32, height as u32);
        for (i, (pixel, shares)) in raster.pixels.iter_mut().zip(&plate.shares).enumerate() {
            let thread = weave.at(i % width, i / width);
            let light = inks.iter().zip(shares).fold(Linear::default(), |sum, (ink, share)| {
                let part = f64::from(*share) * thread;
                Linear::new(sum.r + ink.r * part, sum.g + ink.g * part, sum.b + ink.b * part)
            });
            let Srgb { r, g, b } = light.to_srgb();
            *pixel = [r, g, b, 255];
        }
        raster
    }

    fn recipe(&self) -> &'static Recipe {
        &RECIPES[self.design]
    }
}

/// Inks a little off in lightness, strength and hue, all of a print the same way, as dye lots are.
fn off_shade(inks: impl Iterator<Item = Srgb>, seed: u64) -> Vec<Srgb> {
    let mut dice = Dice::new(seed, 0xd7e);
    let (light, strong, turn) = (dice.normal() * 0.02, 1.0 + dice.normal() * 0.08, dice.normal() * 6.0);
    let turn = Turn::from_degrees(turn);
    inks.map(|ink| {
        let Oklab { l, a, b } = ink.to_oklab();
        let chroma = turn.apply(plane::Vec2::new(a, b)) * strong;
        Oklab { l: l + light, a: chroma.x, b: chroma.y }.to_linear().to_srgb()
    })
    .collect()
}

/// The plate of a design at about so many cells an inch.
fn plate(design: usize, cells_per_in: f64) -> Plate {
    let recipe = &RECIPES[design];
    let mut plate = Plate::new(recipe.repeat_in, cells_per_in);
    let mut dice = Dice::new(0x10_71de, design as u64);
    plate.wear(dice.bits(), 0.25, 0.07);
    (recipe.draw)(&mut plate, &mut dice);
    plate
}

/// The measures of a design, taken once from a small plate.
fn measures(design: usize) -> &'static Measures {
    static MEASURES: [OnceLock<Measures>; RECIPES.len()] = [const { OnceLock::new() }; RECIPES.len()];
    MEASURES[design].get_or_init(|| Measures::of(&plate(design, MEASURED_PER_IN)))
}

/// Cells an inch of the plate that is measured.
const MEASURED_PER_IN: f64 = 28.0;

/// Threads that are hardly seen: each row and each column a little lighter or darker than the
/// next, and a grain between them.
struct Weave {
    columns: Vec<f64>,
    rows: Vec<f64>,
    seed: u64,
}

impl Weave {
    fn new(seed: u64, cells: [usize; 2]) -> Self {
        let mut dice = Dice::new(seed, 0x3ea);
        let mut threads = |count: usize| (0..count).map(|_| dice.between(-0.022, 0.022)).collect();
        Self { columns: threads(cells[0]), rows: threads(cells[1]), seed }
    }

    /// How much light a place sends back, about 1.
    fn at(&self, column: usize, row: usize) -> f64 {
        let grain = mix(self.seed ^ (column as u64) << 32 ^ row as u64) >> 40;
        let grain = grain as f64 / f64::from(1 << 24) - 0.5;
        let over = if (column + row).is_multiple_of(2) { 0.012 } else { -0.012 };
        1.0 + self.columns[column] + self.rows[row] + grain * 0.035 + over
    }
}
