//! SVG of strokes for cutting machines: a group for each layer, true size in inches or millimetres, y down. Nothing
//! but paths, without fill, so that any reader takes them.

use crate::PaperProblem;
use crate::dxf::{DxfLayer, DxfStroke, DxfUnit, check};
use plane::{Point, polygon};
use std::fmt::Write;

/// Thickness of a line in inches; machines follow its middle.
const LINE_IN: f64 = 0.01;

/// The strokes as an SVG file: layers in their order, each stroke a path. Coordinates are rounded to a millionth of
/// a unit.
///
/// # Errors
/// A stroke without points, or with one that isn't a place within a million inches.
pub fn svg_layers(strokes: &[DxfStroke], unit: DxfUnit) -> Result<String, PaperProblem> {
    check(strokes)?;
    let all: Vec<Point> = strokes.iter().flat_map(|stroke| stroke.points.iter().copied()).collect();
    let (low, high) = polygon::bounds(&all).unwrap_or_default();
    let name = match unit {
        DxfUnit::Inch => "in",
        DxfUnit::Millimetre => "mm",
    };
    let [x, y, width, height] =
        [low.x, -high.y, high.x - low.x, high.y - low.y].map(|inches| number(inches, unit));
    let mut out = String::new();
    // Writing into a String can't fail.
    let _ = writeln!(
        out,
        r#"<svg xmlns="http://www.w3.org/2000/svg" width="{width}{name}" height="{height}{name}" viewBox="{x} {y} {width} {height}">"#
    );
    for layer in DxfLayer::ALL {
        let mut of_layer = strokes.iter().filter(|stroke| stroke.layer == layer).peekable();
        if of_layer.peek().is_none() {
            continue;
        }
        let (colour, dashes) = look(layer, unit);
        let wide = number(LINE_IN, unit);
        let _ = writeln!(
            out,
            r#"<g id="{}" fill="none" stroke="{colour}" stroke-width="{wide}"{dashes}>"#,
            layer.name()
        );
        for stroke in of_layer {
            let _ = writeln!(out, r#"<path d="{}"/>"#, path(stroke, unit));
        }
        out.push_str("</g>\n");
    }
    out.push_str("</svg>\n");
    Ok(out)
}

/// Colour and dashes of a layer.
fn look(layer: DxfLayer, unit: DxfUnit) -> (&'static str, String) {
    let dashes = format!(r#" stroke-dasharray="{} {}""#, number(0.1, unit), number(0.07, unit));
    match layer {
        DxfLayer::Cut => ("#000000", String::new()),
        DxfLayer::Seam => ("#cc0000", dashes),
        DxfLayer::Marks => ("#0000cc", String::new()),
        DxfLayer::Quilting => ("#007700", String::new()),
    }
}

fn path(stroke: &DxfStroke, unit: DxfUnit) -> String {
    let place = |p: &Point| format!("{} {}", number(p.x, unit), number(-p.y, unit));
    let places: Vec<String> = stroke.points.iter().map(place).collect();
    format!("M{}{}", places.join("L"), if stroke.closed { "Z" } else { "" })
}

/// A length in units; adding nothing turns a negative nothing into nothing.
fn number(inches: f64, unit: DxfUnit) -> f64 {
    (inches * unit.per_in() * 1e6).round() / 1e6 + 0.0
}
