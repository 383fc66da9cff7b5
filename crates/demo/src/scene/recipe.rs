//! How rendered photographs are distributed. Fixed before anything was measured on them; they
//! don't change to please a figure.
//!
//! | what | normal | hard |
//! |---|---|---|
//! | picture, pixels | 4032 × 3024 or 3264 × 2448, one in four upright | also 2560 × 1920 |
//! | across the longer side at the middle, inches | 22 to 32 | 16 to 44 |
//! | least pixels an inch on any scrap or card | 60 | 30 |
//! | tilt, degrees | 0 to 35 | 0 to 55 |
//! | side it looks from; roll, degrees | any; within 8 of upright | any; any |
//! | focal length over the longer side | 0.70 to 1.1 | 0.60 to 1.3 |
//! | radial bend, in r² and r⁴, r in half diagonals | ±0.03, ±0.01 | ±0.10, ±0.03 |
//! | tangential bend | up to 0.0006 | up to 0.002 |
//! | axis off the middle, of the longer side | up to 0.4 % | up to 1 % |
//! | blur, deviation in pixels | 0.5 to 1.4 | 0.5 to 3 |
//! | motion, pixels | one in four, up to 1.5 (whole deviation at most 1.5) | one in two, up to 8 |
//! | quanta of light of a white pixel | 2,500 to 10,000 | 600 to 10,000 |
//! | light: fall across the picture; at its corners | up to 25 %; up to 25 % | up to 50 %; up to 40 % |
//! | colour cast, red and blue against green | up to 15 % | up to 30 % |
//! | exposure of white paper | 0.60 to 0.85 | 0.30 to 0.95 |
//! | shadow: dark; far; soft, inches | 0.08 to 0.35; to 0.06; 0.02 to 0.07 | 0.1 to 0.5; to 0.12; 0.015 to 0.12 |
//! | glare | none | one in three |
//! | JPEG quality, colour at half resolution | 85 to 95 | 65 to 95 |
//! | cards; side, inches | 4, one a quarter of the picture; 1.5 to 2 | 1 to 8, anywhere; 1 to 2 |
//! | scraps asked for | 5 to 14 | 3 to 20 |
//! | gap between them, inches | 0.15 or more | 0.03 or more, one in six touches |
//! | least CIEDE2000 between the mat and any colour with a third of a cloth | 12 | 6 |
//! | scraps with ravelled threads | one in three | two in three |
//! | scraps that leave the picture | one in twenty | one in eight |
//!
//! The mats are those of `mat`; scraps come of the frozen heap's generator, so their outlines and
//! prints are distributed as there. A scrap that finds no room in many tries is left out, the
//! largest being laid first.

/// What photographs of a kind are like: the ends of even distributions, and chances.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Recipe {
    /// What it is called.
    pub name: &'static str,
    /// Pixels across and down, each size as often as the next.
    pub sizes_px: &'static [[u32; 2]],
    /// Inches across the longer side, at the middle.
    pub across_in: [f64; 2],
    /// Fewest pixels an inch where anything is laid.
    pub least_pixels_per_in: f64,
    /// Tilt in degrees.
    pub tilt_deg: [f64; 2],
    /// Most roll either way, in degrees.
    pub roll_deg: f64,
    /// Focal length over the longer side.
    pub focal: [f64; 2],
    /// Most radial bend either way, of the first and the second term.
    pub bend: [f64; 2],
    /// Most tangential bend either way.
    pub tangential: f64,
    /// Most that the lens's axis is off, over the longer side.
    pub off: f64,
    /// Deviation of the blur in pixels.
    pub blur_px: [f64; 2],
    /// Chance of motion, and most of it in pixels.
    pub motion: [f64; 2],
    /// Quanta of light of a white pixel.
    pub quanta: [f64; 2],
    /// Most fall of the light across the picture, and at its corners.
    pub uneven: [f64; 2],
    /// Most cast of red and blue.
    pub cast: f64,
    /// Exposure of white paper.
    pub exposure: [f64; 2],
    /// How dark shadows are.
    pub shadow_dark: [f64; 2],
    /// How far they fall at most, in inches.
    pub shadow_far_in: f64,
    /// How soft they are, in inches.
    pub shadow_soft_in: [f64; 2],
    /// Chance of glare.
    pub glare: f64,
    /// JPEG quality.
    pub quality: [f64; 2],
    /// Fewest and most cards.
    pub cards: [usize; 2],
    /// Whether one card lies in each quarter of the picture in turn, else anywhere.
    pub quartered: bool,
    /// Side of the cards in inches; one for all of a picture.
    pub card_side_in: [f64; 2],
    /// Fewest and most scraps asked for.
    pub scraps: [usize; 2],
    /// Least gap between what lies there, in inches.
    pub gap_in: f64,
    /// Chance that a scrap touches another.
    pub touching: f64,
    /// Least difference between mat and cloth.
    pub contrast: f64,
    /// Chance that a scrap has ravelled.
    pub ravelled: f64,
    /// Chance that a scrap leaves the picture.
    pub cut_off: f64,
}

