//! Our own prints and heaps, for the demo and the tests.
//!
//! * A [`Print`] is a seamless design in real size, drawn by rule from a seed; its [`look`] is
//!   known without a picture being painted.
//! * A [`Heap`] is a basket of scraps of such prints: [`low_tide`] for the demo, [`frozen_heap`]
//!   for the benchmarks.
//! * [`HERON`] is the figure that is sewn on.
//! * [`picture_of`] paints one scrap, as a photograph of it would come once it is flattened.
//! * [`scene`] renders photographs of scraps and of half-made pieces, with everything known about
//!   them; [`sewn`] sews such a piece.
//!
//! Inches throughout; y is up. Nothing is read or written here. The same seed gives the same heap,
//! to the bit on the same platform: lengths, angles and colours come of powers, sines and the
//! like, which other platforms may round otherwise in the last bits. To a millionth of an inch
//! heaps are alike in practice; a test holds them to that.
//!
//! [`look`]: Print::look
//! [`sewn`]: sewn()

mod dice;
mod figure;
mod heap;
mod noise;
mod outline;
mod picture;
mod print;
mod problem;
mod raster;
pub mod scene;
mod sewn;
mod spring_tide;

pub use figure::HERON;
pub use heap::{Heap, Scrap, frozen_heap, heap, low_tide, low_tide_lengths};

/// How *Low Tide* is finished: a plan file.
pub const LOW_TIDE_PLAN: &str = include_str!("low-tide.toml");

/// *Spring Tide*, at bed size: a plan file.
pub const SPRING_TIDE_PLAN: &str = include_str!("spring-tide.toml");
pub use picture::{Drawn, picture_of, pictures};
pub use print::{Print, prints};
pub use problem::PictureProblem;
pub use raster::Raster;
pub use sewn::{Sewn, sewn};
pub use spring_tide::{spring_tide, spring_tide_lengths};
