//! What the page asks for.

use super::bend::bend_of;
use super::error::{ApiError, Refused};
use super::extract::{InBody, InPath};
use super::reads::{step_of, svg};
use super::view::{AnswerView, AskBody, AskView, ProblemView, ProposalPatchView, ProposalView, TermView};
use super::why::nothing_found;
use super::{Shared, apart};
use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use grow::{Bend, Effort, Goal, Watch};
use plane::Region;
use quilt::cloth::ClothId;
use quilt::length::{Length, MeasureProblem};
use quilt::log::{Mark, Name, StepId};
use workroom::Workroom;
use workroom::asks::{AskError, Asked, DrawAsk, GrowAsk, Instead, Offer};
use workroom::quilts::{At, Head};

/// How many proposals there are when nobody says.
const PROPOSALS: usize = 5;

/// Asks for something that may change the log.
#[utoipa::path(post, path = "/api/quilts/{quilt}/asks", params(("quilt" = String, Path)), request_body = AskBody,
    responses((status = 200, body = AnswerView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 409, body = Refused), (status = 415, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn ask(
    State(shared): State<Shared>,
    InPath(quilt): InPath<String>,
    InBody(body): InBody<AskBody>,
) -> Result<Json<AnswerView>, ApiError> {
    apart(move || answer(&shared, &quilt, &body)).await?
}

fn answer(shared: &Shared, quilt: &str, body: &AskBody) -> Result<Json<AnswerView>, ApiError> {
    let mut room = shared.writing();
    answered(shared, &mut room, quilt, body, &mut ()).map(Json)
}

/// What an ask comes to in a workroom. `watch` hears of growing, and can stop it.
pub(super) fn answered(
    shared: &Shared,
    room: &mut Workroom,
    quilt: &str,
    body: &AskBody,
    watch: &mut dyn Watch,
) -> Result<AnswerView, ApiError> {
    let head = room.head(quilt, &body.head)?;
    still_at(&head, body.tip.as_deref())?;
    let Came { offers, words } = match decide(room, &head, &body.ask, watch) {
        Ok(came) => came,
        Err(AskError::Refused { problem, remedies }) => return Ok(refused(&head, &problem, remedies)),
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
    Ok(AnswerView { tip, version: now.version, proposals, problems: None, words })
}

/// Refuses what was asked of a log that has grown since.
pub(super) fn still_at(head: &Head, tip: Option<&str>) -> Result<(), ApiError> {
    if head.tip.map(|tip| tip.to_string()).as_deref() == tip {
        return Ok(());
    }
    let why = "the log has grown in the meantime";
    Err(ApiError::new(StatusCode::CONFLICT, why, "Read it again, then ask once more."))
}

/// What an ask brought: proposals, or a sentence.
#[derive(Default)]
struct Came {
    offers: Option<Vec<Offer>>,
    words: Option<String>,
}

impl Came {
    fn words(words: String) -> Self {
        Self { offers: None, words: Some(words) }
    }
}

fn decide(room: &mut Workroom, head: &Head, ask: &AskView, watch: &mut dyn Watch) -> Asked<Came> {
    let at: At = head.at();
    match ask {
        AskView::Next { side, count, bend } => {
            return proposed(room, head, side.as_deref(), *count, &bend_of(bend.as_ref())?);
        }
        AskView::Take { proposal, side, count, bend } => {
            offers(room, head, side.as_deref(), *count, &bend_of(bend.as_ref())?)?;
            room.take(&at, *proposal, &Bend::default())?;
        }
        AskView::Refuse { proposal, side, count, bend } => {
            let bend = bend_of(bend.as_ref())?;
            offers(room, head, side.as_deref(), *count, &bend)?;
            room.refuse_offer(&at.quilt, &at.head, *proposal)?;
            return proposed(room, head, side.as_deref(), *count, &bend);
        }
        AskView::ForgetRefusals { side, count, bend } => {
            room.forget_refusals(&at.quilt)?;
            return proposed(room, head, side.as_deref(), *count, &bend_of(bend.as_ref())?);
        }
        AskView::Lay { cloth, wide, deep } => {
            let cut = Region::rectangle(length(wide)?, length(deep)?).outer;
            room.lay(&at, cloth_of(cloth)?, &cut)?;
        }
        AskView::Sewn { upto } => {
            let log = room.log(&at.quilt, &at.head)?;
            let step = match upto {
                Some(mark) => log.steps.iter().find(|step| step.entry.mark.0 == *mark),
                None => log.steps.last(),
            };
            let step = step.ok_or(AskError::NothingOnTable)?.id;
            room.sew(&at, step, true)?;
        }
        AskView::Instead { patch, cloth, wide, deep, anyway } => {
            let read = |text: &Option<String>| text.as_deref().map(length).transpose();
            let (wide_in, deep_in) = (read(wide)?, read(deep)?);
            let (cloth, anyway) = (cloth_of(cloth)?, anyway.unwrap_or(false));
            let instead = Instead { patch: patch.map(Mark), cloth, wide_in, deep_in, anyway };
            return Ok(Came::words(room.instead(&at, instead)?.words()));
        }
        AskView::Unpick => {
            room.unpick_run(&at)?;
        }
        AskView::Resew => {
            room.resew(&at)?;
        }
        AskView::Grow { pieces, seed } => {
            let ask = grow_ask(room, &at, *pieces, *seed)?;
            return Ok(Came::words(room.grow(&at, &ask, watch)?.words));
        }
        AskView::WhatIfs { count, pieces, seed } => {
            let effort = Effort { starts: 2, ..Effort::USUAL };
            let ask = GrowAsk { effort, ..grow_ask(room, &at, *pieces, *seed)? };
            let grown = room.what_ifs(&at, *count, &ask, watch)?;
            let words = grown.iter().map(|one| format!("{}: {}", one.head.name, one.report.words));
            return Ok(Came::words(words.collect::<Vec<_>>().join(" ")));
        }
    }
    Ok(Came::default())
}

/// A length as a maker writes it, in inches.
pub(super) fn length(text: &str) -> Asked<f64> {
    let wrong = |why: MeasureProblem| {
        let hint = "Write it as in 2 1/4, 2.25 or 57 mm.".to_owned();
        AskError::Nonsense { what: why.to_string(), hint }
    };
    text.trim().parse::<Length>().map(Length::inches).map_err(wrong)
}

/// A cloth by its id.
pub(super) fn cloth_of(name: &str) -> Asked<ClothId> {
    let hint = "The heap lists every cloth with its id.".to_owned();
    ClothId::try_from(name.to_owned()).map_err(|what| AskError::Nonsense { what, hint })
}

/// So many pieces more than there are.
fn grow_ask(room: &mut Workroom, at: &At, pieces: usize, seed: u64) -> Asked<GrowAsk> {
    let there = room.table(&at.quilt, &at.head)?.piece().map_or(0, |(_, top)| top.faces().len());
    Ok(GrowAsk {
        goal: Goal::Pieces(there + pieces.clamp(1, 500)),
        effort: Effort::USUAL,
        seed,
        across_in: None,
    })
}

fn side_of(side: Option<&str>) -> Asked<Option<Name>> {
    side.map(str::parse::<Name>)
        .transpose()
        .map_err(|what| AskError::Nonsense { what, hint: "Sides are named on the drawing.".to_owned() })
}

fn offers(
    room: &mut Workroom,
    head: &Head,
    side: Option<&str>,
    count: Option<usize>,
    bend: &Bend,
) -> Asked<Vec<Offer>> {
    let count = count.unwrap_or(PROPOSALS).clamp(1, 20);
    room.propose(&head.quilt, &head.name, side_of(side)?, count, bend)
}

/// Proposals, or why there is none.
fn proposed(
    room: &mut Workroom,
    head: &Head,
    side: Option<&str>,
    count: Option<usize>,
    bend: &Bend,
) -> Asked<Came> {
    let offers = offers(room, head, side, count, bend)?;
    let words = if offers.is_empty() { Some(nothing_found(room, head, side_of(side)?, bend)?) } else { None };
    Ok(Came { offers: Some(offers), words })
}

/// What an answer says when a rule of the trade stands against it.
pub(super) fn refused(head: &Head, problem: &quilt::Problem, remedies: Vec<String>) -> AnswerView {
    let rule = format!("{:?}", problem.rule);
    let place = Some(problem.place.to_string());
    let problems = Some(vec![ProblemView { rule, message: problem.to_string(), place, remedies }]);
    AnswerView {
        tip: head.tip.map(|tip| tip.to_string()),
        version: head.version,
        proposals: None,
        problems,
        words: None,
    }
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
        asked: offer.proposal.asked.to_string(),
        cut_words: cuts.join("\n"),
        patches: offer
            .patches
            .iter()
            .enumerate()
            .map(|(i, patch)| ProposalPatchView {
                no: patch.no,
                cloth: patch.cloth.to_string(),
                cloth_name: patch.name.clone(),
                size: patch.size.clone(),
                cuts: patch.cut.clone(),
                cut_svg_url: format!("/api/at/{tip}/offers/{}/cuts/{}.svg", offer.no, i + 1),
            })
            .collect(),
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
    InPath((step, no)): InPath<(String, String)>,
) -> Result<Response, ApiError> {
    let (step, no) = (step_of(&step)?, number_of(&no)?);
    apart(move || {
        let offer = offered(&shared, step, no)?;
        let drawing = shared.reading().draw_offer(step, &offer, DrawAsk::default())?;
        Ok(svg(&drawing, "no-store"))
    })
    .await?
}

/// The cloth of a patch of a proposal, with the marks and the lines by which it is cut.
#[utoipa::path(get, path = "/api/at/{step}/offers/{no}/cuts/{patch}.svg",
    params(("step" = String, Path), ("no" = String, Path), ("patch" = String, Path)),
    responses((status = 200, content_type = "image/svg+xml"), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn cut(
    State(shared): State<Shared>,
    InPath((step, no, patch)): InPath<(String, String, String)>,
) -> Result<Response, ApiError> {
    let (step, no, patch) = (step_of(&step)?, number_of(&no)?, number_of(&patch)?);
    apart(move || {
        let offer = offered(&shared, step, no)?;
        let patch = patch.checked_sub(1).ok_or_else(gone)?;
        let drawing = shared.reading().draw_cut(&offer, patch)?.ok_or_else(gone)?;
        Ok(svg(&drawing, "no-store"))
    })
    .await?
}

fn gone() -> ApiError {
    ApiError::new(StatusCode::NOT_FOUND, "that proposal is gone", "Ask for the next piece again.")
}

fn number_of(name: &str) -> Result<usize, ApiError> {
    name.trim_end_matches(".svg").parse().map_err(|_| gone())
}

/// The offer of this number that was made last, if it was made at this step.
fn offered(shared: &Shared, step: StepId, no: usize) -> Result<Offer, ApiError> {
    let offer = match &*shared.offers() {
        Some((tip, offers)) if *tip == step => offers.iter().find(|offer| offer.no == no).cloned(),
        _ => None,
    };
    offer.ok_or_else(gone)
}
