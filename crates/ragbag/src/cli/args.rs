//! What can be typed. Everything here declares; nothing is checked beyond its form.

use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// From a heap of scraps to a pieced centre: enter scraps, grow, take or refuse what is proposed,
/// say what was sewn, and draw it.
#[derive(Debug, Parser)]
#[command(name = "ragbag", version, after_help = "Example: ragbag --workroom ~/low-tide demo")]
pub(crate) struct Arguments {
    /// The folder of the workroom.
    #[arg(long, global = true, env = "RAGBAG_WORKROOM", value_name = "DIR")]
    pub(crate) workroom: Option<PathBuf>,
    /// Answer as JSON; the fields are told in docs/JSON.md.
    #[arg(long, global = true)]
    pub(crate) json: bool,
    /// Which quilt; the only one, or the one used last.
    #[arg(long, global = true, value_name = "NAME")]
    pub(crate) quilt: Option<String>,
    /// Which head of it: the table itself, or a what-if.
    #[arg(long, global = true, default_value = "main", value_name = "NAME")]
    pub(crate) head: String,
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Enter scraps.
    #[command(after_help = "Example: ragbag add words \"red stripe, about 3 by 5\"")]
    Add {
        #[command(subcommand)]
        way: Way,
    },
    /// List the heap.
    #[command(after_help = "Example: ragbag heap rust")]
    Heap {
        /// Only cloths whose name or place has this in it.
        search: Option<String>,
    },
    /// Cut a shape out of a cloth; what is left stays if it is usable.
    #[command(after_help = "Example: ragbag cut 12 --piece \"0,0 3,0 3,2 0,2\" --keep")]
    Cut {
        /// The cloth's number.
        cloth: u32,
        /// Corners of the shape, in the cloth's inches.
        #[arg(long)]
        piece: String,
        /// Keep the piece in the heap.
        #[arg(long)]
        keep: bool,
        /// It was cut all the same, though the heap has no such cloth.
        #[arg(long)]
        anyway: bool,
    },
    /// Does a shape fit a cloth, and how?
    #[command(after_help = "Example: ragbag fit 12 --piece \"0,0 3,0 1,2\"")]
    Fit {
        /// The cloth's number.
        cloth: u32,
        /// Corners of the shape.
        #[arg(long)]
        piece: String,
        /// How it may be turned; as the print demands when not said.
        #[arg(long)]
        turn: Option<TurnArg>,
        /// Extra cloth wanted all round it: a rough cut, trimmed later.
        #[arg(long, default_value = "0")]
        rough: String,
    },
    /// Change what is known of a cloth.
    #[command(after_help = "Example: ragbag change 12 --washed yes --flaw \"1,1 2,1 2,2\"")]
    Change(Box<ChangeArgs>),
    /// Make cloths know each other as scraps of one print.
    #[command(after_help = "Example: ragbag same-print 3 5 8")]
    SamePrint {
        /// Their numbers; the print is that of the first.
        #[arg(required = true, num_args = 2..)]
        cloths: Vec<u32>,
    },
    /// Take a cloth out of the heap: given away, lost, thrown out.
    #[command(after_help = "Example: ragbag give-away 12")]
    GiveAway {
        /// The cloth's number.
        cloth: u32,
    },
    /// Show or set from which size on leftovers stay in the heap.
    #[command(after_help = "Example: ragbag leftovers --width 1-1/2 --area 4")]
    Leftovers {
        /// Least width.
        #[arg(long)]
        width: Option<String>,
        /// Least area in square inches.
        #[arg(long)]
        area: Option<f64>,
    },
    /// Strip sets: sew one, slice it, unpick it.
    #[command(after_help = "Example: ragbag strips sew 3:1.5 8:2 5:1.25 --length 12")]
    Strips {
        #[command(subcommand)]
        what: Strips,
    },
    /// Begin a quilt.
    #[command(after_help = "Example: ragbag quilt \"Low Tide\"")]
    Quilt {
        /// Its name.
        name: String,
    },
    /// List the quilts and their heads.
    #[command(after_help = "Example: ragbag quilts")]
    Quilts,
    /// Give the quilt another name.
    #[command(after_help = "Example: ragbag --quilt \"Low Tide\" rename \"High Tide\"")]
    Rename {
        /// The new name.
        name: String,
    },
    /// Take a what-if away.
    #[command(after_help = "Example: ragbag drop what-if-2")]
    Drop {
        /// Which head.
        what_if: String,
    },
    /// Show the wish, or change parts of it.
    #[command(
        after_help = "Example: ragbag wish --across 20 --sides 7 --drift \"rust, sand, grey, slate, green\""
    )]
    Wish(Box<WishArgs>),
    /// Tell the sewing log.
    #[command(after_help = "Example: ragbag log")]
    Log,
    /// Propose the next piece.
    #[command(after_help = "Example: ragbag next --side 12c --count 3")]
    Next {
        /// The side to sew on; the sides most due when not said.
        #[arg(long)]
        side: Option<String>,
        /// How many proposals.
        #[arg(long, default_value_t = 5)]
        count: usize,
    },
    /// Take a proposal, as it is or bent.
    #[command(after_help = "Example: ragbag take 1 --depth \"2 1/4\" --cloth 12")]
    Take {
        /// Its number.
        no: usize,
        #[command(flatten)]
        bend: BendArgs,
    },
    /// Refuse a proposal: it is not made again for this quilt.
    #[command(after_help = "Example: ragbag refuse 2")]
    Refuse {
        /// Its number.
        no: usize,
    },
    /// Forget what was refused for this quilt.
    #[command(after_help = "Example: ragbag forget-refusals")]
    ForgetRefusals,
    /// Grow many pieces.
    #[command(after_help = "Example: ragbag grow --to 20 --pieces 60")]
    Grow(GrowArgs),
    /// Grow several variants from here, each on a head of its own.
    #[command(after_help = "Example: ragbag what-ifs 3 --more 12")]
    WhatIfs {
        /// How many.
        count: usize,
        #[command(flatten)]
        grow: GrowArgs,
    },
    /// Lay a first patch by hand.
    #[command(after_help = "Example: ragbag start 12 --piece \"0,0 2,0 2.5,1.75 1,2.75 -0.5,1.5\"")]
    Start {
        /// The cloth's number.
        cloth: u32,
        /// Corners of what is cut.
        #[arg(long)]
        piece: String,
    },
    /// Sew a straight piece onto a side by hand.
    #[command(after_help = "Example: ragbag sew 12 --onto 1a --size 4x2")]
    Sew(SewArgs),
    /// Sew two tops on the table together.
    #[command(after_help = "Example: ragbag join 8a --onto 1c")]
    Join {
        /// The side sewn; its top moves.
        with: String,
        /// The side sewn onto.
        #[arg(long)]
        onto: String,
        /// How far its middle lies beyond the middle of the other, in inches.
        #[arg(long, default_value = "0", allow_hyphen_values = true)]
        slide: String,
        /// Which way the seam is pressed.
        #[arg(long, default_value = "over")]
        press: PressArg,
    },
    /// Close a seam that was left open.
    #[command(after_help = "Example: ragbag close 9a")]
    Close {
        /// The seam.
        seam: String,
    },
    /// Sewn: this step, up to here.
    #[command(after_help = "Example: ragbag sewn 14")]
    Sewn {
        /// Up to this step; everything when not said.
        step: Option<u32>,
    },
    /// I used something else.
    #[command(after_help = "Example: ragbag instead 31 3x2.5")]
    Instead {
        /// The cloth that was used.
        cloth: u32,
        /// About what size, along the seam by deep, cut; the planned shape when not said.
        size: Option<String>,
        /// Which patch: the step that lays it; the next planned one when not said.
        #[arg(long)]
        patch: Option<u32>,
    },
    /// Trim the piece.
    #[command(
        after_help = "Example: ragbag trim 12c            in line with side 12c\n         ragbag trim 12c --at 3 --turn 20"
    )]
    Trim(CutArgs),
    /// Slice the piece apart.
    #[command(after_help = "Example: ragbag slice 12c --at 3 --turn 90")]
    Slice(CutArgs),
    /// Slice the piece apart and sew a strip between.
    #[command(after_help = "Example: ragbag put-in 12c --at 3 --turn 90 --cloth 7 --width 1.5")]
    PutIn {
        #[command(flatten)]
        cut: CutArgs,
        /// The cloth of the strip.
        #[arg(long)]
        cloth: u32,
        /// Its cut width.
        #[arg(long)]
        width: String,
    },
    /// Unpick the last piece, or back to a step.
    #[command(after_help = "Example: ragbag unpick 14")]
    Unpick {
        /// Keep everything up to this step; 0 unpicks all.
        step: Option<u32>,
    },
    /// Sew again what was unpicked last.
    #[command(after_help = "Example: ragbag resew")]
    Resew,
    /// Undo the last deed, whatever it was.
    #[command(after_help = "Example: ragbag undo")]
    Undo,
    /// Say what sides really measure, raw.
    #[command(after_help = "Example: ragbag measure 12c=5-3/16 14c=4")]
    Measure {
        /// Sides with their raw lengths.
        #[arg(required = true, value_name = "SIDE=LENGTH")]
        sides: Vec<String>,
    },
    /// True the piece up to a polygon of 3 to 8 sides.
    #[command(after_help = "Example: ragbag true-up 6 --plan")]
    TrueUp {
        /// How many sides.
        sides: usize,
        /// Only tell the cuts, what each costs and what it thins.
        #[arg(long)]
        plan: bool,
    },
    /// Write a note into the log.
    #[command(after_help = "Example: ragbag note \"pressed, hung up, looked at\"")]
    Note {
        /// The words.
        words: String,
    },
    /// Decide on a later stage, in your own words.
    #[command(after_help = "Example: ragbag choose binding \"2 1/4 wide, from the navy\"")]
    Choose {
        /// Which stage.
        stage: StageArg,
        /// The words.
        words: String,
    },
    /// The eye check: what is good and what is not, as numbers and words.
    #[command(after_help = "Example: ragbag eye")]
    Eye,
    /// The free sides, and which of them can be sewn before the next pressing.
    #[command(after_help = "Example: ragbag sides")]
    Sides,
    /// Does the cloth that the plan counts on exist?
    #[command(after_help = "Example: ragbag audit")]
    Audit,
    /// Draw the front, the back, or a cloth.
    #[command(after_help = "Example: ragbag draw front --labels --measures --to front.svg")]
    Draw(DrawArgs),
    /// Write a quilt with the cloth it uses into one file.
    #[command(after_help = "Example: ragbag export low-tide.zip")]
    Export {
        /// The file.
        file: PathBuf,
    },
    /// Take in a quilt from a file.
    #[command(after_help = "Example: ragbag import low-tide.zip --name \"Low Tide again\"")]
    Import {
        /// The file.
        file: PathBuf,
        /// Another name for it here.
        #[arg(long)]
        name: Option<String>,
    },
    /// Put the demo into the workroom.
    #[command(after_help = "Example: ragbag --workroom ~/low-tide demo")]
    Demo,
    /// Serve the page on this machine.
    #[command(after_help = "Example: ragbag serve --port 8080")]
    Serve {
        /// The port; 0 takes any free one.
        #[arg(long, default_value_t = 7117)]
        port: u16,
        /// With the demo in it.
        #[arg(long)]
        demo: bool,
    },
    /// Describe the page's interface as OpenAPI.
    #[command(after_help = "Example: ragbag openapi")]
    Openapi,
    /// Sums that need no workroom.
    #[command(after_help = "Example: ragbag sums cover --edge 5.375 --corners 128,135")]
    Sums {
        #[command(subcommand)]
        sum: Sum,
    },
}

