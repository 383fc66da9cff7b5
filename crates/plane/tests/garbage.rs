//! Whatever outline comes in, nothing panics, and a yes is still checked.

mod common;

use common::Dice;
use plane::{
    BUDGET, Chords, Fit, FitCloth, FitPiece, MITRE_LIMIT, Point, Region, ShapeSummary, Turn, Turning,
    best_of, convex_parts, difference, grow_outline, grow_sides, intersection, offset, remainder, try_fit,
    union,
};

/// Up to ten corners anywhere on a coarse grid or off it: crossing, doubled, flat, clockwise.
fn anything(dice: &mut Dice) -> Vec<Point> {
    let coarse = dice.share() < 0.5;
    let odd = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300, -1e18, 1e-300];
    (0..dice.below(11))
        .map(|_| {
            let mut along = || {
                if dice.share() < 0.01 {
                    return odd[dice.below(odd.len())];
                }
                let x = dice.between(-3.0, 3.0);
                if coarse { x.round() } else { x }
            };
            Point::new(along(), along())
        })
        .collect()
}

#[test]
fn no_outline_makes_the_kernel_panic() {
    for seed in 1..4000 {
        let mut dice = Dice::new(seed);
        let piece = anything(&mut dice);
        let holes = (0..dice.below(3)).map(|_| anything(&mut dice)).collect();
        let cloth = Region { outer: anything(&mut dice), holes };
        let other = Region { outer: piece.clone(), holes: Vec::new() };
        let _ = union(&[cloth.clone(), other.clone()]);
        let _ = intersection(&cloth, &other);
        let _ = difference(&cloth, std::slice::from_ref(&other));
        let _ = remainder(&cloth, &piece);
        let _ = (offset(&cloth, 0.2, MITRE_LIMIT), offset(&cloth, -0.2, MITRE_LIMIT));
        let _ = (grow_outline(&piece, 0.3), grow_outline(&piece, -0.3), grow_sides(&piece, &[0.2]));
        let _ = (ShapeSummary::of(&cloth), Chords::of(&cloth), convex_parts(&piece));
        let (Some(piece), Some(cloth)) = (FitPiece::new(&piece, &[]), FitCloth::new(&cloth)) else {
            continue;
        };
        for turning in [Turning::Any, Turning::HalfTurns, Turning::None] {
            let answer = try_fit(&piece, &cloth, turning, Turn::NONE, BUDGET / 10);
            if let Fit::Yes(pose) = answer {
                assert!(pose.by.x.is_finite() && pose.by.y.is_finite(), "seed {seed}");
            }
            let _ = best_of(&piece, &cloth, turning, Turn::QUARTER);
        }
    }
}
