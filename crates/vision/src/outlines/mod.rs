//! Outlines of cloth on a plain surface.
//!
//! The ground is fitted as a smooth colour and cloth is what differs from it and can't be reached
//! from it through a soft shadow, at a twentieth of an inch. Then each side of each outline is
//! laid through the places where light is halfway between both its sides, in full resolution, and
//! corners are where sides meet: that leaves no bias in the area, no stairs and no threads.

mod bumps;
mod cards;
mod coarse;
mod corrected;
mod edge;
mod ground;
mod mask;
mod split;
mod straight;
mod trace;
mod whole;

pub use corrected::corrected;

use crate::Flat;
use crate::share::for_all;
use coarse::Coarse;
use ground::Ground;
use mask::Mask;
use plane::{Point, Region, polygon};
use straight::{Drawn, drawn, straightened};

/// A cloth that was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// Its outline on the table, in inches, with holes.
    pub outline: Region,
    /// It runs out of what the camera saw; the outline ends there.
    pub cut_off: bool,
    /// Middle difference between cloth and ground along the outline, 0 to about 1.7, as a distance of
    /// square roots of light; under 0.08 is little.
    pub contrast: f64,
    /// What the maker should look at; empty when nothing speaks against it.
    pub doubts: Vec<Doubt>,
}

/// Why an outline may not be right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Doubt {
    /// The cloth looks much like the ground.
    LittleContrast,
    /// Along much of the outline no clear edge was found.
    EdgeUnclear,
    /// The edge is frayed, or bent finer than the outline follows.
    Ragged,
    /// It touched a neighbour and was told apart by the look of both.
    Touching,
    /// It has a hole; a part of the print that looks like the ground would seem one too.
    Hole,
    /// It is next to a measuring card, which may hide a part.
    AtCard,
    /// It is so small that it may be a crumb or a mark on the table.
    Small,
}

/// Finds the cloths on the table. `not_cloth` are the corners of the measuring cards' patterns on
/// the table, in inches; the paper round them is found by its colour. Largest first.
///
/// What is under half an inch wide or has less than 0.4 square inches is not looked for.
#[must_use]
pub fn find_cloths(flat: &Flat, not_cloth: &[Vec<Point>]) -> Vec<Found> {
    let Some(told) = tell(flat, not_cloth) else { return Vec::new() };
    let least = LEAST_AREA * told.calm.per_in * told.calm.per_in;
    let large: Vec<Vec<usize>> =
        told.cloth.parts().into_iter().filter(|part| part.len() as f64 >= least).collect();
    let parts: Vec<(Mask, bool)> = for_all(&large, |part| split::apart(&told.coarse, &told.cloth.of(part)))
        .into_iter()
        .flatten()
        .collect();
    let mut found: Vec<Found> = for_all(&parts, |(part, touching)| outline(flat, &told, part, *touching))
        .into_iter()
        .flatten()
        .collect();
    found.sort_by(|a, b| b.outline.area().total_cmp(&a.outline.area()));
    found
}

/// Finds the piece on the table, for a caller who says that there is one: the largest of what lies there,
/// whole however many cloths it is sewn from, its seams and what of its prints looks like the ground inside.
/// What lies apart from it by more than a fifth of an inch is none of it. `not_cloth` as for [`find_cloths`].
#[must_use]
pub fn find_piece(flat: &Flat, not_cloth: &[Vec<Point>]) -> Option<Found> {
    let told = tell(flat, not_cloth)?;
    let (calm, cloth) = (&told.calm, &told.cloth);
    let closed = cloth.closed((SEAM_GAP * calm.per_in / 2.0).round().max(1.0) as usize);
    let largest = closed.parts().into_iter().max_by_key(Vec::len)?;
    let piece = closed.of(&largest).without_holes();
    // Closing rounds the nooks; what was ground at the rim is ground again, slits and holes are not.
    let opened =
        Mask { cells: piece.cells.iter().zip(&cloth.cells).map(|(a, b)| *a && *b).collect(), ..piece };
    let largest = opened.without_holes().parts().into_iter().max_by_key(Vec::len)?;
    let whole = opened.without_holes().of(&largest);
    // In several parts only where closing joined them.
    let part = if largest.len() * 100 >= piece.count() * 97 { whole } else { piece };
    let found = outline(flat, &told, &part, false)?;
    Some(completed(flat, &told, found))
}

