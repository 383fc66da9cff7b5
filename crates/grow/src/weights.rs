//! How much each part of a move's score counts before the maker's own weights. Tuned on the frozen
//! heaps 1 to 20 against the eye check.

/// Unevenness of the outline.
pub(crate) const ROUND: f64 = 1.6;
/// Sides that will be hard to sew on.
pub(crate) const GROWABLE: f64 = 1.5;
/// A side that gets ahead.
pub(crate) const PACE: f64 = 0.8;
/// Seams that all run the same way.
pub(crate) const DIRECTIONS: f64 = 0.5;
/// Long thin pieces.
pub(crate) const BAR: f64 = 1.5;
/// Pieces whose long sides are nearly parallel.
pub(crate) const STRIP: f64 = 0.9;
/// Pieces too large or too small for their place.
pub(crate) const STEP: f64 = 0.9;
/// Colours off the wished way.
pub(crate) const DRIFT: f64 = 1.5;
/// Edges that don't read.
pub(crate) const CONTRAST: f64 = 1.2;
/// The same between neighbours in one unit.
pub(crate) const BESIDE: f64 = 0.35;
/// Prints that come again too soon.
pub(crate) const REST: f64 = 1.6;
/// Visual weight to one side.
pub(crate) const BALANCE: f64 = 1.0;
/// Large scraps cut for small pieces.
pub(crate) const LEFTOVER: f64 = 0.2;
/// For each four square inches trimmed off first.
pub(crate) const THRIFT: f64 = 1.0;
/// What it is worth to use a cloth that the maker wants used up.
pub(crate) const USE_UP: f64 = 0.3;
/// A seam that makes a long straight line inside.
pub(crate) const LINE: f64 = 3.0;
/// Joins that meet older joins at the seam.
pub(crate) const STACKED: f64 = 0.5;
/// Pieces that stand out where no spark is wished.
pub(crate) const LOUD: f64 = 5.0;
