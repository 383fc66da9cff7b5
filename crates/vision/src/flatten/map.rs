//! The map from picture to table that was found, and what it says of itself.

use super::OTHER_SIDE;
use super::adjust::{self, COMMON, Layout};
use super::agree::{Agreed, allowance, distance, mean_side};
use super::homography::Homography;
use super::lens::{Frame, Lens};
use crate::Card;
use plane::{Point, Vec2};

/// An upright rectangle of the table, in inches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// Its lower left corner.
    pub low: Point,
    /// Its upper right corner.
    pub high: Point,
}

/// Why a card was left out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WhyLeftOut {
    /// It is a square, but of another side.
    OtherSide {
        /// Its side in inches.
        side_in: f64,
    },
    /// It isn't a square on this table: curled, half covered, or not lying on it.
    NotFlat {
        /// How far its corners lie off, in inches.
        off_in: f64,
    },
    /// Its edges are smeared where others' aren't.
    Blurred {
        /// Its blur: standard deviation in pixels.
        blur_px: f64,
    },
}

/// A card that was left out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeftOut {
    /// Its number.
    pub no: u16,
    /// Its middle in the picture, in pixels.
    pub at_px: Point,
    /// Why.
    pub why: WhyLeftOut,
}

/// The map between a picture and the table: perspective and the lens's bend.
///
/// The table's origin is what the middle of the picture shows, and up on the table is up in the
/// picture there.
#[derive(Clone, Debug)]
pub struct Flattening {
    pub(super) frame: Frame,
    pub(super) size_px: [u32; 2],
    /// From the straightened picture to the first card's own inches, and back.
    pub(super) up: Homography,
    pub(super) down: Homography,
    pub(super) lens: Lens,
    /// The first card's inches to the table's: turn (cosine, sine), then shift.
    turn: Vec2,
    shift: Vec2,
    pub(super) covariance: [[f64; COMMON]; COMMON],
    used: Vec<Card>,
    left_out: Vec<LeftOut>,
    residual_in: f64,
}

impl Flattening {
    pub(super) fn new(
        cards: &[Card],
        agreed: &Agreed,
        frame: Frame,
        side_in: f64,
        size_px: [u32; 2],
    ) -> Option<Self> {
        let layout = &agreed.layout;
        let used: Vec<Card> = agreed.members.iter().map(|i| cards[*i]).collect();
        let corners: Vec<&[Point; 4]> = agreed.members.iter().map(|i| &cards[*i].corners).collect();
        let noise = noise(layout, &corners, &frame, side_in)?;
        let covariance = adjust::covariance(layout, &corners, &frame, side_in)?
            .map(|row| row.map(|cell| cell * (noise / adjust::CORNER_SD).powi(2)));
        let mut map = Self {
            frame,
            size_px,
            up: layout.down.inverse()?,
            down: layout.down,
            lens: layout.lens,
            turn: Vec2::new(1.0, 0.0),
            shift: Vec2::default(),
            covariance,
            used,
            left_out: Vec::new(),
            residual_in: 0.0,
        };
        map.settle()?;
        let (mut sum, mut many) = (0.0, 0.0);
        for (card, place) in corners.iter().zip(&layout.places) {
            sum += map.off_in(layout, *place, card, side_in)?;
            many += 4.0;
        }
        map.residual_in = f64::sqrt(sum / many);
        let others = (0..cards.len()).filter(|i| !agreed.members.contains(i));
        map.left_out = others.map(|i| map.left(layout, &cards[i], side_in)).collect();
        Some(map)
    }

    /// Names cards that were too blurred to be asked.
    pub(super) fn leave_out_blurred(&mut self, cards: &[Card]) {
        let named = |card: &Card| LeftOut {
            no: card.no,
            at_px: card.middle(),
            why: WhyLeftOut::Blurred { blur_px: card.blur_px },
        };
        self.left_out.extend(cards.iter().map(named));
    }

    /// Brings the table under the picture's middle, and up where it is up there.
    fn settle(&mut self) -> Option<()> {
        let [width, height] = self.size_px.map(f64::from);
        let middle = Point::new(width / 2.0, height / 2.0);
        // Where the middle looks over the horizon, the cards' own middle has to do.
        let cards = self.used.iter().fold(Vec2::default(), |sum, card| sum + card.middle().to_vec2());
        let cards = Point::ORIGIN + cards * (1.0 / self.used.len() as f64);
        let sees = |p: &Point| self.to_table(*p).is_finite();
        let at = [middle, cards].into_iter().find(sees)?;
        let (here, above) = (self.to_table(at), self.to_table(at + Vec2::new(0.0, -1.0)));
        let up = above - here;
        let length = up.length();
        // Turned so that `up` points up.
        self.turn = Vec2::new(up.y, up.x) * (1.0 / length);
        self.shift = Vec2::default();
        self.shift = Point::ORIGIN - self.to_table(at);
        (self.turn.length() > 0.5).then_some(())
    }

    /// Where a place in the picture lies on the table, in inches. Not finite beyond the horizon.
    #[must_use]
    pub fn to_table(&self, px: Point) -> Point {
        let straight = self.frame.straight(px, self.lens);
        let Some(own) = self.up.apply(straight) else { return Point::new(f64::NAN, f64::NAN) };
        let (c, s) = (self.turn.x, self.turn.y);
        Point::new(c * own.x - s * own.y, s * own.x + c * own.y) + self.shift
    }

