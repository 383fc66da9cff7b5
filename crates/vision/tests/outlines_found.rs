//! Scraps on composed tables: how many are found, and how well.

mod tabletop;

use colour::{Srgb, difference};
use plane::{Point, Region, Vec2, intersection, polygon};
use tabletop::{Dice, Laid, MATS, PAINTED, Table, laid, outline};
use vision::{Doubt, Found, find_cloths, find_piece};

/// A table with scraps that lie apart and two cards, from a seed.
fn table(seed: u64) -> Table {
    let mut dice = Dice(seed.wrapping_mul(0x9e37_79b9).wrapping_add(77));
    let (_, mat, grid) = MATS[seed as usize % MATS.len()];
    let size_in = [15.0, 12.0];
    let cards = vec![(Point::new(0.6, 0.7), 1.5), (Point::new(12.8, 9.8), 1.5)];
    let mut scraps: Vec<Laid> = Vec::new();
    let mut round: Vec<(Point, f64)> =
        cards.iter().map(|&(p, side)| (p + Vec2::new(side, side) * 0.5, side)).collect();
    for _ in 0..400 {
        if scraps.len() == 6 {
            break;
        }
        let long = dice.between(2.0, 5.5);
        let region = outline(&mut dice, long);
        let reach = region.outer.iter().map(|p| p.distance(Point::ORIGIN)).fold(0.0, f64::max);
        let middle = Point::new(
            dice.between(reach + 0.1, size_in[0] - reach - 0.1),
            dice.between(reach + 0.1, size_in[1] - reach - 0.1),
        );
        let print = dice.below(PAINTED.len());
        if round.iter().any(|(p, r)| p.distance(middle) < r + reach + 0.15) || !shows(print, mat) {
            continue;
        }
        round.push((middle, reach));
        scraps.push(laid(&mut dice, &region, print, middle));
    }
    Table {
        size_in,
        per_in: dice.between(60.0, 80.0),
        mat,
        grid,
        scraps,
        cards,
        fall_off: dice.between(0.0, 0.5),
        shadow: (dice.between(0.0, 0.45), dice.between(0.02, 0.12), dice.between(0.05, 0.2)),
        blur_px: dice.between(0.5, 1.5),
        noise: dice.between(0.5, 3.0),
    }
}

/// Whether a print can be told from a mat at all: no main colour of it is nearer than this.
fn shows(print: usize, mat: u32) -> bool {
    let mat = Srgb::from_number(mat).to_lab();
    let look = PAINTED[print].print.look();
    look.shades.iter().filter(|shade| shade.share > 0.15).all(|shade| difference(shade.lab, mat) > 8.0)
}

/// Root mean square distance of the truth's outline from the found one, in inches.
fn rms(found: &Region, truth: &Region) -> f64 {
    let distance = |p: Point| {
        polygon::edges(&found.outer)
            .chain(found.holes.iter().flat_map(|hole| polygon::edges(hole).collect::<Vec<_>>()))
            .map(|(a, b)| {
                let t = ((p - a).dot(b - a) / (b - a).dot(b - a)).clamp(0.0, 1.0);
                p.distance(a.lerp(b, t))
            })
            .fold(f64::INFINITY, f64::min)
    };
    let (mut sum, mut count) = (0.0, 0.0);
    for (a, b) in polygon::edges(&truth.outer) {
        let steps = (a.distance(b) * 16.0).ceil() as usize;
        for k in 0..steps {
            sum += distance(a.lerp(b, (k as f64 + 0.5) / steps as f64)).powi(2);
            count += 1.0;
        }
    }
    (sum / f64::max(count, 1.0)).sqrt()
}

/// The found cloth that overlaps a truth by half of both.
fn match_of<'a>(found: &'a [Found], truth: &Region) -> Option<&'a Found> {
    found.iter().find(|one| {
        let both: f64 = intersection(&one.outline, truth).iter().map(Region::area).sum();
        both > 0.5 * truth.area() && both > 0.5 * one.outline.area()
    })
}

