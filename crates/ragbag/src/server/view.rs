//! What goes over the wire. Lengths are inches, areas square inches; every name says which size.

use super::bend::BendView;
use super::error::Said;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// The workroom: every quilt in it.
#[derive(Serialize, ToSchema)]
pub(crate) struct RoomView {
    pub(crate) name: String,
    pub(crate) quilts: Vec<QuiltView>,
    /// What undoing would take back, if anything.
    #[schema(required)]
    pub(crate) undo: Option<String>,
}

/// A quilt and its heads.
#[derive(Serialize, ToSchema)]
pub(crate) struct QuiltView {
    pub(crate) name: String,
    pub(crate) heads: Vec<HeadView>,
}

/// A named tip of a quilt's log.
#[derive(Serialize, ToSchema)]
pub(crate) struct HeadView {
    pub(crate) name: String,
    #[schema(required)]
    pub(crate) tip: Option<String>,
    #[schema(required)]
    pub(crate) sewn: Option<String>,
    pub(crate) steps: usize,
    pub(crate) version: u64,
}

/// The stash, as one quilt sees it.
#[derive(Serialize, ToSchema)]
pub(crate) struct StashView {
    pub(crate) cloths: Vec<ClothView>,
}

/// A cloth in the stash.
#[derive(Serialize, ToSchema)]
pub(crate) struct ClothView {
    pub(crate) id: String,
    pub(crate) no: u32,
    pub(crate) name: String,
    pub(crate) kind: String,
    /// Its measures are a guess ("about 3 by 5").
    pub(crate) about: bool,
    #[schema(required)]
    pub(crate) place: Option<String>,
    pub(crate) area_in2: f64,
    pub(crate) width_in: f64,
    pub(crate) height_in: f64,
    /// Share of the cloth as it came that is still there, 0 to 1.
    pub(crate) remaining: f64,
    /// Share of what is there that plans lay claim to, 0 to 1.
    pub(crate) claimed: f64,
    #[schema(required)]
    pub(crate) print: Option<String>,
    /// Which ways its print may be turned.
    pub(crate) runs: String,
    pub(crate) colours: Vec<ShadeView>,
    #[schema(required)]
    pub(crate) picture_url: Option<String>,
    pub(crate) svg_url: String,
}

/// One of the main colours of a cloth.
#[derive(Serialize, ToSchema)]
pub(crate) struct ShadeView {
    pub(crate) hex: String,
    pub(crate) share: f64,
}

/// The log of one head, from the first step to its tip.
#[derive(Serialize, ToSchema)]
pub(crate) struct LogView {
    #[schema(required)]
    pub(crate) tip: Option<String>,
    #[schema(required)]
    pub(crate) sewn: Option<String>,
    pub(crate) version: u64,
    pub(crate) entries: Vec<EntryView>,
}

/// An entry of the sewing log.
#[derive(Serialize, ToSchema)]
pub(crate) struct EntryView {
    pub(crate) step: String,
    pub(crate) mark: u32,
    pub(crate) kind: String,
    #[schema(required)]
    pub(crate) run: Option<RunView>,
    pub(crate) sentence: String,
    pub(crate) sewn: bool,
    /// Names of the patches that it brought to the table.
    pub(crate) patches: Vec<String>,
    /// The photograph that it measured the piece by, if it was one.
    #[schema(required)]
    pub(crate) photo: Option<PhotoState>,
}

/// A photograph that belongs to the log.
#[derive(Clone, Copy, Serialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum PhotoState {
    /// It can be shown.
    Kept,
    /// Its file is gone from the workroom.
    Missing,
}

/// The run an entry belongs to.
#[derive(Serialize, ToSchema)]
pub(crate) struct RunView {
    pub(crate) first: u32,
    pub(crate) kind: String,
    /// What it is called in the trade.
    pub(crate) name: String,
}

/// What lies on the table after a step.
#[derive(Serialize, ToSchema)]
pub(crate) struct TableView {
    pub(crate) tops: Vec<TopView>,
}

