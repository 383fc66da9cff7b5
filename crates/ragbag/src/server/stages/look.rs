//! Looking at stages. A look has a door of its own to the workroom; what isn't done in a moment goes on
//! while everything else is answered, and is asked for again by its number.

use super::looks::{AT_ONCE, Look, Seen};
use super::read::{asked_of, stage_of};
use super::view::{LookBody, LooksView, SeenView, ToldView};
use crate::server::error::{ApiError, Refused};
use crate::server::extract::{InBody, InPath, InQuery};
use crate::server::jobs::door;
use crate::server::reads::{Drawn, svg};
use crate::server::{Shared, apart};
use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use serde_json::Value;
use std::sync::Arc;
use std::time::Duration;
use workroom::Workroom;
use workroom::asks::{Asked, StageLook};
use workroom::making::PlanStage;
use workroom::quilts::At;

/// Most stages that are looked at side by side.
const MOST: usize = 8;

/// So long an answer is waited for before it is left to be asked for again.
const MOMENT: Duration = Duration::from_millis(300);

/// Looks at stages from a head's tip, each by itself. Answers with them, or with the number by which
/// to ask for them when they take longer than a moment.
#[utoipa::path(post, operation_id = "look", path = "/api/quilts/{quilt}/looks", params(("quilt" = String, Path)), request_body = LookBody,
    responses((status = 200, body = LooksView), (status = 202, body = LooksView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 409, body = Refused), (status = 413, body = Refused), (status = 415, body = Refused), (status = 422, body = Refused), (status = 429, body = Refused)))]
pub(crate) async fn look(
    State(shared): State<Shared>,
    InPath(quilt): InPath<String>,
    InBody(body): InBody<LookBody>,
) -> Result<(StatusCode, Json<LooksView>), ApiError> {
    if body.stages.is_empty() || body.stages.len() > MOST {
        let what = format!("{} stages can't be looked at side by side", body.stages.len());
        let hint = format!("Ask for 1 to {MOST}.");
        return Err(ApiError::new(StatusCode::UNPROCESSABLE_ENTITY, what, &hint));
    }
    let stages: Vec<PlanStage> =
        body.stages.iter().zip(1..).map(|(stage, no)| stage_of(stage, no)).collect::<Result<_, _>>()?;
    let opened = shared.clone();
    let (named, head, tip) = (quilt.clone(), body.head.clone(), body.tip.clone());
    let (room, head) = apart(move || {
        let room = door(&opened, &named, &head, tip.as_deref())?;
        let head = room.head(&named, &head)?;
        Ok::<_, ApiError>((room, head))
    })
    .await??;
    let (number, look) = shared.looks().begin([head.tip, head.sewn]).ok_or_else(|| {
        let what = format!("{AT_ONCE} looks are being worked out already");
        ApiError::new(StatusCode::TOO_MANY_REQUESTS, what, "Wait a moment, then look again.")
    })?;
    let begun = Arc::clone(&look);
    let working = tokio::task::spawn(async move {
        let seen = apart(move || seen_all(room, &head.at(), &stages, body.svg.as_deref(), number)).await;
        // A look ends once: nothing else sets this.
        let _ = begun.end.set(seen);
    });
    // Whether it has ended by then is read from the look.
    let _ = tokio::time::timeout(MOMENT, working).await;
    let view = view(number, &look);
    Ok((if view.ended { StatusCode::OK } else { StatusCode::ACCEPTED }, Json(view)))
}

fn seen_all(mut room: Workroom, at: &At, stages: &[PlanStage], svg: Option<&str>, number: u64) -> Vec<Seen> {
    let one = |(place, stage): (usize, &PlanStage)| {
        let (told, error, table) = match looked(&mut room, at, stage, svg) {
            Ok(look) => (Some(told(&look, number, place)), None, Some(look.table)),
            Err(why) => (None, Some(ApiError::from(why).said()), None),
        };
        Seen { view: SeenView { stage: stage.name().to_owned(), told, error }, table }
    };
    (1..).zip(stages).map(one).collect()
}

