//! What can be typed. Everything here declares; nothing is checked beyond its form.

mod centres;
mod choices;
mod finishing;
mod heap;
mod papers;
mod photo;
mod piece;
mod quilting;
mod sums;

pub(crate) use centres::CentresArgs;
pub(crate) use choices::{
    DrawWhat, EffortArg, JoinArg, PressArg, SoldByArg, SpiralArg, StageArg, TurnArg, YesNo,
};
pub(crate) use finishing::Finishing;
pub(crate) use heap::{ChangeArgs, CutArgs, Spots, Strips, Way};
pub(crate) use papers::{BookletArgs, CuttingArgs, PapersArgs, TemplatesArgs, WordingArgs};
pub(crate) use photo::{CardsArgs, CatchUpArgs, EyeArgs, OutlineArgs, PhotoArgs, RemeasureArgs, ScrapWay};
pub(crate) use piece::{BendArgs, DrawArgs, GrowArgs, SewArgs, WishArgs};
pub(crate) use quilting::{DesignsArgs, LinesArgs};
pub(crate) use sums::Sum;

use clap::{Parser, Subcommand};
use std::path::PathBuf;

/// From a heap of scraps to a pieced centre: enter scraps, grow, take or refuse what is proposed,
/// say what was sewn, and draw it.
#[derive(Debug, Parser)]
#[command(name = "ragbag", version, after_help = "Example: ragbag --workroom ~/low-tide demo")]
pub(crate) struct Arguments {
    /// The folder of the workroom; ragbag in $XDG_DATA_HOME or ~/.local/share when not said.
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
        #[command(flatten)]
        spots: Spots,
    },
    /// Write measuring cards to print: they lie beside what is photographed.
    #[command(after_help = "Example: ragbag cards --to cards.pdf --paper letter")]
    Cards(CardsArgs),
    /// Scraps from photographs. Words, lists, drawings and weights come by `add`.
    #[command(after_help = "Example: ragbag scrap photo heap.jpg")]
    Scrap {
        #[command(subcommand)]
        way: ScrapWay,
    },
    /// Read from one photograph of the piece which patches were sewn on since the last step, each with the
    /// cloth it is likely of, and take them in as sewn.
    #[command(
        after_help = "Example: ragbag catch-up \"Low Tide\" table.jpg --look\n         ragbag catch-up \"Low Tide\" table.jpg --cloth 2=14 --as-found 3"
    )]
    CatchUp(CatchUpArgs),
    /// Put the outline that a photograph of the piece shows in the place of the planned one.
    #[command(after_help = "Example: ragbag remeasure \"Low Tide\" --photo table.jpg --look")]
    Remeasure(RemeasureArgs),
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
        /// It is so, though the heap has no room for it in that cloth.
        #[arg(long)]
        anyway: bool,
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
    /// Take the stages of a plan file on the piece: ring, border, squaring up, layers, figure,
    /// quilting, binding, sleeve.
    #[command(after_help = "Example: ragbag finish my-plan.toml --what-if mitred")]
    Finish {
        /// The plan file, or low-tide or spring-tide, which come with the program; docs/PLAN.md tells what
        /// a plan can say.
        plan: PathBuf,
        /// Only tell what all its stages would come to, one after the other.
        #[arg(long, conflicts_with = "what_if")]
        look: bool,
        /// On a head of its own, to be looked at beside others.
        #[arg(long, value_name = "NAME")]
        what_if: Option<String>,
    },
    /// Make a whole new quilt by a plan file, from the heap to its last stage.
    #[command(after_help = "Example: ragbag make low-tide --quilt \"Low Tide again\"")]
    Make {
        /// The plan file, or low-tide or spring-tide, which come with the program; docs/PLAN.md tells what
        /// a plan can say.
        plan: PathBuf,
        /// Only tell what it would come to. It takes as long.
        #[arg(long)]
        look: bool,
    },
    /// Square the centres of several quilts and join them into one larger top, a quilt of its own.
    #[command(
        after_help = "Example: ragbag join-centres \"Ebb\" \"Flow\" \"Neap:what-if-1\" --as \"Spring Tide\" --size 60x24 --coping 12"
    )]
    JoinCentres(CentresArgs),
    /// Enough? Everything the piece takes to its end, against what there is, and what to buy.
    #[command(after_help = "Example: ragbag enough --per-hour 20")]
    Enough {
        /// What an hour of yours is worth.
        #[arg(long)]
        per_hour: Option<f64>,
    },
    /// Your own stitches, thread, minutes and worth of an hour: list them, or set some.
    #[command(
        after_help = "Example: ragbag habits bobbin_yd=80 minutes_per_pin=0.1 per_hour=20; NAME= sets one as usual again"
    )]
    Habits {
        /// What to set.
        #[arg(value_name = "NAME=NUMBER")]
        changes: Vec<String>,
    },
    /// Show or set how your shop sells: what is to buy is rounded up to that.
    #[command(after_help = "Example: ragbag shop --cloth-by ten-cm --usable 42 --spool-m 500")]
    Shop {
        /// In which steps cloth is sold.
        #[arg(long)]
        cloth_by: Option<SoldByArg>,
        /// Usable width of its cloth.
        #[arg(long)]
        usable: Option<String>,
        /// Metres of thread on a spool.
        #[arg(long)]
        spool_m: Option<f64>,
    },
    /// Which of your spools goes with the front and the back, and which stands out.
    #[command(after_help = "Example: ragbag threads; ragbag threads --spool \"dark grey\" --spool rust")]
    Threads {
        /// Colours in words to choose from instead of the heap's spools; several may be given.
        #[arg(long)]
        spool: Vec<String>,
    },
    /// The eye check: what is good and what is not, as numbers and words.
    #[command(after_help = "Example: ragbag eye\n         ragbag eye --photo wall.jpg")]
    Eye(EyeArgs),
    /// The free sides, and which of them can be sewn before the next pressing.
    #[command(after_help = "Example: ragbag sides")]
    Sides,
    /// Does the cloth that the plan counts on exist?
    #[command(after_help = "Example: ragbag audit")]
    Audit,
    /// Draw the front, the back, or a cloth.
    #[command(after_help = "Example: ragbag draw front --labels --measures --to front.svg")]
    Draw(DrawArgs),
    /// Write the papers: what is printed to sew from, pin up or hand on, as PDF.
    #[command(
        after_help = "Example: ragbag papers \"Low Tide\" --out papers\n         ragbag papers --only overview --paper letter --ink-saving --out papers"
    )]
    Papers(PapersArgs),
    /// Lay all that is still to be cut on the cloths of the heap, and say what to buy.
    #[command(
        after_help = "Example: ragbag cutting \"Low Tide\" --to cutting.pdf\n         ragbag cutting --anew --kerf 1/16 --rounds 500\n         ragbag cutting --buy-all --bolt 42 --json"
    )]
    Cutting(CuttingArgs),
    /// Write all papers as one pattern for others, with a cover and contents.
    #[command(
        after_help = "Example: ragbag booklet \"Low Tide\" --out low-tide.pdf --maker \"the sewing circle\""
    )]
    Booklet(BookletArgs),
    /// Keep your own words for the pattern: title, maker, the cover, and under the title of any paper.
    #[command(
        after_help = "Example: ragbag wording --maker \"the sewing circle\" --under steps=\"Take your time.\"\n         ragbag wording    (shows them)"
    )]
    Wording(WordingArgs),
    /// Write the templates in true size for a cutting machine: cut lines, seam lines and notches on layers of their own.
    #[command(
        after_help = "Example: ragbag templates --to templates.svg\n         ragbag templates \"Low Tide\" --to templates.dxf --unit mm --width 24"
    )]
    Templates(TemplatesArgs),
    /// Designs of quilting side by side: what each comes to on the piece, and how it looks.
    #[command(after_help = "Example: ragbag designs waves echoes --spacing 3/4 --to designs.png")]
    Designs(DesignsArgs),
    /// Write the lines of quilting in true size, or as a paper guide.
    #[command(
        after_help = "Example: ragbag lines --to lines.dxf\n         ragbag lines --to guide.pdf --paper letter --true-size"
    )]
    Lines(LinesArgs),
    /// Write a quilt with the cloth it uses into one file.
    #[command(after_help = "Example: ragbag export low-tide.zip")]
    Export {
        /// The file.
        file: PathBuf,
        /// Write over a file that is there.
        #[arg(long)]
        over: bool,
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
    /// Make the demo, in a workroom of its own: ragbag-demo beside the usual one when not said.
    #[command(after_help = "Example: ragbag --workroom ~/low-tide demo")]
    Demo {
        /// At bed size instead: only its heap of 2,500 scraps and its plan, which `ragbag make` takes.
        #[arg(long)]
        bed_size: bool,
    },
    /// Serve the page on this machine.
    #[command(after_help = "Example: ragbag serve --port 8080")]
    Serve {
        /// The port; 0 takes any free one.
        #[arg(long, default_value_t = 7117)]
        port: u16,
        /// With the demo in it: its own workroom, when none is said.
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
