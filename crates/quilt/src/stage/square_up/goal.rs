//! What a piece is squared up to: from a wish to the lines to cut along.

use super::{Goal, LargestKind, SquareProblem};
use crate::length::{fraction, within};
use crate::log::Bound;
use crate::stage::piece::Piece;
use crate::table::{Face, Top};
use plane::{Line, Point, READING, Region, Turn, Vec2, clip_half_plane, polygon};

/// How far a circle's cuts may lie from it: its corners reach twice as far.
const ROUND_IN: f64 = 1.0 / 128.0;

/// The lines to cut along, and the shape that they leave.
pub(super) struct Target {
    pub(super) lines: Vec<Line>,
    pub(super) corners: Vec<Point>,
}

impl Target {
    fn polygon(corners: Vec<Point>) -> Self {
        let lines = polygon::edges(&corners).filter_map(|(a, b)| Line::through(a, b)).collect();
        Self { lines, corners }
    }
}

/// The target of a goal that only cuts.
pub(super) fn target(goal: &Goal, piece: &Piece, top: &Top) -> Result<Target, SquareProblem> {
    match goal {
        Goal::BorderLine { from_seam_in } => border_line(piece, top, *from_seam_in),
        Goal::Polygon { corners } => wished(corners, piece),
        Goal::Rectangle { width_in, height_in, turn_deg } => {
            let shape = rectangle(*width_in, *height_in)?;
            let what = format!("{} by {}", inches(*width_in), inches(*height_in));
            place(piece, &shape, turn_deg.map(turn).transpose()?, &what)
        }
        Goal::Circle { diameter_in } => circle(piece, *diameter_in),
        Goal::Largest { kind } => largest(piece, *kind),
        Goal::RectangleByCorners { width_in, height_in, turn_deg } => {
            bounding(piece, *width_in, *height_in, turn(*turn_deg)?)
        }
    }
}

fn inches(length: f64) -> String {
    fraction(length, 8)
}

fn turn(degrees: f64) -> Result<Turn, SquareProblem> {
    within("turn", degrees, [-360.0, 360.0], "from -360 to 360 degrees")?;
    Ok(Turn::from_degrees(degrees))
}

/// A rectangle about the origin.
fn rectangle(width_in: f64, height_in: f64) -> Result<[Point; 4], SquareProblem> {
    for length_in in [width_in, height_in] {
        if !(length_in.is_finite() && length_in > READING) {
            return Err(SquareProblem::Size(length_in));
        }
    }
    let (w, h) = (width_in / 2.0, height_in / 2.0);
    Ok([(-w, -h), (w, -h), (w, h), (-w, h)].map(|(x, y)| Point::new(x, y)))
}

/// Each side's border seam, and the line so far outside it.
fn border_line(piece: &Piece, top: &Top, from_seam_in: f64) -> Result<Target, SquareProblem> {
    if !(from_seam_in.is_finite() && from_seam_in > READING) {
        return Err(SquareProblem::Size(from_seam_in));
    }
    let mut lines = Vec::new();
    for (i, side) in piece.sides.iter().enumerate() {
        let own = Bound::Raw(side.name);
        // The strip that gave the side its name may come to a point before it.
        let beside = |face: &&Face| face.around().contains(&own) || face.patch == side.name.by;
        let around = top.faces().values().filter(beside).flat_map(Face::around);
        let seams = around.filter_map(|bound| match bound {
            Bound::Seam(_) => top.line(*bound),
            Bound::Raw(_) => None,
        });
        // The nearest seam that runs along the side; a border may have come out uneven by 3 degrees.
        let inside = |line: &Line| line.inside_by(side.from.midpoint(side.to));
        let beside = seams.filter(|line| line.turn_cosine(side.line) > 0.998_6 && inside(line) < -READING);
        let seam = beside.max_by(|a, b| inside(a).total_cmp(&inside(b)));
        let seam = seam.ok_or(SquareProblem::NoBorder { side: i + 1 })?;
        let have_in =
            -[side.from, side.to].map(|p| seam.inside_by(p)).into_iter().fold(f64::NEG_INFINITY, f64::max);
        if have_in < from_seam_in - READING {
            return Err(SquareProblem::NarrowBorder { side: i + 1, have_in, asked_in: from_seam_in });
        }
        lines.push(seam.inward(-from_seam_in));
    }
    let corners = crate::stage::strips::corners_of(&lines);
    check_simple(&corners)?;
    Ok(Target { lines, corners })
}

