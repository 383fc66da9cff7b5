//! Is a leftover of binding long enough?

use super::BindingProblem;
use crate::cloth::{Cloth, Kind};
use plane::{Point, Turn, polygon};
use serde::Serialize;

/// How much narrower than the strip a leftover may be and still count as wide enough: 1/32 inch, what
/// a measured width is out by (common practice, no source).
const WIDTH_SLACK_IN: f64 = 1.0 / 32.0;

/// Whether leftovers reach.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Leftover {
    /// Yes or no.
    pub is_enough: bool,
    /// By how much it is too long; negative when it is too short.
    pub over_in: f64,
    /// What it gives, its own joins taken off.
    pub has_in: f64,
    /// Net length and closing overlap.
    pub needed_in: f64,
    /// What is missing of the extra for handling, once it reaches.
    pub handling_short_in: f64,
}

/// Whether leftovers, joined in a row, give `needed_in`: no more is asked of them, and handling is
/// said apart.
#[must_use]
pub fn leftover(lengths_in: &[f64], join_loss_in: f64, needed_in: f64, handling_in: f64) -> Leftover {
    let joins = lengths_in.len().saturating_sub(1) as f64;
    let has_in = lengths_in.iter().sum::<f64>() - joins * join_loss_in;
    let over_in = has_in - needed_in;
    Leftover {
        is_enough: over_in >= -1e-9,
        over_in,
        has_in,
        needed_in,
        handling_short_in: (handling_in - over_in.max(0.0)).max(0.0),
    }
}

/// The length that a leftover in the stash gives at full width, its ends squared.
///
/// # Errors
/// A cloth that is no leftover of binding, or one narrower than the strip must be.
pub fn leftover_of(cloth: &Cloth, strip_width_in: f64) -> Result<f64, BindingProblem> {
    if cloth.kind != Kind::Binding {
        return Err(BindingProblem::NotBinding(cloth.kind));
    }
    let narrow = |has_in| BindingProblem::LeftoverNarrow { has_in, needed_in: strip_width_in };
    let along = along(cloth).ok_or(narrow(0.0))?;
    let flat: Vec<Point> = cloth.outline.outer.iter().map(|&p| turned(p, along)).collect();
    let width_in = polygon::bounds(&flat).map_or(0.0, |(lo, hi)| hi.y - lo.y);
    if width_in < strip_width_in - WIDTH_SLACK_IN {
        return Err(narrow(width_in));
    }
    Ok(full_width(&flat, strip_width_in.min(width_in)))
}

/// The way a strip runs: along its longest edge.
fn along(cloth: &Cloth) -> Option<Turn> {
    let edges = polygon::edges(&cloth.outline.outer);
    let longest = edges.max_by(|a, b| a.0.distance(a.1).total_cmp(&b.0.distance(b.1)));
    longest.and_then(|(a, b)| Turn::towards(b - a))
}

/// Whether a leftover was cut on the bias: more than 30 degrees off both threads (common practice, no
/// source).
pub(super) fn is_bias(cloth: &Cloth) -> bool {
    let off =
        along(cloth).map_or(0.0, |along| cloth.grain.inverse().then(along).to_degrees().rem_euclid(90.0));
    (30.0..=60.0).contains(&off)
}

/// A point in coordinates whose x runs along the strip.
fn turned(p: Point, along: Turn) -> Point {
    let v = along.inverse().apply(p.to_vec2());
    Point::new(v.x, v.y)
}

/// The longest stretch in which an outline is at least `width` wide: between its corners the width
/// changes evenly, so it is enough to look there and where it passes the width.
fn full_width(outline: &[Point], width: f64) -> f64 {
    let mut stops: Vec<f64> = outline.iter().map(|p| p.x).collect();
    stops.sort_by(f64::total_cmp);
    stops.dedup();
    let (mut best, mut run) = (0.0_f64, 0.0);
    for pair in stops.windows(2) {
        let length = pair[1] - pair[0];
        // Just inside both ends, so that a step in the outline counts on its own side.
        let inset = (length * 1e-6).min(1e-7);
        let [here, there] = [breadth(outline, pair[0] + inset), breadth(outline, pair[1] - inset)]
            .map(|breadth| breadth - width + WIDTH_SLACK_IN);
        let (from, to) = match (here >= 0.0, there >= 0.0) {
            (true, true) => (0.0, 1.0),
            (true, false) => (0.0, here / (here - there)),
            (false, true) => (here / (here - there), 1.0),
            (false, false) => (0.0, 0.0),
        };
        run = if from > 0.0 { 0.0 } else { run } + (to - from) * length;
        best = best.max(run);
        if to < 1.0 {
            run = 0.0;
        }
    }
    best
}

