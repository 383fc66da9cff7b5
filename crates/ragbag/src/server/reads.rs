//! Everything that can be read. What lies at a step never changes, so it is kept for ever.

use super::entering::deed_words;
use super::error::{ApiError, Refused};
use super::extract::{InPath, InQuery};
use super::view::{
    ClothView, EntryView, EyeView, GradeView, HeadView, LogView, MarkKind, MarkView, PatchView, PhotoState,
    QuiltView, RoomView, RowView, RunView, SeamView, ShadeView, SideView, StashView, TableView, ThickView,
    TopView,
};
use super::{Shared, apart};
use axum::Json;
use axum::extract::State;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use drawing::ClothOptions;
use drawing::svg::{Pictures, SvgOptions};
use plane::polygon;
use quilt::cloth::{Cloth, ClothId, Runs};
use quilt::eye::{EyeMark, Grade, Row};
use quilt::layers::thickest;
use quilt::log::{Mark, Run, RunKind, Stage, Step, StepId};
use quilt::stage::Chosen;
use quilt::table::{Table, Top};
use serde::Deserialize;
use std::collections::BTreeMap;
use workroom::Workroom;
use workroom::asks::{DrawAsk, story};

type Answer<T> = Result<Json<T>, ApiError>;
const FOR_EVER: &str = "private, max-age=31536000, immutable";

/// A step named in an address.
pub(super) fn step_of(text: &str) -> Result<StepId, ApiError> {
    text.parse().map_err(|why: String| ApiError::new(StatusCode::BAD_REQUEST, why, ""))
}

/// Every quilt and its heads.
#[utoipa::path(get, path = "/api/workroom", responses((status = 200, body = RoomView), (status = 422, body = Refused)))]
pub(crate) async fn workroom(State(shared): State<Shared>) -> Answer<RoomView> {
    apart(move || {
        let room = shared.reading();
        let name =
            room.folder().file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
        let mut quilts = Vec::new();
        for quilt in room.quilts()? {
            let mut heads = Vec::new();
            for head in quilt.heads {
                let steps = room.log(&quilt.name, &head.name)?.steps.len();
                let (tip, sewn) = (head.tip.map(|id| id.to_string()), head.sewn.map(|id| id.to_string()));
                heads.push(HeadView { name: head.name, tip, sewn, steps, version: head.version });
            }
            quilts.push(QuiltView { name: quilt.name, heads });
        }
        let undo = room.last_deed()?.map(|deed| deed_words(&deed));
        Ok(Json(RoomView { name, quilts, undo }))
    })
    .await?
}

#[derive(Deserialize)]
pub(crate) struct OfQuilt {
    quilt: Option<String>,
}

/// The stash, with what a quilt's plan claims.
#[utoipa::path(get, path = "/api/stash", params(("quilt" = Option<String>, Query)),
    responses((status = 200, body = StashView), (status = 404, body = Refused)))]
pub(crate) async fn stash(State(shared): State<Shared>, InQuery(of): InQuery<OfQuilt>) -> Answer<StashView> {
    apart(move || {
        let mut room = shared.reading();
        let claimed =
            of.quilt.map_or_else(|| Ok(BTreeMap::new()), |quilt| room.claimed_areas(&quilt, "main"))?;
        let stash = room.stash()?;
        let cloths = stash
            .items()
            .filter_map(|item| Some(cloth_view(item.no, &item.came, item.now.as_ref()?, &claimed)))
            .collect();
        Ok(Json(StashView { cloths }))
    })
    .await?
}

fn cloth_view(no: u32, came: &Cloth, now: &Cloth, claimed: &BTreeMap<ClothId, f64>) -> ClothView {
    let area = now.outline.area();
    let (low, high) = polygon::bounds(&now.outline.outer).unwrap_or_default();
    let shades = now.look.shades.iter();
    ClothView {
        id: now.id.to_string(),
        no,
        name: now.name.clone(),
        kind: format!("{:?}", now.kind).to_lowercase(),
        about: now.about,
        place: (!now.place.is_empty()).then(|| now.place.clone()),
        area_in2: area,
        width_in: high.x - low.x,
        height_in: high.y - low.y,
        remaining: (area / came.outline.area().max(1e-9)).clamp(0.0, 1.0),
        claimed: (claimed.get(&now.id).copied().unwrap_or(0.0) / area.max(1e-9)).clamp(0.0, 1.0),
        print: now.print.map(|print| format!("{print:x}")),
        runs: match now.look.runs {
            Runs::AnyWay => "any way",
            Runs::BothWays(_) => "both ways",
            Runs::OneWay(_) => "one way",
        }
        .to_owned(),
        colours: shades.map(|s| ShadeView { hex: s.lab.to_srgb().to_string(), share: s.share }).collect(),
        picture_url: now.picture.as_ref().map(|picture| format!("/pictures/{}", picture.hash)),
        svg_url: format!("/api/stash/{}.svg", now.id),
    }
}

