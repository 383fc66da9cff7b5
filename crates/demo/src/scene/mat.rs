//! What the scraps lie on: plain, gridded or grained, of one colour.

use super::texture::{Light, light_of};
use crate::dice::Dice;
use crate::noise::Noise;
use colour::Srgb;
use plane::Point;

/// A surface.
#[derive(Clone, Debug)]
pub(super) struct Mat {
    /// Its colour, lines apart.
    pub(super) colour: Srgb,
    light: Light,
    grid: Option<Grid>,
    grained: bool,
    /// How bright each cell of a tile is, about 1.
    tile: Vec<f32>,
}

/// Printed lines an inch apart, with thinner ones between.
#[derive(Clone, Debug)]
struct Grid {
    light: Light,
    width_in: f64,
    between: f64,
}

/// How a surface is patterned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Kind {
    /// Even, as a table top or a sheet.
    Plain,
    /// With lines an inch apart.
    Gridded(u32),
    /// With the grain of wood.
    Grained,
}

/// The surfaces and how often each comes.
pub(super) const MATS: [((u32, Kind), f64); 14] = [
    ((0xe8e5de, Kind::Plain), 2.0),
    ((0xc2c4c3, Kind::Plain), 1.5),
    ((0x8a8d8f, Kind::Plain), 1.5),
    ((0x2e3134, Kind::Plain), 1.5),
    ((0x1d1d20, Kind::Plain), 0.7),
    ((0xd8b8bf, Kind::Plain), 0.7),
    ((0x34507a, Kind::Plain), 0.7),
    ((0xd8c25a, Kind::Plain), 0.4),
    ((0x2c5f50, Kind::Gridded(0xd8dcc0)), 2.5),
    ((0x3d4a63, Kind::Gridded(0xcfd4dc)), 1.0),
    ((0xdddcd5, Kind::Gridded(0x6f7f88)), 1.0),
    ((0x2a2a2d, Kind::Gridded(0xe0c850)), 0.8),
    ((0xb98b5c, Kind::Grained), 0.9),
    ((0x6a4a34, Kind::Grained), 0.5),
];

/// Width of a tile that repeats, in inches, and cells an inch.
const TILE_IN: f64 = 6.0;
const CELLS_PER_IN: f64 = 48.0;
const TILE: usize = (TILE_IN * CELLS_PER_IN) as usize;

impl Mat {
    pub(super) fn new(colour: u32, kind: Kind, dice: &mut Dice) -> Self {
        let colour = Srgb::from_number(colour);
        let grid = match kind {
            Kind::Gridded(line) => Some(Grid {
                light: light_of(Srgb::from_number(line)),
                width_in: dice.between(0.016, 0.03),
                between: [0.25, 0.5][dice.below(2)],
            }),
            Kind::Plain | Kind::Grained => None,
        };
        let size = [TILE_IN, TILE_IN];
        let soft = Noise::new(dice.bits(), size, 3.0, 2);
        let grain = match kind {
            Kind::Grained => Noise::stretched(dice.bits(), size, [6.0, 0.3], 4),
            Kind::Plain | Kind::Gridded(_) => Noise::new(dice.bits(), size, 0.08, 1),
        };
        let grained = kind == Kind::Grained;
        let (soft_by, grain_by) = if grained { (0.05, 0.25) } else { (0.03, 0.03) };
        let cell = |i: usize| {
            let (x, y) = ((i % TILE) as f64 / CELLS_PER_IN, (i / TILE) as f64 / CELLS_PER_IN);
            (1.0 + soft_by * soft.at(x, y) + grain_by * grain.at(x, y)) as f32
        };
        Self { colour, light: light_of(colour), grid, grained, tile: (0..TILE * TILE).map(cell).collect() }
    }

    /// The light of a place.
    pub(super) fn at(&self, p: Point) -> Light {
        let light = self.grid.as_ref().filter(|grid| grid.line_at(p)).map_or(self.light, |grid| grid.light);
        let bright = self.bright(p);
        light.map(|part| part * bright)
    }

    /// The light at `middle`, which is the mean of `places` close around it; none where it changes
    /// from one to the next, as with grain or with a line that runs through.
    pub(super) fn even_at(&self, middle: Point, mut places: impl Iterator<Item = Point>) -> Option<Light> {
        let uneven = self.grained || self.grid.as_ref().is_some_and(|grid| places.any(|p| grid.line_at(p)));
        let bright = self.bright(middle);
        (!uneven).then(|| self.light.map(|part| part * bright))
    }

    /// How bright the tile is here, blended between four cells.
    fn bright(&self, p: Point) -> f32 {
        let split = |at: f64| {
            let cells = at * CELLS_PER_IN;
            let low = cells.floor();
            ((low as i64).rem_euclid(TILE as i64) as usize, (cells - low) as f32)
        };
        let ((x, right), (y, up)) = (split(p.x), split(p.y));
        let next = |at: usize| if at + 1 == TILE { 0 } else { at + 1 };
        let cell = |x: usize, y: usize| self.tile[y * TILE + x];
        let low = cell(x, y) + (cell(next(x), y) - cell(x, y)) * right;
        let high = cell(x, next(y)) + (cell(next(x), next(y)) - cell(x, next(y))) * right;
        low + (high - low) * up
    }
}

impl Grid {
    fn line_at(&self, p: Point) -> bool {
        let off = |at: f64, step: f64| (at - nearest(at / step) * step).abs();
        let near = |step: f64, width: f64| off(p.x, step).min(off(p.y, step)) < width / 2.0;
        near(1.0, self.width_in) || near(self.between, self.width_in * 0.5)
    }
}

/// The nearest whole number, of places that are no farther than a table is wide.
fn nearest(at: f64) -> f64 {
    f64::from((at + 0.5_f64.copysign(at)) as i32)
}
