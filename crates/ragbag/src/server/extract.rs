//! What a request brings, read so that a refusal is JSON like every other: `{"error": …}`.

use super::error::ApiError;
use super::photos::LIMIT;
use axum::Json;
use axum::body::Bytes;
use axum::extract::rejection::{BytesRejection, JsonRejection, PathRejection, QueryRejection};
use axum::extract::{FromRequest, FromRequestParts, Path, Query, Request};
use axum::http::StatusCode;
use axum::http::request::Parts;
use serde::de::DeserializeOwned;
use serde_json::{Value, json};

/// The parts of the address that name something.
pub(crate) struct InPath<T>(pub(crate) T);

/// What comes after the question mark.
pub(crate) struct InQuery<T>(pub(crate) T);

/// A body of bytes, taken as they are.
pub(crate) struct InBytes(pub(crate) Bytes);

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

impl<S: Send + Sync> FromRequest<S> for InBytes {
    type Rejection = ApiError;

    async fn from_request(request: Request, state: &S) -> Result<Self, ApiError> {
        Ok(Self(Bytes::from_request(request, state).await?))
    }
}

impl<S: Send + Sync, T: DeserializeOwned> FromRequest<S> for InBody<T> {
    type Rejection = ApiError;

    async fn from_request(request: Request, state: &S) -> Result<Self, ApiError> {
        let Json(body): Json<Value> = Json::from_request(request, state).await?;
        serde_json::from_value(body.clone()).map(Self).map_err(|why| unclear::<T>(&body, &why))
    }
}

/// What a field must be, with a value that is that.
type MustBe = (&'static str, Value);

/// What a field can have to be that isn't left empty.
pub(super) fn kinds() -> Vec<MustBe> {
    vec![
        ("a number", json!(0.5)),
        ("a whole number", json!(1)),
        ("words", json!("1a")),
        ("yes or no (true or false)", json!(true)),
    ]
}

/// Which field of a body is wrong and what it must be: the one with which, made right, the body can be
/// read. Otherwise what the reader said.
fn unclear<T: DeserializeOwned>(body: &Value, why: &serde_json::Error) -> ApiError {
    let refused =
        |message: String, hint: &str| ApiError::new(StatusCode::UNPROCESSABLE_ENTITY, message, hint);
    let mut kinds = kinds();
    kinds.push(("left empty (null)", Value::Null));
    match wrong_field(body, &kinds, |mended| serde_json::from_value::<T>(mended.clone()).is_ok()) {
        Some(Wrong { name, what }) => refused(what, &format!("Fill in `{name}` and ask once more.")),
        None => refused(format!("what was asked can't be read: {why}"), FORM),
    }
}

/// A field that is wrong.
pub(super) struct Wrong {
    /// Its name.
    pub(super) name: String,
    /// What it is and what it must be, as a sentence without its full stop.
    pub(super) what: String,
}

/// The field with which, made one of `kinds`, a body `reads`.
pub(super) fn wrong_field(body: &Value, kinds: &[MustBe], reads: impl Fn(&Value) -> bool) -> Option<Wrong> {
    for path in fields(body) {
        for (must, right) in kinds {
            let mut mended = body.clone();
            if let Some(place) = mended.pointer_mut(&path) {
                *place = right.clone();
            }
            if reads(&mended) {
                let name = path.rsplit('/').next().unwrap_or_default().to_owned();
                let is = match body.pointer(&path) {
                    None | Some(Value::Null) => "empty".to_owned(),
                    Some(other) => other.to_string(),
                };
                return Some(Wrong { what: format!("`{name}` is {is}: it must be {must}"), name });
            }
        }
    }
    None
}

/// Pointers to all fields of a body that hold no others, the innermost objects' too.
fn fields(body: &Value) -> Vec<String> {
    let mut found = Vec::new();
    let mut open = vec![(String::new(), body)];
    while let Some((path, value)) = open.pop() {
        if let Value::Object(fields) = value {
            open.extend(fields.iter().take(MOST_FIELDS).map(|(name, value)| {
                (format!("{path}/{}", name.replace('~', "~0").replace('/', "~1")), value)
            }));
        } else {
            found.push(path);
        }
    }
    found.truncate(MOST_FIELDS);
    found
}

/// Most fields of a body that are looked at for what is wrong.
const MOST_FIELDS: usize = 40;

/// Where the form of every request is told.
const FORM: &str = "What each address takes is told by `ragbag openapi`.";

impl From<BytesRejection> for ApiError {
    fn from(why: BytesRejection) -> Self {
        if why.status() == StatusCode::PAYLOAD_TOO_LARGE {
            let what = format!("the picture has more than {} megabytes", LIMIT >> 20);
            return Self::new(why.status(), what, "Save it smaller, as JPEG.");
        }
        Self::new(why.status(), why.body_text(), FORM)
    }
}

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
        if why.status() == StatusCode::PAYLOAD_TOO_LARGE {
            return Self::new(
                why.status(),
                "what was sent has more than 2 million bytes",
                "Send less at once.",
            );
        }
        Self::new(why.status(), why.body_text(), FORM)
    }
}
