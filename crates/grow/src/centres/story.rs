//! The joining order in words.

use super::block::Block;
use super::layout::{CentreSeam, Runs, Sewn, What};
use super::plan::CentresPlan;
use quilt::length::fraction;
use std::collections::BTreeSet;

impl CentresPlan {
    /// The seams in order, one sentence each; lengths are raw, as they are sewn. What a seam made is called
    /// a unit, by the seam's number.
    #[must_use]
    pub fn story(&self, blocks: &[Block]) -> Vec<String> {
        (0..self.seams.len()).map(|i| self.sentence(i, blocks)).collect()
    }

    /// The seams that stop short, one sentence each.
    #[must_use]
    pub fn partial_seams_told(&self, blocks: &[Block]) -> Vec<String> {
        let short = |i: &usize| matches!(self.seams[*i].sewn, Sewn::StopsShort { .. });
        (0..self.seams.len()).filter(short).map(|i| self.sentence(i, blocks)).collect()
    }

    fn sentence(&self, i: usize, blocks: &[Block]) -> String {
        let seam = &self.seams[i];
        let (onto, edge) = match seam.runs {
            Runs::Upright => ("right", "left"),
            Runs::Level => ("upper", "lower"),
        };
        let (first, second) = (self.unit(i, &seam.first, blocks), self.unit(i, &seam.second, blocks));
        let raw = |inches: f64| fraction(inches, 16);
        match seam.sewn {
            Sewn::Whole => format!(
                "{}. Sew the {edge} edge of {second} to the {onto} edge of {first}: {} inches.",
                i + 1,
                raw(seam.length_in + 2.0 * self.allowance_in)
            ),
            Sewn::StopsShort { open_in, .. } => format!(
                "{}. Sew the {edge} edge of {second} to the {onto} edge of {first} from the {} end, and stop {} inches short (finished): the rest is closed later.",
                i + 1,
                far_from_open(seam),
                raw(open_in)
            ),
            Sewn::Closes(begun) => {
                format!("{}. Close seam {}: the last {} inches.", i + 1, begun + 1, raw(seam.length_in))
            }
        }
    }

    /// A part by its name; several by the seam before `i` that joined them, else by the names of all.
    fn unit(&self, i: usize, parts: &[usize], blocks: &[Block]) -> String {
        let name = |part: &usize| match self.parts[*part].what {
            What::Block(i) => blocks.get(i).map_or_else(|| format!("block {}", i + 1), |b| b.name.clone()),
            What::Strip(i) => format!("strip {}", i + 1),
        };
        let made = |seam: &CentreSeam| {
            let joined: BTreeSet<&usize> = seam.first.iter().chain(&seam.second).collect();
            joined == parts.iter().collect()
        };
        match parts {
            [only] => name(only),
            _ => self.seams[..i].iter().rposition(made).map_or_else(
                || parts.iter().map(name).collect::<Vec<_>>().join(" + "),
                |seam| format!("unit {}", seam + 1),
            ),
        }
    }
}

const fn far_from_open(seam: &CentreSeam) -> &'static str {
    let open_at_far_end = matches!(seam.sewn, Sewn::StopsShort { open_at_far_end: true, .. });
    match (seam.runs, open_at_far_end) {
        (Runs::Upright, true) => "lower",
        (Runs::Upright, false) => "upper",
        (Runs::Level, true) => "left",
        (Runs::Level, false) => "right",
    }
}
