//! The light that comes through the lens, before blur and sensor: the mean over each pixel.
//!
//! Pixels near a line across which the light jumps take [`FINE`] samples, others a few, of which is
//! asked once what covers them all; samples lie on a lattice whose rows and columns are all
//! different, so that even an upright edge is seen to a sixty-fourth of a pixel.

use super::camera::Camera;
use super::scenery::{Scenery, mean};
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
                let sharp = sharp[column];
                *pixel = light(scenery, [a, b, c, d], if sharp { &fine } else { &plain }, sharp);
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

/// The mean light of a pixel with such corners.
fn light(scenery: &Scenery, [a, b, c, d]: [Point; 4], samples: &[[f64; 2]], sharp: bool) -> Light {
    let place = |right: f64, down: f64| a.lerp(b, right).lerp(c.lerp(d, right), down);
    let places = samples.iter().map(|&[right, down]| place(right, down));
    if sharp { mean(places.map(|p| scenery.at(p))) } else { scenery.mean_of_one(place(0.5, 0.5), places) }
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
    use super::super::camera::Stand;
    use super::super::card::Card;
    use super::super::mat::{MATS, Mat};
    use super::super::relief::{Falls, Relief};
    use super::super::scenery::Thing;
    use super::super::texture::Texture;
    use super::*;
    use crate::dice::Dice;
    use crate::print::prints;
    use plane::{Pose, Region, Turn};
    use std::sync::Arc;

    /// Light is rounded to bytes in steps of its root: less than half of one.
    const HALF_A_BYTE: f32 = 0.002;

    #[test]
    fn where_no_edge_runs_a_pixel_asked_at_once_is_what_it_is_place_by_place() {
        let stand = Stand {
            target: Point::new(1.5, 1.0),
            pixels_per_in: 70.0,
            tilt_deg: 20.0,
            from_deg: 40.0,
            roll_deg: 3.0,
            focal: 0.9,
            size_px: [360, 270],
            off_px: [0.0; 2],
            bend: 0.02,
            second: 0.0,
            tangential: [0.0; 2],
        };
        let camera = Camera::new(stand);
        let lies = |x, y| Pose::new(Turn::from_degrees(25.0), Vec2::new(x, y));
        for ((colour, kind), _) in MATS {
            let mut dice = Dice::new(3, 0);
            let texture = Arc::new(Texture::of(&prints(0)[5]));
            let cloth = Thing::Cloth {
                outline: Region::rectangle(1.6, 1.6).moved(lies(0.0, 0.0)),
                texture,
                to_print: lies(0.2, 0.3),
            };
            let card = Card {
                no: 17,
                side_in: 1.2,
                pose: lies(2.2, 0.8),
                pattern: [[true, true, false, true, false, false, true, true]; 8],
                paper: [0.87; 3],
                ink: [0.04; 3],
            };
            let things = vec![cloth, Thing::Card(Box::new(card))];
            let falls = Falls { dark: 0.35, by: Vec2::new(0.05, 0.0), soft_in: 0.03, waves: 0.1 };
            let relief = Relief::new(&things, &falls, &mut dice);
            let scenery = Scenery::new(Mat::new(colour, kind, &mut dice), things, relief);
            let sharp = near_edges(&camera, &scenery);
            let (samples, width) = (samples(LARGE), 360);
            let mut held = 0;
            for (at, _) in sharp.iter().enumerate().filter(|(_, sharp)| !**sharp).step_by(7) {
                let (row, column) = (at / width, at % width);
                let place = |i, j| camera.to_table(Point::new((column + i) as f64, (row + j) as f64));
                let corners = [place(0, 0), place(1, 0), place(0, 1), place(1, 1)];
                let at_once = light(&scenery, corners, &samples, false);
                let by_place = light(&scenery, corners, &samples, true);
                for (one, other) in at_once.iter().zip(by_place) {
                    assert!(
                        (one.max(0.0).sqrt() - other.max(0.0).sqrt()).abs() < HALF_A_BYTE,
                        "{one} {other}"
                    );
                }
                held += 1;
            }
            assert!(held > 8_000, "{held}");
        }
    }

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
