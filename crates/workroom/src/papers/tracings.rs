//! Lines to trace in true size: the figure whole, its mirrored twin, and each layer by itself, several a page
//! where they have room and in tiles where one is larger than a page.

use super::pad::{LENGTH_PT, NUMBER_PT, Pad};
use drawing::{Drawing, Item, Placement, Stroke};
use papers::press::Sheet;
use papers::{Paper, PaperProblem, TILE_MARGIN_IN, tiles};
use plane::{Point, Region, Vec2, polygon};
use quilt::stage::figure::{FigurePatch, FigurePlan};

/// Between layers on a page.
const APART_IN: f64 = 0.3;

/// The figure whole, as it is seen on the piece: drawn lines only, so that each layer finds its place.
pub(super) fn whole(plan: &FigurePlan, words: &str) -> Drawing {
    let mut pad = Pad::at_scale(1.0);
    for patch in &plan.patches {
        pad.region(&patch.finished, Stroke::CutLine);
    }
    for line in plan.lines.iter().filter(|line| line.points.len() > 1) {
        pad.seam(&line.points, false);
    }
    for (i, patch) in plan.patches.iter().enumerate() {
        pad.bold(inside(&patch.finished), NUMBER_PT, (i + 1).to_string());
    }
    pad.drawing(words)
}

/// The same mirrored: letters stay readable.
pub(super) fn twin(whole: &Drawing) -> Drawing {
    let mut twin = whole.turned_over();
    twin.title = format!("{}, mirrored", whole.title);
    twin
}

/// Pages of a drawing in true size.
pub(super) fn sheets(drawing: &Drawing, paper: Paper) -> Result<Vec<Sheet>, PaperProblem> {
    let found = tiles(drawing, paper)?;
    Ok(found.iter().map(|tile| tile.sheet(drawing, &drawing.title, paper)).collect())
}

/// Each layer with its cut line, drawn line and clips, as it is traced; `mirrored` once more where that is
/// wished.
pub(super) fn layers(
    plan: &FigurePlan,
    words: &str,
    paper: Paper,
    mirrored: bool,
) -> Result<Vec<Sheet>, PaperProblem> {
    let printed = |drawing: Drawing| if mirrored { twin(&drawing) } else { drawing };
    let room = paper.size_in().map(|length| length - 2.0 * TILE_MARGIN_IN);
    let mut out = Vec::new();
    let mut small: Vec<Layer> = Vec::new();
    for (i, patch) in plan.patches.iter().enumerate() {
        let layer = Layer::new(i + 1, patch);
        if layer.size.x <= room[0] && layer.size.y <= room[1] {
            small.push(layer);
        } else {
            let title = format!("{words}: layer {}, {}", i + 1, patch.shape);
            out.extend(sheets(&printed(Drawing::around(title, layer.items, 0.6, 0.0)), paper)?);
        }
    }
    for (no, page) in packed(small, room).into_iter().enumerate() {
        let title = format!("{words}: layers, page {}", no + 1);
        let drawing =
            Drawing { title, lo: Point::ORIGIN, hi: Point::new(room[0], room[1]), weight: 0.6, items: page };
        out.extend(sheets(&printed(drawing), paper)?);
    }
    Ok(out)
}

/// A layer with its lower left corner at the origin.
struct Layer {
    items: Vec<Item>,
    size: Vec2,
}

impl Layer {
    fn new(no: usize, patch: &FigurePatch) -> Self {
        let mut pad = Pad::at_scale(1.0);
        let trace = &patch.tracing;
        pad.region(&trace.cut, Stroke::CutLine);
        for ring in std::iter::once(&trace.drawn.outer).chain(&trace.drawn.holes) {
            pad.seam(ring, true);
        }
        for clip in clips_as_traced(patch) {
            pad.line(clip.to_vec(), Stroke::Mark);
        }
        let (low, high) = polygon::bounds(&trace.cut.outer).unwrap_or_default();
        pad.bold(inside(&trace.drawn), NUMBER_PT, no.to_string());
        pad.words_from(Point::new(low.x, high.y + 0.18), LENGTH_PT, format!("{no}  {}", patch.shape));
        let drawing = pad.drawing("");
        let by = Placement::shifted(Point::ORIGIN - drawing.lo);
        let items = drawing.items.iter().map(|item| item.placed(by)).collect();
        Self { items, size: Vec2::new(drawing.width_in(), drawing.height_in()) }
    }
}