    /// Where a place on the table lies in the picture, in pixels; it may lie outside the picture. Not
    /// finite behind the camera.
    #[must_use]
    pub fn to_picture(&self, inch: Point) -> Point {
        let v = (inch - self.shift).to_vec2();
        let (c, s) = (self.turn.x, self.turn.y);
        let own = Point::new(c * v.x + s * v.y, c * v.y - s * v.x);
        let straight = self.down.apply(own);
        straight.map_or(Point::new(f64::NAN, f64::NAN), |p| self.frame.bent(p, self.lens))
    }

    /// Root of the mean square distance, in inches on the table, of the cards' corners from where
    /// squares of their side would have them. It says how well the cards agree, not how far the map is
    /// right between them: that is [`Self::doubt_at`].
    #[must_use]
    pub fn residual_in(&self) -> f64 {
        self.residual_in
    }

    /// The cards it stands on.
    #[must_use]
    pub fn used(&self) -> &[Card] {
        &self.used
    }

    /// The cards that didn't fit.
    #[must_use]
    pub fn left_out(&self) -> &[LeftOut] {
        &self.left_out
    }

    /// The lens's bend, both terms together: share by which a place at the picture's corner is moved,
    /// positive when lines bulge inwards.
    #[must_use]
    pub fn bend(&self) -> f64 {
        self.lens.bend.iter().sum()
    }

    /// How far the camera was tilted from looking straight down, in degrees: from how much an inch
    /// in one direction is shorter in the picture than in the other, at the picture's middle.
    #[must_use]
    pub fn tilt_deg(&self) -> f64 {
        let [width, height] = self.size_px.map(f64::from);
        let (long, short) = self.stretch(Point::new(width / 2.0, height / 2.0));
        let cosine = short / long;
        // Beyond the horizon there is no answer, and no steeper picture either.
        if cosine.is_finite() { cosine.clamp(0.0, 1.0).acos().to_degrees() } else { 90.0 }
    }

    /// Pixels an inch at a place in the picture, in its shortest direction; 0 beyond the horizon.
    #[must_use]
    pub fn pixels_per_in(&self, px: Point) -> f64 {
        let (long, _) = self.inches_per_px(px);
        if long.is_finite() && long > 0.0 { 1.0 / long } else { 0.0 }
    }

    /// Most and fewest pixels an inch at a place.
    fn stretch(&self, px: Point) -> (f64, f64) {
        let (long, short) = self.inches_per_px(px);
        (1.0 / short, 1.0 / long)
    }

    /// Most and fewest inches a pixel, over all directions (the map's two singular values there).
    fn inches_per_px(&self, px: Point) -> (f64, f64) {
        let half = 0.5;
        let u = self.to_table(px + Vec2::new(half, 0.0)) - self.to_table(px - Vec2::new(half, 0.0));
        let v = self.to_table(px + Vec2::new(0.0, half)) - self.to_table(px - Vec2::new(0.0, half));
        let (sum, product) = (u.dot(u) + v.dot(v), u.cross(v).abs());
        let root = (sum * sum - 4.0 * product * product).max(0.0).sqrt();
        (((sum + root) / 2.0).sqrt(), ((sum - root) / 2.0).max(0.0).sqrt())
    }

    /// Sum of the squares of a card's corners' distances on the table, in square inches.
    fn off_in(
        &self,
        layout: &Layout,
        place: (Point, f64),
        corners: &[Point; 4],
        side_in: f64,
    ) -> Option<f64> {
        let offs = adjust::off(layout, place, corners, &self.frame, side_in)?;
        let each = offs.iter().zip(corners).map(|(off, px)| {
            let d = self.to_table(*px + *off) - self.to_table(*px);
            d.dot(d)
        });
        Some(each.sum())
    }

    fn left(&self, layout: &Layout, card: &Card, side_in: f64) -> LeftOut {
        let mean = mean_side(layout, &card.corners, &self.frame).unwrap_or(f64::NAN);
        let fits = distance(layout, &card.corners, &self.frame, mean);
        let square = fits.is_some_and(|d| d <= allowance(&card.corners, &self.frame));
        let why = if square && (mean / side_in - 1.0).abs() > OTHER_SIDE {
            WhyLeftOut::OtherSide { side_in: mean }
        } else {
            let off = distance(layout, &card.corners, &self.frame, side_in).unwrap_or(f64::NAN);
            WhyLeftOut::NotFlat { off_in: off * self.inches_per_px(card.middle()).0 }
        };
        LeftOut { no: card.no, at_px: card.middle(), why }
    }
}

/// The corners' likely error in pixels: what is left over, by the equations there are to spare, and
/// never less than corners can be found to.
fn noise(layout: &Layout, corners: &[&[Point; 4]], frame: &Frame, side_in: f64) -> Option<f64> {
    /// Corners' error, in pixels, that is expected before anything is known, and how many
    /// equations that expectation counts for.
    const EXPECTED: (f64, f64) = (0.12, 8.0);
    let mut sum = EXPECTED.0 * EXPECTED.0 * EXPECTED.1;
    for (i, card) in corners.iter().enumerate() {
        sum += layout.off(i, card, frame, side_in)?.iter().map(|v| v.dot(*v)).sum::<f64>();
    }
    let spare = (8.0 * corners.len() as f64 - COMMON as f64 - 3.0 * (corners.len() as f64 - 1.0)).max(0.0);
    Some((sum / (spare + EXPECTED.1)).sqrt())
}