fn check_simple(corners: &[Point]) -> Result<(), SquareProblem> {
    let region = Region::try_new(corners.to_vec(), Vec::new()).map_err(SquareProblem::Crosses)?;
    // Turned over, the lines would be cut from the wrong side.
    if region.outer == corners { Ok(()) } else { Err(SquareProblem::TurnedOver) }
}

fn wished(corners: &[Point], piece: &Piece) -> Result<Target, SquareProblem> {
    let region = Region::try_new(corners.to_vec(), Vec::new()).map_err(SquareProblem::Crosses)?;
    Piece::of_outline(&region.outer).map_err(SquareProblem::Target)?;
    check_inside(&region.outer, piece)?;
    Ok(Target::polygon(region.outer))
}

/// Only cutting is possible: the target must lie in the piece.
fn check_inside(corners: &[Point], piece: &Piece) -> Result<(), SquareProblem> {
    let out = |p: &Point| piece.sides.iter().map(|side| -side.line.inside_by(*p)).fold(0.0, f64::max);
    let worst = corners.iter().map(|p| (out(p), *p)).max_by(|a, b| a.0.total_cmp(&b.0));
    match worst.filter(|worst| worst.0 > READING) {
        Some((missing_in, at)) => Err(SquareProblem::Outside { at, missing_in }),
        None => Ok(()),
    }
}

/// A rectangle of given size where it has most room on all sides: at the turn that is wished, else as
/// the drawing lies or along a side, else at any.
fn place(piece: &Piece, shape: &[Point], wished: Option<Turn>, what: &str) -> Result<Target, SquareProblem> {
    let sides = piece.sides.iter().map(|side| side.line.direction());
    let turns: Vec<Turn> = match wished {
        Some(turn) => vec![turn],
        None => std::iter::once(Turn::NONE).chain(sides.flat_map(|turn| [turn, turn.left()])).collect(),
    };
    let mut best: Option<(f64, Vec<Point>)> = None;
    for turn in turns {
        let spokes: Vec<Vec2> = shape.iter().map(|p| turn.apply(p.to_vec2())).collect();
        let middles = middles(piece, &spokes);
        let Some(&corner) = middles.first() else { continue };
        let region = Region { outer: middles, holes: Vec::new() };
        let (clear, middle) =
            plane::largest_disc(&region, 1e-6).map_or((0.0, corner), |disc| (disc.radius, disc.centre));
        if best.as_ref().is_none_or(|best| clear > best.0 + READING) {
            best = Some((clear, spokes.iter().map(|v| middle + *v).collect()));
        }
    }
    if let Some((_, corners)) = best {
        return Ok(Target::polygon(corners));
    }
    let room = region(piece);
    let found = match wished {
        Some(turn) => plane::largest::largest_at(&room, shape, turn),
        None => plane::largest::largest(&room, shape, 180.0),
    };
    match found {
        Some(found) if found.scale >= 1.0 => {
            let middle = polygon::centroid(&found.corners).unwrap_or(Point::ORIGIN);
            let shrunk = found.corners.iter().map(|p| middle.lerp(*p, 1.0 / found.scale)).collect();
            Ok(Target::polygon(shrunk))
        }
        found => {
            let percent = found.map_or(0.0, |found| found.scale * 100.0);
            Err(SquareProblem::NoRoom { what: what.to_owned(), percent })
        }
    }
}

/// Where the middle of a shape, given by its spokes, may lie in a piece.
fn middles(piece: &Piece, spokes: &[Vec2]) -> Vec<Point> {
    piece.sides.iter().fold(piece.corners(), |kept, side| {
        let normal = side.line.normal.vec();
        let deep = spokes.iter().map(|v| -normal.dot(*v)).fold(f64::NEG_INFINITY, f64::max);
        clip_half_plane(&kept, side.line.inward(deep), 0.0)
    })
}

fn region(piece: &Piece) -> Region {
    Region { outer: piece.corners(), holes: Vec::new() }
}

