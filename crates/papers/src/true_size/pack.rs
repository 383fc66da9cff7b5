//! Boxes on pages, in rows: the tallest first, each into the first row that has room.

use super::MARGIN_IN;
use super::foot::{SQUARE_IN, WORDS_IN};
use crate::Paper;
use plane::Point;

/// What stays free between two shapes, in inches.
pub const GAP_IN: f64 = 0.125;

/// Where a box lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Place {
    pub(super) page: usize,
    /// Its lower left corner.
    pub(super) at: Point,
}

/// A part of a page that rows fill from above.
#[derive(Clone, Copy, Debug)]
struct Field {
    page: usize,
    left: f64,
    right: f64,
    /// How far it is filled, and where it ends.
    top: f64,
    bottom: f64,
}

/// A row.
#[derive(Clone, Copy, Debug)]
struct Row {
    page: usize,
    left: f64,
    right: f64,
    top: f64,
    height: f64,
}

/// Width and height of the room that a page has above its foot.
pub(super) fn room(paper: Paper) -> [f64; 2] {
    let [wide, tall] = paper.size_in();
    [wide - 2.0 * MARGIN_IN, tall - 2.0 * MARGIN_IN - SQUARE_IN - GAP_IN]
}

/// The room of a page: above its foot, and beside the squares above the words.
#[must_use]
pub fn page_room(paper: Paper) -> Vec<Point> {
    let [above, beside] = fields(0, paper);
    [
        (above.left, above.bottom),
        (beside.left, above.bottom),
        (beside.left, beside.bottom),
        (beside.right, beside.bottom),
        (above.right, above.top),
        (above.left, above.top),
    ]
    .map(|(x, y)| Point::new(x, y))
    .to_vec()
}

fn fields(page: usize, paper: Paper) -> [Field; 2] {
    let [wide, tall] = paper.size_in();
    let (right, foot) = (wide - MARGIN_IN, MARGIN_IN + SQUARE_IN + GAP_IN);
    let beside = Field {
        page,
        left: MARGIN_IN + SQUARE_IN + GAP_IN,
        right,
        top: foot - GAP_IN,
        bottom: MARGIN_IN + WORDS_IN + GAP_IN,
    };
    [Field { page, left: MARGIN_IN, right, top: tall - MARGIN_IN, bottom: foot }, beside]
}

/// A place for each box; `None` for those that are larger than the room.
pub(super) fn pack(sizes: &[[f64; 2]], paper: Paper) -> Vec<Option<Place>> {
    let [wide, tall] = room(paper);
    let mut order: Vec<usize> =
        (0..sizes.len()).filter(|no| sizes[*no][0] <= wide + 1e-9 && sizes[*no][1] <= tall + 1e-9).collect();
    order.sort_by(|&a, &b| {
        let key = |no: usize| (sizes[no][1], sizes[no][0]);
        let ((ah, aw), (bh, bw)) = (key(a), key(b));
        bh.total_cmp(&ah).then(bw.total_cmp(&aw)).then(a.cmp(&b))
    });
    let mut placed = vec![None; sizes.len()];
    let (mut open, mut rows): (Vec<Field>, Vec<Row>) = (Vec::new(), Vec::new());
    let mut pages = 0;
    for no in order {
        let [width, height] = sizes[no];
        let fits = |row: &&mut Row| height <= row.height + 1e-9 && width <= row.right - row.left + 1e-9;
        if rows.iter_mut().find(fits).is_none() {
            let opened = |field: &&mut Field| {
                height <= field.top - field.bottom + 1e-9 && width <= field.right - field.left + 1e-9
            };
            if open.iter_mut().find(opened).is_none() {
                open.extend(fields(pages, paper));
                pages += 1;
            }
            let Some(field) = open.iter_mut().find(opened) else { continue };
            let &mut Field { page, left, right, top, .. } = field;
            rows.push(Row { page, left, right, top, height });
            field.top -= height + GAP_IN;
        }
        let Some(row) = rows.iter_mut().find(fits) else { continue };
        placed[no] = Some(Place { page: row.page, at: Point::new(row.left, row.top - height) });
        row.left += width + GAP_IN;
    }
    placed
}

/// Boxes beside each other in rows from y 0 up, no wider than `width_in` unless one box is; their lower left corners.
#[must_use]
pub fn in_rows(sizes: &[[f64; 2]], width_in: f64) -> Vec<Point> {
    let mut order: Vec<usize> = (0..sizes.len()).collect();
    order.sort_by(|&a, &b| sizes[b][1].total_cmp(&sizes[a][1]).then(a.cmp(&b)));
    let mut corners = vec![Point::ORIGIN; sizes.len()];
    let (mut at, mut high) = (Point::ORIGIN, 0.0_f64);
    for no in order {
        let [width, height] = sizes[no];
        if at.x > 0.0 && at.x + width > width_in {
            at = Point::new(0.0, at.y + high + GAP_IN);
            high = 0.0;
        }
        corners[no] = at;
        at.x += width + GAP_IN;
        high = high.max(height);
    }
    corners
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boxes_lie_apart_within_the_page_and_off_the_squares() {
        let sizes: Vec<[f64; 2]> = (0..40)
            .map(|i| [1.0 + f64::from(i * 7 % 11) * 0.3, 0.5 + f64::from(i * 5 % 13) * 0.25])
            .collect();
        let placed = pack(&sizes, Paper::A4);
        let [wide, tall] = Paper::A4.size_in();
        let boxes: Vec<(usize, Point, Point)> = placed
            .iter()
            .zip(&sizes)
            .map(|(place, size)| {
                let place = place.expect("small enough");
                (place.page, place.at, Point::new(place.at.x + size[0], place.at.y + size[1]))
            })
            .collect();
        let square =
            (0, Point::new(MARGIN_IN, MARGIN_IN), Point::new(MARGIN_IN + SQUARE_IN, MARGIN_IN + SQUARE_IN));
        let apart = |a: &(usize, Point, Point), b: &(usize, Point, Point)| {
            a.2.x <= b.1.x + 1e-9 || b.2.x <= a.1.x + 1e-9 || a.2.y <= b.1.y + 1e-9 || b.2.y <= a.1.y + 1e-9
        };
        for (i, one) in boxes.iter().enumerate() {
            assert!(one.1.x >= MARGIN_IN - 1e-9 && one.2.x <= wide - MARGIN_IN + 1e-9, "{one:?}");
            assert!(one.1.y >= MARGIN_IN - 1e-9 && one.2.y <= tall - MARGIN_IN + 1e-9, "{one:?}");
            assert!(apart(one, &square), "{one:?}");
            assert!(boxes[i + 1..].iter().all(|other| one.0 != other.0 || apart(one, other)), "{one:?}");
        }
        // Not much worse than the area asks for.
        let area: f64 = sizes.iter().map(|[w, h]| w * h).sum();
        let pages = boxes.iter().map(|(page, ..)| page + 1).max().unwrap_or(0) as f64;
        assert!(pages <= (area / (room(Paper::A4)[0] * room(Paper::A4)[1]) * 1.4).ceil(), "{pages}");
    }

    #[test]
    fn what_is_larger_than_the_room_has_no_place() {
        assert_eq!(pack(&[[9.0, 1.0], [1.0, 9.5]], Paper::A4), [None, None]);
    }
}
