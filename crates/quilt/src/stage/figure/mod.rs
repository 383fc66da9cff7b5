//! The figure: shapes of cloth turned under by hand and sewn on top (needle-turn appliqué).
//!
//! The maker's drawing keeps its curves ([`Figure`]); at the size asked for they are flattened to
//! 1/256 inch. Every shape is judged: what has room to be turned under is cut a turn-under outside
//! the drawn line, what hasn't becomes a line of stitches or a stem, unless the maker says otherwise.
//! Places and lengths on the piece are finished; the outline given is the bound one. Layers are in
//! order, lowest first, and an edge under a higher layer is left flat.
//!
//! A figure may be drawn mirrored, and a tracing on the wrong side is; cloth never is.

mod centre;
mod choice;
mod clips;
mod cloth;
mod cut;
mod drawn;
mod finding;
mod hand;
mod judge;
mod laid;
mod line;
mod narrow;
mod patch;
mod places;
mod plan;
mod problem;
mod seen;
mod simple;
mod touch;
mod way;

pub use choice::{
    ClipRule, FigureChoice, FigureOrder, FigureSize, MOST_FIGURE_IN, TURN_UNDER_IN, Thin, Traced,
};
pub use clips::Clips;
pub use cloth::CutFrom;
pub use drawn::{Figure, MOST_POINTS, Path, Segment, Shape};
pub use finding::{FigureRule, Finding};
pub use hand::HandWork;
pub use judge::{LEAST_NECK_IN, LEAST_TIP_DEG};
pub use laid::CHORD_ERROR_IN;
pub use line::{FigureLine, LineKind};
pub use patch::{FigurePatch, Tracing};
pub use places::{Places, Slide, clear_ground};
pub use plan::{FigurePlace, FigurePlan, kept_free, plan};
pub use problem::FigureProblem;
