//! The main colours of a picture and their shares: k-means in OKLab.
//!
//! Always the same answer for the same picture: pixels are first gathered into bins of 1/32 of
//! each channel (walked in order), the first centre is the fullest bin, each further centre is
//! the bin that is worst served, and then centres move to their means until they rest. Centres
//! that end up looking alike are merged, so a plain cloth gives one colour however many are
//! asked for.

use crate::{Lab, Oklab, Srgb};

/// One main colour of a picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swatch {
    /// The colour, the mean of its pixels.
    pub lab: Lab,
    /// Its share of all pixels, 0 to 1; the shares of a palette add up to 1.
    pub share: f64,
}

/// At most `most` main colours of `pixels`, largest share first. Empty when there are no pixels or
/// `most` is 0. Memory doesn't grow with the number of pixels.
#[must_use]
pub fn palette(pixels: impl IntoIterator<Item = Srgb>, most: usize) -> Vec<Swatch> {
    let bins = gather(pixels);
    let total: f64 = bins.iter().map(|bin| bin.weight).sum();
    if bins.is_empty() || most == 0 {
        return Vec::new();
    }
    let mut centres = settle(&bins, seed(&bins, most));
    merge_alike(&mut centres);
    let mut swatches: Vec<Swatch> = centres
        .into_iter()
        .map(|c| Swatch { lab: c.place.to_linear().into(), share: c.weight / total })
        .collect();
    swatches.sort_by(|a, b| b.share.total_cmp(&a.share).then(a.lab.l.total_cmp(&b.lab.l)));
    swatches
}

/// Some pixels of nearly one colour, or the mean of a cluster.
#[derive(Clone, Copy)]
struct Heap {
    place: Oklab,
    weight: f64,
}

/// Pixels gathered by colour, in a fixed order.
fn gather(pixels: impl IntoIterator<Item = Srgb>) -> Vec<Heap> {
    let mut sums = vec![[0_u64; 4]; 1 << 15];
    for pixel in pixels {
        let five = |channel: u8| usize::from(channel >> 3);
        let sum = &mut sums[five(pixel.r) << 10 | five(pixel.g) << 5 | five(pixel.b)];
        for (part, value) in sum.iter_mut().zip([pixel.r, pixel.g, pixel.b, 1]) {
            *part += u64::from(value);
        }
    }
    sums.into_iter()
        .filter(|sum| sum[3] > 0)
        .map(|[r, g, b, count]| {
            let mean = |sum: u64| ((sum + count / 2) / count) as u8;
            Heap { place: Srgb::new(mean(r), mean(g), mean(b)).to_oklab(), weight: count as f64 }
        })
        .collect()
}

/// First centres: the fullest bin, then again and again the bin that is worst served, where many
/// pixels and a large distance both count.
fn seed(bins: &[Heap], most: usize) -> Vec<Oklab> {
    let Some(first) = bins.iter().max_by(|a, b| a.weight.total_cmp(&b.weight)) else {
        return Vec::new();
    };
    let mut centres = vec![first.place];
    while centres.len() < most {
        let need = |bin: &Heap| bin.weight * nearest(&centres, bin.place).1.powi(2);
        let Some(worst) = bins.iter().max_by(|a, b| need(a).total_cmp(&need(b))) else { break };
        if need(worst) == 0.0 {
            break;
        }
        centres.push(worst.place);
    }
    centres
}

/// Moves the centres to the means of their bins until they rest.
fn settle(bins: &[Heap], mut centres: Vec<Oklab>) -> Vec<Heap> {
    loop_until_rest(|| {
        let means = means(bins, &centres);
        let moved = means.iter().zip(&centres).map(|(m, c)| m.place.distance(*c)).fold(0.0, f64::max);
        centres = means.iter().map(|mean| mean.place).collect();
        (moved < REST).then_some(means)
    })
    .unwrap_or_else(|| means(bins, &centres))
}