#[derive(Debug, Subcommand)]
pub(crate) enum Way {
    /// In words: "red stripe, about 3 by 5".
    #[command(after_help = "Example: ragbag add words \"red stripe, about 3 by 5\"")]
    Words {
        /// The words.
        words: String,
    },
    /// A rectangle.
    #[command(after_help = "Example: ragbag add rectangle \"rust dot\" 4-1/2 7")]
    Rectangle {
        /// What it is called; colour words give its look.
        name: String,
        /// Width.
        width: String,
        /// Height, along the lengthwise grain.
        height: String,
    },
    /// A polygon.
    #[command(after_help = "Example: ragbag add polygon \"slate leaf\" \"0,0 5,0 4,6 1,5-1/2\"")]
    Polygon {
        /// What it is called.
        name: String,
        /// Its corners.
        corners: String,
    },
    /// Outlines from an SVG file with real units.
    #[command(after_help = "Example: ragbag add svg scraps.svg")]
    Svg {
        /// The file.
        file: PathBuf,
    },
    /// A list: CSV with columns name, width, height…
    #[command(after_help = "Example: ragbag add list scraps.csv")]
    List {
        /// The file.
        file: PathBuf,
    },
    /// By weight.
    #[command(after_help = "Example: ragbag add weight \"blue bits\" 120 --grams-per-m2 140")]
    Weight {
        /// What it is called.
        name: String,
        /// Grams.
        grams: f64,
        /// Weight of the cloth.
        #[arg(long, default_value_t = workroom::intake::GRAMS_PER_M2)]
        grams_per_m2: f64,
    },
}

