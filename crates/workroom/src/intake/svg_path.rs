//! The outline of an SVG path, with its arcs as fine as the shape needs.

use kurbo::{Arc, BezPath, Point, SvgArc, Vec2};
use svgtypes::{PathParser, PathSegment as S};

/// The path that its data describe. Arcs become curves within `fine` of them, in the path's own
/// units.
pub(super) fn path_of(data: &str, fine: f64) -> Result<BezPath, svgtypes::Error> {
    let mut pen = Pen::default();
    for segment in PathParser::from(data) {
        pen.draw(segment?, fine);
    }
    Ok(pen.path)
}

/// Where drawing has come to.
#[derive(Default)]
struct Pen {
    path: BezPath,
    at: Point,
    start: Point,
    closed: bool,
    /// The last control point of the curve before, if it was cubic or if it was quadratic: a smooth
    /// curve goes on from its mirror image.
    cubic: Option<Point>,
    quadratic: Option<Point>,
}

impl Pen {
    fn draw(&mut self, segment: S, fine: f64) {
        let from = self.at;
        let place = |abs: bool, x: f64, y: f64| {
            if abs { Point::new(x, y) } else { from + Vec2::new(x, y) }
        };
        let mirrored = |control: Option<Point>| control.map_or(from, |control| from + (from - control));
        let (mut cubic, mut quadratic) = (None, None);
        let goes_on = !matches!(segment, S::MoveTo { .. } | S::ClosePath { .. });
        if std::mem::take(&mut self.closed) && goes_on {
            self.path.move_to(from);
        }
        match segment {
            S::MoveTo { abs, x, y } => {
                (self.at, self.start) = (place(abs, x, y), place(abs, x, y));
                self.path.move_to(self.at);
            }
            S::LineTo { abs, x, y } => self.line(place(abs, x, y)),
            S::HorizontalLineTo { abs, x } => self.line(Point::new(place(abs, x, 0.0).x, from.y)),
            S::VerticalLineTo { abs, y } => self.line(Point::new(from.x, place(abs, 0.0, y).y)),
            S::CurveTo { abs, x1, y1, x2, y2, x, y } => {
                cubic = Some(place(abs, x2, y2));
                self.curve(place(abs, x1, y1), place(abs, x2, y2), place(abs, x, y));
            }
            S::SmoothCurveTo { abs, x2, y2, x, y } => {
                cubic = Some(place(abs, x2, y2));
                self.curve(mirrored(self.cubic), place(abs, x2, y2), place(abs, x, y));
            }
            S::Quadratic { abs, x1, y1, x, y } => {
                quadratic = Some(place(abs, x1, y1));
                self.at = place(abs, x, y);
                self.path.quad_to(place(abs, x1, y1), self.at);
            }
            S::SmoothQuadratic { abs, x, y } => {
                let control = mirrored(self.quadratic);
                quadratic = Some(control);
                self.at = place(abs, x, y);
                self.path.quad_to(control, self.at);
            }
            S::EllipticalArc { abs, rx, ry, x_axis_rotation, large_arc, sweep, x, y } => {
                let (to, radii) = (place(abs, x, y), Vec2::new(rx, ry));
                let x_rotation = x_axis_rotation.to_radians();
                self.arc(&SvgArc { from, to, radii, x_rotation, large_arc, sweep }, fine);
            }
            S::ClosePath { .. } => {
                self.path.close_path();
                (self.at, self.closed) = (self.start, true);
            }
        }
        (self.cubic, self.quadratic) = (cubic, quadratic);
    }

    fn line(&mut self, to: Point) {
        self.at = to;
        self.path.line_to(to);
    }

    fn curve(&mut self, first: Point, second: Point, to: Point) {
        self.at = to;
        self.path.curve_to(first, second, to);
    }

    /// An arc without radii, or back to where it starts, is a line.
    fn arc(&mut self, arc: &SvgArc, fine: f64) {
        match Arc::from_svg_arc(arc) {
            Some(curve) => {
                self.path.extend(curve.append_iter(fine));
                self.at = arc.to;
            }
            None => self.line(arc.to),
        }
    }
}
