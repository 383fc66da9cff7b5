//! Seam allowances as they lie on the back.
//!
//! What is seen of a seam from behind follows from folding paper. Pressed over, the cloth that was
//! there before runs on past the seam line under the patch just added: its wrong side shows.
//! Pressed back, the patch's cloth runs on under what was there before. Pressed open, each
//! allowance is folded back under its own patch and shows its right side. (Geometry; common
//! practice, no source.)
//!
//! A strip ends where the neighbouring edges of its patch, drawn out, cross it; what reaches
//! beyond the patch it lies on is caught in the next seam and isn't drawn.

use crate::scene::Scene;
use crate::shows::{Seen, shows};
use crate::{Item, Placement, Stroke, Tag};
use plane::{DECISION, Line, Point, Pose, Region, Turn, clip_convex, clip_half_plane, polygon};
use quilt::log::{Bound, Name, Press};
use quilt::table::{Face, Seam};
use std::collections::BTreeMap;

/// One face's run along a seam.
pub(crate) struct Run<'a> {
    face: &'a Face,
    /// Its ends; the face lies on the left of the way from the first to the second.
    ends: [Point; 2],
    /// The lines before and after it, where they turn left.
    flanks: Vec<Line>,
    /// Whether this is the side that was there before the seam.
    before: bool,
}

impl Run<'_> {
    /// Whether the other run lies on the other side of the seam, near enough that a strip of
    /// `allowance_in` along this one could reach it. Strips reach past their ends by no more than
    /// four times their width.
    fn faces(&self, other: &Self, allowance_in: f64) -> bool {
        let [a, b] = self.ends;
        let along = b - a;
        let reach = 4.0 * allowance_in * along.length();
        let at = other.ends.map(|p| (p - a).dot(along));
        self.before != other.before
            && at[0].max(at[1]) > -reach
            && at[0].min(at[1]) < along.dot(along) + reach
    }
}

/// The runs along every seam.
pub(crate) fn runs<'a>(scene: &Scene<'a>) -> BTreeMap<Name, Vec<Run<'a>>> {
    let mut found: BTreeMap<Name, Vec<Run<'a>>> = BTreeMap::new();
    for face in scene.top.faces().values() {
        let around = scene.runs(face);
        let n = around.len();
        for (i, &(bound, a, b)) in around.iter().enumerate() {
            let Bound::Seam(name) = bound else { continue };
            let Some(own) = scene.line(bound) else { continue };
            let before = own.unit().dot(b - a) > 0.0;
            let walked = if before { own } else { own.reversed() };
            let mut flanks = Vec::new();
            for (j, first) in [((i + n - 1) % n, true), ((i + 1) % n, false)] {
                let Some(Some(flank)) = around.get(j).map(|(_, a, b)| Line::through(*a, *b)) else {
                    continue;
                };
                let turn = if first { flank.turn_sine(walked) } else { walked.turn_sine(flank) };
                if turn > 0.0 {
                    flanks.push(flank);
                }
            }
            found.entry(name).or_default().push(Run { face, ends: [a, b], flanks, before });
        }
    }
    found
}

/// The allowances of one seam, as strips with their raw edge.
pub(crate) fn strips(scene: &Scene<'_>, name: Name, seam: &Seam, runs: &[Run<'_>]) -> Item {
    let mut items = Vec::new();
    for run in runs {
        let shown = match seam.press {
            Press::Over => run.before,
            Press::Back => !run.before,
            Press::Open => true,
        };
        if shown {
            let open = seam.press == Press::Open;
            let under = runs
                .iter()
                .filter(|o| if open { std::ptr::eq(*o, run) } else { run.faces(o, seam.allowance_in) });
            add_strip(&mut items, scene, run, seam.allowance_in, open, under);
        }
    }
    Item::group("allowance", items).tagged(Tag::class("allowance").with("seam", name))
}

fn add_strip<'r, 'a: 'r>(
    items: &mut Vec<Item>,
    scene: &Scene<'_>,
    run: &Run<'_>,
    allowance_in: f64,
    open: bool,
    under: impl Iterator<Item = &'r Run<'a>>,
) {
    let [a, b] = run.ends;
    let Some(walked) = Line::through(a, b) else { return };
    let Some(patch) = scene.table.patches().get(&run.face.patch) else { return };
    let lies = Placement::moved(patch.at.inverse().then(run.face.pose));
    let strip = strip(run, walked, allowance_in);
    let fold = folded_over(walked);
    let (strip, lies) = if open { (fold.apply_all(&strip), lies.then(fold)) } else { (strip, lies) };
    let raw_edge = walked.inward(if open { allowance_in } else { -allowance_in });
    // From the wrong side a strip so narrow reads better without its print.
    let seen = Seen { wrong_side: !open, flat: !open || scene.what.flat };
    for other in under {
        let shape = scene.top.face_points(other.face);
        let part = meet(&strip, &shape);
        if polygon::area(&part) < DECISION {
            continue;
        }
        let cut: Vec<[Point; 2]> = polygon::edges(&part)
            .filter(|(p, q)| [p, q].iter().all(|p| raw_edge.inside_by(**p).abs() < 1e-6))
            .map(|(p, q)| [p, q])
            .collect();
        let region = Region { outer: part, holes: Vec::new() };
        items.extend(shows(scene.looks, patch.cloth, lies, &region, seen));
        items.extend(cut.into_iter().map(|ends| Item::line(ends.to_vec(), Stroke::Leader)));
    }
}

/// The strip beyond a run, between its flanks drawn out.
fn strip(run: &Run<'_>, walked: Line, allowance_in: f64) -> Vec<Point> {
    let [a, b] = run.ends;
    let (along, out) = (walked.unit(), -walked.normal.vec());
    let far = 4.0 * allowance_in;
    let (from, to) = (a - along * far, b + along * far);
    let wide = vec![from, from + out * allowance_in, to + out * allowance_in, to];
    run.flanks.iter().fold(wide, |points, flank| clip_half_plane(&points, *flank, DECISION))
}

/// The part of the strip on a patch. A patch that isn't convex takes the strip as it is.
fn meet(strip: &[Point], shape: &[Point]) -> Vec<Point> {
    let counter_clockwise: Vec<Point> =
        if polygon::area(strip) < 0.0 { strip.iter().rev().copied().collect() } else { strip.to_vec() };
    if polygon::is_convex(shape, DECISION) {
        clip_convex(&counter_clockwise, shape, DECISION)
    } else {
        counter_clockwise
    }
}

/// Folding along a line: a mirroring that leaves the line where it is.
fn folded_over(line: Line) -> Placement {
    let along: Turn = line.direction();
    let turn = along.then(along).opposite();
    let fixed = line.point_at(0.0);
    let mirrored = Placement { mirrored: true, pose: Pose::new(turn, plane::Vec2::default()) };
    let by = fixed - mirrored.apply(fixed);
    Placement { mirrored: true, pose: Pose::new(turn, by) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folding_leaves_the_line_and_swaps_its_sides() {
        let line = Line::through(Point::new(1.0, 2.0), Point::new(4.0, 3.0)).unwrap();
        let fold = folded_over(line);
        for (t, side) in [(0.0, 1.0), (2.5, -0.75), (-1.0, 0.25)] {
            let p = line.point_at(t) + line.normal.vec() * side;
            let q = fold.apply(p);
            assert!((line.inside_by(q) + side).abs() < 1e-12);
            assert!((line.along(q) - t).abs() < 1e-12);
            assert!(fold.apply(q).distance(p) < 1e-12);
        }
    }
}
