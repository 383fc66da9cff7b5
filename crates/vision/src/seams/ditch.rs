//! Where a straight ditch shows inside a side of an outline.
//!
//! A pressed seam is a narrow line darker than what is on both its sides, whatever is printed there.
//! Inside each side a grid is laid, along it and into the piece, with how much darker each place is
//! than what lies to both sides of it, and how the colour changes there; a seam is a straight row of
//! such places from end to end. Between a dark and a pale print the ditch can't be seen, but the change
//! can; a print has changes of its own, but seldom straight ones from end to end.

use crate::Flat;
use crate::share::{LIGHT, in_rows, oklab};
use plane::{Line, Point, Vec2};

/// Logarithm of light and colour, at the flat's own scale.
pub(super) struct Ditches {
    width: usize,
    height: usize,
    per_in: f64,
    top_left: Point,
    light: Vec<f32>,
    colour: Vec<[f32; 3]>,
}

/// A straight ditch and how dark it is at its faintest stretch.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ditch {
    pub(super) line: Line,
    pub(super) depth: f64,
    /// How well it shows as a seam: over 0 when darkness and the colours on both sides speak for one.
    pub(super) shows: f64,
}

/// How far from a ditch its surroundings are looked at, in inches.
const BESIDE_IN: f64 = 0.04;
/// Steps along a side and into the piece, in inches.
const ALONG_IN: f64 = 0.05;
const INTO_IN: f64 = 0.01;
/// Steps into the piece that are taken together at first.
const TOGETHER: usize = 4;
/// Columns from one that is looked at to the next, at first.
const STRIDE: usize = 2;
/// What one place can count for or against.
const MOST: f32 = 0.25;
const LEAST: f32 = -0.08;
/// What is compared on both sides of a seam for a change of colour, in rows from it.
const BAND: (usize, usize) = (3, 16);
/// What a change of colour counts, in OKLab, against darkness as a logarithm.
const CHANGE: f32 = 0.5;
/// Shallowest and deepest that a patch can be, seam to raw edge, in inches.
const SHALLOW_IN: f64 = 0.5;
const DEEP_IN: f64 = 6.0;
/// Most that a seam turns against the raw edge of its patch: rise over length.
const STEEPEST: f64 = 0.6;
/// The ends of a seam, where edges fray, are left out, in inches.
const FRAYED_IN: f64 = 0.1;
/// A seam has to show in each of so many stretches.
const STRETCHES: usize = 10;
/// Faintest ditch that is one.
const FAINTEST: f64 = 0.025;
/// A ditch as dark as this is clear, and darker ones count no more.
const CLEAR: f64 = 0.2;
/// What a difference of the cloths counts, in OKLab, and how much of it at most; together with darkness, what
/// speaks neither for nor against a seam.
const UNLIKE: f64 = 0.8;
const MOST_UNLIKE: f64 = 0.1;
const EVEN: f64 = 0.15;
/// What is compared of both cloths, in rows from the seam.
const WIDE: (usize, usize) = (4, 80);
/// Most that are taken inside one side.
const MOST_EACH: usize = 4;
/// Nearer than this at both ends two are one, in inches.
const ONE_IN: f64 = 0.3;

impl Ditches {
    pub(super) fn of(flat: &Flat) -> Option<Self> {
        let (width, height) = (flat.picture.width as usize, flat.picture.height as usize);
        if width < 8 || height < 8 || flat.picture.rgb.len() < width * height {
            return None;
        }
        let mut light = vec![0.0_f32; width * height];
        in_rows(&mut light, width, |row, line| {
            for (column, cell) in line.iter_mut().enumerate() {
                let [r, g, b] = flat.picture.rgb[row * width + column].map(|part| LIGHT[usize::from(part)]);
                *cell = (0.25 * r + 0.5 * g + 0.25 * b + 0.01).ln();
            }
        });
        let mut colour = vec![[0.0_f32; 3]; width * height];
        in_rows(&mut colour, width, |row, line| {
            for (column, cell) in line.iter_mut().enumerate() {
                *cell = oklab(flat.picture.rgb[row * width + column].map(|part| LIGHT[usize::from(part)]));
            }
        });
        Some(Self { width, height, per_in: flat.pixels_per_in, top_left: flat.top_left, light, colour })
    }