#[derive(Debug, Subcommand)]
pub(crate) enum Strips {
    /// Sew strips side by side.
    #[command(after_help = "Example: ragbag strips sew 3:1.5 8:2 5:1.25 --length 12")]
    Sew {
        /// Cloth number and cut width of each strip.
        #[arg(required = true, value_name = "CLOTH:WIDTH")]
        strips: Vec<String>,
        /// Length of the strips.
        #[arg(long)]
        length: String,
    },
    /// Slice a strip set across, square or slanted.
    #[command(after_help = "Example: ragbag strips slice 40 --width 2 --lean 30")]
    Slice {
        /// The set's number.
        set: u32,
        /// Width of the slices.
        #[arg(long)]
        width: String,
        /// How far they lean from square, in degrees.
        #[arg(long, default_value_t = 0.0, allow_hyphen_values = true)]
        lean: f64,
        /// How many; as many as there are when not said.
        #[arg(long)]
        count: Option<usize>,
    },
    /// Unpick a pieced cloth into the cloths it was sewn from.
    #[command(after_help = "Example: ragbag strips unpick 41")]
    Unpick {
        /// Its number.
        cloth: u32,
    },
}

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
pub(crate) struct CutArgs {
    /// The side the cut starts from.
    pub(crate) side: String,
    /// How far from its start; without it the cut runs along the side itself.
    #[arg(long)]
    pub(crate) at: Option<String>,
    /// How far the cut turns left from the side, in degrees. What lies left of it stays.
    #[arg(long, allow_hyphen_values = true, default_value_t = 90.0)]
    pub(crate) turn: f64,
}

