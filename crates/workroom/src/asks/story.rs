//! The log told in sentences, and what plans lay claim to.

use super::error::{AskError, Asked};
use crate::audit::claims;
use crate::quilts::{At, UnpickReport};
use crate::workroom::Workroom;
use quilt::cloth::{Cloth, ClothId};
use quilt::length::fraction;
use quilt::log::{Along, Keep, Press, Sewing, Stage, Step};
use std::collections::BTreeMap;

/// One step as a sentence.
#[must_use]
pub fn sentence(step: &Step, cloths: &BTreeMap<ClothId, Cloth>) -> String {
    match step {
        Step::Lay { cloth, cut, .. } => {
            let name = cloths.get(cloth).map_or("an unknown cloth", |cloth| cloth.name.as_str());
            let (low, high) = plane::polygon::bounds(cut).unwrap_or_default();
            format!("Cut {name}, {} by {}, cut.", fraction(high.x - low.x, 8), fraction(high.y - low.y, 8))
        }
        Step::Sew(Sewing::Join { onto, with, stop, press, .. }) => {
            let stop = stop.map_or_else(String::new, |(_, open)| {
                format!(", leaving the last {} open", fraction(open, 8))
            });
            let press = match press {
                Press::Over => "press over",
                Press::Back => "press back",
                Press::Open => "press open",
            };
            format!("Sew side {with} onto side {onto}{stop}; {press}.")
        }
        Step::Sew(Sewing::Close { seam }) => format!("Close the rest of seam {seam}."),
        Step::Cut { along: Along::Side(side), .. } => format!("Trim in line with side {side}."),
        Step::Cut { along: Along::From { side, at_in, .. }, keep, .. } => {
            let what = if *keep == Keep::Both { "Slice apart" } else { "Trim" };
            format!("{what} from {} along side {side}, raw.", fraction(*at_in, 8))
        }
        Step::Measure { sides, .. } => format!("Measure {} sides.", sides.len()),
        Step::Choose(stage) => {
            let (Stage::Layers(words)
            | Stage::Quilting(words)
            | Stage::Binding(words)
            | Stage::Figure(words)) = stage;
            format!("Decide: {words}")
        }
        Step::Note(words) => words.clone(),
    }
}

impl Workroom {
    /// How much of each cloth a head's chalk claims, in square inches.
    ///
    /// # Errors
    /// No such quilt or head.
    pub fn claimed_areas(&mut self, quilt: &str, head: &str) -> Asked<BTreeMap<ClothId, f64>> {
        let log = self.log(quilt, head)?;
        let claimed = claims(&log.entries(), log.sewn);
        Ok(claimed
            .into_iter()
            .map(|(cloth, parts)| (cloth, parts.iter().map(|part| part.region.area()).sum()))
            .collect())
    }

    /// Goes back by one run: the last piece, trim or growing.
    ///
    /// # Errors
    /// Nothing to unpick; a head that moved.
    pub fn unpick_run(&mut self, at: &At) -> Asked<UnpickReport> {
        let log = self.log(&at.quilt, &at.head)?;
        let last = log.steps.last().ok_or(AskError::NothingOnTable)?;
        let run = last.entry.run.as_ref().map_or(last.entry.mark, |run| run.first);
        let keep = log
            .steps
            .iter()
            .position(|step| step.entry.run.as_ref().map_or(step.entry.mark, |own| own.first) == run);
        let to = keep.and_then(|count| count.checked_sub(1)).map(|i| log.steps[i].id);
        Ok(self.unpick(at, to)?)
    }
}
