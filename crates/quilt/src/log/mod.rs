//! The sewing log: the document. A quilt is a tree of steps; everything else is replayed from
//! the path to a tip.
//!
//! The types here are the file format. Their stored form is frozen once released: old bytes are
//! never rewritten, and the golden logs in `tests/golden` hold them to it.

mod entry;
mod name;
mod rename;
mod step;

pub use entry::{Entry, Run, RunKind, StepId};
pub use name::{Bound, Mark, Name};
pub use step::{Along, End, FrameStrip, Keep, Measured, Press, Sewing, Shown, Stage, Step};
