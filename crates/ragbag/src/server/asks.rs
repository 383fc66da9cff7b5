//! What the page asks for.

use super::error::{ApiError, Refused};
use super::reads::{step_of, svg};
use super::view::{AnswerView, AskBody, AskView, ProblemView, ProposalView, TermView};
use super::{Shared, apart};
use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::Response;
use grow::{Bend, Effort, Goal};
use quilt::log::Name;
use workroom::Workroom;
use workroom::asks::{AskError, Asked, DrawAsk, GrowAsk, Offer};
use workroom::quilts::{At, Head};

/// How many proposals there are when nobody says.
const PROPOSALS: usize = 5;

/// Asks for something that may change the log.
#[utoipa::path(post, path = "/api/quilts/{quilt}/asks", params(("quilt" = String, Path)), request_body = AskBody,
    responses((status = 200, body = AnswerView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 409, body = Refused), (status = 415, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn ask(
    State(shared): State<Shared>,
    Path(quilt): Path<String>,
    body: Result<Json<AskBody>, JsonRejection>,
) -> Result<Json<AnswerView>, ApiError> {
    let Json(body) = body.map_err(|why| ApiError::new(why.status(), why.body_text(), ""))?;
    apart(move || answer(&shared, &quilt, &body)).await?
}

fn answer(shared: &Shared, quilt: &str, body: &AskBody) -> Result<Json<AnswerView>, ApiError> {
    let mut room = shared.writing();
    let head = room.head(quilt, &body.head)?;
    if head.tip.map(|tip| tip.to_string()) != body.tip {
        let why = "the log has grown in the meantime";
        return Err(ApiError::new(StatusCode::CONFLICT, why, "Read it again, then ask once more."));
    }
    let offers = match decide(&mut room, &head, &body.ask) {
        Ok(offers) => offers,
        Err(AskError::Refused { problem, remedies }) => return Ok(Json(refused(&head, &problem, remedies))),
        Err(other) => return Err(other.into()),
    };
    let now = room.head(quilt, &body.head)?;
    let tip = now.tip.map(|tip| tip.to_string());
    let proposals = offers.as_ref().map(|offers| {
        offers.iter().map(|offer| proposal_view(offer, tip.as_deref().unwrap_or_default())).collect()
    });
    if let (Some(offers), Some(tip)) = (offers, now.tip) {
        *shared.offers() = Some((tip, offers));
    }
    Ok(Json(AnswerView { tip, version: now.version, proposals, problems: None }))
}

fn decide(room: &mut Workroom, head: &Head, ask: &AskView) -> Asked<Option<Vec<Offer>>> {
    let at: At = head.at();
    let bend = Bend::default();
    let grow = |pieces: usize, seed: u64, room: &mut Workroom| -> Asked<GrowAsk> {
        let there = room.table(&at.quilt, &at.head)?.piece().map_or(0, |(_, top)| top.faces().len());
        Ok(GrowAsk { goal: Goal::Pieces(there + pieces.clamp(1, 500)), effort: Effort::USUAL, seed })
    };
    match ask {
        AskView::Next { side, count } => Ok(Some(offers(room, head, side.as_deref(), *count)?)),
        AskView::Take { proposal, side, count } => {
            offers(room, head, side.as_deref(), *count)?;
            room.take(&at, *proposal, &bend)?;
            Ok(None)
        }
        AskView::Refuse { proposal, side, count } => {
            offers(room, head, side.as_deref(), *count)?;
            room.refuse_offer(&at.quilt, &at.head, *proposal)?;
            Ok(Some(offers(room, head, side.as_deref(), *count)?))
        }
        AskView::Sewn { upto } => {
            let log = room.log(&at.quilt, &at.head)?;
            let step = match upto {
                Some(mark) => log.steps.iter().find(|step| step.entry.mark.0 == *mark),
                None => log.steps.last(),
            };
            let step = step.ok_or(AskError::NothingOnTable)?.id;
            room.sew(&at, step, true)?;
            Ok(None)
        }
        AskView::Unpick => {
            room.unpick_run(&at)?;
            Ok(None)
        }
        AskView::Resew => {
            room.resew(&at)?;
            Ok(None)
        }
        AskView::Grow { pieces, seed } => {
            let ask = grow(*pieces, *seed, room)?;
            room.grow(&at, &ask, &mut ())?;
            Ok(None)
        }
        AskView::WhatIfs { count, pieces, seed } => {
            let ask =
                GrowAsk { effort: Effort { starts: 2, ..Effort::USUAL }, ..grow(*pieces, *seed, room)? };
            room.what_ifs(&at, *count, &ask, &mut ())?;
            Ok(None)
        }
    }
}

fn offers(room: &mut Workroom, head: &Head, side: Option<&str>, count: Option<usize>) -> Asked<Vec<Offer>> {
    let side = side
        .map(str::parse::<Name>)
        .transpose()
        .map_err(|what| AskError::Nonsense { what, hint: "Sides are named on the drawing.".to_owned() })?;
    room.propose(&head.quilt, &head.name, side, count.unwrap_or(PROPOSALS).clamp(1, 20), &Bend::default())
}

fn refused(head: &Head, problem: &quilt::Problem, remedies: Vec<String>) -> AnswerView {
    let rule = format!("{:?}", problem.rule);
    let place = Some(problem.place.to_string());
    let problems = Some(vec![ProblemView { rule, message: problem.to_string(), place, remedies }]);
    AnswerView { tip: head.tip.map(|tip| tip.to_string()), version: head.version, proposals: None, problems }
}

fn proposal_view(offer: &Offer, tip: &str) -> ProposalView {
    let names: Vec<&str> = offer.patches.iter().map(|patch| patch.name.as_str()).collect();
    let cuts: Vec<String> = offer
        .patches
        .iter()
        .map(|patch| {
            let number = patch.no.map_or_else(String::new, |no| format!("No. {no} "));
            format!("{number}{}: {}. {}", patch.name, patch.size, patch.cut.join(" "))
        })
        .collect();
    ProposalView {
        no: offer.no,
        cloth: offer.patches.first().map_or_else(String::new, |patch| patch.cloth.to_string()),
        cloth_name: names.join(" + "),
        side: offer.proposal.side.to_string(),
        cut_words: cuts.join("\n"),
        lay_words: offer.lay.clone(),
        score: offer.proposal.score,
        terms: offer
            .proposal
            .terms
            .iter()
            .map(|term| TermView {
                name: term.name.to_owned(),
                words: term.words.clone(),
                value: term.value * term.weight,
            })
            .collect(),
        preview_svg_url: format!("/api/at/{tip}/offers/{}.svg", offer.no),
    }
}

/// A proposal laid on the piece to look.
#[utoipa::path(get, path = "/api/at/{step}/offers/{no}.svg", params(("step" = String, Path), ("no" = String, Path)),
    responses((status = 200, content_type = "image/svg+xml"), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn preview(
    State(shared): State<Shared>,
    Path((step, no)): Path<(String, String)>,
) -> Result<Response, ApiError> {
    let step = step_of(&step)?;
    let gone =
        || ApiError::new(StatusCode::NOT_FOUND, "that proposal is gone", "Ask for the next piece again.");
    let no: usize = no.trim_end_matches(".svg").parse().map_err(|_| gone())?;
    apart(move || {
        let offer = match &*shared.offers() {
            Some((tip, offers)) if *tip == step => offers.iter().find(|offer| offer.no == no).cloned(),
            _ => None,
        };
        let offer = offer.ok_or_else(gone)?;
        let drawing = shared.reading().draw_offer(step, &offer, DrawAsk::default())?;
        Ok(svg(&drawing, "no-store"))
    })
    .await?
}
