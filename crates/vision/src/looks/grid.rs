//! The inside of a cloth at about thirty pixels an inch, level and unturned.

use crate::Flat;
use crate::share::LIGHT;
use colour::{Lab, Linear, Srgb};
use plane::{Point, Region, polygon};

/// Pixels of a cloth, in rows from the top, and which of them lie well inside it.
pub(super) struct Grid {
    pub(super) width: usize,
    pub(super) per_in: f64,
    pub(super) rgb: Vec<Srgb>,
    /// The same as colours, worked out once.
    pub(super) lab: Vec<Lab>,
    /// Colours without the noise of single pixels.
    pub(super) smooth: Vec<Lab>,
    pub(super) on: Vec<bool>,
}

/// Pixels an inch that are aimed at.
const WANTED_PER_IN: f64 = 30.0;
/// Pixels along a side at most.
const MOST: f64 = 160.0;
/// How far inside the outline, in inches, so that the edge doesn't count as print.
const MARGIN: f64 = 0.05;

impl Grid {
    pub(super) fn of(flat: &Flat, outline: &Region) -> Self {
        let empty = Self { width: 0, per_in: 1.0, rgb: vec![], lab: vec![], smooth: vec![], on: vec![] };
        let Some((low, high)) = polygon::bounds(&outline.outer) else { return empty };
        let long = (high.x - low.x).max(high.y - low.y);
        if !(long > 0.0 && long.is_finite()) {
            return empty;
        }
        // A whole number of the picture's pixels for each, or the picture's own.
        let wanted = WANTED_PER_IN.min(MOST / long);
        let cell = (flat.pixels_per_in / wanted).round().max(1.0);
        let per_in = flat.pixels_per_in / cell;
        let width = ((high.x - low.x) * per_in).ceil() as usize + 1;
        let height = ((high.y - low.y) * per_in).ceil() as usize + 1;
        let inner = well_inside(outline);
        let mut grid = Self {
            width,
            per_in,
            rgb: vec![Srgb::default(); width * height],
            lab: vec![],
            smooth: vec![],
            on: vec![false; width * height],
        };
        let corner = flat.in_picture(Point::new(low.x, high.y));
        for i in 0..width * height {
            let (column, row) = ((i % width) as f64, (i / width) as f64);
            let place = Point::new(low.x + (column + 0.5) / per_in, high.y - (row + 0.5) / per_in);
            let (x, y) = ((corner.x + column * cell) as i64, (corner.y + row * cell) as i64);
            let middle = (y + cell as i64 / 2) * i64::from(flat.picture.width) + x + cell as i64 / 2;
            let seen = usize::try_from(middle).ok().and_then(|k| flat.seen.get(k)).copied().unwrap_or(false);
            grid.on[i] = seen && inner(place);
            if grid.on[i] {
                grid.rgb[i] = mean(flat, x, y, cell as i64);
            }
        }
        grid.lab = grid.rgb.iter().map(|pixel| pixel.to_lab()).collect();
        grid.smooth = grid.smoothed();
        grid
    }

    /// The numbers of the pixels inside.
    pub(super) fn inside(&self) -> impl Iterator<Item = usize> + '_ {
        (0..self.on.len()).filter(|&i| self.on[i])
    }

    pub(super) fn height(&self) -> usize {
        self.on.len() / self.width.max(1)
    }

    /// The mean of each pixel and its eight neighbours.
    fn smoothed(&self) -> Vec<Lab> {
        let labs = &self.lab;
        let (width, height) = (self.width, self.height());
        (0..labs.len())
            .map(|i| {
                if !self.on[i] {
                    return labs[i];
                }
                let (column, row) = (i % width, i / width);
                let rows = row.saturating_sub(1)..(row + 2).min(height);
                let around = rows.flat_map(|r| {
                    (column.saturating_sub(1)..(column + 2).min(width)).map(move |c| r * width + c)
                });
                let near = around.filter(|&j| self.on[j]);
                colour::mean(near.map(|j| (labs[j], if j == i { 2.0 } else { 1.0 }))).unwrap_or(labs[i])
            })
            .collect()
    }

    /// Colours of the places where neighbours look alike.
    pub(super) fn calm(&self) -> impl Iterator<Item = Srgb> + '_ {
        let alike = move |i: usize, j: usize| {
            self.on.get(j).copied().unwrap_or(false)
                && colour::plain_difference(self.smooth[i], self.smooth[j]) < CALM
        };
        self.inside()
            .filter(move |&i| {
                let w = self.width;
                i > w && alike(i, i - 1) && alike(i, i + 1) && alike(i, i - w) && alike(i, i + w)
            })
            .map(|i| self.rgb[i])
    }
}

/// In CIELAB: neighbours nearer than this have no edge between them.
const CALM: f64 = 3.0;

/// Whether a place lies in a region and off its edges.
fn well_inside(outline: &Region) -> impl Fn(Point) -> bool + '_ {
    move |p| {
        let far = |ring: &[Point]| {
            polygon::edges(ring).all(|(a, b)| {
                let way = b - a;
                let t = (way.dot(p - a) / way.dot(way).max(1e-12)).clamp(0.0, 1.0);
                p.distance(a.lerp(b, t)) > MARGIN
            })
        };
        outline.contains(p) && far(&outline.outer) && outline.holes.iter().all(|hole| far(hole))
    }
}

/// Mean light of a square of pixels, as a colour.
fn mean(flat: &Flat, left: i64, top: i64, cell: i64) -> Srgb {
    let mut sum = [0.0_f32; 3];
    for y in top..top + cell {
        for x in left..left + cell {
            for (total, value) in sum.iter_mut().zip(flat.picture.at(x, y)) {
                *total += LIGHT[usize::from(value)];
            }
        }
    }
    let [r, g, b] = sum.map(|total| f64::from(total) / (cell * cell) as f64);
    Linear::new(r, g, b).to_srgb()
}
