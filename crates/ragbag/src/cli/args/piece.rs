//! What can be said of a piece: wishing, growing, sewing, drawing.

use super::choices::{DrawWhat, EffortArg, PressArg, SpiralArg};
use clap::Args;
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(crate) struct WishArgs {
    /// Finished width across, of the circle of the same area.
    #[arg(long)]
    pub(crate) across: Option<String>,
    /// Round, with so many sides.
    #[arg(long)]
    pub(crate) sides: Option<u8>,
    /// A rectangle: finished width by height.
    #[arg(long, value_name = "WxH")]
    pub(crate) rectangle: Option<String>,
    /// A polygon: its finished corners about 0,0.
    #[arg(long)]
    pub(crate) polygon: Option<String>,
    /// No outline in mind.
    #[arg(long)]
    pub(crate) free: bool,
    /// The sense of growing.
    #[arg(long)]
    pub(crate) spiral: Option<SpiralArg>,
    /// Colours from the centre outward, in words or as #rrggbb, with commas; "none" for no drift.
    #[arg(long)]
    pub(crate) drift: Option<String>,
    /// The same by cloths: their numbers, with commas.
    #[arg(long)]
    pub(crate) drift_cloths: Option<String>,
    /// Share of sparks, 0 to 1.
    #[arg(long)]
    pub(crate) sparks: Option<f64>,
    /// Least and most contrast (CIEDE2000), with a comma.
    #[arg(long)]
    pub(crate) contrast: Option<String>,
    /// Distance within which a print should not come again.
    #[arg(long)]
    pub(crate) rest: Option<String>,
    /// Finished size of pieces at the centre and at the rim, with a comma.
    #[arg(long)]
    pub(crate) pieces: Option<String>,
    /// Cloths not to be used: numbers, with commas.
    #[arg(long)]
    pub(crate) spare: Option<String>,
    /// Cloths to use up: numbers, with commas.
    #[arg(long)]
    pub(crate) use_up: Option<String>,
    /// A motif to show: the cloth's number, a colon, its corners.
    #[arg(long, value_name = "CLOTH:CORNERS")]
    pub(crate) motif: Option<String>,
    /// Seam allowance.
    #[arg(long)]
    pub(crate) seam: Option<String>,
    /// Plan with the own seam instead: strips, cut width and what they measure across: "3, 1 1/2, 3 7/16".
    #[arg(long)]
    pub(crate) own_seam: Option<String>,
    /// Extra cloth round free sides when a scrap is cut.
    #[arg(long)]
    pub(crate) rough: Option<String>,
    /// Least finished width of a shape.
    #[arg(long)]
    pub(crate) thin: Option<String>,
    /// Least finished corner, in degrees.
    #[arg(long)]
    pub(crate) sharp: Option<f64>,
    /// Weight of a term of the score: "round=2".
    #[arg(long, value_name = "TERM=WEIGHT")]
    pub(crate) weight: Vec<String>,
}

#[derive(Debug, Args)]
pub(crate) struct BendArgs {
    /// This cloth must be in it.
    #[arg(long)]
    pub(crate) cloth: Option<u32>,
    /// Finished depth.
    #[arg(long)]
    pub(crate) depth: Option<String>,
    /// How far the outer edge turns, in degrees.
    #[arg(long, allow_hyphen_values = true)]
    pub(crate) tilt: Option<f64>,
    /// How many pieces.
    #[arg(long)]
    pub(crate) pieces: Option<usize>,
}

#[derive(Debug, Args)]
pub(crate) struct GrowArgs {
    /// To this finished width across (kept in the wish).
    #[arg(long)]
    pub(crate) to: Option<String>,
    /// To the wished size with about so many pieces.
    #[arg(long)]
    pub(crate) pieces: Option<usize>,
    /// So many pieces more, whatever the size.
    #[arg(long)]
    pub(crate) more: Option<usize>,
    /// To where the wished colours end.
    #[arg(long)]
    pub(crate) drift_end: bool,
    /// The same seed grows the same.
    #[arg(long, default_value_t = 1)]
    pub(crate) seed: u64,
    /// How hard to look.
    #[arg(long, default_value = "usual")]
    pub(crate) effort: EffortArg,
}

#[derive(Debug, Args)]
pub(crate) struct SewArgs {
    /// The cloth's number.
    pub(crate) cloth: u32,
    /// The side it is sewn onto.
    #[arg(long)]
    pub(crate) onto: String,
    /// Cut size: along the seam by deep.
    #[arg(long, value_name = "WxD")]
    pub(crate) size: String,
    /// How far its middle lies beyond the middle of the side.
    #[arg(long, default_value = "0", allow_hyphen_values = true)]
    pub(crate) slide: String,
    /// Which way the seam is pressed.
    #[arg(long, default_value = "over")]
    pub(crate) press: PressArg,
    /// Leave it sticking out beyond the neighbours.
    #[arg(long)]
    pub(crate) untrimmed: bool,
    /// Stop short of the end of the side by so much.
    #[arg(long)]
    pub(crate) stop: Option<String>,
    /// Sew it although a limit of the wish is broken.
    #[arg(long)]
    pub(crate) anyway: bool,
}

#[derive(Debug, Args)]
pub(crate) struct DrawArgs {
    /// What to draw.
    pub(crate) what: DrawWhat,
    /// The cloth's number, for a cloth.
    pub(crate) cloth: Option<u32>,
    /// Names of patches and sides.
    #[arg(long)]
    pub(crate) labels: bool,
    /// Lengths.
    #[arg(long)]
    pub(crate) measures: bool,
    /// Flat colours instead of pictures.
    #[arg(long)]
    pub(crate) flat: bool,
    /// The photograph that the piece was measured by last, in the place of the cloth that it shows.
    #[arg(long, conflicts_with = "flat")]
    pub(crate) photo: bool,
    /// The file; its ending tells: .svg or .png. SVG goes to stdout when not said.
    #[arg(long)]
    pub(crate) to: Option<PathBuf>,
    /// Pixels an inch of a PNG.
    #[arg(long, default_value_t = 60.0)]
    pub(crate) pixels: f64,
}