    /// Light at a place on the table, between pixels.
    fn at(&self, p: Point) -> f32 {
        let x = ((p.x - self.top_left.x) * self.per_in - 0.5).clamp(0.0, self.width as f64 - 1.001);
        let y = ((self.top_left.y - p.y) * self.per_in - 0.5).clamp(0.0, self.height as f64 - 1.001);
        let (i, j) = (x as usize, y as usize);
        let (u, v) = ((x - i as f64) as f32, (y - j as f64) as f32);
        let k = j * self.width + i;
        let (a, b) = (self.light[k], self.light[k + 1]);
        let (c, d) = (self.light[k + self.width], self.light[k + self.width + 1]);
        (a + (b - a) * u) * (1.0 - v) + (c + (d - c) * u) * v
    }

    /// Colour of the pixel at a place on the table.
    fn colour(&self, p: Point) -> [f32; 3] {
        let x = ((p.x - self.top_left.x) * self.per_in).clamp(0.0, self.width as f64 - 1.0) as usize;
        let y = ((self.top_left.y - p.y) * self.per_in).clamp(0.0, self.height as f64 - 1.0) as usize;
        self.colour[y * self.width + x]
    }

    /// The seams that may lie inside side `i` of a ring of lines, clearest first.
    pub(super) fn inside(&self, ring: &[Line], i: usize) -> Vec<Ditch> {
        let n = ring.len();
        let (side, before, after) = (ring[i], ring[(i + n - 1) % n], ring[(i + 1) % n]);
        let Some(grid) = Grid::of(self, side, before, after, ring) else { return Vec::new() };
        let rough = grid.rough();
        let mut found: Vec<(Chord, f64)> = Vec::new();
        for chord in rough {
            let (chord, depth) = grid.refined(chord);
            let same = |other: &(Chord, f64)| {
                (other.0.0 as f64 - chord.0 as f64).abs() * INTO_IN < ONE_IN
                    && (other.0.1 as f64 - chord.1 as f64).abs() * INTO_IN < ONE_IN
            };
            match found.iter().position(same) {
                Some(k) if found[k].1 < depth => found[k] = (chord, depth),
                Some(_) => {}
                None => found.push((chord, depth)),
            }
        }
        let ditch = |(chord, depth): (Chord, f64)| {
            let shows = depth.min(CLEAR) + UNLIKE * grid.unlike(chord)?.min(MOST_UNLIKE) - EVEN;
            Some(Ditch { line: grid.line(chord)?, depth, shows })
        };
        let mut found: Vec<Ditch> =
            found.into_iter().filter(|(_, depth)| *depth > FAINTEST).filter_map(ditch).collect();
        found.sort_by(|a, b| b.shows.total_cmp(&a.shows));
        found.truncate(MOST_EACH);
        found
    }
}

/// How deep a seam lies at the first and the last column, in steps.
type Chord = (usize, usize);

/// Darkness inside one side.
struct Grid {
    side: Line,
    /// Where the columns begin along the side, and their number.
    from: f64,
    columns: usize,
    rows: usize,
    dark: Vec<f32>,
    /// How the colour changes across each place, outside to inside, in OKLab.
    step: Vec<[f32; 3]>,
    /// Colours added up into the piece.
    sums: Vec<[f32; 3]>,
    /// The neighbouring lines, how far a seam may run along them, as ends along the side for each row.
    ends: Vec<(f64, f64)>,
}

