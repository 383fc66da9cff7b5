//! An exact greedy to be measured against: pieces by area, each at the lowest of all places, then the leftmost, that the
//! inner-fit region less all no-fit regions leaves; into the first scrap that has one.

use nest::{Ask, Turns};
use plane::{Point, Region, Turn, Vec2, convex_parts, difference, intersection, polygon};

/// How many pieces find a place.
pub(crate) fn inner_fit(ask: &Ask) -> usize {
    // What is in the way on each scrap, in convex parts: all round it, and what lies there.
    let mut taken: Vec<Vec<Vec<Point>>> = ask.cloths.iter().map(|cloth| outside(&cloth.parts[0])).collect();
    let mut order: Vec<usize> = (0..ask.pieces.len()).collect();
    let area = |&piece: &usize| polygon::area(&ask.pieces[piece].outline);
    order.sort_by(|a, b| area(b).total_cmp(&area(a)));
    let mut count = 0;
    for piece in order {
        let piece = &ask.pieces[piece];
        let lowest = |source: &nest::Source| {
            let Turns::Only(turns) = &source.turns else { return None };
            let places = turns.iter().filter_map(|&turn| {
                let outline: Vec<Point> =
                    piece.outline.iter().map(|p| Point::ORIGIN + turn.apply(p.to_vec2())).collect();
                let by = lowest(&outline, &ask.cloths[source.cloth].parts[0].outer, &taken[source.cloth])?;
                Some((by, outline))
            });
            places.min_by(|a, b| a.0.y.total_cmp(&b.0.y).then(a.0.x.total_cmp(&b.0.x)))
        };
        let found = piece.from.iter().find_map(|source| Some((source.cloth, lowest(source)?)));
        if let Some((cloth, (by, outline))) = found {
            let placed: Vec<Point> = outline.into_iter().map(|p| p + by).collect();
            taken[cloth].extend(convex_parts(&placed));
            count += 1;
        }
    }
    count
}

/// The outside of a scrap within a frame, in convex parts.
fn outside(scrap: &Region) -> Vec<Vec<Point>> {
    let Some((low, high)) = polygon::bounds(&scrap.outer) else { return Vec::new() };
    let room = 20.0;
    let middle = low.midpoint(high);
    let mut parts = Vec::new();
    for (x0, x1) in [(low.x - room, middle.x), (middle.x, high.x + room)] {
        for (y0, y1) in [(low.y - room, middle.y), (middle.y, high.y + room)] {
            let corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(|(x, y)| Point::new(x, y)).to_vec();
            for part in difference(&Region { outer: corners, holes: Vec::new() }, std::slice::from_ref(scrap))
            {
                parts.extend(convex_parts(&part.outer));
            }
        }
    }
    parts
}

/// The lowest place of a piece's origin at which it touches nothing taken.
fn lowest(piece: &[Point], scrap: &[Point], taken: &[Vec<Point>]) -> Option<Vec2> {
    let ((low, high), (from, to)) = (polygon::bounds(scrap)?, polygon::bounds(piece)?);
    let (x, y) = ((low.x - from.x, high.x - to.x), (low.y - from.y, high.y - to.y));
    if x.0 >= x.1 || y.0 >= y.1 {
        return None;
    }
    let corners = [(x.0, y.0), (x.1, y.0), (x.1, y.1), (x.0, y.1)].map(|(x, y)| Point::new(x, y)).to_vec();
    let own = convex_parts(piece);
    let half = Turn::HALF;
    let mut barred = Vec::new();
    for there in taken {
        for part in &own {
            let sums: Vec<Point> =
                there.iter().flat_map(|&p| part.iter().map(move |&q| p + half.apply(q.to_vec2()))).collect();
            barred.push(Region { outer: polygon::hull(&sums), holes: Vec::new() });
        }
    }
    let inner = Region { outer: corners, holes: Vec::new() };
    let barred: Vec<Region> =
        barred.into_iter().filter(|bar| !intersection(&inner, bar).is_empty()).collect();
    let free = difference(&inner, &barred);
    let corners = free.iter().flat_map(|part| std::iter::once(&part.outer).chain(&part.holes).flatten());
    corners.min_by(|a, b| a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x))).map(|p| p.to_vec2())
}
