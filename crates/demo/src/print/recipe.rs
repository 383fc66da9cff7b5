//! The prints of *Low Tide*: their names, inks and designs, from the hot centre to the cool edge.

use super::plate::Plate;
use super::{creatures, lines, plants, spots, water};
use crate::dice::Dice;

/// Which ways up a design may be used, in the print's own coordinates, where y runs up the cloth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Way {
    /// It may lie any way.
    Any,
    /// Upside down looks the same.
    Both,
    /// It has a top.
    One,
}

/// How a print is made.
#[derive(Debug)]
pub(crate) struct Recipe {
    /// What a maker would call it.
    pub(crate) name: &'static str,
    /// Width and height of the repeat.
    pub(crate) repeat_in: [f64; 2],
    /// Which ways up it may be used.
    pub(crate) way: Way,
    /// Colours, ground first.
    pub(crate) inks: &'static [u32],
    /// Puts the inks on the plate.
    pub(crate) draw: fn(&mut Plate, &mut Dice),
}

const fn recipe(
    name: &'static str,
    repeat_in: [f64; 2],
    way: Way,
    inks: &'static [u32],
    draw: fn(&mut Plate, &mut Dice),
) -> Recipe {
    Recipe { name, repeat_in, way, inks, draw }
}

/// How many of [`RECIPES`] belong to the hot centre, and how many to centre and middle together.
pub(crate) const HOT: usize = 12;
/// See [`HOT`].
pub(crate) const HOT_AND_PALE: usize = 20;

/// A print whose strokes lean, and where to, in degrees from the cloth's width.
pub(crate) const DRIZZLE: &str = "drizzle";
/// See [`DRIZZLE`].
pub(crate) const DRIZZLE_DEG: f64 = 72.0;

