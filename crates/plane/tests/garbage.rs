//! Whatever outline comes in, nothing panics; and on sound outlines a yes holds.

mod common;

use common::Dice;
use plane::{
    BUDGET, Fit, FitCloth, FitPiece, MITRE_LIMIT, Point, Region, ShapeSummary, Turn, Turning, best_of,
    convex_parts, difference, grow_outline, grow_sides, intersection, lies_within, offset, remainder,
    try_fit, union,
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
    let mut checked = 0;
    for seed in 1..4000 {
        let mut dice = Dice::new(seed);
        let small = if dice.share() < 0.1 { 0.2 } else { 1.0 };
        let mut piece: Vec<Point> =
            anything(&mut dice).iter().map(|p| Point::new(p.x * small, p.y * small)).collect();
        let holes = (0..dice.below(3)).map(|_| anything(&mut dice)).collect();
        let mut cloth = Region { outer: anything(&mut dice), holes };
        let sound = [
            Region::try_new(piece.clone(), Vec::new()),
            Region::try_new(cloth.outer.clone(), cloth.holes.clone()),
        ];
        let valid = sound.iter().all(Result::is_ok);
        if let [Ok(sound_piece), Ok(sound_cloth)] = sound {
            (piece, cloth) = (sound_piece.outer, sound_cloth);
        }
        let other = Region { outer: piece.clone(), holes: Vec::new() };
        let _ = union(&[cloth.clone(), other.clone()]);
        let _ = intersection(&cloth, &other);
        let _ = difference(&cloth, std::slice::from_ref(&other));
        let _ = remainder(&cloth, &piece);
        let _ = (offset(&cloth, 0.2, MITRE_LIMIT), offset(&cloth, -0.2, MITRE_LIMIT));
        let _ = (grow_outline(&piece, 0.3), grow_outline(&piece, -0.3), grow_sides(&piece, &[0.2]));
        let _ = (ShapeSummary::of(&cloth), convex_parts(&piece));
        let (corners, outline) = (piece.clone(), cloth.clone());
        let (Some(piece), Some(cloth)) = (FitPiece::new(&piece, &[]), FitCloth::new(&cloth)) else {
            continue;
        };
        for turning in [Turning::Any, Turning::HalfTurns, Turning::None] {
            let answer = try_fit(&piece, &cloth, turning, Turn::NONE, BUDGET / 10);
            let best = best_of(&piece, &cloth, turning, Turn::QUARTER);
            let given = if let Fit::Yes(pose) = answer { Some(pose) } else { None };
            for pose in given.into_iter().chain(best) {
                assert!(pose.by.x.is_finite() && pose.by.y.is_finite(), "seed {seed}");
                if valid {
                    assert!(lies_within(&corners, &outline, pose), "seed {seed}, {turning:?}");
                    checked += 1;
                }
            }
        }
    }
    assert!(checked > 10, "only {checked}");
}
