//! Joining centres.

use clap::Args;

#[derive(Debug, Args)]
pub(crate) struct CentresArgs {
    /// The quilts whose centres are joined: NAME, or NAME:HEAD.
    #[arg(required = true, num_args = 1.., value_name = "QUILT")]
    pub(crate) centres: Vec<String>,
    /// What the joined quilt is called.
    #[arg(long = "as", value_name = "NAME")]
    pub(crate) name: String,
    /// Finished size of the joined top.
    #[arg(long, value_name = "WIDTHxHEIGHT")]
    pub(crate) size: String,
    /// Finished size that centres are squared to, by turns; without it a rectangle stays as it is, and
    /// anything else becomes the largest rectangle that it holds.
    #[arg(long, value_name = "WIDTHxHEIGHT")]
    pub(crate) square: Vec<String>,
    /// In rows of equal places, so many across and down, instead of a layout of mixed sizes.
    #[arg(long, value_name = "ACROSSxDOWN")]
    pub(crate) rows: Option<String>,
    /// Cloths for coping, by their numbers, with commas.
    #[arg(long, default_value = "none")]
    pub(crate) coping: String,
    /// The least finished width of a coping strip.
    #[arg(long, default_value = "1/2")]
    pub(crate) least_coping: String,
    /// The greatest; any when not said.
    #[arg(long)]
    pub(crate) most_coping: Option<String>,
    /// The most that coping may take of the top, in the hundred.
    #[arg(long, default_value_t = 25.0)]
    pub(crate) most_share: f64,
    /// By how much the top may miss its size without a strip.
    #[arg(long, default_value = "0")]
    pub(crate) tolerance: String,
    /// Centres may lie a quarter turned.
    #[arg(long)]
    pub(crate) turn: bool,
    /// The seed of the layout.
    #[arg(long, default_value_t = 0)]
    pub(crate) seed: u64,
    /// Only tell what it would come to.
    #[arg(long)]
    pub(crate) look: bool,
}