/// One cloth, in true size.
#[utoipa::path(get, path = "/api/stash/{cloth}.svg", params(("cloth" = String, Path)),
    responses((status = 200, content_type = "image/svg+xml"), (status = 404, body = Refused)))]
pub(crate) async fn cloth(
    State(shared): State<Shared>,
    InPath(name): InPath<String>,
) -> Result<Response, ApiError> {
    let id = name.strip_suffix(".svg").unwrap_or(&name).to_owned();
    let id = ClothId::try_from(id).map_err(|why| ApiError::new(StatusCode::BAD_REQUEST, why, ""))?;
    apart(move || {
        let drawing = shared.reading().draw_cloth(id, &ClothOptions::default())?;
        Ok(svg(&drawing, "no-cache"))
    })
    .await?
}

#[derive(Deserialize)]
pub(crate) struct OfHead {
    head: Option<String>,
}

/// The log of a head.
#[utoipa::path(get, path = "/api/quilts/{quilt}/log", params(("quilt" = String, Path), ("head" = Option<String>, Query)),
    responses((status = 200, body = LogView), (status = 404, body = Refused)))]
pub(crate) async fn log(
    State(shared): State<Shared>,
    InPath(quilt): InPath<String>,
    InQuery(of): InQuery<OfHead>,
) -> Answer<LogView> {
    apart(move || {
        let mut room = shared.reading();
        let cloths = room.every_cloth()?;
        let log = room.log(&quilt, of.head.as_deref().unwrap_or("main"))?;
        let story = story(log.steps.iter().map(|step| &step.entry), &cloths);
        let photos: Vec<Option<PhotoState>> =
            log.steps.iter().map(|step| photo_state(&room, &step.entry.step)).collect::<Result<_, _>>()?;
        let entries = log
            .steps
            .iter()
            .zip(story)
            .enumerate()
            .map(|(i, (step, sentence))| EntryView {
                step: step.id.to_string(),
                mark: step.entry.mark.0,
                kind: kind(&step.entry.step).to_owned(),
                run: step.entry.run.as_ref().map(|run| run_view(run, &step.entry.step)),
                sentence,
                sewn: i < log.sewn,
                photo: photos.get(i).copied().flatten(),
                patches: match step.entry.step {
                    Step::Lay { .. } => vec![step.entry.mark.to_string()],
                    _ => Vec::new(),
                },
            })
            .collect();
        let (tip, sewn) = (log.head.tip.map(|id| id.to_string()), log.head.sewn.map(|id| id.to_string()));
        Ok(Json(LogView { tip, sewn, version: log.head.version, entries }))
    })
    .await?
}

/// Whether the photograph of a step is there.
fn photo_state(room: &Workroom, step: &Step) -> Result<Option<PhotoState>, ApiError> {
    let Step::Measure { shown: Some(shown), .. } = step else { return Ok(None) };
    let there = room.has_picture(&shown.picture.hash)?;
    Ok(Some(if there { PhotoState::Kept } else { PhotoState::Missing }))
}

const fn kind(step: &Step) -> &'static str {
    match step {
        Step::Lay { .. } => "lay",
        Step::Sew(_) => "sew",
        Step::Cut { .. } => "cut",
        Step::Measure { .. } => "measure",
        Step::Choose(_) => "choose",
        Step::Note(_) => "note",
        Step::Turn { .. } => "turn",
        Step::Aside { .. } => "aside",
    }
}

const fn run_kind(kind: RunKind) -> &'static str {
    match kind {
        RunKind::Start => "start",
        RunKind::Piece => "piece",
        RunKind::Trim => "trim",
        RunKind::Grow => "grow",
        RunKind::StripSet => "strip_set",
        RunKind::PutIn => "put_in",
        RunKind::TrueUp => "true_up",
        RunKind::Ring => "ring",
        RunKind::Border => "border",
        RunKind::SquareUp => "square_up",
        RunKind::Centres => "centres",
        RunKind::Finishing => "finishing",
    }
}

fn run_view(run: &Run, step: &Step) -> RunView {
    let name = match step {
        Step::Choose(Stage::Planned(chosen)) if run.kind == RunKind::Finishing => chosen_name(chosen),
        _ => run_name(run.kind),
    };
    RunView { first: run.first.0, kind: run_kind(run.kind).to_owned(), name: name.to_owned() }
}