impl Grid {
    fn of(ditches: &Ditches, side: Line, before: Line, after: Line, ring: &[Line]) -> Option<Self> {
        let (a, b) = (before.crossing(side)?, side.crossing(after)?);
        let n = ring.len();
        let i = ring.iter().position(|line| *line == side)?;
        // How deep the neighbouring sides reach; a seam ends on both of them.
        let far = [
            ring[(i + n - 2) % n].crossing(before).map(|p| side.inside_by(p)),
            after.crossing(ring[(i + 2) % n]).map(|p| side.inside_by(p)),
        ];
        let deepest = far.iter().flatten().fold(0.0_f64, |most, depth| most.max(*depth)).min(DEEP_IN);
        let rows = (deepest / INTO_IN) as usize;
        if rows < 2 * TOGETHER || side.along(b) <= side.along(a) {
            return None;
        }
        // Along the side, where the neighbours lie at each depth.
        let end = |line: Line, depth: f64| line.crossing(side.inward(depth)).map(|p| side.along(p));
        let ends: Vec<(f64, f64)> = (0..rows)
            .map(|row| {
                let depth = row as f64 * INTO_IN;
                let inside = |far: Option<f64>| far.is_some_and(|far| depth <= far + 0.05);
                match (end(before, depth), end(after, depth)) {
                    (Some(a), Some(b)) => {
                        (if inside(far[0]) { a } else { f64::NAN }, if inside(far[1]) { b } else { f64::NAN })
                    }
                    _ => (f64::NAN, f64::NAN),
                }
            })
            .collect();
        let from = ends.iter().map(|e| e.0).fold(f64::INFINITY, f64::min);
        let to = ends.iter().map(|e| e.1).fold(f64::NEG_INFINITY, f64::max);
        let columns = ((to - from) / ALONG_IN).ceil() as usize + 1;
        if !(to - from).is_finite() || columns < 8 {
            return None;
        }
        let into: Vec2 = side.normal.vec();
        let mut dark = vec![0.0_f32; rows * columns];
        in_rows(&mut dark, columns, |row, line| {
            for (column, cell) in line.iter_mut().enumerate() {
                let p = side.point_at(from + column as f64 * ALONG_IN) + into * (row as f64 * INTO_IN);
                let beside = ditches.at(p + into * BESIDE_IN).min(ditches.at(p - into * BESIDE_IN));
                *cell = (beside - ditches.at(p)).clamp(LEAST, MOST);
            }
        });
        let mut sums = vec![[0.0_f32; 3]; (rows + 1) * columns];
        for row in 0..rows {
            for column in 0..columns {
                let p = side.point_at(from + column as f64 * ALONG_IN) + into * (row as f64 * INTO_IN);
                let (colour, sum) = (ditches.colour(p), sums[row * columns + column]);
                sums[(row + 1) * columns + column] = std::array::from_fn(|k| sum[k] + colour[k]);
            }
        }
        // The mean of rows `from` up to `to`.
        let mean = |column: usize, from: usize, to: usize| -> [f32; 3] {
            let (low, high) = (sums[from * columns + column], sums[to * columns + column]);
            std::array::from_fn(|k| (high[k] - low[k]) / (to - from) as f32)
        };
        let mut step = vec![[0.0_f32; 3]; rows * columns];
        for row in BAND.1..rows.saturating_sub(BAND.1) {
            for column in 0..columns {
                let outside = mean(column, row - BAND.1, row - BAND.0);
                let inside = mean(column, row + BAND.0 + 1, row + BAND.1 + 1);
                step[row * columns + column] = std::array::from_fn(|k| inside[k] - outside[k]);
            }
        }
        Some(Self { side, from, columns, rows, dark, step, sums, ends })
    }

    fn column(&self, along: f64) -> f64 {
        (along - self.from) / ALONG_IN
    }

    /// Where a chord meets the neighbours, in columns. It is given by its rows there.
    fn span(&self, (start, end): Chord) -> Option<(f64, f64)> {
        let (a, b) = (self.column(self.ends.get(start)?.0), self.column(self.ends.get(end)?.1));
        (b - a > 8.0).then_some((a, b))
    }

    /// The faintest stretch of a chord in a grid of darkness whose rows are so many steps.
    fn depth(&self, chord: Chord, dark: &[f32], step: usize) -> Option<f64> {
        let (a, b) = self.span(chord)?;
        let rise = chord.1 as f64 - chord.0 as f64;
        if rise.abs() * INTO_IN > STEEPEST * (b - a) * ALONG_IN {
            return None;
        }
        let frayed = FRAYED_IN / ALONG_IN;
        let (first, last) =
            ((a + frayed).ceil().max(0.0) as usize, ((b - frayed) as usize).min(self.columns - 1));
        if last < first + STRETCHES {
            return None;
        }
        let (mut sums, mut counts) = ([0.0_f32; STRETCHES], [0.0_f32; STRETCHES]);
        let mut steps = [[0.0_f32; 3]; STRETCHES];
        let count = last - first + 1;
        let stride = if step > 1 { STRIDE } else { 1 };
        for column in (first..=last).step_by(stride) {
            let t = (column as f64 - a) / (b - a);
            let row = (chord.0 as f64 + rise * t + 0.5) as usize;
            let k = (column - first) * STRETCHES / count;
            sums[k] += dark.get(row / step * self.columns + column).copied().unwrap_or(0.0);
            let change = self.step.get(row * self.columns + column).copied().unwrap_or_default();
            (0..3).for_each(|c| steps[k][c] += change[c]);
            counts[k] += 1.0;
        }
        let change = |step: [f32; 3]| step.iter().map(|part| part * part).sum::<f32>().sqrt();
        let shows = |k: usize| (sums[k] + CHANGE * change(steps[k])) / counts[k];
        let mut means: Vec<f32> = (0..STRETCHES).map(shows).collect();
        means.sort_by(f32::total_cmp);
        Some(f64::from(means[0].midpoint(means[1])))
    }

