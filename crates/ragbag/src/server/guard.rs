//! Who may ask: pages of this server, under its own name, and nobody else's page in the same
//! browser.

use super::error::ApiError;
use axum::extract::Request;
use axum::http::{HeaderMap, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

/// Refuses other names for this machine (a page elsewhere could point one here), and writes from
/// other origins.
pub(crate) async fn guard(request: Request, next: Next) -> Response {
    let headers = request.headers();
    let Some(host) = text(headers, header::HOST) else {
        return refused(StatusCode::MISDIRECTED_REQUEST, "the request names no host");
    };
    if !is_here(host) {
        return refused(StatusCode::MISDIRECTED_REQUEST, "Ragbag answers on this machine alone");
    }
    let foreign = text(headers, header::ORIGIN)
        .is_some_and(|origin| origin.strip_prefix("http://").is_none_or(|from| from != host));
    if foreign && request.method() != Method::GET {
        return refused(StatusCode::FORBIDDEN, "another page may not change this workroom");
    }
    next.run(request).await
}

fn text(headers: &HeaderMap, name: header::HeaderName) -> Option<&str> {
    headers.get(name).and_then(|value| value.to_str().ok())
}

/// Whether a host header names this machine's loopback.
fn is_here(host: &str) -> bool {
    let name = host
        .rsplit_once(':')
        .map_or(host, |(name, port)| if port.chars().all(|c| c.is_ascii_digit()) { name } else { host });
    matches!(name, "127.0.0.1" | "localhost" | "[::1]")
}

fn refused(status: StatusCode, message: &str) -> Response {
    ApiError::new(status, message, "Open the address that Ragbag printed.").into_response()
}

#[cfg(test)]
mod tests {
    use super::is_here;

    #[test]
    fn only_loopback_names_are_here() {
        for here in ["127.0.0.1", "127.0.0.1:8080", "localhost:3", "[::1]:80"] {
            assert!(is_here(here), "{here}");
        }
        for away in ["example.org", "127.0.0.1.example.org:80", "10.0.0.1:80", ""] {
            assert!(!is_here(away), "{away}");
        }
    }
}