/// How wide an outline is across at `x`.
fn breadth(outline: &[Point], x: f64) -> f64 {
    let crossed = polygon::edges(outline).filter(|(a, b)| (a.x > x) != (b.x > x));
    let mut at: Vec<f64> = crossed.map(|(a, b)| a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x)).collect();
    at.sort_by(f64::total_cmp);
    at.chunks_exact(2).map(|pair| pair[1] - pair[0]).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cloth::{ClothId, Facts, Look};
    use plane::Region;

    fn near(found: f64, expected: f64) {
        assert!((found - expected).abs() < 1e-4, "{found} is not {expected}");
    }

    fn cloth(kind: Kind, outline: &[(f64, f64)]) -> Cloth {
        Cloth {
            id: ClothId(1),
            name: String::new(),
            kind,
            outline: Region::try_new(outline.iter().map(|&(x, y)| Point::new(x, y)).collect(), Vec::new())
                .unwrap(),
            flaws: Vec::new(),
            about: false,
            look: Look::plain(colour::Lab::default()),
            grain: Turn::NONE,
            print: None,
            place: String::new(),
            facts: Facts::default(),
            picture: None,
            parts: Vec::new(),
            parent: None,
        }
    }

    #[test]
    fn yes_or_no_and_by_how_much() {
        let yes = leftover(&[266.25], 2.25, 266.25, 10.0);
        assert_eq!((yes.is_enough, yes.over_in, yes.handling_short_in), (true, 0.0, 10.0));
        let no = leftover(&[266.25 - 1.0 / 16.0], 2.25, 266.25, 10.0);
        assert_eq!((no.is_enough, no.over_in), (false, -1.0 / 16.0));
        let two = leftover(&[140.0, 140.0], 2.25, 266.25, 10.0);
        assert_eq!((two.has_in, two.is_enough, two.handling_short_in), (277.75, true, 0.0));
        assert!(!leftover(&[], 2.25, 1.0, 0.0).is_enough);
    }

    #[test]
    fn a_leftover_is_measured_where_it_is_wide_enough() {
        let plain = cloth(Kind::Binding, &[(0.0, 0.0), (90.0, 0.0), (90.0, 2.25), (0.0, 2.25)]);
        near(leftover_of(&plain, 2.25).unwrap(), 90.0);
        // Ends at 45 degrees: the full width is there for 90 less 2 1/4, and the slack's worth.
        let slanted = cloth(Kind::Binding, &[(0.0, 0.0), (90.0, 0.0), (92.25, 2.25), (2.25, 2.25)]);
        near(leftover_of(&slanted, 2.25).unwrap(), 90.0 - 2.25 + 2.0 / 32.0);
        // Lying at an angle in its own coordinates it is as long.
        let leaning: Vec<(f64, f64)> = [(0.0, 0.0), (90.0, 0.0), (90.0, 2.25), (0.0, 2.25)]
            .iter()
            .map(|&(x, y)| (0.6 * x - 0.8 * y, 0.8 * x + 0.6 * y))
            .collect();
        near(leftover_of(&cloth(Kind::Binding, &leaning), 2.25).unwrap(), 90.0);
        // A notch of half its width in the middle leaves the longer part.
        let notched = cloth(
            Kind::Binding,
            &[
                (0.0, 0.0),
                (90.0, 0.0),
                (90.0, 2.25),
                (60.0, 2.25),
                (60.0, 1.0),
                (58.0, 1.0),
                (58.0, 2.25),
                (0.0, 2.25),
            ],
        );
        near(leftover_of(&notched, 2.25).unwrap(), 58.0);
    }

    #[test]
    fn what_is_no_binding_or_too_narrow_is_refused() {
        let outline = [(0.0, 0.0), (90.0, 0.0), (90.0, 2.0), (0.0, 2.0)];
        assert_eq!(
            leftover_of(&cloth(Kind::Scrap, &outline), 2.0),
            Err(BindingProblem::NotBinding(Kind::Scrap))
        );
        assert_eq!(
            leftover_of(&cloth(Kind::Binding, &outline), 2.25),
            Err(BindingProblem::LeftoverNarrow { has_in: 2.0, needed_in: 2.25 })
        );
    }
}
