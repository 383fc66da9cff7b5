//! Rings from a strip set: counts against sums on paper, and steps that really sew on a piece.

mod common;

use common::{Hand, check_tiling, cloth, trued};
use plane::{Point, Pose, Region, grow_outline, intersection, lies_within, polygon};
use quilt::cloth::{Cloth, ClothId, Kind, Part, Runs};
use quilt::length::LengthUnit;
use quilt::log::{Mark, Step};
use quilt::stage::ring::{RingChoice, RingPlan, RingProblem, plan};
use quilt::stage::{Order, Piece, StripProblem};
use quilt::table::Table;

const S: f64 = 0.25;

/// A set of stripes cut so wide, sewn with the allowance, `long` along them.
fn set(cut: &[f64], long: f64) -> Cloth {
    let mut parts = Vec::new();
    let mut below = 0.0;
    for (i, wide) in cut.iter().enumerate() {
        let low = below + if i > 0 { S } else { 0.0 };
        let high = below + wide - if i + 1 < cut.len() { S } else { 0.0 };
        let shows = [(0.0, low), (long, low), (long, high), (0.0, high)].map(|(x, y)| Point::new(x, y));
        parts.push(Part { cloth: ClothId(100 + i as u64), pose: Pose::STAY, shows: shows.to_vec() });
        below += wide - 2.0 * S;
    }
    Cloth { kind: Kind::StripSet, parts, ..cloth(long, below + 2.0 * S, Runs::AnyWay) }
}

const CUT: [f64; 5] = [1.5, 2.0, 1.25, 1.75, 1.5];

