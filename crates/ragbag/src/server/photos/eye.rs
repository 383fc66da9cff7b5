//! The eye check from a photograph alone.

use super::view::PhotoEyeView;
use super::{known, read};
use crate::server::asks::length;
use crate::server::error::{ApiError, Refused};
use crate::server::extract::{InPath, InQuery};
use crate::server::reads::row_view;
use crate::server::view::ShadeView;
use crate::server::{Shared, apart};
use axum::Json;
use axum::extract::State;
use quilt::length::fraction;
use serde::Deserialize;
use workroom::photo::NOT_TOLD;

#[derive(Deserialize)]
pub(crate) struct EyeAsk {
    no: Option<usize>,
    quilt: Option<String>,
    edge: Option<String>,
}

/// The eye check of a piece in a picture, known here or not.
#[utoipa::path(get, operation_id = "photo_eye", path = "/api/photos/{photo}/eye",
    params(("photo" = u64, Path), ("no" = Option<usize>, Query, description = "its place among those found; 0 when not said"),
        ("quilt" = Option<String>, Query, description = "the quilt whose wish counts"),
        ("edge" = Option<String>, Query, description = "what the next seam takes of the raw edge; the wish's seam allowance when not said")),
    responses((status = 200, body = PhotoEyeView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 409, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn eye(
    State(shared): State<Shared>,
    InPath(number): InPath<u64>,
    InQuery(asked): InQuery<EyeAsk>,
) -> Result<Json<PhotoEyeView>, ApiError> {
    let photo = known(&shared, number)?;
    apart(move || {
        let read = read(&photo)?;
        let wish = shared.reading().wish_or_usual(asked.quilt.as_deref())?;
        let edge_in = asked.edge.as_deref().map_or(Ok(wish.allowance_in), length)?;
        let no = asked.no.unwrap_or(0);
        let corrected = read.corrected().get(&no).cloned();
        let seen = read.read.eye(no, corrected.as_ref(), &wish, edge_in)?;
        let ring =
            |ring: &quilt::eye::RingSeen| ShadeView { hex: ring.lab.to_srgb().to_string(), share: 1.0 };
        Ok(Json(PhotoEyeView {
            rows: seen.eye.rows.iter().map(row_view).collect(),
            rings: seen.eye.rings.iter().map(ring).collect(),
            words: format!("{} across, finished. {NOT_TOLD}", fraction(seen.across_in, 8)),
        }))
    })
    .await?
}