/// The clips where the tracing has them: it is the cut line moved, and mirrored on the wrong side.
fn clips_as_traced(patch: &FigurePatch) -> Vec<[Point; 2]> {
    let Some((low, high)) = polygon::bounds(&patch.cut.outer) else { return Vec::new() };
    let place = |p: Point| {
        let x = if patch.tracing.mirrored { high.x - p.x } else { p.x - low.x };
        Point::new(x, p.y - low.y)
    };
    patch.clips.iter().flat_map(|clips| &clips.clips).map(|[from, to]| [place(*from), place(*to)]).collect()
}

/// A point well inside, for a number: the middle of the largest disc, or else of the corners.
fn inside(region: &Region) -> Point {
    plane::largest_disc(region, 0.02)
        .map_or_else(|| polygon::centroid(&region.outer).unwrap_or_default(), |disc| disc.centre)
}

/// Layers on pages, the highest first, row by row from the top.
fn packed(mut layers: Vec<Layer>, [wide, high]: [f64; 2]) -> Vec<Vec<Item>> {
    layers.sort_by(|a, b| b.size.y.total_cmp(&a.size.y));
    let mut pages: Vec<Vec<Item>> = Vec::new();
    let (mut x, mut top, mut row_in) = (0.0, 0.0, f64::INFINITY);
    for layer in layers {
        if x > 0.0 && x + layer.size.x > wide {
            (x, top) = (0.0, top - row_in - APART_IN);
            row_in = layer.size.y;
        }
        if pages.is_empty() || top - layer.size.y < 0.0 {
            pages.push(Vec::new());
            (x, top) = (0.0, high);
            row_in = layer.size.y;
        }
        let by = Placement::shifted(Vec2::new(x, top - layer.size.y));
        if let Some(page) = pages.last_mut() {
            page.extend(layer.items.iter().map(|item| item.placed(by)));
        }
        x += layer.size.x + APART_IN;
    }
    pages
}

#[cfg(test)]
mod tests {
    use super::*;

    fn layer(wide: f64, high: f64) -> Layer {
        let corners = [(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)].map(|(x, y)| Point::new(x, y));
        Layer { items: vec![Item::closed(corners.to_vec(), Stroke::CutLine)], size: Vec2::new(wide, high) }
    }

    #[test]
    fn layers_lie_on_pages_and_beside_each_other() {
        let sizes = [(4.0, 3.0), (2.0, 5.0), (3.0, 2.0), (6.0, 6.0), (1.0, 1.0), (2.5, 5.0)];
        let room = [7.5, 10.0];
        let pages = packed(sizes.map(|(w, h)| layer(w, h)).into_iter().collect(), room);
        assert_eq!(pages.iter().map(Vec::len).sum::<usize>(), sizes.len());
        for page in &pages {
            let boxes: Vec<(Point, Point)> = page
                .iter()
                .map(|item| {
                    let mut points = Vec::new();
                    item.each_point(&mut |p| points.push(p));
                    polygon::bounds(&points).expect("a layer")
                })
                .collect();
            for (i, (low, high)) in boxes.iter().enumerate() {
                assert!(low.x > -1e-9 && low.y > -1e-9 && high.x < room[0] + 1e-9 && high.y < room[1] + 1e-9);
                for (l, h) in &boxes[i + 1..] {
                    let apart = h.x <= low.x || l.x >= high.x || h.y <= low.y || l.y >= high.y;
                    assert!(apart, "{low:?} {high:?} and {l:?} {h:?}");
                }
            }
        }
    }
}
