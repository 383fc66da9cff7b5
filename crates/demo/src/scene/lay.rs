//! Where cards and scraps come to lie: at random, without lying on each other, where the camera
//! sees them well enough.

use super::camera::Camera;
use super::card::paper;
use super::recipe::Recipe;
use super::scenery::Thing;
use super::texture::light_of;
use crate::dice::Dice;
use crate::heap::{Heap, Scrap};
use colour::{Lab, Srgb, difference};
use plane::{Point, Pose, Region, Turn, polygon};

/// Tries to find room for a card or a scrap.
const TRIES: usize = 300;
/// A cloth that is to be seen whole keeps so far from the picture's edge, in pixels.
const MARGIN_PX: f64 = 12.0;
/// A colour counts against the mat when it has this share of the cloth.
const MUCH: f64 = 1.0 / 3.0;

/// What lies on the table so far.
pub(super) struct Table<'a> {
    camera: &'a Camera,
    recipe: &'a Recipe,
    taken: Vec<Region>,
}

/// A scrap of a heap that has been laid.
#[derive(Clone, Debug)]
pub(super) struct Laid {
    /// Which scrap of the heap.
    pub(super) scrap: usize,
    /// From the cloth to the table.
    pub(super) pose: Pose,
    /// Its outline on the table.
    pub(super) outline: Region,
    /// Whether a part lies outside the picture.
    pub(super) cut_off: bool,
}

impl<'a> Table<'a> {
    /// A table on which outlines are taken already.
    pub(super) const fn new(camera: &'a Camera, recipe: &'a Recipe, taken: Vec<Region>) -> Self {
        Self { camera, recipe, taken }
    }

    /// Lays so many cards, each pose from the card to the table.
    pub(super) fn cards(&mut self, count: usize, side_in: f64, dice: &mut Dice) -> Vec<Pose> {
        let outline = paper(side_in);
        let mut poses = Vec::new();
        for no in 0..count {
            let quarter = self.recipe.quartered.then_some(no % 4);
            for _ in 0..TRIES {
                let middle = self.place(quarter, dice);
                let pose = turned_at(&outline, middle, dice);
                let there = outline.moved(pose);
                if self.is_clear(&there, 0.0) && self.is_seen(&there) {
                    self.taken.push(there);
                    poses.push(pose);
                    break;
                }
            }
        }
        poses
    }

    /// Lays scraps of a heap, the largest first, on a mat of such a colour.
    pub(super) fn scraps(&mut self, heap: &Heap, mat: Srgb, dice: &mut Dice) -> Vec<Laid> {
        let mut order: Vec<usize> = (0..heap.scraps.len()).collect();
        order.sort_by(|&a, &b| {
            let area = |i: usize| heap.scraps[i].cloth.outline.area();
            area(b).total_cmp(&area(a))
        });
        let mut laid: Vec<Laid> = Vec::new();
        for no in order {
            let scrap = &heap.scraps[no];
            let cut_off = dice.chance(self.recipe.cut_off);
            let touching = dice.chance(self.recipe.touching);
            if !shows(scrap, mat.to_lab(), self.recipe.contrast) {
                continue;
            }
            let Some(pose) = self.room(&scrap.cloth.outline, cut_off, dice) else { continue };
            let pose = match laid.last().filter(|_| touching && !cut_off) {
                Some(other) => self.slid(&scrap.cloth.outline, pose, &other.outline),
                None => pose,
            };
            let outline = scrap.cloth.outline.moved(pose);
            self.taken.push(outline.clone());
            laid.push(Laid { scrap: no, pose, outline, cut_off });
        }
        laid
    }

    /// Somewhere in the picture, as a place on the table.
    fn place(&self, quarter: Option<usize>, dice: &mut Dice) -> Point {
        let [width, height] = self.camera.stand().size_px.map(f64::from);
        let (mut x, mut y) = (dice.share(), dice.share());
        if let Some(quarter) = quarter {
            x = (x + (quarter % 2) as f64) / 2.0;
            y = (y + (quarter / 2) as f64) / 2.0;
        }
        self.camera.on_table(Point::new(x * width, y * height)).unwrap_or(self.camera.stand().target)
    }

    fn room(&self, outline: &Region, cut_off: bool, dice: &mut Dice) -> Option<Pose> {
        (0..TRIES).find_map(|_| {
            let middle = self.place(None, dice);
            let pose = turned_at(outline, middle, dice);
            let there = outline.moved(pose);
            let seen = if cut_off { self.is_half_seen(&there) } else { self.is_seen(&there) };
            (seen && self.is_clear(&there, self.recipe.gap_in)).then_some(pose)
        })
    }

    /// Slides an outline towards another one until they touch, if nothing else is in the way.
    fn slid(&self, outline: &Region, pose: Pose, other: &Region) -> Pose {
        let middle = |region: &Region| polygon::centroid(&region.outer).unwrap_or_default();
        let way = middle(other) - middle(&outline.moved(pose));
        let at = |t: f64| Pose::new(pose.turn, pose.by + way * t);
        let (mut clear, mut blocked) = (0.0, 1.0);
        for _ in 0..30 {
            let half = (clear + blocked) / 2.0;
            let there = outline.moved(at(half));
            if self.is_clear(&there, 0.0) && self.is_seen(&there) { clear = half } else { blocked = half }
        }
        at(clear)
    }

