//! Which cloths of the stash hold a layer in one piece: exact containment, turned as the print allows.
//!
//! A back is seen from behind, so what must lie on its right side is the outline mirrored; its up stays
//! up. Batting has no right side and may lie either way.
//!
//! Of each cloth so much is asked as takes some milliseconds; where that leaves it open, the cloth is
//! named as undecided. The one that the maker chose is searched thoroughly, half a second at most.

use crate::cloth::ClothId;
use crate::stage::on_hand::OnHand;
use plane::{
    BUDGET, Fit, FitAsk, FitCloth, FitPiece, Point, Pose, Region, Turn, Turning, best_fit, best_of, polygon,
    try_fit,
};
use serde::Serialize;

/// A cloth that holds a layer.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Holds {
    /// Which cloth.
    pub cloth: ClothId,
    /// What its maker calls it.
    pub name: String,
    /// What to cut, where it lies on the cloth.
    pub cut: Vec<Point>,
    /// Area of what is cut, in square inches.
    pub cut_in2: f64,
    /// How far its edges lie from the nearest thread, in degrees.
    pub off_grain_deg: f64,
    /// Free area that is left of the cloth, in square inches.
    pub left_in2: f64,
}

/// The cloths that hold a layer.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Whole {
    /// Those that do, the one with the least left over first.
    pub holds: Vec<Holds>,
    /// Those for which it could not be decided soon: outlines with many deep notches. Choose one to
    /// have it searched thoroughly.
    pub undecided: Vec<ClothId>,
}

/// From which side a layer's own right side is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Seen {
    /// From behind.
    Behind,
    /// From either side.
    EitherSide,
}

/// What must be held.
#[derive(Clone, Copy, Debug)]
pub(super) struct Needed<'a> {
    /// Its outline from the front, counter-clockwise.
    pub(super) shape: &'a [Point],
    /// Along an edge of it that should lie along the threads.
    pub(super) axis: Turn,
    /// Its right side.
    pub(super) seen: Seen,
    /// Whether a print with a top must stand upright.
    pub(super) upright: bool,
    /// The cloth to be searched thoroughly.
    pub(super) chosen: Option<ClothId>,
}

/// What is needed, seen from its right side and made ready.
struct Ready {
    shape: Vec<Point>,
    axis: Turn,
    piece: FitPiece,
}

impl Ready {
    fn new(shape: Vec<Point>, axis: Turn) -> Option<Self> {
        let piece = FitPiece::new(&shape, &[])?;
        Some(Self { shape, axis, piece })
    }
}

/// The cloths that hold what is needed.
pub(super) fn whole<'a>(needed: &Needed<'_>, cloths: impl Iterator<Item = &'a OnHand>) -> Whole {
    let mirrored = Ready::new(mirrored(needed.shape), needed.axis.inverse());
    let as_it_is = match needed.seen {
        Seen::Behind => None,
        Seen::EitherSide => Ready::new(needed.shape.to_vec(), needed.axis),
    };
    let sides: Vec<Ready> = as_it_is.into_iter().chain(mirrored).collect();
    let mut whole = Whole::default();
    for cloth in cloths {
        match sides.iter().map(|side| held(side, cloth, needed)).reduce(first_yes) {
            Some(Held::Yes(holds)) => whole.holds.push(holds),
            Some(Held::Unknown) => whole.undecided.push(cloth.cloth),
            Some(Held::No) | None => {}
        }
    }
    whole.holds.sort_by(|a, b| a.left_in2.total_cmp(&b.left_in2).then(a.cloth.cmp(&b.cloth)));
    whole
}

enum Held {
    Yes(Holds),
    Unknown,
    No,
}

fn first_yes(a: Held, b: Held) -> Held {
    match (a, b) {
        (yes @ Held::Yes(_), _) | (Held::No | Held::Unknown, yes @ Held::Yes(_)) => yes,
        (Held::No, Held::No) => Held::No,
        (Held::No | Held::Unknown, Held::No | Held::Unknown) => Held::Unknown,
    }
}

fn held(side: &Ready, cloth: &OnHand, needed: &Needed<'_>) -> Held {
    let any = (Turning::Any, Turn::NONE);
    let (turning, base) = if needed.upright { cloth.runs.turning(Turn::QUARTER) } else { any };
    let thorough = needed.chosen == Some(cloth.cloth);
    let mut none = Held::No;
    for part in cloth.free.iter().filter(|part| may_hold(part, &side.shape)) {
        let ask = FitAsk { piece: &side.shape, cloth: part, turning, base, margin: &[] };
        match if thorough { best_fit(&ask) } else { soon(&side.piece, &ask) } {
            Fit::Yes(pose) => return Held::Yes(holds(&side.shape, side.axis, cloth, pose)),
            Fit::Unknown => none = Held::Unknown,
            Fit::No => {}
        }
    }
    none
}

/// The best pose, or whether there is none, as far as a short search tells.
fn soon(piece: &FitPiece, ask: &FitAsk<'_>) -> Fit {
    let Some(cloth) = FitCloth::new(ask.cloth) else { return Fit::No };
    if cloth.summary.forbids(&piece.summary).is_some() {
        return Fit::No;
    }
    match best_of(piece, &cloth, ask.turning, ask.base) {
        Some(pose) => Fit::Yes(pose),
        None => try_fit(piece, &cloth, ask.turning, ask.base, BUDGET),
    }
}