impl Recipe {
    /// What a careful maker's photographs are like.
    pub const NORMAL: Self = Self {
        name: "normal",
        sizes_px: &[[4032, 3024], [4032, 3024], [3264, 2448], [3024, 4032]],
        across_in: [22.0, 32.0],
        least_pixels_per_in: 60.0,
        tilt_deg: [0.0, 35.0],
        roll_deg: 8.0,
        focal: [0.70, 1.1],
        bend: [0.03, 0.01],
        tangential: 0.0006,
        off: 0.004,
        blur_px: [0.5, 1.4],
        motion: [0.25, 1.5],
        quanta: [2_500.0, 10_000.0],
        uneven: [0.25, 0.25],
        cast: 0.15,
        exposure: [0.60, 0.85],
        shadow_dark: [0.08, 0.35],
        shadow_far_in: 0.06,
        shadow_soft_in: [0.02, 0.07],
        glare: 0.0,
        quality: [85.0, 95.0],
        cards: [4, 4],
        quartered: true,
        card_side_in: [1.5, 2.0],
        scraps: [5, 14],
        gap_in: 0.15,
        touching: 0.0,
        contrast: 12.0,
        ravelled: 0.33,
        cut_off: 0.05,
    };

    /// What a hasty maker's are like.
    pub const HARD: Self = Self {
        name: "hard",
        sizes_px: &[[4032, 3024], [3264, 2448], [2560, 1920], [3024, 4032]],
        across_in: [16.0, 44.0],
        least_pixels_per_in: 30.0,
        tilt_deg: [0.0, 55.0],
        roll_deg: 180.0,
        focal: [0.60, 1.3],
        bend: [0.10, 0.03],
        tangential: 0.002,
        off: 0.01,
        blur_px: [0.5, 3.0],
        motion: [0.5, 8.0],
        quanta: [600.0, 10_000.0],
        uneven: [0.50, 0.40],
        cast: 0.30,
        exposure: [0.30, 0.95],
        shadow_dark: [0.1, 0.5],
        shadow_far_in: 0.12,
        shadow_soft_in: [0.015, 0.12],
        glare: 0.33,
        quality: [65.0, 95.0],
        cards: [1, 8],
        quartered: false,
        card_side_in: [1.0, 2.0],
        scraps: [3, 20],
        gap_in: 0.03,
        touching: 0.17,
        contrast: 6.0,
        ravelled: 0.67,
        cut_off: 0.125,
    };

    /// A few plain-to-see scraps, cards as they are printed, and a small picture: for tests that want one
    /// soon. No figure is measured on it.
    pub const SMALL: Self = Self {
        name: "small",
        sizes_px: &[[1800, 1350]],
        across_in: [22.0, 25.0],
        least_pixels_per_in: 45.0,
        tilt_deg: [0.0, 15.0],
        card_side_in: [2.0, 2.0],
        scraps: [8, 8],
        contrast: 18.0,
        ravelled: 0.0,
        cut_off: 0.0,
        ..Self::NORMAL
    };

    /// The same kind of table in other sizes of picture, with as many fewer pixels an inch; blur and
    /// motion stay as many pixels.
    #[must_use]
    pub fn in_size(self, sizes_px: &'static [[u32; 2]]) -> Self {
        let longest = |sizes: &[[u32; 2]]| sizes.iter().flatten().max().map_or(1.0, |px| f64::from(*px));
        let by = longest(sizes_px) / longest(self.sizes_px);
        Self { sizes_px, least_pixels_per_in: self.least_pixels_per_in * by, ..self }
    }
}

/// Seeds for tuning: look at these as much as you like.
pub const TUNING_SEEDS: std::ops::Range<u64> = 1..1_000;
/// Seeds for reports: never looked at while anything is tuned.
pub const REPORT_SEEDS: std::ops::Range<u64> = 1_000_001..1_010_001;
