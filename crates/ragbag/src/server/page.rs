//! The page itself, built into the program.

use axum::http::{StatusCode, Uri, header};
use axum::response::{IntoResponse, Response};
use rust_embed::RustEmbed;

#[derive(RustEmbed)]
#[folder = "../../web/dist"]
struct Page;

/// Shown when the program was built without the page.
const MISSING: &str = "<!doctype html><meta charset=utf-8><title>Ragbag</title>\
<p>This Ragbag was built without its page. Run <code>cargo xtask run</code>.";

/// A file of the page; the page itself for `/`.
pub(crate) async fn page(uri: Uri) -> Response {
    let path = match uri.path().trim_start_matches('/') {
        "" => "index.html",
        path => path,
    };
    match Page::get(path) {
        Some(file) => {
            let cache =
                if path.starts_with("assets/") { "public, max-age=31536000, immutable" } else { "no-cache" };
            let headers = [(header::CONTENT_TYPE, kind(path)), (header::CACHE_CONTROL, cache)];
            (headers, file.data).into_response()
        }
        None if path == "index.html" => {
            ([(header::CONTENT_TYPE, "text/html; charset=utf-8")], MISSING).into_response()
        }
        None => {
            super::error::ApiError::new(StatusCode::NOT_FOUND, format!("there is nothing at /{path}"), "")
                .into_response()
        }
    }
}

fn kind(path: &str) -> &'static str {
    match path.rsplit('.').next() {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("svg") => "image/svg+xml",
        Some("woff2") => "font/woff2",
        Some("woff") => "font/woff",
        Some("json") => "application/json",
        _ => "application/octet-stream",
    }
}