#[test]
fn scraps_on_every_mat_are_found_true_to_size() {
    let (mut all, mut hit, mut stray) = (0, 0, 0);
    let (mut distances, mut areas, mut corners) = (Vec::new(), Vec::new(), 0);
    let tables: u64 = std::env::var("TABLES").ok().and_then(|v| v.parse().ok()).unwrap_or(16);
    let first: u64 = std::env::var("FIRST").ok().and_then(|v| v.parse().ok()).unwrap_or(0);
    for seed in first..first + tables {
        let table = table(seed);
        let flat = table.paint(seed);
        let found = find_cloths(&flat, &table.card_corners());
        if let Ok(folder) = std::env::var("SHOW") {
            show(&flat, &found, &table, &format!("{folder}/{seed}.png"));
        }
        let mut used = 0;
        for scrap in &table.scraps {
            all += 1;
            match match_of(&found, &scrap.outline) {
                Some(one) => {
                    hit += 1;
                    used += 1;
                    let far = rms(&one.outline, &scrap.outline);
                    let area = one.outline.area() / scrap.outline.area() - 1.0;
                    if far > 1.0 / 32.0 || area.abs() > 0.01 {
                        let name = &PAINTED[scrap.print].print.name;
                        println!(
                            "{seed} {}: {name}: rms {far:.3}, area {:+.1} %, {:?}",
                            MATS[seed as usize % MATS.len()].0,
                            area * 100.0,
                            one.doubts
                        );
                    }
                    distances.push(far);
                    areas.push(area);
                    corners += one.outline.outer.len().saturating_sub(scrap.outline.outer.len());
                }
                None => println!(
                    "{seed} {}: {} at {:?} not found",
                    MATS[seed as usize % MATS.len()].0,
                    PAINTED[scrap.print].print.name,
                    polygon::centroid(&scrap.outline.outer)
                ),
            }
        }
        if found.len() > used {
            println!("{seed}: {} strays", found.len() - used);
        }
        stray += found.len() - used;
    }
    distances.sort_by(f64::total_cmp);
    let mut off: Vec<f64> = areas.iter().map(|a| a.abs()).collect();
    off.sort_by(f64::total_cmp);
    let at = |list: &[f64], share: f64| list[((list.len() - 1) as f64 * share) as usize];
    let bias = areas.iter().sum::<f64>() / areas.len() as f64;
    println!(
        "found {hit} of {all}, strays {stray}; rms median {:.4}, nine in ten {:.4}, worst {:.4}; area off median \
         {:.2} %, nine in ten {:.2} %, mean {:+.2} %; {corners} corners too many",
        at(&distances, 0.5),
        at(&distances, 0.9),
        at(&distances, 1.0),
        100.0 * at(&off, 0.5),
        100.0 * at(&off, 0.9),
        100.0 * bias
    );
    assert!(hit * 100 >= all * 98 && stray * 100 <= all, "{hit} of {all}, {stray} strays");
    assert!(at(&distances, 0.5) <= 1.0 / 32.0 && at(&distances, 0.9) <= 1.0 / 16.0);
    // Nine in ten within 1 % is the aim; some tables miss it (docs/BENCHMARKS.md).
    assert!(at(&off, 0.5) < 0.01 && at(&off, 0.9) < 0.03 && bias.abs() < 0.01);
}

/// A bare table of a kind, two cards on it.
fn bare(mat: u32, grid: Option<tabletop::Lines>) -> Table {
    Table {
        size_in: [10.0, 8.0],
        per_in: 64.0,
        mat,
        grid,
        scraps: vec![],
        cards: vec![(Point::new(0.6, 0.7), 1.2), (Point::new(8.0, 6.0), 1.2)],
        fall_off: 0.5,
        shadow: (0.3, 0.06, 0.12),
        blur_px: 0.8,
        noise: 1.5,
    }
}

