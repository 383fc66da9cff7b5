//! A slicing tree in postfix form: blocks, and after two units how they are joined.
//!
//! `a b Beside` is b right of a; `a b Above` is b above a. Units of different height joined side by
//! side are first coped to a common height by a strip along the top edge, units of different width
//! by a strip at the right; so every tree can be sewn, and its size is the least that it can have.

use super::coping::{common, is_short};

/// One sign of the postfix form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sign {
    /// A block, from 0.
    Block(usize),
    /// The last unit lies right of the one before.
    Beside,
    /// The last unit lies above the one before.
    Above,
}

impl Sign {
    pub(super) const fn is_block(self) -> bool {
        matches!(self, Self::Block(_))
    }

    pub(super) const fn other(self) -> Self {
        match self {
            Self::Beside => Self::Above,
            Self::Above => Self::Beside,
            block @ Self::Block(_) => block,
        }
    }
}

/// A tree, and which blocks lie a quarter turn round.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Tree {
    pub(super) signs: Vec<Sign>,
    pub(super) turned: Vec<bool>,
}

/// Finished sizes of the blocks, and what a tree makes of them.
#[derive(Clone, Debug)]
pub(super) struct Sizes {
    /// Width and height of each block.
    pub(super) blocks: Vec<[f64; 2]>,
    /// The place that each block is coped up to before it is joined, where all have the same.
    pub(super) place: Option<[f64; 2]>,
    /// Least width of a strip.
    pub(super) least: f64,
}

impl Sizes {
    /// Width and height of a block as it lies.
    pub(super) fn lying(&self, block: usize, turned: bool) -> [f64; 2] {
        let [w, h] = self.blocks[block];
        if turned { [h, w] } else { [w, h] }
    }
}

/// A unit: how many signs it takes, and its size before it is coped.
#[derive(Clone, Copy, Debug, Default)]
struct Unit {
    signs: usize,
    size: [f64; 2],
}

/// Where a tree's blocks lie. Kept between trees, so that measuring takes no memory.
#[derive(Clone, Debug, Default)]
pub(super) struct Measured {
    /// Finished size without outer coping.
    pub(super) size: [f64; 2],
    /// How many strips are sewn inside.
    pub(super) strips: usize,
    /// Lower left corner of each block.
    pub(super) corners: Vec<[f64; 2]>,
    /// Size of each block as it lies.
    pub(super) lying: Vec<[f64; 2]>,
    units: Vec<Unit>,
    /// Ends of the units that are not joined yet.
    open: Vec<usize>,
    /// Units whose corner is known and whose parts' corners aren't.
    placed: Vec<(usize, [f64; 2])>,
}

impl Measured {
    /// Sizes, from the blocks up.
    pub(super) fn size_up(&mut self, tree: &Tree, sizes: &Sizes) {
        self.lying.clear();
        self.lying.extend((0..sizes.blocks.len()).map(|i| sizes.lying(i, tree.turned[i])));
        self.units.clear();
        self.open.clear();
        self.strips = 0;
        for (i, &sign) in tree.signs.iter().enumerate() {
            let unit = match sign {
                Sign::Block(block) => self.block(block, sizes),
                _ => self.join(sign, sizes.least),
            };
            self.units.push(unit);
            self.open.push(i);
        }
        self.size = self.units.last().map_or([0.0; 2], |unit| unit.size);
    }

    fn block(&mut self, block: usize, sizes: &Sizes) -> Unit {
        let size = self.lying[block];
        let Some(place) = sizes.place else { return Unit { signs: 1, size } };
        self.strips += (0..2).filter(|&k| is_short(size[k], place[k])).count();
        Unit { signs: 1, size: place }
    }

