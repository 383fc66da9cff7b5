//! The strips of a given length that the cloths of the stash give, each as wide as it can be.
//!
//! Strips are cut along the threads, lengthwise or crosswise, a print with a top only as it must
//! stand. The widest strip of a cloth is cut first, then the widest of what is left, and so on; widths
//! are found to the 1/64 by halving, which is exact since a narrower strip fits wherever a wider does.

use super::choice::SeamRun;
use crate::cloth::{ClothId, Runs};
use crate::stage::on_hand::OnHand;
use plane::{BUDGET, FitCloth, FitPiece, Point, Region, Turn, Turning, best_of, polygon, remainder, try_fit};

/// So many strips of the stash are weighed against each other, the widest.
pub(super) const MOST_FROM_STASH: usize = 8;

/// So many strips of one cloth.
const MOST_OF_ONE: usize = 6;

/// Widths are found in this many parts of an inch.
const PARTS: f64 = 64.0;

/// What strips are wanted.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wanted {
    /// How long each is cut.
    pub(super) run_in: f64,
    /// The narrowest that is worth it.
    pub(super) least_in: f64,
    /// The widest that is of use.
    pub(super) most_in: f64,
    /// Which way they run on the piece.
    pub(super) seams: SeamRun,
    /// Whether a print with a top must stand upright.
    pub(super) upright: bool,
}

/// One strip.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct StashStrip {
    pub(super) cloth: ClothId,
    pub(super) name: String,
    pub(super) width_in: f64,
    /// Where it lies on the cloth.
    pub(super) cut: Vec<Point>,
}

/// The widest strips, the widest first.
pub(super) fn strips<'a>(wanted: &Wanted, cloths: impl Iterator<Item = &'a OnHand>) -> Vec<StashStrip> {
    let mut all: Vec<StashStrip> = cloths.flat_map(|cloth| of_cloth(wanted, cloth)).collect();
    all.sort_by(|a, b| b.width_in.total_cmp(&a.width_in).then(a.cloth.cmp(&b.cloth)));
    all.truncate(MOST_FROM_STASH);
    all
}

fn of_cloth(wanted: &Wanted, cloth: &OnHand) -> Vec<StashStrip> {
    let turns = turns(wanted, cloth);
    let mut parts = cloth.free.clone();
    let mut found = Vec::new();
    while found.len() < MOST_OF_ONE {
        let widest = parts
            .iter()
            .enumerate()
            .flat_map(|(no, part)| {
                turns.iter().filter_map(move |turn| widest(wanted, part, *turn).map(|w| (w, no)))
            })
            .reduce(|best, next| if next.0.width_in > best.0.width_in { next } else { best });
        let Some((cut, no)) = widest else { break };
        let part = parts.remove(no);
        parts.extend(remainder(&part, &cut.lies));
        found.push(StashStrip {
            cloth: cloth.cloth,
            name: cloth.name.clone(),
            width_in: cut.width_in,
            cut: cut.lies,
        });
    }
    found
}

/// The turns that put a strip along the threads, or upright on a print with a top.
fn turns(wanted: &Wanted, cloth: &OnHand) -> Vec<Turn> {
    let up = Turn::QUARTER;
    if let (true, Runs::OneWay(_)) = (wanted.upright, cloth.runs) {
        return vec![cloth.runs.turning(up).1];
    }
    let along = up.inverse().then(cloth.grain);
    vec![along, along.left()]
}

struct Cut {
    width_in: f64,
    lies: Vec<Point>,
}

fn widest(wanted: &Wanted, part: &Region, turn: Turn) -> Option<Cut> {
    if !may_give(wanted, part) {
        return None;
    }
    let cloth = FitCloth::new(part)?;
    let fits = |width_in: f64| {
        let piece = FitPiece::new(&strip(wanted, width_in), &[]);
        piece.is_some_and(|piece| try_fit(&piece, &cloth, Turning::None, turn, BUDGET).pose().is_some())
    };
    if !fits(wanted.least_in) {
        return None;
    }
    let width_in = if fits(wanted.most_in) { wanted.most_in } else { halved(wanted, &fits) };
    let piece = FitPiece::new(&strip(wanted, width_in), &[])?;
    let pose = best_of(&piece, &cloth, Turning::None, turn)?;
    Some(Cut { width_in, lies: pose.apply_all(&strip(wanted, width_in)) })
}

/// The widest that fits, to the 1/64; the least does, the most doesn't.
fn halved(wanted: &Wanted, fits: &dyn Fn(f64) -> bool) -> f64 {
    let (mut yes, mut no) = ((wanted.least_in * PARTS).ceil(), (wanted.most_in * PARTS).ceil());
    if !fits(yes / PARTS) {
        return wanted.least_in;
    }
    while no - yes > 1.0 {
        let middle = ((yes + no) / 2.0).floor();
        if fits(middle / PARTS) { yes = middle } else { no = middle }
    }
    yes / PARTS
}

