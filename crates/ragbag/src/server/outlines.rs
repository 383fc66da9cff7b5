//! The outline of a cloth that is in the heap: looked at over its picture, and put right.

use super::error::{ApiError, Refused};
use super::extract::{InBody, InPath};
use super::{Shared, apart};
use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use plane::{Point, Region, polygon};
use quilt::cloth::ClothId;
use quilt::length::fraction;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use workroom::{Workroom, WorkroomError};

/// Most corners of an outline.
const MOST_CORNERS: usize = 2000;

/// A cloth's outline over its picture, in its own inches, x to the right and y up.
#[derive(Serialize, ToSchema)]
pub(crate) struct ClothOutlineView {
    pub(crate) cloth: String,
    pub(crate) no: u32,
    pub(crate) name: String,
    /// The whole cloth as it came, counter-clockwise.
    pub(crate) outline: Vec<[f64; 2]>,
    pub(crate) holes: Vec<Vec<[f64; 2]>>,
    /// What is left of it, where something was cut out since.
    #[schema(required)]
    pub(crate) left: Option<Vec<Vec<[f64; 2]>>>,
    pub(crate) width_in: f64,
    pub(crate) height_in: f64,
    #[schema(required)]
    pub(crate) picture: Option<ClothPictureView>,
    /// All in a sentence, after it was put right.
    #[schema(required)]
    pub(crate) words: Option<String>,
}

/// Where a cloth's picture lies on it.
#[derive(Serialize, ToSchema)]
pub(crate) struct ClothPictureView {
    pub(crate) url: String,
    /// Left, bottom, width and height, in inches.
    pub(crate) window_in: [f64; 4],
    /// The file is gone from the workroom.
    pub(crate) missing: bool,
}

/// An outline, put right by the maker.
#[derive(Deserialize, ToSchema)]
pub(crate) struct ClothOutlineBody {
    /// Its corners in order, in the cloth's inches.
    pub(crate) outline: Vec<[f64; 2]>,
}

/// The outline of a cloth.
#[utoipa::path(get, operation_id = "cloth_outline", path = "/api/stash/{cloth}/outline", params(("cloth" = String, Path)),
    responses((status = 200, body = ClothOutlineView), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn see(
    State(shared): State<Shared>,
    InPath(cloth): InPath<String>,
) -> Result<Json<ClothOutlineView>, ApiError> {
    let id = cloth_of(cloth)?;
    apart(move || Ok(Json(view(&mut shared.reading(), id, false)?))).await?
}

/// Puts the outline of a cloth right; undoing has it again as it was.
#[utoipa::path(put, operation_id = "correct_cloth", path = "/api/stash/{cloth}/outline", params(("cloth" = String, Path)), request_body = ClothOutlineBody,
    responses((status = 200, body = ClothOutlineView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 415, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn correct(
    State(shared): State<Shared>,
    InPath(cloth): InPath<String>,
    InBody(body): InBody<ClothOutlineBody>,
) -> Result<Json<ClothOutlineView>, ApiError> {
    let id = cloth_of(cloth)?;
    if body.outline.len() > MOST_CORNERS {
        let what = format!("the outline has {} corners; {MOST_CORNERS} are the most", body.outline.len());
        return Err(ApiError::new(StatusCode::UNPROCESSABLE_ENTITY, what, "Leave most of them out."));
    }
    let corners: Vec<Point> = body.outline.iter().map(|[x, y]| Point::new(*x, *y)).collect();
    apart(move || {
        let mut room = shared.writing();
        room.set_outline(id, &corners)?;
        Ok(Json(view(&mut room, id, true)?))
    })
    .await?
}

fn cloth_of(text: String) -> Result<ClothId, ApiError> {
    ClothId::try_from(text).map_err(|why| ApiError::new(StatusCode::BAD_REQUEST, why, ""))
}

fn view(room: &mut Workroom, id: ClothId, corrected: bool) -> Result<ClothOutlineView, ApiError> {
    let item = room.stash()?.get(id).ok_or(WorkroomError::NoSuchCloth(id))?.clone();
    let came = &item.came;
    let (low, high) = polygon::bounds(&came.outline.outer).unwrap_or_default();
    let picture = match &came.picture {
        None => None,
        Some(picture) => {
            let [width, height] = picture.size_px.map(|px| f64::from(px) / picture.pixels_per_in);
            Some(ClothPictureView {
                url: format!("/pictures/{}", picture.hash),
                window_in: [picture.top_left.x, picture.top_left.y - height, width, height],
                missing: !room.has_picture(&picture.hash)?,
            })
        }
    };
    let left = match &item.now {
        Some(now) if now.outline == came.outline => None,
        Some(now) => Some(rings(&now.outline)),
        None => Some(Vec::new()),
    };
    let words = corrected.then(|| {
        let (wide, high) = (fraction(high.x - low.x, 8), fraction(high.y - low.y, 8));
        format!("No. {} {}: its outline is put right, {wide} by {high}.", item.no, came.name)
    });
    Ok(ClothOutlineView {
        cloth: id.to_string(),
        no: item.no,
        name: came.name.clone(),
        outline: ring(&came.outline.outer),
        holes: came.outline.holes.iter().map(|hole| ring(hole)).collect(),
        left,
        width_in: high.x - low.x,
        height_in: high.y - low.y,
        picture,
        words,
    })
}

fn rings(region: &Region) -> Vec<Vec<[f64; 2]>> {
    std::iter::once(&region.outer).chain(&region.holes).map(|points| ring(points)).collect()
}

fn ring(points: &[Point]) -> Vec<[f64; 2]> {
    points.iter().map(|p| [p.x, p.y]).collect()
}
