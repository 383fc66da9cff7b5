//! The piece on the table as a photograph shows it: held against its plan, and put in its place.

use super::correct::not_found;
use super::shelf::Read;
use super::view::{PieceBody, PieceSeenView, SideSeenView};
use super::{known, read};
use crate::server::asks::{refused, still_at};
use crate::server::error::{ApiError, Refused};
use crate::server::extract::{InBody, InPath};
use crate::server::view::AnswerView;
use crate::server::{Shared, apart};
use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use plane::{Point, Pose, Turn};
use quilt::length::{fraction, many};
use workroom::asks::{AskError, Asked, Remeasured};
use workroom::quilts::Head;

/// Holds a found cloth, as the piece on the table, against its plan. Nothing is changed.
#[utoipa::path(post, operation_id = "compare_piece", path = "/api/photos/{photo}/piece", params(("photo" = u64, Path)), request_body = PieceBody,
    responses((status = 200, body = PieceSeenView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 409, body = Refused), (status = 415, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn compare(
    State(shared): State<Shared>,
    InPath(number): InPath<u64>,
    InBody(body): InBody<PieceBody>,
) -> Result<Json<PieceSeenView>, ApiError> {
    let photo = known(&shared, number)?;
    apart(move || {
        let seen = outline(read(&photo)?, body.no)?;
        let near = near(&body)?;
        let mut room = shared.reading();
        still_at(&room.head(&body.quilt, &body.head)?, body.tip.as_deref())?;
        let report = room.look_at_outline(&body.quilt, &body.head, &seen, near)?;
        Ok(Json(view(&report)))
    })
    .await?
}

/// Puts what was seen in the place of what was planned, and keeps its picture.
#[utoipa::path(post, operation_id = "take_measured", path = "/api/photos/{photo}/measured", params(("photo" = u64, Path)), request_body = PieceBody,
    responses((status = 200, body = AnswerView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 409, body = Refused), (status = 415, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn measured(
    State(shared): State<Shared>,
    InPath(number): InPath<u64>,
    InBody(body): InBody<PieceBody>,
) -> Result<Json<AnswerView>, ApiError> {
    let photo = known(&shared, number)?;
    apart(move || {
        let read = read(&photo)?;
        let seen = outline(read, body.no)?;
        let near = near(&body)?;
        let corrected = read.corrected().get(&body.no).cloned();
        let clipped = read.read.clipped(body.no, corrected.as_ref())?;
        let mut room = shared.writing();
        let head = room.head(&body.quilt, &body.head)?;
        still_at(&head, body.tip.as_deref())?;
        let done = room.remeasure_shown(&head.at(), &seen, near, &clipped);
        answer(&head, done.map(|(now, report)| (now, format!("Measured: {}.", came_out(&report)))))
    })
    .await?
}

/// What a photograph changed, in words; or what stands against it, with what would help.
pub(super) fn answer(head: &Head, done: Asked<(Head, String)>) -> Result<Json<AnswerView>, ApiError> {
    match done {
        Ok((now, words)) => Ok(Json(AnswerView {
            tip: now.tip.map(|tip| tip.to_string()),
            version: now.version,
            proposals: None,
            problems: None,
            words: Some(words),
        })),
        Err(AskError::Refused { problem, remedies }) => Ok(Json(refused(head, &problem, remedies))),
        Err(other) => Err(other.into()),
    }
}

fn outline(read: &Read, no: usize) -> Result<Vec<Point>, ApiError> {
    let found = read.read.cloths.get(no).ok_or_else(|| not_found(read, no))?;
    Ok(read.corrected().get(&no).unwrap_or(&found.outline).outer.clone())
}

pub(super) fn near(body: &PieceBody) -> Result<Turn, ApiError> {
    let deg = body.turned_deg.unwrap_or(0.0);
    if deg.abs() <= 360.0 {
        return Ok(Turn::from_degrees(deg));
    }
    let what = format!("a piece can't be turned by {deg} degrees");
    Err(ApiError::new(StatusCode::UNPROCESSABLE_ENTITY, what, "Say -180 to 180."))
}

fn came_out(report: &Remeasured) -> String {
    match report.differences.len() {
        0 => "it came out as planned, to the 1/32".to_owned(),
        count => format!("it came out otherwise in {}", many(count, "place", "places")),
    }
}

fn view(report: &Remeasured) -> PieceSeenView {
    let side = |(name, side): (&Option<quilt::log::Name>, &quilt::remeasure::SideSeen)| SideSeenView {
        name: name.map(|name| name.to_string()),
        planned_in: side.planned_in,
        seen_in: side.line.is_some().then_some(side.seen_in),
    };
    PieceSeenView {
        words: format!(
            "Laid on the plan, its edge lies {} off all round; {}.",
            fraction(report.laid.off_in, 64),
            came_out(report)
        ),
        sides: report.names.iter().zip(&report.laid.sides).map(side).collect(),
        differences: report.differences.clone(),
        square: report.square_words.clone(),
        rival_deg: report.laid.rival_deg,
        laid: on_drawing(&report.laid.pose),
    }
}

/// A motion of the table as an SVG matrix: drawings have y down.
fn on_drawing(pose: &Pose) -> [f64; 6] {
    let origin = pose.apply(Point::ORIGIN);
    let (across, up) = (pose.apply(Point::new(1.0, 0.0)) - origin, pose.apply(Point::new(0.0, 1.0)) - origin);
    [across.x, -across.y, -up.x, up.y, origin.x, -origin.y]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_matrix_lays_a_place_where_the_motion_does() {
        let pose = Pose::carrying(Turn::from_degrees(30.0), Point::new(2.0, 1.0), Point::new(-3.0, 5.0));
        let [a, b, c, d, e, f] = on_drawing(&pose);
        for at in [Point::new(2.0, 1.0), Point::new(-4.0, 0.5), Point::ORIGIN] {
            let (x, y) = (at.x, -at.y);
            let there = pose.apply(at);
            assert!((a * x + c * y + e - there.x).abs() < 1e-12);
            assert!((b * x + d * y + f + there.y).abs() < 1e-12);
        }
    }
}
