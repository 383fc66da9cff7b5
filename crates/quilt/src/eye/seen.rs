//! The eye check from a picture alone, for a piece of which no log tells: how round it is, how its weight
//! is balanced, how its colours go from the middle outward.
//!
//! The rows are those of the planned eye check, by the same formulas, with the cells of the picture in
//! the place of patches. Round and balance come out as they do for patches, since both add up over area.
//! The drift can differ: it counts shares of the area where the planned one counts pieces, and a cell
//! shows a figure of the print where a patch shows its mean. What needs patches, seams or prints can't
//! be told. Inches, y up.

use super::frame::{Frame, RINGS};
use super::row::{Quality, Row};
use super::scale::Value;
use super::shapes::{Shape, Shapes};
use super::{balance, drift, ring};
use crate::cloth::ClothId;
use crate::log::Mark;
use crate::wish::Wish;
use colour::Lab;
use plane::{Point, Vec2};
use serde::Serialize;

/// A small part of a picture of the piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cell {
    /// Its middle.
    pub at: Point,
    /// Its area inside the outline, in square inches.
    pub area_in2: f64,
    /// Its mean colour.
    pub lab: Lab,
}

/// A ring of the piece, of four of equal width from the middle outward.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RingSeen {
    /// Its mean colour.
    pub lab: Lab,
    /// CIEDE2000 from the ring before it that isn't empty; nothing for the first.
    pub step: Option<f64>,
}

/// The eye check of a picture.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SeenEye {
    /// Round, balance and drift.
    pub rows: Vec<Row>,
    /// The rings from the middle outward, those that aren't empty.
    pub rings: Vec<RingSeen>,
    /// How steadily the lightness goes with the distance from the middle: the weighted correlation of
    /// ranks, -1 (darker outward) to 1 (lighter outward).
    pub lighter_outward: f64,
}

/// Looks at a piece by its finished outline and the cells of a picture of it. `None` for an outline
/// without area or without cells.
#[must_use]
pub fn seen_eye(outline: &[Point], cells: &[Cell], wish: &Wish) -> Option<SeenEye> {
    let shapes = Shapes {
        outline: outline.to_vec(),
        allowance_in: 0.0,
        shapes: cells.iter().filter(|cell| cell.area_in2 > 0.0).map(square).collect(),
        ..Shapes::default()
    };
    let frame = Frame::of(&shapes, wish)?;
    let rings = rings(&frame);
    let pairs: Vec<(f64, f64)> =
        frame.measures.iter().zip(&shapes.shapes).map(|(m, shape)| (m.r, shape.lab.l)).collect();
    let areas: Vec<f64> = frame.measures.iter().map(|m| m.area).collect();
    let lighter_outward = super::rank::spearman(&pairs, &areas);
    // A cell is no place to point at: only what belongs to the whole is marked.
    let drift = if wish.drift.len() < 2 {
        drift_seen(&rings, lighter_outward)
    } else {
        Row { marks: Vec::new(), ..drift::drift(&frame) }
    };
    Some(SeenEye { rows: vec![ring::round(&frame), balance::balance(&frame), drift], rings, lighter_outward })
}

/// A cell as a shape: a square of its area about its middle.
fn square(cell: &Cell) -> Shape {
    let half = cell.area_in2.sqrt() / 2.0;
    let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    Shape {
        patch: Mark(0),
        points: corners.map(|(x, y)| cell.at + Vec2::new(x * half, y * half)).to_vec(),
        lab: cell.lab,
        print: None,
        cloth: ClothId(0),
    }
}

fn rings(frame: &Frame<'_>) -> Vec<RingSeen> {
    let means = (0..RINGS).filter_map(|ring| {
        let here = (0..frame.measures.len()).filter(|&i| frame.ring(i) == ring);
        colour::mean(here.map(|i| (frame.piece.shapes[i].lab, frame.measures[i].area)))
    });
    let mut before: Option<Lab> = None;
    means
        .map(|lab| {
            let step = before.map(|before| colour::difference(before, lab));
            before = Some(lab);
            RingSeen { lab, step }
        })
        .collect()
}

/// The drift where none is wished: told, not judged.
fn drift_seen(rings: &[RingSeen], lighter_outward: f64) -> Row {
    let mut words: Vec<&str> = rings.iter().map(|ring| colour::nearest_word(ring.lab)).collect();
    words.dedup();
    let steps: Vec<f64> = rings.iter().filter_map(|ring| ring.step).collect();
    let most = steps.iter().copied().fold(0.0, f64::max);
    let least = steps.iter().copied().fold(f64::MAX, f64::min).min(most);
    let way = match lighter_outward {
        r if r >= 0.3 => "; it gets lighter outward",
        r if r <= -0.3 => "; it gets darker outward",
        _ => "",
    };
    let told = format!(
        "From the middle outward: {}; from ring to ring the step is {least:.0} to {most:.0}{way}. No drift is wished, so none is judged.",
        words.join(", ")
    );
    let values = vec![
        Value::costing("least step", least, 0.0),
        Value::costing("most step", most, 0.0),
        Value::costing("lighter outward", lighter_outward, 0.0),
    ];
    Row { values, ..Row::not_wished(Quality::Drift, &told) }
}