    fn join(&mut self, sign: Sign, least: f64) -> Unit {
        let (Some(b), Some(a)) = (self.open.pop(), self.open.pop()) else { return Unit::default() };
        let (a, b) = (self.units[a], self.units[b]);
        let along = usize::from(sign == Sign::Above);
        let across = 1 - along;
        let shared = common(a.size[across], b.size[across], least);
        self.strips += [a, b].iter().filter(|unit| is_short(unit.size[across], shared)).count();
        let mut size = [0.0; 2];
        size[along] = a.size[along] + b.size[along];
        size[across] = shared;
        Unit { signs: a.signs + b.signs + 1, size }
    }

    /// Corners, after the sizes.
    pub(super) fn place_down(&mut self, tree: &Tree) {
        self.corners.clear();
        self.corners.resize(self.lying.len(), [0.0; 2]);
        self.placed.clear();
        self.placed.push((tree.signs.len().saturating_sub(1), [0.0; 2]));
        while let Some((i, corner)) = self.placed.pop() {
            let along = match tree.signs.get(i) {
                Some(Sign::Block(block)) => {
                    self.corners[*block] = corner;
                    continue;
                }
                Some(Sign::Beside) => 0,
                Some(Sign::Above) => 1,
                None => continue,
            };
            let second = i - 1;
            let first = second - self.units[second].signs;
            let mut beyond = corner;
            beyond[along] += self.units[first].size[along];
            self.placed.push((first, corner));
            self.placed.push((second, beyond));
        }
    }
}

impl Tree {
    /// Where the two units that the sign at `i` joins begin, and where the second ends.
    pub(super) fn parts(&self, i: usize) -> [usize; 3] {
        let begin = |end: usize| {
            let mut open = 1_usize;
            let mut at = end;
            loop {
                open = if self.signs[at].is_block() { open - 1 } else { open + 1 };
                if open == 0 || at == 0 {
                    return at;
                }
                at -= 1;
            }
        };
        let second = begin(i - 1);
        [begin(second - 1), second, i]
    }

    /// Blocks in rows of so many, upright.
    pub(super) fn rows(order: &[usize], across: usize) -> Self {
        Self::bands(order.chunks(across.max(1)), Sign::Beside, order.len())
    }

    /// Bands of blocks, each joined by `within`, one after the other.
    pub(super) fn bands<'a>(bands: impl Iterator<Item = &'a [usize]>, within: Sign, blocks: usize) -> Self {
        let mut signs = Vec::new();
        for (i, band) in bands.enumerate() {
            for (k, &block) in band.iter().enumerate() {
                signs.push(Sign::Block(block));
                if k > 0 {
                    signs.push(within);
                }
            }
            if i > 0 {
                signs.push(within.other());
            }
        }
        Self { signs, turned: vec![false; blocks] }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sizes(blocks: &[[f64; 2]]) -> Sizes {
        Sizes { blocks: blocks.to_vec(), place: None, least: 0.5 }
    }

    #[test]
    fn a_tree_is_as_large_as_its_units_coped_to_each_other() {
        let sizes = sizes(&[[4.0, 6.0], [5.0, 5.0], [8.0, 3.0]]);
        let tree = Tree::rows(&[0, 1, 2], 2);
        let mut measured = Measured::default();
        measured.size_up(&tree, &sizes);
        measured.place_down(&tree);
        assert_eq!((measured.size, measured.strips), ([9.0, 9.0], 2));
        assert_eq!(measured.corners, [[0.0, 0.0], [4.0, 0.0], [0.0, 6.0]]);
        assert_eq!(tree.parts(4), [0, 3, 4]);
        assert_eq!(tree.parts(2), [0, 1, 2]);
    }

    #[test]
    fn a_difference_too_thin_for_a_strip_copes_both() {
        let sizes = sizes(&[[4.0, 6.0], [5.0, 5.75]]);
        let mut measured = Measured::default();
        measured.size_up(&Tree::rows(&[0, 1], 2), &sizes);
        assert_eq!((measured.size, measured.strips), ([9.0, 6.5], 2));
    }
}
