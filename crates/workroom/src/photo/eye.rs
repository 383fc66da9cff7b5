//! The eye check from a photograph alone, for a piece of which no log tells.

use super::clip::runs;
use super::read::{PhotoAsk, PhotoMeasured, PhotoRead};
use crate::asks::{AskError, Asked};
use crate::workroom::Workroom;
use colour::{Lab, Srgb};
use plane::{Point, Region, polygon};
use quilt::eye::{Cell, SeenEye, finished_from_raw, seen_eye};
use quilt::wish::Wish;
use serde::Serialize;
use vision::{Flat, Window};

/// About so many cells a piece is looked at in.
const CELLS: f64 = 4000.0;
/// Most pixels an inch that are looked at: a cell is many pixels wide all the same.
const MOST_PER_IN: f64 = 40.0;
/// Widest allowance that can be meant, in inches.
const MOST_EDGE_IN: f64 = 2.0;

/// What the eye sees in a photograph of a piece.
#[derive(Clone, Debug, Serialize)]
pub struct PhotoEye {
    /// Its finished outline on the table, in inches.
    pub finished: Vec<Point>,
    /// Finished width across, as the circle of the same area, in inches.
    pub across_in: f64,
    /// Round, balance and drift.
    #[serde(flatten)]
    pub eye: SeenEye,
}

/// What can't be told from a photograph alone.
pub const NOT_TOLD: &str = "Patches, seams and prints aren't told apart in a photograph: what the eye check says of them needs a log.";

impl PhotoRead {
    /// The eye check of a piece in the picture, within its outline as found or as corrected. `edge_in` is
    /// what the next seam takes of its raw edge all round; 0 for a piece that is finished. A wish says
    /// which outline and which drift it is held against.
    ///
    /// # Errors
    /// A cloth that wasn't found; an edge that can't be meant; an outline with nothing in it.
    pub fn eye(&self, which: usize, outline: Option<&Region>, wish: &Wish, edge_in: f64) -> Asked<PhotoEye> {
        if !(0.0..=MOST_EDGE_IN).contains(&edge_in) {
            return Err(AskError::Nonsense {
                what: format!(
                    "the next seam can't take {edge_in:.3} inches of the edge; it takes 0 to {MOST_EDGE_IN}"
                ),
                hint: "It is 1/4 when not said; 0 where the piece is finished.".to_owned(),
            });
        }
        let outline = outline.unwrap_or(&self.cloth(which)?.outline);
        self.measured.eye(&finished_from_raw(&outline.outer, edge_in), wish)
    }
}

impl PhotoMeasured {
    fn eye(&self, finished: &[Point], wish: &Wish) -> Asked<PhotoEye> {
        let nothing = || AskError::Nonsense {
            what: format!("{}: there is nothing within the outline to look at", self.name),
            hint: "Put its outline right, or say a narrower edge.".to_owned(),
        };
        let (low, high) = polygon::bounds(finished).ok_or_else(nothing)?;
        let area = polygon::area(finished).abs();
        let per_in = self.pixels_per_in.min(MOST_PER_IN);
        let flat = self.source.flat(Window { low, high }, per_in);
        let across = ((area / CELLS).sqrt() * flat.pixels_per_in).round().max(1.0) as usize;
        let region = Region { outer: finished.to_vec(), holes: Vec::new() };
        let eye = seen_eye(finished, &cells(&flat, &region, across), wish).ok_or_else(nothing)?;
        let across_in = 2.0 * (area / std::f64::consts::PI).sqrt();
        Ok(PhotoEye { finished: finished.to_vec(), across_in, eye })
    }
}

/// What is summed up in one cell.
#[derive(Clone, Copy, Default)]
struct Sum {
    pixels: f64,
    x: f64,
    y: f64,
    lab: Lab,
}

/// The picture within an outline in cells of so many pixels each way.
fn cells(flat: &Flat, region: &Region, across: usize) -> Vec<Cell> {
    let (width, height) = (flat.picture.width as usize, flat.picture.height as usize);
    let columns = width.div_ceil(across);
    let mut sums = vec![Sum::default(); columns * height.div_ceil(across)];
    for row in 0..height {
        let crossings = runs(region, flat, row);
        for column in 0..width {
            let at = row * width + column;
            let (x, y) = (column as f64 + 0.5, row as f64 + 0.5);
            if !flat.seen[at] || crossings.iter().filter(|crossing| **crossing < x).count() % 2 == 0 {
                continue;
            }
            let [r, g, b] = flat.picture.rgb[at];
            let lab = Srgb::new(r, g, b).to_lab();
            let sum = &mut sums[row / across * columns + column / across];
            sum.pixels += 1.0;
            sum.x += x;
            sum.y += y;
            sum.lab = Lab::new(sum.lab.l + lab.l, sum.lab.a + lab.a, sum.lab.b + lab.b);
        }
    }
    let pixel_in2 = flat.pixels_per_in.powi(-2);
    let cell = |sum: &Sum| Cell {
        at: flat.on_table(Point::new(sum.x / sum.pixels, sum.y / sum.pixels)),
        area_in2: sum.pixels * pixel_in2,
        lab: Lab::new(sum.lab.l / sum.pixels, sum.lab.a / sum.pixels, sum.lab.b / sum.pixels),
    };
    sums.iter().filter(|sum| sum.pixels > 0.0).map(cell).collect()
}

impl Workroom {
    /// The eye check of the piece in a photograph, with measuring cards beside it. The piece needn't be
    /// known here. With a quilt, its wish says which outline and which drift it is held against.
    ///
    /// # Errors
    /// As [`Workroom::read_piece`] and [`PhotoRead::eye`]; no such quilt.
    pub fn look_by_eye(
        &mut self,
        (name, bytes): (&str, &[u8]),
        ask: &PhotoAsk,
        quilt: Option<&str>,
        edge_in: f64,
    ) -> Asked<(PhotoRead, PhotoEye)> {
        let wish = self.wish_or_usual(quilt)?;
        let read = self.read_piece(name, bytes, ask)?;
        let eye = read.eye(0, None, &wish, edge_in)?;
        Ok((read, eye))
    }

    /// The wish of a quilt; without one the usual wish, which has no drift in mind.
    ///
    /// # Errors
    /// No such quilt.
    pub fn wish_or_usual(&self, quilt: Option<&str>) -> Asked<Wish> {
        Ok(quilt.map(|quilt| self.wish(quilt)).transpose()?.unwrap_or_default())
    }
}
