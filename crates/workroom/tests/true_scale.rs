//! True size on real papers: templates, foundation sheets, the figure's tracing, tiles of quilting. Every line that
//! a sheet says is held against the paths that poppler reads in the printed file, to 0.001 inch, and against its
//! pixels at 600 an inch, to one of them; the templates' lines against the pieces' own outlines too.

mod common;
mod paper_read;

use common::slanted;
use drawing::{Drawing, Item, Shape, Stroke};
use paper_read::Read;
use papers::Fonts;
use papers::dxf::DxfLayer;
use papers::flow::Block;
use papers::press::{Letters, Part, Sheet};
use plane::{Point, Vec2};
use std::collections::BTreeMap;
use workroom::making::read_plan;
use workroom::papers::{Paper, PaperKind, PapersWish};

const HERON: &[u8] = include_bytes!("../../demo/src/heron.svg");

/// Furthest that a coordinate may be off.
const OFF_IN: f64 = 0.001;

/// A line that a sheet says: its points in inches from the lower left corner.
struct Said {
    points: Vec<Point>,
    stroke: Stroke,
}

/// All true-size lines of a sheet; those of a clipped group lie on several pages and are left out.
fn said(sheet: &Sheet) -> Vec<Said> {
    fn items(found: &mut Vec<Said>, all: &[Item], by: Vec2) {
        for item in all {
            match &item.shape {
                Shape::Line { points, closed, stroke } if points.len() > 1 => {
                    let mut points: Vec<Point> = points.iter().map(|p| *p + by).collect();
                    points.extend(closed.then_some(points[0]));
                    found.push(Said { points, stroke: *stroke });
                }
                Shape::Group { clip: None, items: inner } => items(found, inner, by),
                _ => {}
            }
        }
    }
    fn parts(found: &mut Vec<Said>, all: &[Part]) {
        for part in all {
            match part {
                Part::Figure { at, scale, drawing, .. } => {
                    assert!((scale - 1.0).abs() < 1e-12, "a true-size page in another size");
                    let Drawing { items: drawn, lo, .. } = &**drawing;
                    items(found, drawn, *at - *lo);
                }
                Part::Group { parts: inner, .. } | Part::Furniture(inner) => parts(found, inner),
                Part::Words { .. } | Part::Rule { .. } | Part::Ground { .. } => {}
            }
        }
    }
    let mut found = Vec::new();
    parts(&mut found, &sheet.parts);
    found
}

/// The true-size sheets of a paper, which are its last pages.
fn sheets(paper: &Paper) -> Vec<Sheet> {
    let given = paper.blocks.iter().filter_map(|block| match block {
        Block::Page(sheet) => Some(Sheet::clone(sheet)),
        _ => None,
    });
    given.collect()
}

/// How far a point lies from a line.
fn distance(p: Point, line: &[Point]) -> f64 {
    let to = |a: Point, b: Point| {
        let along = b - a;
        let share = if along.length() > 0.0 { (p - a).dot(along) / along.dot(along) } else { 0.0 };
        p.distance(a.lerp(b, share.clamp(0.0, 1.0)))
    };
    line.windows(2).map(|pair| to(pair[0], pair[1])).fold(f64::INFINITY, f64::min)
}

/// Whether two lines are one: every corner of either lies on the other. Readers leave out corners in straight runs.
fn alike(a: &[Point], b: &[Point]) -> bool {
    let on = |points: &[Point], line: &[Point]| points.iter().all(|p| distance(*p, line) <= OFF_IN);
    a.first().zip(b.first()).is_some_and(|(a, b)| a.distance(*b) <= OFF_IN) && on(a, b) && on(b, a)
}

/// Whether such a line was read.
fn reads(read: &[Vec<Point>], wished: &[Point]) -> bool {
    read.iter().any(|line| alike(line, wished))
}

/// Whether the pixels along a line lie where it says: how many places were looked at, and the worst.
fn pixels_along(pixels: &paper_read::Pixels, line: &Said) -> Vec<(f64, f64)> {
    let mut seen = Vec::new();
    for pair in line.points.windows(2) {
        let way = pair[1] - pair[0];
        if way.length() < 0.1 {
            continue;
        }
        for share in [0.21, 0.34, 0.5, 0.63, 0.78] {
            seen.extend(pixels.off(pair[0].lerp(pair[1], share), way));
        }
    }
    seen
}

/// Whether it is the head of an arrow: inked inside, so that its edge is no line to measure the middle of.
fn is_head(line: &Said) -> bool {
    line.points.len() == 4 && line.points[0] == line.points[3] && line.stroke == Stroke::Mark
}

