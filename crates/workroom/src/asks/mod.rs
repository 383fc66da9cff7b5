//! What the maker asks: the next piece, growing, a look at what is there, sewing by hand.
//!
//! Each ask reads the head, decides on steps, and appends them in one deed. Nothing here knows
//! whether a command line or a browser asked.

mod beside;
mod catch_up;
mod centres;
mod chosen;
mod cloth_name;
pub mod cutting;
mod designs;
mod draw;
mod edge;
mod enough;
mod enough_needs;
mod enough_wished;
mod error;
mod finished;
mod grow;
mod habits;
mod hand;
mod heap;
mod lines;
mod look;
mod measure;
mod names;
mod photographed;
mod propose;
mod remeasure;
mod room;
mod spools;
mod stage;
mod story;
mod taken;
mod told;
mod true_up;
mod unpick;
mod wish;

pub(crate) use catch_up::CutFrom;
pub use catch_up::{CaughtUp, Guess, PatchSeen};
pub(crate) use centres::{Centre, GrowCentres, Joined};
pub use centres::{CentreSquared, CentresReport, JoinAsk, Weights};
pub(crate) use chosen::decided;
pub use cloth_name::{BackingAsk, ClothName, LayersAsk};
pub use designs::{DesignCompared, DesignsCompared};
pub use draw::DrawAsk;
pub use enough::{EnoughReport, StageThread};
pub(crate) use enough_needs::{ClothKey, cloth_key};
pub use error::{AskError, Asked};
pub(crate) use grow::report;
pub use grow::{GrowAsk, GrowReport, MOST_WHAT_IFS, WhatIf};
pub use habits::numbers as numbers_of_habits;
pub use hand::{HandSewn, Instead};
pub use lines::QuiltingLines;
pub use look::{Due, EyeReport};
pub use measure::{MeasureReport, SideMeasure};
pub use names::GoodsNames;
pub use propose::{Offer, OfferPatch};
pub use remeasure::Remeasured;
pub use room::Fitting;
pub use spools::{SpoolFound, SpoolsFor, ThreadAsk, ThreadReport};
pub use stage::{StageAsk, StageLook, StageReport};
pub use story::story;
pub(crate) use story::{marks, told};
pub use told::Told;
pub(crate) use told::capital;
pub use true_up::{TrueUp, TrueUpCut};
