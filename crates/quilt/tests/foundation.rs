//! Sections for sewing onto paper, against counts by brute force: of the dissections of a grid into
//! rectangles, how many can be sewn in full seams, and how many one piece at a time
//! (in full seams is a guillotine partition: Ackerman, Barequet, Pinter, "On the number of rectangular
//! partitions", SODA 2004; grids: OEIS A116694. One piece at a time is an acyclic dual hypergraph: Leake,
//! Bernstein, Davis, Agrawala, ACM Trans. Graph. 40(4), 2021). `grid_counts.rs` counts the same by trying every
//! order on the table; only the list of dissections is shared with it.

mod dissections;

use dissections::{Tile, dissections};
use plane::Point;
use quilt::foundation::{Joining, Pieces, Sections, sections};
use std::collections::BTreeSet;

fn pieces(tiles: &[Tile]) -> Pieces {
    let outline = |&[row, column, height, width]: &Tile| {
        let (x0, y0) = (column as f64, row as f64);
        let (x1, y1) = (x0 + width as f64, y0 + height as f64);
        [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(|(x, y)| Point::new(x, y)).to_vec()
    };
    Pieces::new(&tiles.iter().map(outline).collect::<Vec<_>>())
}

/// Every piece is in one section, and every join brings together what wasn't.
fn is_whole(found: &Sections, count: usize) {
    let all: Vec<usize> = found.sections.iter().flat_map(quilt::foundation::Section::pieces).collect();
    assert_eq!((all.len(), all.into_iter().collect::<BTreeSet<_>>().len()), (count, count));
    for section in &found.sections {
        let seams = section.order.iter().map(|sewn| sewn.seam.is_some());
        assert!(seams.enumerate().all(|(i, has)| has == (i > 0)));
    }
    let mut groups: Vec<BTreeSet<usize>> = (0..found.sections.len()).map(|i| BTreeSet::from([i])).collect();
    for join in &found.joins {
        if let Joining::Sew { groups: [a, b], .. } | Joining::SetIn { groups: [a, b], .. } = join {
            for group in [a, b] {
                let group: BTreeSet<usize> = group.iter().copied().collect();
                let at = groups.iter().position(|known| *known == group).expect("joined before");
                groups.remove(at);
            }
            groups.push(a.iter().chain(b).copied().collect());
        }
    }
    assert_eq!(groups.len(), 1);
}

/// All, in full seams, one piece at a time; the most seams left open in one.
fn counts(rows: usize, columns: usize) -> ([usize; 3], usize) {
    let (mut counts, mut open) = ([0; 3], 0);
    for tiles in dissections(rows, columns) {
        let found = sections(&pieces(&tiles));
        is_whole(&found, tiles.len());
        counts[0] += 1;
        counts[1] += usize::from(found.in_full_seams());
        counts[2] += usize::from(found.stuck.is_empty());
        assert_eq!(found.stuck.is_empty(), found.sections.len() == 1);
        assert!(!found.joins.iter().any(|join| matches!(join, Joining::SetIn { .. })), "{tiles:?}");
        // What has no way in full seams needs five pieces at least: the pinwheel is the smallest.
        assert!(found.in_full_seams() || tiles.len() >= 5, "{tiles:?}");
        open = open.max(found.partial_seams());
    }
    (counts, open)
}

#[test]
fn small_grids_are_told_apart_as_counted() {
    assert_eq!(counts(2, 2), ([8, 8, 7], 0));
    assert_eq!(counts(2, 3), ([34, 34, 22], 0));
    assert_eq!(counts(3, 3), ([322, 320, 93], 1));
}

#[test]
fn the_grid_of_twelve_is_told_apart_as_counted() {
    assert_eq!(counts(3, 4), ([3164, 3118, 340], 1));
}

#[test]
fn the_grid_of_sixteen_is_told_apart_as_counted() {
    assert_eq!(counts(4, 4).0, [70878, 68480, 1483]);
}

#[test]
fn a_four_patch_is_two_sections_and_one_seam() {
    let found = sections(&pieces(&[[0, 0, 1, 1], [0, 1, 1, 1], [1, 0, 1, 1], [1, 1, 1, 1]]));
    assert_eq!(found.stuck, [0, 1, 2, 3]);
    assert_eq!(found.sections.len(), 2);
    let [Joining::Sew { seam, open: None, .. }] = &found.joins[..] else { panic!("{:?}", found.joins) };
    assert!((seam.length_in() - 2.0).abs() < 1e-9);
}

#[test]
fn a_pinwheel_takes_one_seam_in_part_and_closes_it_last() {
    let wheel = [[0, 0, 2, 1], [0, 1, 1, 2], [1, 1, 1, 1], [1, 2, 2, 1], [2, 0, 1, 2]];
    let found = sections(&pieces(&wheel));
    assert_eq!((found.sections.len(), found.partial_seams(), found.in_full_seams()), (5, 1, false));
    let [first, .., last] = &found.joins[..] else { panic!("joins") };
    let Joining::Sew { seam, open: Some(open), .. } = first else { panic!("{first:?}") };
    assert!((seam.length_in() - 1.0).abs() < 1e-9 && (open.length_in() - 1.0).abs() < 1e-9);
    assert_eq!(last, &Joining::Close { seam: *open });
}

#[test]
fn pieces_that_only_touch_at_a_corner_do_not_meet() {
    let found = pieces(&[[0, 0, 1, 1], [1, 1, 1, 1]]);
    assert_eq!(found.around(0).count(), 0);
}
