//! A photograph is given and read; what was seen is asked for until it is there.

use super::shelf::{AT_ONCE, Photo, Read};
use super::view::{PhotoOf, PhotoView};
use super::{gone, known, told};
use crate::server::error::{ApiError, Refused};
use crate::server::extract::{InBytes, InPath, InQuery};
use crate::server::{Shared, apart};
use axum::Json;
use axum::extract::State;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::Deserialize;
use std::sync::Arc;
use std::time::Duration;
use workroom::Workroom;
use workroom::photo::{MOST_PHOTO_BYTES, PhotoAsk, Watch};

/// Most bytes of a picture that are taken in.
pub(crate) const LIMIT: usize = MOST_PHOTO_BYTES as usize;

/// So long an answer is waited for before it is left to be asked for again.
const MOMENT: Duration = Duration::from_millis(200);

/// Most letters of a picture's name that are kept.
const MOST_NAME: usize = 80;

#[derive(Deserialize)]
pub(crate) struct Given {
    name: Option<String>,
    of: Option<PhotoOf>,
}

/// Gives a picture, its bytes as they are. It is read apart, and asked for by its number.
#[utoipa::path(post, operation_id = "give_photo", path = "/api/photos",
    params(("name" = Option<String>, Query), ("of" = Option<String>, Query, description = "`scraps` or `piece`")),
    request_body(content = Vec<u8>, content_type = "application/octet-stream"),
    responses((status = 200, body = PhotoView), (status = 202, body = PhotoView), (status = 400, body = Refused),
        (status = 413, body = Refused), (status = 422, body = Refused), (status = 429, body = Refused)))]
pub(crate) async fn give(
    State(shared): State<Shared>,
    InQuery(given): InQuery<Given>,
    InBytes(bytes): InBytes,
) -> Result<(StatusCode, Json<PhotoView>), ApiError> {
    let name = named(given.name.as_deref());
    let opened = shared.clone();
    let room = apart(move || Workroom::open(opened.reading().folder())).await??;
    let (number, photo) = shared.photos().begin(&name).ok_or_else(|| {
        let what = format!("{AT_ONCE} pictures are being read already");
        ApiError::new(StatusCode::TOO_MANY_REQUESTS, what, "Wait for one of them, then give it again.")
    })?;
    let begun = Arc::clone(&photo);
    let of = given.of.unwrap_or(PhotoOf::Scraps);
    let reading = tokio::task::spawn(async move {
        let seen = Arc::clone(&begun);
        let read = apart(move || read_it(room, &name, &bytes, of, &|now| seen.comes_to(now))).await;
        // A photograph is read once: nothing else sets this.
        let _ = begun.end.set(read.unwrap_or_else(Err));
    });
    // Whether it has ended by then is read from the photograph.
    let _ = tokio::time::timeout(MOMENT, reading).await;
    let view = view(number, &photo);
    Ok((if view.ended { StatusCode::OK } else { StatusCode::ACCEPTED }, Json(view)))
}

fn read_it(
    mut room: Workroom,
    name: &str,
    bytes: &[u8],
    of: PhotoOf,
    watch: Watch<'_>,
) -> Result<Read, ApiError> {
    let ask = PhotoAsk::default();
    let read = match of {
        PhotoOf::Scraps => room.read_photo_watched(name, bytes, &ask, watch),
        PhotoOf::Piece => room.read_piece_watched(name, bytes, &ask, watch),
    }?;
    let from_above = read.measured.from_above()?;
    Ok(Read::new(read, from_above))
}

/// A picture's name without folders, and not too long.
fn named(name: Option<&str>) -> String {
    let last = name.unwrap_or_default().rsplit(['/', '\\']).next().unwrap_or_default().trim();
    if last.is_empty() { "the picture".to_owned() } else { last.chars().take(MOST_NAME).collect() }
}

/// A picture that was given.
#[utoipa::path(get, operation_id = "photo", path = "/api/photos/{photo}", params(("photo" = u64, Path)),
    responses((status = 200, body = PhotoView), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn see(
    State(shared): State<Shared>,
    InPath(number): InPath<u64>,
) -> Result<Json<PhotoView>, ApiError> {
    Ok(Json(view(number, &*known(&shared, number)?)))
}

fn view(number: u64, photo: &Photo) -> PhotoView {
    let end = photo.end.get();
    PhotoView {
        photo: number,
        name: photo.name.clone(),
        ended: end.is_some(),
        doing: photo.doing().map(str::to_owned),
        seen: end.and_then(|end| end.as_ref().ok()).map(|read| told::tabletop(number, read)),
        error: end.and_then(|end| end.as_ref().err()).map(ApiError::said),
    }
}

/// Forgets a picture that was read.
#[utoipa::path(delete, operation_id = "forget_photo", path = "/api/photos/{photo}", params(("photo" = u64, Path)),
    responses((status = 204), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn forget(
    State(shared): State<Shared>,
    InPath(number): InPath<u64>,
) -> Result<StatusCode, ApiError> {
    shared.photos().forget(number).map(|()| StatusCode::NO_CONTENT).ok_or_else(gone)
}

/// The table as from straight above.
#[utoipa::path(get, operation_id = "photo_from_above", path = "/api/photos/{photo}/from_above.png", params(("photo" = u64, Path)),
    responses((status = 200, content_type = "image/png"), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn from_above(
    State(shared): State<Shared>,
    InPath(number): InPath<u64>,
) -> Result<Response, ApiError> {
    let photo = known(&shared, number)?;
    let png = super::read(&photo)?.from_above.png.clone();
    Ok(([(header::CONTENT_TYPE, "image/png"), (header::CACHE_CONTROL, "no-store")], png).into_response())
}

#[cfg(test)]
mod tests {
    use super::named;

    #[test]
    fn a_name_is_the_files_own_and_not_endless() {
        assert_eq!(named(Some("C:\\pictures\\heap 1.jpg")), "heap 1.jpg");
        assert_eq!(named(Some("a/b.png")), "b.png");
        assert_eq!((named(None), named(Some(" "))), ("the picture".to_owned(), "the picture".to_owned()));
        assert_eq!(named(Some(&"ä".repeat(500))).chars().count(), 80);
    }
}
