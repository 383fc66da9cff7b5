//! The light that comes through the lens, before blur and sensor: the mean over each pixel.
//!
//! Pixels near a line across which the light jumps take [`FINE`] samples, others a few; samples lie
//! on a lattice whose rows and columns are all different, so that even an upright edge is seen to
//! a sixty-fourth of a pixel.

use super::camera::Camera;
use super::scenery::Scenery;
use super::texture::Light;
use plane::{Point, Vec2};

/// Samples of a pixel near an edge, and the step of their lattice.
const FINE: [u32; 2] = [64, 27];
/// Samples of another pixel, when a pixel is no larger than a hundredth of an inch and when it is.
const SMALL: [u32; 2] = [4, 2];
const LARGE: [u32; 2] = [8, 3];

/// What lies beyond the table's horizon.
const BEYOND: Light = [0.25, 0.25, 0.25];

/// What of a picture is drawn.
pub(super) enum Part {
    All,
    /// Within upright rectangles: their left, upper, right and lower sides in pixels.
    Within(Vec<[f64; 4]>),
}

/// About each card so much of its width is drawn: all of its paper, and mat beyond.
const ABOUT: f64 = 0.9;

impl Part {
    /// What lies about some corners.
    pub(super) fn round(cards: &[[Point; 4]]) -> Self {
        let about = |corners: &[Point; 4]| {
            let (mut low, mut high) = (corners[0], corners[0]);
            for p in corners {
                low = Point::new(low.x.min(p.x), low.y.min(p.y));
                high = Point::new(high.x.max(p.x), high.y.max(p.y));
            }
            let more = (high - low) * ABOUT;
            let (low, high) = (low - more, high + more);
            [low.x, low.y, high.x, high.y]
        };
        Self::Within(cards.iter().map(about).collect())
    }

    pub(super) fn shows(&self, column: usize, row: usize) -> bool {
        let (x, y) = (column as f64, row as f64);
        match self {
            Self::All => true,
            Self::Within(parts) => parts.iter().any(|[left, upper, right, lower]| {
                (*left..*right).contains(&x) && (*upper..*lower).contains(&y)
            }),
        }
    }
}

/// Renders a part of a scene, several bands of rows at a time.
pub(super) fn render(camera: &Camera, scenery: &Scenery, part: &Part) -> Vec<Light> {
    let [width, height] = camera.stand().size_px.map(|n| n as usize);
    let sharp = near_edges(camera, scenery);
    let plain = samples(if camera.stand().pixels_per_in >= 100.0 { SMALL } else { LARGE });
    let fine = samples(FINE);
    let mut pixels = vec![[0.0; 3]; width * height];
    let rows = ROWS_AT_ONCE;
    in_bands(&mut pixels, rows * width, |band, lines| {
        let first = band * rows;
        let mut upper = corners(camera, first, width);
        for (row, line) in lines.chunks_mut(width).enumerate() {
            let lower = corners(camera, first + row + 1, width);
            let sharp = &sharp[(first + row) * width..];
            for (column, pixel) in line.iter_mut().enumerate() {
                if !part.shows(column, first + row) {
                    *pixel = BEYOND;
                    continue;
                }
                let four = [upper[column], upper[column + 1], lower[column], lower[column + 1]];
                let [Some(a), Some(b), Some(c), Some(d)] = four else {
                    *pixel = BEYOND;
                    continue;
                };
                *pixel = mean(scenery, [a, b, c, d], if sharp[column] { &fine } else { &plain });
            }
            upper = lower;
        }
    });
    pixels
}

/// Rows that one worker does before it takes others.
const ROWS_AT_ONCE: usize = 16;

/// Does something to each band of a list, on all cores; bands are counted from 0.
pub(super) fn in_bands<T: Send>(list: &mut [T], length: usize, work: impl Fn(usize, &mut [T]) + Sync) {
    let bands = std::sync::Mutex::new(list.chunks_mut(length.max(1)).enumerate());
    let workers = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..workers {
            scope.spawn(|| {
                loop {
                    let next = bands.lock().ok().and_then(|mut bands| bands.next());
                    let Some((band, part)) = next else { break };
                    work(band, part);
                }
            });
        }
    });
}

/// Where the upper corners of a row of pixels lie on the table.
fn corners(camera: &Camera, row: usize, width: usize) -> Vec<Option<Point>> {
    (0..=width).map(|column| camera.on_table(Point::new(column as f64, row as f64))).collect()
}

/// Places within a pixel, 0 to 1 each way.
fn samples([count, step]: [u32; 2]) -> Vec<[f64; 2]> {
    let place = |i: u32| (f64::from(i % count) + 0.5) / f64::from(count);
    (0..count).map(|i| [place(i), place(i * step + i * step / count * (step & 1 ^ 1))]).collect()
}

fn mean(scenery: &Scenery, [a, b, c, d]: [Point; 4], samples: &[[f64; 2]]) -> Light {
    let mut sum = [0.0; 3];
    for &[right, down] in samples {
        let found = scenery.at(a.lerp(b, right).lerp(c.lerp(d, right), down));
        for (total, part) in sum.iter_mut().zip(found) {
            *total += part;
        }
    }
    sum.map(|total| total / samples.len() as f32)
}

/// The pixels within about one of a line across which the light jumps.
fn near_edges(camera: &Camera, scenery: &Scenery) -> Vec<bool> {
    let [width, height] = camera.stand().size_px.map(i64::from);
    let mut near = vec![false; (width * height) as usize];
    for [from, to] in scenery.things().iter().flat_map(super::scenery::Thing::edges) {
        if !camera.faces(from) || !camera.faces(to) {
            continue;
        }
        let long = camera.to_picture(from).distance(camera.to_picture(to));
        let steps = (long * 2.5).ceil().clamp(1.0, 30_000.0) as usize;
        for step in 0..=steps {
            let px = camera.to_picture(from.lerp(to, step as f64 / steps as f64)) + Vec2::new(-1.0, -1.0);
            for (i, j) in [(0, 0), (1, 0), (2, 0), (0, 1), (1, 1), (2, 1), (0, 2), (1, 2), (2, 2)] {
                let (x, y) = (px.x.floor() as i64 + i, px.y.floor() as i64 + j);
                if (0..width).contains(&x) && (0..height).contains(&y) {
                    near[(y * width + x) as usize] = true;
                }
            }
        }
    }
    near
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn samples_lie_in_rows_and_columns_of_their_own() {
        for kind in [FINE, SMALL, LARGE] {
            let places = samples(kind);
            for axis in 0..2 {
                let mut seen: Vec<u32> =
                    places.iter().map(|p| (p[axis] * f64::from(kind[0])) as u32).collect();
                seen.sort_unstable();
                assert_eq!(seen, (0..kind[0]).collect::<Vec<_>>());
            }
        }
    }
}