    fn is_clear(&self, outline: &Region, gap_in: f64) -> bool {
        self.taken.iter().all(|other| apart(&outline.outer, &other.outer) > gap_in)
    }

    fn is_seen(&self, outline: &Region) -> bool {
        let well = |p: &Point| {
            self.camera.sees(*p, MARGIN_PX)
                && self.camera.least_pixels_per_in(*p) >= self.recipe.least_pixels_per_in
        };
        outline.outer.iter().all(well)
    }

    /// Whether the middle is seen and a corner isn't.
    fn is_half_seen(&self, outline: &Region) -> bool {
        let middle = polygon::centroid(&outline.outer).unwrap_or_default();
        let out = |p: &Point| !self.camera.sees(*p, -MARGIN_PX);
        let well = self.camera.least_pixels_per_in(middle) >= self.recipe.least_pixels_per_in;
        self.camera.sees(middle, MARGIN_PX)
            && well
            && outline.outer.iter().any(out)
            && outline.outer.iter().all(|p| self.camera.faces(*p))
    }
}

/// An outline's pose with its middle at a place, turned at random.
fn turned_at(outline: &Region, place: Point, dice: &mut Dice) -> Pose {
    let middle = polygon::centroid(&outline.outer).unwrap_or_default();
    Pose::carrying(Turn::from_degrees(dice.between(-180.0, 180.0)), middle, place)
}

/// Whether each colour that a scrap has much of differs enough from the mat.
fn shows(scrap: &Scrap, mat: Lab, least: f64) -> bool {
    let much = scrap.cloth.look.shades.iter().filter(|shade| shade.share >= MUCH);
    much.map(|shade| difference(shade.lab, mat)).all(|off| off >= least)
}

/// How far two outlines lie apart, in inches; 0 when they overlap.
fn apart(one: &[Point], other: &[Point]) -> f64 {
    let holds = |a: &[Point], b: &[Point]| b.first().is_some_and(|p| polygon::contains(a, *p));
    if holds(one, other) || holds(other, one) {
        return 0.0;
    }
    let mut least = f64::INFINITY;
    for (a, b) in polygon::edges(one) {
        for (c, d) in polygon::edges(other) {
            if crosses(a, b, c, d) {
                return 0.0;
            }
            let ends = [(a, c, d), (b, c, d), (c, a, b), (d, a, b)];
            least = ends.map(|(p, from, to)| off_line(p, from, to)).into_iter().fold(least, f64::min);
        }
    }
    least
}

fn crosses(a: Point, b: Point, c: Point, d: Point) -> bool {
    let side = |from: Point, to: Point, p: Point| (to - from).cross(p - from) > 0.0;
    side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
}

fn off_line(p: Point, a: Point, b: Point) -> f64 {
    let along = b - a;
    let t = (along.dot(p - a) / along.dot(along).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
    p.distance(a.lerp(b, t))
}

/// Threads that have come loose along an outline, in a cloth's own colours.
pub(super) fn threads(outline: &Region, shades: &[Lab], dice: &mut Dice) -> Vec<Thing> {
    let count = 2 + dice.below(10);
    let edges: Vec<(Point, Point)> = polygon::edges(&outline.outer).collect();
    let thread = |dice: &mut Dice| {
        let &(a, b) = edges.get(dice.below(edges.len()))?;
        let along = b - a;
        let way = along * (1.0 / along.length().max(f64::MIN_POSITIVE));
        let mut at = a.lerp(b, dice.share()) + way.left() * 0.03;
        let mut turn = Turn::towards(-way.left())?.then(Turn::from_degrees(dice.normal() * 40.0));
        let mut course = vec![at];
        for _ in 0..6 {
            at = at + turn.vec() * dice.between(0.03, 0.10);
            course.push(at);
            turn = turn.then(Turn::from_degrees(dice.normal() * 25.0));
        }
        let lab = shades.get(dice.below(shades.len()))?;
        Some(Thing::Thread { course, half_in: dice.between(0.005, 0.009), light: light_of(lab.to_srgb()) })
    };
    (0..count).filter_map(|_| thread(dice)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::Vec2;

    #[test]
    fn outlines_know_how_far_they_lie_apart() {
        let square = Region::rectangle(2.0, 2.0);
        let moved = |x: f64, y: f64| square.moved(Pose::new(Turn::NONE, Vec2::new(x, y)));
        assert!((apart(&square.outer, &moved(2.5, 0.0).outer) - 0.5).abs() < 1e-12);
        assert!((apart(&square.outer, &moved(5.0, 6.0).outer) - 5.0).abs() < 1e-12);
        assert_eq!(apart(&square.outer, &moved(1.0, 1.0).outer), 0.0);
        assert_eq!(
            apart(
                &square.outer,
                &Region::rectangle(0.5, 0.5).moved(Pose::new(Turn::NONE, Vec2::new(1.0, 1.0))).outer
            ),
            0.0
        );
    }
}
