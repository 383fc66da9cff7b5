//! New patches of a piece are found along their seams, in the order of sewing, on pictures painted
//! here from what is known.

use plane::{Point, Pose, Turn, Vec2, polygon};
use vision::seams::{Known, grown};
use vision::{Flat, Picture};

const PER_IN: f64 = 60.0;
const ALLOWANCE_IN: f64 = 0.25;

fn known() -> Vec<Point> {
    [(0.0, 0.0), (4.0, 0.0), (4.0, 3.4), (0.0, 3.0)].map(|(x, y)| Point::new(x, y)).to_vec()
}

/// The colour at a place of the plan: a patch below, then one on the right that covers its end too.
fn ink(p: Point) -> [u8; 3] {
    let top = 3.0 + 0.1 * p.x;
    if p.x < 0.0 || p.x > 5.5 || p.y < -1.5 || p.y > top {
        [90, 96, 100]
    } else if (p.x - 3.75).abs() < 0.015 || (p.x < 3.75 && (p.y - 0.25).abs() < 0.015) {
        [40, 30, 30]
    } else if p.x > 3.75 {
        [200, 180, 60]
    } else if p.y < 0.25 {
        [60, 120, 180]
    } else {
        [180, 70, 60]
    }
}

fn table(lies: Pose) -> Flat {
    painted(lies, ink)
}

fn painted(lies: Pose, ink: fn(Point) -> [u8; 3]) -> Flat {
    let (width, height) = (720, 720);
    let top_left = Point::new(-6.0, 6.0);
    let mut flat = Flat {
        picture: Picture { width, height, rgb: Vec::new() },
        pixels_per_in: PER_IN,
        top_left,
        seen: vec![true; (width * height) as usize],
    };
    let back = lies.inverse();
    let pixel = |i: u32| {
        let px = Point::new(f64::from(i % width) + 0.5, f64::from(i / width) + 0.5);
        ink(back.apply(flat.on_table(px)))
    };
    flat.picture.rgb = (0..width * height).map(pixel).collect();
    flat
}

#[test]
fn patches_come_off_in_the_order_in_which_they_were_sewn() {
    let lies = Pose::new(Turn::from_degrees(24.0), Vec2::new(-1.5, 0.5));
    let now = [(0.0, -1.5), (5.5, -1.5), (5.5, 3.55), (0.0, 3.0)].map(|(x, y)| lies.apply(Point::new(x, y)));
    let known = Known { outline: known(), colours: Vec::new() };
    let found = grown(&table(lies), &now, &known, ALLOWANCE_IN).unwrap();
    let sides: Vec<usize> = found.patches.iter().map(|patch| patch.side).collect();
    assert_eq!(sides, [0, 1]);
    for p in &known.outline {
        assert!(found.pose.apply(*p).distance(lies.apply(*p)) < 0.05, "{:?}", found.pose);
    }
    let areas: Vec<f64> = found.patches.iter().map(|patch| polygon::area(&patch.outline)).collect();
    // Below: 4 wide when it was sewn, 1 3/4 deep. On the right: from -1 1/2 to the sloping top.
    assert!((areas[0] - 7.0).abs() < 0.15 && (areas[1] - 1.75 * 4.9625).abs() < 0.15, "{areas:?}");
}

/// The known piece of four colours, and what was sewn to it without a seam that could be seen.
fn plain(p: Point) -> [u8; 3] {
    let top = 3.0 + 0.1 * p.x;
    if p.x < 0.0 || p.x > 5.5 || p.y < -1.5 || p.y > top {
        [90, 96, 100]
    } else if p.x > 4.0 || p.y < 0.0 {
        [200, 180, 60]
    } else {
        match (p.x < 2.0, p.y < 1.5) {
            (true, true) => [180, 70, 60],
            (true, false) => [60, 120, 180],
            (false, true) => [70, 150, 80],
            (false, false) => [210, 200, 190],
        }
    }
}

#[test]
fn what_cannot_be_told_is_one_measured_region() {
    let lies = Pose::new(Turn::from_degrees(-31.0), Vec2::new(-2.0, 1.0));
    let now = [(0.0, -1.5), (5.5, -1.5), (5.5, 3.55), (0.0, 3.0)].map(|(x, y)| lies.apply(Point::new(x, y)));
    let colours = [(1.0, 0.75), (1.0, 2.25), (3.0, 0.75), (3.0, 2.25)].map(|(x, y)| {
        let at = Point::new(x, y);
        let [r, g, b] = plain(at);
        (at, colour::Lab::from(colour::Srgb::new(r, g, b).to_linear()))
    });
    let known = Known { outline: known(), colours: colours.to_vec() };
    let found = grown(&painted(lies, plain), &now, &known, ALLOWANCE_IN).unwrap();
    assert!(found.patches.is_empty());
    for p in &known.outline {
        assert!(found.pose.apply(*p).distance(lies.apply(*p)) < 0.05, "{:?}", found.pose);
    }
    let [region] = found.unknown.as_slice() else { panic!("{:?}", found.unknown) };
    let new = polygon::area(&now) - polygon::area(&known.outline);
    assert!((region.area() - new).abs() < 0.1, "{} of {new}", region.area());
    // With the colours of another piece nothing is said.
    let other = colours.map(|(at, _)| (at, colour::Lab::from(colour::Linear::new(0.0, 0.0, 0.0))));
    let known = Known { colours: other.to_vec(), ..known };
    assert_eq!(grown(&painted(lies, plain), &now, &known, ALLOWANCE_IN), None);
}

#[test]
fn a_piece_that_is_another_one_is_not_explained() {
    let lies = Pose::STAY;
    let now = [(0.0, -1.5), (5.5, -1.5), (5.5, 3.55), (0.0, 3.0)].map(|(x, y)| Point::new(x, y));
    let other = [(0.0, 0.0), (3.0, 0.0), (3.0, 2.0), (0.0, 4.5)].map(|(x, y)| Point::new(x, y)).to_vec();
    let known = Known { outline: other, colours: Vec::new() };
    assert_eq!(grown(&table(lies), &now, &known, ALLOWANCE_IN), None);
}
