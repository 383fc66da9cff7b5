//! Mitred corners close by: where the seams onto the piece stop, how it is folded, and the line that is sewn then.
//!
//! At a corner of inside angle `A` a strip `w` wide, beside one `v` wide, grows by `(v + w cos A) / sin A` from its
//! seam line to its outer edge: the mitre runs from where the two seam lines meet to where the outer edges do.

use super::PapersWish;
use super::corners::angles;
use super::fold::band;
use super::pad::{LENGTH_PT, NUMBER_PT, Pad};
use drawing::{MADDER, Stroke};
use papers::flow::{Block, faces};
use plane::{Point, Vec2};
use quilt::stage::border::Mitre;

/// How much of a side is drawn beyond its corner, in widths of the strips.
const SIDE: f64 = 1.5;
/// Room for both drawings beside each other, in inches.
const ROOM_IN: [f64; 2] = [3.9, 2.3];
/// Angles that differ by no more are drawn once, in degrees: each lies within a degree of the middle.
const EQUAL_DEG: f64 = 2.0;
/// Widths that differ by no more are equal, in inches.
const EQUAL_IN: f64 = 1.0 / 64.0;

/// Corners that look alike.
struct Alike<'a> {
    mitres: Vec<&'a Mitre>,
    before_in: f64,
    own_in: f64,
}

/// Every kind of corner with its drawings and what to do; `sewn_in` are the widths side by side.
pub(super) fn corners(mitres: &[Mitre], sewn_in: &[f64], allowance_in: f64, wish: &PapersWish) -> Vec<Block> {
    let stop = wish.length(allowance_in, 16);
    let items = vec![
        format!("Let each strip stand out at both ends. Sew it on, but begin and end at the dots, {stop} from both raw edges; backstitch there."),
        "Fold the piece from the corner inwards, right side in, so that both strips lie on each other, edge on edge.".to_owned(),
        format!("Draw the mitre on each strip from the dot at the angle below, pin line on line, and sew from the dot outwards. Trim to {stop} and press it open."),
    ];
    let mut blocks = vec![Block::List { face: faces::BODY, counted: true, items }];
    blocks.extend(alike(mitres, sewn_in).iter().map(|alike| {
        let [first, ..] = alike.mitres.as_slice() else { return Block::Room(0.0) };
        let corner = Corner::new(first.corner_deg, alike.before_in, alike.own_in, allowance_in);
        let title = titled(&alike.mitres);
        let leans = if (alike.before_in - alike.own_in).abs() < EQUAL_IN {
            format!("On both strips the mitre leans {:.1}° from square.", first.before_off_square_deg)
        } else {
            format!(
                "On the strip before the corner it leans {:.1}° from square, on the one after it {:.1}°.",
                first.before_off_square_deg, first.own_off_square_deg
            )
        };
        let words = vec![
            Block::set(faces::CAUTION, leans),
            Block::set(faces::CAUTION, format!("Its seam is {} long.", wish.length(first.seam_in, 8))),
            Block::set(faces::CAUTION, "1: sewn, from the right side. 2: folded, from the wrong side."),
        ];
        let drawn = corner.drawn(&stop).block(format!("{title}, mitred"), "");
        let heading = Block::Heading { level: 3, words: title };
        Block::Together(vec![heading, Block::Beside(vec![(0.62, vec![drawn]), (0.38, words)])])
    }));
    blocks
}

fn titled(mitres: &[&Mitre]) -> String {
    let numbers: Vec<usize> = mitres.iter().map(|mitre| mitre.corner + 1).collect();
    let degrees: Vec<f64> = mitres.iter().map(|mitre| mitre.corner_deg).collect();
    angles(&numbers, &degrees)
}

/// Corners with equal widths and angles within a degree, in the order of their angles.
fn alike<'a>(mitres: &'a [Mitre], sewn_in: &[f64]) -> Vec<Alike<'a>> {
    let count = sewn_in.len().max(1);
    let width = |side: usize| sewn_in.get(side % count).copied().unwrap_or_default();
    let mut sorted: Vec<&Mitre> = mitres.iter().collect();
    sorted.sort_by(|a, b| a.corner_deg.total_cmp(&b.corner_deg));
    let mut found: Vec<Alike<'a>> = Vec::new();
    for mitre in sorted {
        let (before_in, own_in) = (width(mitre.corner + count - 1), width(mitre.corner));
        let same = |alike: &&mut Alike<'a>| {
            (alike.before_in - before_in).abs() < EQUAL_IN
                && (alike.own_in - own_in).abs() < EQUAL_IN
                && alike.mitres.first().is_some_and(|first| mitre.corner_deg - first.corner_deg <= EQUAL_DEG)
        };
        match found.iter_mut().find(same) {
            Some(alike) => alike.mitres.push(mitre),
            None => found.push(Alike { mitres: vec![mitre], before_in, own_in }),
        }
    }
    found
}

/// A corner laid so that the side before it runs to the right and the piece lies above; the raw corner of the piece
/// is the origin.
struct Corner {
    /// Along the side after the corner.
    after: Vec2,
    /// From the raw corner inwards.
    bisector: Vec2,
    /// Where the seam lines meet: sewing stops there.
    stop: Point,
    /// Where the outer edges of both strips meet.
    outer: Point,
    before_in: f64,
    own_in: f64,
    seam_in: f64,
}

impl Corner {
    fn new(corner_deg: f64, before_in: f64, own_in: f64, seam_in: f64) -> Self {
        let (angle, half) = (corner_deg.to_radians(), corner_deg.to_radians() / 2.0);
        let turn = std::f64::consts::PI - angle;
        let towards = std::f64::consts::PI - half;
        let bisector = Vec2::new(towards.cos(), towards.sin());
        let stop = Point::ORIGIN + bisector * (seam_in / half.sin().max(0.05));
        let gains = (own_in + before_in * angle.cos()) / angle.sin().max(0.05);
        let outer = stop + Vec2::new(gains, -before_in);
        Self { after: Vec2::new(turn.cos(), turn.sin()), bisector, stop, outer, before_in, own_in, seam_in }
    }

