//! What a cutting plan says, in words and for whoever reads it without a page.

use super::draw::of_bolt;
use super::{CutCloth, CutPiece, CuttingPlan, ToBuy};
use drawing::Drawing;
use nest::A_LITTLE_IN;
use plane::polygon;
use quilt::length::{LengthUnit, many};
use quilt::marks::letter;

impl CuttingPlan {
    /// How many pieces have a place in the heap.
    #[must_use]
    pub fn placed(&self) -> usize {
        self.cloths.iter().map(|cloth| cloth.pieces.len()).sum()
    }

    /// What it comes to, in a sentence or two.
    #[must_use]
    pub fn summary(&self, unit: LengthUnit) -> String {
        let used: f64 = self.cloths.iter().map(|cloth| cloth.used_in2).sum();
        let mut words = Vec::new();
        if !self.cloths.is_empty() {
            words.push(format!(
                "{} from {}, about {}.",
                many(self.placed(), "piece", "pieces"),
                many(self.cloths.len(), "cloth", "cloths"),
                unit.area(used)
            ));
        }
        if !self.to_buy.is_empty() {
            words.push(format!("{} to buy.", many(self.to_buy.len(), "length", "lengths")));
        }
        if !self.joined.is_empty() {
            words.push(format!("{} joined of bits.", many(self.joined.len(), "strip is", "strips are")));
        }
        if !self.to_sew.is_empty() {
            words.push(format!(
                "{} to sew of that.",
                many(self.to_sew.len(), "pieced cloth", "pieced cloths")
            ));
        }
        if !self.no_place.is_empty() {
            words.push(format!("{} without a place.", many(self.no_place.len(), "piece", "pieces")));
        }
        words.join(" ")
    }
}

impl CutCloth {
    /// How it is cut, in sentences; `length` writes a length, none longer than it is.
    #[must_use]
    pub fn words(&self, length: &dyn Fn(f64) -> String) -> String {
        let mut words = how(&self.pieces, self.long_cuts.len());
        words.push(match self.left_in.first() {
            None => "Nothing worth keeping is left.".to_owned(),
            Some([wide, high]) => {
                let size = format!("{} by {}", length(*wide), length(*high));
                match self.left_in.len() {
                    1 => format!("One part is left: {size} lies whole in it."),
                    count => format!("{count} parts are left: {size} lies whole in the largest."),
                }
            }
        });
        words.join(" ")
    }

    /// What is left, as shortly as it can be told; `length` writes a length, none longer than it is.
    #[must_use]
    pub fn left(&self, length: &dyn Fn(f64) -> String) -> String {
        match self.left_in.as_slice() {
            [] => "Nothing is left.".to_owned(),
            [[wide, high]] => format!("Left: {} by {} in one piece.", length(*wide), length(*high)),
            [[wide, high], rest @ ..] => {
                format!(
                    "Left: {} by {} in one piece, and {} smaller.",
                    length(*wide),
                    length(*high),
                    rest.len()
                )
            }
        }
    }
}

impl ToBuy {
    /// How it is cut, in sentences, with lengths in a unit.
    #[must_use]
    pub fn words(&self, unit: LengthUnit) -> String {
        let mut words = vec![self.bought(unit)];
        words.extend(how(&self.pieces, self.long_cuts.len()));
        words.join(" ")
    }

    /// How much is bought, as the shop sells it, with lengths in a unit.
    #[must_use]
    pub fn bought(&self, unit: LengthUnit) -> String {
        let named = |inches: f64| format!("{}{}", unit.up(inches, 8), unit.name_after(inches));
        let much = match unit {
            LengthUnit::Inches => format!("{} ({})", self.ask, named(self.buy_in)),
            LengthUnit::Centimetres => named(self.buy_in),
        };
        format!(
            "Buy {much} of cloth {} wide between the selvages; the pieces take {} of its length.",
            named(self.usable_in),
            named(self.length_in)
        )
    }

    /// From where to where it is drawn, along the selvage and across, in inches: what is used and a little more.
    #[must_use]
    pub fn shown_in(&self) -> [[f64; 2]; 2] {
        let points = || self.pieces.iter().flat_map(|piece| &piece.outline);
        let low = points().map(|p| p.y).fold(f64::INFINITY, f64::min);
        let high = points().map(|p| p.y).fold(f64::NEG_INFINITY, f64::max);
        let along = [0.0, self.buy_in.min(self.length_in + A_LITTLE_IN)];
        if low > high {
            return [along, [0.0, self.usable_in]];
        }
        [along, [(low - A_LITTLE_IN).max(0.0), (high + A_LITTLE_IN).min(self.usable_in)]]
    }

    /// Where the selvages lie on its picture, in a sentence.
    #[must_use]
    pub fn selvages(&self) -> &'static str {
        let [_, [low, high]] = self.shown_in();
        match (low <= 0.0, high >= self.usable_in) {
            (true, true) => "The selvages lie along the upper and the lower edge.",
            (true, false) => "A selvage lies along the lower edge; the bolt goes on above.",
            (false, true) => "A selvage lies along the upper edge; the bolt goes on below.",
            (false, false) => "The selvages run level; the bolt goes on above and below.",
        }
    }

    /// The length with its pieces, for paper at a scale where that is known; the selvages run level.
    #[must_use]
    pub fn drawing(&self, scale: Option<f64>) -> Drawing {
        of_bolt(self, scale)
    }
}

impl CutPiece {
    /// Width and height of what is cut, in inches: along its longest edge, and square to it.
    #[must_use]
    pub fn size_in(&self) -> [f64; 2] {
        let along =
            polygon::edges(&self.outline).max_by(|a, b| a.0.distance(a.1).total_cmp(&b.0.distance(b.1)));
        let turn = along.and_then(|(a, b)| plane::Turn::towards(b - a)).unwrap_or(plane::Turn::NONE);
        let level = plane::Pose { turn: turn.inverse(), by: plane::Vec2::default() };
        let (low, high) = polygon::bounds(&level.apply_all(&self.outline)).unwrap_or_default();
        [high.x - low.x, high.y - low.y]
    }
}

/// The order of cutting, in sentences.
fn how(pieces: &[CutPiece], long_cuts: usize) -> Vec<String> {
    let round = pieces.iter().filter(|piece| piece.by_its_edges).count();
    let mut words = Vec::new();
    match long_cuts {
        0 => {}
        1 => words.push("First the straight cut A, from end to end.".to_owned()),
        count => words.push(format!(
            "First the straight cuts, each from end to end and no further: A to {}.",
            letter(count - 1)
        )),
    }
    words.push(match (pieces.len(), long_cuts, round) {
        (1, ..) => "Then the piece, along its edges.".replace("Then the", if long_cuts > 0 { "Then the" } else { "Cut the" }),
        (_, 0, _) => "Cut each piece along its own edges, in the order of their numbers.".to_owned(),
        (_, _, 0) => "Then trim each piece to its edges, in the order of their numbers.".to_owned(),
        _ => format!(
            "Then the pieces in the order of their numbers; {round} of them along their own edges, no straight cut parts them."
        ),
    });
    words
}
