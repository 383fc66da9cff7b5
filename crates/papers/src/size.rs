//! Sizes of paper.

use crate::PaperProblem;
use quilt::length::Length;
use std::str::FromStr;

/// A size of paper.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Paper {
    /// 210 by 297 millimetres.
    #[default]
    A4,
    /// 8 1/2 by 11 inches.
    Letter,
    /// Any other, as [`Paper::sized`] lets it be.
    Other(OtherSize),
}

/// Width and height that leave room beside margins, marks and words.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OtherSize([f64; 2]);

/// Narrower and lower paper has no room for a template beside the squares to measure, nor for a line of words.
const LEAST_IN: [f64; 2] = [5.5, 8.0];
/// A page of a PDF can't be longer: 14,400 points (ISO 32000-1, annex C).
const MOST_IN: f64 = 200.0;

/// Sizes that have a name, in inches (ISO 216; the American ones: common practice, no source).
const NAMED: [(&str, Paper); 6] = [
    ("a4", Paper::A4),
    ("letter", Paper::Letter),
    ("a5", Paper::Other(OtherSize([148.0 / 25.4, 210.0 / 25.4]))),
    ("a3", Paper::Other(OtherSize([297.0 / 25.4, 420.0 / 25.4]))),
    ("legal", Paper::Other(OtherSize([8.5, 14.0]))),
    ("tabloid", Paper::Other(OtherSize([11.0, 17.0]))),
];

impl Paper {
    /// Paper of a width and height in inches.
    ///
    /// # Errors
    /// No room between the margins, or more than a page can be long.
    pub fn sized(width_in: f64, height_in: f64) -> Result<Self, PaperProblem> {
        let fits = |length: f64, least: f64| (least - 1e-6..=MOST_IN).contains(&length);
        if fits(width_in, LEAST_IN[0]) && fits(height_in, LEAST_IN[1]) {
            return Ok(Self::Other(OtherSize([width_in, height_in])));
        }
        Err(PaperProblem::PaperSize { width_in, height_in, least_in: LEAST_IN, most_in: MOST_IN })
    }

    /// Width and height in inches.
    #[must_use]
    pub const fn size_in(self) -> [f64; 2] {
        match self {
            Self::A4 => [210.0 / 25.4, 297.0 / 25.4],
            Self::Letter => [8.5, 11.0],
            Self::Other(OtherSize(size_in)) => size_in,
        }
    }
}

impl FromStr for Paper {
    type Err = PaperProblem;

    /// A name, or a width and a height: `letter`, `8-1/2x14`, `297mm x 420mm`.
    fn from_str(text: &str) -> Result<Self, PaperProblem> {
        let text = text.trim().to_lowercase();
        if let Some((_, paper)) = NAMED.iter().find(|(name, _)| *name == text) {
            return Ok(*paper);
        }
        let unknown = || PaperProblem::NoSuchPaper {
            said: text.chars().take(40).collect(),
            names: NAMED.map(|(name, _)| name).join(", "),
        };
        let (width, height) = text.split_once(['x', '×']).ok_or_else(unknown)?;
        let length = |part: &str| part.trim().parse().map(Length::inches).map_err(|_| unknown());
        Self::sized(length(width)?, length(height)?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paper_is_named_or_measured() {
        for (said, [width, height]) in [
            ("A4", [8.2677, 11.6929]),
            ("letter", [8.5, 11.0]),
            ("Legal", [8.5, 14.0]),
            ("a3", [11.6929, 16.5354]),
            ("8-1/2x14", [8.5, 14.0]),
            ("24 in × 96 in", [24.0, 96.0]),
            ("297mm x 420mm", [11.6929, 16.5354]),
        ] {
            let [w, h] = said.parse::<Paper>().unwrap().size_in();
            assert!((w - width).abs() < 1e-3 && (h - height).abs() < 1e-3, "{said}: {w} {h}");
        }
    }

    #[test]
    fn paper_without_room_is_refused_with_what_would_do() {
        for said in ["3x4", "8.5x7.9", "201x10", "1in x 200in"] {
            let problem = said.parse::<Paper>().unwrap_err();
            assert!(matches!(problem, PaperProblem::PaperSize { .. }), "{said}: {problem}");
            assert!(problem.to_string().contains("5 1/2 by 8 inches"), "{problem}");
        }
        for said in ["", "a9", "x", "8x", "8 by 10", "nanxnan", "-8x10", "1e400x9"] {
            let problem = said.parse::<Paper>().unwrap_err();
            assert!(matches!(problem, PaperProblem::NoSuchPaper { .. }), "{said}: {problem}");
            assert!(problem.to_string().contains("a4, letter"), "{problem}");
        }
        assert!(Paper::sized(f64::NAN, 11.0).is_err() && Paper::sized(11.0, f64::INFINITY).is_err());
    }
}