const fn run_name(kind: RunKind) -> &'static str {
    match kind {
        RunKind::Start => "First patch",
        RunKind::Piece => "Piece",
        RunKind::Trim => "Trim",
        RunKind::Grow => "Growing",
        RunKind::StripSet => "Strip set",
        RunKind::PutIn => "Put in",
        RunKind::TrueUp => "Truing up",
        RunKind::Ring => "Ring",
        RunKind::Border => "Border",
        RunKind::SquareUp => "Squaring up",
        RunKind::Centres => "Joining centres",
        RunKind::Finishing => "Finishing",
    }
}

const fn chosen_name(chosen: &Chosen) -> &'static str {
    match chosen {
        Chosen::Layers(_) => "Layers",
        Chosen::Quilting(_) => "Quilting",
        Chosen::Binding(_) => "Binding",
        Chosen::Sleeve(_) => "Sleeve and label",
        Chosen::Figure(_) => "Figure",
    }
}

/// What lies on the table after a step.
#[utoipa::path(get, path = "/api/at/{step}/table", params(("step" = String, Path)),
    responses((status = 200, body = TableView), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn table(
    State(shared): State<Shared>,
    InPath(step): InPath<String>,
) -> Result<Response, ApiError> {
    let step = step_of(&step)?;
    apart(move || {
        let mut room = shared.reading();
        let cloths = room.every_cloth()?;
        let table = room.table_at(step)?;
        let tops = table.tops().iter().map(|(mark, top)| top_view(*mark, top, &table, &cloths)).collect();
        Ok(([(header::CACHE_CONTROL, FOR_EVER)], Json(TableView { tops })).into_response())
    })
    .await?
}

fn top_view(mark: Mark, top: &Top, table: &Table, cloths: &BTreeMap<ClothId, Cloth>) -> TopView {
    let together = grow::sewable_together(top);
    let (width_in, height_in) = top.size_in();
    let side = |side: &quilt::table::Side| {
        let name = side.name()?;
        Some(SideView {
            name: name.to_string(),
            length_in: side.length_in(),
            sewable: together.contains(&name),
        })
    };
    TopView {
        mark: mark.0,
        sides: top.sides().iter().filter_map(side).collect(),
        patches: top.faces().values().map(|face| patch_view(face, top, table, cloths)).collect(),
        seams: top
            .seams()
            .iter()
            .map(|(name, seam)| SeamView {
                name: name.to_string(),
                length_in: seam.sewn_in,
                press: format!("{:?}", seam.press).to_lowercase(),
                order: seam.order,
            })
            .collect(),
        width_in,
        height_in,
        thickest: thickest(top, 3).into_iter().max_by_key(|thick| thick.layers).map(|thick| ThickView {
            layers: thick.layers,
            x_in: thick.at.x,
            y_in: thick.at.y,
        }),
    }
}

fn patch_view(
    face: &quilt::table::Face,
    top: &Top,
    table: &Table,
    cloths: &BTreeMap<ClothId, Cloth>,
) -> PatchView {
    let patch = table.patches().get(&face.patch);
    let (low, high) = patch.and_then(|patch| polygon::bounds(&patch.cut)).unwrap_or_default();
    let cloth = patch.and_then(|patch| cloths.get(&patch.cloth));
    PatchView {
        name: face.patch.to_string(),
        cloth: patch.map_or_else(String::new, |patch| patch.cloth.to_string()),
        cloth_name: cloth.map_or_else(|| "unknown cloth".to_owned(), |cloth| cloth.name.clone()),
        cut_in: vec![high.x - low.x, high.y - low.y],
        finished_area_in2: polygon::area(&top.finished_points(face, 0.25)),
        held_by: top.held_by(face.patch).map(|name| name.to_string()),
    }
}

#[derive(Deserialize)]
pub(crate) struct EyeOf {
    quilt: String,
}

/// The eye check after a step, against a quilt's wish.
#[utoipa::path(get, path = "/api/at/{step}/eye", params(("step" = String, Path), ("quilt" = String, Query)),
    responses((status = 200, body = EyeView), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn eye(
    State(shared): State<Shared>,
    InPath(step): InPath<String>,
    InQuery(of): InQuery<EyeOf>,
) -> Answer<EyeView> {
    let step = step_of(&step)?;
    apart(move || {
        let report = shared.reading().eye(&of.quilt, step)?;
        let rows = report.check.rows.iter().map(row_view).collect();
        Ok(Json(EyeView { rows, gates_passed: report.check.gates_passed, total_cost: report.cost }))
    })
    .await?
}

pub(super) fn row_view(row: &Row) -> RowView {
    let numbers: Vec<String> =
        row.values.iter().map(|value| format!("{} {:.2}", value.name, value.value)).collect();
    RowView {
        key: format!("{:?}", row.quality),
        quality: row.quality.label().to_owned(),
        number: (!numbers.is_empty()).then(|| numbers.join(", ")),
        words: row.words.clone(),
        grade: match row.grade {
            Grade::Good | Grade::NotWished | Grade::TooSoon => GradeView::Good,
            Grade::Fair => GradeView::Fair,
            Grade::Poor => GradeView::Poor,
        },
        marks: row.marks.iter().map(mark_view).collect(),
    }
}

fn mark_view(mark: &EyeMark) -> MarkView {
    let (kind, points) = match mark {
        EyeMark::Point(p) => (MarkKind::Point, vec![*p]),
        EyeMark::Line(a, b) => (MarkKind::Line, vec![*a, *b]),
        EyeMark::Polygon(points) => (MarkKind::Area, points.clone()),
    };
    MarkView { kind, points: points.iter().map(|p| [p.x, p.y]).collect() }
}

#[derive(Deserialize)]
pub(crate) struct Drawn {
    labels: Option<bool>,
    measures: Option<bool>,
    photo: Option<bool>,
    sewn: Option<String>,
}

impl Drawn {
    /// What is asked of the drawing of a face.
    pub(super) fn asked(&self, back: bool) -> DrawAsk {
        let (labels, measures) = (self.labels.unwrap_or(false), self.measures.unwrap_or(false));
        DrawAsk {
            back,
            labels,
            measures,
            flat: false,
            photo: !back && self.photo.unwrap_or(false),
            ..DrawAsk::default()
        }
    }
}

/// The front after a step; steps after `sewn` are chalk.
#[utoipa::path(get, path = "/api/at/{step}/front.svg",
    params(("step" = String, Path), ("labels" = Option<bool>, Query), ("measures" = Option<bool>, Query), ("sewn" = Option<String>, Query),
        ("photo" = Option<bool>, Query, description = "the photograph that the piece was measured by, in the place of its cloth")),
    responses((status = 200, content_type = "image/svg+xml"), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn front(
    State(shared): State<Shared>,
    InPath(step): InPath<String>,
    InQuery(drawn): InQuery<Drawn>,
) -> Result<Response, ApiError> {
    face(shared, &step, drawn, false).await
}

/// The back after a step.
#[utoipa::path(get, path = "/api/at/{step}/back.svg",
    params(("step" = String, Path), ("labels" = Option<bool>, Query), ("measures" = Option<bool>, Query), ("sewn" = Option<String>, Query)),
    responses((status = 200, content_type = "image/svg+xml"), (status = 400, body = Refused), (status = 404, body = Refused)))]
pub(crate) async fn back(
    State(shared): State<Shared>,
    InPath(step): InPath<String>,
    InQuery(drawn): InQuery<Drawn>,
) -> Result<Response, ApiError> {
    face(shared, &step, drawn, true).await
}

async fn face(shared: Shared, step: &str, drawn: Drawn, back: bool) -> Result<Response, ApiError> {
    let step = step_of(step)?;
    let sewn = drawn.sewn.as_deref().filter(|sewn| *sewn != "none").map(step_of).transpose()?;
    let ask = drawn.asked(back);
    apart(move || {
        let mut room = shared.reading();
        let marks = room.sewn_marks(sewn)?;
        let drawing = room.draw(step, Some(&marks), ask)?;
        Ok(svg(&drawing, FOR_EVER))
    })
    .await?
}

/// A drawing as an answer, its pictures by reference.
pub(super) fn svg(drawing: &drawing::Drawing, cache: &'static str) -> Response {
    let text = drawing.to_svg(&SvgOptions { pictures: Pictures::Linked("/pictures/"), id_prefix: "" });
    ([(header::CONTENT_TYPE, "image/svg+xml"), (header::CACHE_CONTROL, cache)], text).into_response()
}

/// A picture of cloth, by its content.
#[utoipa::path(get, path = "/pictures/{hash}", params(("hash" = String, Path)),
    responses((status = 200, content_type = "image/png"), (status = 404, body = Refused)))]
pub(crate) async fn picture(
    State(shared): State<Shared>,
    InPath(hash): InPath<String>,
) -> Result<Response, ApiError> {
    let hash = hash.split('.').next().unwrap_or_default().to_owned();
    apart(move || {
        let room: &Workroom = &shared.reading();
        let found = room.picture(&hash)?;
        let (bytes, format) =
            found.ok_or_else(|| ApiError::new(StatusCode::NOT_FOUND, "there is no such picture", ""))?;
        let kind = if format == "jpg" { "image/jpeg".to_owned() } else { format!("image/{format}") };
        Ok(([(header::CONTENT_TYPE, kind), (header::CACHE_CONTROL, FOR_EVER.to_owned())], bytes)
            .into_response())
    })
    .await?
}
