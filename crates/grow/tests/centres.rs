//! Layouts of centres: they tile, they have the wished size, strips are wide enough, like doesn't
//! lie beside like, and what can't be done is refused with numbers.

use grow::centres::{
    Arrangement, Block, CentresChoice, CentresPlan, CentresProblem, Found, LEAST_COPING_IN, PrintShare, Seat,
    Sewn, What, can_be_sliced, plan,
};

/// A small generator of our own (SplitMix64).
struct Chance(u64);

impl Chance {
    fn between(&mut self, lo: f64, hi: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^= z >> 31;
        lo + (hi - lo) * (z >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn eighths(&mut self, lo: f64, hi: f64) -> f64 {
        (self.between(lo, hi) * 8.0).round() / 8.0
    }
}

fn block(i: usize, width_in: f64, height_in: f64) -> Block {
    Block { name: format!("centre {}", i + 1), width_in, height_in, weight: 50.0, prints: Vec::new() }
}

/// Blocks of many sizes, weights and prints.
fn blocks(count: usize, seed: u64) -> Vec<Block> {
    let mut chance = Chance(seed);
    (0..count)
        .map(|i| {
            let (w, h) = (chance.eighths(12.0, 20.0), chance.eighths(12.0, 20.0));
            let print = chance.between(0.0, 4.0) as u64;
            let prints = vec![PrintShare { print, share: 0.6 }];
            Block { weight: chance.between(20.0, 80.0), prints, ..block(i, w, h) }
        })
        .collect()
}

/// Whatever the plan says must hold of it.
fn check(plan: &CentresPlan, blocks: &[Block], choice: &CentresChoice) {
    let (w, h) = (plan.finished_width_in, plan.finished_height_in);
    let off = (w - choice.width_in).abs().max((h - choice.height_in).abs());
    assert!(off <= choice.tolerance_in + 1e-3, "{w} x {h}");
    assert_eq!((plan.raw_width_in, plan.raw_height_in), (w + 0.5, h + 0.5));
    let rects: Vec<_> = plan.parts.iter().map(|part| part.at).collect();
    let area: f64 = rects.iter().map(grow::centres::Rect::area_sq_in).sum();
    assert!((area - w * h).abs() < 1e-3 * (w + h), "the parts tile the top: {area} of {}", w * h);
    assert!(can_be_sliced(&rects) || plan.partial_seams > 0);
    for (i, block) in blocks.iter().enumerate() {
        let mut places = plan.parts.iter().filter(|part| part.what == What::Block(i));
        let at = places.next().expect("each block has a place");
        assert!(places.next().is_none());
        let lies =
            if at.turned { [at.at.height_in, at.at.width_in] } else { [at.at.width_in, at.at.height_in] };
        assert_eq!(lies, [block.width_in, block.height_in], "blocks keep their size");
    }
    for strip in &plan.strips {
        assert!(strip.finished_wide_in >= LEAST_COPING_IN - 1e-3, "{strip:?}");
        assert_eq!(strip.cut_wide_in, strip.finished_wide_in + 2.0 * plan.allowance_in);
        assert_eq!(strip.cut_long_in, strip.finished_long_in + 2.0 * plan.allowance_in);
    }
    let closed = plan.seams.iter().filter(|seam| matches!(seam.sewn, Sewn::Closes(_))).count();
    assert_eq!(plan.seams.len() - closed, plan.parts.len() - 1, "each seam joins two units");
}

#[test]
fn blocks_of_mixed_sizes_are_laid_out_for_a_wished_size() {
    let mut chance = Chance(7);
    for count in [2, 3, 5, 6, 7, 12, 20, 30] {
        for seed in 0..2 {
            let blocks = blocks(count, seed);
            let area: f64 = blocks.iter().map(Block::area_sq_in).sum();
            let width = (area.sqrt() * if count < 8 { 1.35 } else { chance.between(1.14, 1.2) }).max(41.0);
            let choice = CentresChoice { seed, most_coping_share: 0.8, ..CentresChoice::new(width, width) };
            let plan = plan(&blocks, &choice, 0.25).unwrap_or_else(|e| panic!("{count} blocks: {e}"));
            check(&plan, &blocks, &choice);
            assert_eq!(plan.found, if count <= 6 { Found::Exactly } else { Found::BySearch });
            let again = grow::centres::plan(&blocks, &choice, 0.25);
            assert_eq!(again, Ok(plan), "the same seed, the same plan");
        }
    }
}

/// Against a slow second method: all trees of five blocks written out by another way of recursion.
#[test]
fn few_blocks_get_the_fewest_strips_there_are() {
    fn trees(sizes: &[[f64; 2]]) -> Vec<([f64; 2], usize)> {
        if sizes.len() == 1 {
            return vec![(sizes[0], 0)];
        }
        let mut found = Vec::new();
        for mask in 1..(1_usize << sizes.len()) - 1 {
            let part = |bit: usize| -> Vec<[f64; 2]> {
                (0..sizes.len()).filter(|i| mask >> i & 1 == bit).map(|i| sizes[i]).collect()
            };
            let (a, b) = (trees(&part(0)), trees(&part(1)));
            for (a, a_strips) in &a {
                for (b, b_strips) in &b {
                    for along in 0..2 {
                        let across = 1 - along;
                        let short = (a[across] - b[across]).abs();
                        let (more, strips) = match short {
                            s if s < 1e-9 => (0.0, 0),
                            s if s < 0.5 => (0.5, 2),
                            _ => (0.0, 1),
                        };
                        let mut size = [a[across].max(b[across]) + more; 2];
                        size[along] = a[along] + b[along];
                        found.push((size, a_strips + b_strips + strips));
                    }
                }
            }
        }
        found
    }
    let mut laid_out = 0;
    for seed in 0..6 {
        let blocks = blocks(4, seed);
        let sizes: Vec<[f64; 2]> = blocks.iter().map(|b| [b.width_in, b.height_in]).collect();
        let choice = CentresChoice { most_coping_share: 0.9, ..CentresChoice::new(44.0, 44.0) };
        let outer = |left: f64| match left {
            l if l.abs() < 1e-9 => Some(0),
            l if l < 0.5 => None,
            l if l < 1.0 => Some(1),
            _ => Some(2),
        };
        let cost = |(size, strips): &([f64; 2], usize)| {
            let left = size.map(|s| 44.0 - s);
            let strips = strips + outer(left[0])? + outer(left[1])?;
            Some(strips as f64 / 4.0 + (left[0] + left[1]) / 44.0)
        };
        let slow = trees(&sizes).iter().filter_map(cost).fold(f64::INFINITY, f64::min);
        match plan(&blocks, &choice, 0.25) {
            Ok(plan) => {
                let found = plan.cost.strips + plan.cost.outer;
                assert!((found - slow).abs() < 1e-9, "seed {seed}: {found}, {slow}");
                assert_eq!(plan.cost.strips, plan.strips.len() as f64 / 4.0);
                laid_out += 1;
            }
            Err(problem) => assert!(slow.is_infinite(), "seed {seed}: {problem}"),
        }
    }
    assert!(laid_out > 3, "{laid_out}");
}

#[test]
fn equal_places_in_rows_are_coped_up_and_joined_row_by_row() {
    let mut blocks: Vec<Block> = (0..12).map(|i| block(i, 15.0, 15.0)).collect();
    blocks[3].width_in = 14.0;
    blocks[7].height_in = 14.75;
    let rows = Arrangement::Rows { across: 3, down: 4 };
    // 14 3/4 leaves a quarter inch of 15: all are coped to 15 1/2 the one way.
    let choice = CentresChoice { arrangement: rows, ..CentresChoice::new(45.0, 62.0) };
    let plan = plan(&blocks, &choice, 0.25).expect("a plan");
    check(&plan, &blocks, &choice);
    let widths = |wide: f64| plan.strips.iter().filter(|s| (s.finished_wide_in - wide).abs() < 1e-9).count();
    assert_eq!([widths(1.0), widths(0.5), widths(0.75)], [1, 11, 1]);
    assert_eq!(plan.strips.len(), 13);
    let last = plan.seams.last().expect("seams");
    assert!((last.length_in - 45.0).abs() < 1e-9, "rows are joined from edge to edge");
}

#[test]
fn neighbours_are_chosen_so_that_prints_and_weights_do_not_pile_up() {
    // Eight blocks of a print, eight of another; dark ones first: as given they pile up.
    let blocks: Vec<Block> = (0..16)
        .map(|i| {
            let prints = vec![PrintShare { print: i as u64 / 8, share: 1.0 }];
            Block { weight: if i < 8 { 80.0 } else { 20.0 }, prints, ..block(i, 12.0, 12.0) }
        })
        .collect();
    let seats = (0..16).map(|i| Seat {
        block: i,
        x_in: 12.0 * (i % 4) as f64,
        y_in: 12.0 * (i / 4) as f64,
        width_in: 12.0,
        height_in: 12.0,
        turned: false,
    });
    let given =
        CentresChoice { arrangement: Arrangement::Given(seats.collect()), ..CentresChoice::new(48.0, 48.0) };
    let piled = plan(&blocks, &given, 0.25).expect("a plan");
    // Of 24 neighbours 20 are alike.
    assert!((piled.cost.prints - 20.0 / 24.0).abs() < 1e-9);
    assert!((piled.cost.weights - (1.0 + 16.0 / 24.0) / 2.0).abs() < 1e-9);
    assert_eq!(piled.cost.balance, 1.0);
    let rows = CentresChoice { arrangement: Arrangement::Rows { across: 4, down: 4 }, ..given };
    let spread = plan(&blocks, &rows, 0.25).expect("a plan");
    // A draughts board has no neighbours alike.
    assert_eq!((spread.cost.prints, spread.cost.weights), (0.0, 0.0));
    assert!(spread.cost.balance < 1e-9);
}

#[test]
fn what_cannot_be_is_refused_with_numbers_and_a_way_on() {
    let twelve = blocks(12, 1);
    let area: f64 = twelve.iter().map(Block::area_sq_in).sum();
    let with = |arrangement, w, h| {
        let choice = CentresChoice { arrangement, ..CentresChoice::new(w, h) };
        plan(&twelve, &choice, 0.25).expect_err("refused")
    };
    let missing = with(Arrangement::Rows { across: 4, down: 4 }, 80.0, 80.0);
    assert!(matches!(missing, CentresProblem::BlocksMissing { have: 12, missing: 4, .. }), "{missing}");
    let over = with(Arrangement::Rows { across: 3, down: 3 }, 60.0, 60.0);
    assert!(matches!(over, CentresProblem::BlocksOver { have: 12, over: 3, .. }), "{over}");
    let CentresProblem::TooLarge { over_in, needs_in } = with(Arrangement::Mixed, 50.0, 50.0) else {
        panic!("too large")
    };
    assert!(area > 50.0 * 50.0 && over_in.iter().any(|&o| o > 0.0));
    assert!(needs_in[0] * needs_in[1] >= area);
    let CentresProblem::TooLittle { share, blocks: more, .. } = with(Arrangement::Mixed, 90.0, 90.0) else {
        panic!("too little")
    };
    assert!((share - (1.0 - area / 8100.0)).abs() < 1e-9);
    let mean = area / 12.0;
    assert!(area + more as f64 * mean >= 0.75 * 8100.0 && area + (more as f64 - 1.0) * mean < 0.75 * 8100.0);
    let four: Vec<Block> = (0..4).map(|i| block(i, 10.0, 10.0)).collect();
    let thin = CentresChoice {
        arrangement: Arrangement::Rows { across: 2, down: 2 },
        ..CentresChoice::new(20.25, 20.0)
    };
    let thin_in = plan(&four, &thin, 0.25).expect_err("refused");
    let CentresProblem::CopingTooThin { left_in, least_in, .. } = thin_in else { panic!("{thin_in}") };
    assert_eq!((left_in, least_in), (0.25, 0.5));
    // As it says: a quarter inch more, or less, does it; so does a tolerance.
    for (width_in, tolerance_in) in [(20.5, 0.0), (20.0, 0.0), (20.25, 0.25)] {
        let choice = CentresChoice { width_in, tolerance_in, ..thin.clone() };
        assert!(plan(&four, &choice, 0.25).is_ok(), "{width_in}");
    }
    for bad in [f64::NAN, f64::INFINITY, 0.0, -40.0] {
        let refused = plan(&four, &CentresChoice::new(bad, 20.0), 0.25);
        assert!(matches!(refused, Err(CentresProblem::OutOfRange { .. })));
        assert!(plan(&[block(0, bad, 10.0)], &CentresChoice::new(20.0, 20.0), 0.25).is_err());
    }
    let least = CentresChoice { least_coping_in: 0.25, ..CentresChoice::new(20.0, 20.0) };
    assert!(matches!(plan(&four, &least, 0.25), Err(CentresProblem::OutOfRange { .. })), "never under 1/2");
    assert!(matches!(
        plan(&[], &CentresChoice::new(20.0, 20.0), 0.25),
        Err(CentresProblem::HowMany { count: 0, .. })
    ));
}

#[test]
fn a_given_layout_names_every_block_once_and_gives_it_room() {
    let two = [block(0, 10.0, 10.0), block(1, 8.0, 10.0)];
    let seat = |block, x_in: f64, width_in: f64| Seat {
        block,
        x_in,
        y_in: 0.0,
        width_in,
        height_in: 10.0,
        turned: false,
    };
    let with = |seats: &[Seat]| {
        let arrangement = Arrangement::Given(seats.to_vec());
        plan(&two, &CentresChoice { arrangement, ..CentresChoice::new(20.0, 10.0) }, 0.25)
    };
    let good = with(&[seat(0, 0.0, 10.0), seat(1, 10.0, 10.0)]).expect("a plan");
    assert_eq!((good.strips.len(), good.strips[0].finished_wide_in), (1, 2.0));
    assert!(matches!(
        with(&[seat(0, 0.0, 20.0)]),
        Err(CentresProblem::PlacedOften { block: 2, times: 0, .. })
    ));
    assert!(matches!(
        with(&[seat(0, 0.0, 10.0), seat(7, 10.0, 10.0), seat(1, 0.0, 1.0)]),
        Err(CentresProblem::PlacedOften { block: 8, times: 1, have: 2 })
    ));
    assert!(matches!(
        with(&[seat(0, 0.0, 9.0), seat(1, 9.0, 11.0)]),
        Err(CentresProblem::LargerThanItsPlace { over_in: [1.0, 0.0], .. })
    ));
    assert!(matches!(
        with(&[seat(0, 0.0, 10.25), seat(1, 10.25, 9.75)]),
        Err(CentresProblem::CopingTooThin { left_in: 0.25, .. })
    ));
    assert!(matches!(
        with(&[seat(0, 0.0, 12.0), seat(1, 12.0, 10.0)]),
        Err(CentresProblem::OtherSize { is_in: [22.0, 10.0], .. })
    ));
}

/// The field names are what the log stores: they don't change, and usual values may be left out.
#[test]
fn a_choice_is_stored_with_plain_names() {
    let read: CentresChoice = serde_json::from_str(
        r#"{"width_in": 60.0, "height_in": 72.0, "arrangement": {"rows": {"across": 4, "down": 5}}}"#,
    )
    .expect("a choice");
    let wanted = CentresChoice {
        arrangement: Arrangement::Rows { across: 4, down: 5 },
        ..CentresChoice::new(60.0, 72.0)
    };
    assert_eq!(read, wanted);
    let text = serde_json::to_string(&wanted).expect("text");
    assert_eq!(
        text,
        r#"{"width_in":60.0,"height_in":72.0,"arrangement":{"rows":{"across":4,"down":5}},"tolerance_in":0.0,"least_coping_in":0.5,"most_coping_share":0.25,"may_turn":false,"partial_seams":true,"coping":[],"seed":0}"#
    );
    assert_eq!(serde_json::from_str::<CentresChoice>(&text).expect("a choice"), wanted);
}
