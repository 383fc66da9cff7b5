//! How a cloth looks, from its picture: colours, busyness, scale, and which ways up it may be used.

mod grid;
mod likeness;
mod motif;
mod runs;
mod spectrum;

pub use likeness::same_print;

use crate::Flat;
use crate::share::for_all;
use colour::{Lab, Srgb, palette, plain_difference};
use grid::Grid;
use plane::Region;

/// One of the main colours of a print and its share of the area.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shade {
    /// The colour.
    pub lab: Lab,
    /// Its share, 0 to 1; the shares of a look add up to 1.
    pub share: f64,
}

/// Which ways up a print may be used. Angles are in degrees, counter-clockwise from the table's x.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Runs {
    /// It may lie any way.
    AnyWay,
    /// It has a direction, and upside down looks the same (stripes).
    BothWays {
        /// Along the stripes, 0 up to 180.
        deg: f64,
    },
    /// It has a top. Which end is up can't be told from what contrasts with what: the maker says.
    OneWay {
        /// Up the print or down it, 0 up to 180.
        deg: f64,
    },
}

/// How large what is printed is (common practice, no source).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PrintSize {
    /// Motifs up to half an inch.
    Small,
    /// Up to an inch and a quarter.
    Medium,
    /// Over that.
    Large,
}

impl PrintSize {
    /// The name for a motif so many inches across.
    #[must_use]
    pub fn of(motif_in: f64) -> Self {
        match motif_in {
            m if m <= 0.5 => Self::Small,
            m if m <= 1.25 => Self::Medium,
            _ => Self::Large,
        }
    }
}

/// How a cloth looks from its right side.
#[derive(Clone, Debug, PartialEq)]
pub struct Look {
    /// Main colours, largest share first; empty when nothing of the cloth was seen.
    pub shades: Vec<Shade>,
    /// Mean lightness L*, 0 to 100.
    pub lightness: f64,
    /// How busy the print is, 0 (a solid) to 1.
    pub busy: f64,
    /// Which ways up it may be used.
    pub runs: Runs,
    /// Length after which the print repeats, in inches, where it is seen to.
    pub repeat_in: Option<f64>,
    /// How large what is printed is, in inches across; 0 for a solid.
    pub motif_in: f64,
    /// The same in words.
    pub print_size: PrintSize,
}

/// Looks at a cloth inside its outline (on the table, in inches).
#[must_use]
pub fn look(flat: &Flat, outline: &Region) -> Look {
    let grid = Grid::of(flat, outline);
    let shades = shades(&grid);
    let lightness = shades.iter().map(|shade| shade.lab.l * shade.share).sum();
    let near = nearest_shades(&grid, &shades);
    let busy = busy(&grid, &shades, &near);
    let print = spectrum::signal(&grid);
    let scale = spectrum::scale(&grid, &print);
    let signs = if busy < SOLID { None } else { runs::signs(&grid, &print) };
    let coherence = signs.map_or(0.0, |signs| signs.coherence);
    let motif_in = if busy < SOLID { 0.0 } else { motif::motif_in(&grid, &print, coherence, scale.half_in) };
    let runs = runs::runs(signs);
    let print_size = PrintSize::of(motif_in);
    Look { shades, lightness, busy, runs, repeat_in: scale.repeat_in, motif_in, print_size }
}

/// Looks at several cloths of one table, as [`look`] does at each, several at a time.
#[must_use]
pub fn looks(flat: &Flat, outlines: &[&Region]) -> Vec<Look> {
    for_all(outlines, |outline| look(flat, outline))
}

/// The main colours, from where the picture is calm: an edge between two inks is neither.
fn shades(grid: &Grid) -> Vec<Shade> {
    let calm: Vec<Srgb> = grid.calm().collect();
    let all = || grid.inside().map(|i| grid.lab[i]);
    // A print so fine that it is all edges has no calm places.
    let mut centres = palette(calm, MOST_SHADES);
    let strange = |lab: &Lab| centres.iter().all(|centre| plain_difference(centre.lab, *lab) > STRANGE);
    if all().filter(strange).count() * 20 > grid.inside().count() {
        centres = palette(grid.inside().map(|i| grid.rgb[i]), MOST_SHADES);
    }
    if centres.is_empty() {
        return Vec::new();
    }
    // Shares are those of all places, each given to the nearest colour.
    let mut shares = vec![0.0; centres.len()];
    let count = all().count() as f64;
    for lab in all() {
        shares[nearest(&centres, lab)] += 1.0 / count;
    }
    let mut shades: Vec<Shade> =
        centres.iter().zip(shares).map(|(centre, share)| Shade { lab: centre.lab, share }).collect();
    shades.sort_by(|a, b| b.share.total_cmp(&a.share));
    while let Some(last) = shades.last().copied().filter(|last| last.share < LEAST_SHARE) {
        if shades.len() == 1 {
            break;
        }
        shades.pop();
        let likest = shades
            .iter_mut()
            .min_by(|a, b| plain_difference(a.lab, last.lab).total_cmp(&plain_difference(b.lab, last.lab)));
        if let Some(shade) = likest {
            shade.share += last.share;
        }
        shades.sort_by(|a, b| b.share.total_cmp(&a.share));
    }
    shades
}

fn nearest(centres: &[colour::Swatch], lab: Lab) -> usize {
    let apart = |i: &usize| plain_difference(centres[*i].lab, lab);
    (0..centres.len()).min_by(|a, b| apart(a).total_cmp(&apart(b))).unwrap_or(0)
}

/// Which main colour each place inside is nearest to.
fn nearest_shades(grid: &Grid, shades: &[Shade]) -> Vec<Option<usize>> {
    (0..grid.rgb.len())
        .map(|i| {
            let apart = |k: &usize| plain_difference(shades[*k].lab, grid.smooth[i]);
            grid.on[i].then(|| (0..shades.len()).min_by(|a, b| apart(a).total_cmp(&apart(b))))?
        })
        .collect()
}

/// Length of edge in a square inch, weighted by the difference of its two colours, bent so that a
/// middling small print gives about one half; each place counts as its nearest main colour, so
/// that weave and noise are no edges. Ours; no source.
fn busy(grid: &Grid, shades: &[Shade], near: &[Option<usize>]) -> f64 {
    let (mut sum, mut cells) = (0.0, 0.0);
    for i in grid.inside() {
        cells += 1.0;
        let right = (i % grid.width + 1 < grid.width).then_some(i + 1);
        let below = (i + grid.width < near.len()).then_some(i + grid.width);
        for j in [right, below].into_iter().flatten() {
            if let (Some(a), Some(b)) = (near[i], near[j]) {
                sum += plain_difference(shades[a].lab, shades[b].lab);
            }
        }
    }
    // Counted across and down an edge is 4/π times its length.
    let per_square_in = sum * std::f64::consts::FRAC_PI_4 * grid.per_in / f64::max(cells, 1.0);
    per_square_in / (per_square_in + MIDDLING)
}

/// Most main colours that are looked for.
const MOST_SHADES: usize = 5;
/// In CIELAB: a place farther from all main colours is none of them.
const STRANGE: f64 = 14.0;
/// Busyness below which nothing is printed to speak of.
pub(crate) const SOLID: f64 = 0.06;
/// Share below which a colour is no main colour.
const LEAST_SHARE: f64 = 0.02;
/// Edge times difference at which a print is half busy.
const MIDDLING: f64 = 120.0;
