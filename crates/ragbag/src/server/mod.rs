//! The page and what it asks, served on this machine alone.

mod asks;
mod bend;
mod enough;
mod entering;
mod error;
mod extract;
mod guard;
mod jobs;
mod outlines;
mod page;
mod photos;
mod printed;
mod reads;
mod stages;
#[cfg(test)]
mod tests;
mod view;
mod why;
mod wish;

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::http::StatusCode;
use axum::middleware;
use axum::routing::{get, post, put};
use jobs::Jobs;
use photos::Photos;
use quilt::log::StepId;
use stages::Looks;
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use utoipa::OpenApi;
use workroom::Workroom;
use workroom::asks::Offer;

/// What all requests share: one door for writing, one for reading, and the offers made last.
#[derive(Clone)]
pub(crate) struct Shared(Arc<Inner>);

struct Inner {
    writing: Mutex<Workroom>,
    reading: Mutex<Workroom>,
    offers: Mutex<Option<(StepId, Vec<Offer>)>>,
    jobs: Mutex<Jobs>,
    looks: Mutex<Looks>,
    photos: Mutex<Photos>,
}

impl Shared {
    /// Both doors of one workroom.
    pub(crate) fn new(writing: Workroom, reading: Workroom) -> Self {
        Self(Arc::new(Inner {
            writing: Mutex::new(writing),
            reading: Mutex::new(reading),
            offers: Mutex::new(None),
            jobs: Mutex::new(Jobs::default()),
            looks: Mutex::new(Looks::default()),
            photos: Mutex::new(Photos::default()),
        }))
    }

    // What a panic left behind is a workroom all the same: its deeds are transactions.
    fn writing(&self) -> MutexGuard<'_, Workroom> {
        self.0.writing.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn reading(&self) -> MutexGuard<'_, Workroom> {
        self.0.reading.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn offers(&self) -> MutexGuard<'_, Option<(StepId, Vec<Offer>)>> {
        self.0.offers.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn jobs(&self) -> MutexGuard<'_, Jobs> {
        self.0.jobs.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn looks(&self) -> MutexGuard<'_, Looks> {
        self.0.looks.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn photos(&self) -> MutexGuard<'_, Photos> {
        self.0.photos.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[derive(OpenApi)]
#[openapi(
    info(title = "Ragbag", description = "What the page reads and asks, on this machine alone."),
    paths(
        reads::workroom,
        reads::stash,
        reads::cloth,
        reads::log,
        reads::table,
        reads::eye,
        reads::front,
        reads::back,
        reads::picture,
        outlines::see,
        outlines::correct,
        entering::enter,
        entering::begin,
        entering::undo,
        asks::ask,
        asks::preview,
        asks::cut,
        jobs::begin,
        jobs::list,
        jobs::read,
        jobs::stop,
        stages::look,
        stages::see,
        stages::front,
        stages::back,
        stages::take,
        enough::enough,
        photos::cards,
        photos::printed,
        photos::measure_cards,
        photos::give,
        photos::see,
        photos::forget,
        photos::from_above,
        photos::correct,
        photos::keep,
        photos::eye,
        photos::compare,
        photos::measured,
        photos::sewn_since,
        photos::caught_up,
        photos::as_found,
        printed::list,
        printed::paper,
        printed::words,
        printed::keep_words,
        wish::read,
        wish::change
    )
)]
struct Api;

/// The description of the API, as OpenAPI 3.1 JSON.
pub(crate) fn description() -> Result<String, serde_json::Error> {
    Api::openapi().to_pretty_json()
}

