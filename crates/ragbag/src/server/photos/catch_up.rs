//! What was sewn since the last step, as a photograph of the piece shows it: looked at, and taken in as
//! the maker confirms it.

use super::correct::not_found;
use super::piece::{answer, near};
use super::shelf::Read;
use super::view::{CatchUpBody, CaughtUpBody, CaughtUpView, GuessView, NewPatchView, PieceBody};
use super::{known, read};
use crate::server::asks::{cloth_of, still_at};
use crate::server::error::{ApiError, Refused};
use crate::server::extract::{InBody, InPath};
use crate::server::view::AnswerView;
use crate::server::{Shared, apart};
use axum::Json;
use axum::extract::State;
use plane::Region;
use quilt::length::many;
use workroom::asks::{Asked, CaughtUp, PatchSeen};
use workroom::photo::MadeOf;

/// Reads which patches were sewn on since the last step. Nothing is changed.
#[utoipa::path(post, operation_id = "sewn_since", path = "/api/photos/{photo}/sewn_since", params(("photo" = u64, Path)), request_body = CatchUpBody,
    responses((status = 200, body = CaughtUpView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 409, body = Refused), (status = 415, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn sewn_since(
    State(shared): State<Shared>,
    InPath(number): InPath<u64>,
    InBody(body): InBody<CatchUpBody>,
) -> Result<Json<CaughtUpView>, ApiError> {
    let photo = known(&shared, number)?;
    apart(move || {
        let read = read(&photo)?;
        let outline = corrected(read, body.no)?;
        let mut room = shared.reading();
        still_at(&room.head(&body.quilt, &body.head)?, body.tip.as_deref())?;
        let seen = room.look_to_catch_up(&body.quilt, &body.head, (&read.read, body.no), outline.as_ref())?;
        Ok(Json(view(&seen)))
    })
    .await?
}

/// Takes in what was sewn since, patch by patch of what it is said to be, and measures the outline.
#[utoipa::path(post, operation_id = "caught_up", path = "/api/photos/{photo}/caught_up", params(("photo" = u64, Path)), request_body = CaughtUpBody,
    responses((status = 200, body = AnswerView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 409, body = Refused), (status = 415, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn caught_up(
    State(shared): State<Shared>,
    InPath(number): InPath<u64>,
    InBody(body): InBody<CaughtUpBody>,
) -> Result<Json<AnswerView>, ApiError> {
    let photo = known(&shared, number)?;
    apart(move || {
        let read = read(&photo)?;
        let outline = corrected(read, body.no)?;
        let made_of: Vec<MadeOf> =
            body.made_of.iter().map(|cloth| made_of(cloth.as_deref())).collect::<Result<_, _>>()?;
        let mut room = shared.writing();
        let head = room.head(&body.quilt, &body.head)?;
        still_at(&head, body.tip.as_deref())?;
        // The same picture and the same piece: the same patches.
        let seen = room.look_to_catch_up(&body.quilt, &body.head, (&read.read, body.no), outline.as_ref())?;
        let done = room.catch_up(&head.at(), &read.read, &seen, &made_of);
        answer(&head, done.map(|(now, differences)| (now, taken(seen.patches.len(), differences.len()))))
    })
    .await?
}

/// Takes the whole piece as it was found: one patch with its picture, in the place of all that is known.
#[utoipa::path(post, operation_id = "as_found", path = "/api/photos/{photo}/as_found", params(("photo" = u64, Path)), request_body = PieceBody,
    responses((status = 200, body = AnswerView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 409, body = Refused), (status = 415, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn as_found(
    State(shared): State<Shared>,
    InPath(number): InPath<u64>,
    InBody(body): InBody<PieceBody>,
) -> Result<Json<AnswerView>, ApiError> {
    let photo = known(&shared, number)?;
    apart(move || {
        let read = read(&photo)?;
        let outline = corrected(read, body.no)?;
        let near = near(&body)?;
        let mut room = shared.writing();
        let head = room.head(&body.quilt, &body.head)?;
        still_at(&head, body.tip.as_deref())?;
        let done = room.take_as_found(&head.at(), (&read.read, body.no), outline.as_ref(), near);
        let words = "The piece lies there as one patch now, as it was found.".to_owned();
        answer(&head, done.map(|now| (now, words)))
    })
    .await?
}

/// The outline of a found cloth where the maker has put it right.
fn corrected(read: &Read, no: usize) -> Result<Option<Region>, ApiError> {
    read.read.cloths.get(no).ok_or_else(|| not_found(read, no))?;
    Ok(read.corrected().get(&no).cloned())
}

fn made_of(cloth: Option<&str>) -> Asked<MadeOf> {
    cloth.map_or(Ok(MadeOf::AsFound), |id| cloth_of(id).map(MadeOf::Cloth))
}

fn taken(patches: usize, differences: usize) -> String {
    let outline = match differences {
        0 => "the outline is as they make it, to the 1/32".to_owned(),
        count => format!("the outline came out otherwise in {}", many(count, "place", "places")),
    };
    format!("Caught up: {} sewn on; {outline}.", many(patches, "patch", "patches"))
}

fn view(seen: &CaughtUp) -> CaughtUpView {
    let words = match seen.patches.len() {
        0 => "No patch is new since the last step.".to_owned(),
        1 => "1 patch is new since the last step.".to_owned(),
        count => format!("{count} patches are new since the last step."),
    };
    CaughtUpView {
        words,
        patches: seen.patches.iter().map(patch).collect(),
        differences: seen.differences.clone(),
    }
}

fn patch(seen: &PatchSeen) -> NewPatchView {
    let guess = |guess: &workroom::asks::Guess| GuessView {
        cloth: guess.cloth.to_string(),
        no: guess.no,
        name: guess.name.clone(),
    };
    NewPatchView {
        outline: seen.on_table.iter().map(|p| [p.x, p.y]).collect(),
        words: seen.told(),
        guesses: seen.guesses.iter().map(guess).collect(),
        likest: seen.likest().map(|guess| guess.cloth.to_string()),
        doubts: seen.doubts.clone(),
    }
}
