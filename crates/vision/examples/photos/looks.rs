//! How a scrap was seen to look, against its print.

use colour::difference;
use demo::scene::ClothThere;
use plane::Turn;
use serde::{Deserialize, Serialize};
use vision::{Look, PrintSize, Runs};

/// A main colour of a print has at least this share.
const MAIN: f64 = 0.1;
/// Prints less busy than this are as good as solids: what is printed on them has no size.
const SOLID: f64 = 0.06;

/// A look against the truth.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub(crate) struct LookJudged {
    /// The print's name.
    pub(crate) print: String,
    /// CIEDE2000 of each main colour of the print from the nearest that was seen.
    pub(crate) shades: Vec<f64>,
    /// CIEDE2000 of the mean colours.
    pub(crate) mean: f64,
    /// Any way, both ways, one way: what it is and what was seen.
    pub(crate) runs: [usize; 2],
    /// How far the angle is off in degrees, where both run the same way.
    pub(crate) turned_deg: Option<f64>,
    /// Small, medium, large: what it is and what was seen; none for a solid.
    pub(crate) size: Option<[usize; 2]>,
}

/// Judges a look whose table was turned by so much against the true one.
pub(crate) fn judge_look(cloth: &ClothThere, look: &Look, turn: Turn) -> LookJudged {
    let main = cloth.look.shades.iter().filter(|shade| shade.share > MAIN);
    let nearest = |lab| look.shades.iter().map(|seen| difference(seen.lab, lab)).fold(100.0, f64::min);
    let seen = colour::mean(look.shades.iter().map(|shade| (shade.lab, shade.share))).unwrap_or_default();
    let ((is, up), (told, deg)) = (kind(cloth.runs()), kind(look.runs));
    let off = |(up, deg): (f64, f64)| {
        let off = (deg + turn.to_degrees() - up).rem_euclid(180.0);
        off.min(180.0 - off)
    };
    let size = [PrintSize::of(cloth.motif_in) as usize, look.print_size as usize];
    LookJudged {
        print: cloth.print_name.clone(),
        shades: main.map(|shade| nearest(shade.lab)).collect(),
        mean: difference(seen, cloth.look.mean()),
        runs: [is, told],
        turned_deg: up.zip(deg).filter(|_| is == told).map(off),
        size: (cloth.look.busy >= SOLID).then_some(size),
    }
}

/// The place of a kind in the tables, and its angle.
const fn kind(runs: Runs) -> (usize, Option<f64>) {
    match runs {
        Runs::AnyWay => (0, None),
        Runs::BothWays { deg } => (1, Some(deg)),
        Runs::OneWay { deg } => (2, Some(deg)),
    }
}