    fn side_in(&self) -> f64 {
        SIDE * self.before_in.max(self.own_in)
    }

    fn drawn(&self, stop: &str) -> Pad {
        let side = self.side_in();
        // What the first drawing takes from its left to its right; the second stands beside it.
        let right =
            self.outer.x.max((self.after * side).x + self.own_in).max(self.outer.x + self.before_in * 0.5);
        let by = Vec2::new(right + side + 0.4 * self.before_in, 0.0);
        let wide = by.x + side + right;
        let high = (self.after * side).y.max(1.2 * side) + self.before_in;
        let mut pad = Pad::at_scale((ROOM_IN[0] / wide).min(ROOM_IN[1] / high).min(1.0));
        self.sewn(&mut pad, stop);
        self.folded(&mut pad, by);
        for (no, by) in [("1", Vec2::new(0.0, 0.0)), ("2", by)] {
            pad.bold(Point::new(-side + pad.paper(0.14), side.min(1.1 * side) * 0.75) + by, NUMBER_PT, no);
        }
        pad
    }

    /// From the right side: the piece, both strips, the mitre.
    fn sewn(&self, pad: &mut Pad, stop: &str) {
        let side = self.side_in();
        let deep = self.after.left() * side;
        let start = Point::new(-side, self.seam_in);
        let end = Point::ORIGIN + self.after * side + self.after.left() * self.seam_in;
        let inner = Point::ORIGIN + self.bisector * (side / self.half_sine());
        let top = Point::new(-side, side);
        pad.area(vec![start, self.stop, end, end + deep, inner, top], drawing::CALICO, 1.0);
        let out = self.after.left() * -self.own_in;
        band(pad, vec![start, self.stop, self.outer, start + Vec2::new(0.0, -self.before_in)]);
        band(pad, vec![self.stop, end, end + out, self.outer]);
        pad.seam(&[start, self.stop], false);
        pad.seam(&[self.stop, end], false);
        pad.line(vec![self.stop, self.outer], Stroke::Mark);
        pad.dot(self.stop, 0.05, MADDER);
        let words = self.stop + Vec2::new(-pad.paper(0.55), pad.paper(0.2));
        pad.words(words, LENGTH_PT, format!("stop: {stop}"));
    }

    /// Folded along the bisector, seen from the wrong side: both strips on each other.
    fn folded(&self, pad: &mut Pad, by: Vec2) {
        let side = self.side_in();
        let deep = Point::ORIGIN + self.bisector * (1.2 * side / self.bisector.y.max(0.2)).min(1.6 * side);
        let piece = vec![Point::new(-side, 0.0), Point::ORIGIN, deep, Point::new(-side, deep.y)];
        let kept: Vec<Point> = if deep.x < -side {
            let at = self.bisector * (side / -self.bisector.x);
            vec![piece[0], piece[1], Point::ORIGIN + at]
        } else {
            piece
        };
        pad.area(kept.iter().map(|p| *p + by).collect(), drawing::CALICO, 1.0);
        pad.closed(kept.iter().map(|p| *p + by).collect(), Stroke::Outline);
        let low = self.seam_in - self.before_in;
        let end = self.outer.x + 0.45 * self.before_in;
        let strip = [(-side, self.seam_in), (end, self.seam_in), (end, low), (-side, low)];
        band(pad, strip.map(|(x, y)| Point::new(x, y) + by).to_vec());
        let out = self.outer - self.stop;
        let trim = out.left() * (self.seam_in / out.length().max(1e-9));
        pad.seam(&[Point::new(-side, self.seam_in) + by, self.stop + by], false);
        pad.line(vec![self.stop + by, self.outer + by], Stroke::Mark);
        pad.line(vec![self.stop + trim + by, self.outer + trim + by], Stroke::Leader);
        pad.dot(self.stop + by, 0.05, MADDER);
        pad.beside(self.outer + by, Vec2::new(0.0, -1.0), LENGTH_PT, "sew; trim beside it");
        let fold = Point::ORIGIN + self.bisector * (0.55 * side);
        pad.beside(fold + by, Vec2::new(1.0, 0.2), LENGTH_PT, "fold");
    }

    fn half_sine(&self) -> f64 {
        self.bisector.y.abs().max(0.05)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Both outer edges lie their own width off their seam lines, and a square corner of equal widths is mitred at
    /// 45 degrees.
    #[test]
    fn a_mitre_runs_from_where_the_seams_meet_to_where_the_outer_edges_do() {
        for (deg, before, own) in [(90.0, 2.0, 2.0), (128.6, 2.25, 2.25), (60.0, 1.5, 3.0), (141.0, 3.0, 1.0)]
        {
            let corner = Corner::new(deg, before, own, 0.25);
            let left = corner.after.left();
            let seam = |p: Point| p.to_vec2().dot(left);
            assert!((corner.stop.y - 0.25).abs() < 1e-9 && (seam(corner.stop) - 0.25).abs() < 1e-9, "{deg}");
            assert!((corner.outer.y - (0.25 - before)).abs() < 1e-9, "{deg}");
            assert!((seam(corner.outer) - (0.25 - own)).abs() < 1e-9, "{deg}: {:?}", corner.outer);
        }
        let square = Corner::new(90.0, 2.0, 2.0, 0.25);
        let out = square.outer - square.stop;
        assert!((out.x + out.y).abs() < 1e-9 && out.x > 0.0, "{out:?}");
    }
}
