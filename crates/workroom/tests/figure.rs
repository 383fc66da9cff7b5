//! The demo's heron, from its file to its plan: what is sewn, what is stitched, and why.

use papers::Fonts;
use plane::{Point, Region, polygon};
use quilt::stage::figure::{
    FigureChoice, FigureOrder, FigurePlan, FigureProblem, FigureRule, FigureSize, LineKind,
};
use quilt::stage::habits::Habits;
use workroom::intake::read_figure;

const HERON: &str = include_str!("../../demo/src/heron.svg");

fn choice() -> FigureChoice {
    let figure = read_figure("heron", HERON.as_bytes()).unwrap();
    let mut choice = FigureChoice::usual(figure, FigureSize::HeightIn(9.0), Point::new(10.0, 10.0));
    choice.turn_under_in = 1.0 / 8.0;
    choice
}

fn planned(choice: &FigureChoice, outline: &Region) -> Result<FigurePlan, FigureProblem> {
    quilt::stage::figure::plan(choice, outline, &[], &Habits::default())
}

fn names<'a>(of: impl Iterator<Item = &'a String>) -> Vec<&'a str> {
    of.map(String::as_str).collect()
}

#[test]
fn the_heron_is_sewn_and_its_legs_and_beak_are_stitched() {
    let plan = planned(&choice(), &Region::rectangle(20.0, 20.0)).unwrap();
    let sewn = names(plan.patches.iter().map(|patch| &patch.shape));
    assert_eq!(sewn, ["body", "neck", "wing", "head", "crest"]);
    let lines = names(plan.lines.iter().map(|line| &line.shape));
    assert_eq!(lines, ["far-leg", "far-toe", "near-leg", "near-toe", "beak", "eye"]);
    let leg = plan.lines.iter().find(|line| line.shape == "near-leg").unwrap();
    assert!(matches!(leg.kind, LineKind::Stitched { rows: 1..=4 }), "{leg:?}");
    assert!(leg.length_in > 3.5 && leg.points.len() > 4, "{leg:?}");
    assert_eq!(plan.lines.last().unwrap().kind, LineKind::Knot);
    assert!(plan.findings.iter().all(|found| found.became_line || found.rule == FigureRule::SharpTip));
    assert!(plan.place.fits);
}

#[test]
fn every_line_of_the_heron_runs_inside_the_shape_it_stands_for() {
    let choice = choice();
    let plan = planned(&choice, &Region::rectangle(20.0, 20.0)).unwrap();
    let mut drawn = choice.clone();
    for shape in &choice.figure.shapes {
        drawn.answers.insert(shape.id.clone(), quilt::stage::figure::Thin::AsDrawn);
    }
    let drawn = planned(&drawn, &Region::rectangle(20.0, 20.0)).unwrap();
    for line in &plan.lines {
        let shape = drawn.patches.iter().find(|patch| patch.shape == line.shape).unwrap();
        for pair in line.points.windows(2) {
            for t in [0.0, 0.25, 0.5, 0.75, 1.0] {
                let depth = plane::depth_inside(&shape.finished, pair[0].lerp(pair[1], t));
                assert!(depth > -1.0 / 64.0, "{}: {depth} at {:?}", line.shape, pair[0]);
            }
        }
    }
}

#[test]
fn the_heron_stands_along_the_border_of_an_odd_piece() {
    let corners = [
        (2.0, 0.5),
        (9.0, 0.0),
        (17.0, 1.5),
        (20.5, 8.0),
        (19.0, 16.5),
        (11.5, 20.0),
        (3.0, 18.5),
        (0.0, 9.0),
    ];
    let outline = Region::try_new(corners.map(|(x, y)| Point::new(x, y)).to_vec(), Vec::new()).unwrap();
    let mut choice = choice();
    choice.at = Point::new(17.0, 9.0);
    choice.order = FigureOrder::BeforeQuilting;
    let wished = planned(&choice, &outline).unwrap();
    assert!(!wished.place.fits);
    choice.at = wished.place.nearest.unwrap();
    let placed: FigurePlan = planned(&choice, &outline).unwrap();
    assert!(placed.place.fits && placed.place.largest_scale > 1.2);
    let away = |p: &Point| plane::depth_inside(&outline, *p);
    let nearest = placed.keep_out.iter().flat_map(|part| &part.outer).map(away).fold(f64::INFINITY, f64::min);
    assert!((nearest - 0.75).abs() < 0.002, "{nearest}");
    assert!(placed.place.slides.iter().any(|slide| slide.ways.iter().any(|[a, b]| a.distance(*b) > 3.0)));
}

#[test]
fn the_heron_can_be_looked_at() {
    let png = papers::png(HERON, 60.0, &Fonts::none(), &|_| None).unwrap();
    assert!(png.starts_with(b"\x89PNG"));
    if let Some(path) = std::env::var_os("RAGBAG_HERON_PNG") {
        std::fs::write(path, png).unwrap();
    }
    let figure = read_figure("heron", HERON.as_bytes()).unwrap();
    assert_eq!((figure.shapes.len(), figure.unit_in), (11, Some(1.0)));
    let starts: Vec<Point> = figure.shapes.iter().flat_map(|s| s.paths.iter().map(|p| p.start)).collect();
    let (lo, hi) = polygon::bounds(&starts).unwrap();
    assert!(lo.x > 0.0 && lo.y > -10.0 && hi.x < 6.7 && hi.y < 0.0);
}
