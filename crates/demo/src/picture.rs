//! The picture of one scrap, as a photograph of it would come: flattened, to scale, clear outside
//! the cloth.

use crate::PictureProblem;
use crate::heap::{Heap, Scrap, bounds};
use crate::print::Print;
use crate::raster::Raster;
use plane::{Point, Region, Vec2};
use quilt::cloth::Picture;
use sha2::{Digest, Sha256};
use std::fmt::Write as _;
use std::panic::resume_unwind;

/// A picture of a scrap and the file it makes.
#[derive(Clone, Debug)]
pub struct Drawn {
    /// Where it lies on the cloth; goes into the cloth's `picture`.
    pub picture: Picture,
    /// The file, as `picture.hash` names it.
    pub png: Vec<u8>,
    /// The pixels.
    pub raster: Raster,
}

/// Pixels an inch of a scrap's picture.
const PIXELS_PER_IN: f64 = 60.0;
/// Pixels an inch of the print it is taken from.
const PRINT_PER_IN: f64 = 96.0;
/// Samples a pixel, each way.
const SAMPLES: u32 = 2;

/// Paints one scrap of a heap at 60 pixels an inch.
///
/// # Errors
/// When its print isn't in the heap, or the picture can't be written as PNG.
pub fn picture_of(heap: &Heap, scrap: &Scrap) -> Result<Drawn, PictureProblem> {
    let print = print_of(heap, scrap)?;
    drawn(scrap, &print.draw(PRINT_PER_IN), print.repeat_in())
}

fn print_of<'h>(heap: &'h Heap, scrap: &Scrap) -> Result<&'h Print, PictureProblem> {
    heap.print_of(scrap).ok_or_else(|| PictureProblem::NoSuchPrint {
        scrap: scrap.cloth.name.clone(),
        print: scrap.print,
        prints: heap.prints.len(),
    })
}

/// Paints all scraps of a heap, one picture for each in their order; each print is drawn once, and
/// several prints at a time.
///
/// # Errors
/// When a scrap's print isn't in the heap, or a picture can't be written as PNG.
pub fn pictures(heap: &Heap) -> Result<Vec<Drawn>, PictureProblem> {
    for scrap in &heap.scraps {
        print_of(heap, scrap)?;
    }
    let workers = std::thread::available_parallelism().map_or(1, usize::from);
    let shares: Vec<_> = std::thread::scope(|scope| {
        let started: Vec<_> =
            (0..workers).map(|worker| scope.spawn(move || of_some_prints(heap, worker, workers))).collect();
        started.into_iter().map(|thread| thread.join().unwrap_or_else(|cause| resume_unwind(cause))).collect()
    });
    let mut all = Vec::with_capacity(heap.scraps.len());
    for share in shares {
        all.extend(share?);
    }
    all.sort_by_key(|(index, _)| *index);
    Ok(all.into_iter().map(|(_, drawn)| drawn).collect())
}

/// The pictures, with their places in the heap, of every `step`th print from `first` on.
fn of_some_prints(heap: &Heap, first: usize, step: usize) -> Result<Vec<(usize, Drawn)>, PictureProblem> {
    let mut pictures = Vec::new();
    for (number, print) in heap.prints.iter().enumerate().skip(first).step_by(step) {
        let of_it = || heap.scraps.iter().enumerate().filter(|(_, scrap)| scrap.print == number);
        if of_it().next().is_none() {
            continue;
        }
        let repeat = print.draw(PRINT_PER_IN);
        for (index, scrap) in of_it() {
            pictures.push((index, drawn(scrap, &repeat, print.repeat_in())?));
        }
    }
    Ok(pictures)
}

fn drawn(scrap: &Scrap, repeat: &Raster, repeat_in: [f64; 2]) -> Result<Drawn, PictureProblem> {
    let (low, high) = bounds(&scrap.cloth);
    let pixels = |length: f64| (length * PIXELS_PER_IN).ceil().max(1.0) as u32 + 2;
    let size_px = [pixels(high.x - low.x), pixels(high.y - low.y)];
    // One clear pixel all round.
    let margin = 1.0 / PIXELS_PER_IN;
    let top_left = Point::new(low.x - margin, high.y + margin);
    let mut raster = Raster::new(size_px[0], size_px[1]);
    let source = Source { repeat, repeat_in };
    for (index, pixel) in raster.pixels.iter_mut().enumerate() {
        let (column, row) = (index as u32 % size_px[0], index as u32 / size_px[0]);
        *pixel = sampled(&source, scrap, top_left, f64::from(column), f64::from(row));
    }
    let png = raster.to_png()?;
    let mut hash = String::new();
    for byte in Sha256::digest(&png) {
        // Writing to a string doesn't fail.
        let _ = write!(hash, "{byte:02x}");
    }
    let format = "png".to_owned();
    let picture = Picture { hash, format, pixels_per_in: PIXELS_PER_IN, top_left, size_px };
    Ok(Drawn { picture, png, raster })
}

/// One pixel: the mean of the samples that lie on the cloth, as opaque as they are many.
fn sampled(source: &Source, scrap: &Scrap, top_left: Point, column: f64, row: f64) -> [u8; 4] {
    let (mut sum, mut count) = ([0.0; 3], 0.0);
    for i in 0..SAMPLES * SAMPLES {
        let part = |k: u32| (f64::from(k) + 0.5) / f64::from(SAMPLES);
        let off = Vec2::new(column + part(i % SAMPLES), -(row + part(i / SAMPLES)));
        let place = top_left + off * (1.0 / PIXELS_PER_IN);
        if on_cloth(&scrap.cloth.outline, place) {
            let found = source.at(scrap.pose.apply(place));
            for (total, part) in sum.iter_mut().zip(found) {
                *total += part;
            }
            count += 1.0;
        }
    }
    if count == 0.0 {
        return [0; 4];
    }
    let mean = |k: usize| (sum[k] / count).round() as u8;
    [mean(0), mean(1), mean(2), (255.0 * count / f64::from(SAMPLES * SAMPLES)).round() as u8]
}

fn on_cloth(outline: &Region, place: Point) -> bool {
    outline.contains(place)
}

/// A print to take colours from, at any place.
struct Source<'a> {
    repeat: &'a Raster,
    repeat_in: [f64; 2],
}

impl Source<'_> {
    /// The colour at a place of the print, blended between the four nearest pixels.
    fn at(&self, p: Point) -> [f64; 3] {
        let (width, height) = (i64::from(self.repeat.width), i64::from(self.repeat.height));
        let x = p.x / self.repeat_in[0] * width as f64 - 0.5;
        let y = -p.y / self.repeat_in[1] * height as f64 - 0.5;
        let (column, row) = (x.floor(), y.floor());
        let (right, down) = (x - column, y - row);
        let mut sum = [0.0; 3];
        for (i, j, weight) in [
            (0, 0, (1.0 - right) * (1.0 - down)),
            (1, 0, right * (1.0 - down)),
            (0, 1, (1.0 - right) * down),
            (1, 1, right * down),
        ] {
            let across = (column as i64 + i).rem_euclid(width);
            let from_top = (row as i64 + j).rem_euclid(height);
            let pixel = self.repeat.pixels[(from_top * width + across) as usize];
            for (total, value) in sum.iter_mut().zip(pixel) {
                *total += f64::from(value) * weight;
            }
        }
        sum
    }
}
