//! A camera over the table: perspective, and a lens that bends.
//!
//! Places on the table are in inches, y up; places in the picture in pixels, y down, the middle of
//! the first pixel at (0.5, 0.5). The lens bends by the polynomial of Brown (*Decentering distortion
//! of lenses*, 1966; from memory): two radial terms that may pull against each other, and two
//! tangential ones. On purpose that is another family than the division model of one number that
//! `vision::flatten` solves for, which so is not handed its own model.

use plane::{Point, Vec2};

/// Where a camera stands and how its lens bends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stand {
    /// What the middle of the picture shows, in inches on the table.
    pub target: Point,
    /// Pixels an inch there, seen from straight above.
    pub pixels_per_in: f64,
    /// How far the camera leans from straight above, in degrees.
    pub tilt_deg: f64,
    /// From which side of the target it looks, in degrees anticlockwise from the table's right.
    pub from_deg: f64,
    /// How far it is turned about its own axis, in degrees.
    pub roll_deg: f64,
    /// Focal length over the longer side of the picture.
    pub focal: f64,
    /// Pixels across and down.
    pub size_px: [u32; 2],
    /// Where the lens's axis meets the picture, in pixels from its middle.
    pub off_px: [f64; 2],
    /// The radial bend: straight places are bent ones times 1 + bend × r² + second × r⁴, r in half
    /// diagonals. A positive bend is a barrel.
    pub bend: f64,
    /// The second radial term.
    pub second: f64,
    /// The tangential bend.
    pub tangential: [f64; 2],
}

/// From the table to the picture and back.
#[derive(Clone, Debug, PartialEq)]
pub struct Camera {
    stand: Stand,
    there: [[f64; 3]; 3],
    back: [[f64; 3]; 3],
    axis: Point,
    half_diagonal: f64,
}

impl Camera {
    /// The camera of a stand.
    #[must_use]
    pub fn new(stand: Stand) -> Self {
        let [width, height] = stand.size_px.map(f64::from);
        let axis = Point::new(width / 2.0 + stand.off_px[0], height / 2.0 + stand.off_px[1]);
        let focal = stand.focal * width.max(height);
        let there = perspective(&stand, axis, focal);
        Self { stand, there, back: inverse(&there), axis, half_diagonal: width.hypot(height) / 2.0 }
    }

    /// Where it stands.
    #[must_use]
    pub const fn stand(&self) -> &Stand {
        &self.stand
    }

    /// Where a place of the picture lies on the table. Beyond the horizon it makes no sense, and
    /// isn't checked.
    #[must_use]
    pub fn to_table(&self, px: Point) -> Point {
        let bent = (px - self.axis) * (1.0 / self.half_diagonal);
        let straight = bent * self.radial(bent) + self.tangent(bent);
        mapped(&self.back, self.axis + straight * self.half_diagonal)
    }

    /// Where a place on the table comes in the picture.
    #[must_use]
    pub fn to_picture(&self, inch: Point) -> Point {
        let straight = (mapped(&self.there, inch) - self.axis) * (1.0 / self.half_diagonal);
        let mut bent = straight;
        // Each round leaves a few per cent of the error; the bends are small.
        for _ in 0..ROUNDS {
            bent = (straight - self.tangent(bent)) * (1.0 / self.radial(bent));
        }
        self.axis + bent * self.half_diagonal
    }

    /// Where a place of the picture lies on the table; nothing beyond its horizon or near it.
    pub(super) fn on_table(&self, px: Point) -> Option<Point> {
        let inch = self.to_table(px);
        (self.faces(inch) && inch.distance(self.stand.target) < FAR_IN).then_some(inch)
    }

    /// Whether a place on the table lies before the camera.
    pub(super) fn faces(&self, inch: Point) -> bool {
        let [.., [x, y, one]] = self.there;
        let ahead = |p: Point| x * p.x + y * p.y + one;
        ahead(inch) > 0.05 * ahead(self.stand.target)
    }

    /// Whether a place on the table lies before the camera and within the picture, at least
    /// `margin_px` from its edge.
    #[must_use]
    pub fn sees(&self, inch: Point, margin_px: f64) -> bool {
        if !self.faces(inch) {
            return false;
        }
        let px = self.to_picture(inch);
        let [width, height] = self.stand.size_px.map(f64::from);
        let within = |at: f64, length: f64| at >= margin_px && at <= length - margin_px;
        within(px.x, width) && within(px.y, height)
    }

    /// Pixels an inch at a place on the table, the way they are fewest.
    #[must_use]
    pub fn least_pixels_per_in(&self, inch: Point) -> f64 {
        let step = 1e-3;
        let along = |v: Vec2| (self.to_picture(inch + v) - self.to_picture(inch - v)) * (0.5 / step);
        let (right, up) = (along(Vec2::new(step, 0.0)), along(Vec2::new(0.0, step)));
        // The smaller singular value of the two columns.
        let (a, b, c) = (right.dot(right), right.dot(up), up.dot(up));
        let root = (0.25 * (a - c).powi(2) + b * b).sqrt();
        (0.5 * (a + c) - root).max(0.0).sqrt()
    }

    /// By how much a bent place lies farther from the axis when it is straightened.
    fn radial(&self, v: Vec2) -> f64 {
        let square = v.dot(v);
        1.0 + square * (self.stand.bend + self.stand.second * square)
    }

    /// What the lens's tangential terms add.
    fn tangent(&self, v: Vec2) -> Vec2 {
        let [p, q] = self.stand.tangential;
        let square = v.dot(v);
        Vec2::new(
            2.0 * p * v.x * v.y + q * (square + 2.0 * v.x * v.x),
            p * (square + 2.0 * v.y * v.y) + 2.0 * q * v.x * v.y,
        )
    }
}