fn held(printed: &Read, pages: usize, sheets: &[Sheet], look: &[usize]) {
    let first = pages - sheets.len();
    let mut looked = 0;
    for (i, sheet) in sheets.iter().enumerate() {
        let lines = said(sheet);
        let read = printed.lines(first + i + 1);
        assert!(!lines.is_empty() && !read.is_empty(), "page {}", first + i + 1);
        for line in &lines {
            assert!(
                reads(&read, &line.points),
                "page {}: {:?} of {:?}",
                first + i + 1,
                line.stroke,
                line.points
            );
        }
        if !look.contains(&i) {
            continue;
        }
        let pixels = printed.pixels(first + i + 1);
        // Lines of one meaning are of one width: what is wider is a line with letters or another one across it.
        let mut by_stroke: BTreeMap<String, Vec<(f64, f64)>> = BTreeMap::new();
        for line in lines.iter().filter(|line| line.stroke != Stroke::Leader && !is_head(line)) {
            by_stroke.entry(format!("{:?}", line.stroke)).or_default().extend(pixels_along(&pixels, line));
        }
        for (stroke, mut seen) in by_stroke {
            seen.sort_by(|a, b| a.1.total_cmp(&b.1));
            let usual = seen.get(seen.len() / 2).map_or(0.0, |one| one.1);
            let clear: Vec<f64> =
                seen.iter().filter(|one| (one.1 - usual).abs() <= 1.5).map(|one| one.0).collect();
            let worst = clear.iter().copied().fold(0.0, f64::max);
            assert!(worst <= 1.0, "page {}: {stroke} is {worst} pixels off", first + i + 1);
            looked += clear.len();
        }
    }
    assert!(look.is_empty() || looked >= 20, "only {looked} places could be looked at");
}

fn letters() -> Letters {
    Letters::new(&Fonts::none())
}

#[test]
fn templates_are_the_pieces_own_outlines() {
    let (_folder, mut room, head) = slanted();
    for paper in ["a4", "letter", "tabloid"] {
        let wish = PapersWish { paper: paper.parse().unwrap(), ..PapersWish::default() };
        let made = room.paper(&head, PaperKind::Templates, &wish).unwrap();
        let printed = room.print(&head, &made, &wish, &letters()).unwrap();
        let sheets = sheets(&made);
        // The large one takes several pages of the small papers.
        assert_eq!(sheets.len() > 2, paper != "tabloid", "{paper}: {} sheets", sheets.len());
        let read = Read::new(&printed.pdf);
        held(&read, printed.pages, &sheets, if paper == "tabloid" { &[0, 1] } else { &[] });
        let all: Vec<Vec<Point>> =
            (0..sheets.len()).flat_map(|i| read.lines(printed.pages - sheets.len() + i + 1)).collect();
        let strokes = room.template_strokes(&head, 24.0, &wish).unwrap();
        let outlines = strokes.iter().filter(|stroke| stroke.layer != DxfLayer::Marks);
        let mut counted = 0;
        for stroke in outlines {
            counted += 1;
            // On the paper it lies elsewhere, turned alike.
            let wished: Vec<Point> = stroke.points.iter().chain(&stroke.points[..1]).copied().collect();
            let found = all.iter().any(|line| {
                let Some(by) = line.first().map(|first| *first - stroke.points[0]) else { return false };
                let moved: Vec<Point> = wished.iter().map(|p| *p + by).collect();
                alike(line, &moved)
            });
            assert!(found, "{paper}: {:?} {:?}", stroke.layer, stroke.points);
        }
        assert_eq!(counted, 6, "a cut line and a seam line of three pieces");
    }
}

#[test]
fn foundation_sheets_are_true_to_size() {
    let (_folder, mut room, head) = slanted();
    let wish = PapersWish { paper: "tabloid".parse().unwrap(), ..PapersWish::default() };
    let made = room.paper(&head, PaperKind::Foundation, &wish).unwrap();
    let printed = room.print(&head, &made, &wish, &letters()).unwrap();
    let sheets = sheets(&made);
    held(&Read::new(&printed.pdf), printed.pages, &sheets, &[0]);
}

#[test]
fn the_figure_and_the_quilting_are_true_to_size() {
    let (_folder, mut room, head) = slanted();
    let plan = r#"
        quilt = "slanted"
        [[stage]]
        layers = { batting = {} }
        [[stage]]
        figure = { svg = "heron", height_in = 6.5, from_middle_in = [0.0, 0.0], turn_under_in = 0.125, cloth = "mist", before_quilting = true }
        [[stage]]
        quilting = { design = "lines", spacing_in = 1.0 }
    "#;
    let read_file = |_: &str| Ok(HERON.to_vec());
    room.finish(&head.at(), None, &read_plan(plan).unwrap(), &read_file).unwrap();
    let head = room.head("slanted", "main").unwrap();
    let wish = PapersWish { anyway: true, ..PapersWish::default() };
    for kind in [PaperKind::Figure, PaperKind::Quilting] {
        let made = room.paper(&head, kind, &wish).unwrap();
        let printed = room.print(&head, &made, &wish, &letters()).unwrap();
        let sheets = sheets(&made);
        assert!(sheets.len() > 1, "{kind}: {} true-size pages", sheets.len());
        held(&Read::new(&printed.pdf), printed.pages, &sheets, &[0, 1]);
    }
}
