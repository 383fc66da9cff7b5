//! The most room a point can have inside a set of half-planes.
//!
//! Maximises `s` over `t` with `normal · t >= at + s` for every half-plane: two unknowns and the
//! slack, by the dual simplex method. A basis is three half-planes whose normals, as points of
//! the unit circle, surround the origin; the weights are the origin's barycentric coordinates in
//! that triangle. A basis is a proof: its weights give `s` from above. So a negative slack comes
//! with the three half-planes that can't hold together.

use crate::{Point, Vec2};

/// A half-plane `normal · t >= at`, the normal of unit length.
#[derive(Clone, Copy, Debug)]
pub(crate) struct HalfPlane {
    pub(crate) normal: Vec2,
    pub(crate) at: f64,
}

impl HalfPlane {
    fn inside_by(&self, t: Vec2) -> f64 {
        self.normal.dot(t) - self.at
    }
}

/// Three half-planes and what follows from them.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Room {
    /// Where the room is greatest.
    pub(crate) place: Vec2,
    /// How far every half-plane's border stays away there, in inches; negative when they have
    /// no point in common.
    pub(crate) slack: f64,
    /// The half-planes that decide.
    pub(crate) basis: [usize; 3],
}

/// Pivots after which the search is cut short; the basis is then still a valid upper bound.
const MOST_PIVOTS: usize = 200;

/// The most room, beginning from a basis whose normals surround the origin.
pub(crate) fn most_room(planes: &[HalfPlane], start: [usize; 3]) -> Option<Room> {
    let mut basis = start;
    for _ in 0..MOST_PIVOTS {
        let room = vertex(planes, basis)?;
        let reach = 1e-12 * (1.0 + room.place.x.abs() + room.place.y.abs());
        let mut entering = None;
        let mut worst = -reach;
        for (i, plane) in planes.iter().enumerate() {
            let over = plane.inside_by(room.place) - room.slack;
            if over < worst {
                worst = over;
                entering = Some(i);
            }
        }
        let Some(entering) = entering else { return Some(room) };
        if basis.contains(&entering) {
            return Some(room);
        }
        let leaving = leaving(planes, basis, entering)?;
        basis[leaving] = entering;
    }
    vertex(planes, basis)
}

/// The origin's barycentric weights in the triangle of normals, and twice that triangle's area.
pub(crate) fn weights(normals: [Vec2; 3]) -> ([f64; 3], f64) {
    let [a, b, c] = normals;
    let w = [b.cross(c), c.cross(a), a.cross(b)];
    (w, w[0] + w[1] + w[2])
}

/// Three of the half-planes whose normals surround the origin, the first of them among them.
pub(crate) fn surrounding(planes: &[HalfPlane]) -> Option<[usize; 3]> {
    let first = planes.first()?.normal;
    let mut best = (1e-9, None);
    for j in 1..planes.len() {
        for k in 1..planes.len() {
            let (w, twice_area) = weights([first, planes[j].normal, planes[k].normal]);
            if w.iter().all(|&w| w >= -1e-12) && twice_area > best.0 {
                best = (twice_area, Some([0, j, k]));
            }
        }
    }
    best.1
}

fn vertex(planes: &[HalfPlane], basis: [usize; 3]) -> Option<Room> {
    let [a, b, c] = basis.map(|i| planes[i]);
    let (w, total) = weights([a.normal, b.normal, c.normal]);
    if total.abs() < 1e-14 {
        return None;
    }
    let slack = -(w[0] * a.at + w[1] * b.at + w[2] * c.at) / total;
    let (p, q, det) = if w[2].abs() >= w[0].abs().max(w[1].abs()) {
        (a, b, w[2])
    } else if w[0].abs() >= w[1].abs() {
        (b, c, w[0])
    } else {
        (c, a, w[1])
    };
    let (r, s) = (p.at + slack, q.at + slack);
    let place = Vec2::new((r * q.normal.y - s * p.normal.y) / det, (s * p.normal.x - r * q.normal.x) / det);
    Some(Room { place, slack, basis })
}

/// Which of the basis makes way, by the ratio test.
fn leaving(planes: &[HalfPlane], basis: [usize; 3], entering: usize) -> Option<usize> {
    let n = basis.map(|i| planes[i].normal);
    let e = planes[entering].normal;
    let (weight, total) = weights(n);
    let inward = |i: usize| (n[(i + 1) % 3] - e).cross(n[(i + 2) % 3] - e);
    (0..3)
        .map(|i| (i, weight[i].max(0.0), inward(i)))
        .filter(|&(_, _, share)| share > 1e-11 * total.abs())
        .min_by(|a, b| (a.1 / a.2).total_cmp(&(b.1 / b.2)))
        .map(|(i, _, _)| i)
}

/// The largest disc inside a convex outline: its centre and radius.
pub(crate) fn largest_disc(convex: &[Point]) -> Option<(Point, f64)> {
    let planes = planes_of(convex);
    let room = most_room(&planes, surrounding(&planes)?)?;
    Some((Point::new(room.place.x, room.place.y), room.slack))
}

/// The insides of an outline's sides.
pub(crate) fn planes_of(convex: &[Point]) -> Vec<HalfPlane> {
    crate::polygon::edges(convex)
        .filter_map(|(a, b)| crate::Line::through(a, b))
        .map(|line| HalfPlane { normal: line.normal.vec(), at: line.at })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Turn;

    /// Numbers from 0 to 1, seeded.
    fn dice(seed: u64) -> impl FnMut() -> f64 {
        let mut state = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1;
        move || {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            (state >> 11) as f64 / (1_u64 << 53) as f64
        }
    }

    fn random_planes(seed: u64) -> Vec<HalfPlane> {
        let mut share = dice(seed);
        let count = 3 + (share() * 10.0) as usize;
        (0..count)
            .map(|_| HalfPlane {
                normal: Turn::from_degrees(360.0 * share()).vec(),
                at: -2.0 * share() + 0.5,
            })
            .collect()
    }

    /// The slow method: the least bound that any three surrounding half-planes give.
    fn least_bound(planes: &[HalfPlane]) -> f64 {
        let mut least = f64::INFINITY;
        for i in 0..planes.len() {
            for j in 0..planes.len() {
                for k in 0..planes.len() {
                    let (w, total) = weights([i, j, k].map(|i| planes[i].normal));
                    if total > 1e-9 && w.iter().all(|&w| w >= 0.0) {
                        let sum = w[0] * planes[i].at + w[1] * planes[j].at + w[2] * planes[k].at;
                        least = least.min(-sum / total);
                    }
                }
            }
        }
        least
    }

    #[test]
    fn the_most_room_is_the_least_that_three_half_planes_leave() {
        let mut compared = 0;
        for seed in 1..2000 {
            let planes = random_planes(seed);
            let Some(start) = surrounding(&planes) else { continue };
            let room = most_room(&planes, start).expect("a surrounding basis has a vertex");
            let least = least_bound(&planes);
            assert!((room.slack - least).abs() < 1e-9, "seed {seed}: {} {least}", room.slack);
            for plane in &planes {
                assert!(plane.inside_by(room.place) >= room.slack - 1e-9, "seed {seed}");
            }
            compared += 1;
        }
        assert!(compared > 1000, "only {compared}");
    }

    #[test]
    fn half_planes_in_one_half_of_the_directions_surround_nothing() {
        let planes: Vec<HalfPlane> =
            [10.0, 60.0, 150.0].map(|d| HalfPlane { normal: Turn::from_degrees(d).vec(), at: 0.0 }).to_vec();
        assert!(surrounding(&planes).is_none());
    }
}