fn choice(slice_in: f64) -> RingChoice {
    let usual: RingChoice = serde_json::from_str(r#"{"slice_in":2.0}"#).expect("the rest has usual values");
    RingChoice { slice_in, ..usual }
}

fn square(side: f64) -> Piece {
    Piece::of_outline(&Region::rectangle(side, side).outer).unwrap()
}

// Finished stripes 1, 1 1/2, 3/4, 1 1/4, 1: a slice adds 5 1/2. Sides of 20 at the seam line, the
// ring adds 1 1/2 at each corner it runs over: 20 1/2, 20 1/2, 23 1/2, 23 1/2 raw (arithmetic).
#[test]
fn slices_are_counted_as_on_paper() {
    let ring = plan(&square(20.5), &choice(2.0), &set(&CUT, 44.0), S).unwrap();
    assert!((ring.slice_adds_in - 5.5).abs() < 1e-12);
    let needs: Vec<f64> = ring.sides.iter().map(|side| side.need_in).collect();
    assert_eq!(needs, [20.5, 23.5, 20.5, 23.5]);
    // 20 net takes 4 slices of 5 1/2 (22), 23 net takes 5: 18 in all, 36 inches of set.
    assert_eq!((ring.slices_whole, ring.set_used_whole_in), (18, 36.0));
    // Stripe by stripe round the piece: 86 net and what the last stripe of each side has over.
    let shows = [1.0, 1.5, 0.75, 1.25, 1.0];
    let mut stripes = 0;
    for need in [20.0, 23.0, 20.0, 23.0] {
        let mut sum = 0.0;
        while sum < need {
            sum += shows[stripes % 5];
            stripes += 1;
        }
    }
    assert_eq!(ring.slices_unpicked, stripes.div_ceil(5));
    assert!(ring.slices_unpicked < ring.slices_whole);
    assert_eq!(ring.offset_in, 0.0);
    assert_eq!(ring.sides[0].trimmed_in, (22.0 + 0.5 - 20.5) / 2.0);
    let words = ring.sentence(LengthUnit::Inches);
    assert!(
        words.contains(
            "18 slices cut 2 wide take 36 of the set, 8 left; unpicked 16 slices take 32 of the set, 12 left"
        ),
        "{words}"
    );
    assert!(
        words.contains("Side 1: 4 runs of stripes, 1 is trimmed off each end; the pattern breaks"),
        "{words}"
    );
}

// Two strips that lean by t cross at a seam s from their raw ends when those are offset by 2 s tan t
// (geometry): at 45 degrees by twice the seam.
#[test]
fn slanted_slices_are_longer_and_joined_with_an_offset() {
    let slanted = RingChoice { lean_deg: 45.0, ..choice(2.0) };
    let ring = plan(&square(20.5), &slanted, &set(&CUT, 90.0), S).unwrap();
    assert!((ring.offset_in - 0.5).abs() < 1e-12 && ring.is_bias);
    assert!((ring.slice_adds_in - 5.5 * 2.0_f64.sqrt()).abs() < 1e-12);
    // Each slice takes 2 √2 of the set, and the lean across 6 inches of height 6 once.
    let used = ring.slices_whole as f64 * 2.0 * 2.0_f64.sqrt() + 6.0;
    assert!((ring.set_used_whole_in - used).abs() < 1e-9);
}

#[test]
fn a_set_too_short_is_refused_with_the_missing_inches() {
    let short = plan(&square(20.5), &choice(2.0), &set(&CUT, 33.0), S).unwrap_err();
    let RingProblem::SetTooShort { slices: 18, need_in, have_in, missing_in, ref remedy } = short else {
        panic!("{short}")
    };
    assert_eq!((need_in, have_in, missing_in), (36.0, 33.0, 3.0));
    assert_eq!(remedy, "Unpicked, 16 slices are enough.");
    assert!(short.to_string().contains("18 slices take 36: it is 3 short."), "{short}");
    let shorter = plan(&square(20.5), &choice(2.0), &set(&CUT, 31.0), S).unwrap_err().to_string();
    assert!(
        shorter.contains("it is 5 short. Unpicked, 16 slices would do, and it is still 1 short."),
        "{shorter}"
    );
    let unpicked = RingChoice { unpick: true, ..choice(2.0) };
    assert!(plan(&square(20.5), &unpicked, &set(&CUT, 34.0), S).is_ok());
    // A stain across the set leaves the longer part of it.
    let mut stained = set(&CUT, 80.0);
    let stain = [(30.0, 2.0), (31.0, 2.0), (31.0, 3.0), (30.0, 3.0)].map(|(x, y)| Point::new(x, y));
    stained.flaws = vec![Region { outer: stain.to_vec(), holes: Vec::new() }];
    assert_eq!(plan(&square(20.5), &choice(2.0), &stained, S).unwrap().set_in, 49.0);
    // A sixteenth of an inch is missing, too.
    let near = plan(&square(20.5), &choice(2.0), &set(&CUT, 36.0 - 1.0 / 16.0), S).unwrap_err();
    assert!(
        matches!(near, RingProblem::SetTooShort { missing_in, .. } if (missing_in - 0.0625).abs() < 1e-9)
    );
    assert!(near.to_string().contains("it is 1/16 short. Unpicked, 16 slices are enough."), "{near}");
}

#[test]
fn rings_that_make_no_sense_are_refused() {
    let refused = |choice: &RingChoice, set: &Cloth| plan(&square(20.5), choice, set, S).unwrap_err();
    let long = set(&CUT, 90.0);
    let plain = cloth(44.0, 44.0, Runs::AnyWay);
    assert!(matches!(refused(&choice(2.0), &plain), RingProblem::NoSet { parts: 0, .. }));
    assert!(matches!(refused(&choice(0.5), &long), RingProblem::Narrow { .. }));
    let lean = RingChoice { lean_deg: 80.0, ..choice(2.0) };
    assert!(matches!(refused(&lean, &long), RingProblem::Lean(_)));
    let wide = refused(&choice(30.0), &long);
    assert!(matches!(wide, RingProblem::Strips(StripProblem::TooWide { .. })), "{wide}");
    let lost = set(&[0.5, 2.0, 2.0], 90.0);
    assert!(matches!(refused(&choice(2.0), &lost), RingProblem::StripeLost { stripe: 1, .. }));
}

fn check_slices(steps: &[Step], set: &Cloth, is_unpicked: bool) {
    let laid: Vec<(Region, Pose)> = steps
        .iter()
        .filter_map(|step| match step {
            Step::Lay { cut, at, .. } => {
                assert!(lies_within(cut, &set.outline, *at), "{:?}", at.apply_all(cut));
                Some((Region { outer: at.apply_all(cut), holes: Vec::new() }, *at))
            }
            _ => None,
        })
        .collect();
    for (i, (one, _)) in laid.iter().enumerate() {
        for (other, _) in &laid[i + 1..] {
            let both: f64 = intersection(one, other).iter().map(Region::area).sum();
            // Unpicked, two parts of a slice share the allowances of the seam between them.
            let most = if is_unpicked { 2.0 * S * 4.0 } else { 0.0 };
            assert!(both < most + 1e-7, "{both}");
        }
    }
}

/// Which stripe shows at a point of the piece, from the set's own coordinates.
fn stripe_at(table: &Table, mark: Mark, set: &Cloth, p: Point) -> Option<usize> {
    let top = &table.tops()[&mark];
    let face = top.faces().values().find(|face| polygon::contains(&top.face_points(face), p))?;
    let patch = &table.patches()[&face.patch];
    let on_set = patch.at.apply(face.pose.inverse().apply(p));
    set.parts.iter().position(|part| polygon::contains(&part.shows, on_set))
}

/// The stripes that show along each side are those that the plan says, and meet where it says.
fn check_pattern(hand: &Hand, mark: Mark, piece: &Piece, ring: &RingPlan, set: &Cloth) {
    let mut seen = 0;
    for (side, plan) in piece.sides.iter().zip(&ring.sides) {
        let strip = ring.strips.iter().find(|strip| strip.side == plan.side).unwrap();
        let line = side.line.inward(S - 0.01);
        let start = strip.lies.apply(strip.cut[1].lerp(strip.cut[2], S / strip.cut_wide_in));
        let at = |d: f64| line.point_at(line.along(start) + d);
        // At its ends a strip may lie under the next one's seam: the flatter the corner, the further.
        let [first, last] = [strip.start_deg, strip.end_deg].map(|deg| 0.5 + 0.3 / deg.to_radians().sin());
        let middle = |d: &&f64| **d > first && **d < strip.seam_in - last;
        for (k, d) in plan.seams_at_in.iter().enumerate().filter(|(_, d)| middle(d)) {
            let met = [-0.04, 0.04].map(|by| stripe_at(&hand.table, mark, set, at(d + by)));
            let (one, two) = (met[0].expect("a stripe"), met[1].expect("a stripe"));
            seen += 1;
            assert_eq!(two, (one + 1) % 5, "side {} seam {k} at {d}: {met:?}", plan.side);
        }
        if let Some(d) = plan.seams_at_in.first().filter(middle) {
            let first = stripe_at(&hand.table, mark, set, at(d - 0.04));
            assert_eq!(first, Some(plan.first_stripe), "side {}", plan.side);
        }
    }
    assert!(seen > 10, "{seen} seams looked at");
}

#[test]
fn planned_steps_sew_rings_on_pieces_sewn_at_random() {
    let mut sewn = [0; 4];
    let long = set(&CUT, 200.0);
    for seed in 0..40 {
        let Some((hand, mark)) = trued(seed) else { continue };
        let piece = Piece::of(mark, &hand.table.tops()[&mark]).unwrap();
        for (k, order) in Order::ALL.into_iter().enumerate() {
            let lean_deg = [0.0, 30.0, -25.0][(seed as usize + k) % 3];
            let asked = RingChoice { lean_deg, unpick: seed % 2 == 0, order, ..choice(1.75) };
            let ring = match plan(&piece, &asked, &long, S) {
                Ok(ring) => ring,
                Err(RingProblem::Strips(
                    StripProblem::ComesToAPoint { .. }
                    | StripProblem::SideTooShort { .. }
                    | StripProblem::Swallowed { .. },
                )) => continue,
                Err(problem) => panic!("seed {seed}: {problem}"),
            };
            let mut hand = hand.clone();
            let steps = ring.steps(&piece, &asked, &long, hand.next_mark()).unwrap();
            check_slices(&steps, &long, asked.unpick);
            for (i, step) in steps.iter().enumerate() {
                let done = hand.try_step(step.clone());
                assert!(done.is_ok(), "seed {seed} {order:?} {lean_deg}: step {i}: {}", done.unwrap_err());
            }
            let top = &hand.table.tops()[&mark];
            check_tiling(top);
            let grown = grow_outline(&piece.corners(), 1.5 - S);
            assert_eq!(top.outline().len(), grown.len(), "seed {seed} {order:?} {lean_deg}");
            assert!((polygon::area(&top.outline_points()) - polygon::area(&grown)).abs() < 1e-6);
            assert!(top.seams().values().all(|seam| seam.open.is_none()));
            check_pattern(&hand, mark, &piece, &ring, &long);
            sewn[k] += 1;
        }
    }
    assert!(sewn.iter().all(|count| *count > 4), "{sewn:?}");
}

#[test]
fn unpicked_the_pattern_goes_on_round_every_corner_but_perhaps_the_last() {
    let asked = RingChoice { unpick: true, ..choice(2.0) };
    let ring = plan(&square(20.5), &asked, &set(&CUT, 90.0), S).unwrap();
    for side in &ring.sides {
        let next = &ring.sides[(side.side + 1) % 4];
        assert_eq!(side.goes_on, next.first_stripe == (side.last_stripe + 1) % 5);
        assert!(side.trimmed_in >= 0.0 && side.trimmed_in < 0.75, "less than the widest stripe: {side:?}");
    }
    assert!(ring.sides.iter().take(3).filter(|side| side.goes_on).count() >= 2);
    let whole = plan(&square(20.5), &choice(2.0), &set(&CUT, 90.0), S).unwrap();
    assert!(whole.sides.iter().all(|side| side.runs.iter().all(|run| (run.from, run.to) == (0, 4))));
}
