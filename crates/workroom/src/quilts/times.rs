//! When the steps of a head were planned and sewn, by the deeds that moved the quilt's heads.
//!
//! A step that was carried in from another workroom, or done before times were kept, has none. What was
//! unpicked and sewn again has the time of the last sewing; an amended step is planned anew.

use super::Log;
use crate::error::Result;
use crate::store::deeds::{self, Change, HeadState};
use crate::store::quilts;
use crate::workroom::Workroom;
use std::collections::BTreeMap;

/// A moment of this machine's clock.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Moment {
    /// Seconds since 1970, for differences.
    pub seconds: i64,
    /// Day and time: `2026-03-01 14:05:09`.
    pub local: String,
}

impl Moment {
    /// The day alone.
    #[must_use]
    pub fn day(&self) -> &str {
        self.local.split(' ').next().unwrap_or_default()
    }
}

/// When a step was planned and when it was sewn, as far as that is known.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct StepTimes {
    /// When it came into the log.
    pub planned: Option<Moment>,
    /// When it was told to be sewn.
    pub sewn: Option<Moment>,
}

impl Workroom {
    /// The times of a log's steps, in their order.
    ///
    /// # Errors
    /// No such quilt; trouble with the store.
    pub fn times(&self, log: &Log) -> Result<Vec<StepTimes>> {
        let view = self.store.view()?;
        let key = quilts::get(&view, &log.head.quilt)?;
        let ids: Vec<String> = log.steps.iter().map(|step| step.id.to_string()).collect();
        let at: BTreeMap<&str, usize> = ids.iter().enumerate().map(|(i, id)| (id.as_str(), i + 1)).collect();
        let reach = |step: &Option<String>| step.as_deref().and_then(|id| at.get(id)).copied().unwrap_or(0);
        let mut times = vec![StepTimes::default(); ids.len()];
        let mut planned = 0;
        let mut sewn: BTreeMap<String, usize> = BTreeMap::new();
        for deed in deeds::dated(&view)? {
            let moment = deed.at.map(|(seconds, local)| Moment { seconds, local });
            for change in deed.changes {
                let Change::Head { quilt, name, after, .. } = change else { continue };
                if quilt != key {
                    continue;
                }
                let (tip, done) =
                    after.as_ref().map_or((0, 0), |HeadState { tip, sewn, .. }| (reach(tip), reach(sewn)));
                for step in times.iter_mut().take(tip).skip(planned) {
                    step.planned.clone_from(&moment);
                }
                planned = planned.max(tip);
                let before = sewn.values().copied().max().unwrap_or(0);
                for step in times.iter_mut().take(done).skip(before) {
                    step.sewn.clone_from(&moment);
                }
                sewn.insert(name, done);
            }
        }
        // What isn't sewn now has no time, whatever was unpicked.
        times.iter_mut().skip(log.sewn).for_each(|step| step.sewn = None);
        Ok(times)
    }
}
