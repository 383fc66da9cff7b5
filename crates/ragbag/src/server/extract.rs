//! What a request brings, read so that a refusal is JSON like every other: `{"error": …}`.

use super::error::ApiError;
use axum::Json;
use axum::extract::rejection::{JsonRejection, PathRejection, QueryRejection};
use axum::extract::{FromRequest, FromRequestParts, Path, Query, Request};
use axum::http::request::Parts;
use serde::de::DeserializeOwned;

/// The parts of the address that name something.
pub(crate) struct InPath<T>(pub(crate) T);

/// What comes after the question mark.
pub(crate) struct InQuery<T>(pub(crate) T);

/// A JSON body.
pub(crate) struct InBody<T>(pub(crate) T);

impl<S: Send + Sync, T: DeserializeOwned + Send> FromRequestParts<S> for InPath<T> {
    type Rejection = ApiError;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Self, ApiError> {
        let Path(named) = Path::from_request_parts(parts, state).await?;
        Ok(Self(named))
    }
}

impl<S: Send + Sync, T: DeserializeOwned> FromRequestParts<S> for InQuery<T> {
    type Rejection = ApiError;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Self, ApiError> {
        let Query(asked) = Query::from_request_parts(parts, state).await?;
        Ok(Self(asked))
    }
}

impl<S: Send + Sync, T: DeserializeOwned> FromRequest<S> for InBody<T> {
    type Rejection = ApiError;

    async fn from_request(request: Request, state: &S) -> Result<Self, ApiError> {
        let Json(body) = Json::from_request(request, state).await?;
        Ok(Self(body))
    }
}

/// Where the form of every request is told.
const FORM: &str = "What each address takes is told by `ragbag openapi`.";

impl From<PathRejection> for ApiError {
    fn from(why: PathRejection) -> Self {
        Self::new(why.status(), why.body_text(), FORM)
    }
}

impl From<QueryRejection> for ApiError {
    fn from(why: QueryRejection) -> Self {
        Self::new(why.status(), why.body_text(), FORM)
    }
}

impl From<JsonRejection> for ApiError {
    fn from(why: JsonRejection) -> Self {
        Self::new(why.status(), why.body_text(), FORM)
    }
}
