//! The measuring cards: printed, and measured once on the paper.

use super::view::{CardsBody, CardsView};
use crate::server::asks::length;
use crate::server::error::{ApiError, Refused};
use crate::server::extract::{InBody, InQuery};
use crate::server::printed::on_paper;
use crate::server::{Shared, apart};
use axum::Json;
use axum::extract::State;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::Deserialize;
use workroom::Workroom;
use workroom::photo::{MOST_PHOTO_BYTES, PRINTED_SIDE_IN, card_patterns};

#[derive(Deserialize)]
pub(crate) struct Printed {
    paper: Option<String>,
}

/// The cards to print and cut out, 2 inches a side.
#[utoipa::path(get, operation_id = "cards_to_print", path = "/api/cards.pdf", params(("paper" = Option<String>, Query, description = "`a4`, `letter`, another name, or width and height, as in `8-1/2x14`")),
    responses((status = 200, content_type = "application/pdf"), (status = 400, body = Refused)))]
pub(crate) async fn printed(InQuery(asked): InQuery<Printed>) -> Result<Response, ApiError> {
    apart(move || {
        let paper = on_paper(asked.paper.as_deref())?;
        let bytes = crate::letters::cards(&card_patterns(), PRINTED_SIDE_IN, paper)
            .map_err(|why| ApiError::new(StatusCode::UNPROCESSABLE_ENTITY, why.to_string(), ""))?;
        Ok(([(header::CONTENT_TYPE, "application/pdf")], bytes).into_response())
    })
    .await?
}

/// What photographs are measured by.
#[utoipa::path(get, operation_id = "cards", path = "/api/cards", responses((status = 200, body = CardsView)))]
pub(crate) async fn cards(State(shared): State<Shared>) -> Result<Json<CardsView>, ApiError> {
    apart(move || Ok(Json(cards_view(&shared.reading())?))).await?
}

/// Keeps how large the cards are on the paper; pictures given from now on are measured by it.
#[utoipa::path(put, operation_id = "measure_cards", path = "/api/cards", request_body = CardsBody,
    responses((status = 200, body = CardsView), (status = 400, body = Refused), (status = 415, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn measure_cards(
    State(shared): State<Shared>,
    InBody(body): InBody<CardsBody>,
) -> Result<Json<CardsView>, ApiError> {
    apart(move || {
        let mut room = shared.writing();
        room.set_card_side(length(&body.side)?)?;
        Ok(Json(cards_view(&room)?))
    })
    .await?
}

fn cards_view(room: &Workroom) -> Result<CardsView, ApiError> {
    Ok(CardsView { side_in: room.card_side()?, most_bytes: MOST_PHOTO_BYTES })
}
