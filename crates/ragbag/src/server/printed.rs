//! The papers: which there are, and each as a PDF made when it is asked for. A paper is made behind a door of
//! its own, so that everything else is answered meanwhile; nothing is kept.

#![allow(unused_qualifications, reason = "the macro that describes parameters writes them so")]

use super::error::{ApiError, Refused};
use super::extract::{InBody, InPath, InQuery};
use super::{Shared, apart};
use crate::letters::fonts;
use axum::Json;
use axum::extract::State;
use axum::http::{HeaderName, StatusCode, header};
use axum::response::{IntoResponse, Response};
use papers::Paper;
use papers::press::{Inking, Letters};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use utoipa::{IntoParams, ToSchema};
use workroom::Workroom;
use workroom::papers::{Hand, OwnWords, PaperKind, PapersWish, Printed};
use workroom::quilts::Head;

/// A paper that can be asked for.
#[derive(Serialize, ToSchema)]
pub(crate) struct PaperView {
    /// Its name, as in its address.
    name: &'static str,
    title: &'static str,
    /// What it is for.
    about: &'static str,
}

/// How papers are wished.
#[derive(Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub(crate) struct Wished {
    /// Which head; `main` when not said.
    head: Option<String>,
    /// `a4`, `letter`, another name, or width and height, as in `8-1/2x14`.
    paper: Option<String>,
    /// Cloth as a pale tint instead of pictures.
    ink_saving: Option<bool>,
    /// Lengths in centimetres.
    cm: Option<bool>,
    /// Cuts told for the blade in the left hand.
    left_handed: Option<bool>,
    /// For those who cut by template.
    by_template: Option<bool>,
    /// Several step cards a page.
    small_cards: Option<bool>,
    /// True-size sheets mirrored.
    mirrored: Option<bool>,
    /// True-size sheets even of what is better done without.
    anyway: Option<bool>,
}

impl Wished {
    fn wish(&self, words: OwnWords) -> Result<PapersWish, ApiError> {
        let is = |said: Option<bool>| said.unwrap_or(false);
        Ok(PapersWish {
            paper: on_paper(self.paper.as_deref())?,
            inking: if is(self.ink_saving) { Inking::Saving } else { Inking::Colour },
            centimetres: is(self.cm),
            hand: if is(self.left_handed) { Hand::Left } else { Hand::Right },
            by_template: is(self.by_template),
            small_cards: is(self.small_cards),
            mirrored: is(self.mirrored),
            anyway: is(self.anyway),
            words,
        })
    }
}

/// The paper that is named; A4 when none is.
pub(super) fn on_paper(said: Option<&str>) -> Result<Paper, ApiError> {
    let read = said.map(str::parse::<Paper>).transpose();
    Ok(read.map_err(|why| ApiError::new(StatusCode::BAD_REQUEST, why.to_string(), ""))?.unwrap_or_default())
}

/// The papers there are, in the order of the work.
#[utoipa::path(get, operation_id = "papers", path = "/api/papers", responses((status = 200, body = Vec<PaperView>)))]
pub(crate) async fn list() -> Json<Vec<PaperView>> {
    let view = |kind: PaperKind| PaperView { name: kind.name(), title: kind.title(), about: kind.about() };
    Json(PaperKind::ALL.into_iter().map(view).collect())
}

/// How many pictures couldn't be had: their cloth is drawn in its colour.
const LOST: &str = "ragbag-lost-pictures";
/// Which papers a booklet goes without, with commas between.
const LEFT_OUT: &str = "ragbag-left-out";

