//! A piece sewn by rule from generous cloths, patch by patch: for photographs of half-made pieces.
//!
//! It grows as such pieces do: each patch goes to a side near the middle, its ends trimmed in line
//! with the neighbours. It is meant to look like one, not to be a good one.

use crate::dice::{Dice, mix};
use crate::heap::{Heap, Scrap, scrap};
use crate::print::Print;
use plane::{Point, Pose, Region, Turn, Vec2, polygon};
use quilt::log::{Entry, Mark, Name, Press, Sewing, Step};
use quilt::table::{Side, Table, Top, replay};

/// A piece, the cloths it was cut from, and how it was sewn.
#[derive(Clone, Debug)]
pub struct Sewn {
    /// The cloths: each of another design, as long as there are enough.
    pub heap: Heap,
    /// A patch laid, then for every other one a patch laid and sewn on.
    pub entries: Vec<Entry>,
}

impl Sewn {
    /// The steps until there are so many patches.
    #[must_use]
    pub fn until(&self, patches: usize) -> &[Entry] {
        let count = (2 * patches).saturating_sub(1).min(self.entries.len());
        &self.entries[..count]
    }

    /// The table when there are so many patches.
    #[must_use]
    pub fn table(&self, patches: usize) -> Table {
        replay(self.until(patches)).0
    }

    /// How many patches there are.
    #[must_use]
    pub fn patches(&self) -> usize {
        self.entries.len().div_ceil(2)
    }
}

/// Width and height of each cloth, in inches: about a fat quarter.
const CLOTH_IN: [f64; 2] = [20.0, 18.0];
/// Least and most depth of a patch, raw.
const DEPTH_IN: [f64; 2] = [1.6, 3.2];
/// How much longer a patch is cut than the side it is sewn to.
const SPARE_IN: f64 = 2.2;
/// A side shorter than this is not sewn to.
const LEAST_SIDE_IN: f64 = 1.6;
/// Seam allowance.
const ALLOWANCE_IN: f64 = 0.25;
/// Tries to sew one more patch.
const TRIES: usize = 40;

/// Sews up to so many patches from so many cloths; fewer when no further one goes on in many tries.
#[must_use]
pub fn sewn(seed: u64, patches: usize, cloths: usize) -> Sewn {
    let mut dice = Dice::new(seed, 0x5e_41);
    let heap = cloths_of(seed, cloths.max(1), &mut dice);
    let mut table = Table::new();
    let mut entries: Vec<Entry> = Vec::new();
    let first = first_patch(&heap, &mut dice);
    let entry = |mark: u32, step: Step| Entry { mark: Mark(mark), run: None, step };
    if table.apply(Mark(1), &first).is_ok() {
        entries.push(entry(1, first));
    }
    let mut tries = 0;
    while entries.len() < (2 * patches).saturating_sub(1) && tries < TRIES && !entries.is_empty() {
        tries += 1;
        let mark = entries.len() as u32 + 1;
        let mut next = table.clone();
        let Some(steps) = next.piece().and_then(|(_, top)| one_more(top, &heap, Mark(mark), &mut dice))
        else {
            continue;
        };
        let [lay, sew] = steps;
        if next.apply(Mark(mark), &lay).and_then(|()| next.apply(Mark(mark + 1), &sew)).is_ok()
            && sound(&next)
        {
            table = next;
            entries.extend([entry(mark, lay), entry(mark + 1, sew)]);
            tries = 0;
        }
    }
    Sewn { heap, entries }
}

/// One top, convex, its whole outline raw.
fn sound(table: &Table) -> bool {
    let convex = |(_, top): (Mark, &Top)| {
        polygon::is_convex(&top.outline_points(), 1e-6)
            && top.sides().iter().all(|side| side.name().is_some())
    };
    table.tops().len() == 1 && table.piece().is_some_and(convex)
}

