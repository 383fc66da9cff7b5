//! Sections in the order of sewing, and how they are joined.

use super::cuts::{Cut, Opening, Set};
use super::search::{Branch, Search, Tree};
use super::{Pieces, Stretch};

/// A piece in the order of sewing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sewn {
    /// Which.
    pub piece: usize,
    /// The seam that holds it; the first piece of a section has none.
    pub seam: Option<Stretch>,
}

/// Pieces that can be sewn onto one paper, one after the other.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// In the order of sewing.
    pub order: Vec<Sewn>,
}

impl Section {
    /// Its pieces.
    pub fn pieces(&self) -> impl Iterator<Item = usize> + '_ {
        self.order.iter().map(|sewn| sewn.piece)
    }
}

/// A step of joining sections; sections are named by their place in the list.
#[derive(Clone, Debug, PartialEq)]
pub enum Joining {
    /// Two groups of sections are sewn together.
    Sew {
        /// The sections of each group, joined before.
        groups: [Vec<usize>; 2],
        /// The seam.
        seam: Stretch,
        /// Where it goes on, but stays open until it is closed.
        open: Option<Stretch>,
    },
    /// The open end of a seam is sewn.
    Close {
        /// Where.
        seam: Stretch,
    },
    /// A group is set in: its edge has corners, and is sewn from corner to corner.
    SetIn {
        /// The sections of each group.
        groups: [Vec<usize>; 2],
        /// The seams.
        seams: Vec<Stretch>,
    },
}

/// Everything in sections.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sections {
    /// The sections.
    pub sections: Vec<Section>,
    /// How they are joined, in order.
    pub joins: Vec<Joining>,
    /// Pieces of which none can be sewn last by one straight seam, as all lie together: empty when everything
    /// can be sewn one piece at a time.
    pub stuck: Vec<usize>,
}

impl Sections {
    /// How many seams are left open for a while.
    #[must_use]
    pub fn partial_seams(&self) -> usize {
        let open = |join: &&Joining| matches!(join, Joining::Sew { open: Some(_), .. });
        self.joins.iter().filter(open).count()
    }

    /// Whether full straight seams are enough.
    #[must_use]
    pub fn in_full_seams(&self) -> bool {
        self.joins.iter().all(|join| matches!(join, Joining::Sew { open: None, .. }))
    }
}

/// The fewest sections that the search finds. Pieces are sewn in about the order in which they were given.
#[must_use]
pub fn sections(pieces: &Pieces) -> Sections {
    let all: Set = (0..pieces.count()).collect();
    if all.is_empty() {
        return Sections::default();
    }
    let stuck = pieces.pluck(&all).1.into_iter().collect();
    let mut found = Sections { stuck, ..Sections::default() };
    let branch = Search::new(pieces).best(&all);
    walk(pieces, &branch, &mut found);
    found
}

/// Writes down a branch; returns its sections.
fn walk(pieces: &Pieces, branch: &Branch, into: &mut Sections) -> Vec<usize> {
    match &*branch.tree {
        Tree::Section(order) => {
            let stretch = |cut: Cut| pieces.stretch(cut.line, cut.from, cut.to);
            let order = order.iter().map(|(piece, cut)| Sewn { piece: *piece, seam: cut.map(stretch) });
            into.sections.push(Section { order: order.collect() });
            vec![into.sections.len() - 1]
        }
        Tree::Joined { parts, cut, openings } => {
            let groups = both(pieces, parts, into);
            let seam = pieces.stretch(cut.line, cut.from, cut.to);
            // A seam whose open end is complete only now is sewn to its end at once.
            let done = |opening: &&Opening, set: &Set| {
                let sides = opening.open.iter().flat_map(|&no| pieces.contacts[no].sides);
                sides.into_iter().all(|piece| set.contains(&piece))
            };
            let completed = |opening: &&Opening| {
                done(opening, &branch.pieces) && !parts.iter().any(|part| done(opening, &part.pieces))
            };
            let sewn_here = |opening: &&Opening| {
                opening.line == cut.line
                    && opening.seam.iter().any(|no| !opening.open.contains(no) && crosses(pieces, *no, parts))
            };
            let open = openings.iter().filter(sewn_here).find(|opening| !completed(opening));
            let open = open.map(|opening| hull(pieces, opening));
            into.joins.push(Joining::Sew { groups: groups.clone(), seam, open });
            for opening in openings.iter().filter(completed) {
                into.joins.push(Joining::Close { seam: hull(pieces, opening) });
            }
            groups.concat()
        }
        Tree::SetIn { parts } => {
            let groups = both(pieces, parts, into);
            let seams = (0..pieces.contacts.len()).filter(|no| crosses(pieces, *no, parts)).map(|no| {
                let contact = &pieces.contacts[no];
                pieces.stretch(contact.line, contact.from, contact.to)
            });
            into.joins.push(Joining::SetIn { groups: groups.clone(), seams: seams.collect() });
            groups.concat()
        }
    }
}

/// The part with more pieces first.
fn both(pieces: &Pieces, parts: &[Branch; 2], into: &mut Sections) -> [Vec<usize>; 2] {
    let [first, second] = parts;
    let (first, second) =
        if first.pieces.len() >= second.pieces.len() { (first, second) } else { (second, first) };
    [walk(pieces, first, into), walk(pieces, second, into)]
}

fn crosses(pieces: &Pieces, no: usize, parts: &[Branch; 2]) -> bool {
    let [a, b] = pieces.contacts[no].sides;
    let [first, second] = parts;
    (first.pieces.contains(&a) && second.pieces.contains(&b))
        || (first.pieces.contains(&b) && second.pieces.contains(&a))
}

/// All of what stays open.
fn hull(pieces: &Pieces, opening: &Opening) -> Stretch {
    let ends = opening.open.iter().map(|&no| (pieces.contacts[no].from, pieces.contacts[no].to));
    let (from, to) =
        ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(from, to), end| (from.min(end.0), to.max(end.1)));
    pieces.stretch(opening.line, from, to)
}
