//! Pieces that lie nearer to each other, or to the edge, than asked: planned ones keep their place all the same.

use super::{CutCloth, CuttingPlan, CuttingWish};
use plane::{Point, READING, polygon};
use quilt::cloth::Cloth;
use serde::Serialize;
use std::fmt::Write as _;

/// Two pieces, or one and the edge, nearer to each other than asked.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TooNear {
    /// The number of the cloth.
    pub no: u32,
    /// The two pieces; one alone is too near to the edge of the cloth, a hole or a flaw.
    pub names: Vec<String>,
    /// How near they lie, in inches.
    pub near_in: f64,
    /// How far apart was asked, in inches.
    pub asked_in: f64,
}

/// All that lies too near on a cloth.
pub(super) fn too_near(cut: &CutCloth, now: &Cloth, wish: &CuttingWish) -> Vec<TooNear> {
    let mut found = Vec::new();
    let mut add = |names: &[&str], near_in: f64, asked_in: f64| {
        if near_in < asked_in - 2.0 * READING {
            let names = names.iter().map(|&name| name.to_owned()).collect();
            found.push(TooNear { no: cut.no, names, near_in, asked_in });
        }
    };
    let flaws = now.flaws.iter().map(|flaw| &flaw.outer);
    let rims: Vec<&Vec<Point>> =
        std::iter::once(&now.outline.outer).chain(&now.outline.holes).chain(flaws).collect();
    for (i, piece) in cut.pieces.iter().enumerate() {
        if wish.edge_in > 0.0 {
            let near_in = rims.iter().map(|rim| nest::rims_apart(rim, &piece.outline));
            add(&[&piece.name], near_in.fold(f64::INFINITY, f64::min), wish.edge_in);
        }
        for other in cut.pieces.iter().skip(i + 1).filter(|_| wish.between_in > 0.0) {
            if may_be_within(&piece.outline, &other.outline, wish.between_in) {
                let near_in = nest::gap(&piece.outline, &other.outline);
                add(&[&piece.name, &other.name], near_in, wish.between_in);
            }
        }
    }
    found
}

/// Whether the boxes round two outlines leave it open.
fn may_be_within(one: &[Point], other: &[Point], far: f64) -> bool {
    let (Some((a, b)), Some((c, d))) = (polygon::bounds(one), polygon::bounds(other)) else { return false };
    a.x - far < d.x && c.x - far < b.x && a.y - far < d.y && c.y - far < b.y
}

impl CuttingPlan {
    /// What lies too near, a sentence for each cloth; `length` writes a length.
    #[must_use]
    pub fn too_near_words(&self, length: &dyn Fn(f64) -> String) -> Vec<String> {
        let on = |cloth: &CutCloth| {
            let near: Vec<&TooNear> = self.too_near.iter().filter(|near| near.no == cloth.no).collect();
            let first = near.first()?;
            let mut words = String::new();
            for (i, TooNear { names, near_in, .. }) in near.iter().enumerate() {
                let by = if *near_in < READING { "nothing".to_owned() } else { length(*near_in) };
                let (one, other) = match names.as_slice() {
                    [one, other, ..] => (one.as_str(), other.as_str()),
                    [one] => (one.as_str(), "the edge"),
                    [] => continue,
                };
                let before = if i > 0 { "; " } else { "" };
                let _ = write!(words, "{before}between {one} and {other} there is {by}");
            }
            let asked = near.iter().map(|near| near.asked_in).fold(first.asked_in, f64::max);
            Some(format!(
                "No. {}: {words}, where {} was asked. Planned patches keep their place; `--anew` seeks them one with that room.",
                cloth.no,
                length(asked)
            ))
        };
        self.cloths.iter().filter_map(on).collect()
    }
}