fn cloths_of(seed: u64, count: usize, dice: &mut Dice) -> Heap {
    let prints: Vec<Print> = (0..count).map(|k| Print::dyed(k * 7, mix(seed ^ mix(k as u64)) | 1)).collect();
    let cloth = |k: usize| {
        let mut one: Scrap = scrap(dice, &prints, k, CLOTH_IN[0], mix(seed ^ mix(0xc107 ^ k as u64)));
        one.cloth.outline = Region::rectangle(CLOTH_IN[0], CLOTH_IN[1]);
        one.cloth.flaws.clear();
        one
    };
    let scraps = (0..count).map(cloth).collect();
    Heap { prints, scraps }
}

/// Lays a cut somewhere on a cloth at random; its corners lie within 0 and its size.
fn lay(heap: &Heap, cut: Vec<Point>, dice: &mut Dice) -> Step {
    let (low, high) = polygon::bounds(&cut).unwrap_or_default();
    let size = high - low;
    let spot = Vec2::new(
        dice.share() * (CLOTH_IN[0] - size.x).max(0.0),
        dice.share() * (CLOTH_IN[1] - size.y).max(0.0),
    );
    let half = dice.chance(0.5);
    let upright = Pose::new(Turn::NONE, spot - low.to_vec2());
    let turned = Pose::new(Turn::HALF, spot + high.to_vec2());
    let cloth = heap.scraps[dice.below(heap.scraps.len())].cloth.id;
    Step::Lay { cloth, at: if half { turned } else { upright }, cut }
}

/// Four to six uneven sides.
fn first_patch(heap: &Heap, dice: &mut Dice) -> Step {
    let sides = 4 + dice.below(3);
    let radius = dice.between(2.0, 2.8);
    let corner = |k: usize| {
        let degrees = 360.0 * (k as f64 + 0.3 * (dice.share() - 0.5)) / sides as f64;
        Point::ORIGIN + Turn::from_degrees(degrees).vec() * radius
    };
    let cut = (0..sides).map(corner).collect();
    lay(heap, cut, dice)
}

/// A patch for one of the sides nearest to the middle, and its seam.
fn one_more(top: &Top, heap: &Heap, mark: Mark, dice: &mut Dice) -> Option<[Step; 2]> {
    let middle = polygon::centroid(&top.outline_points())?;
    let mut sides: Vec<Side> =
        top.sides().into_iter().filter(|side| side.length_in() >= LEAST_SIDE_IN).collect();
    let far = |side: &Side| side.from.midpoint(side.to).distance(middle);
    sides.sort_by(|a, b| far(a).total_cmp(&far(b)));
    let side = sides.get(dice.below(sides.len().min(3)))?;
    let long = side.length_in() + SPARE_IN;
    if long > CLOTH_IN[0] {
        return None;
    }
    let [left, right] = [0, 1].map(|_| dice.between(DEPTH_IN[0], DEPTH_IN[1]));
    let cut = [(0.0, 0.0), (long, 0.0), (long, right), (0.0, left)].map(|(x, y)| Point::new(x, y)).to_vec();
    let join = Sewing::Join {
        onto: side.name()?,
        with: Name::new(mark, 0),
        slide_in: 0.0,
        allowance_in: ALLOWANCE_IN,
        stop: None,
        flush: [true, true],
        press: Press::Over,
    };
    Some([lay(heap, cut, dice), Step::Sew(join)])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_piece_grows_by_one_patch_at_a_time_from_cloth_that_is_there() {
        for seed in 1..8 {
            let sewn = sewn(seed, 20, 24);
            assert!(sewn.patches() >= 15, "seed {seed}: {} patches", sewn.patches());
            for patches in [1, 5, 15] {
                let (table, halt) = replay(sewn.until(patches));
                assert!(halt.is_none(), "{halt:?}");
                assert_eq!(table.piece().unwrap().1.faces().len(), patches);
                for patch in table.patches().values() {
                    let cloth = &sewn.heap.scraps.iter().find(|s| s.cloth.id == patch.cloth).unwrap().cloth;
                    let (low, high) = polygon::bounds(&patch.at.apply_all(&patch.cut)).unwrap();
                    let (least, most) = polygon::bounds(&cloth.outline.outer).unwrap();
                    assert!(low.x >= least.x - 1e-9 && low.y >= least.y - 1e-9, "{low:?}");
                    assert!(high.x <= most.x + 1e-9 && high.y <= most.y + 1e-9, "{high:?}");
                }
            }
        }
    }
}