#[derive(Debug, Args)]
pub(crate) struct ChangeArgs {
    /// The cloth's number.
    pub(crate) cloth: u32,
    /// What you call it.
    #[arg(long)]
    pub(crate) name: Option<String>,
    /// Where it is kept.
    #[arg(long)]
    pub(crate) place: Option<String>,
    /// Whether its size is only about right.
    #[arg(long)]
    pub(crate) about: Option<YesNo>,
    /// Cotton, linen and so on.
    #[arg(long)]
    pub(crate) fibre: Option<String>,
    /// Whether it has been washed.
    #[arg(long)]
    pub(crate) washed: Option<YesNo>,
    /// Whether its colour bleeds.
    #[arg(long)]
    pub(crate) bleeds: Option<YesNo>,
    /// Corners of a stain or a thin place, in the cloth's inches; several may be given, and they take
    /// the place of those known before.
    #[arg(long, value_name = "CORNERS")]
    pub(crate) flaw: Vec<String>,
    /// It has no stain and no thin place.
    #[arg(long, conflicts_with = "flaw")]
    pub(crate) sound: bool,
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
    /// The file; its ending tells: .svg or .png. SVG goes to stdout when not said.
    #[arg(long)]
    pub(crate) to: Option<PathBuf>,
    /// Pixels an inch of a PNG.
    #[arg(long, default_value_t = 60.0)]
    pub(crate) pixels: f64,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Sum {
    /// Does a piece fit a cloth? Decided at 1e-9, never mirrored.
    #[command(
        after_help = "Example: ragbag sums fit --piece \"0,0 1.03,0 0.515,0.892\" --cloth \"0,0 1,0 1,1 0,1\" --turn any --json"
    )]
    Fit {
        /// Corners of the piece.
        #[arg(long)]
        piece: String,
        /// Corners of the cloth.
        #[arg(long)]
        cloth: String,
        /// How the piece may be turned.
        #[arg(long, default_value = "any")]
        turn: TurnArg,
    },
    /// How long must a patch be to cover the seam line of an edge?
    #[command(after_help = "Example: ragbag sums cover --edge 5.375 --corners 128,135 --seam 0.25 --json")]
    Cover {
        /// Raw length of the edge.
        #[arg(long)]
        edge: String,
        /// Inside angles at its ends, in degrees.
        #[arg(long)]
        corners: String,
        /// Seam allowance.
        #[arg(long, default_value = "1/4")]
        seam: String,
    },
    /// How many rounds to go, and how deep to cut them?
    #[command(after_help = "Example: ragbag sums rounds --now 12 --wished 20 --depth 1.5,2.75")]
    Rounds {
        /// Raw width across now.
        #[arg(long)]
        now: String,
        /// Finished width wished.
        #[arg(long)]
        wished: String,
        /// Least and most cut depth.
        #[arg(long, default_value = "1.5,2.75")]
        depth: String,
        /// Seam allowance.
        #[arg(long, default_value = "1/4")]
        seam: String,
    },
    /// How much cloth is a weight?
    #[command(after_help = "Example: ragbag sums weight --grams 120 --grams-per-m2 140")]
    Weight {
        /// Grams.
        #[arg(long)]
        grams: f64,
        /// Weight of the cloth.
        #[arg(long, default_value_t = 140.0)]
        grams_per_m2: f64,
    },
    /// The own seam, from strips sewn together.
    #[command(after_help = "Example: ragbag sums own-seam --strips 3 --cut 1-1/2 --across 3-7/16")]
    OwnSeam {
        /// How many strips.
        #[arg(long)]
        strips: u32,
        /// Cut width of each.
        #[arg(long)]
        cut: String,
        /// What they measure across.
        #[arg(long)]
        across: String,
    },
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum TurnArg {
    /// Any way round.
    Any,
    /// As it is, or upside down.
    Half,
    /// As it is.
    None,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum YesNo {
    /// It is so.
    Yes,
    /// It isn't.
    No,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum StageArg {
    /// Backing and batting.
    Layers,
    /// Quilting lines and thread.
    Quilting,
    /// Binding.
    Binding,
    /// The appliquéd figure.
    Figure,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum SpiralArg {
    /// No order.
    None,
    /// Clockwise, seen from the front.
    Clockwise,
    /// Anticlockwise.
    Anticlockwise,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum PressArg {
    /// Under what is added.
    Over,
    /// Under what was there.
    Back,
    /// One to each side.
    Open,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum EffortArg {
    /// One move after the other.
    Quick,
    /// A second or two.
    Usual,
    /// Half a minute.
    Thorough,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum DrawWhat {
    /// The front.
    Front,
    /// The back.
    Back,
    /// A cloth.
    Cloth,
}
