//! Enough? Everything that is chosen at a head, held against the heap, stage by stage.

use super::error::{ApiError, Refused};
use super::extract::{InPath, InQuery};
use super::{Shared, apart};
use axum::Json;
use axum::extract::State;
use quilt::stage::enough::Rates;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use workroom::asks::{EnoughReport, GoodsNames};

/// Whether there is enough of everything.
#[derive(Serialize, ToSchema)]
pub(crate) struct EnoughView {
    /// Whether there is enough of everything.
    is_enough: bool,
    /// Hours of work in all.
    hours: f64,
    /// Stage by stage, in the order of work.
    stages: Vec<EnoughStageView>,
    /// What to buy.
    buy: Vec<BuyView>,
    /// The stages that aren't decided yet, and for which nothing is counted.
    undecided: Vec<String>,
}

/// Whether there is enough for a stage.
#[derive(Serialize, ToSchema)]
pub(crate) struct EnoughStageView {
    stage: String,
    is_enough: bool,
    hours: f64,
    /// What it is short of, a sentence each.
    short: Vec<String>,
}

/// A line of the shopping list.
#[derive(Serialize, ToSchema)]
pub(crate) struct BuyView {
    /// What.
    name: String,
    /// How much, in the shop's unit: `5 1/4 yd`.
    words: String,
    /// Whether it is reckoned from an area, so that it may take more.
    at_least: bool,
}

#[derive(Deserialize)]
pub(crate) struct EnoughOf {
    head: Option<String>,
    per_hour: Option<f64>,
}

/// Whether the heap has enough for everything that is chosen and planned, and what to buy.
#[utoipa::path(get, operation_id = "enough", path = "/api/quilts/{quilt}/enough",
    params(("quilt" = String, Path), ("head" = Option<String>, Query), ("per_hour" = Option<f64>, Query)),
    responses((status = 200, body = EnoughView), (status = 400, body = Refused), (status = 404, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn enough(
    State(shared): State<Shared>,
    InPath(quilt): InPath<String>,
    InQuery(of): InQuery<EnoughOf>,
) -> Result<Json<EnoughView>, ApiError> {
    apart(move || {
        let mut room = shared.reading();
        let head = of.head.as_deref().unwrap_or("main");
        let own = room.habits()?.rates;
        let rates = Rates { per_hour: of.per_hour.or(own.per_hour), ..own };
        let shop = room.shop()?;
        let report = room.enough(&quilt, head, &shop, &rates)?;
        Ok(Json(view(&report, &GoodsNames::of(room.stash()?))))
    })
    .await?
}

fn view(report: &EnoughReport, names: &GoodsNames) -> EnoughView {
    let enough = &report.enough;
    let stages = enough.stages.iter().map(|stage| EnoughStageView {
        stage: stage.stage.to_string(),
        is_enough: stage.is_enough(),
        hours: stage.hours,
        short: stage.lines.iter().filter(|line| line.short > 0.0).map(|line| names.short(line)).collect(),
    });
    let buy = enough.buy.iter().map(|buy| BuyView {
        name: names.named(&buy.goods),
        words: buy.words.clone(),
        at_least: buy.at_least,
    });
    EnoughView {
        is_enough: enough.is_enough(),
        hours: enough.hours,
        stages: stages.collect(),
        buy: buy.collect(),
        undecided: report.undecided.iter().map(|&name| name.to_owned()).collect(),
    }
}