/// What is farther from the target is taken for beyond the horizon, in inches.
const FAR_IN: f64 = 400.0;

/// Rounds in which a bend is undone: far more than doubles need for bends up to a tenth.
const ROUNDS: usize = 24;

/// The perspective of a stand, from inches to pixels: the columns of a pinhole camera for x, y and
/// the target's place on the table.
fn perspective(stand: &Stand, axis: Point, focal: f64) -> [[f64; 3]; 3] {
    let distance = focal / stand.pixels_per_in;
    let (lean_sin, lean) = stand.tilt_deg.to_radians().sin_cos();
    let (from_sin, from) = stand.from_deg.to_radians().sin_cos();
    let (roll_sin, roll) = stand.roll_deg.to_radians().sin_cos();
    let away = [lean_sin * from, lean_sin * from_sin, lean];
    let ahead = away.map(|part| -part);
    let level = [-from_sin, from, 0.0];
    let down = cross(ahead, level);
    let blend = |a: [f64; 3], s: f64, b: [f64; 3], t: f64| [0, 1, 2].map(|k| a[k] * s + b[k] * t);
    let (right, down) = (blend(level, roll, down, roll_sin), blend(down, roll, level, -roll_sin));
    let from_target = |axis: [f64; 3], depth: f64| {
        [axis[0], axis[1], depth - axis[0] * stand.target.x - axis[1] * stand.target.y]
    };
    let (x, y, z) = (from_target(right, 0.0), from_target(down, 0.0), from_target(ahead, distance));
    [[0, 1, 2].map(|k| focal * x[k] + axis.x * z[k]), [0, 1, 2].map(|k| focal * y[k] + axis.y * z[k]), z]
}

fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

fn mapped(m: &[[f64; 3]; 3], p: Point) -> Point {
    let row = |r: &[f64; 3]| r[0] * p.x + r[1] * p.y + r[2];
    let depth = row(&m[2]);
    Point::new(row(&m[0]) / depth, row(&m[1]) / depth)
}

fn inverse(m: &[[f64; 3]; 3]) -> [[f64; 3]; 3] {
    let [a, b, c] = *m;
    let columns = [cross(b, c), cross(c, a), cross(a, b)];
    let scale = 1.0 / (a[0] * columns[0][0] + a[1] * columns[0][1] + a[2] * columns[0][2]);
    [0, 1, 2].map(|row| [0, 1, 2].map(|column: usize| columns[column][row] * scale))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stand() -> Stand {
        Stand {
            target: Point::new(3.0, -2.0),
            pixels_per_in: 80.0,
            tilt_deg: 0.0,
            from_deg: -90.0,
            roll_deg: 0.0,
            focal: 0.8,
            size_px: [1600, 1200],
            off_px: [0.0, 0.0],
            bend: 0.0,
            second: 0.0,
            tangential: [0.0, 0.0],
        }
    }

    #[test]
    fn from_straight_above_an_inch_is_so_many_pixels_and_up_is_up() {
        let camera = Camera::new(stand());
        let px = camera.to_picture(Point::new(4.0, -1.0));
        assert!(px.distance(Point::new(880.0, 520.0)) < 1e-9, "{px:?}");
        assert!((camera.least_pixels_per_in(Point::new(5.0, 1.0)) - 80.0).abs() < 1e-6);
    }

    #[test]
    fn leaning_makes_what_is_far_small_by_the_cosine_and_the_distance() {
        let camera = Camera::new(Stand { tilt_deg: 30.0, ..stand() });
        // At the target an inch away from the camera is shorter by the cosine; the camera looks
        // from below in the picture, so what is far lies higher.
        let ends = [-0.001, 0.001].map(|off| camera.to_picture(Point::new(3.0, -2.0 + off)));
        let long = ends[0].y - ends[1].y;
        assert!((long / 0.002 - 80.0 * 30.0_f64.to_radians().cos()).abs() < 1e-3, "{long}");
        // By similar triangles: at 4 inches beyond the target, the depth has grown by 4 sin 30°.
        let depth = 0.8 * 1600.0 / 80.0;
        let (a, b) = (camera.to_picture(Point::new(3.0, 2.0)), camera.to_picture(Point::new(4.0, 2.0)));
        assert!(((b.x - a.x) - 80.0 * depth / (depth + 2.0)).abs() < 1e-9);
        assert!(a.y < 600.0);
    }

    #[test]
    fn there_and_back_is_the_same_place_under_any_bend() {
        for (bend, tangential) in [(0.0, [0.0; 2]), (-0.1, [0.002, -0.001]), (0.08, [-0.002, 0.002])] {
            let lens = Stand { bend, tangential, tilt_deg: 50.0, from_deg: 17.0, roll_deg: 160.0, ..stand() };
            let camera = Camera::new(Stand { off_px: [9.0, -6.0], ..lens });
            for i in 0..60_u32 {
                let px = Point::new(f64::from(i * 317 % 1600), f64::from(i * 211 % 1200));
                let back = camera.to_picture(camera.to_table(px));
                assert!(back.distance(px) < 1e-6, "{bend}: {px:?} {back:?}");
            }
        }
    }

    #[test]
    fn a_barrel_draws_corners_in() {
        let straight = Camera::new(stand());
        let barrel = Camera::new(Stand { bend: 0.05, second: 0.02, ..stand() });
        let corner = straight.to_table(Point::new(0.0, 0.0));
        let (px, middle) = (barrel.to_picture(corner), Point::new(800.0, 600.0));
        let r = px.distance(middle) / 1000.0;
        assert!(r < 0.95 && (r * (1.0 + 0.05 * r * r + 0.02 * r.powi(4)) - 1.0).abs() < 1e-9, "{r}");
    }
}