/// Quick measures that most scraps fail.
fn may_hold(part: &Region, shape: &[Point]) -> bool {
    let Some((low, high)) = polygon::bounds(&part.outer) else { return false };
    part.area() > polygon::area(shape) * (1.0 - 1e-9)
        && (high - low).length() > polygon::diameter(shape) * (1.0 - 1e-9)
}

fn holds(shape: &[Point], axis: Turn, cloth: &OnHand, pose: Pose) -> Holds {
    let cut_in2 = polygon::area(shape);
    Holds {
        cloth: cloth.cloth,
        name: cloth.name.clone(),
        cut: pose.apply_all(shape),
        cut_in2,
        off_grain_deg: off_grain_deg(axis.then(pose.turn), cloth.grain),
        left_in2: cloth.area_in2() - cut_in2,
    }
}

/// The angle between a direction and the nearest thread, 0 to 45.
pub(super) fn off_grain_deg(direction: Turn, grain: Turn) -> f64 {
    let off = direction.then(grain.inverse());
    let (most, least) = (off.cos.abs().max(off.sin.abs()), off.cos.abs().min(off.sin.abs()));
    least.atan2(most).to_degrees()
}

/// As seen from behind: left and right change places.
fn mirrored(shape: &[Point]) -> Vec<Point> {
    shape.iter().rev().map(|p| Point::new(-p.x, p.y)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cloth::{Kind, Runs};

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    fn cloth(no: u64, outline: &[(f64, f64)], runs: Runs) -> OnHand {
        OnHand {
            cloth: ClothId(no),
            name: format!("cloth {no}"),
            kind: Kind::Length,
            print: None,
            free: vec![Region { outer: points(outline), holes: Vec::new() }],
            runs,
            grain: Turn::QUARTER,
        }
    }

    fn held_by(shape: &[Point], seen: Seen, cloths: &[OnHand]) -> Vec<u64> {
        let needed = Needed { shape, axis: Turn::NONE, seen, upright: true, chosen: None };
        whole(&needed, cloths.iter()).holds.iter().map(|holds| holds.cloth.0).collect()
    }

    /// Long on the left, seen from the front.
    const LEANING: [(f64, f64); 4] = [(0.0, 0.0), (30.0, 0.0), (30.0, 10.0), (0.0, 40.0)];

    // Geometry: a cloth has a right side, and the back's faces away.
    #[test]
    fn a_back_lies_mirrored_on_its_cloth() {
        let as_it_is = cloth(1, &LEANING, Runs::OneWay(Turn::QUARTER));
        let turned_over =
            cloth(2, &[(0.0, 0.0), (30.0, 0.0), (30.0, 40.0), (0.0, 10.0)], Runs::OneWay(Turn::QUARTER));
        let cloths = [as_it_is, turned_over];
        assert_eq!(held_by(&points(&LEANING), Seen::Behind, &cloths), [2]);
        assert_eq!(held_by(&points(&LEANING), Seen::EitherSide, &cloths), [1, 2]);
    }

    #[test]
    fn a_print_with_a_top_stands_upright() {
        let shape = Region::rectangle(20.0, 30.0).outer;
        let lying = [(0.0, 0.0), (32.0, 0.0), (32.0, 22.0), (0.0, 22.0)];
        let lies = |runs| held_by(&shape, Seen::Behind, &[cloth(1, &lying, runs)]);
        assert_eq!(lies(Runs::AnyWay), [1]);
        assert_eq!(lies(Runs::BothWays(Turn::QUARTER)), [1]);
        assert!(lies(Runs::OneWay(Turn::QUARTER)).is_empty());
        assert_eq!(lies(Runs::OneWay(Turn::NONE)), [1], "its print runs across the cloth");
    }

    #[test]
    fn the_smallest_cloth_that_holds_it_comes_first_and_what_is_cut_lies_in_it() {
        let square =
            |no, size: f64| cloth(no, &[(0.0, 0.0), (size, 0.0), (size, size), (0.0, size)], Runs::AnyWay);
        let cloths = [square(1, 50.0), square(2, 41.0), square(3, 44.0), square(4, 39.0)];
        let shape = Region::rectangle(40.0, 40.0).outer;
        assert_eq!(held_by(&shape, Seen::Behind, &cloths), [2, 3, 1]);
        let needed =
            Needed { shape: &shape, axis: Turn::NONE, seen: Seen::Behind, upright: true, chosen: None };
        for holds in whole(&needed, cloths.iter()).holds {
            let cloth = &cloths[holds.cloth.0 as usize - 1];
            assert!(holds.cut.iter().all(|p| plane::depth_inside(&cloth.free[0], *p) > -1e-6));
            assert!((polygon::area(&holds.cut) - 1600.0).abs() < 1e-6);
            assert!((holds.left_in2 - (cloth.area_in2() - 1600.0)).abs() < 1e-6);
            assert!(holds.off_grain_deg < 1e-6, "flush with the cloth's edge");
        }
    }

    #[test]
    fn the_angle_to_the_nearest_thread_is_at_most_45() {
        for (degrees, off) in [(0.0, 0.0), (10.0, 10.0), (45.0, 45.0), (80.0, 10.0), (190.0, 10.0)] {
            let found = off_grain_deg(Turn::from_degrees(degrees), Turn::QUARTER);
            assert!((found - off).abs() < 1e-9, "{degrees}: {found}");
        }
    }
}