/// A top on the table.
#[derive(Serialize, ToSchema)]
pub(crate) struct TopView {
    pub(crate) mark: u32,
    pub(crate) sides: Vec<SideView>,
    pub(crate) patches: Vec<PatchView>,
    pub(crate) seams: Vec<SeamView>,
    /// Raw width and height of its box.
    pub(crate) width_in: f64,
    pub(crate) height_in: f64,
    #[schema(required)]
    pub(crate) thickest: Option<ThickView>,
}

/// A free side.
#[derive(Serialize, ToSchema)]
pub(crate) struct SideView {
    pub(crate) name: String,
    /// The raw length.
    pub(crate) length_in: f64,
    /// Whether it can be sewn before the next pressing.
    pub(crate) sewable: bool,
}

/// A patch.
#[derive(Serialize, ToSchema)]
pub(crate) struct PatchView {
    pub(crate) name: String,
    pub(crate) cloth: String,
    pub(crate) cloth_name: String,
    /// The box of what was cut, width and height.
    pub(crate) cut_in: Vec<f64>,
    pub(crate) finished_area_in2: f64,
    /// The seam that holds it.
    #[schema(required)]
    pub(crate) held_by: Option<String>,
}

/// A seam.
#[derive(Serialize, ToSchema)]
pub(crate) struct SeamView {
    pub(crate) name: String,
    /// As it was sewn, raw edge to raw edge.
    pub(crate) length_in: f64,
    pub(crate) press: String,
    pub(crate) order: u32,
}

/// The point with the most layers.
#[derive(Serialize, ToSchema)]
pub(crate) struct ThickView {
    pub(crate) layers: u32,
    pub(crate) x_in: f64,
    pub(crate) y_in: f64,
}

/// The eye check of a step.
#[derive(Serialize, ToSchema)]
pub(crate) struct EyeView {
    pub(crate) rows: Vec<RowView>,
    pub(crate) gates_passed: bool,
    pub(crate) total_cost: f64,
}

/// A row of the eye check.
#[derive(Serialize, ToSchema)]
pub(crate) struct RowView {
    pub(crate) key: String,
    pub(crate) quality: String,
    #[schema(required)]
    pub(crate) number: Option<String>,
    pub(crate) words: String,
    pub(crate) grade: GradeView,
    pub(crate) marks: Vec<MarkView>,
}

/// How good a row of the eye check is.
#[derive(Clone, Copy, Serialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum GradeView {
    Good,
    Fair,
    Poor,
}

/// A place on the piece, y up.
#[derive(Serialize, ToSchema)]
pub(crate) struct MarkView {
    pub(crate) kind: MarkKind,
    pub(crate) points: Vec<[f64; 2]>,
}

/// What the points of a mark make.
#[derive(Clone, Copy, Serialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum MarkKind {
    Point,
    Line,
    Area,
}

/// What the page asks for. It is never a step: the program decides the steps.
#[derive(Deserialize, ToSchema)]
pub(crate) struct AskBody {
    pub(crate) head: String,
    pub(crate) tip: Option<String>,
    pub(crate) ask: AskView,
}

/// An ask.
#[derive(Deserialize, ToSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub(crate) enum AskView {
    /// Proposals for a side, or for the sides most due.
    Next { side: Option<String>, count: Option<usize>, bend: Option<BendView> },
    /// Take a proposal of that ask.
    Take { proposal: usize, side: Option<String>, count: Option<usize>, bend: Option<BendView> },
    /// Don't propose it again.
    Refuse { proposal: usize, side: Option<String>, count: Option<usize>, bend: Option<BendView> },
    /// Propose again what was refused.
    ForgetRefusals { side: Option<String>, count: Option<usize>, bend: Option<BendView> },
    /// Lay a first patch, a rectangle cut so wide and so deep.
    Lay { cloth: String, wide: String, deep: String },
    /// Sewn, up to this step or the whole of it.
    Sewn { upto: Option<u32> },
    /// Something else was used for a patch (the step that lays it; the first that is only planned
    /// when not said): which cloth, and about how large it was cut, as a maker writes it.
    /// Where the heap has no room for that, it is refused, unless it is so `anyway`.
    Instead {
        patch: Option<u32>,
        cloth: String,
        wide: Option<String>,
        deep: Option<String>,
        anyway: Option<bool>,
    },
    /// Go back a run.
    Unpick,
    /// Go forward again.
    Resew,
    /// Grow by so many pieces.
    Grow { pieces: usize, seed: u64 },
    /// Several variants from here.
    WhatIfs { count: usize, pieces: usize, seed: u64 },
}

