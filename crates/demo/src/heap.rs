//! Baskets of scraps.
//!
//! **The frozen heap** is what the benchmarks run on; its distributions were set before any score
//! was tuned and don't change:
//!
//! * as many prints as a fifth of the scraps, at least 12 and at most 96, spread evenly from the
//!   hot to the cool end of the designs and each a little off-shade; a scrap's print is any of
//!   them with equal chance;
//! * the long side is lognormal with a median of 5 inches and a deviation of 0.40 in its natural
//!   logarithm, held between 2 and 14; the outline is one of the sorts in `outline` (46 %
//!   quadrilaterals, 18 % strips, 17 % triangles, 12 % pentagons, 7 % with a bite); none is narrower
//!   than 1 1/4;
//! * one in thirty has a hole, one in twenty-five a flaw;
//! * threads run along a side for two in three, at any angle for the rest; scraps of the first
//!   kind lie as cut or turned by quarters.
//!
//! **Low Tide** is tuned to its piece: many small hot scraps for the centre, fewer and larger cool
//! ones for the outside.

use crate::dice::{Dice, mix};
use crate::outline;
use crate::print::{HOT, HOT_AND_PALE, Print, prints};
use colour::Lab;
use plane::{Point, Pose, Region, Turn, Vec2, polygon};
use quilt::cloth::{Cloth, ClothId, Facts, Kind, Look, Runs};

/// A scrap and where in its print it was.
#[derive(Clone, Debug)]
pub struct Scrap {
    /// The cloth as the stash has it, without a picture.
    pub cloth: Cloth,
    /// Which of the heap's prints it is of.
    pub print: usize,
    /// From the cloth's coordinates to its print's.
    pub pose: Pose,
}

/// A basket of scraps and the prints they are of.
#[derive(Clone, Debug)]
pub struct Heap {
    /// The prints.
    pub prints: Vec<Print>,
    /// The scraps.
    pub scraps: Vec<Scrap>,
}

impl Heap {
    /// The cloths alone, in order.
    #[must_use]
    pub fn cloths(&self) -> Vec<Cloth> {
        self.scraps.iter().map(|scrap| scrap.cloth.clone()).collect()
    }

    /// The print a scrap is of.
    #[must_use]
    pub fn print_of(&self, scrap: &Scrap) -> Option<&Print> {
        self.prints.get(scrap.print)
    }

    /// Area of all scraps, in square inches.
    #[must_use]
    pub fn area(&self) -> f64 {
        self.scraps.iter().map(|scrap| scrap.cloth.outline.area()).sum()
    }
}

/// The demo's basket: 96 scraps of all 32 prints, some five times the area of a round
/// piece 20 inches across.
#[must_use]
pub fn low_tide() -> Heap {
    let prints = prints(0);
    let mut dice = Dice::new(SEED, 0x10b);
    let groups = [
        (0..HOT, 26, 3.6, "hot tray"),
        (HOT..HOT_AND_PALE, 22, 4.6, "pale tray"),
        (HOT_AND_PALE..prints.len(), 48, 5.6, "cool tray"),
    ];
    let mut scraps: Vec<Scrap> = Vec::new();
    for (range, count, median_in, place) in groups {
        for k in 0..count {
            let print = range.start + k % range.len();
            let copy = k / range.len();
            let long_in = lognormal(&mut dice, median_in, 0.26);
            let index = scraps.len() as u64;
            let mut scrap = scrap(&mut dice, &prints, print, long_in, mix(SEED ^ mix(index)));
            let letter = char::from(b'a' + (copy % 26) as u8);
            scrap.cloth.name = format!("{} {letter}", prints[print].name);
            place.clone_into(&mut scrap.cloth.place);
            scraps.push(scrap);
        }
    }
    Heap { prints, scraps }
}

/// What the finishing of *Low Tide* takes besides the scraps: five strips' worth for the ring, a
/// one-way print for the border, a blotchy one for the back, another for the binding, and batting.
#[must_use]
pub fn low_tide_lengths() -> Heap {
    let prints = prints(0);
    let wanted = [
        ("rust wash", [38.0, 4.0]),
        ("coral wash", [38.0, 4.0]),
        ("shell blotch", [38.0, 4.0]),
        ("mist", [38.0, 4.0]),
        ("slate wash", [38.0, 4.0]),
        ("tide ripple", [42.0, 24.0]),
        ("eelgrass", [42.0, 36.0]),
        ("deep green", [42.0, 14.0]),
    ];
    let of_print = |(name, [width, height]): (&str, [f64; 2])| {
        let print = prints.iter().position(|print| print.name == name)?;
        Some((print, Region::rectangle(width, height)))
    };
    let mut scraps: Vec<Scrap> = wanted
        .into_iter()
        .filter_map(of_print)
        .map(|(print, outline)| length(&prints, print, outline))
        .collect();
    if let Some(first) = scraps.first() {
        // Batting has no print: it goes as plain bleached cloth that nobody sees.
        let mut batting = first.clone();
        batting.cloth.id = ClothId(mix(SEED ^ 0xba77));
        "batting".clone_into(&mut batting.cloth.name);
        batting.cloth.kind = Kind::Batting;
        batting.cloth.outline = Region::rectangle(45.0, 36.0);
        batting.cloth.print = None;
        batting.cloth.look = Look::plain(Lab::new(95.0, 0.0, 4.0));
        scraps.push(batting);
    }
    Heap { prints, scraps }
}