/// Everything that is served.
pub(crate) fn router(shared: Shared) -> Router {
    Router::new()
        .route("/api/workroom", get(reads::workroom))
        .route("/api/stash", get(reads::stash).post(entering::enter))
        .route("/api/stash/{cloth}", get(reads::cloth))
        .route("/api/stash/{cloth}/outline", get(outlines::see).put(outlines::correct))
        .route("/api/undo", post(entering::undo))
        .route("/api/quilts", post(entering::begin))
        .route("/api/quilts/{quilt}/log", get(reads::log))
        .route("/api/quilts/{quilt}/asks", post(asks::ask))
        .route("/api/quilts/{quilt}/jobs", post(jobs::begin))
        .route("/api/quilts/{quilt}/wish", get(wish::read).patch(wish::change))
        .route("/api/quilts/{quilt}/looks", post(stages::look))
        .route("/api/quilts/{quilt}/stages", post(stages::take))
        .route("/api/quilts/{quilt}/enough", get(enough::enough))
        .route("/api/quilts/{quilt}/papers/{paper}", get(printed::paper))
        .route("/api/quilts/{quilt}/words", get(printed::words).put(printed::keep_words))
        .route("/api/papers", get(printed::list))
        .route("/api/looks/{look}", get(stages::see))
        .route("/api/looks/{look}/{place}/front.svg", get(stages::front))
        .route("/api/looks/{look}/{place}/back.svg", get(stages::back))
        .route("/api/cards", get(photos::cards).put(photos::measure_cards))
        .route("/api/cards.pdf", get(photos::printed))
        .route("/api/photos", post(photos::give).layer(DefaultBodyLimit::max(photos::LIMIT)))
        .route("/api/photos/{photo}", get(photos::see).delete(photos::forget))
        .route("/api/photos/{photo}/from_above.png", get(photos::from_above))
        .route("/api/photos/{photo}/found/{no}", put(photos::correct))
        .route("/api/photos/{photo}/kept", post(photos::keep))
        .route("/api/photos/{photo}/eye", get(photos::eye))
        .route("/api/photos/{photo}/piece", post(photos::compare))
        .route("/api/photos/{photo}/measured", post(photos::measured))
        .route("/api/photos/{photo}/sewn_since", post(photos::sewn_since))
        .route("/api/photos/{photo}/caught_up", post(photos::caught_up))
        .route("/api/photos/{photo}/as_found", post(photos::as_found))
        .route("/api/jobs", get(jobs::list))
        .route("/api/jobs/{job}", get(jobs::read).delete(jobs::stop))
        .route("/api/at/{step}/table", get(reads::table))
        .route("/api/at/{step}/eye", get(reads::eye))
        .route("/api/at/{step}/front.svg", get(reads::front))
        .route("/api/at/{step}/back.svg", get(reads::back))
        .route("/api/at/{step}/offers/{no}", get(asks::preview))
        .route("/api/at/{step}/offers/{no}/cuts/{patch}", get(asks::cut))
        .route("/pictures/{hash}", get(reads::picture))
        .method_not_allowed_fallback(no_such_way)
        .fallback(page::page)
        .layer(middleware::from_fn(guard::guard))
        .with_state(shared)
}

/// An address that is there, asked in a way that it doesn't take.
async fn no_such_way() -> error::ApiError {
    let message = "this address can't be asked that way";
    error::ApiError::new(StatusCode::METHOD_NOT_ALLOWED, message, "`ragbag openapi` tells how.")
}

/// Serves until it is told to stop. Port 0 takes any free one; `ready` hears the address.
///
/// # Errors
/// A port that can't be had.
pub(crate) fn serve(shared: Shared, port: u16, ready: impl FnOnce(SocketAddr)) -> std::io::Result<()> {
    let runtime = tokio::runtime::Builder::new_multi_thread().worker_threads(2).enable_all().build()?;
    runtime.block_on(async {
        let address = SocketAddr::from((Ipv4Addr::LOCALHOST, port));
        let listener = tokio::net::TcpListener::bind(address).await?;
        ready(listener.local_addr()?);
        axum::serve(listener, router(shared)).await
    })
}

/// Runs work that reads files or computes away from the threads that answer.
async fn apart<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> Result<T, error::ApiError> {
    tokio::task::spawn_blocking(work).await.map_err(|_| error::ApiError::broken())
}
