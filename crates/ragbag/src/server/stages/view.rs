//! Looks at stages on the wire.

use crate::server::error::Said;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use utoipa::ToSchema;

/// Which stages to look at, from the tip of a head.
#[derive(Deserialize, ToSchema)]
pub(crate) struct LookBody {
    pub(crate) head: String,
    pub(crate) tip: Option<String>,
    /// Each an object as a stage of a plan file: `{"border": {"cloth": "ripple", "sewn_in": ["2 1/2"]}}`.
    /// Lengths may be numbers of inches or words as a maker writes them; threads may be colour words.
    pub(crate) stages: Vec<Value>,
    /// The drawing of a figure that is not `heron`, as SVG text.
    pub(crate) svg: Option<String>,
}

/// Which stage to take.
#[derive(Deserialize, ToSchema)]
pub(crate) struct TakeBody {
    pub(crate) head: String,
    pub(crate) tip: Option<String>,
    /// As one of a look.
    pub(crate) stage: Value,
    /// The drawing of a figure that is not `heron`, as SVG text.
    pub(crate) svg: Option<String>,
}

/// Stages looked at from one tip.
#[derive(Serialize, ToSchema)]
pub(crate) struct LooksView {
    /// By which they are asked for again.
    pub(crate) look: u64,
    /// Whether all have been worked out: then they are here, or else an error.
    pub(crate) ended: bool,
    #[schema(required)]
    pub(crate) seen: Option<Vec<SeenView>>,
    #[schema(required)]
    pub(crate) error: Option<Said>,
}

/// One stage as it would be.
#[derive(Clone, Serialize, ToSchema)]
pub(crate) struct SeenView {
    /// Its name in a plan: `border`.
    pub(crate) stage: String,
    /// What it says; nothing where something stands against it.
    #[schema(required)]
    pub(crate) told: Option<ToldView>,
    /// What stands against it.
    #[schema(required)]
    pub(crate) error: Option<Said>,
}

/// What a stage says.
#[derive(Clone, Serialize, ToSchema)]
pub(crate) struct ToldView {
    /// What it is called in the trade.
    pub(crate) name: String,
    /// Everything in a sentence or two.
    pub(crate) sentence: String,
    /// What to cut or to do, one after the other.
    pub(crate) list: Vec<String>,
    /// What to look out for.
    pub(crate) cautions: Vec<String>,
    /// How many steps of the log it takes; none where the heap hasn't the cloth.
    pub(crate) steps: usize,
    /// All its numbers, as `ragbag finish --look --json` has them.
    pub(crate) report: Value,
    /// The piece as it would be.
    pub(crate) front_svg_url: String,
    pub(crate) back_svg_url: String,
}
