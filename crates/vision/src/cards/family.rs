//! The measuring cards' patterns: the open marker family 36h11, six by six cells in a black border.
//!
//! Source of the codes and of the order of their bits: AprilRobotics/apriltag, `tag36h11.c` (its
//! first codes; E. Olson, "AprilTag: a robust and flexible visual fiducial system", 2011). Any two
//! codes of the family, at any turns, differ in at least eleven of the thirty-six cells.

/// How many cards there are.
pub const COUNT: u16 = 24;

/// Cells along a side, border included.
pub const CELLS: usize = 8;

/// Wrong cells that may still be put right. Five would be safe between cards; fewer keep patterned
/// cloth from being taken for one (about 1 in 100,000 arbitrary squares passes at three).
pub(crate) const MOST_WRONG: u32 = 3;

const CODES: [u64; COUNT as usize] = [
    0xd_7e00_984b,
    0xd_da66_4ca7,
    0xd_c4a1_c821,
    0xe_17b4_70e9,
    0xe_f91d_01b1,
    0xf_429c_dd73,
    0x0_5da2_9225,
    0x1_106c_ba43,
    0x2_23be_d79d,
    0x2_1f51_213c,
    0x3_3eb1_9ca6,
    0x3_f76e_b0f8,
    0x4_69a9_7414,
    0x4_5dcf_e0b0,
    0x4_a646_5f72,
    0x5_1801_db96,
    0x5_eb94_6b4e,
    0x6_8a7c_c2ec,
    0x6_f0ba_2652,
    0x7_8765_559d,
    0x8_7b83_d129,
    0x8_6cc4_a5c5,
    0x8_b64d_f90f,
    0x9_c577_b611,
];

/// Column and row of the first quarter of the bits, from the most significant; the other quarters
/// follow, each turned clockwise by a quarter.
const QUARTER: [(usize, usize); 9] = [(1, 1), (2, 1), (3, 1), (4, 1), (5, 1), (2, 2), (3, 2), (4, 2), (3, 3)];

/// Column and row of each of the thirty-six bits, from the most significant; columns from the
/// left, rows from the top, border included.
pub(crate) fn places() -> impl Iterator<Item = (usize, usize)> {
    (0..4).flat_map(|turns| {
        QUARTER.iter().map(move |place| (0..turns).fold(*place, |(x, y), _| (CELLS - 1 - y, x)))
    })
}

/// The cells of a card as printed, rows from the top, black where true, the black border included.
/// None from [`COUNT`] on. Around it goes a white margin of at least one cell.
#[must_use]
pub fn pattern(no: u16) -> Option<[[bool; CELLS]; CELLS]> {
    let code = CODES.get(usize::from(no))?;
    let mut cells = [[true; CELLS]; CELLS];
    for (bit, (x, y)) in places().enumerate() {
        cells[y][x] = code >> (35 - bit) & 1 == 0;
    }
    Some(cells)
}

/// Which card a code read from a picture is: its number, by how many quarters it was turned, and
/// how many of the cells that were read are wrong. A cell whose bit of `read` is 0 was not read; the more
/// of these there are, the fewer wrong ones are put right, so that no more arbitrary squares pass.
pub(crate) fn recognise(code: u64, read: u64) -> Option<(u16, usize, u32)> {
    let turned =
        |bits: u64, quarters: usize| (bits << (9 * quarters) | bits >> (36 - 9 * quarters)) & ALL_CELLS;
    let all = (0..4).flat_map(|quarters| (0..COUNT).map(move |no| (no, quarters)));
    let wrong = |(no, quarters): (u16, usize)| {
        ((turned(code, quarters) ^ CODES[usize::from(no)]) & turned(read, quarters)).count_ones()
    };
    let most = match (ALL_CELLS & !read).count_ones() {
        0 => MOST_WRONG,
        1..=4 => 2,
        5..=8 => 1,
        9 | 10 => 0,
        _ => return None,
    };
    all.map(|card| (card.0, card.1, wrong(card)))
        .min_by_key(|(_, _, wrong)| *wrong)
        .filter(|(_, _, wrong)| *wrong <= most)
}

/// A bit for each cell of a code.
pub(crate) const ALL_CELLS: u64 = 0xf_ffff_ffff;

#[cfg(test)]
mod tests {
    use super::{ALL_CELLS, CODES, COUNT, pattern, places, recognise};

    #[test]
    fn the_order_of_bits_is_the_published_one() {
        // AprilRobotics/apriltag, tag36h11.c, bit_x and bit_y.
        let all: Vec<_> = places().collect();
        assert_eq!(all.len(), 36);
        let some =
            [(0, (1, 1)), (9, (6, 1)), (13, (6, 5)), (17, (4, 3)), (18, (6, 6)), (27, (1, 6)), (35, (3, 4))];
        for (bit, place) in some {
            assert_eq!(all[bit], place);
        }
    }

    #[test]
    fn any_two_cards_differ_in_eleven_cells_at_any_turn() {
        let turned = |code: u64, quarters: usize| {
            (code << (9 * quarters) | code >> (36 - 9 * quarters)) & 0xf_ffff_ffff
        };
        for (i, a) in CODES.iter().enumerate() {
            for (j, b) in CODES.iter().enumerate() {
                for quarters in 0..4 {
                    let same = i == j && quarters == 0;
                    assert!(same || (a ^ turned(*b, quarters)).count_ones() >= 11, "{i} {j} {quarters}");
                }
            }
        }
    }

    #[test]
    fn three_wrong_cells_are_put_right_and_four_are_not() {
        assert_eq!(recognise(CODES[7] ^ 0b1_0010_0001, ALL_CELLS), Some((7, 0, 3)));
        assert_eq!(recognise(CODES[7] ^ 0b11_0010_0001, ALL_CELLS), None);
        assert!(pattern(COUNT).is_none());
    }

    #[test]
    fn cells_that_were_not_read_are_made_up_for_up_to_ten() {
        // The last ten were not read, and read as anything.
        let read = ALL_CELLS & !0x3ff;
        assert_eq!(recognise(CODES[9] ^ 0x2a5, read), Some((9, 0, 0)));
        assert_eq!(recognise(CODES[9] ^ 0x2a5 ^ 1 << 20, read), None);
        assert_eq!(recognise(CODES[9], read & !(1 << 30)), None);
        // A quarter of the card at another turn.
        let turned = |bits: u64| (bits << 9 | bits >> 27) & ALL_CELLS;
        assert_eq!(recognise(turned(CODES[9]) ^ 0b1_0001, ALL_CELLS & !0xf), Some((9, 3, 1)));
    }
}