/// A rectangle of a print laid unturned with its lower left corner at a place.
fn rectangle(print: &str, at: Point, size: [f64; 2]) -> Laid {
    let print = PAINTED.iter().position(|painted| painted.print.name == print).unwrap();
    let outline = Region::rectangle(size[0], size[1])
        .moved(plane::Pose { turn: plane::Turn::NONE, by: at - Point::ORIGIN });
    Laid { outline, print, pose: plane::Pose::STAY, scale: 1.0, threads: vec![] }
}

#[test]
fn on_a_bare_table_nothing_is_found() {
    for (name, mat, grid) in MATS {
        let table = bare(mat, grid);
        let found = find_cloths(&table.paint(1), &table.card_corners());
        assert_eq!(found.len(), 0, "{name}");
    }
}

#[test]
fn fine_lines_of_a_mat_are_no_cloth() {
    let turn = plane::Turn::from_degrees(24.0);
    for (every, wide) in [(0.25, 0.05), (0.3, 0.05)] {
        let mut table = bare(0x3d_4a66, Some((every, wide, 0xc4_c8d0)));
        table.scraps = vec![
            rectangle("sand check", Point::ORIGIN, [2.6, 2.0]),
            rectangle("rust leaves", Point::ORIGIN, [3.0, 2.2]),
        ];
        for (scrap, by) in table.scraps.iter_mut().zip([Vec2::new(3.0, 1.0), Vec2::new(4.0, 4.0)]) {
            scrap.outline = scrap.outline.moved(plane::Pose { turn, by });
        }
        let found = find_cloths(&table.paint(1), &table.card_corners());
        assert_eq!(found.len(), 2);
        for scrap in &table.scraps {
            let one = match_of(&found, &scrap.outline).unwrap();
            let area = one.outline.area() / scrap.outline.area() - 1.0;
            println!(
                "lines every {every}: rms {:.3}, area {:+.2} %",
                rms(&one.outline, &scrap.outline),
                100.0 * area
            );
            assert!(area.abs() < 0.05, "{area}");
        }
    }
}

#[test]
fn what_leaves_the_picture_is_cut_off_and_only_that() {
    let mut table = bare(0x9c_9c9a, None);
    table.scraps = vec![
        rectangle("rust wash", Point::new(-1.0, 3.5), [3.0, 2.5]),
        rectangle("green dots", Point::new(4.0, 2.0), [3.0, 2.5]),
    ];
    let found = find_cloths(&table.paint(1), &table.card_corners());
    let cut: Vec<bool> = found.iter().map(|one| one.cut_off).collect();
    assert_eq!(cut, [false, true]);
    assert!((found[1].outline.area() - 5.0).abs() < 0.05, "{}", found[1].outline.area());
}

#[test]
fn neighbours_that_touch_are_told_apart() {
    let mut table = bare(0xb0_8d5f, None);
    table.scraps = vec![
        rectangle("slate wash", Point::new(2.5, 2.0), [3.0, 3.5]),
        rectangle("coral dots", Point::new(5.5, 2.6), [2.0, 2.2]),
    ];
    let found = find_cloths(&table.paint(1), &table.card_corners());
    assert_eq!(found.len(), 2);
    for (one, scrap) in found.iter().zip(&table.scraps) {
        assert!(one.doubts.contains(&Doubt::Touching));
        assert!((one.outline.area() / scrap.outline.area() - 1.0).abs() < 0.02, "{}", one.outline.area());
        assert!(rms(&one.outline, &scrap.outline) < 1.0 / 16.0);
    }
}

