//! Enough? What the whole piece and each stage need, against what there is; what to buy; hours and
//! cost.
//!
//! Each stage says what it needs as [`Need`] values and what there is to do as [`Work`]; the stash
//! says what there is as [`Have`] values. [`enough`] holds one against the other: `short` is 0 or what
//! is missing, and what the stages are short of adds up to what the whole is. The shopping list
//! is rounded up to the shop's units. Money is the maker's own, whatever it is.

mod areas;
mod goods;
mod need;
mod problem;
mod report;
mod shop;
mod sold;
mod work;

pub use areas::{Known, ToSew, Used, UsedInTop, used_in_top};
pub use goods::{Goods, Unit};
pub use need::{Asked, Have, Need, StageName};
pub use problem::EnoughProblem;
pub use report::{Enough, Line, StageReport, enough};
pub use shop::{Buy, Price, Shop};
pub use sold::SoldBy;
pub use work::{Rates, Work, WorkKind};