/// All prints, from the centre of the piece outwards.
pub(crate) static RECIPES: [Recipe; 32] = [
    recipe("rust wash", [6.0, 6.0], Way::Any, &[0xa04a2b, 0xb4623d, 0x863a22], |plate, dice| {
        water::cloudy(plate, 1, 2, 0.9, dice.bits());
    }),
    recipe("coral sprig", [4.5, 3.25], Way::One, &[0xf3e4cd, 0xdb6f55, 0xb4512f], |plate, dice| {
        plate.wobble(dice.bits(), 0.4, 0.015);
        plants::coral(plate, &[1, 1, 2], [4, 2], 1.30, dice);
    }),
    recipe("rust leaves", [4.0, 3.75], Way::One, &[0x9c4527, 0xe9a184, 0xe2c79a], |plate, dice| {
        plate.wobble(dice.bits(), 0.5, 0.012);
        plants::sprays(plate, &[1, 2, 2], [4, 2], 1.62, dice);
    }),
    recipe("coral dots", [2.0, 2.25], Way::Any, &[0xe07f65, 0xf7e3cd, 0xa9452c], |plate, dice| {
        spots::dots(plate, 1, Some(2), [4, 4], 0.145, dice);
    }),
    recipe("deck stripe", [2.5, 4.0], Way::Both, &[0xeeddbd, 0xb5532f, 0xd9a877], |plate, dice| {
        plate.wobble(dice.bits(), 0.7, 0.012);
        lines::stripes(
            plate,
            &[
                (0.2, 0.62, 1, 0.96),
                (0.92, 0.09, 1, 0.9),
                (1.35, 0.34, 2, 0.9),
                (1.80, 0.34, 2, 0.9),
                (2.28, 0.07, 1, 0.9),
            ],
        );
    }),
    recipe("starfish", [4.0, 4.0], Way::Any, &[0xe3cba0, 0xd7694c, 0xb24e2c, 0xf4e6cb], |plate, dice| {
        plate.wobble(dice.bits(), 0.4, 0.02);
        creatures::starfish(plate, &[1, 1, 2], 3, 15, 1.0, dice);
    }),
    recipe("sand check", [2.0, 2.0], Way::Any, &[0xf2e6cd, 0xd0a873], |plate, dice| {
        plate.wobble(dice.bits(), 0.6, 0.008);
        let bands: Vec<lines::Band> = (0..4).map(|k| (f64::from(k) * 0.5, 0.25, 1, 0.62)).collect();
        lines::plaid(plate, &bands, &bands);
    }),
    recipe("coral wash", [6.0, 6.0], Way::Any, &[0xe6917a, 0xf0ac95, 0xd67860], |plate, dice| {
        water::cloudy(plate, 1, 2, 0.8, dice.bits());
    }),
    recipe("cockles", [3.0, 3.0], Way::One, &[0xecd9b4, 0xc9653f, 0xdd8b6a], |plate, dice| {
        plate.wobble(dice.bits(), 0.4, 0.014);
        creatures::cockles(plate, &[1, 2], 0, [4, 3], 0.78, dice);
    }),
    recipe("sand ripple", [4.0, 3.0], Way::One, &[0xe6d3ad, 0xc79d67, 0xd9bd8c], |plate, dice| {
        water::ripples(plate, 1, 2, 8, dice.bits());
    }),
    recipe("ticking", [1.5, 3.0], Way::Both, &[0xf3ead6, 0xb0593a], |plate, dice| {
        plate.wobble(dice.bits(), 0.5, 0.006);
        lines::stripes(
            plate,
            &[
                (0.10, 0.06, 1, 0.9),
                (0.22, 0.16, 1, 0.9),
                (0.44, 0.06, 1, 0.9),
                (0.93, 0.035, 1, 0.8),
                (1.05, 0.035, 1, 0.8),
                (1.17, 0.035, 1, 0.8),
            ],
        );
    }),
    recipe(
        "shingle",
        [4.0, 4.0],
        Way::Any,
        &[0xd9c29c, 0xb98f66, 0xf0e3cb, 0xc27350, 0xa09486],
        |plate, dice| {
            plate.wobble(dice.bits(), 0.3, 0.012);
            spots::pebbles(plate, &[1, 1, 2, 2, 2, 3, 4], 0, 110, 0.27, dice);
        },
    ),
    recipe("shell blotch", [6.0, 6.0], Way::Any, &[0xe4dbd0, 0xd1c3b7, 0xc0aea6, 0xa99a94], |plate, dice| {
        water::blotches(plate, &[(1, -0.1, 0.8), (2, 0.15, 0.8)], 3, 1.4, dice.bits());
    }),
    recipe("waders", [4.0, 3.5], Way::One, &[0xe0dad1, 0x7c7f82, 0x59626a, 0xb4694a], |plate, dice| {
        plate.wobble(dice.bits(), 0.4, 0.012);
        creatures::waders(plate, 1, 2, 3, [4, 3], 0.95, dice);
    }),
    recipe("pearl dots", [1.5, 1.75], Way::Any, &[0xc4bdb5, 0xf2ede4], |plate, dice| {
        spots::dots(plate, 1, None, [6, 6], 0.062, dice);
    }),
    recipe("mist", [6.0, 6.0], Way::Any, &[0xcfd8d8, 0xe0e6e3, 0xb6c4c6], |plate, dice| {
        water::cloudy(plate, 1, 2, 0.8, dice.bits());
    }),
    recipe("foam", [3.0, 2.25], Way::One, &[0xd7dfde, 0x9fb3b8, 0xf4f3ec], |plate, dice| {
        plate.wobble(dice.bits(), 0.5, 0.012);
        water::foam(plate, &[(0.30, 0.26, 2), (0.62, 0.09, 1), (0.80, 0.07, 1), (0.97, 0.08, 1)], 4, 6, dice);
    }),
    recipe(DRIZZLE, [3.0, 3.0], Way::Both, &[0xb9c4c6, 0xe9ecea, 0x8d9ea5], |plate, dice| {
        lines::drizzle(plate, &[1, 1, 2], [12, 8], (0.30, 0.042), DRIZZLE_DEG, dice);
    }),
    recipe("windowpane", [1.5, 1.5], Way::Any, &[0xe3e0d9, 0x8f9ba0, 0xbfae9f], |plate, dice| {
        plate.wobble(dice.bits(), 0.5, 0.008);
        let up: [lines::Band; 3] = [(0.10, 0.07, 1, 0.85), (0.22, 0.03, 1, 0.8), (0.80, 0.20, 2, 0.45)];
        lines::plaid(plate, &up, &up);
    }),
    recipe("bubbles", [4.0, 4.0], Way::Any, &[0xa7b9bd, 0xeef0ea, 0x6f8891], |plate, dice| {
        plate.wobble(dice.bits(), 0.5, 0.01);
        water::bubbles(plate, [1, 2], 62, 0.40, dice);
    }),
    recipe("slate wash", [6.0, 6.0], Way::Any, &[0x5d6e79, 0x70828b, 0x4a5963], |plate, dice| {
        water::cloudy(plate, 1, 2, 0.9, dice.bits());
    }),
    recipe("tide ripple", [6.0, 4.0], Way::One, &[0x4d6069, 0xb9c7c8, 0x7d929a], |plate, dice| {
        water::ripples(plate, 1, 2, 9, dice.bits());
    }),
    recipe("net", [3.0, 3.0], Way::Both, &[0x3f5058, 0xb7bfb9], |plate, dice| {
        plate.wobble(dice.bits(), 0.5, 0.012);
        lines::net(plate, 1, 8, 5, 0.026, dice);
    }),
    recipe("herring", [3.0, 4.0], Way::One, &[0x526a74, 0xc8d0cc, 0x2f424c], |plate, dice| {
        plate.wobble(dice.bits(), 0.4, 0.01);
        creatures::herring(plate, 1, 2, [6, 3], 1.05, dice);
    }),
    recipe(
        "slate stripe",
        [3.0, 4.0],
        Way::Both,
        &[0x62757e, 0x35454d, 0x9db0b2, 0x3f6158],
        |plate, dice| {
            plate.wobble(dice.bits(), 0.7, 0.014);
            lines::stripes(
                plate,
                &[
                    (0.15, 0.42, 1, 0.95),
                    (0.62, 0.10, 2, 0.9),
                    (0.95, 0.30, 3, 0.95),
                    (1.45, 0.06, 2, 0.9),
                    (1.75, 0.55, 1, 0.95),
                    (2.02, 0.05, 2, 0.9),
                    (2.60, 0.16, 3, 0.95),
                ],
            );
        },
    ),
    recipe("sails", [3.0, 3.0], Way::One, &[0x8ba6a0, 0x2f4d4a, 0xeae6d8], |plate, dice| {
        plate.wobble(dice.bits(), 0.4, 0.012);
        creatures::sails(plate, 1, 2, [4, 3], 0.72, dice);
    }),
    recipe(
        "sea-green blotch",
        [7.0, 7.0],
        Way::Any,
        &[0x86aa9c, 0x6a9387, 0xa3c0b0, 0x4e776d],
        |plate, dice| {
            water::blotches(plate, &[(2, 0.0, 0.7), (1, 0.08, 0.85)], 3, 1.7, dice.bits());
        },
    ),
    recipe("green dots", [3.0, 3.0], Way::Any, &[0x2c4b45, 0x86a896], |plate, dice| {
        spots::dots(plate, 1, None, [8, 7], 0.088, dice);
    }),
    recipe("kelp", [4.0, 4.0], Way::One, &[0x37594e, 0x6b8d70, 0x8aa583], |plate, dice| {
        plate.wobble(dice.bits(), 0.5, 0.015);
        plants::kelp(plate, &[1, 1, 2], [4, 2], 1.95, dice);
    }),
    recipe("reeds", [4.0, 4.0], Way::One, &[0x27443f, 0x7f9a83, 0xc79b62], |plate, dice| {
        plate.wobble(dice.bits(), 0.5, 0.012);
        plants::reeds(plate, 1, 2, [8, 2], 1.75, dice);
    }),
    recipe("eelgrass", [4.0, 4.0], Way::Any, &[0x466b5f, 0x2a4943, 0x93b09d], |plate, dice| {
        plate.wobble(dice.bits(), 0.5, 0.012);
        plants::eelgrass(plate, &[1, 1, 2], 95, 1.0, dice);
    }),
    recipe("deep green", [6.0, 6.0], Way::Any, &[0x2b4a43, 0x3b5d53, 0x1e3833], |plate, dice| {
        water::cloudy(plate, 1, 2, 0.9, dice.bits());
    }),
];

/// How large what is printed is, for each of [`RECIPES`], in inches, by the recipe's own numbers: the
/// height of what is drawn, the width of the widest stripe, the size of a wash's cloud.
pub(crate) const MOTIFS_IN: [f64; 32] = [
    2.0, 1.30, 1.62, 0.29, 0.62, 1.0, 0.25, 2.0, 0.78, 0.4, 0.16, 0.45, 1.6, 0.95, 0.12, 2.0, 0.6, 0.3, 0.2,
    0.6, 2.0, 0.45, 0.45, 1.05, 0.55, 0.72, 1.9, 0.18, 1.95, 1.75, 1.0, 2.0,
];
