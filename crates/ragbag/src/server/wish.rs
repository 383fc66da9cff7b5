//! The wish of a quilt: what it is, in numbers with their units and limits, and changing it. The
//! rules are the workroom's.

use super::error::{ApiError, Refused};
use super::extract::{InBody, InPath};
use super::{Shared, apart};
use axum::Json;
use axum::extract::State;
use colour::{Lab, Srgb};
use quilt::cloth::ClothId;
use quilt::length::Length;
use quilt::wish::{MEASURES, Measure, Spiral, Towards, Unit, Wish, even_drift, set_outline};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use utoipa::ToSchema;
use workroom::asks::{AskError, Asked};

/// The wish of a quilt.
#[derive(Serialize, ToSchema)]
pub(crate) struct WishView {
    outline: OutlineView,
    measures: Vec<MeasureView>,
    spiral: SpiralView,
    /// Whether prints with a top must stand upright on the wall.
    upright: bool,
    /// Colours from the centre outward; none when there is no drift.
    drift: Vec<StopView>,
    /// Cloths not to be used.
    spare: Vec<String>,
    /// Cloths to be used where they can be.
    use_up: Vec<String>,
}

/// The outline to grow towards.
#[derive(Serialize, ToSchema)]
pub(crate) struct OutlineView {
    kind: OutlineKind,
    /// Of a round outline.
    #[schema(required)]
    sides: Option<u8>,
    /// Of a rectangle, finished.
    #[schema(required)]
    width_in: Option<f64>,
    #[schema(required)]
    height_in: Option<f64>,
}

/// Kinds of outline. A polygon is given by its corners, on the command line.
#[derive(Clone, Copy, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum OutlineKind {
    Round,
    Rectangle,
    Polygon,
    Free,
}

/// The sense in which pieces are added round the centre.
#[derive(Clone, Copy, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum SpiralView {
    None,
    Clockwise,
    Anticlockwise,
}

/// A number of the wish, with its unit and its limits.
#[derive(Serialize, ToSchema)]
pub(crate) struct MeasureView {
    name: String,
    label: String,
    words: String,
    unit: UnitView,
    least: f64,
    most: f64,
    value: f64,
}

/// What a measure is counted in.
#[derive(Clone, Copy, Serialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum UnitView {
    Inches,
    Percent,
    Degrees,
    Difference,
    Weight,
}

/// A colour on the way outward: its share of the way, 0 to 1, and as #rrggbb.
#[derive(Serialize, ToSchema)]
pub(crate) struct StopView {
    at: f64,
    hex: String,
}

/// What of a wish is to change; what isn't named stays.
#[derive(Deserialize, ToSchema)]
pub(crate) struct WishChange {
    outline: Option<OutlineAsk>,
    /// Measures by name, each as a maker writes it: "2 1/4", "57 mm", "6 %".
    measures: Option<BTreeMap<String, String>>,
    spiral: Option<SpiralView>,
    upright: Option<bool>,
    /// Colours from the centre outward, in words or as #rrggbb; none for no drift.
    drift: Option<Vec<String>>,
    spare: Option<Vec<String>>,
    use_up: Option<Vec<String>>,
}

/// Another outline. Lengths are finished, as a maker writes them.
#[derive(Deserialize, ToSchema)]
pub(crate) struct OutlineAsk {
    kind: OutlineKind,
    sides: Option<u8>,
    width: Option<String>,
    height: Option<String>,
}

/// What is wished of a quilt.
#[utoipa::path(get, operation_id = "wish", path = "/api/quilts/{quilt}/wish", params(("quilt" = String, Path)),
    responses((status = 200, body = WishView), (status = 404, body = Refused)))]
pub(crate) async fn read(
    State(shared): State<Shared>,
    InPath(quilt): InPath<String>,
) -> Result<Json<WishView>, ApiError> {
    apart(move || Ok(Json(view(&shared.reading().wish(&quilt)?)))).await?
}

/// Changes the wish of a quilt: all that is named, or nothing.
#[utoipa::path(patch, operation_id = "change_wish", path = "/api/quilts/{quilt}/wish", params(("quilt" = String, Path)), request_body = WishChange,
    responses((status = 200, body = WishView), (status = 400, body = Refused), (status = 404, body = Refused),
        (status = 415, body = Refused), (status = 422, body = Refused)))]
pub(crate) async fn change(
    State(shared): State<Shared>,
    InPath(quilt): InPath<String>,
    InBody(change): InBody<WishChange>,
) -> Result<Json<WishView>, ApiError> {
    apart(move || {
        let mut room = shared.writing();
        let mut wish = room.wish(&quilt)?;
        changed(&mut wish, &change)?;
        room.change_wish(&quilt, &wish)?;
        Ok(Json(view(&wish)))
    })
    .await?
}

