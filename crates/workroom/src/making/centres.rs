//! The centres of a plan: grown, or quilts that are there, and joined.

use super::file::CentresPlanned;
use crate::asks::{AskError, Asked, Centre, GrowAsk, GrowCentres, Joined};
use crate::quilts::head_named;
use crate::workroom::Workroom;
use ::grow::Watch;
use ::grow::centres::{self, Arrangement, Block, CentresChoice, Seat};
use quilt::wish::Wish;

impl Workroom {
    /// The joined top of a plan's centres.
    pub(super) fn plan_centres(
        &mut self,
        planned: &CentresPlanned,
        wish: &Wish,
        ask: &GrowAsk,
        watch: &mut dyn Watch,
    ) -> Asked<Joined> {
        let choice = self.choice_of(planned)?;
        if !planned.of.is_empty() {
            let heads: Vec<(String, String)> = planned.of.iter().map(|name| head_named(name)).collect();
            let (found, allowance_in) = self.centres_of(&heads)?;
            return self.joined(&found, &planned.shapes_in, &choice, allowance_in);
        }
        let sizes_in = sizes(planned)?;
        // What can't be laid out is said before anything is grown.
        let plain = |(i, [width_in, height_in]): (usize, &[f64; 2])| Block {
            name: Centre::numbered(i),
            width_in: *width_in,
            height_in: *height_in,
            weight: 0.0,
            prints: Vec::new(),
        };
        let blocks: Vec<Block> = sizes_in.iter().enumerate().map(plain).collect();
        let laid = centres::plan(&blocks, &choice, wish.allowance_in).map_err(cant)?;
        if let (Some(strip), true) = (laid.strips.first(), choice.coping.is_empty()) {
            let cut_in = [strip.cut_wide_in, strip.cut_long_in];
            return Err(cant(centres::CentresProblem::NoCloth { strip: 1, cut_in }));
        }
        let grown = self.grow_centres(&GrowCentres { sizes_in: &sizes_in, wish, ask }, watch)?;
        self.joined(&grown, &[], &choice, wish.allowance_in)
    }

    /// A layout as the plan wishes it, its cloths found by name.
    fn choice_of(&mut self, planned: &CentresPlanned) -> Asked<CentresChoice> {
        let [width_in, height_in] = planned.size_in;
        let usual = CentresChoice::new(width_in, height_in);
        let arrangement = match (planned.rows, planned.places.is_empty()) {
            (Some(_), false) => {
                return Err(AskError::Nonsense {
                    what: "the plan's [centres] has both rows and places".to_owned(),
                    hint: "Give one of them.".to_owned(),
                });
            }
            (Some([across, down]), true) => Arrangement::Rows { across, down },
            (None, true) => Arrangement::Mixed,
            (None, false) => {
                let seat = |(block, place): (usize, &super::file::PlacePlanned)| Seat {
                    block,
                    x_in: place.x_in,
                    y_in: place.y_in,
                    width_in: place.width_in,
                    height_in: place.height_in,
                    turned: place.turned,
                };
                Arrangement::Given(planned.places.iter().enumerate().map(seat).collect())
            }
        };
        Ok(CentresChoice {
            arrangement,
            tolerance_in: planned.tolerance_in,
            least_coping_in: planned.least_coping_in.unwrap_or(usual.least_coping_in),
            most_coping_in: planned.most_coping_in,
            most_coping_share: planned.most_coping_share.unwrap_or(usual.most_coping_share),
            may_turn: planned.may_turn,
            partial_seams: planned.partial_seams,
            coping: planned.coping.iter().map(|name| self.cloth_in_heap(name)).collect::<Asked<_>>()?,
            seed: planned.seed,
            ..usual
        })
    }
}

/// The finished size of each centre.
fn sizes(planned: &CentresPlanned) -> Asked<Vec<[f64; 2]>> {
    let nonsense =
        |what: &str, hint: &str| AskError::Nonsense { what: what.to_owned(), hint: hint.to_owned() };
    if planned.shapes_in.is_empty() {
        return Err(nonsense(
            "the plan's [centres] doesn't say how large the centres are",
            "Write shapes_in = [[18, 20], [15, 16]]: finished widths and heights, taken by turns.",
        ));
    }
    let count = planned.count.unwrap_or(planned.shapes_in.len());
    if !(1..=centres::MOST_BLOCKS).contains(&count) {
        let hint = format!("Between 1 and {} are joined at once.", centres::MOST_BLOCKS);
        return Err(nonsense(&format!("{count} centres can't be joined"), &hint));
    }
    if planned.shapes_in.iter().flatten().any(|inches| !(2.0..=quilt::length::MOST_IN).contains(inches)) {
        return Err(nonsense(
            "a centre is to be smaller than 2 inches or larger than any cloth",
            "Check shapes_in.",
        ));
    }
    Ok((0..count).map(|i| planned.shapes_in[i % planned.shapes_in.len()]).collect())
}

fn cant(problem: impl std::fmt::Display) -> AskError {
    AskError::CantBe { what: format!("the plan's [centres]: {problem}"), hint: String::new() }
}