/// Quick measures that most scraps fail.
fn may_give(wanted: &Wanted, part: &Region) -> bool {
    let Some((low, high)) = polygon::bounds(&part.outer) else { return false };
    wanted.most_in >= wanted.least_in
        && (high - low).length() >= wanted.run_in
        && part.area() >= wanted.run_in * wanted.least_in * (1.0 - 1e-9)
}

fn strip(wanted: &Wanted, width_in: f64) -> Vec<Point> {
    match wanted.seams {
        SeamRun::Along => Region::rectangle(width_in, wanted.run_in).outer,
        SeamRun::Across => Region::rectangle(wanted.run_in, width_in).outer,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cloth::Kind;

    fn cloth(no: u64, outline: &[(f64, f64)], runs: Runs) -> OnHand {
        let outer: Vec<Point> = outline.iter().map(|&(x, y)| Point::new(x, y)).collect();
        OnHand {
            cloth: ClothId(no),
            name: String::new(),
            kind: Kind::Length,
            print: None,
            free: vec![Region { outer, holes: Vec::new() }],
            runs,
            grain: Turn::QUARTER,
        }
    }

    fn length(width: f64, long: f64, runs: Runs) -> OnHand {
        cloth(1, &[(0.0, 0.0), (width, 0.0), (width, long), (0.0, long)], runs)
    }

    fn wanted(run_in: f64, seams: SeamRun) -> Wanted {
        Wanted { run_in, least_in: 8.0, most_in: 70.0, seams, upright: true }
    }

    fn widths(wanted: &Wanted, cloth: &OnHand) -> Vec<f64> {
        strips(wanted, std::iter::once(cloth)).iter().map(|strip| strip.width_in).collect()
    }

    #[test]
    fn a_length_gives_as_many_strips_as_lie_end_to_end() {
        let five_yards = length(42.0, 180.0, Runs::AnyWay);
        assert_eq!(widths(&wanted(88.0, SeamRun::Along), &five_yards), [42.0, 42.0]);
        assert_eq!(widths(&wanted(88.0, SeamRun::Across), &five_yards), [42.0, 42.0]);
        assert_eq!(widths(&wanted(181.0, SeamRun::Along), &five_yards), [] as [f64; 0]);
        // Crosswise they are as wide as is of use; of the last 42 by 40 the longer side is the width.
        assert_eq!(widths(&wanted(40.0, SeamRun::Along), &five_yards), [70.0, 70.0, 42.0]);
    }

    #[test]
    fn a_print_with_a_top_gives_strips_one_way_only() {
        let upright = length(42.0, 180.0, Runs::OneWay(Turn::QUARTER));
        assert_eq!(widths(&wanted(88.0, SeamRun::Along), &upright), [42.0, 42.0]);
        // Across the piece its strips would lie on their sides.
        assert!(widths(&wanted(88.0, SeamRun::Across), &upright).is_empty());
        let any = Wanted { upright: false, ..wanted(88.0, SeamRun::Across) };
        assert_eq!(widths(&any, &upright), [42.0, 42.0]);
    }

    // Geometry: in a right triangle with legs a and b, a rectangle `run` up leg b is a (1 - run / b) wide.
    #[test]
    fn an_odd_cloth_gives_the_widest_strip_that_lies_in_it() {
        let corner = cloth(1, &[(0.0, 0.0), (60.0, 0.0), (0.0, 90.0)], Runs::AnyWay);
        for run in [20.0, 40.0, 60.0] {
            let found = strips(&wanted(run, SeamRun::Along), std::iter::once(&corner));
            let along = 60.0 * (1.0 - run / 90.0);
            let crosswise = if run < 60.0 { 90.0 * (1.0 - run / 60.0) } else { 0.0 };
            let exact = f64::max(along, crosswise);
            assert!((0.0..1.0 / 64.0).contains(&(exact - found[0].width_in)), "{run}: {}", found[0].width_in);
        }
    }

    #[test]
    fn strips_of_one_cloth_lie_in_it_and_apart() {
        let ell = cloth(
            1,
            &[(0.0, 0.0), (80.0, 0.0), (80.0, 30.0), (44.0, 30.0), (44.0, 100.0), (0.0, 100.0)],
            Runs::AnyWay,
        );
        let found = strips(&wanted(50.0, SeamRun::Along), std::iter::once(&ell));
        assert!(found.len() > 1);
        for (i, strip) in found.iter().enumerate() {
            let lies = Region { outer: strip.cut.clone(), holes: Vec::new() };
            let outside: f64 = plane::difference(&lies, &ell.free).iter().map(Region::area).sum();
            assert!(outside < 1e-6, "{outside}");
            for other in &found[..i] {
                let other = Region { outer: other.cut.clone(), holes: Vec::new() };
                let shared: f64 = plane::intersection(&lies, &other).iter().map(Region::area).sum();
                assert!(shared < 1e-6, "{shared}");
            }
        }
    }
}
