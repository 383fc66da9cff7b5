//! One straight seam between a part and the rest.

use super::pieces::{GAP_IN, Pieces};
use std::collections::BTreeSet;

pub(super) type Set = BTreeSet<usize>;

/// A straight seam: on which line and from where to where.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cut {
    pub(super) line: usize,
    pub(super) from: f64,
    pub(super) to: f64,
}

/// A seam sewn only in part: contacts that count for nothing until it is closed, and all of the seam.
#[derive(Clone, Debug, Default)]
pub(super) struct Opening {
    pub(super) line: usize,
    pub(super) open: Vec<usize>,
    pub(super) seam: Vec<usize>,
}

/// A set in two parts, and the seam between them.
pub(super) struct Parted {
    pub(super) parts: [Set; 2],
    pub(super) cut: Cut,
}

impl Pieces {
    /// Pieces plucked one by one, the last in what was given first: in the order of sewing with the seam of each,
    /// and what couldn't be plucked.
    pub(super) fn pluck(&self, set: &Set) -> (Vec<(usize, Option<Cut>)>, Set) {
        let (mut order, mut left) = (Vec::new(), set.clone());
        while left.len() > 1 {
            let alone = |piece: usize| Some((piece, self.seam_of(&Set::from([piece]), &left, &[])?));
            let Some((piece, cut)) = left.iter().rev().find_map(|&piece| alone(piece)) else { break };
            left.remove(&piece);
            order.push((piece, Some(cut)));
        }
        if left.len() == 1 {
            order.extend(left.iter().map(|&piece| (piece, None)));
            left.clear();
        }
        order.reverse();
        (order, left)
    }

    /// The one straight seam between a part of a set and the rest of it.
    pub(super) fn seam_of(&self, part: &Set, set: &Set, ignored: &[usize]) -> Option<Cut> {
        let mut met: Vec<(usize, bool, f64, f64)> = Vec::new();
        for &piece in part {
            for no in self.of[piece].iter().filter(|no| !ignored.contains(no)) {
                let contact = &self.contacts[*no];
                let other = contact.other(piece);
                if set.contains(&other) && !part.contains(&other) {
                    met.push((contact.line, contact.sides[0] == piece, contact.from, contact.to));
                }
            }
        }
        let &(line, side, ..) = met.first()?;
        if met.iter().any(|(l, s, ..)| (*l, *s) != (line, side)) {
            return None;
        }
        met.sort_by(|a, b| a.2.total_cmp(&b.2));
        let (_, _, from, mut to) = *met.first()?;
        for (_, _, next, end) in &met {
            if *next > to + GAP_IN {
                return None;
            }
            to = to.max(*end);
        }
        Some(Cut { line, from, to })
    }

    /// All ways to part a set along one straight seam.
    pub(super) fn cuts(&self, set: &Set, ignored: &[usize]) -> Vec<Parted> {
        let mut lines: Vec<usize> = self.inner(set).map(|no| self.contacts[no].line).collect();
        lines.sort_unstable();
        lines.dedup();
        let mut found = Vec::new();
        for line in lines {
            let skipped = |no: usize| self.contacts[no].line == line || ignored.contains(&no);
            let parts = self.connected(set, &skipped);
            // Of two parts, parting off one is parting off the other.
            let tried = if parts.len() == 2 { 1 } else { parts.len() };
            for part in parts.iter().take(tried).filter(|_| parts.len() > 1) {
                let rest: Set = set.difference(part).copied().collect();
                let Some(cut) = self.seam_of(part, set, ignored) else { continue };
                if self.connected(&rest, &|no| ignored.contains(&no)).len() == 1 {
                    found.push(Parted { parts: [part.clone(), rest], cut });
                }
            }
        }
        found
    }

    /// The contacts within a set.
    pub(super) fn inner<'a>(&'a self, set: &'a Set) -> impl Iterator<Item = usize> + 'a {
        let within = move |no: &usize| self.contacts[*no].sides.iter().all(|piece| set.contains(piece));
        (0..self.contacts.len()).filter(within)
    }

    /// The parts of a set that hang together without the contacts that are skipped.
    fn connected(&self, set: &Set, skipped: &dyn Fn(usize) -> bool) -> Vec<Set> {
        let (mut left, mut parts) = (set.clone(), Vec::new());
        while let Some(first) = left.pop_first() {
            let (mut part, mut open) = (Set::from([first]), vec![first]);
            while let Some(piece) = open.pop() {
                for no in self.of[piece].iter().filter(|no| !skipped(**no)) {
                    let other = self.contacts[*no].other(piece);
                    if left.remove(&other) {
                        part.insert(other);
                        open.push(other);
                    }
                }
            }
            parts.push(part);
        }
        parts
    }

    /// Every way to leave an end of a seam within a set open: from a place where a piece ends to the seam's end.
    pub(super) fn openings(&self, set: &Set) -> Vec<Opening> {
        let mut inner: Vec<usize> = self.inner(set).collect();
        inner.sort_by(|&a, &b| {
            let [a, b] = [a, b].map(|no| &self.contacts[no]);
            (a.line, a.from, a.to).partial_cmp(&(b.line, b.from, b.to)).unwrap_or(std::cmp::Ordering::Equal)
        });
        let mut seams: Vec<(f64, Vec<usize>)> = Vec::new();
        for no in inner {
            let contact = &self.contacts[no];
            let goes_on = |(to, seam): &&mut (f64, Vec<usize>)| {
                let same = seam.first().is_some_and(|first| self.contacts[*first].line == contact.line);
                same && contact.from <= *to + GAP_IN
            };
            match seams.last_mut().filter(goes_on) {
                Some((to, seam)) => {
                    *to = to.max(contact.to);
                    seam.push(no);
                }
                None => seams.push((contact.to, vec![no])),
            }
        }
        let mut found = Vec::new();
        for (_, seam) in seams {
            let line = self.contacts[seam[0]].line;
            for at in 1..seam.len() {
                for open in [&seam[..at], &seam[at..]] {
                    found.push(Opening { line, open: open.to_vec(), seam: seam.clone() });
                }
            }
        }
        found
    }
}
