//! From a pieced top to a finished piece, one module a stage.
//!
//! Each stage has a *choice*, the maker's own parameters, which the log stores; a *plan*, everything
//! the stage says, computed from the choice and the real outline; and a pure function from one to
//! the other that refuses with a typed problem, its place, its numbers and a way out. Nothing here
//! reads the stash or the log: cloths and outlines are passed in as values. Outlines are inches,
//! counter-clockwise; every length says whether it is cut, raw, finished or bound.

pub mod figure;
