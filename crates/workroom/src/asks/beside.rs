//! What one stage has to do with another: a figure is cut from what is free, and the quilting goes round a
//! figure that is sewn on before, whichever of the two was chosen first.
//!
//! It is worked out each time from what is chosen, for the ask, the drawing and the needs alike.

use super::error::Asked;
use super::stage::cant;
use plane::{Point, Region};
use quilt::stage::figure::{FigureChoice, FigurePlan};
use quilt::stage::habits::Habits;
use quilt::stage::layers::With;
use quilt::stage::on_hand::OnHand;
use quilt::stage::quilting::{Beside, Machine};
use quilt::stage::{ChosenLast, figure, layers};
use quilt::table::Top;

/// What is said of a figure on a top, with the cloths that its shapes may be cut from.
pub(super) fn figure_plan(
    choice: &FigureChoice,
    top: &Top,
    on_hand: &[OnHand],
    habits: &Habits,
) -> Asked<FigurePlan> {
    let bound = Region { outer: top.outline_points(), holes: Vec::new() };
    figure::plan(choice, &bound, on_hand, habits).map_err(cant)
}

/// What the other stages have to do with the quilting that is chosen.
pub(super) fn beside_quilting(chosen: &ChosenLast<'_>, raw: &[Point], on_hand: &[OnHand]) -> Asked<Beside> {
    let figure = match chosen.figure {
        Some(choice) => figure::kept_free(choice).map_err(cant)?,
        None => Vec::new(),
    };
    Ok(Beside { figure, width_along_rollers: loaded(chosen, raw, on_hand) })
}

/// How the layers are loaded, where a frame asks for it; `None` too for layers that can't be loaded: their
/// own stage says why.
fn loaded(chosen: &ChosenLast<'_>, raw: &[Point], on_hand: &[OnHand]) -> Option<bool> {
    let machine = chosen.quilting?.machine;
    if !matches!(machine, Machine::Frame { width_along_rollers: None, .. }) {
        return None;
    }
    let choice = chosen.layers?;
    let back = layers::backing(choice, raw, on_hand).ok()?;
    match layers::basting(choice, raw, &back).ok()?.with {
        With::Frame(loading) => Some(loading.width_along_rollers),
        With::Pins(_) | With::Spray { .. } | With::Thread { .. } => None,
    }
}
