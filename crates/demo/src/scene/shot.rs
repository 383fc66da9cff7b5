//! One photograph's own numbers, drawn by a recipe.

use super::camera::Stand;
use super::recipe::Recipe;
use super::relief::Falls;
use crate::dice::Dice;
use plane::{Point, Turn, Vec2};

/// What camera and light do to one photograph.
#[derive(Clone, Debug, PartialEq)]
pub struct Shot {
    /// Where the camera stands.
    pub stand: Stand,
    /// Deviation of the blur in pixels.
    pub blur_px: f64,
    /// How the picture moved while it was taken, in pixels.
    pub motion_px: [f64; 2],
    /// Quanta of light of a white pixel.
    pub quanta: f64,
    /// Light of white paper, 0 to 1, in red, green and blue: exposure and cast.
    pub white: [f64; 3],
    /// How the light changes from the middle to the picture's edges, across and down.
    pub slope: [f64; 2],
    /// How much of the light is lost in the corners.
    pub vignette: f64,
    /// A patch of glare: its middle over the picture's size, its width over the longer side, its
    /// light.
    pub glare: Option<([f64; 2], f64, f64)>,
    /// JPEG quality.
    pub quality: u8,
}

impl Shot {
    /// Deviation of blur and motion together, the way there is most of both, in pixels.
    #[must_use]
    pub fn blurred_px(&self) -> f64 {
        let [x, y] = self.motion_px;
        (self.blur_px.powi(2) + (x * x + y * y) / 12.0).sqrt()
    }

    /// Draws the numbers of a photograph.
    pub(super) fn draw(recipe: &Recipe, dice: &mut Dice) -> Self {
        let size_px = recipe.sizes_px[dice.below(recipe.sizes_px.len())];
        let longer = f64::from(size_px[0].max(size_px[1]));
        let [least, most] = recipe.focal;
        let mut either = |most: f64| dice.between(-most, most);
        let off_px = [either(recipe.off * longer), either(recipe.off * longer)];
        let roll_deg = either(recipe.roll_deg);
        let [bend, second] = recipe.bend.map(&mut either);
        let tangential = [either(recipe.tangential), either(recipe.tangential)];
        // A maker stands anywhere round the table: its axes mean nothing.
        let from_deg = either(180.0);
        let slope_way = Turn::from_degrees(either(180.0));
        let cast = [1.0 + either(recipe.cast), 1.0, 1.0 + either(recipe.cast)];
        let stand = Stand {
            target: Point::new(0.0, 0.0),
            pixels_per_in: longer / dice.between(recipe.across_in[0], recipe.across_in[1]),
            tilt_deg: dice.between(recipe.tilt_deg[0], recipe.tilt_deg[1]),
            from_deg,
            roll_deg,
            focal: dice.between(least, most),
            size_px,
            off_px,
            bend,
            second,
            tangential,
        };
        let motion = if dice.chance(recipe.motion[0]) { dice.between(0.0, recipe.motion[1]) } else { 0.0 };
        let moved = Turn::from_degrees(dice.between(0.0, 180.0)).vec() * motion;
        let slope = slope_way.vec() * dice.between(0.0, recipe.uneven[0] / 2.0);
        let exposure = dice.between(recipe.exposure[0], recipe.exposure[1]);
        // A cast that would burn out the paper is exposed for.
        let brightest = cast.iter().fold(1.0_f64, |a, b| a.max(*b));
        let scale = exposure * (0.95 / (exposure * brightest)).min(1.0);
        Self {
            stand,
            blur_px: dice.between(recipe.blur_px[0], recipe.blur_px[1]),
            motion_px: [moved.x, moved.y],
            quanta: dice.between(recipe.quanta[0], recipe.quanta[1]),
            white: cast.map(|part| part * scale),
            slope: [slope.x, slope.y],
            vignette: dice.between(0.0, recipe.uneven[1]),
            glare: dice.chance(recipe.glare).then(|| {
                let middle = [dice.between(0.15, 0.85), dice.between(0.15, 0.85)];
                (middle, dice.between(0.04, 0.15), dice.between(0.1, 0.6))
            }),
            quality: dice.between(recipe.quality[0], recipe.quality[1]).round() as u8,
        }
    }
}

/// How shadows fall in a photograph.
pub(super) fn falls(recipe: &Recipe, dice: &mut Dice) -> Falls {
    let way: Vec2 = Turn::from_degrees(dice.between(-180.0, 180.0)).vec();
    Falls {
        dark: dice.between(recipe.shadow_dark[0], recipe.shadow_dark[1]),
        by: way * dice.between(0.0, recipe.shadow_far_in),
        soft_in: dice.between(recipe.shadow_soft_in[0], recipe.shadow_soft_in[1]),
        waves: dice.between(0.0, 0.10),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn normal_photographs_keep_to_what_normal_means() {
        for seed in 0..500 {
            let shot = Shot::draw(&Recipe::NORMAL, &mut Dice::new(seed, 1));
            assert!((0.0..=35.0).contains(&shot.stand.tilt_deg));
            assert!(shot.blurred_px() <= 1.5, "{}", shot.blurred_px());
            assert!(shot.stand.bend.abs() <= 0.03 && shot.glare.is_none());
            assert!(shot.white.iter().all(|part| *part > 0.3 && *part <= 0.9501), "{:?}", shot.white);
        }
        assert!(Recipe::NORMAL.least_pixels_per_in >= 60.0 && Recipe::NORMAL.cards == [4, 4]);
    }

    #[test]
    fn hard_ones_are_harder() {
        let shots: Vec<Shot> =
            (0..500).map(|seed| Shot::draw(&Recipe::HARD, &mut Dice::new(seed, 1))).collect();
        let share = |of: fn(&Shot) -> bool| shots.iter().filter(|shot| of(shot)).count();
        assert!(share(|shot| shot.stand.tilt_deg > 35.0) > 125);
        assert!(share(|shot| shot.blurred_px() > 1.5) > 200);
        assert!(share(|shot| shot.stand.bend.abs() > 0.03) > 250);
        assert!(share(|shot| shot.glare.is_some()) > 100);
    }
}
