//! The cover of a booklet: title, picture, and the maker's words.

use super::PapersWish;
use drawing::{CALICO, Drawing, MADDER};
use papers::press::{Face, Inking, Laid, Letters, Part, Role, Sheet, Side};
use plane::Point;
use std::sync::Arc;

/// Around what stands on it, in inches.
const MARGIN_IN: f64 = 0.75;
/// The bar under the title: length and height in inches.
const BAR_IN: [f64; 2] = [1.3, 0.07];
/// The title's type, the first that leaves the picture its room; in points.
const TITLE_PT: [f64; 5] = [48.0, 38.0, 30.0, 22.0, 16.0];
/// A title is no higher than this, in inches.
const TITLE_HIGH_IN: f64 = 1.7;
/// Between parts.
const GAP_IN: f64 = 0.28;

/// What stands on a cover.
pub(super) struct Cover<'a> {
    pub(super) title: &'a str,
    /// Size and pieces, in a line.
    pub(super) line: String,
    pub(super) front: Drawing,
    pub(super) wish: &'a PapersWish,
}

impl Cover<'_> {
    pub(super) fn sheet(self, letters: &Letters) -> Sheet {
        let [wide, high] = self.wish.paper.size_in();
        let room = wide - 2.0 * MARGIN_IN;
        let set = |words: &str, face: Face| letters.set(words, face, Some(room));
        let mut parts = Vec::new();
        if self.wish.inking == Inking::Colour {
            parts.push(Part::Ground { points: corners([0.0, 0.0], [wide, high]), colour: CALICO });
        }
        let titles = TITLE_PT.map(|size| Face { leading: 1.08, ..Face::bold(size) });
        let fits = |face: &&Face| set(self.title, **face).height_in <= TITLE_HIGH_IN;
        let face = titles.iter().find(fits).copied().unwrap_or(Face::bold(12.0));
        let mut down = high - MARGIN_IN;
        let mark = Some(self.title.to_owned());
        let title = letters.set_within(self.title, face, room, TITLE_HIGH_IN);
        down = below(&mut parts, title, Role::Heading { level: 1, mark }, down);
        down -= 0.1;
        let bar = corners([MARGIN_IN, down - BAR_IN[1]], [MARGIN_IN + BAR_IN[0], down]);
        parts.push(Part::Ground { points: bar, colour: MADDER });
        down -= BAR_IN[1] + 0.14;
        down = below(&mut parts, set(&self.line, Face::plain(13.0)), Role::Words, down) - GAP_IN;

        let maker = (!self.wish.words.maker.is_empty()).then(|| format!("Made by {}", self.wish.words.maker));
        let said: Vec<Laid> = [
            (self.wish.words.cover.as_str(), Face::plain(14.0)),
            (maker.as_deref().unwrap_or_default(), Face::bold(14.0)),
        ]
        .into_iter()
        .filter(|(words, _)| !words.trim().is_empty())
        .map(|(words, face)| letters.set_within(words, face.at(Side::Start), room, 0.2 * high))
        .collect();
        let under: f64 = said.iter().map(|laid| laid.height_in + 0.1).sum();
        let room_high = (down - MARGIN_IN - under - GAP_IN).max(1.0);
        let (drawn_wide, drawn_high) = (self.front.width_in().max(1e-6), self.front.height_in().max(1e-6));
        let scale = (room / drawn_wide).min(room_high / drawn_high);
        let at = Point::new((wide - drawn_wide * scale) / 2.0, down - drawn_high * scale);
        let alt = Some(self.front.title.clone());
        parts.push(Part::Figure { alt, at, scale, drawing: Arc::new(self.front) });
        let mut down = MARGIN_IN + under;
        for laid in said {
            down = below(&mut parts, laid, Role::Words, down) - 0.1;
        }
        Sheet { size_in: [wide, high], parts }
    }
}

/// Words with their top at a height; how far down they reach.
fn below(parts: &mut Vec<Part>, words: Laid, role: Role, top: f64) -> f64 {
    let high = words.height_in;
    parts.push(Part::Words { role, at: Point::new(MARGIN_IN, top), words });
    top - high
}

fn corners([left, low]: [f64; 2], [right, high]: [f64; 2]) -> Vec<Point> {
    [(left, low), (right, low), (right, high), (left, high)].map(|(x, y)| Point::new(x, y)).to_vec()
}
