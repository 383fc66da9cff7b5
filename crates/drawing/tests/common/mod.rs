//! Small pieces to draw: a heap of three cloths, and a table of one to three patches.
#![allow(dead_code, reason = "each test file uses its own part of this")]

pub(crate) mod stages;

use colour::Srgb;
use plane::{Point, Pose, Region, Turn, Vec2};
use quilt::cloth::{Cloth, ClothId, Facts, Kind, Look, Part, Picture};
use quilt::log::{End, Mark, Name, Press, Sewing, Step};
use quilt::table::Table;
use std::collections::BTreeMap;

/// Plain sand.
pub(crate) const SAND: ClothId = ClothId(1);
/// Slate with a picture of 400 by 300 pixels, 50 an inch, its top left corner at (-1, 5).
pub(crate) const SLATE: ClothId = ClothId(2);
/// Pieced: sand and slate, half and half, 4 by 4.
pub(crate) const PIECED: ClothId = ClothId(3);

pub(crate) fn point(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

pub(crate) fn plain_cloth(id: ClothId, name: &str, rgb: u32) -> Cloth {
    Cloth {
        id,
        name: name.to_owned(),
        kind: Kind::Scrap,
        outline: Region::rectangle(6.0, 5.0),
        flaws: Vec::new(),
        about: false,
        look: Look::plain(Srgb::from_number(rgb).to_lab()),
        grain: Turn::QUARTER,
        print: None,
        place: String::new(),
        facts: Facts::default(),
        picture: None,
        parts: Vec::new(),
        parent: None,
    }
}

pub(crate) fn heap() -> BTreeMap<ClothId, Cloth> {
    let sand = plain_cloth(SAND, "sand", 0xd9_c3_9a);
    let mut slate = plain_cloth(SLATE, "slate ripple", 0x5a_6b_78);
    slate.picture = Some(Picture {
        hash: "5a".repeat(32),
        format: "png".to_owned(),
        pixels_per_in: 50.0,
        top_left: point(-1.0, 5.0),
        size_px: [400, 300],
    });
    let mut pieced = plain_cloth(PIECED, "sand and slate", 0x99_97_89);
    pieced.outline = Region::rectangle(4.0, 4.0);
    let part = |cloth, x: f64| Part {
        cloth,
        pose: Pose::new(Turn::NONE, Vec2::new(x, 0.0)),
        shows: vec![point(x, 0.0), point(x + 2.0, 0.0), point(x + 2.0, 4.0), point(x, 4.0)],
    };
    pieced.parts = vec![part(SAND, 0.0), part(SLATE, 2.0)];
    [sand, slate, pieced].into_iter().map(|cloth| (cloth.id, cloth)).collect()
}

pub(crate) fn lay(table: &mut Table, mark: u32, cloth: ClothId, at: Pose, cut: Vec<Point>) {
    table.apply(Mark(mark), &Step::Lay { cloth, at, cut }).expect("it can be laid");
}

pub(crate) struct Seam {
    pub(crate) press: Press,
    pub(crate) stop: Option<(End, f64)>,
}

pub(crate) fn sew(table: &mut Table, mark: u32, onto: Name, with: Name, how: &Seam) {
    let join = Sewing::Join {
        onto,
        with,
        slide_in: 0.0,
        allowance_in: 0.25,
        stop: how.stop,
        flush: [true, true],
        press: how.press,
    };
    table.apply(Mark(mark), &Step::Sew(join)).expect("it can be sewn");
}

/// A rectangle of sand, 4 by 3.
pub(crate) fn one_patch() -> Table {
    let mut table = Table::new();
    lay(&mut table, 1, SAND, Pose::STAY, Region::rectangle(4.0, 3.0).outer);
    table
}

/// The rectangle of sand with slate sewn on its side 1b (at x = 4) by step 3.
pub(crate) fn two_patches(press: Press, stop: Option<(End, f64)>) -> Table {
    let mut table = one_patch();
    let at = Pose::new(Turn::QUARTER, Vec2::new(4.0, 1.0));
    lay(&mut table, 2, SLATE, at, Region::rectangle(3.5, 2.0).outer);
    sew(&mut table, 3, Name::new(Mark(1), 1), Name::new(Mark(2), 0), &Seam { press, stop });
    table
}

/// The two patches with the pieced cloth sewn over both, on side 1c, by step 5.
pub(crate) fn three_patches() -> Table {
    let mut table = two_patches(Press::Over, None);
    let cut = vec![point(0.0, 0.0), point(6.5, 0.0), point(6.5, 1.25), point(0.0, 2.0)];
    let at = Pose::new(Turn::from_degrees(-30.0), Vec2::new(-1.0, 2.5));
    lay(&mut table, 4, PIECED, at, cut);
    let press = Seam { press: Press::Over, stop: None };
    sew(&mut table, 5, Name::new(Mark(1), 2), Name::new(Mark(4), 0), &press);
    table
}

/// The rectangle of sand with a unit of slate and sand, sewn by step 5, on its side 1b by step 6.
pub(crate) fn unit_on_one() -> Table {
    let mut table = one_patch();
    lay(&mut table, 2, SLATE, Pose::STAY, Region::rectangle(1.5, 2.0).outer);
    lay(&mut table, 4, SAND, Pose::STAY, Region::rectangle(2.0, 2.0).outer);
    let how = Seam { press: Press::Over, stop: None };
    sew(&mut table, 5, Name::new(Mark(2), 1), Name::new(Mark(4), 3), &how);
    sew(&mut table, 6, Name::new(Mark(1), 1), Name::new(Mark(2), 0), &how);
    table
}
