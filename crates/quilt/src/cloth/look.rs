//! How a cloth looks: what the eye takes in, boiled down to numbers.

use colour::Lab;
use plane::{Turn, Turning};
use serde::{Deserialize, Serialize};

/// One of the main colours of a print and its share of the area.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Shade {
    /// The colour.
    pub lab: Lab,
    /// Its share of the area, 0 to 1; the shares of a look add up to 1.
    pub share: f64,
}

/// Which ways up a print may be used.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Runs {
    /// It may lie any way.
    AnyWay,
    /// It has a direction, and upside down looks the same (stripes).
    BothWays(Turn),
    /// It has a top: `0` points up the print, in cloth coordinates.
    OneWay(Turn),
}

impl Runs {
    /// How a piece may be turned on this print, and relative to which turn of its pose. `up` is the
    /// wall's up in the piece's own coordinates: a print with a top stands upright there; what looks
    /// the same upside down may lie as it likes (common practice, no source).
    #[must_use]
    pub fn turning(self, up: Turn) -> (Turning, Turn) {
        match self {
            Self::OneWay(top) => (Turning::None, up.inverse().then(top)),
            Self::AnyWay | Self::BothWays(_) => (Turning::Any, Turn::NONE),
        }
    }
}

/// How a cloth looks from its right side.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Look {
    /// Main colours, largest share first; never empty.
    pub shades: Vec<Shade>,
    /// How busy the print is, 0 (a solid) to 1.
    #[serde(default)]
    pub busy: f64,
    /// Which ways up it may be used.
    pub runs: Runs,
    /// Length after which the print repeats, in inches, if it does.
    #[serde(default)]
    pub repeat_in: Option<f64>,
}

impl Look {
    /// A plain cloth of one colour.
    #[must_use]
    pub fn plain(lab: Lab) -> Self {
        Self { shades: vec![Shade { lab, share: 1.0 }], busy: 0.0, runs: Runs::AnyWay, repeat_in: None }
    }

    /// The mean colour, each shade weighted by its share.
    #[must_use]
    pub fn mean(&self) -> Lab {
        colour::mean(self.shades.iter().map(|shade| (shade.lab, shade.share))).unwrap_or_default()
    }
}
