//! A stage as the page asks for it: the words of a plan file, with lengths as a maker writes them.

use crate::server::error::ApiError;
use crate::server::extract::{kinds, wrong_field};
use axum::http::StatusCode;
use serde_json::Value;
use workroom::Workroom;
use workroom::asks::{AskError, Asked, StageAsk};
use workroom::making::{PlanProblem, PlanStage, read_stage};
use workroom::quilts::At;

/// What a plan calls the heron that comes with the program.
const HERON: &str = "heron";

/// The largest drawing of a figure that may be sent along, in bytes.
const MOST_SVG_BYTES: usize = 1 << 20;

/// Reads a stage, the `no`-th of those asked.
///
/// # Errors
/// What is wrong with it: its field, and what it must be.
pub(super) fn stage_of(asked: &Value, no: usize) -> Result<PlanStage, ApiError> {
    let wrong = |what: String, hint: &str| ApiError::new(StatusCode::UNPROCESSABLE_ENTITY, what, hint);
    read_stage(asked).map_err(|problem| {
        let what = match problem {
            PlanProblem::Stage { name, why, .. } => {
                let field = wrong_field(asked, &kinds(), |mended| read_stage(mended).is_ok());
                let why = field.map_or(why, |field| field.what);
                format!("stage {no}, {name}: {why}")
            }
            PlanProblem::Length { key, why, .. } => {
                return wrong(format!("stage {no}, `{key}`: {why}"), WRITTEN);
            }
            PlanProblem::Unknown { name, key, .. } => format!("stage {no}, {name}, doesn't know `{key}`"),
            PlanProblem::OneEach { names, .. } => {
                format!("stage {no} names {names}: it must name exactly one stage")
            }
            PlanProblem::Unreadable { .. } => {
                format!(
                    "stage {no} can't be read: a number in it is too large, or a place of a list is empty"
                )
            }
            PlanProblem::Section { why, .. } => format!("stage {no}: {why}"),
        };
        wrong(what, "docs/PLAN.md tells what each stage can say.")
    })
}

const WRITTEN: &str = "Write lengths as 2 1/4, 2.25 or 57 mm.";

/// What a stage asks at a head, with its figure read: the heron, or what was sent along.
///
/// # Errors
/// As [`Workroom::ask_of`]; a drawing that wasn't sent, or is too large.
pub(super) fn asked_of(
    room: &mut Workroom,
    at: &At,
    stage: &PlanStage,
    svg: Option<&str>,
) -> Asked<StageAsk> {
    if let Some(svg) = svg.filter(|svg| svg.len() > MOST_SVG_BYTES) {
        return Err(AskError::Nonsense {
            what: format!("the figure's drawing has {} bytes: {MOST_SVG_BYTES} are the most", svg.len()),
            hint: "Simplify its curves, or finish it on the command line.".to_owned(),
        });
    }
    room.ask_of(at, stage, &|name| match (name, svg) {
        (HERON, _) => Ok(::demo::HERON.as_bytes().to_vec()),
        (_, Some(svg)) => Ok(svg.as_bytes().to_vec()),
        (_, None) => Err("no drawing was sent along".to_owned()),
    })
}
