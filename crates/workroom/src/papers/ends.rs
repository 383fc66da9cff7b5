//! The ends of binding: how two strips are joined, and the closing join over the gap that was left.

use super::PapersWish;
use super::fold::band;
use super::pad::{LENGTH_PT, Pad};
use drawing::{MADDER, Stroke};
use papers::flow::{Block, faces};
use plane::Point;
use quilt::stage::binding::{BindingChoice, Closing};
use quilt::sums::Join;

/// How two strips are joined.
pub(super) fn join(choice: &BindingChoice, wish: &PapersWish) -> Block {
    let quarter = wish.length(0.25, 8) + wish.unit().name_after(0.25);
    let mut pad = Pad::at_scale(0.24);
    let wide = choice.strip_width_in;
    let level = [(-2.2, 0.0), (wide, 0.0), (wide, wide), (-2.2, wide)];
    let upright = [(0.0, wide), (0.0, -1.6), (wide, -1.6), (wide, wide)];
    let at = |corners: [(f64, f64); 4]| corners.map(|(x, y)| Point::new(x, y)).to_vec();
    let words = match choice.join {
        Join::Diagonal => {
            band(&mut pad, at(level));
            band(&mut pad, at(upright));
            pad.seam(&[Point::new(0.0, wide), Point::new(wide, 0.0)], false);
            format!(
                "Lay the ends right sides together, square to each other. Sew along the dashed line from corner to corner, check that the strip lies straight, trim to {quarter}, and press the seam open."
            )
        }
        Join::Straight => {
            band(&mut pad, at([(-2.2, 0.0), (0.25, 0.0), (0.25, wide), (-2.2, wide)]));
            band(&mut pad, at([(-0.0, 0.0), (2.2, 0.0), (2.2, wide), (-0.0, wide)]));
            pad.seam(&[Point::new(0.0, 0.0), Point::new(0.0, wide)], false);
            format!(
                "Lay the ends right sides together, raw edges together, and sew {quarter} from them; press the seam open."
            )
        }
    };
    let drawn = pad.block("Two strips of binding joined", "");
    Block::Beside(vec![(0.4, vec![drawn]), (0.6, vec![Block::set(faces::CAUTION, words)])])
}

/// The two ends over the gap that was left.
pub(super) fn closing(closing: &Closing, choice: &BindingChoice, wish: &PapersWish) -> Block {
    let (gap, lap) = (closing.gap_in, closing.overlap_in);
    let wide = choice.strip_width_in / 2.0;
    let beside = 2.0;
    let mut pad = Pad::at_scale((5.4 / (gap + 2.0 * beside)).min(0.55));
    let (left, right) = (-gap / 2.0 - beside, gap / 2.0 + beside);
    let corner = |x: f64, y: f64| Point::new(x, y);
    pad.area(
        vec![corner(left, 0.0), corner(right, 0.0), corner(right, 2.0), corner(left, 2.0)],
        drawing::CALICO,
        1.0,
    );
    pad.line(vec![corner(left, 0.0), corner(right, 0.0)], Stroke::Outline);
    let strip = |from: f64, to: f64, up: f64| {
        vec![corner(from, up), corner(to, up), corner(to, wide + up), corner(from, wide + up)]
    };
    band(&mut pad, strip(left, lap / 2.0, 0.0));
    band(&mut pad, strip(-lap / 2.0, right, 0.12));
    let seam = choice.seam_in;
    pad.seam(&[corner(left, seam), corner(-gap / 2.0, seam)], false);
    pad.seam(&[corner(gap / 2.0, seam), corner(right, seam)], false);
    for x in [-gap / 2.0, gap / 2.0] {
        pad.dot(corner(x, seam), 0.045, MADDER);
    }
    let below = -pad.paper(0.2);
    pad.line(vec![corner(-gap / 2.0, below), corner(gap / 2.0, below)], Stroke::Leader);
    pad.words(corner(0.0, below - pad.paper(0.14)), LENGTH_PT, format!("left open: {}", wish.length(gap, 8)));
    let above = wide + 0.12 + pad.paper(0.12);
    pad.line(vec![corner(-lap / 2.0, above), corner(lap / 2.0, above)], Stroke::Mark);
    pad.words(corner(0.0, above + pad.paper(0.14)), LENGTH_PT, format!("overlap: {}", wish.length(lap, 16)));
    pad.block("The closing join", "Dots: where sewing begins and ends. Cut the ends square; join them as strips are joined, fold, and sew the rest.")
}