fn view(wish: &Wish) -> WishView {
    let names = |cloths: &[ClothId]| cloths.iter().map(ToString::to_string).collect();
    let stop = |stop: &quilt::wish::DriftStop| StopView { at: stop.at, hex: stop.lab.to_srgb().to_string() };
    WishView {
        outline: outline_view(&wish.towards),
        measures: MEASURES.iter().map(|measure| measure_view(measure, wish)).collect(),
        spiral: match wish.spiral {
            Spiral::None => SpiralView::None,
            Spiral::Clockwise => SpiralView::Clockwise,
            Spiral::Anticlockwise => SpiralView::Anticlockwise,
        },
        upright: wish.upright,
        drift: wish.drift.iter().map(stop).collect(),
        spare: names(&wish.spare),
        use_up: names(&wish.use_up),
    }
}

fn outline_view(towards: &Towards) -> OutlineView {
    let plain = |kind| OutlineView { kind, sides: None, width_in: None, height_in: None };
    match *towards {
        Towards::Round { sides } => OutlineView { sides: Some(sides), ..plain(OutlineKind::Round) },
        Towards::Rectangle { width_in, height_in } => OutlineView {
            width_in: Some(width_in),
            height_in: Some(height_in),
            ..plain(OutlineKind::Rectangle)
        },
        Towards::Polygon(_) => plain(OutlineKind::Polygon),
        Towards::Free => plain(OutlineKind::Free),
    }
}

fn measure_view(measure: &Measure, wish: &Wish) -> MeasureView {
    let [least, most] = measure.limits;
    MeasureView {
        name: measure.name.to_owned(),
        label: measure.label.to_owned(),
        words: measure.words.to_owned(),
        unit: match measure.unit {
            Unit::Inches => UnitView::Inches,
            Unit::Percent => UnitView::Percent,
            Unit::Degrees => UnitView::Degrees,
            Unit::Difference => UnitView::Difference,
            Unit::Weight => UnitView::Weight,
        },
        least,
        most,
        value: measure.of(wish),
    }
}

/// Carries what was asked over into the wish.
fn changed(wish: &mut Wish, change: &WishChange) -> Asked<()> {
    for (name, text) in change.measures.iter().flatten() {
        let unknown = || nonsense(format!("a wish has no measure `{name}`"), "Read the wish: it lists them.");
        Measure::named(name).ok_or_else(unknown)?.set(wish, text)?;
    }
    if let Some(outline) = &change.outline {
        set_outline(wish, towards(outline, wish)?)?;
    }
    if let Some(spiral) = change.spiral {
        wish.spiral = match spiral {
            SpiralView::None => Spiral::None,
            SpiralView::Clockwise => Spiral::Clockwise,
            SpiralView::Anticlockwise => Spiral::Anticlockwise,
        };
    }
    wish.upright = change.upright.unwrap_or(wish.upright);
    if let Some(colours) = &change.drift {
        wish.drift = even_drift(&colours.iter().map(|word| colour_of(word)).collect::<Asked<Vec<Lab>>>()?);
    }
    if let Some(spare) = &change.spare {
        wish.spare = cloths(spare)?;
    }
    if let Some(use_up) = &change.use_up {
        wish.use_up = cloths(use_up)?;
    }
    Ok(())
}

fn towards(asked: &OutlineAsk, wish: &Wish) -> Asked<Towards> {
    let side = |text: &Option<String>, what: &str| -> Asked<f64> {
        let text = text.as_deref().unwrap_or_default();
        let read = text.trim().parse::<Length>().map(Length::inches);
        read.map_err(|why| nonsense(format!("{what}: {why}"), "Write it as in 20, 20 1/2 or 52 cm."))
    };
    Ok(match asked.kind {
        OutlineKind::Round => Towards::Round { sides: asked.sides.unwrap_or(7) },
        OutlineKind::Rectangle => Towards::Rectangle {
            width_in: side(&asked.width, "finished width")?,
            height_in: side(&asked.height, "finished height")?,
        },
        OutlineKind::Free => Towards::Free,
        OutlineKind::Polygon if matches!(wish.towards, Towards::Polygon(_)) => wish.towards.clone(),
        OutlineKind::Polygon => {
            let hint = "Give its corners on the command line: ragbag wish --polygon.";
            return Err(nonsense("a polygon needs its corners".to_owned(), hint));
        }
    })
}

fn colour_of(word: &str) -> Asked<Lab> {
    let hex = word.strip_prefix('#').and_then(|_| word.parse::<Srgb>().ok()).map(Srgb::to_lab);
    let unknown =
        || nonsense(format!("`{word}` is not a colour known here"), "Use a plain word, or #rrggbb.");
    hex.or_else(|| colour::read_words(word)).ok_or_else(unknown)
}

fn cloths(names: &[String]) -> Asked<Vec<ClothId>> {
    let read = |name: &String| {
        ClothId::try_from(name.clone()).map_err(|why| nonsense(why.to_string(), "The heap lists them."))
    };
    names.iter().map(read).collect()
}

fn nonsense(what: String, hint: &str) -> AskError {
    AskError::Nonsense { what, hint: hint.to_owned() }
}