/// A length off the bolt, its threads along its edges.
pub(crate) fn length(prints: &[Print], print: usize, outline: Region) -> Scrap {
    let cloth = Cloth {
        id: ClothId(mix(SEED ^ mix(0x1e47 ^ print as u64))),
        name: format!("{}, a length", prints[print].name),
        kind: Kind::Length,
        outline,
        flaws: Vec::new(),
        about: false,
        look: prints[print].look(),
        grain: Turn::QUARTER,
        print: Some(prints[print].number),
        place: "shelf".to_owned(),
        facts: Facts { fibre: "cotton".to_owned(), washed: Some(true), bleeds: Some(false) },
        picture: None,
        parts: Vec::new(),
        parent: None,
    };
    Scrap { cloth, print, pose: Pose::STAY }
}

/// A basket for benchmarks: any number of scraps, of 12 prints or more. The same seed and number
/// give the same basket for ever; the module's text says how it is distributed.
#[must_use]
pub fn frozen_heap(seed: u64, scraps: usize) -> Heap {
    heap(seed, scraps, (scraps / 5).clamp(12, 96))
}

/// A basket of so many scraps of so many prints (at least one), distributed like the frozen one.
#[must_use]
pub fn heap(seed: u64, scraps: usize, prints: usize) -> Heap {
    let designs = crate::print::prints(0).len();
    let count = prints.max(1);
    let prints: Vec<Print> = (0..count)
        .map(|k| Print::dyed((2 * k + 1) * designs / (2 * count), mix(seed ^ mix(k as u64)) | 1))
        .collect();
    let mut dice = Dice::new(seed, 0x4ea9);
    let scraps = (0..scraps)
        .map(|index| {
            let print = dice.below(prints.len());
            let long_in = lognormal(&mut dice, 5.0, 0.40);
            let id = mix(seed.rotate_left(23) ^ mix(index as u64));
            let mut scrap = scrap(&mut dice, &prints, print, long_in, id);
            scrap.cloth.name = format!("{} {}", prints[print].name, index + 1);
            scrap
        })
        .collect();
    Heap { prints, scraps }
}

/// A length whose logarithm is normal, held between 2 and 14 inches.
fn lognormal(dice: &mut Dice, median_in: f64, deviation: f64) -> f64 {
    (median_in * (dice.normal() * deviation).exp()).clamp(2.0, 14.0)
}

/// One scrap of a print.
pub(crate) fn scrap(dice: &mut Dice, prints: &[Print], print: usize, long_in: f64, id: u64) -> Scrap {
    let outline = outline::outline(dice, long_in);
    let flaw = if dice.chance(0.04) { outline::flaw(dice, &outline) } else { None };
    let pose = lie(dice, &outline, prints[print].repeat_in());
    let up = pose.turn.inverse().then(Turn::QUARTER);
    let cloth = Cloth {
        id: ClothId(id),
        name: prints[print].name.clone(),
        kind: Kind::Scrap,
        outline,
        flaws: flaw.into_iter().collect(),
        about: false,
        look: turned(prints[print].look(), up),
        grain: up,
        print: Some(prints[print].number),
        place: String::new(),
        facts: Facts { fibre: "cotton".to_owned(), washed: Some(true), bleeds: Some(false) },
        picture: None,
        parts: Vec::new(),
        parent: None,
    };
    Scrap { cloth, print, pose }
}

/// Where in its print a scrap was: anywhere in the repeat, threads along a side or askew.
fn lie(dice: &mut Dice, outline: &Region, repeat_in: [f64; 2]) -> Pose {
    let quarters = [Turn::NONE, Turn::QUARTER, Turn::HALF, Turn::QUARTER.opposite()];
    let square = dice.chance(2.0 / 3.0);
    let quarter = quarters[dice.below(4)];
    let askew = Turn::from_degrees(dice.between(-45.0, 45.0));
    let turn = if square { quarter } else { quarter.then(askew) };
    let corner = outline.outer.first().copied().unwrap_or(Point::ORIGIN);
    let spot = Vec2::new(dice.share() * repeat_in[0], dice.share() * repeat_in[1]);
    Pose::carrying(turn, corner, Point::ORIGIN + spot)
}

/// A look whose print's up has come to point along `up`.
pub(crate) fn turned(look: Look, up: Turn) -> Look {
    let runs = match look.runs {
        Runs::AnyWay => Runs::AnyWay,
        Runs::BothWays(_) => Runs::BothWays(up),
        Runs::OneWay(_) => Runs::OneWay(up),
    };
    Look { runs, ..look }
}

/// The seed of the demo's basket.
const SEED: u64 = 20;

/// Lower left and upper right corner of a cloth.
pub(crate) fn bounds(cloth: &Cloth) -> (Point, Point) {
    polygon::bounds(&cloth.outline.outer).unwrap_or_default()
}
