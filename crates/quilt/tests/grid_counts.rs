//! Which dissections of a grid into rectangles the table can sew, against counts by brute force
//!: all / in full seams / one piece at a time. In full seams is a guillotine
//! partition, counted for generic layouts by Ackerman, Barequet, Pinter, "On the number of rectangular
//! partitions", SODA 2004 (1, 2, 6, 22, 90 of 1, 2, 6, 22, 92: the first gap is the two pinwheels
//! of five); on grids see also OEIS A116694. Every order of sewing is tried on the table itself,
//! with patches that lie where they were planned; nothing here knows what a guillotine cut is.

mod dissections;

use dissections::{Tile, dissections};
use plane::{Point, Pose, polygon};
use quilt::cloth::ClothId;
use quilt::log::{Mark, Press, Sewing, Step};
use quilt::table::{Side, Table, Top};
use std::collections::BTreeSet;

/// Finished size of a cell, and the seam allowance, in inches.
const CELL_IN: f64 = 2.0;
const SEAM_IN: f64 = 0.25;

/// Every tile laid where it is planned, cut with its allowances.
fn laid(tiles: &[Tile]) -> Table {
    let mut table = Table::new();
    for (i, &[row, column, height, width]) in tiles.iter().enumerate() {
        let low = |cells: usize| cells as f64 * CELL_IN - SEAM_IN;
        let high = |cells: usize| cells as f64 * CELL_IN + SEAM_IN;
        let (x0, y0, x1, y1) = (low(column), low(row), high(column + width), high(row + height));
        let cut = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(|(x, y)| Point::new(x, y)).to_vec();
        let lay = Step::Lay { cloth: ClothId(1), at: Pose::STAY, cut };
        table.apply(Mark(i as u32 + 1), &lay).expect("a rectangle");
    }
    table
}

/// The join of two sides that face each other in the plan; `None` when they don't.
fn join(onto_top: &Top, onto: &Side, with_top: &Top, with: &Side) -> Option<Step> {
    let seam = onto_top.line(onto.bound)?.inward(SEAM_IN);
    let other = with_top.line(with.bound)?.inward(SEAM_IN).reversed();
    if seam.turn_cosine(other) < 0.5 || (seam.at - other.at).abs() > 1e-9 {
        return None;
    }
    let [from, to] = [onto.from, onto.to].map(|p| seam.along(p));
    let [with_to, with_from] = [with.from, with.to].map(|p| seam.along(p));
    if to.min(with_to) - from.max(with_from) < 1.0 {
        return None;
    }
    Some(Step::Sew(Sewing::Join {
        onto: onto.name()?,
        with: with.name()?,
        slide_in: f64::midpoint(with_from, with_to) - f64::midpoint(from, to),
        allowance_in: SEAM_IN,
        stop: None,
        flush: [(with_from - from).abs() < 1e-9, (with_to - to).abs() < 1e-9],
        press: Press::Over,
    }))
}

/// The tables after every full seam that can be sewn now with all as planned.
fn sewn_once(table: &Table, mark: Mark, one_by_one: bool) -> Vec<Table> {
    let mut found = Vec::new();
    let begun = table.tops().values().any(|top| top.faces().len() > 1);
    for (a, onto_top) in table.tops() {
        for (b, with_top) in table.tops() {
            let pieces = [onto_top, with_top].map(|top| top.faces().len());
            if a == b || (one_by_one && begun && (pieces.iter().min() != Some(&1) || pieces == [1, 1])) {
                continue;
            }
            for onto in onto_top.sides() {
                for with in with_top.sides() {
                    let Some(step) = join(onto_top, &onto, with_top, &with) else { continue };
                    let mut after = table.clone();
                    if after.apply(mark, &step).is_ok() && as_planned(&after) {
                        found.push(after);
                    }
                }
            }
        }
    }
    found
}

/// Nothing was moved and nothing trimmed off.
fn as_planned(table: &Table) -> bool {
    let stays = |pose: Pose| (pose.turn.cos - 1.0).abs() < 1e-9 && pose.by.length() < 1e-9;
    table.offcuts().is_empty()
        && table.tops().values().flat_map(|t| t.faces().values()).all(|f| stays(f.pose))
}

/// Which patches lie together.
fn together(table: &Table) -> Vec<BTreeSet<Mark>> {
    table.tops().values().map(|top| top.faces().values().map(|face| face.patch).collect()).collect()
}

/// Whether some order of sewing leads to one whole rectangle.
fn can_be_sewn(tiles: &[Tile], one_by_one: bool) -> bool {
    let mut seen = BTreeSet::new();
    let mut open = vec![(laid(tiles), Mark(100))];
    while let Some((table, mark)) = open.pop() {
        if table.tops().len() == 1 {
            let top = table.piece().expect("a piece").1;
            assert_eq!((top.faces().len(), top.seams().len()), (tiles.len(), tiles.len() - 1));
            if top.sides().len() == 4 {
                let shown: f64 = top.faces().values().map(|f| polygon::area(&top.face_points(f))).sum();
                assert!((shown - polygon::area(&top.outline_points())).abs() < 1e-9);
                return true;
            }
            continue;
        }
        for after in sewn_once(&table, mark, one_by_one) {
            let mut key = together(&after);
            key.sort();
            if seen.insert(key) {
                open.push((after, Mark(mark.0 + 1)));
            }
        }
    }
    false
}

/// How many dissections there are, in full seams, one piece at a time; and those left over.
fn counts(rows: usize, columns: usize) -> ([usize; 3], Vec<Vec<Tile>>) {
    let all = dissections(rows, columns);
    let (full, left): (Vec<_>, Vec<_>) = all.iter().cloned().partition(|tiles| can_be_sewn(tiles, false));
    let single = full.iter().filter(|tiles| can_be_sewn(tiles, true)).count();
    ([all.len(), full.len(), single], left)
}

#[test]
fn as_many_layouts_of_small_grids_can_be_sewn_as_were_counted() {
    assert_eq!(counts(2, 2).0, [8, 8, 7]);
    assert_eq!(counts(2, 3).0, [34, 34, 22]);
}

#[test]
fn of_the_grid_of_nine_only_the_two_pinwheels_need_a_partial_seam() {
    let (found, left) = counts(3, 3);
    assert_eq!(found, [322, 320, 93]);
    let wheel = vec![[0, 0, 1, 2], [0, 2, 2, 1], [1, 0, 2, 1], [1, 1, 1, 1], [2, 1, 1, 2]];
    let other = vec![[0, 0, 2, 1], [0, 1, 1, 2], [1, 1, 1, 1], [1, 2, 2, 1], [2, 0, 1, 2]];
    assert_eq!(left, vec![wheel, other]);
}

#[test]
#[ignore = "takes some minutes: run it with `--ignored`"]
fn of_the_grid_of_twelve_as_many_can_be_sewn_as_were_counted() {
    assert_eq!(counts(3, 4).0, [3164, 3118, 340]);
}