#[test]
fn a_piece_is_one_outline_whatever_it_is_sewn_from() {
    let mut table = bare(0xb0_8d5f, None);
    table.scraps = vec![
        rectangle("slate wash", Point::new(2.5, 2.0), [3.0, 3.5]),
        rectangle("coral dots", Point::new(5.5, 2.6), [2.0, 2.2]),
        rectangle("green dots", Point::new(0.4, 4.5), [1.5, 1.5]),
    ];
    let flat = table.paint(1);
    assert!(
        find_cloths(&flat, &table.card_corners()).len() > 2,
        "its cloths are told apart unless it is asked for"
    );
    let piece = find_piece(&flat, &table.card_corners()).unwrap();
    let corners =
        [(2.5, 2.0), (5.5, 2.0), (5.5, 2.6), (7.5, 2.6), (7.5, 4.8), (5.5, 4.8), (5.5, 5.5), (2.5, 5.5)];
    let whole = Region::try_new(corners.map(|(x, y)| Point::new(x, y)).to_vec(), vec![]).unwrap();
    assert!((piece.outline.area() / whole.area() - 1.0).abs() < 0.01, "{}", piece.outline.area());
    assert!(piece.outline.holes.is_empty() && !piece.doubts.contains(&Doubt::Touching), "{piece:?}");
    assert!(rms(&piece.outline, &whole) < 1.0 / 32.0);
    let empty = bare(0xb0_8d5f, None);
    assert!(find_piece(&empty.paint(1), &empty.card_corners()).is_none());
}

#[test]
fn a_piece_with_a_patch_like_the_table_is_completed() {
    // Without that the first lacks a sixth, the second more than a third.
    for (mat, print, off) in [(0xb9_b2a8, "shell blotch", 0.02), (0xc4_ccd0, "drizzle", 0.03)] {
        let mut table = bare(mat, None);
        table.scraps = vec![
            rectangle("slate wash", Point::new(2.5, 2.0), [3.0, 3.5]),
            rectangle(print, Point::new(5.5, 2.0), [1.8, 3.5]),
        ];
        let piece = find_piece(&table.paint(1), &table.card_corners()).unwrap();
        assert!((piece.outline.area() / 16.8 - 1.0).abs() < off, "{print}: {}", piece.outline.area());
        assert!(piece.doubts.contains(&Doubt::LittleContrast), "{print}: {:?}", piece.doubts);
    }
}

#[test]
fn nothing_seen_gives_nothing_and_no_panic() {
    let mut flat = bare(0x9c_9c9a, None).paint(1);
    flat.seen.fill(false);
    assert_eq!(find_cloths(&flat, &[]).len(), 0);
    flat.picture = vision::Picture { width: 0, height: 0, rgb: vec![] };
    flat.seen.clear();
    assert_eq!(find_cloths(&flat, &[vec![Point::new(f64::NAN, 0.0); 4]]).len(), 0);
    assert!(vision::look(&flat, &Region::rectangle(2.0, 2.0)).shades.is_empty());
}

/// Writes the picture with what was found (red) and the truth (blue dots) over it.
fn show(flat: &vision::Flat, found: &[Found], table: &Table, path: &str) {
    let mut raster = demo::Raster::new(flat.picture.width, flat.picture.height);
    for (pixel, [r, g, b]) in raster.pixels.iter_mut().zip(&flat.picture.rgb) {
        *pixel = [*r, *g, *b, 255];
    }
    let mut line = |ring: &[Point], colour: [u8; 4], step: f64| {
        for (a, b) in polygon::edges(ring) {
            let (a, b) = (flat.in_picture(a), flat.in_picture(b));
            let count = (a.distance(b) / step).ceil() as usize;
            for k in 0..count {
                let p = a.lerp(b, k as f64 / count as f64);
                if p.x >= 0.0 && p.y >= 0.0 && p.x < f64::from(raster.width) && p.y < f64::from(raster.height)
                {
                    let width = raster.width as usize;
                    raster.pixels[p.y as usize * width + p.x as usize] = colour;
                }
            }
        }
    };
    for one in found {
        line(&one.outline.outer, [255, 0, 0, 255], 0.5);
        for hole in &one.outline.holes {
            line(hole, [255, 0, 255, 255], 0.5);
        }
    }
    for scrap in &table.scraps {
        line(&scrap.outline.outer, [0, 80, 255, 255], 6.0);
    }
    std::fs::write(path, raster.to_png().unwrap()).unwrap();
}
