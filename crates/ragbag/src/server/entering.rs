//! What comes into the workroom from the page: scraps, and a quilt that is begun.

use super::error::{ApiError, Refused};
use super::extract::InBody;
use super::{Shared, apart};
use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use quilt::wish::Wish;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use workroom::intake::{self, IntakeProblem};
use workroom::stash::NewCloth;

/// A scrap as its maker tells it.
#[derive(Deserialize, ToSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub(crate) enum ScrapAsk {
    /// In words, with its size: "red stripe, about 3 by 5", "two navy dots 4 by 4".
    Words { words: String },
    /// A rectangle: what it looks like, and its measures as a maker writes them.
    Rectangle { name: String, width: String, height: String },
}

/// What came into the heap.
#[derive(Serialize, ToSchema)]
pub(crate) struct EnteredView {
    /// The cloths' ids, in order.
    pub(super) cloths: Vec<String>,
    /// The same as a sentence.
    pub(super) words: String,
}

/// Puts a scrap, or several that are alike, into the heap.
#[utoipa::path(post, operation_id = "enter", path = "/api/stash", request_body = ScrapAsk,
    responses((status = 201, body = EnteredView), (status = 400, body = Refused), (status = 415, body = Refused),
        (status = 422, body = Refused)))]
pub(crate) async fn enter(
    State(shared): State<Shared>,
    InBody(scrap): InBody<ScrapAsk>,
) -> Result<(StatusCode, Json<EnteredView>), ApiError> {
    apart(move || {
        let cloths = read(&scrap).map_err(|problem| refusal(&problem))?;
        let mut room = shared.writing();
        let entered = room.enter(cloths)?;
        let stash = room.stash()?;
        let told =
            entered.iter().filter_map(|(no, id)| Some(format!("No. {no} {}", stash.get(*id)?.came.name)));
        let mut words = format!("In the heap: {}.", told.collect::<Vec<_>>().join(", "));
        let (ScrapAsk::Words { words: named } | ScrapAsk::Rectangle { name: named, .. }) = &scrap;
        if colour::read_words(named).is_none() {
            let known = colour::all_words();
            words +=
                &format!(" There is no colour word in that, so it is taken for calico. Known are {known}.");
        }
        let cloths = entered.iter().map(|(_, id)| id.to_string()).collect();
        Ok((StatusCode::CREATED, Json(EnteredView { cloths, words })))
    })
    .await?
}

fn read(scrap: &ScrapAsk) -> Result<Vec<NewCloth>, IntakeProblem> {
    match scrap {
        ScrapAsk::Words { words } => intake::read_scraps(words),
        ScrapAsk::Rectangle { name, width, height } => {
            intake::read_rectangle(name, width, height).map(|one| vec![one])
        }
    }
}

fn refusal(problem: &IntakeProblem) -> ApiError {
    let hint = problem.hint().unwrap_or_default();
    ApiError::new(StatusCode::UNPROCESSABLE_ENTITY, problem.to_string(), &hint)
}

/// A quilt to begin.
#[derive(Deserialize, ToSchema)]
pub(crate) struct QuiltAsk {
    /// What it is called.
    name: String,
}

/// A quilt that was begun.
#[derive(Serialize, ToSchema)]
pub(crate) struct BegunView {
    quilt: String,
    head: String,
}

/// Begins a quilt: an empty table.
#[utoipa::path(post, operation_id = "begin_quilt", path = "/api/quilts", request_body = QuiltAsk,
    responses((status = 201, body = BegunView), (status = 400, body = Refused), (status = 415, body = Refused),
        (status = 422, body = Refused)))]
pub(crate) async fn begin(
    State(shared): State<Shared>,
    InBody(asked): InBody<QuiltAsk>,
) -> Result<(StatusCode, Json<BegunView>), ApiError> {
    apart(move || {
        let head = shared.writing().new_quilt(asked.name.trim(), &Wish::default())?;
        Ok((StatusCode::CREATED, Json(BegunView { quilt: head.quilt, head: head.name })))
    })
    .await?
}

/// What was taken back.
#[derive(Serialize, ToSchema)]
pub(crate) struct UndoneView {
    words: String,
}

/// Takes the last deed of the workroom back, whatever it was.
#[utoipa::path(post, operation_id = "undo", path = "/api/undo",
    responses((status = 200, body = UndoneView), (status = 422, body = Refused)))]
pub(crate) async fn undo(State(shared): State<Shared>) -> Result<Json<UndoneView>, ApiError> {
    apart(move || {
        let what = shared.writing().undo()?;
        Ok(Json(UndoneView { words: format!("Undone: {}.", deed_words(&what)) }))
    })
    .await?
}

/// What a deed is called on the page.
pub(super) fn deed_words(deed: &str) -> String {
    match deed {
        "photograph" => "what was kept of a photograph",
        "enter" => "scraps put into the heap",
        "change cloth" | "same print" => "what is known of a cloth",
        "give away" => "cloth given away",
        "cut" => "a cut",
        "strip set" => "a strip set",
        "slice" => "slices of a strip set",
        "unpick cloth" => "joined cloth taken apart",
        "sewn" => "what was said to be sewn",
        "append" => "what was planned last",
        "amend" => "what was used instead",
        "what-ifs" | "what-if" => "new what-ifs",
        "drop what-if" => "a what-if that was dropped",
        "new quilt" => "a quilt that was begun",
        "rename quilt" => "another name for a quilt",
        "wish" => "a change of the wish",
        "unpick" => "unpicking",
        "resew" => "sewing again what was unpicked",
        "import" => "a quilt from a file",
        other => other,
    }
    .to_owned()
}
