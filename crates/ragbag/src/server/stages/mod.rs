//! The stages after the centre: looked at, one or several side by side, and taken.
//!
//! A stage is asked for as in a plan file, as JSON. What stands against a stage is told in its own
//! place, so that the others beside it are still shown; a look never changes anything.

mod look;
mod looks;
mod read;
mod view;

pub(super) use look::{__path_back, __path_front, __path_look, __path_see, back, front, look, see};
pub(super) use looks::Looks;

use super::asks::{refused, still_at};
use super::error::{ApiError, Refused};
use super::extract::{InBody, InPath};
use super::view::AnswerView;
use super::{Shared, apart};
use axum::Json;
use axum::extract::State;
use read::{asked_of, stage_of};
use view::TakeBody;
use workroom::asks::{AskError, StageReport};

/// Takes a stage: its steps are planned, in one deed, which unpicking takes back whole.
#[utoipa::path(post, operation_id = "take_stage", path = "/api/quilts/{quilt}/stages", params(("quilt" = String, Path)), request_body = TakeBody,
    responses((status = 200, body = AnswerView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 409, body = Refused), (status = 413, body = Refused), (status = 415, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn take(
    State(shared): State<Shared>,
    InPath(quilt): InPath<String>,
    InBody(body): InBody<TakeBody>,
) -> Result<Json<AnswerView>, ApiError> {
    let stage = stage_of(&body.stage, 1)?;
    apart(move || {
        let mut room = shared.writing();
        let head = room.head(&quilt, &body.head)?;
        still_at(&head, body.tip.as_deref())?;
        let asked = asked_of(&mut room, &head.at(), &stage, body.svg.as_deref())?;
        match room.take_stage(&head.at(), &asked) {
            Ok((now, report)) => Ok(Json(taken(&now, &report))),
            Err(AskError::Refused { problem, remedies }) => Ok(Json(refused(&head, &problem, remedies))),
            Err(other) => Err(other.into()),
        }
    })
    .await?
}

fn taken(now: &workroom::quilts::Head, report: &StageReport) -> AnswerView {
    AnswerView {
        tip: now.tip.map(|tip| tip.to_string()),
        version: now.version,
        proposals: None,
        problems: None,
        words: Some(format!(
            "{}: {} It is planned, as chalk.",
            report.name(),
            report.told(quilt::length::LengthUnit::Inches).sentence
        )),
    }
}
