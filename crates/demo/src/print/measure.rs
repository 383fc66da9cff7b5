//! What a design is before it is dyed: how much of each ink shows, and how much edge there is
//! between inks. From both and the colours follows how it looks, without a picture.

use super::plate::{MOST_INKS, Plate};
use colour::{Lab, Linear, Srgb, plain_difference};
use quilt::cloth::Shade;

/// Mixtures and edges of the inks of a design.
#[derive(Clone, Debug)]
pub(crate) struct Measures {
    /// For each ink, the places where it lies most.
    mixtures: [Mixture; MOST_INKS],
    /// Length of edge between each two inks, in inches a square inch.
    edges: [[f64; MOST_INKS]; MOST_INKS],
}

/// The places where one ink lies most: thin ink lets the ground through, so what is seen there is
/// a mixture.
#[derive(Clone, Copy, Debug, Default)]
struct Mixture {
    /// Share of the area.
    share: f64,
    /// Mean amounts of all inks there, adding up to 1.
    amounts: [f64; MOST_INKS],
}

impl Measures {
    /// Measures a plate.
    pub(crate) fn of(plate: &Plate) -> Self {
        let mut mixtures = [Mixture::default(); MOST_INKS];
        for cell in &plate.shares {
            let most = (0..MOST_INKS).max_by(|&i, &j| cell[i].total_cmp(&cell[j])).unwrap_or(0);
            let mixture = &mut mixtures[most];
            mixture.share += 1.0;
            for (sum, amount) in mixture.amounts.iter_mut().zip(cell) {
                *sum += f64::from(*amount);
            }
        }
        for mixture in &mut mixtures {
            mixture.amounts = mixture.amounts.map(|sum| sum / mixture.share.max(1.0));
            mixture.share /= plate.shares.len() as f64;
        }
        Self { mixtures, edges: edges(plate) }
    }

    /// Main colours, largest share first, the shares adding up to 1. Inks that hardly show
    /// are joined to their likest neighbour.
    pub(crate) fn shades(&self, inks: &[Srgb]) -> Vec<Shade> {
        let mut shades: Vec<Shade> = self
            .mixtures
            .iter()
            .filter(|mixture| mixture.share > 0.0)
            .map(|mixture| Shade { lab: mixed(inks, &mixture.amounts).into(), share: mixture.share })
            .collect();
        shades.sort_by(|a, b| b.share.total_cmp(&a.share));
        while let Some(last) = shades.last().copied() {
            if last.share >= LEAST_SHARE || shades.len() == 1 {
                break;
            }
            shades.pop();
            join_likest(&mut shades, last);
        }
        shades.sort_by(|a, b| b.share.total_cmp(&a.share));
        shades
    }

    /// How busy the print is in these inks, 0 up to 1: the length of edge in a square inch, each
    /// weighted by the difference of its two colours, bent so that a middling small print gives
    /// about one half. Ours; no source.
    pub(crate) fn busy(&self, inks: &[Srgb]) -> f64 {
        let colours: Vec<Lab> = inks.iter().map(|ink| ink.to_lab()).collect();
        let mut sum = 0.0;
        for (i, &one) in colours.iter().enumerate() {
            for (j, &other) in colours.iter().enumerate().take(i) {
                sum += (self.edges[i][j] + self.edges[j][i]) * plain_difference(one, other);
            }
        }
        sum / (sum + MIDDLING)
    }
}

/// What so much of each ink gives, in light.
fn mixed(inks: &[Srgb], amounts: &[f64; MOST_INKS]) -> Linear {
    inks.iter().zip(amounts).fold(Linear::default(), |sum, (ink, amount)| {
        let light = ink.to_linear();
        Linear::new(sum.r + light.r * amount, sum.g + light.g * amount, sum.b + light.b * amount)
    })
}

/// Edge between inks: for each two neighbouring cells, what one ink loses the other gains.
fn edges(plate: &Plate) -> [[f64; MOST_INKS]; MOST_INKS] {
    let [columns, rows] = plate.cells;
    let mut edges = [[0.0; MOST_INKS]; MOST_INKS];
    // Counted in steps across and down, an edge comes out |cos| + |sin| of its direction times its length:
    // 4/π on average over all directions. π/4 of the count is its length.
    let scale = plate.cell_in() * std::f64::consts::FRAC_PI_4 / (plate.size_in[0] * plate.size_in[1]);
    for row in 0..rows {
        for column in 0..columns {
            let here = &plate.shares[row * columns + column];
            let right = &plate.shares[row * columns + (column + 1) % columns];
            let below = &plate.shares[(row + 1) % rows * columns + column];
            for there in [right, below] {
                let (loser, gainer, amount) = exchange(here, there);
                edges[loser][gainer] += amount * scale;
            }
        }
    }
    edges
}

/// Which ink gives way most to which, and how much.
fn exchange(here: &[f32; MOST_INKS], there: &[f32; MOST_INKS]) -> (usize, usize, f64) {
    let (mut loser, mut gainer, mut least, mut most) = (0, 0, 0.0, 0.0);
    for (ink, (a, b)) in here.iter().zip(there).enumerate() {
        let change = b - a;
        if change < least {
            (loser, least) = (ink, change);
        }
        if change > most {
            (gainer, most) = (ink, change);
        }
    }
    (loser, gainer, f64::from(most.min(-least)))
}

fn join_likest(shades: &mut [Shade], small: Shade) {
    let likest = shades
        .iter_mut()
        .min_by(|a, b| plain_difference(a.lab, small.lab).total_cmp(&plain_difference(b.lab, small.lab)));
    if let Some(shade) = likest {
        shade.share += small.share;
    }
}

/// Share below which an ink is no main colour.
const LEAST_SHARE: f64 = 0.02;
/// Edge times difference at which a print is half busy.
const MIDDLING: f64 = 120.0;
