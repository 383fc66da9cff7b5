//! A layout that the maker gives: each block coped up to its place, then the places joined.

use super::block::Block;
use super::check::check_size;
use super::choice::Seat;
use super::coping::fills;
use super::cost::{CentresCost, Judge};
use super::given;
use super::layout::{CentreSeam, Layout, Rect, Sewn, Unit};
use super::plan::Found;
use super::problem::CentresProblem;

/// The layout with its cost.
pub(super) fn seated(
    blocks: &[Block],
    seats: &[Seat],
    judge: &Judge,
) -> Result<(Layout, CentresCost, Found), CentresProblem> {
    check_seats(blocks, seats, judge)?;
    let rects: Vec<Rect> =
        seats.iter().map(|seat| Rect::new(seat.x_in, seat.y_in, seat.width_in, seat.height_in)).collect();
    let judged = given::judge(&rects)?;
    let around = Rect::around(rects.iter().copied());
    let size = [around.width_in, around.height_in];
    if check_size(judge.goal, size).is_err_and(|e| matches!(e, CentresProblem::TooLarge { .. })) {
        return Err(CentresProblem::OtherSize { is_in: size, wished_in: judge.goal.size });
    }
    check_size(judge.goal, size)?;
    let mut layout = Layout::default();
    let units: Vec<Unit> = seats
        .iter()
        .map(|seat| {
            let [w, h] = judge.sizes.lying(seat.block, seat.turned);
            let unit = layout.block(seat.block, seat.turned, Rect::new(seat.x_in, seat.y_in, w, h));
            let wide = layout.cope(unit, 0, seat.width_in);
            layout.cope(wide, 1, seat.height_in)
        })
        .collect();
    layout.settle(0);
    let own = layout.seams.len();
    let parts = |places: &[usize]| places.iter().flat_map(|&i| units[i].parts.iter().copied()).collect();
    for seam in judged.seams {
        let sewn = if let Sewn::Closes(i) = seam.sewn { Sewn::Closes(i + own) } else { seam.sewn };
        let (first, second) = (parts(&seam.first), parts(&seam.second));
        layout.seams.push(CentreSeam { first, second, sewn, ..seam });
    }
    let (mut cost, _) = judge.goal.terms(size);
    let whole = Unit { parts: (0..layout.parts.len()).collect(), at: around };
    layout.frame(whole, [judge.goal.end(size[0], 0), judge.goal.end(size[1], 1)], judge.goal.least);
    let corner = |i: usize| seats.iter().find(|seat| seat.block == i).map_or([0.0; 2], |s| [s.x_in, s.y_in]);
    let turned = |i: usize| seats.iter().any(|seat| seat.block == i && seat.turned);
    let corners: Vec<[f64; 2]> = (0..blocks.len()).map(corner).collect();
    let lying: Vec<[f64; 2]> = (0..blocks.len()).map(|i| judge.sizes.lying(i, turned(i))).collect();
    judge.looks(&corners, &lying, &mut cost);
    cost.strips = (layout.parts.len() - blocks.len()) as f64 / blocks.len() as f64;
    cost.partial_seams = judged.partial_seams as f64;
    Ok((layout, cost, Found::Given))
}

fn check_seats(blocks: &[Block], seats: &[Seat], judge: &Judge) -> Result<(), CentresProblem> {
    let have = blocks.len();
    for block in (0..have).chain(seats.iter().map(|seat| seat.block)) {
        let times = seats.iter().filter(|seat| seat.block == block).count();
        if times != 1 || block >= have {
            return Err(CentresProblem::PlacedOften { block: block.saturating_add(1), times, have });
        }
    }
    for seat in seats {
        let name = &blocks[seat.block].name;
        let [w, h] = judge.sizes.lying(seat.block, seat.turned);
        let left = [seat.width_in - w, seat.height_in - h];
        if left.iter().any(|left| *left < -plane::READING) {
            let over_in = left.map(|left| -left);
            return Err(CentresProblem::LargerThanItsPlace { name: name.clone(), over_in });
        }
        let least_in = judge.goal.least;
        if let Some(&left_in) = left.iter().find(|&&left| !fills(0.0, left, least_in)) {
            return Err(CentresProblem::CopingTooThin { place: name.clone(), left_in, least_in });
        }
    }
    Ok(())
}
