//! What the maker asks: the next piece, growing, a look at what is there, sewing by hand.
//!
//! Each ask reads the head, decides on steps, and appends them in one deed. Nothing here knows
//! whether a command line or a browser asked.

mod draw;
mod enough;
mod error;
mod finished;
mod grow;
mod hand;
mod heap;
mod look;
mod measure;
mod propose;
mod remeasure;
mod room;
mod stage;
mod story;
mod true_up;
mod unpick;
mod wish;

pub use draw::DrawAsk;
pub use enough::EnoughReport;
pub use error::{AskError, Asked};
pub use grow::{GrowAsk, GrowReport, MOST_WHAT_IFS, WhatIf};
pub use hand::{HandSewn, Instead};
pub use look::{Due, EyeReport};
pub use measure::{MeasureReport, SideMeasure};
pub use propose::{Offer, OfferPatch};
pub use remeasure::Remeasured;
pub use room::Fitting;
pub use stage::{ClothName, StageAsk, StageLook, StageReport};
pub use story::story;
pub use true_up::{TrueUp, TrueUpCut};
