//! What several tests need: a workroom in a folder of its own, plain scraps, steps, and a small
//! seeded generator.
#![allow(dead_code, reason = "each test file uses its own part of it")]

use colour::Lab;
use plane::{Point, Pose, Region, Turn, Vec2};
use quilt::cloth::{ClothId, Look};
use quilt::log::{Entry, Mark, Name, Press, Sewing, Step, StepId};
use quilt::wish::Wish;
use tempfile::TempDir;
use workroom::asks::StageAsk;
use workroom::quilts::{Head, MAIN};
use workroom::stash::NewCloth;
use workroom::{Workroom, WorkroomId};

pub(crate) fn workroom() -> (TempDir, Workroom) {
    workroom_called(7)
}

pub(crate) fn workroom_called(id: u8) -> (TempDir, Workroom) {
    let folder = TempDir::new().unwrap();
    let workroom = Workroom::create_as(&folder.path().join("room"), WorkroomId([id; 16])).unwrap();
    (folder, workroom)
}

pub(crate) fn plain(name: &str, outline: Region) -> NewCloth {
    NewCloth::scrap(name, outline, Look::plain(Lab { l: 50.0, a: 40.0, b: 20.0 }))
}

/// Enters one rectangle and returns its id.
pub(crate) fn enter(workroom: &mut Workroom, width_in: f64, height_in: f64) -> ClothId {
    let cloth = plain("scrap", Region::rectangle(width_in, height_in));
    workroom.enter(vec![cloth]).unwrap()[0].1
}

pub(crate) fn rectangle(x: f64, y: f64, width_in: f64, height_in: f64) -> Vec<Point> {
    [(x, y), (x + width_in, y), (x + width_in, y + height_in), (x, y + height_in)]
        .map(|(x, y)| Point::new(x, y))
        .to_vec()
}

/// A rectangle laid, cut at (x, y) of its cloth.
pub(crate) fn lay(mark: u32, cloth: ClothId, at: (f64, f64), size: (f64, f64)) -> Entry {
    let at = Pose::new(Turn::NONE, Vec2::new(at.0, at.1));
    let cut = rectangle(0.0, 0.0, size.0, size.1);
    Entry { mark: Mark(mark), run: None, step: Step::Lay { cloth, at, cut } }
}

/// Side `with` sewn onto side `onto`, each named by step and place.
pub(crate) fn join(mark: u32, onto: (u32, u16), with: (u32, u16), flush: bool) -> Entry {
    let name = |(by, no)| Name::new(Mark(by), no);
    let sewing = Sewing::Join {
        onto: name(onto),
        with: name(with),
        slide_in: 0.0,
        allowance_in: 0.25,
        stop: None,
        flush: [flush; 2],
        press: Press::Over,
    };
    Entry { mark: Mark(mark), run: None, step: Step::Sew(sewing) }
}

pub(crate) fn note(mark: u32, text: &str) -> Entry {
    Entry { mark: Mark(mark), run: None, step: Step::Note(text.to_owned()) }
}

/// A quilt called "low tide": two squares of 4 from one cloth of 10 by 6, sewn together, all chalk.
pub(crate) fn two_squares(room: &mut Workroom) -> (ClothId, Head, Vec<StepId>) {
    let cloth = enter(room, 10.0, 6.0);
    let head = room.new_quilt("low tide", &Wish::default()).unwrap();
    let steps = [
        lay(1, cloth, (0.0, 0.0), (4.0, 4.0)),
        lay(2, cloth, (4.0, 0.0), (4.0, 4.0)),
        join(3, (1, 1), (2, 3), true),
    ];
    let head = room.append(&head.at(), &steps).unwrap();
    let ids = room.log("low tide", MAIN).unwrap().steps.iter().map(|step| step.id).collect();
    (cloth, head, ids)
}

/// Three patches, of which two have slanted sides and one is larger than a page.
pub(crate) fn slanted() -> (TempDir, Workroom, Head) {
    let (folder, mut room) = workroom();
    let cloth = enter(&mut room, 40.0, 20.0);
    let lengths =
        vec![plain("navy", Region::rectangle(60.0, 44.0)), plain("mist", Region::rectangle(20.0, 20.0))];
    room.enter(lengths).unwrap();
    let head = room.new_quilt("slanted", &Wish::default()).unwrap();
    let cut = |points: &[(f64, f64)]| points.iter().map(|&(x, y)| Point::new(x, y)).collect::<Vec<_>>();
    let lay = |mark: u32, x: f64, cut: Vec<Point>| {
        let at = Pose::new(Turn::NONE, Vec2::new(x, 3.0));
        Entry { mark: Mark(mark), run: None, step: Step::Lay { cloth, at, cut } }
    };
    let steps = [
        lay(1, 0.0, rectangle(0.0, 0.0, 9.0, 11.0)),
        lay(2, 10.0, cut(&[(0.0, -0.5), (3.3, 0.4), (2.7, 10.3), (0.0, 11.6)])),
        join(3, (1, 1), (2, 3), false),
        lay(4, 14.0, cut(&[(0.0, -0.6), (2.4, -0.9), (3.1, 10.2), (0.0, 10.6)])),
        join(5, (2, 1), (4, 3), false),
    ];
    let head = room.append(&head.at(), &steps).unwrap();
    (folder, room, head)
}

/// How much cloth is in the heap, in square inches.
pub(crate) fn area_there(room: &mut Workroom) -> f64 {
    room.stash().unwrap().present().iter().map(|(_, cloth)| cloth.outline.area()).sum()
}

/// A small generator of numbers that look random (a 64-bit linear congruential one, constants of
/// D. Knuth's MMIX).
pub(crate) struct Draw(pub(crate) u64);

impl Draw {
    pub(crate) fn below_one(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub(crate) fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.below_one()
    }

    /// A star-shaped polygon about a point: simple, often not convex.
    pub(crate) fn star(&mut self, centre: Point, least: f64, most: f64) -> Vec<Point> {
        let n = 3 + (self.below_one() * 7.0) as usize;
        let start = self.between(0.0, 1.0);
        (0..n)
            .map(|i| {
                let angle = (i as f64 + start + self.between(0.0, 0.6)) / n as f64 * std::f64::consts::TAU;
                let radius = self.between(least, most);
                Point::new(centre.x + radius * angle.cos(), centre.y + radius * angle.sin())
            })
            .collect()
    }
}

/// Two squares of 4 sewn together, 7 1/2 by 4, and cloth for what follows.
pub(crate) fn bench() -> (TempDir, Workroom) {
    let (folder, mut room) = workroom();
    two_squares(&mut room);
    room.enter(vec![plain("navy", Region::rectangle(44.0, 36.0))]).unwrap();
    (folder, room)
}

/// Takes a stage on the quilt of [`two_squares`].
pub(crate) fn take(room: &mut Workroom, ask: &str) {
    let ask: StageAsk = serde_json::from_str(ask).expect("an ask");
    let at = room.head("low tide", MAIN).unwrap().at();
    room.take_stage(&at, &ask).unwrap();
}
