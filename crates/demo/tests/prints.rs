//! What is promised of prints: seamless, the same again, and looking as they say they look.

use colour::{Srgb, difference, mean, palette};
use demo::{Print, Raster, prints};
use quilt::cloth::Runs;

fn colour_at(raster: &Raster, column: u32, row: u32) -> [f64; 3] {
    let at = (row % raster.height) * raster.width + column % raster.width;
    let [r, g, b, _] = raster.pixels[at as usize];
    [f64::from(r), f64::from(g), f64::from(b)]
}

/// Mean step from one column (or row) to the next, both counted round.
fn step(raster: &Raster, index: u32, columns: bool) -> f64 {
    let count = if columns { raster.height } else { raster.width };
    let at =
        |i: u32, along: u32| if columns { colour_at(raster, i, along) } else { colour_at(raster, along, i) };
    let sum: f64 = (0..count)
        .flat_map(|along| at(index, along).into_iter().zip(at(index + 1, along)))
        .map(|(a, b)| (a - b).abs())
        .sum();
    sum / f64::from(count)
}

fn opaque(raster: &Raster) -> impl Iterator<Item = Srgb> + '_ {
    raster.pixels.iter().map(|&[r, g, b, _]| Srgb { r, g, b })
}

#[test]
fn a_repeat_joins_without_a_seam() {
    for print in prints(0) {
        let raster = print.draw(24.0);
        for (columns, count) in [(true, raster.width), (false, raster.height)] {
            let mut steps: Vec<f64> = (0..count - 1).map(|i| step(&raster, i, columns)).collect();
            steps.sort_by(f64::total_cmp);
            let at_seam = step(&raster, count - 1, columns);
            let most = steps[steps.len() - 1];
            assert!(at_seam <= most * 1.15, "{}: {at_seam} over the seam, {most} inside", print.name);
        }
    }
}

#[test]
fn a_print_is_drawn_the_same_again_and_at_its_size() {
    for (one, again) in prints(7).iter().zip(prints(7)) {
        let raster = one.draw(20.0);
        assert_eq!(raster, again.draw(20.0), "{}", one.name);
        let [width, height] = one.repeat_in();
        assert_eq!(
            (raster.width, raster.height),
            ((width * 20.0).round() as u32, (height * 20.0).round() as u32)
        );
    }
}

#[test]
fn a_look_known_without_painting_is_what_the_picture_shows() {
    for print in prints(0) {
        let look = print.look();
        let raster = print.draw(48.0);
        let painted = mean(opaque(&raster).map(|srgb| (srgb.to_lab(), 1.0))).unwrap();
        let off = difference(look.mean(), painted);
        assert!(off < 2.5, "{}: mean off by {off}", print.name);
        let found = palette(opaque(&raster), 6);
        for shade in look.shades.iter().filter(|shade| shade.share > 0.12) {
            let near = found.iter().map(|s| difference(s.lab, shade.lab)).fold(f64::INFINITY, f64::min);
            assert!(near < 6.0, "{}: {:?} is {near} from {found:?}", print.name, shade.lab);
        }
    }
}

#[test]
fn looks_are_whole_sorted_and_busier_for_busier_prints() {
    let all = prints(0);
    for print in &all {
        let look = print.look();
        assert!((look.shades.iter().map(|s| s.share).sum::<f64>() - 1.0).abs() < 1e-9);
        assert!(look.shades.windows(2).all(|w| w[0].share >= w[1].share), "{}", print.name);
        assert!((0.0..1.0).contains(&look.busy));
    }
    let busy = |name: &str| find(&all, name).look().busy;
    assert!(busy("mist") < busy("windowpane") && busy("windowpane") < busy("cockles"));
}

fn find<'a>(all: &'a [Print], name: &str) -> &'a Print {
    all.iter().find(|print| print.name == name).unwrap()
}

#[test]
fn there_are_about_thirty_prints_some_one_way_and_no_two_alike() {
    let all = prints(0);
    assert!((28..=34).contains(&all.len()));
    let one_way = all.iter().filter(|print| matches!(print.look().runs, Runs::OneWay(_))).count();
    let both_ways = all.iter().filter(|print| matches!(print.look().runs, Runs::BothWays(_))).count();
    assert!(one_way >= 6 && both_ways >= 3, "{one_way} {both_ways}");
    for (i, print) in all.iter().enumerate() {
        assert!(print.inks.len() <= 5);
        assert!(all[..i].iter().all(|other| other.number != print.number && other.name != print.name));
    }
}

#[test]
fn a_dye_lot_is_a_little_off_and_no_more() {
    for (meant, dyed) in prints(0).iter().zip(prints(3)) {
        let off = difference(meant.look().mean(), dyed.look().mean());
        assert!(off > 0.0 && off < 12.0, "{}: {off}", meant.name);
        assert_ne!(meant.number, dyed.number);
    }
}
