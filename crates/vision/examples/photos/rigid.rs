//! The table a picture was flattened to, laid on the table that was rendered: moved and turned as
//! the cards say, never stretched.

use plane::{Point, Pose, Turn, Vec2};

/// The move that brings the first of each pair nearest to the second, by least squares; none when
/// all lie in one place.
pub(crate) fn rigid(pairs: &[(Point, Point)]) -> Option<Pose> {
    let share = 1.0 / pairs.len().max(1) as f64;
    let mean = |of: fn(&(Point, Point)) -> Point| {
        pairs.iter().fold(Point::ORIGIN, |sum, pair| sum + of(pair).to_vec2() * share)
    };
    let (from, to) = (mean(|pair| pair.0), mean(|pair| pair.1));
    let turn = pairs.iter().fold(Vec2::default(), |sum, (a, b)| {
        let (a, b) = (*a - from, *b - to);
        sum + Vec2::new(a.dot(b), a.cross(b))
    });
    Some(Pose::carrying(Turn::towards(turn)?, from, to))
}