/// A piece with what looks like the table added, where its outline lacks some.
fn completed(flat: &Flat, told: &Told, found: Found) -> Found {
    let Some(whole) = whole::whole(flat, told, &found.outline.outer) else { return found };
    if polygon::area(&whole.ring) < MORE * found.outline.area() {
        return found;
    }
    // The other way round, each side still with the corner that it begins at.
    let n = whole.ring.len();
    let rough: Vec<Point> = whole.ring.iter().rev().map(|&p| flat.in_picture(p)).collect();
    let known: Vec<bool> = (0..n).map(|i| whole.known[(2 * n - 2 - i) % n]).collect();
    let fine = straightened(flat, &rough, &known, told.ink);
    let ring: Vec<Point> = fine.corners.iter().map(|&p| flat.on_table(p)).collect();
    let Ok(outline) = Region::try_new(ring, Vec::new()) else { return found };
    let mut doubts = found.doubts;
    doubts.push(Doubt::LittleContrast);
    doubts.sort();
    doubts.dedup();
    Found { outline, contrast: fine.contrast, doubts, ..found }
}

/// What of a table is cloth.
struct Told {
    ground: Ground,
    coarse: Coarse,
    /// The same without the lines of a mat.
    calm: Coarse,
    cloth: Mask,
    paper: Mask,
    /// Where the lines of the mat run, and what of the table shows between them.
    lines: Mask,
    /// How the lines of the mat differ from it, in square roots of light.
    ink: Option<[f32; 3]>,
}

/// Tells cloth from ground, cell by cell; `None` when next to nothing was seen.
fn tell(flat: &Flat, not_cloth: &[Vec<Point>]) -> Option<Told> {
    let coarse = Coarse::of(flat);
    if coarse.width < 8 || coarse.height < 8 {
        return None;
    }
    let calm = coarse.without_lines();
    let (paper, round) = cards::paper(flat, &calm, not_cloth);
    let ground = Ground::fit(&calm, &paper.cells, &round.cells)?;
    let bare = mask::bare(&calm, &ground);
    let (lines, ink) = mask::lines(&coarse, &calm, &ground, &bare, flat);
    let mut cloth = Mask::new(calm.width, calm.height);
    for (i, cell) in cloth.cells.iter_mut().enumerate() {
        *cell = calm.seen[i] && !bare.cells[i] && !lines.cells[i] && !paper.cells[i];
    }
    let cloth = filled(&cloth, &calm, &bare).closed(1).opened(2);
    let cloth = filled(&cloth, &calm, &bare);
    Some(Told { ground, coarse, calm, cloth, paper, lines, ink })
}

/// Fills what is no hole: parts of the print that look like the ground, which are small, or many.
fn filled(cloth: &Mask, coarse: &Coarse, bare: &Mask) -> Mask {
    let mut mask = cloth.clone();
    let not = Mask { cells: cloth.cells.iter().map(|cell| !cell).collect(), ..*cloth };
    let least = LEAST_HOLE * coarse.per_in * coarse.per_in;
    for part in not.parts() {
        let at_edge = part.iter().any(|&i| {
            let (column, row) = (i % cloth.width, i / cloth.width);
            column == 0 || row == 0 || column + 1 == cloth.width || row + 1 == cloth.height || !coarse.seen[i]
        });
        let like_ground = part.iter().filter(|&&i| bare.cells[i]).count() * 10 > part.len() * 7;
        if !at_edge && ((part.len() as f64) < least || !like_ground) {
            for i in part {
                mask.cells[i] = true;
            }
        }
    }
    mask
}

