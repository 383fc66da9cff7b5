//! Lines of quilting as thread: fine, in its true width, with a soft shade to sink it into the cloth.

use crate::stages::Quilted;
use crate::{Item, Shape, Tag, ThreadItem};
use colour::Srgb;

/// How wide sewn thread shows, in inches (common practice, no source).
pub(crate) const THREAD_IN: f64 = 1.0 / 32.0;
/// The part of a stitch that dips under.
const DIPS_SHARE: f64 = 0.25;
/// So much line is drawn stitch by stitch; more is drawn plain, since every stitch costs whoever looks.
const MOST_STITCHED_IN: f64 = 5_000.0;
/// A drawing's longer side at weight 1, in inches, is looked at on about a thousand pixels.
const PIXELS_PER_IN: f64 = 50.0;

/// Which side is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Side {
    Front,
    Back,
}

/// The quilting as it is seen from one side, still where it lies on the piece. Stitches are drawn where they
/// can be told apart in a drawing of this weight, else plain lines.
pub(crate) fn quilting(quilted: &Quilted<'_>, side: Side, weight: f64) -> Item {
    let colour = match side {
        Side::Front => quilted.front,
        Side::Back => quilted.back,
    };
    let thread = stitched(quilted.fill.strokes.clone(), colour, quilted.stitch_in);
    let thread = if thread.length_in() <= MOST_STITCHED_IN {
        thread.told_apart(PIXELS_PER_IN / weight)
    } else {
        ThreadItem { dash_in: None, ..thread }
    };
    Item::new(Shape::Thread(thread)).tagged(Tag::class("quilting"))
}

/// Strokes sewn in thread, stitch by stitch.
pub(crate) fn stitched(strokes: Vec<plane::fill::Stroke>, colour: Srgb, stitch_in: f64) -> ThreadItem {
    let dips = DIPS_SHARE * stitch_in;
    ThreadItem {
        strokes,
        colour,
        width_in: THREAD_IN,
        dash_in: (stitch_in > THREAD_IN).then_some([stitch_in - dips, dips]),
        shade_in: 0.6 * THREAD_IN,
    }
}
