//! The corners of a binding: those that look alike told once, each kind with its drawings.

use super::PapersWish;
use super::cut_list::runs;
use super::fold::Bend;
use papers::flow::{Block, faces};
use quilt::stage::binding::{BindingChoice, Corner, Way};

/// Angles that differ by no more are drawn once, in degrees: each lies within a degree of the middle.
const EQUAL_DEG: f64 = 2.0;

/// The corners, those that look alike drawn once, in two columns.
pub(super) fn corners(told: &[&Corner], choice: &BindingChoice, wish: &PapersWish) -> Vec<Block> {
    let mut blocks = Vec::new();
    if told.iter().any(|corner| corner.way == Way::Fold) {
        blocks.push(Block::body(
            "1: sew, stop at the dot, and fold the strip up over the red line, the bisector. 2: fold it down along the red \
             line, square to the next side, and sew on from the raw edge.",
        ));
    }
    let items = alike(told).iter().map(|alike| drawn(alike, choice, wish)).collect();
    blocks.push(Block::Columns { count: 2, items });
    blocks
}

/// Corners that are turned in one way at angles within a degree, in the order of their angles.
fn alike<'a>(told: &[&'a Corner]) -> Vec<Vec<&'a Corner>> {
    let mut sorted = told.to_vec();
    sorted.sort_by(|a, b| a.inside_deg.total_cmp(&b.inside_deg));
    let mut found: Vec<Vec<&Corner>> = Vec::new();
    for corner in sorted {
        let same = |alike: &&mut Vec<&Corner>| {
            alike.first().is_some_and(|first| {
                first.way == corner.way && corner.inside_deg - first.inside_deg <= EQUAL_DEG
            })
        };
        match found.iter_mut().find(same) {
            Some(alike) => alike.push(corner),
            None => found.push(vec![corner]),
        }
    }
    found
}

/// Which corners, and at which angle: `Corners 1, 2, 4: 129°`.
pub(super) fn angles(numbers: &[usize], degrees: &[f64]) -> String {
    let least = degrees.iter().copied().fold(f64::INFINITY, f64::min).round();
    let most = degrees.iter().copied().fold(0.0, f64::max).round();
    let corners = if numbers.len() == 1 { "Corner" } else { "Corners" };
    let angle = if most > least { format!("{least:.0}° to {most:.0}°") } else { format!("{least:.0}°") };
    format!("{corners} {}: {angle}", runs(numbers))
}

/// Drawings over what to do there.
fn drawn(alike: &[&Corner], choice: &BindingChoice, wish: &PapersWish) -> Vec<Block> {
    let Some(corner) = alike.get(alike.len() / 2) else { return Vec::new() };
    let shape = Bend::new(corner, choice);
    let pad = match corner.way {
        Way::Fold => shape.folded(),
        Way::Pivot => shape.turned(),
        Way::Clip => shape.clipped(corner),
        Way::Apart | Way::Curve => shape.apart(corner),
    };
    let numbers: Vec<usize> = alike.iter().map(|corner| corner.corner).collect();
    let degrees: Vec<f64> = alike.iter().map(|corner| corner.inside_deg).collect();
    let title = angles(&numbers, &degrees);
    vec![
        Block::Heading { level: 3, words: format!("{title}, {}", way_words(corner.way)) },
        pad.block(title, ""),
        Block::set(faces::CAUTION, words(corner, wish)),
    ]
}

const fn way_words(way: Way) -> &'static str {
    match way {
        Way::Fold => "folded",
        Way::Pivot => "turned at the needle",
        Way::Apart => "bound apart",
        Way::Clip => "inside, clipped",
        Way::Curve => "a curve",
    }
}

/// What to do, in the maker's unit.
fn words(corner: &Corner, wish: &PapersWish) -> String {
    let length = |inches: f64| wish.length(inches.abs(), 16);
    match corner.way {
        Way::Fold => format!(
            "Stop {} before the corner. {} is tucked in.",
            length(corner.stop_in),
            length(corner.tuck_in)
        ),
        Way::Pivot => {
            format!("Stop {} before it with the needle down, turn, and sew on.", length(corner.stop_in))
        }
        Way::Clip => format!(
            "Staystitch along the seam line, clip {} deep to it at the mark, pull the edge straight and sew on. Fold {} into the mitre after.",
            length(corner.clip_in.unwrap_or_default()),
            length(corner.tuck_in)
        ),
        Way::Apart => {
            let blunt = corner.blunt_in.map_or_else(String::new, |off| {
                format!(
                    " Or cut the tip off {} from its point, along the line, and fold both new corners.",
                    length(off)
                )
            });
            format!("Too sharp to fold. Bind side 1 to its end, then side 2 over it.{blunt}")
        }
        Way::Curve => "Sewn on without a stop.".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::Point;

    #[test]
    fn corners_within_a_degree_are_told_once() {
        let at = |no: usize, inside_deg: f64, way: Way| Corner {
            corner: no,
            at: Point::ORIGIN,
            inside_deg,
            way,
            stop_in: 0.0,
            tuck_in: 0.0,
            extra_in: 0.0,
            clip_in: None,
            blunt_in: None,
        };
        let all = [
            at(1, 129.2, Way::Fold),
            at(2, 128.9, Way::Fold),
            at(3, 141.0, Way::Fold),
            at(4, 129.1, Way::Fold),
            at(5, 129.0, Way::Pivot),
        ];
        let found = alike(&all.iter().collect::<Vec<_>>());
        let titles: Vec<String> = found
            .iter()
            .map(|alike| {
                let numbers: Vec<usize> = alike.iter().map(|corner| corner.corner).collect();
                angles(&numbers, &alike.iter().map(|corner| corner.inside_deg).collect::<Vec<_>>())
            })
            .collect();
        assert_eq!(titles, ["Corners 1, 2, 4: 129°", "Corner 5: 129°", "Corner 3: 141°"]);
    }
}
