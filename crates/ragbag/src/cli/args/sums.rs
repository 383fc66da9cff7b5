//! Sums that need no piece.

use super::Finishing;
use super::choices::TurnArg;
use clap::Subcommand;

#[derive(Debug, Subcommand)]
pub(crate) enum Sum {
    /// Does a piece fit a cloth? Decided at 1e-9, never mirrored.
    #[command(
        after_help = "Example: ragbag sums fit --piece \"0,0 1.03,0 0.515,0.892\" --cloth \"0,0 1,0 1,1 0,1\" --turn any --json"
    )]
    Fit {
        /// Corners of the piece.
        #[arg(long, allow_hyphen_values = true)]
        piece: String,
        /// Corners of the cloth.
        #[arg(long, allow_hyphen_values = true)]
        cloth: String,
        /// How the piece may be turned.
        #[arg(long, default_value = "any")]
        turn: TurnArg,
    },
    /// How long must a patch be to cover the seam line of an edge?
    #[command(after_help = "Example: ragbag sums cover --edge 5.375 --corners 128,135 --seam 0.25 --json")]
    Cover {
        /// Raw length of the edge.
        #[arg(long, allow_hyphen_values = true)]
        edge: String,
        /// Inside angles at its ends, in degrees.
        #[arg(long, allow_hyphen_values = true)]
        corners: String,
        /// Seam allowance.
        #[arg(long, allow_hyphen_values = true, default_value = "1/4")]
        seam: String,
    },
    /// How many rounds to go, and how deep to cut them?
    #[command(after_help = "Example: ragbag sums rounds --now 12 --wished 20 --depth 1.5,2.75")]
    Rounds {
        /// Raw width across now.
        #[arg(long, allow_hyphen_values = true)]
        now: String,
        /// Finished width wished.
        #[arg(long, allow_hyphen_values = true)]
        wished: String,
        /// Least and most cut depth.
        #[arg(long, allow_hyphen_values = true, default_value = "1.5,2.75")]
        depth: String,
        /// Seam allowance.
        #[arg(long, allow_hyphen_values = true, default_value = "1/4")]
        seam: String,
    },
    /// How much cloth is a weight?
    #[command(after_help = "Example: ragbag sums weight --grams 120 --grams-per-m2 140")]
    Weight {
        /// Grams.
        #[arg(long, allow_hyphen_values = true)]
        grams: f64,
        /// Weight of the cloth.
        #[arg(long, allow_hyphen_values = true, default_value_t = 140.0)]
        grams_per_m2: f64,
    },
    /// The own seam, from strips sewn together.
    #[command(after_help = "Example: ragbag sums own-seam --strips 3 --cut 1-1/2 --across 3-7/16")]
    OwnSeam {
        /// How many strips.
        #[arg(long)]
        strips: u32,
        /// Cut width of each.
        #[arg(long, allow_hyphen_values = true)]
        cut: String,
        /// What they measure across.
        #[arg(long, allow_hyphen_values = true)]
        across: String,
    },
    #[command(flatten)]
    Finishing(Finishing),
}