fn circle(piece: &Piece, diameter_in: f64) -> Result<Target, SquareProblem> {
    if !(diameter_in.is_finite() && diameter_in > READING) {
        return Err(SquareProblem::Size(diameter_in));
    }
    let disc = plane::largest_disc(&region(piece), 1e-6);
    let disc = disc.ok_or(SquareProblem::Size(diameter_in))?;
    let radius = diameter_in / 2.0;
    if disc.radius < radius - READING {
        let what = format!("a circle {} across", inches(diameter_in));
        return Err(SquareProblem::NoRoom { what, percent: disc.radius / radius * 100.0 });
    }
    Ok(round(piece, disc.centre, radius.min(disc.radius)))
}

/// As many cuts as keep within 1/64 of a circle. Sides of the piece that touch it count as cuts, and
/// those between two of them are evenly turned: so none is nearly in line with another.
fn round(piece: &Piece, centre: Point, radius: f64) -> Target {
    let touches = |line: &Line| line.inside_by(centre) < radius + ROUND_IN;
    let mut fixed: Vec<Line> = piece.sides.iter().map(|side| side.line).filter(touches).collect();
    if fixed.is_empty() {
        fixed.push(tangent(centre, radius, Turn::QUARTER));
    }
    let angle = |from: Line, to: Line| {
        let turn = from.turn_sine(to).atan2(from.turn_cosine(to));
        if turn > 1e-9 { turn } else { turn + std::f64::consts::TAU }
    };
    let most = 2.0 * (radius / (radius + ROUND_IN)).acos();
    let mut lines = Vec::new();
    for (i, &line) in fixed.iter().enumerate() {
        let gap = angle(line, fixed[(i + 1) % fixed.len()]);
        let count = (gap / most).ceil().max(1.0) as usize;
        lines.push(line);
        let step = gap / count as f64;
        lines.extend((1..count).map(|k| {
            let turn = Turn::from_degrees((k as f64 * step).to_degrees());
            tangent(centre, radius, line.normal.then(turn))
        }));
    }
    let corners = crate::stage::strips::corners_of(&lines);
    Target { lines, corners }
}

fn tangent(centre: Point, radius: f64, normal: Turn) -> Line {
    Line { normal, at: normal.vec().dot(centre.to_vec2()) - radius }
}

fn largest(piece: &Piece, kind: LargestKind) -> Result<Target, SquareProblem> {
    let room = region(piece);
    let shape = match kind {
        LargestKind::Rectangle => plane::largest::largest_rectangle(&room),
        LargestKind::Square => plane::largest::largest_square(&room),
        LargestKind::Circle => {
            let disc = plane::largest_disc(&room, 1e-6).ok_or(SquareProblem::Size(0.0))?;
            return Ok(round(piece, disc.centre, disc.radius));
        }
    };
    let shape = shape.ok_or(SquareProblem::Size(0.0))?;
    Ok(Target::polygon(a_hair_less(&shape.corners)))
}

/// The largest shapes touch sides of the piece with their corners: drawn in by 1/2048, so that no side
/// is left there that nobody could see.
fn a_hair_less(corners: &[Point]) -> Vec<Point> {
    plane::grow_outline(corners, -READING / 2.0)
}

/// The rectangle around a piece at a turn, or a smaller one in its middle.
fn bounding(
    piece: &Piece,
    width_in: Option<f64>,
    height_in: Option<f64>,
    turn: Turn,
) -> Result<Target, SquareProblem> {
    let level: Vec<Point> =
        piece.corners().iter().map(|p| Point::ORIGIN + turn.inverse().apply(p.to_vec2())).collect();
    let (lo, hi) = polygon::bounds(&level).unwrap_or_default();
    let most = hi - lo;
    for (asked, most_in) in [(width_in, most.x), (height_in, most.y)] {
        if let Some(asked_in) = asked {
            if !(asked_in.is_finite() && asked_in > READING) {
                return Err(SquareProblem::Size(asked_in));
            }
            if asked_in > most_in + READING {
                return Err(SquareProblem::WiderThanPiece { asked_in, most_in });
            }
        }
    }
    let middle = lo.midpoint(hi).to_vec2();
    let shape = rectangle(width_in.unwrap_or(most.x), height_in.unwrap_or(most.y))?;
    let at = |p: &Point| Point::ORIGIN + turn.apply(p.to_vec2() + middle);
    Ok(Target::polygon(shape.iter().map(at).collect()))
}