/// The finished outline of a piece whose raw edge is seen: `allowance_in` further in all round. The raw
/// one where nothing would be left.
#[must_use]
pub fn finished_from_raw(outline: &[Point], allowance_in: f64) -> Vec<Point> {
    let region = plane::Region { outer: outline.to_vec(), holes: Vec::new() };
    let inside = plane::offset(&region, -allowance_in, 4.0);
    let largest = inside.into_iter().max_by(|a, b| a.area().total_cmp(&b.area()));
    largest.map_or_else(|| outline.to_vec(), |region| region.outer)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::eye::Grade;
    use crate::wish::even_drift;
    use plane::polygon;

    /// A disc of radius 8 about (3, -2) in cells of a quarter inch.
    fn disc(lab: &dyn Fn(Vec2) -> Lab) -> (Vec<Point>, Vec<Cell>) {
        let middle = Point::new(3.0, -2.0);
        let outline =
            (0..360).map(|i| middle + plane::Turn::from_degrees(f64::from(i)).vec() * 8.0).collect();
        let places = (-32..32).flat_map(|i| (-32..32).map(move |j| (i, j)));
        let places = places.map(|(i, j)| Vec2::new(f64::from(i) + 0.5, f64::from(j) + 0.5) * 0.25);
        let inside = places.filter(|off| off.length() <= 8.0);
        let cells = inside.map(|off| Cell { at: middle + off, area_in2: 0.0625, lab: lab(off) }).collect();
        (outline, cells)
    }

    fn value(eye: &SeenEye, row: usize, name: &str) -> f64 {
        eye.rows[row].values.iter().find(|value| value.name == name).unwrap().value
    }

    const GREY: Lab = Lab::new(50.0, 0.0, 0.0);

    #[test]
    fn a_plain_disc_is_round_and_balanced_and_does_not_drift() {
        let (outline, cells) = disc(&|_| GREY);
        let eye = seen_eye(&outline, &cells, &Wish::default()).unwrap();
        assert!(value(&eye, 0, "strays") < 1e-3);
        assert!(value(&eye, 1, "off") < 1e-9);
        assert_eq!(eye.rows[1].grade, Grade::Good);
        assert_eq!((eye.rings.len(), eye.lighter_outward), (4, 0.0));
        assert!(eye.rings.iter().all(|ring| ring.step.unwrap_or(0.0) < 1e-9));
        assert_eq!(eye.rows[2].grade, Grade::NotWished);
    }

    // The middle of a half disc lies 4 R / 3π from the centre. With weights 80 (L* 20) and 20 (L* 80) of equal
    // halves the centre of weight lies (80 - 20) / (80 + 20) of that off: 0.6 * 4 / 3π of R (calculus).
    #[test]
    fn a_half_dark_disc_lies_off_by_its_half_moons_middle() {
        let (outline, cells) = disc(&|off| Lab::new(if off.x < 0.0 { 20.0 } else { 80.0 }, 0.0, 0.0));
        let eye = seen_eye(&outline, &cells, &Wish::default()).unwrap();
        let exact = 0.6 * 4.0 / (3.0 * std::f64::consts::PI);
        assert!((value(&eye, 1, "off") - exact).abs() < 2e-3, "{}", value(&eye, 1, "off"));
        assert_eq!(eye.rows[1].grade, Grade::Poor);
        assert!(eye.lighter_outward.abs() < 0.05, "{}", eye.lighter_outward);
    }

    #[test]
    fn rings_of_colour_are_read_from_the_middle_outward_and_judged_by_a_wish() {
        let ring = |off: Vec2| ((off.length() / 8.0 * 4.0) as usize).min(3);
        let lights = [30.0, 42.0, 54.0, 66.0];
        let (outline, cells) = disc(&|off| Lab::new(lights[ring(off)], 0.0, 0.0));
        let eye = seen_eye(&outline, &cells, &Wish::default()).unwrap();
        for (seen, light) in eye.rings.iter().zip(lights) {
            assert!((seen.lab.l - light).abs() < 1.0, "{seen:?} {light}");
        }
        assert!(eye.lighter_outward > 0.9, "{}", eye.lighter_outward);
        assert!(eye.rows[2].words.contains("lighter outward"), "{}", eye.rows[2].words);
        let stops: Vec<Lab> = lights.map(|l| Lab::new(l, 0.0, 0.0)).to_vec();
        let wished = Wish { drift: even_drift(&stops), sparks: 0.0, ..Wish::default() };
        let eye = seen_eye(&outline, &cells, &wished).unwrap();
        assert!(value(&eye, 2, "order") > 0.9);
        let turned = Wish { drift: even_drift(&stops.into_iter().rev().collect::<Vec<_>>()), ..wished };
        assert!(value(&seen_eye(&outline, &cells, &turned).unwrap(), 2, "order") < -0.9);
    }

    #[test]
    fn the_allowance_comes_off_all_round_and_nothing_has_no_eye_check() {
        let square = plane::Region::rectangle(6.0, 4.0).outer;
        let inner = finished_from_raw(&square, 0.25);
        assert!((polygon::area(&inner) - 5.5 * 3.5).abs() < 1e-6);
        assert_eq!(finished_from_raw(&square, 3.0), square);
        assert_eq!(seen_eye(&square, &[], &Wish::default()), None);
        assert_eq!(
            seen_eye(&[], &[Cell { at: Point::ORIGIN, area_in2: 1.0, lab: GREY }], &Wish::default()),
            None
        );
    }
}
