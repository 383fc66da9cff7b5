//! *Spring Tide*: the same seaside at bed size. 2,500 scraps, and the lengths for coping, border, back
//! and binding.

use crate::heap::{Heap, Scrap, heap, length};
use crate::print::prints;
use colour::Lab;
use plane::Region;
use quilt::cloth::{ClothId, Kind, Look};

/// The seed of its basket.
const SEED: u64 = 21;

/// 2,500 scraps of 96 prints, distributed like the frozen heap.
#[must_use]
pub fn spring_tide() -> Heap {
    heap(SEED, 2500, 96)
}

/// What its finishing takes besides the scraps, by the prints of *Low Tide*: lengths off the bolt, a back
/// in one piece, and batting.
#[must_use]
pub fn spring_tide_lengths() -> Heap {
    let prints = prints(0);
    let wanted = [
        ("mist", [42.0, 108.0], Kind::Length),
        ("slate wash", [42.0, 108.0], Kind::Length),
        ("deep green", [42.0, 126.0], Kind::Length),
        ("rust wash", [42.0, 36.0], Kind::Length),
        ("eelgrass", [108.0, 117.0], Kind::Backing),
    ];
    let mut scraps: Vec<Scrap> = Vec::new();
    for (name, [width, height], kind) in wanted {
        let Some(print) = prints.iter().position(|print| print.name == name) else { continue };
        let mut scrap = length(&prints, print, Region::rectangle(width, height));
        scrap.cloth.kind = kind;
        scraps.push(scrap);
    }
    if let Some(mut batting) = scraps.first().cloned() {
        // Batting has no print: it goes as plain bleached cloth that nobody sees.
        batting.cloth.id = ClothId(SEED);
        "batting, king size".clone_into(&mut batting.cloth.name);
        batting.cloth.kind = Kind::Batting;
        batting.cloth.outline = Region::rectangle(120.0, 120.0);
        batting.cloth.print = None;
        batting.cloth.look = Look::plain(Lab::new(95.0, 0.0, 4.0));
        scraps.push(batting);
    }
    Heap { prints, scraps }
}
