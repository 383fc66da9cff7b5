//! The stash: a ledger of facts about cloth, and the sums of cutting it.
//!
//! Everything but the use cases is pure. Inches; y up; cloth always right side up. A cloth with a
//! `parent` lies in its parent's coordinates: a remainder, an offcut of one patch and a patch
//! given back all keep the place they had, so a plan drawn on the parent still finds them.

mod changes;
mod cut;
mod fact;
mod family;
mod new_cloth;
mod pieced;
mod portion;
mod slices;
mod strip_set;
mod usable;
mod uses;

pub use changes::Changes;
pub(crate) use cut::outside_of;
pub use cut::{Cutting, Outside, take};
pub use fact::{By, Fact, Left, Off};
pub(crate) use family::{Brought, voided};
pub use family::{Item, Stash};
pub use new_cloth::NewCloth;
pub use pieced::{OffcutCloth, offcut_cloth};
pub(crate) use portion::CRUMB_IN2;
pub use portion::{hole_free, portion};
pub use slices::{Across, slices, stripes};
pub use strip_set::{Strip, StripSetProblem, strip_set};
pub use usable::Usable;
pub use uses::{CutAsk, CutReport, StripAsk};
