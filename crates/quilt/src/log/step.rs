//! The primitive steps.

use super::{Mark, Name};
use crate::cloth::{ClothId, Picture};
use plane::{Line, Point, Pose, Turn};
use serde::{Deserialize, Serialize};

/// One primitive step. Ring, border, growing and joining are runs of these.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Step {
    /// A patch begins a top of its own on the table. Its sides are born in order: side `no` runs
    /// from corner `no` to the next.
    Lay {
        /// Which cloth it is cut from.
        cloth: ClothId,
        /// From the patch's coordinates to the cloth's.
        at: Pose,
        /// What is cut: a simple polygon, counter-clockwise, right side up.
        cut: Vec<Point>,
    },
    /// Two tops are joined along one side each, or a seam left open is closed.
    Sew(Sewing),
    /// A cut along a straight line.
    Cut {
        /// Which top.
        top: Mark,
        /// Where.
        along: Along,
        /// What stays on the table.
        keep: Keep,
    },
    /// What is on the table, side by side, replaces what was planned.
    Measure {
        /// Which top.
        top: Mark,
        /// For each side measured, the line it really lies on.
        sides: Vec<Measured>,
        /// The photograph that it was measured by, if one was kept. It changes nothing on the table.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        shown: Option<Box<Shown>>,
    },
    /// A decision about a later stage.
    Choose(Stage),
    /// Words.
    Note(String),
    /// A top is turned where it lies, about the origin. Its up on the wall is y.
    Turn {
        /// Which top.
        top: Mark,
        /// How far.
        by: Turn,
    },
    /// A top is taken off the table: what it was is looked at as one patch from now on, which the
    /// next step lays.
    Aside {
        /// Which top.
        top: Mark,
    },
}

/// How two sides are sewn.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sewing {
    /// The top that has the side `with` is laid right sides together on the side `onto`.
    Join {
        /// The side sewn onto; its top stays where it is.
        onto: Name,
        /// The side sewn; its top moves.
        with: Name,
        /// How far the middle of `with` lies beyond the middle of `onto`, along `onto`, in inches.
        #[serde(default)]
        slide_in: f64,
        /// Seam allowance in inches.
        allowance_in: f64,
        /// Where the sewing stops short, if it does: the end of `onto`, and how many inches stay
        /// open.
        #[serde(default)]
        stop: Option<(End, f64)>,
        /// Whether what sticks out is trimmed in line with the neighbouring side, at the start
        /// and at the end of `onto`.
        flush: [bool; 2],
        /// Which way the allowance is pressed.
        press: Press,
    },
    /// The open part of a seam that stopped short is sewn.
    Close {
        /// Which seam.
        seam: Name,
    },
    /// A strip is sewn to every side of a convex top, and then the mitres between them. Each strip's
    /// seam stops at the points that lie the allowance from both raw edges; each mitre runs from
    /// there out. Seam `no` of this step lies on strip `no`; the mitre at the start of that strip
    /// is `no` plus the number of strips.
    Frame {
        /// The strips, walking once round the top counter-clockwise from any side.
        strips: Vec<FrameStrip>,
        /// Seam allowance in inches, of the seams and of the mitres.
        allowance_in: f64,
        /// How far inside the raw outer edges the mitres aim, in inches: at the crossing of what
        /// shows when the edges have been trimmed and bound. It matters between unequal strips.
        #[serde(default)]
        aim_in: f64,
        /// Which way the allowances are pressed.
        press: Press,
    },
}

/// One strip of a frame.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct FrameStrip {
    /// The side sewn onto; its top stays where it is.
    pub onto: Name,
    /// The side of the strip that is sewn; its top moves.
    pub with: Name,
    /// The side of the strip that becomes a side of the whole.
    pub outer: Name,
    /// How far the middle of the strip's own seam line lies beyond the middle of the seam, along
    /// `onto`, in inches.
    #[serde(default)]
    pub slide_in: f64,
}

/// An end of a side, walking round its outline counter-clockwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum End {
    /// Where the walk comes to it.
    Start,
    /// Where the walk leaves it.
    End,
}

/// Which way a seam allowance is pressed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Press {
    /// Both allowances under what was just added: the usual way.
    Over,
    /// Both allowances under what was there before.
    Back,
    /// One to each side.
    Open,
}

/// Where a cut runs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Along {
    /// Along a side's own line, taking off whatever sticks out beyond it.
    Side(Name),
    /// From a point on a side, turned left from the side's direction.
    From {
        /// Which side.
        side: Name,
        /// How far from the side's start, in inches.
        at_in: f64,
        /// How far the cut turns left from the side's direction.
        turn: Turn,
    },
}

/// What a cut leaves on the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Keep {
    /// What lies left of the cut; the rest is an offcut.
    Left,
    /// What lies right of it.
    Right,
    /// Both, as two tops: the left one keeps the name.
    Both,
}

/// A side as it was measured.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Measured {
    /// Which side.
    pub side: Name,
    /// The line it really lies on.
    pub line: Line,
}

/// A photograph of a top, flattened and in true size.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Shown {
    /// The picture, in the inches of the table that was photographed.
    pub picture: Picture,
    /// From there to the top's coordinates.
    pub lies: Pose,
}

/// A decision about a later stage, in the maker's words.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Backing and batting.
    Layers(String),
    /// Quilting lines and thread.
    Quilting(String),
    /// Binding.
    Binding(String),
    /// The appliquéd figure.
    Figure(String),
    /// A stage worked out on the real outline.
    Planned(Box<crate::stage::Chosen>),
}
