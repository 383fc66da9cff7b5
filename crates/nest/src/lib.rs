//! Many pieces into holed outlines: which cloth each piece is cut from, and where it lies.
//!
//! * Coordinates are inches, y up; outlines run counter-clockwise. Pieces are turned and shifted, never mirrored.
//! * Touching is allowed, and what overlaps by up to [`plane::READING`] counts as touching. Every answer is held
//!   against exact sums of `plane` before it is given ([`faults`]).
//! * What is wished, in this order: every piece placed; little cloth opened, by what each costs; liked cloth;
//!   pieces close together at one end, so that what is left stays in one large part.
//! * The same question, with the same seed, always gives the same answer: rounds are counted, no clock is read.
//!
//! Whether a piece collides is asked of a library's engine (`engine` alone knows it); where pieces are tried, what is
//! taken out and put back, and what is better, is decided here.

mod alone;
mod apart;
mod ask;
mod bands;
mod budget;
mod chance;
mod engine;
mod faults;
mod first_fit;
mod greedy;
mod improve;
mod near;
mod order;
mod overlap;
mod plain;
mod problem;
mod push;
mod seek;
mod shape;
mod state;
mod worth;

pub use ask::{Answer, Ask, Cloth, Effort, LeftOver, Piece, Placed, Price, Room, Source, Spot, Turns};
pub use faults::{Fault, faults};
pub use first_fit::first_fit;
pub use improve::{nest, nest_from};
pub use near::{gap, rims_apart};
pub use order::{A_LITTLE_IN, LongCut, Order, order};
pub use problem::NestProblem;
