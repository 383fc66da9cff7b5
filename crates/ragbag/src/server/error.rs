//! Refusals on the wire: `{"error": {"message", "hint"}}`.

use axum::Json;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use serde::Serialize;
use utoipa::ToSchema;
use workroom::WorkroomError;
use workroom::asks::AskError;

/// Why something was refused.
#[derive(Clone, Debug, Serialize, ToSchema)]
pub(crate) struct Said {
    /// What is wrong, and where.
    message: String,
    /// What to do.
    #[schema(required)]
    hint: Option<String>,
}

/// A refusal.
#[derive(Debug, Serialize, ToSchema)]
pub(crate) struct Refused {
    error: Said,
}

/// A refusal with its status.
#[derive(Debug)]
pub(crate) struct ApiError {
    status: StatusCode,
    message: String,
    hint: Option<String>,
}

impl ApiError {
    pub(crate) fn new(status: StatusCode, message: impl Into<String>, hint: &str) -> Self {
        let hint = (!hint.is_empty()).then(|| hint.to_owned());
        Self { status, message: message.into(), hint }
    }

    /// Its status as a number.
    pub(super) fn status(&self) -> u16 {
        self.status.as_u16()
    }

    /// What it says, for an answer that carries it.
    pub(super) fn said(&self) -> Said {
        Said { message: self.message.clone(), hint: self.hint.clone() }
    }

    /// The same once more, of something that goes on being refused.
    pub(super) fn again(&self) -> Self {
        Self { status: self.status, message: self.message.clone(), hint: self.hint.clone() }
    }

    pub(crate) fn broken() -> Self {
        Self::new(
            StatusCode::INTERNAL_SERVER_ERROR,
            "Ragbag stumbled; nothing was changed",
            "Try it once more.",
        )
    }
}

impl From<WorkroomError> for ApiError {
    fn from(error: WorkroomError) -> Self {
        Self::from(AskError::from(error))
    }
}

impl From<AskError> for ApiError {
    fn from(error: AskError) -> Self {
        let status = match &error {
            AskError::Workroom(
                WorkroomError::NoSuchQuilt(_)
                | WorkroomError::NoSuchHead { .. }
                | WorkroomError::NoSuchStep(_)
                | WorkroomError::NoSuchCloth(_)
                | WorkroomError::NotOnPath(_),
            )
            | AskError::NothingOnTable => StatusCode::NOT_FOUND,
            AskError::Workroom(WorkroomError::HeadMoved { .. }) | AskError::Stale => StatusCode::CONFLICT,
            _ => StatusCode::UNPROCESSABLE_ENTITY,
        };
        Self { status, hint: error.hint(), message: error.to_string() }
    }
}

impl IntoResponse for ApiError {
    fn into_response(self) -> Response {
        (self.status, Json(Refused { error: self.said() })).into_response()
    }
}
