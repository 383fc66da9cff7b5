//! Photographs: given one by one, read apart, looked at, put right, and then entered into the heap or
//! held against the piece on the table.
//!
//! A photograph has a number and nothing else; it is read by a door of its own and changes nothing. What
//! comes of it is asked for with what the maker ticked and put right.

mod cards;
mod catch_up;
mod correct;
mod eye;
mod give;
mod piece;
mod shelf;
mod told;
mod view;

pub(super) use cards::{__path_cards, __path_measure_cards, __path_printed, cards, measure_cards, printed};
pub(super) use catch_up::{
    __path_as_found, __path_caught_up, __path_sewn_since, as_found, caught_up, sewn_since,
};
pub(super) use correct::{__path_correct, __path_keep, correct, keep};
pub(super) use eye::{__path_eye, eye};
pub(super) use give::{
    __path_forget, __path_from_above, __path_give, __path_see, LIMIT, forget, from_above, give, see,
};
pub(super) use piece::{__path_compare, __path_measured, compare, measured};
pub(super) use shelf::Photos;

use super::Shared;
use super::error::ApiError;
use axum::http::StatusCode;
use shelf::{Photo, Read};
use std::sync::Arc;

fn known(shared: &Shared, number: u64) -> Result<Arc<Photo>, ApiError> {
    shared.photos().get(number).ok_or_else(gone)
}

fn gone() -> ApiError {
    ApiError::new(StatusCode::NOT_FOUND, "that picture is gone", "Give it once more.")
}

/// What was read of a photograph.
///
/// # Errors
/// One that is still being read, or couldn't be.
fn read(photo: &Photo) -> Result<&Read, ApiError> {
    match photo.end.get() {
        Some(Ok(read)) => Ok(read),
        Some(Err(why)) => Err(why.again()),
        None => {
            let message = "that picture is still being read";
            Err(ApiError::new(StatusCode::CONFLICT, message, "Wait a moment, then ask again."))
        }
    }
}
