//! Templates as strokes for machines that cut or draw: beside each other in rows, each with its number and arrows.

use super::PapersWish;
use super::pattern::Pattern;
use super::sheets::laid;
use super::templates::words;
use crate::asks::Asked;
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::{Placement, Shape, TemplateWords, pattern_words};
use papers::dxf::{DxfLayer, DxfStroke};
use papers::true_size::in_rows;
use papers::{pen_number, pen_size};
use plane::{Point, Region, largest_disc, polygon};
use quilt::pattern::{Lines, Template};

/// The highest digits, in inches.
const LARGE_IN: f64 = 0.375;
/// How far from the middle of the largest disc digits may reach, as a share of its radius: arrows lie beside.
const REACH: f64 = 0.42;

/// Each piece's cut line and seam line on the layer of its kind; its notches, number, and arrows along the grain and
/// up the print as marks. In rows no wider than `width_in`, in inches.
fn strokes(pattern: &Pattern, width_in: f64, wish: &PapersWish) -> Vec<DxfStroke> {
    let placed: Vec<(Lines, Placement)> =
        pattern.templates.iter().map(|template| laid(&template.lines, wish.mirrored, wish.paper)).collect();
    let bounds: Vec<(Point, Point)> =
        placed.iter().map(|(lines, _)| polygon::bounds(&lines.cut).unwrap_or_default()).collect();
    let sizes: Vec<[f64; 2]> = bounds.iter().map(|(low, high)| [high.x - low.x, high.y - low.y]).collect();
    let corners = in_rows(&sizes, width_in);
    let mut strokes = Vec::new();
    for (no, template) in pattern.templates.iter().enumerate() {
        let by = corners[no] - bounds[no].0;
        let moved = placed[no].0.placed(false, |p| p + by);
        let marks = marks(pattern, template, &moved, placed[no].1);
        let mut put = |layer, closed, points| strokes.push(DxfStroke { layer, points, closed });
        put(DxfLayer::Cut, true, moved.cut);
        put(DxfLayer::Seam, true, moved.seam);
        for points in marks {
            put(DxfLayer::Marks, false, points);
        }
    }
    strokes
}

/// Notches, where neighbours meet, arrows, and the number.
fn marks(pattern: &Pattern, template: &Template, lines: &Lines, place: Placement) -> Vec<Vec<Point>> {
    let notches = lines.notches.iter().map(|notch| vec![notch.from, notch.to]);
    let mut marks: Vec<Vec<Point>> = notches.chain(lines.meetings.iter().map(|ends| ends.to_vec())).collect();
    let said = TemplateWords { under: String::new(), ..words(pattern, template, place) };
    let arrows = pattern_words(&lines.seam, &said).into_iter().filter_map(|item| match item.shape {
        Shape::Line { points, .. } => Some(points),
        _ => None,
    });
    marks.extend(arrows);
    let inside = Region { outer: lines.seam.clone(), holes: Vec::new() };
    if let Some(disc) = largest_disc(&inside, 0.02) {
        let [wide, tall] = pen_size(&template.number);
        let high_in = LARGE_IN.min(REACH * disc.radius / (0.5 * wide.hypot(tall)));
        marks.extend(pen_number(&template.number, disc.centre, high_in));
    }
    marks
}

impl Workroom {
    /// The templates of a head as strokes for a machine, in rows no wider than `width_in` inches.
    ///
    /// # Errors
    /// No such quilt or head; nothing on the table; more than is worth it, without `anyway`.
    pub fn template_strokes(
        &mut self,
        head: &Head,
        width_in: f64,
        wish: &PapersWish,
    ) -> Asked<Vec<DxfStroke>> {
        let pattern = self.pattern(head, "templates", wish)?;
        Ok(strokes(&pattern, width_in, wish))
    }
}
