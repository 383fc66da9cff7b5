//! What has been done to a piece since its top was pieced: the plans of the stages, and the looks
//! that plans don't know.
//!
//! Every part may be missing. Lengths and places are those of the plans: inches, seen from the front.

use colour::Srgb;
use plane::fill::Fill;
use quilt::cloth::ClothId;
use quilt::stage::binding::FinishPlan;
use quilt::stage::figure::{Figure, FigureOrder, FigurePlan};
use quilt::stage::layers::Backing;
use quilt::stage::sleeve::SleevePlan;
use quilt::sums::Join;

/// The stages that have been planned or done.
#[derive(Clone, Debug, Default)]
pub struct Stages<'a> {
    /// Lines of quilting.
    pub quilting: Option<Quilted<'a>>,
    /// The back.
    pub backing: Option<Backed<'a>>,
    /// The finish of the edge.
    pub edge: Option<Edged<'a>>,
    /// The figure.
    pub figure: Option<Figured<'a>>,
    /// Sleeve or tabs, and the label.
    pub hanging: Option<Hung<'a>>,
}

/// What something is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Made {
    /// A cloth of the stash.
    Of(ClothId),
    /// Cloth that has only been described.
    Plain(Srgb),
}

/// Lines of quilting in thread.
#[derive(Clone, Debug)]
pub struct Quilted<'a> {
    /// The lines, as they lie on the piece.
    pub fill: &'a Fill,
    /// Thread on top.
    pub front: Srgb,
    /// Thread below.
    pub back: Srgb,
    /// Length of a stitch in inches.
    pub stitch_in: f64,
}

/// A back.
#[derive(Clone, Debug)]
pub struct Backed<'a> {
    /// Which cloth is taken and how it lies, or the strips of a pieced one.
    pub plan: &'a Backing,
    /// The looks of the bolts, in the order of the choice. One that is missing is plain calico.
    pub bolts: Vec<Srgb>,
}

/// A finished edge.
#[derive(Clone, Debug)]
pub struct Edged<'a> {
    /// The binding or facing.
    pub plan: &'a FinishPlan,
    /// What its strips are cut from.
    pub made: Made,
    /// How its strips are joined.
    pub join: Join,
}

/// A figure sewn on top.
#[derive(Clone, Debug)]
pub struct Figured<'a> {
    /// Its layers and lines.
    pub plan: &'a FigurePlan,
    /// The drawing that was planned, for the order in which layers and lines lie on each other.
    pub drawn: &'a Figure,
    /// Whether it is sewn on before the quilting or over it.
    pub order: FigureOrder,
}

/// What a piece hangs by.
#[derive(Clone, Debug)]
pub struct Hung<'a> {
    /// The sleeve, the tabs, the place of the label.
    pub plan: &'a SleevePlan,
    /// Whether by sleeve or by tabs.
    pub by: HungBy,
    /// What sleeve or tabs are made of.
    pub made: Made,
    /// The words on the label, line by line.
    pub label: Vec<String>,
}

/// Sleeve or tabs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum HungBy {
    /// A sleeve.
    #[default]
    Sleeve,
    /// Tabs at the upper edge.
    Tabs,
}