fn looked(room: &mut Workroom, at: &At, stage: &PlanStage, svg: Option<&str>) -> Asked<StageLook> {
    let asked = asked_of(room, at, stage, svg)?;
    room.look_at_stage(&at.quilt, &at.head, &asked)
}

fn told(look: &StageLook, number: u64, place: usize) -> ToldView {
    let told = look.report.told(quilt::length::LengthUnit::Inches);
    ToldView {
        name: look.report.name().to_owned(),
        sentence: told.sentence,
        list: told.list,
        cautions: told.cautions,
        steps: look.entries.len(),
        report: serde_json::to_value(&look.report).unwrap_or(Value::Null),
        front_svg_url: format!("/api/looks/{number}/{place}/front.svg"),
        back_svg_url: format!("/api/looks/{number}/{place}/back.svg"),
    }
}

fn view(number: u64, look: &Look) -> LooksView {
    let end = look.end.get();
    LooksView {
        look: number,
        ended: end.is_some(),
        seen: end
            .and_then(|end| end.as_ref().ok())
            .map(|seen| seen.iter().map(|one| one.view.clone()).collect()),
        error: end.and_then(|end| end.as_ref().err()).map(ApiError::said),
    }
}

/// A look that was begun.
#[utoipa::path(get, operation_id = "see", path = "/api/looks/{look}", params(("look" = u64, Path)),
    responses((status = 200, body = LooksView), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn see(
    State(shared): State<Shared>,
    InPath(number): InPath<u64>,
) -> Result<Json<LooksView>, ApiError> {
    Ok(Json(view(number, &*known(&shared, number)?)))
}

/// The front as it would be.
#[utoipa::path(get, operation_id = "look_front", path = "/api/looks/{look}/{place}/front.svg",
    params(("look" = u64, Path), ("place" = usize, Path), ("labels" = Option<bool>, Query), ("measures" = Option<bool>, Query)),
    responses((status = 200, content_type = "image/svg+xml"), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn front(
    State(shared): State<Shared>,
    InPath(which): InPath<(u64, usize)>,
    InQuery(drawn): InQuery<Drawn>,
) -> Result<Response, ApiError> {
    face(shared, which, &drawn, false).await
}

/// The back as it would be.
#[utoipa::path(get, operation_id = "look_back", path = "/api/looks/{look}/{place}/back.svg",
    params(("look" = u64, Path), ("place" = usize, Path), ("labels" = Option<bool>, Query), ("measures" = Option<bool>, Query)),
    responses((status = 200, content_type = "image/svg+xml"), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn back(
    State(shared): State<Shared>,
    InPath(which): InPath<(u64, usize)>,
    InQuery(drawn): InQuery<Drawn>,
) -> Result<Response, ApiError> {
    face(shared, which, &drawn, true).await
}

async fn face(
    shared: Shared,
    (number, place): (u64, usize),
    drawn: &Drawn,
    back: bool,
) -> Result<Response, ApiError> {
    let look = known(&shared, number)?;
    let ask = drawn.asked(back);
    apart(move || {
        let seen = look.end.get().and_then(|end| end.as_ref().ok());
        let table = seen.and_then(|seen| seen.get(place.checked_sub(1)?)?.table.as_ref()).ok_or_else(gone)?;
        let tip = look.tip.ok_or_else(gone)?;
        let mut room = shared.reading();
        let marks = room.sewn_marks(look.sewn)?;
        let drawing = room.draw_table(tip, table, Some(&marks), ask)?;
        Ok(svg(&drawing, "no-store"))
    })
    .await?
}

fn known(shared: &Shared, number: u64) -> Result<Arc<Look>, ApiError> {
    shared.looks().get(number).ok_or_else(gone)
}

fn gone() -> ApiError {
    ApiError::new(StatusCode::NOT_FOUND, "that look is gone", "Look at the stage again.")
}