/// What came of an ask.
#[derive(Clone, Serialize, ToSchema)]
pub(crate) struct AnswerView {
    #[schema(required)]
    pub(crate) tip: Option<String>,
    pub(crate) version: u64,
    #[schema(required)]
    pub(crate) proposals: Option<Vec<ProposalView>>,
    #[schema(required)]
    pub(crate) problems: Option<Vec<ProblemView>>,
    /// What it came to, as a sentence, where there is something to say.
    #[schema(required)]
    pub(crate) words: Option<String>,
}

/// A next piece that is proposed.
#[derive(Clone, Serialize, ToSchema)]
pub(crate) struct ProposalView {
    pub(crate) no: usize,
    pub(crate) cloth: String,
    pub(crate) cloth_name: String,
    pub(crate) side: String,
    /// The side it was proposed for: the same, unless a trim goes first.
    pub(crate) asked: String,
    pub(crate) cut_words: String,
    pub(crate) patches: Vec<ProposalPatchView>,
    pub(crate) lay_words: String,
    pub(crate) score: f64,
    pub(crate) terms: Vec<TermView>,
    pub(crate) preview_svg_url: String,
}

/// One patch of a proposal, and how it is cut.
#[derive(Clone, Serialize, ToSchema)]
pub(crate) struct ProposalPatchView {
    /// The number in the heap of the cloth that it is cut from.
    #[schema(required)]
    pub(crate) no: Option<u32>,
    pub(crate) cloth: String,
    pub(crate) cloth_name: String,
    /// Its finished size, in words.
    pub(crate) size: String,
    /// One sentence a line of the ruler; its number, letters and lengths are those of the drawing.
    pub(crate) cuts: Vec<String>,
    /// The cloth with the letters of its edges, their lengths, and the ruler's lines.
    pub(crate) cut_svg_url: String,
}

/// One term of a score: what it adds.
#[derive(Clone, Serialize, ToSchema)]
pub(crate) struct TermView {
    pub(crate) name: String,
    pub(crate) words: String,
    pub(crate) value: f64,
}

/// Why something can't be sewn, and what would help.
#[derive(Clone, Serialize, ToSchema)]
pub(crate) struct ProblemView {
    pub(crate) rule: String,
    pub(crate) message: String,
    #[schema(required)]
    pub(crate) place: Option<String>,
    pub(crate) remedies: Vec<String>,
}

/// Growing that goes on while the page does something else.
#[derive(Serialize, ToSchema)]
pub(crate) struct JobView {
    pub(crate) job: u64,
    /// Of which quilt and head it grows.
    pub(crate) quilt: String,
    pub(crate) head: String,
    /// Pieces on the table so far, and about how many there will be; of what-ifs, in all of them.
    pub(crate) pieces: usize,
    pub(crate) about: usize,
    /// Whether it was asked to stop.
    pub(crate) stopping: bool,
    /// Whether it has ended: then it has an answer, or else an error.
    pub(crate) ended: bool,
    #[schema(required)]
    pub(crate) answer: Option<AnswerView>,
    #[schema(required)]
    pub(crate) error: Option<Said>,
    /// The status that goes with the error.
    #[schema(required)]
    pub(crate) status: Option<u16>,
}

/// The jobs that are known, oldest first.
#[derive(Serialize, ToSchema)]
pub(crate) struct JobsView {
    pub(crate) jobs: Vec<JobView>,
}
