//! DXF, the open exchange format of drawings, in true size: one polyline a stroke, by layers.
//!
//! Written is the form of the year 2000 (`AC1015`), the first that says what a unit is. Sewing lines are
//! dashed and cut lines solid, as printed patterns have always had them. The same strokes give the same
//! bytes: there is no clock and no chance in it. Written by hand after the published reference of the
//! format, because the one library for it brings thirty more with it; another library reads it back in
//! `xtask/refs/drawings.py`.

mod frame;
mod writer;

use crate::PaperProblem;
use plane::{Point, polygon};
use writer::Writer;

/// What a unit of the drawing is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum DxfUnit {
    /// An inch.
    #[default]
    Inch,
    /// A millimetre.
    Millimetre,
}

impl DxfUnit {
    /// How many of them an inch has.
    #[must_use]
    pub const fn per_in(self) -> f64 {
        match self {
            Self::Inch => 1.0,
            Self::Millimetre => 25.4,
        }
    }
}

/// What a stroke is for: the layer it lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DxfLayer {
    /// To be cut along.
    Cut,
    /// To be sewn along; dashed.
    Seam,
    /// To be seen only: clips, centres, tracing marks.
    Marks,
    /// To be quilted along.
    Quilting,
}

impl DxfLayer {
    /// All layers, in the order they are written.
    pub const ALL: [Self; 4] = [Self::Cut, Self::Seam, Self::Marks, Self::Quilting];

    /// Its name in the file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Seam => "seam",
            Self::Marks => "marks",
            Self::Quilting => "quilting",
        }
    }

    /// Its number among the format's colours: black or white, red, blue, green.
    const fn colour(self) -> u32 {
        match self {
            Self::Cut => 7,
            Self::Seam => 1,
            Self::Marks => 5,
            Self::Quilting => 3,
        }
    }
}

/// One line drawn without lifting the pen, in inches, y up.
#[derive(Clone, Debug, PartialEq)]
pub struct DxfStroke {
    /// What it is for.
    pub layer: DxfLayer,
    /// Its points; a single one is written as a point.
    pub points: Vec<Point>,
    /// Whether it ends where it begins.
    pub closed: bool,
}

/// The furthest that a point may lie from the origin, in inches.
const MOST_IN: f64 = 1e6;

/// The strokes as a DXF file, each on its layer, in their order. Coordinates are rounded to a millionth
/// of a unit.
///
/// # Errors
/// A stroke without points, or with one that isn't a place within a million inches.
pub fn dxf(strokes: &[DxfStroke], unit: DxfUnit) -> Result<Vec<u8>, PaperProblem> {
    check(strokes)?;
    let mut out = Writer::new(unit);
    let all: Vec<Point> = strokes.iter().flat_map(|stroke| stroke.points.iter().copied()).collect();
    let (low, high) = polygon::bounds(&all).unwrap_or_default();
    frame::begin(&mut out, low, high, strokes.len());
    strokes.iter().for_each(|stroke| write_stroke(&mut out, stroke));
    frame::end(&mut out);
    Ok(out.into_bytes())
}

/// Whether all strokes can be written.
pub(crate) fn check(strokes: &[DxfStroke]) -> Result<(), PaperProblem> {
    for (i, stroke) in strokes.iter().enumerate() {
        if stroke.points.is_empty() {
            return Err(PaperProblem::EmptyStroke { stroke: i + 1 });
        }
        let far = |p: &Point| !(p.x.abs() <= MOST_IN && p.y.abs() <= MOST_IN);
        if let Some(at) = stroke.points.iter().position(far) {
            return Err(PaperProblem::NoPlace { stroke: i + 1, point: at + 1 });
        }
    }
    Ok(())
}

fn write_stroke(out: &mut Writer, stroke: &DxfStroke) {
    let kind = if stroke.points.len() == 1 { "POINT" } else { "LWPOLYLINE" };
    out.text(0, kind);
    out.next_handle();
    out.text(330, frame::MODEL_SPACE);
    out.text(100, "AcDbEntity");
    out.text(8, stroke.layer.name());
    match stroke.points[..] {
        [p] => {
            out.text(100, "AcDbPoint");
            out.place(p);
            out.text(30, "0.0");
        }
        _ => {
            out.text(100, "AcDbPolyline");
            out.whole(90, stroke.points.len());
            out.whole(70, usize::from(stroke.closed));
            stroke.points.iter().for_each(|&p| out.place(p));
        }
    }
}
