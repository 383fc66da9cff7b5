//! SVG for machines that cut: layers, true size and units.

use papers::dxf::{DxfLayer, DxfStroke, DxfUnit};
use papers::{PaperProblem, svg_layers};
use plane::Point;

fn strokes() -> Vec<DxfStroke> {
    let stroke = |layer, closed, points: &[(f64, f64)]| DxfStroke {
        layer,
        points: points.iter().map(|&(x, y)| Point::new(x, y)).collect(),
        closed,
    };
    vec![
        stroke(DxfLayer::Cut, true, &[(0.0, 0.0), (4.0, 0.0), (4.0, 3.0)]),
        stroke(DxfLayer::Marks, false, &[(2.0, 0.0), (2.0, 0.25)]),
        stroke(DxfLayer::Seam, true, &[(0.25, 0.25), (3.75, 0.25), (3.75, 2.5)]),
    ]
}

#[test]
fn each_layer_is_a_group_and_y_runs_down() {
    let text = svg_layers(&strokes(), DxfUnit::Inch).unwrap();
    assert!(text.contains(r#"width="4in" height="3in" viewBox="0 -3 4 3""#), "{text}");
    assert!(text.contains(r#"<path d="M0 0L4 0L4 -3Z"/>"#), "{text}");
    let places: Vec<usize> = ["cut", "seam", "marks"]
        .iter()
        .map(|name| text.find(&format!("<g id=\"{name}\"")).unwrap())
        .collect();
    assert!(places.is_sorted() && !text.contains("quilting"));
}

#[test]
fn millimetres_are_25_4_to_the_inch() {
    let text = svg_layers(&strokes(), DxfUnit::Millimetre).unwrap();
    assert!(text.contains(r#"width="101.6mm" height="76.2mm" viewBox="0 -76.2 101.6 76.2""#), "{text}");
    assert!(text.contains(r#"<path d="M50.8 0L50.8 -6.35"/>"#), "{text}");
}

#[test]
fn a_stroke_that_lies_nowhere_is_refused() {
    let mut bad = strokes();
    bad[1].points[1] = Point::new(f64::NAN, 0.0);
    let refused = svg_layers(&bad, DxfUnit::Inch).unwrap_err();
    assert!(matches!(refused, PaperProblem::NoPlace { stroke: 2, point: 2 }), "{refused}");
}
