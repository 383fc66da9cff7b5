//! The first patch: a small polygon of five or so sides, cut from cloth of the centre's colour.

use crate::centre::{Along, Centre, Chain, Placed, Side};
use crate::chance::Chance;
use crate::choose::{self, Pick};
use crate::heap::{Heap, Rest};
use crate::look::LookParts;
use crate::moves::{State, Taken, Trail};
use crate::split::finished_of;
use crate::target::Target;
use colour::Quick;
use plane::{Fit, FitPiece, Line, Point, Pose, Turn, Turning, polygon};
use quilt::log::{Mark, Name};
use quilt::wish::{Motif, Wish};
use std::sync::Arc;

/// A centre of one patch, or `None` when no cloth has room for it.
pub(crate) fn start(heap: &Heap, target: &Target, wish: &Wish, chance: &mut Chance) -> Option<State> {
    let cut = outline(target, wish, chance);
    if let Some(motif) = &wish.motif
        && let Some(state) = with_motif(heap, wish, &cut, motif)
    {
        return Some(state);
    }
    let mut ranked: Vec<(f64, usize)> = heap
        .groups()
        .iter()
        .enumerate()
        .map(|(i, group)| {
            let off = wish.colour_at(0.0).map_or(0.0, |lab| group.quick.difference(Quick::new(lab)));
            (off + chance.between(0.0, 4.0), i)
        })
        .collect();
    ranked.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    ranked.iter().find_map(|(_, group)| lay(heap, wish, &cut, *group))
}

/// An uneven pentagon or hexagon of about the wished size.
fn outline(target: &Target, wish: &Wish, chance: &mut Chance) -> Vec<Point> {
    let sides = if chance.between(0.0, 1.0) < 0.6 { 5 } else { 4 };
    let radius = 0.66 * target.size(0.0) + wish.allowance_in * 1.15;
    let turn = chance.between(0.0, 360.0);
    let lines: Vec<Line> = (0..sides)
        .map(|i| {
            let angle = turn + 360.0 / f64::from(sides) * (f64::from(i) + chance.between(-0.13, 0.13));
            let distance = radius * chance.between(0.92, 1.1);
            Line { normal: Turn::from_degrees(angle + 180.0), at: -distance }
        })
        .collect();
    let n = lines.len();
    (0..n).filter_map(|i| lines[(i + n - 1) % n].crossing(lines[i])).collect()
}

fn lay(heap: &Heap, wish: &Wish, cut: &[Point], group: usize) -> Option<State> {
    let frame = choose::patch_frame(cut)?;
    let local = frame.apply_all(cut);
    let piece = FitPiece::new(&local, &vec![wish.rough_in; cut.len()])?;
    // The patch's own coordinates become the centre's, so that the wall's up is theirs.
    let way = |rest: &Rest| choose::turning(rest.runs, Pose::STAY, wish);
    let (index, pose) = heap.rests(group).iter().enumerate().find_map(|(i, rest)| {
        let (turning, base) = way(rest);
        if wish.spare.contains(&rest.cloth) {
            return None;
        }
        match plane::try_fit(&piece, &rest.room, turning, base, 2000) {
            Fit::Yes(pose) => Some((i, pose)),
            Fit::No | Fit::Unknown => None,
        }
    })?;
    let rest = &heap.rests(group)[index];
    let (turning, base) = way(rest);
    let pose = plane::best_of(&piece, &rest.room, turning, base).unwrap_or(pose);
    begin(heap, wish, local, group, index, pose)
}

/// The centre that begins with this patch. From here on its coordinates are the centre's.
fn begin(heap: &Heap, wish: &Wish, cut: Vec<Point>, group: usize, index: usize, pose: Pose) -> Option<State> {
    let cloth = heap.rests(group)[index].cloth;
    let pick = Pick { group, cloth, pose, look: LookParts::default(), left: 0.0 };
    let mut heap = heap.clone();
    heap.cut(group, index, &pose.apply_all(&cut));
    let placed = placed(&heap, wish, &cut, &pick)?;
    let centre = centre(heap, &cut, placed);
    let taken = Taken::Start { cut, pick };
    Some(State { centre, trail: Some(Arc::new(Trail { taken, before: None })) })
}

/// The first patch cut round a motif so that it shows whole: the outline is made as large as that
/// takes and turned until the cloth has room for it.
fn with_motif(heap: &Heap, wish: &Wish, cut: &[Point], motif: &Motif) -> Option<State> {
    let middle = polygon::centroid(&motif.part.outer)?;
    let reach = motif.part.outer.iter().map(|p| p.distance(middle)).fold(0.0, f64::max);
    let own = polygon::centroid(cut)?;
    let lines: Vec<Line> = polygon::edges(cut).filter_map(|(a, b)| Line::through(a, b)).collect();
    let least = lines.iter().map(|line| line.inside_by(own)).fold(f64::INFINITY, f64::min);
    let scale = ((reach + wish.allowance_in) / least.max(1e-6)).max(1.0);
    let grown: Vec<Point> = cut.iter().map(|&p| own + (p - own) * scale).collect();
    let frame = choose::patch_frame(&grown)?;
    let local = frame.apply_all(&grown);
    let middle_local = polygon::centroid(&local)?;
    let group = heap.look_of(motif.cloth).group;
    if group == usize::MAX {
        return None;
    }
    let (index, pose) = heap.rests(group).iter().enumerate().find_map(|(index, rest)| {
        let (turning, base) = choose::turning(rest.runs, Pose::STAY, wish);
        let turns = if turning == Turning::Any { 72 } else { 1 };
        (0..turns).find_map(|i| {
            let turn = base.then(Turn::from_degrees(5.0 * f64::from(i)));
            let pose = Pose::carrying(turn, middle_local, middle);
            let shows = rest.cloth == motif.cloth && plane::lies_within(&local, &rest.region, pose);
            shows.then_some((index, pose))
        })
    })?;
    begin(heap, wish, local, group, index, pose)
}

fn placed(heap: &Heap, wish: &Wish, cut: &[Point], pick: &Pick) -> Option<Placed> {
    let finished = finished_of(cut, wish.allowance_in);
    let group = &heap.groups()[pick.group];
    Some(Placed {
        centroid: polygon::centroid(&finished)?,
        area: polygon::area(&finished),
        share: 0.0,
        shape: finished.into(),
        group: pick.group,
        print: group.print,
        lab: group.lab,
        quick: group.quick,
    })
}

fn centre(heap: Heap, cut: &[Point], placed: Placed) -> Centre {
    let sides = polygon::edges(cut)
        .enumerate()
        .filter_map(|(i, (a, b))| {
            Some(Side {
                name: Name::new(Mark(1), i as u16),
                line: Line::through(a, b)?,
                along: vec![Along { from: f64::NEG_INFINITY, to: f64::INFINITY, placed: 0 }],
            })
        })
        .collect();
    let mut centre = Centre {
        top: Mark(1),
        sides,
        middle: placed.centroid,
        placed: Chain::default(),
        heap,
        next_mark: 2,
        last: None,
        area: 0.0,
        weight: 0.0,
        moment: plane::Vec2::default(),
        cut_area: polygon::area(cut),
        trimmed_area: 0.0,
        directions: [0.0; 12],
        sparks: 0,
        cost: 0.0,
    };
    centre.count(&placed);
    centre.placed.push(placed);
    centre
}