    /// How unlike the mean colours on both sides of a chord are, in OKLab.
    fn unlike(&self, chord: Chord) -> Option<f64> {
        let (a, b) = self.span(chord)?;
        let (first, last) = (a.ceil().max(0.0) as usize, (b as usize).min(self.columns - 1));
        let mut sum = [0.0_f32; 3];
        let mut count = 0.0;
        for column in first..=last {
            let t = (column as f64 - a) / (b - a);
            let row = (chord.0 as f64 + (chord.1 as f64 - chord.0 as f64) * t + 0.5) as usize;
            let mean = |from: usize, to: usize| {
                let (low, high) = (
                    self.sums.get(from * self.columns + column)?,
                    self.sums.get(to * self.columns + column)?,
                );
                Some([0, 1, 2].map(|k| (high[k] - low[k]) / (to - from) as f32))
            };
            let outside = mean(row.saturating_sub(WIDE.1), row.saturating_sub(WIDE.0).max(1));
            let inside = mean(row + WIDE.0, (row + WIDE.1).min(self.rows).max(row + WIDE.0 + 1));
            if let (Some(outside), Some(inside)) = (outside, inside) {
                (0..3).for_each(|k| sum[k] += inside[k] - outside[k]);
                count += 1.0;
            }
        }
        let square: f32 = sum.iter().map(|part| part * part).sum();
        (count > 0.0).then(|| f64::from(square).sqrt() / count)
    }

    /// Chords that may be seams, from rows taken together.
    fn rough(&self) -> Vec<Chord> {
        let rows = self.rows / TOGETHER;
        let mut dark = vec![LEAST; rows * self.columns];
        for row in 0..rows * TOGETHER {
            for column in 0..self.columns {
                let cell = &mut dark[row / TOGETHER * self.columns + column];
                *cell = cell.max(self.dark[row * self.columns + column]);
            }
        }
        let least = (SHALLOW_IN / INTO_IN) as usize / TOGETHER;
        let mut found: Vec<(f64, Chord)> = Vec::new();
        for start in least..rows {
            for end in least..rows {
                let middle = |row: usize| row * TOGETHER + TOGETHER / 2;
                let chord = (middle(start), middle(end));
                if let Some(depth) = self.depth(chord, &dark, TOGETHER).filter(|depth| *depth > FAINTEST) {
                    found.push((depth, chord));
                }
            }
        }
        found.sort_by(|a, b| b.0.total_cmp(&a.0));
        // The best of each neighbourhood.
        let mut kept: Vec<Chord> = Vec::new();
        for (_, chord) in found {
            let near = |other: &Chord| {
                chord.0.abs_diff(other.0) <= 3 * TOGETHER && chord.1.abs_diff(other.1) <= 3 * TOGETHER
            };
            if !kept.iter().any(near) {
                kept.push(chord);
            }
            if kept.len() >= ROUGH {
                break;
            }
        }
        kept
    }

    /// The best chord near one, at full resolution.
    fn refined(&self, chord: Chord) -> (Chord, f64) {
        let mut best = (chord, f64::NEG_INFINITY);
        let reach = TOGETHER + 2;
        for start in chord.0.saturating_sub(reach)..=chord.0 + reach {
            for end in chord.1.saturating_sub(reach)..=chord.1 + reach {
                if let Some(depth) = self.depth((start, end), &self.dark, 1).filter(|depth| *depth > best.1) {
                    best = ((start, end), depth);
                }
            }
        }
        best
    }

    /// A chord as a line on the table.
    fn line(&self, (start, end): Chord) -> Option<Line> {
        let at = |along: f64, row: usize| {
            self.side.point_at(along) + self.side.normal.vec() * (row as f64 * INTO_IN)
        };
        Line::through(at(self.ends.get(start)?.0, start), at(self.ends.get(end)?.1, end))
    }
}

/// Rough chords that are looked at closer.
const ROUGH: usize = 16;
