//! What a photograph shows is put right by the maker, and what is ticked comes into the heap.

use super::shelf::Read;
use super::view::{FoundView, KeepBody, KeptBody, OutlineBody, SameView};
use super::{known, read, told};
use crate::server::entering::EnteredView;
use crate::server::error::{ApiError, Refused};
use crate::server::extract::{InBody, InPath};
use crate::server::{Shared, apart};
use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use plane::{Point, Region};
use workroom::asks::AskError;
use workroom::photo::{Kept, PhotoProblem, PrintOf};

/// Most corners of an outline that the maker puts right.
const MOST_CORNERS: usize = 2000;

/// Puts the outline of a found cloth right: its whole ring, or as it was found.
#[utoipa::path(put, operation_id = "correct_found", path = "/api/photos/{photo}/found/{no}",
    params(("photo" = u64, Path), ("no" = usize, Path)), request_body = OutlineBody,
    responses((status = 200, body = FoundView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 409, body = Refused), (status = 415, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn correct(
    State(shared): State<Shared>,
    InPath((number, no)): InPath<(u64, usize)>,
    InBody(body): InBody<OutlineBody>,
) -> Result<Json<FoundView>, ApiError> {
    let photo = known(&shared, number)?;
    let read = read(&photo)?;
    let found = read.read.cloths.get(no).ok_or_else(|| not_found(read, no))?;
    let mut corrected = read.corrected();
    match body.outline {
        None => {
            corrected.remove(&no);
        }
        Some(corners) if corners.len() > MOST_CORNERS => {
            let what = format!("the outline has {} corners; {MOST_CORNERS} are the most", corners.len());
            return Err(ApiError::new(StatusCode::UNPROCESSABLE_ENTITY, what, "Leave most of them out."));
        }
        Some(corners) => {
            let ring = corners.iter().map(|[x, y]| Point::new(*x, *y)).collect();
            let name = || read.read.measured.name.clone();
            let region = Region::try_new(ring, found.outline.holes.clone())
                .map_err(|why| AskError::from(PhotoProblem::Outline { name: name(), no: no + 1, why }))?;
            corrected.insert(no, region);
        }
    }
    Ok(Json(told::found(no, found, corrected.get(&no))))
}

/// Puts what is ticked into the heap, all of it or none. The photograph is done with then.
#[utoipa::path(post, operation_id = "keep_found", path = "/api/photos/{photo}/kept", params(("photo" = u64, Path)), request_body = KeepBody,
    responses((status = 201, body = EnteredView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 409, body = Refused), (status = 415, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn keep(
    State(shared): State<Shared>,
    InPath(number): InPath<u64>,
    InBody(body): InBody<KeepBody>,
) -> Result<(StatusCode, Json<EnteredView>), ApiError> {
    let photo = known(&shared, number)?;
    if body.kept.is_empty() {
        let hint = "Tick at least one cloth, or put the picture aside.";
        return Err(ApiError::new(StatusCode::UNPROCESSABLE_ENTITY, "nothing is ticked", hint));
    }
    apart(move || {
        let read = read(&photo)?;
        let kept: Vec<Kept> = body.kept.iter().map(|one| kept(read, one)).collect::<Result<_, _>>()?;
        let mut room = shared.writing();
        // Of two who ask at once the second finds it gone.
        shared.photos().forget(number).ok_or_else(super::gone)?;
        let entered = match room.enter_photo(&read.read, &kept) {
            Ok(entered) => entered,
            Err(why) => {
                shared.photos().put_back(number, &photo);
                return Err(why.into());
            }
        };
        let stash = room.stash()?;
        let told =
            entered.iter().filter_map(|(no, id)| Some(format!("No. {no} {}", stash.get(*id)?.came.name)));
        let words = format!("In the heap: {}.", told.collect::<Vec<_>>().join(", "));
        let cloths = entered.iter().map(|(_, id)| id.to_string()).collect();
        Ok((StatusCode::CREATED, Json(EnteredView { cloths, words })))
    })
    .await?
}

fn kept(read: &Read, one: &KeptBody) -> Result<Kept, ApiError> {
    let found = read.read.cloths.get(one.no).ok_or_else(|| not_found(read, one.no))?;
    let name = match one.name.trim() {
        "" => told::name(found),
        name => name.to_owned(),
    };
    let print = match &one.same {
        None => PrintOf::Own,
        Some(SameView::Beside { no }) => PrintOf::Found(*no),
        Some(SameView::Heap { print }) => PrintOf::Heap(u64::from_str_radix(print, 16).map_err(|_| {
            let what = format!("`{print}` is no print's number");
            ApiError::new(
                StatusCode::UNPROCESSABLE_ENTITY,
                what,
                "The heap lists every cloth with its print.",
            )
        })?),
    };
    Ok(Kept { which: one.no, name, outline: read.corrected().get(&one.no).cloned(), print })
}

/// A cloth that wasn't found.
pub(super) fn not_found(read: &Read, no: usize) -> ApiError {
    let (name, have) = (read.read.measured.name.clone(), read.read.cloths.len());
    AskError::from(PhotoProblem::NoSuchFound { name, no: no.saturating_add(1), have }).into()
}
