//! Sums of the finishing: binding, border, back, thread, sleeve, shrinking, cut sizes.

use super::choices::JoinArg;
use clap::Subcommand;

#[derive(Debug, Subcommand)]
pub(crate) enum Finishing {
    /// How many strips bind a piece?
    #[command(after_help = "Example: ragbag sums binding --sides 60,72,60,72 --strip-width 2-1/4 --json")]
    #[command(group(clap::ArgGroup::new("round").required(true).args(["sides", "perimeter"])))]
    Binding {
        /// The sides, with commas.
        #[arg(long, allow_hyphen_values = true)]
        sides: Option<String>,
        /// Or their sum.
        #[arg(long, allow_hyphen_values = true)]
        perimeter: Option<String>,
        /// Cut width of a strip.
        #[arg(long, allow_hyphen_values = true, default_value = "2-1/4")]
        strip_width: String,
        /// Usable length of a strip.
        #[arg(long, allow_hyphen_values = true, default_value = "40")]
        usable: String,
        /// How the strips are joined, the last join too.
        #[arg(long, default_value = "diagonal")]
        join: JoinArg,
        /// Seam allowance of a straight join.
        #[arg(long, allow_hyphen_values = true, default_value = "1/4")]
        seam: String,
    },
    /// How much bias does a square give in one piece?
    #[command(after_help = "Example: ragbag sums bias --square 30 --strip-width 2-1/2")]
    Bias {
        /// Side of the square.
        #[arg(long, allow_hyphen_values = true)]
        square: String,
        /// Cut width of a strip.
        #[arg(long, allow_hyphen_values = true, default_value = "2-1/4")]
        strip_width: String,
        /// Seam allowance of the two seams.
        #[arg(long, allow_hyphen_values = true, default_value = "1/4")]
        seam: String,
    },
    /// What does a mitred border measure?
    #[command(after_help = "Example: ragbag sums border --outline \"0,0 20,0 20,30 0,30\" --width 3 --json")]
    Border {
        /// Corners of the finished outline.
        #[arg(long, allow_hyphen_values = true)]
        outline: String,
        /// Finished width.
        #[arg(long, allow_hyphen_values = true)]
        width: String,
        /// Seam allowance.
        #[arg(long, allow_hyphen_values = true, default_value = "1/4")]
        seam: String,
    },
    /// How many panels make a back, and how many yards are they?
    #[command(after_help = "Example: ragbag sums backing --width 60 --length 80")]
    Backing {
        /// Width of the piece.
        #[arg(long, allow_hyphen_values = true)]
        width: String,
        /// Length of the piece.
        #[arg(long, allow_hyphen_values = true)]
        length: String,
        /// How much the back is larger on each side.
        #[arg(long, allow_hyphen_values = true, default_value = "4")]
        overage: String,
        /// Usable width of the cloth.
        #[arg(long, allow_hyphen_values = true, default_value = "42")]
        usable: String,
        /// Seam allowance of the back.
        #[arg(long, allow_hyphen_values = true, default_value = "1/2")]
        seam: String,
    },
    /// How much thread does a line take?
    #[command(after_help = "Example: ragbag sums thread --length 4800 --stitch-mm 2.5 --thickness 0.06")]
    Thread {
        /// Length of the line.
        #[arg(long, allow_hyphen_values = true)]
        length: String,
        /// Length of a stitch in millimetres.
        #[arg(long, allow_hyphen_values = true, default_value_t = 2.5)]
        stitch_mm: f64,
        /// Thickness of the layers, squeezed.
        #[arg(long, allow_hyphen_values = true, default_value = "0.06")]
        thickness: String,
    },
    /// How long is a round spiral?
    #[command(after_help = "Example: ragbag sums spiral --radius 24 --gap 1/4")]
    Spiral {
        /// From its middle to its last turn.
        #[arg(long, allow_hyphen_values = true)]
        radius: String,
        /// Between two turns.
        #[arg(long, allow_hyphen_values = true)]
        gap: String,
    },
    /// What does a hanging sleeve take?
    #[command(after_help = "Example: ragbag sums sleeve --width 60")]
    Sleeve {
        /// Width of the piece.
        #[arg(long, allow_hyphen_values = true)]
        width: String,
        /// Cut width of the strip; without it, what is usual for the width.
        #[arg(long, allow_hyphen_values = true)]
        strip: Option<String>,
        /// Seam allowance.
        #[arg(long, allow_hyphen_values = true, default_value = "1/4")]
        seam: String,
    },
    /// What shrinks by how much? Any two of the three.
    #[command(
        after_help = "Example: ragbag sums shrink --before 70 --after 68; ragbag sums shrink --after 90 --percent 5"
    )]
    #[command(group(clap::ArgGroup::new("known").required(true).multiple(true).args(["before", "after", "percent"])))]
    Shrink {
        /// Length before.
        #[arg(long, allow_hyphen_values = true)]
        before: Option<String>,
        /// Length after.
        #[arg(long, allow_hyphen_values = true)]
        after: Option<String>,
        /// How much is lost of what was there before, in the hundred.
        #[arg(long, allow_hyphen_values = true)]
        percent: Option<f64>,
    },
    /// What size are triangles and hexagons cut?
    #[command(
        after_help = "Example: ragbag sums cut --finished 3. Half-squares go by the leg, quarter-squares by the long side, equilateral triangles by the height, hexagons from flat to flat."
    )]
    Cut {
        /// Finished size.
        #[arg(long, allow_hyphen_values = true)]
        finished: String,
        /// Seam allowance.
        #[arg(long, allow_hyphen_values = true, default_value = "1/4")]
        seam: String,
    },
}
