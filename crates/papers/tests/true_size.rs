//! True-size pages: what another reader of PDF measures on them, and what can't be printed.

mod common;

use common::{kept, text_of, types};
use drawing::{Item, Stroke};
use papers::press::{Book, Inking, Letters, Sheet, bind};
use papers::true_size::{Foot, TrueSize, in_rows_on_pages, parts, true_size, turn_for};
use papers::{Paper, PaperProblem};
use plane::{Point, Turn, polygon};
use std::process::Command;

fn rectangle(name: &str, width: f64, height: f64) -> TrueSize {
    let outline: Vec<Point> =
        [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)].map(|(x, y)| Point::new(x, y)).to_vec();
    TrueSize { name: name.to_owned(), items: vec![Item::closed(outline.clone(), Stroke::CutLine)], outline }
}

fn foot() -> Foot {
    Foot { title: "Templates".to_owned(), notes: vec!["Cut on the solid line.".to_owned()] }
}

/// Shapes in rows on pages.
fn rowed(shapes: &[TrueSize], paper: Paper) -> Vec<Sheet> {
    let outlines: Vec<Vec<Point>> = shapes.iter().map(|shape| shape.outline.clone()).collect();
    let places = in_rows_on_pages(&outlines, paper).unwrap();
    let laid = shapes.iter().zip(places).map(|(shape, place)| {
        let (page, by) = place.unwrap();
        (page, shape.shifted(by))
    });
    true_size(&laid.collect::<Vec<_>>(), paper, &foot())
}

fn bound(sheets: &[Sheet]) -> Vec<u8> {
    let book =
        Book { title: "T".to_owned(), sheets: sheets.to_vec(), inking: Inking::Saving, ..Book::default() };
    bind(&book, &Letters::new(&types()), &|_| None).unwrap()
}

/// The paths of a page as poppler draws them into SVG: all coordinates, in points.
fn paths(pdf: &[u8], page: usize) -> Vec<Vec<[f64; 2]>> {
    let file = kept(pdf);
    let page = page.to_string();
    let told = Command::new("pdftocairo")
        .args(["-svg", "-f", &page, "-l", &page])
        .arg(&file.0)
        .arg("-")
        .output()
        .unwrap();
    assert!(told.status.success());
    let text = String::from_utf8_lossy(&told.stdout).into_owned();
    let data = text.split(" d=\"").skip(1).filter_map(|rest| rest.split('"').next());
    data.map(|d| {
        let numbers: Vec<f64> =
            d.split([' ', 'M', 'L', 'Z', 'C']).filter_map(|part| part.parse().ok()).collect();
        numbers.chunks_exact(2).map(|pair| [pair[0], pair[1]]).collect()
    })
    .collect()
}

/// Whether the page has a rectangle of this size, within a thousandth of an inch.
fn has_rectangle(paths: &[Vec<[f64; 2]>], width: f64, height: f64) -> bool {
    paths.iter().any(|path| {
        // Lines of one kind are one path: rectangles come as runs of four corners, with or without the first again.
        (0..path.len().saturating_sub(3)).any(|i| {
            let corners: Vec<Point> =
                path[i..i + 4].iter().map(|[x, y]| Point::new(x / 72.0, y / 72.0)).collect();
            let sides: Vec<f64> = polygon::edges(&corners).map(|(a, b)| a.distance(b)).collect();
            [(0, width), (1, height), (2, width), (3, height)]
                .iter()
                .all(|(side, long)| (sides[*side] - long).abs() < 0.001)
        })
    })
}

#[test]
fn shapes_and_squares_measure_what_they_should() {
    for paper in [Paper::A4, Paper::Letter] {
        let shapes = [rectangle("1", 3.5, 2.25), rectangle("2", 6.125, 1.0), rectangle("3", 2.0, 2.0)];
        let pages = rowed(&shapes, paper);
        assert_eq!(pages.len(), 1);
        let pdf = bound(&pages);
        let paths = paths(&pdf, 1);
        for (width, height) in [(3.5, 2.25), (6.125, 1.0), (2.0, 2.0), (1.0, 1.0), (5.0 / 2.54, 5.0 / 2.54)] {
            assert!(has_rectangle(&paths, width, height), "{width} {height}: {paths:?}");
        }
        let text = text_of(&pdf);
        assert!(text.contains("1 inch") && text.contains("5 cm") && text.contains("sheet 1 of 1"), "{text}");
    }
}

#[test]
fn a_large_shape_goes_over_pages_that_name_their_neighbours() {
    let parts = parts(&rectangle("12", 10.0, 12.0), Paper::A4).unwrap();
    assert_eq!(
        parts.iter().map(|part| part.whole_page).collect::<Vec<_>>(),
        [true, false, false, false],
        "A1 fills its page"
    );
    let mut laid = vec![(0, parts[0].shape.clone())];
    let others: Vec<Vec<Point>> = parts[1..].iter().map(|part| part.shape.outline.clone()).collect();
    for (part, place) in parts[1..].iter().zip(in_rows_on_pages(&others, Paper::A4).unwrap()) {
        let (page, by) = place.unwrap();
        laid.push((page + 1, part.shape.shifted(by)));
    }
    let sheets = true_size(&laid, Paper::A4, &foot());
    assert_eq!(sheets.len(), 3, "A1; A2; and both of the row below on one sheet");
    let text = text_of(&bound(&sheets));
    for name in ["A1", "A2", "B1", "B2", "diamond on diamond", "12, part B2"] {
        assert!(text.contains(name), "{name}: {text}");
    }
}

#[test]
fn what_would_be_a_pile_of_paper_is_refused() {
    let refused = parts(&rectangle("1", 200.0, 200.0), Paper::Letter).unwrap_err();
    let PaperProblem::TooManyTiles { tiles, most: 100 } = refused else { panic!("{refused}") };
    assert!(tiles > 100);
    let nothing = TrueSize { name: "1".to_owned(), outline: Vec::new(), items: Vec::new() };
    assert!(matches!(parts(&nothing, Paper::A4), Err(PaperProblem::NoOutline)));
    assert!(matches!(in_rows_on_pages(&[nothing.outline], Paper::A4), Err(PaperProblem::NoOutline)));
}

#[test]
fn a_shape_is_turned_to_fit_one_page() {
    let slanted: Vec<Point> = rectangle("1", 8.0, 0.5)
        .outline
        .iter()
        .map(|p| Point::ORIGIN + Turn::from_degrees(33.0).apply(p.to_vec2()))
        .collect();
    let turn = turn_for(&slanted, Paper::A4);
    let turned: Vec<Point> = slanted.iter().map(|p| Point::ORIGIN + turn.apply(p.to_vec2())).collect();
    let (low, high) = polygon::bounds(&turned).unwrap();
    // Eight inches stand only upright on A4 with its margins.
    assert!((high.x - low.x - 0.5).abs() < 1e-9 && (high.y - low.y - 8.0).abs() < 1e-9);
}