/// A paper of a quilt, or all of them as a `booklet`. The answer's heads say what it goes without:
/// `ragbag-lost-pictures`, how many, and of a booklet `ragbag-left-out`, which papers.
#[utoipa::path(get, operation_id = "paper", path = "/api/quilts/{quilt}/papers/{paper}",
    params(("quilt" = String, Path), ("paper" = String, Path, description = "a paper's name, or `booklet`"), Wished),
    responses((status = 200, content_type = "application/pdf"), (status = 400, body = Refused), (status = 404, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn paper(
    State(shared): State<Shared>,
    InPath((quilt, name)): InPath<(String, String)>,
    InQuery(wished): InQuery<Wished>,
) -> Result<Response, ApiError> {
    apart(move || {
        let mut room = Workroom::open(shared.reading().folder())?;
        let head = room.head(&quilt, wished.head.as_deref().unwrap_or("main"))?;
        let wish = wished.wish(room.own_words(&head.quilt)?)?;
        let (printed, left_out) = made(&mut room, &head, &name, &wish)?;
        let headers = [
            (header::CONTENT_TYPE, "application/pdf".to_owned()),
            (header::CONTENT_DISPOSITION, format!("inline; filename=\"{name}.pdf\"")),
            (HeaderName::from_static(LOST), printed.lost.len().to_string()),
            (HeaderName::from_static(LEFT_OUT), left_out.join(",")),
        ];
        Ok((headers, printed.pdf).into_response())
    })
    .await?
}

/// The file, and which papers a booklet goes without.
fn made(
    room: &mut Workroom,
    head: &Head,
    name: &str,
    wish: &PapersWish,
) -> Result<(Printed, Vec<&'static str>), ApiError> {
    let letters = Letters::new(&fonts());
    if name == "booklet" {
        let wish = wish.clone().for_booklet();
        let papers = room.papers(head, &PaperKind::in_booklet(), &wish, &mut |_, _| true);
        let left_out = papers.left_out.iter().map(|one| one.kind.name()).collect();
        return Ok((room.booklet(head, &papers.made, &wish, &letters)?, left_out));
    }
    let kind: PaperKind = name.parse().map_err(|why: String| {
        ApiError::new(StatusCode::NOT_FOUND, why, "GET /api/papers tells which there are.")
    })?;
    let paper = room.paper(head, kind, wish)?;
    Ok((room.print(head, &paper, wish, &letters)?, Vec::new()))
}

/// The maker's own words for the pattern of a quilt.
#[derive(Serialize, Deserialize, ToSchema)]
pub(crate) struct WordsView {
    /// The title; the quilt's name when empty.
    title: String,
    /// Who made it; nobody named when empty.
    maker: String,
    /// Some words for the cover.
    cover: String,
    /// Under the title of a paper, by the paper's name.
    papers: BTreeMap<String, String>,
}

impl From<OwnWords> for WordsView {
    fn from(OwnWords { title, maker, cover, papers }: OwnWords) -> Self {
        Self { title, maker, cover, papers }
    }
}

/// The maker's own words for a quilt's pattern.
#[utoipa::path(get, operation_id = "own_words", path = "/api/quilts/{quilt}/words", params(("quilt" = String, Path)),
    responses((status = 200, body = WordsView), (status = 404, body = Refused)))]
pub(crate) async fn words(
    State(shared): State<Shared>,
    InPath(quilt): InPath<String>,
) -> Result<Json<WordsView>, ApiError> {
    apart(move || {
        let room = shared.reading();
        room.head(&quilt, "main")?;
        Ok(Json(room.own_words(&quilt)?.into()))
    })
    .await?
}

/// Keeps the maker's own words for a quilt's pattern.
#[utoipa::path(put, operation_id = "keep_words", path = "/api/quilts/{quilt}/words", params(("quilt" = String, Path)), request_body = WordsView,
    responses((status = 200, body = WordsView), (status = 400, body = Refused), (status = 404, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn keep_words(
    State(shared): State<Shared>,
    InPath(quilt): InPath<String>,
    InBody(WordsView { title, maker, cover, papers }): InBody<WordsView>,
) -> Result<Json<WordsView>, ApiError> {
    apart(move || {
        let mut room = shared.writing();
        room.head(&quilt, "main")?;
        room.set_own_words(&quilt, &OwnWords { title, maker, cover, papers })?;
        Ok(Json(room.own_words(&quilt)?.into()))
    })
    .await?
}