/// Tries at most [`ROUNDS`] times.
fn loop_until_rest<T>(mut round: impl FnMut() -> Option<T>) -> Option<T> {
    (0..ROUNDS).find_map(|_| round())
}

/// The mean of the bins nearest to each centre; a centre without bins stays with weight 0.
fn means(bins: &[Heap], centres: &[Oklab]) -> Vec<Heap> {
    let mut sums = vec![[0.0_f64; 4]; centres.len()];
    for bin in bins {
        let sum = &mut sums[nearest(centres, bin.place).0];
        for (part, value) in sum.iter_mut().zip([bin.place.l, bin.place.a, bin.place.b, 1.0]) {
            *part += value * bin.weight;
        }
    }
    sums.iter()
        .zip(centres)
        .map(|(&[l, a, b, weight], &centre)| {
            let place =
                if weight > 0.0 { Oklab { l: l / weight, a: a / weight, b: b / weight } } else { centre };
            Heap { place, weight }
        })
        .collect()
}

/// Which centre is nearest, and how far.
fn nearest(centres: &[Oklab], place: Oklab) -> (usize, f64) {
    centres
        .iter()
        .map(|centre| centre.distance(place))
        .enumerate()
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .unwrap_or((0, 0.0))
}

/// Drops centres without pixels and joins pairs that look alike, nearest first.
fn merge_alike(centres: &mut Vec<Heap>) {
    centres.retain(|centre| centre.weight > 0.0);
    loop {
        let pairs = (0..centres.len()).flat_map(|i| (i + 1..centres.len()).map(move |j| (i, j)));
        let nearest = pairs
            .map(|(i, j)| (centres[i].place.distance(centres[j].place), i, j))
            .min_by(|a, b| a.0.total_cmp(&b.0));
        let Some((distance, i, j)) = nearest else { return };
        if distance >= ALIKE {
            return;
        }
        let gone = centres.remove(j);
        let weight = centres[i].weight + gone.weight;
        centres[i] = Heap { place: centres[i].place.lerp(gone.place, gone.weight / weight), weight };
    }
}

/// Most rounds of moving; pictures of prints rest after 5 to 15.
const ROUNDS: usize = 32;
/// In OKLab: centres that move less are at rest.
const REST: f64 = 1e-5;
/// In OKLab: colours nearer than this count as one, about 3 in CIEDE2000.
const ALIKE: f64 = 0.03;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_inks_come_out_with_their_shares() {
        let inks = [(0xd9c3a0, 600), (0xb5532f, 300), (0x2f4a45, 100)];
        let pixels = inks.iter().flat_map(|&(ink, count)| {
            // A weave: every second pixel is one step darker.
            (0..count).map(move |i| Srgb::from_number(ink - 0x010101 * (i % 2)))
        });
        let found = palette(pixels, 5);
        assert_eq!(found.len(), 3);
        for (swatch, (ink, count)) in found.iter().zip(inks) {
            assert!((swatch.share - f64::from(count) / 1000.0).abs() < 1e-12);
            assert!(crate::difference(swatch.lab, Srgb::from_number(ink).to_lab()) < 0.6);
        }
    }

    #[test]
    fn a_plain_picture_gives_one_colour_and_an_empty_one_none() {
        let plain = palette(std::iter::repeat_n(Srgb::from_number(0x808080), 50), 4);
        assert_eq!(plain.len(), 1);
        assert_eq!(plain[0].share, 1.0);
        assert!(palette([], 4).is_empty());
        assert!(palette([Srgb::default()], 0).is_empty());
    }

    #[test]
    fn the_order_of_the_pixels_makes_no_difference() {
        let pixels: Vec<Srgb> = (0..5000_u32).map(|i| Srgb::from_number(i * 7_919 * 31)).collect();
        let back: Vec<Srgb> = pixels.iter().rev().copied().collect();
        let found = palette(pixels, 6);
        assert_eq!(found, palette(back, 6));
        assert!((found.iter().map(|s| s.share).sum::<f64>() - 1.0).abs() < 1e-12);
    }
}
