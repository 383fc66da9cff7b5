//! A hand that sews at random: lays a patch long enough for a side and sews it on.
#![allow(dead_code, reason = "each test file uses a part of it")]

use plane::{Point, Pose, Region, Turn, difference, intersection, polygon, union};
use quilt::cloth::{Cloth, ClothId, Facts, Kind, Look, Runs};
use quilt::log::{Along, Entry, FrameStrip, Keep, Mark, Name, Press, Sewing, Step};
use quilt::table::{Side, Table, Top};

/// A small generator of our own (SplitMix64), so that tests need no library for it.
#[derive(Clone)]
pub(crate) struct Chance(pub(crate) u64);

impl Chance {
    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    pub(crate) fn between(&mut self, lo: f64, hi: f64) -> f64 {
        lo + (hi - lo) * (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub(crate) fn below(&mut self, n: usize) -> usize {
        (self.next() % n as u64) as usize
    }
}

#[derive(Clone)]
pub(crate) struct Hand {
    pub(crate) table: Table,
    pub(crate) entries: Vec<Entry>,
    pub(crate) chance: Chance,
}

pub(crate) fn lay(points: &[(f64, f64)]) -> Step {
    let cut = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Step::Lay { cloth: ClothId(1), at: Pose::STAY, cut }
}

pub(crate) fn sew(onto: Name, with: Name, flush: [bool; 2]) -> Step {
    Step::Sew(Sewing::Join {
        onto,
        with,
        slide_in: 0.0,
        allowance_in: 0.25,
        stop: None,
        flush,
        press: Press::Over,
    })
}

impl Hand {
    pub(crate) fn new(seed: u64) -> Self {
        let mut hand = Self { table: Table::new(), entries: Vec::new(), chance: Chance(seed) };
        hand.try_step(lay(&[(0.0, 0.0), (3.0, 0.2), (3.6, 2.4), (1.4, 4.0), (-0.7, 2.2)])).unwrap();
        hand
    }

    pub(crate) fn next_mark(&self) -> Mark {
        Mark(self.entries.last().map_or(1, |e| e.mark.0 + 1))
    }

    pub(crate) fn try_step(&mut self, step: Step) -> Result<Mark, quilt::Problem> {
        let mark = self.next_mark();
        self.table.apply(mark, &step)?;
        self.entries.push(Entry { mark, run: None, step });
        Ok(mark)
    }

    pub(crate) fn top(&self) -> &Top {
        self.table.piece().unwrap().1
    }

    /// Lays a leaning four-sided patch and sews it onto a side, trimmed in line.
    pub(crate) fn add_piece(&mut self) -> bool {
        let sides: Vec<_> = self.top().sides().iter().filter(|s| s.name().is_some()).copied().collect();
        let side = sides[self.chance.below(sides.len())];
        let length = side.length_in() + 2.5;
        let (d0, d1) = (self.chance.between(1.1, 2.4), self.chance.between(1.1, 2.4));
        let lean = self.chance.between(0.0, length * 0.3);
        let shape = [(0.0, 0.0), (length, 0.0), (length - lean, d0), (lean * 0.5, d1)];
        let mark = self.try_step(lay(&shape)).unwrap();
        let step = sew(side.name().unwrap(), Name::new(mark, 0), [true, true]);
        self.try_step(step).is_ok()
    }

    /// Caps a corner at random.
    pub(crate) fn trim(&mut self) -> bool {
        let sides = self.top().sides();
        let side = sides[self.chance.below(sides.len())];
        let at_in = side.length_in() * self.chance.between(0.7, 0.95);
        let turn = Turn::from_degrees(self.chance.between(20.0, 50.0));
        let Some(name) = side.name() else { return false };
        let top = self.table.piece().unwrap().0;
        let along = Along::From { side: name, at_in, turn };
        self.try_step(Step::Cut { top, along, keep: Keep::Left }).is_ok()
    }

    /// Slices the piece in two across a side and sews it together again.
    pub(crate) fn slice_and_rejoin(&mut self) -> bool {
        let sides = self.top().sides();
        let side = sides[self.chance.below(sides.len())];
        let Some(name) = side.name() else { return false };
        let at_in = side.length_in() * self.chance.between(0.3, 0.7);
        let turn = Turn::from_degrees(self.chance.between(75.0, 105.0));
        let top = self.table.piece().unwrap().0;
        let along = Along::From { side: name, at_in, turn };
        let Ok(mark) = self.try_step(Step::Cut { top, along, keep: Keep::Both }) else { return false };
        self.try_step(sew(Name::new(mark, 0), Name::new(mark, 1), [true, true])).is_ok()
    }
}

/// Largest difference between the outline's area and the sum of the faces.
pub(crate) fn tiling_error(top: &Top) -> f64 {
    let faces: f64 = top.faces().values().map(|f| polygon::area(&top.face_points(f))).sum();
    (faces - polygon::area(&top.outline_points())).abs()
}

/// Strips `widths` wide from the seam to the raw edge, cut as bars long enough for anything.
pub(crate) fn bars(hand: &mut Hand, top: Mark, widths: &[f64], spare: f64) -> Vec<FrameStrip> {
    let sides = hand.table.tops()[&top].sides();
    let most = widths.iter().copied().fold(0.0, f64::max);
    let strip = |(side, width): (&Side, &f64)| {
        let (long, deep) = (side.length_in() + spare * most, width + 0.25);
        let cut = [(0.0, 0.0), (long, 0.0), (long, deep), (0.0, deep)].map(|(x, y)| Point::new(x, y));
        let step = Step::Lay { cloth: ClothId(9), at: Pose::STAY, cut: cut.to_vec() };
        let mark = hand.try_step(step).expect("a bar");
        let (with, outer) = (Name::new(mark, 0), Name::new(mark, 2));
        FrameStrip { onto: side.name().expect("a raw side"), with, outer, slide_in: 0.0 }
    };
    sides.iter().zip(widths.iter().cycle()).map(strip).collect()
}

pub(crate) fn frame(strips: Vec<FrameStrip>, aim_in: f64) -> Step {
    Step::Sew(Sewing::Frame { strips, allowance_in: 0.25, aim_in, press: Press::Over })
}

fn region(outer: Vec<Point>) -> Region {
    Region { outer, holes: Vec::new() }
}

fn area(regions: &[Region]) -> f64 {
    regions.iter().map(Region::area).sum()
}

/// Faces against the second kernel: they make up the outline and do not overlap.
pub(crate) fn check_tiling(top: &Top) {
    assert!(tiling_error(top) < 1e-8, "{}", tiling_error(top));
    let faces: Vec<Region> = top.faces().values().map(|face| region(top.face_points(face))).collect();
    let whole = union(&faces);
    assert_eq!(whole.len(), 1, "the faces fall apart");
    let outline = region(top.outline_points());
    assert!(whole[0].holes.is_empty());
    assert!(area(&difference(&whole[0], std::slice::from_ref(&outline))) < 1e-7);
    assert!(area(&difference(&outline, &whole)) < 1e-7);
    for (i, one) in faces.iter().enumerate() {
        for other in &faces[i + 1..] {
            assert!(area(&intersection(one, other)) < 1e-7);
        }
    }
}

/// A length of plain cloth, `wide` across and `high` along its lengthwise threads.
pub(crate) fn cloth(wide: f64, high: f64, runs: Runs) -> Cloth {
    let plain = Look::plain(colour::Lab { l: 50.0, a: 0.0, b: 0.0 });
    Cloth {
        id: ClothId(9),
        name: "border cloth".to_owned(),
        kind: Kind::Length,
        outline: Region::rectangle(wide, high),
        flaws: Vec::new(),
        about: false,
        look: Look { runs, ..plain },
        grain: Turn::QUARTER,
        print: None,
        place: String::new(),
        facts: Facts::default(),
        picture: None,
        parts: Vec::new(),
        parent: None,
    }
}

/// A piece sewn at random and trimmed until it is convex, with no seam sticking out.
pub(crate) fn trued(seed: u64) -> Option<(Hand, Mark)> {
    let mut hand = Hand::new(seed);
    for i in 0..60 {
        if i % 4 == 2 {
            hand.trim()
        } else {
            hand.add_piece()
        };
    }
    let (mark, top) = hand.table.piece()?;
    let convex = polygon::is_convex(&top.outline_points(), 1e-9);
    (convex && top.sides().iter().all(|side| side.name().is_some())).then_some((hand, mark))
}