/// The clean outline of one part.
fn outline(flat: &Flat, told: &Told, part: &Mask, touching: bool) -> Option<Found> {
    let cell = told.calm.cell as f64;
    let rings: Vec<Vec<Point>> = trace::rings(part)
        .into_iter()
        .map(|ring| ring.into_iter().map(|p| Point::new(p.x * cell, p.y * cell)).collect())
        .collect();
    let least = LEAST_HOLE * flat.pixels_per_in.powi(2);
    let outer = rings.iter().max_by(|a, b| polygon::area(a).total_cmp(&polygon::area(b)))?;
    // Many gaps are a print whose ground is the table's colour.
    let mut holes: Vec<&Vec<Point>> = rings.iter().filter(|ring| polygon::area(ring) < -least).collect();
    if holes.len() > MOST_HOLES {
        holes.clear();
    }
    let whole = drawn(flat, outer, told.ink);
    let on_table = |ring: &[Point]| -> Vec<Point> { ring.iter().map(|&p| flat.on_table(p)).collect() };
    let rough: Vec<Point> =
        trace::corners(outer, 0.05 * flat.pixels_per_in).into_iter().map(|i| outer[i]).collect();
    let inner: Vec<Vec<Point>> =
        holes.iter().map(|hole| on_table(&drawn(flat, hole, told.ink).corners)).collect();
    let region = Region::try_new(on_table(&whole.corners), inner)
        .or_else(|_| Region::try_new(on_table(&whole.corners), Vec::new()))
        .or_else(|_| Region::try_new(on_table(&rough), Vec::new()))
        .ok()?;
    let wide = polygon::least_width(&region.outer);
    if region.area() < LEAST_AREA || wide < LEAST_WIDTH {
        return None;
    }
    let cut_off = cut_off(&told.calm, part);
    let doubts = doubts(&whole, &region, cut_off, touching, beside(part, &told.paper));
    Some(Found { outline: region, cut_off, contrast: whole.contrast, doubts })
}

fn doubts(whole: &Drawn, region: &Region, cut_off: bool, touching: bool, at_card: bool) -> Vec<Doubt> {
    [
        (whole.contrast < 0.08, Doubt::LittleContrast),
        (whole.found < if cut_off { 0.5 } else { 0.85 }, Doubt::EdgeUnclear),
        (whole.spread_in > 0.02, Doubt::Ragged),
        (touching, Doubt::Touching),
        (!region.holes.is_empty(), Doubt::Hole),
        (at_card, Doubt::AtCard),
        (region.area() < 1.0, Doubt::Small),
    ]
    .into_iter()
    .filter_map(|(holds, doubt)| holds.then_some(doubt))
    .collect()
}

/// Whether a part runs along the end of what was seen.
fn cut_off(coarse: &Coarse, part: &Mask) -> bool {
    let at_end = |i: usize| {
        let (column, row) = ((i % part.width) as i64, (i / part.width) as i64);
        [(-2, 0), (2, 0), (0, -2), (0, 2)].iter().any(|(dx, dy)| {
            let (c, r) = (column + dx, row + dy);
            let inside = (0..part.width as i64).contains(&c) && (0..part.height as i64).contains(&r);
            !inside || !coarse.seen[r as usize * part.width + c as usize]
        })
    };
    part.cells.iter().enumerate().filter(|(i, cell)| **cell && at_end(*i)).count() >= 4
}

/// Whether a part lies within a tenth of an inch of the paper of a card.
fn beside(part: &Mask, paper: &Mask) -> bool {
    let near = |i: usize| {
        let (column, row) = ((i % part.width) as i64, (i / part.width) as i64);
        [(-2, 0), (2, 0), (0, -2), (0, 2)].iter().any(|(dx, dy)| paper.at(column + dx, row + dy))
    };
    part.cells.iter().enumerate().any(|(i, cell)| *cell && near(i))
}

/// In inches: what is nearer than this to the piece is of it.
const SEAM_GAP: f64 = 0.2;
/// A piece is completed when it becomes larger by as much.
const MORE: f64 = 1.004;
/// In square inches: less is no cloth.
const LEAST_AREA: f64 = 0.4;
/// In inches.
const LEAST_WIDTH: f64 = 0.4;
/// In square inches: less is no hole.
const LEAST_HOLE: f64 = 0.06;
/// More of them are a print.
const MOST_HOLES: usize = 3;
