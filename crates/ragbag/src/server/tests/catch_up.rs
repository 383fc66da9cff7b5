//! Catching up over HTTP: what was sewn since the last step is seen, corrected, and taken in.

use super::photos::{ask, pattern, pictured, put, read};
use super::{send, shared};
use crate::server::Shared;
use ::demo::Sewn;
use ::demo::scene::{Recipe, piece_scene};
use axum::http::StatusCode;
use plane::Region;
use quilt::cloth::Look;
use serde_json::{Value, json};
use workroom::stash::NewCloth;

const KNOWN: usize = 5;
const ALL: usize = 8;

/// A piece that is known as one patch, as it was before the last ones, and its picture as it is now. The
/// tip, and the cloths of the heap.
fn known(shared: &Shared) -> (String, [String; 2], Vec<u8>) {
    let sewn: Sewn = ::demo::sewn(3, ALL, 16);
    let recipe = Recipe {
        card_side_in: [2.0, 2.0],
        least_pixels_per_in: 0.0,
        tilt_deg: [0.0, 12.0],
        blur_px: [0.3, 0.6],
        ..Recipe::NORMAL.in_size(&[[2016, 1512]])
    };
    let picture = piece_scene(&recipe, 3, &pattern, &sewn.table(ALL), &sewn.heap).unwrap();
    let outline = sewn.table(KNOWN).piece().unwrap().1.outline_points();
    let mut room = shared.writing();
    let cloth = |word: &str| {
        NewCloth::scrap(word, Region::rectangle(40.0, 40.0), Look::plain(colour::read_words(word).unwrap()))
    };
    let cloths = room.enter(vec![cloth("sand"), cloth("rust")]).unwrap();
    let at = room.head("Tide", "main").unwrap().at();
    room.lay(&at, cloths[0].1, &outline).unwrap();
    let tip = room.head("Tide", "main").unwrap().tip.unwrap().to_string();
    (tip, [0, 1].map(|i| cloths[i].1.to_string()), pictured(&picture))
}

fn faces(shared: &Shared) -> usize {
    shared.reading().table("Tide", "main").unwrap().piece().unwrap().1.faces().len()
}

#[tokio::test(flavor = "multi_thread")]
async fn what_was_sewn_since_is_seen_corrected_and_taken_in() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let (tip, [_, rust], picture) = known(&shared);
    let (photo, seen) = read(&shared, "piece", picture).await;
    assert_eq!((&seen["error"], &seen["doing"]), (&Value::Null, &Value::Null), "{seen}");
    let at = format!("/api/photos/{photo}");
    let body = json!({ "quilt": "Tide", "head": "main", "tip": tip, "no": 0 });
    let since = ask(&shared, &format!("{at}/sewn_since"), &body).await;
    assert_eq!(since.status, StatusCode::OK, "{}", since.json);
    let patches = since.json["patches"].as_array().unwrap();
    assert_eq!(patches.len(), ALL - KNOWN, "{}", since.json["words"]);
    for patch in patches {
        assert!(patch["outline"].as_array().unwrap().len() >= 3);
        assert_eq!(patch["guesses"].as_array().unwrap().len(), 2);
        assert!(patch["words"].as_str().unwrap().starts_with("sewn to "), "{patch}");
    }
    assert_eq!(faces(&shared), 1, "a look changes nothing");

    let taking = |tip: &str, made_of: Value| json!({ "quilt": "Tide", "head": "main", "tip": tip, "no": 0, "made_of": made_of });
    let way = format!("{at}/caught_up");
    for (tip, made_of, status) in [
        ("00", json!([rust, rust, rust]), StatusCode::CONFLICT),
        (tip.as_str(), json!([rust]), StatusCode::UNPROCESSABLE_ENTITY),
        (tip.as_str(), json!([rust, "sand", null]), StatusCode::UNPROCESSABLE_ENTITY),
    ] {
        let refused = ask(&shared, &way, &taking(tip, made_of)).await;
        assert_eq!(refused.status, status, "{}", refused.json);
    }
    let unknown = ask(&shared, &way, &taking(&tip, json!([rust, "00000000000000ff", null]))).await;
    assert!(unknown.status.is_client_error(), "{}", unknown.json);
    assert_eq!(faces(&shared), 1, "nothing was kept");

    let taken = ask(&shared, &way, &taking(&tip, json!([rust, null, rust]))).await;
    assert_eq!((taken.status, &taken.json["problems"]), (StatusCode::OK, &Value::Null), "{}", taken.json);
    assert!(taken.json["words"].as_str().unwrap().starts_with("Caught up: 3 patches"), "{}", taken.json);
    let head = shared.reading().head("Tide", "main").unwrap();
    assert_eq!(
        (head.tip.map(|tip| tip.to_string()).as_deref(), head.sewn),
        (taken.json["tip"].as_str(), head.tip)
    );
    assert_eq!(faces(&shared), 1 + ALL - KNOWN);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_piece_that_no_patches_explain_is_taken_as_it_was_found() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let (tip, _, picture) = known(&shared);
    let (photo, _) = read(&shared, "piece", picture).await;
    let at = format!("/api/photos/{photo}");
    let body = json!({ "quilt": "Tide", "head": "main", "tip": tip, "no": 0 });
    // Half of it is folded under, the maker says.
    let corner = json!({ "outline": [[0.0, 0.0], [2.5, 0.0], [2.5, 2.5]] });
    send(&shared, put(&format!("{at}/found/0"), &corner)).await;
    let since = ask(&shared, &format!("{at}/sewn_since"), &body).await;
    assert_eq!(since.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", since.json);
    assert!(since.json["error"]["message"].as_str().unwrap().contains("known of"), "{}", since.json);
    let taken = ask(&shared, &format!("{at}/as_found"), &body).await;
    assert_eq!((taken.status, &taken.json["problems"]), (StatusCode::OK, &Value::Null), "{}", taken.json);
    let table = shared.reading().table("Tide", "main").unwrap();
    assert_eq!((table.tops().len(), faces(&shared)), (1, 1));
    let area = plane::polygon::area(&table.piece().unwrap().1.outline_points());
    assert!((area - 2.5 * 2.5 / 2.0).abs() < 1e-6, "{area}");
}
