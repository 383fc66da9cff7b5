//! The looks that can still be seen: those that are being worked out, and the last few that were.

use super::view::SeenView;
use crate::server::error::ApiError;
use quilt::log::StepId;
use quilt::table::Table;
use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

/// How many looks that ended are remembered.
const KEPT: usize = 6;

/// Most looks that are worked out at the same time.
pub(super) const AT_ONCE: usize = 2;

/// One stage that was looked at: what it says, and the table as it would be.
pub(super) struct Seen {
    pub(super) view: SeenView,
    pub(super) table: Option<Table>,
}

/// Stages looked at from one tip.
#[derive(Default)]
pub(super) struct Look {
    /// The tip that it was looked at from.
    pub(super) tip: Option<StepId>,
    /// Up to where the head was sewn.
    pub(super) sewn: Option<StepId>,
    pub(super) end: OnceLock<Result<Vec<Seen>, ApiError>>,
}

/// All looks of this program that are remembered, by number.
#[derive(Default)]
pub(crate) struct Looks {
    last: u64,
    all: BTreeMap<u64, Arc<Look>>,
}

impl Looks {
    /// A new look, unless enough of them are being worked out already.
    pub(super) fn begin(&mut self, [tip, sewn]: [Option<StepId>; 2]) -> Option<(u64, Arc<Look>)> {
        let ended: Vec<u64> =
            self.all.iter().filter(|(_, look)| look.end.get().is_some()).map(|(number, _)| *number).collect();
        if self.all.len() - ended.len() >= AT_ONCE {
            return None;
        }
        for old in ended.iter().take(ended.len().saturating_sub(KEPT - 1)) {
            self.all.remove(old);
        }
        self.last += 1;
        let look = Arc::new(Look { tip, sewn, ..Look::default() });
        self.all.insert(self.last, Arc::clone(&look));
        Some((self.last, look))
    }

    /// A look by its number.
    pub(super) fn get(&self, number: u64) -> Option<Arc<Look>> {
        self.all.get(&number).cloned()
    }
}
