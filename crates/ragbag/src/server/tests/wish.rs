//! The wish as the page reads and changes it, and what was used instead.

use super::jobs::with_scraps;
use super::{get, post, send};
use axum::body::Body;
use axum::http::{Request, StatusCode, header};
use grow::{Effort, Goal};
use quilt::log::Step;
use serde_json::{Value, json};
use workroom::asks::GrowAsk;

fn patch(body: &Value) -> Request<Body> {
    let request = Request::patch("/api/quilts/Tide/wish").header(header::HOST, "127.0.0.1:7117");
    let request = request.header(header::CONTENT_TYPE, "application/json");
    request.body(Body::from(body.to_string())).unwrap()
}

fn measure<'a>(wish: &'a Value, name: &str) -> &'a Value {
    wish["measures"].as_array().unwrap().iter().find(|measure| measure["name"] == name).unwrap()
}

#[tokio::test]
async fn a_wish_is_read_with_units_and_limits_and_changed_as_makers_write() {
    let folder = tempfile::tempdir().unwrap();
    let shared = with_scraps(&folder);
    let read = send(&shared, get("/api/quilts/Tide/wish")).await;
    assert_eq!(read.status, StatusCode::OK, "{}", read.json);
    let across = measure(&read.json, "across");
    assert_eq!((&across["value"], &across["unit"]), (&json!(9.0), &json!("inches")));
    assert!(across["least"].as_f64() < across["most"].as_f64());
    assert_eq!(read.json["drift"], json!([]));
    let cloth = send(&shared, get("/api/stash")).await.json["cloths"][0]["id"].clone();
    let change = json!({
        "measures": { "across": "20 1/2", "sparks": "5 %", "rest": "10 cm", "sharp": "25°" },
        "outline": { "kind": "round", "sides": 6 },
        "spiral": "clockwise", "upright": false,
        "drift": ["rust", "#d8b98a", "slate"], "spare": [cloth],
    });
    let now = send(&shared, patch(&change)).await;
    assert_eq!(now.status, StatusCode::OK, "{}", now.json);
    assert_eq!(measure(&now.json, "across")["value"], 20.5);
    assert_eq!(measure(&now.json, "sparks")["value"], 5.0);
    // A centimetre is 1/2.54 inch by definition.
    assert!((measure(&now.json, "rest")["value"].as_f64().unwrap() - 10.0 / 2.54).abs() < 1e-9);
    assert_eq!((&now.json["outline"]["sides"], &now.json["spiral"]), (&json!(6), &json!("clockwise")));
    assert_eq!(now.json["drift"].as_array().unwrap().len(), 3);
    assert_eq!(send(&shared, get("/api/quilts/Tide/wish")).await.json, now.json, "kept");
    let plain = send(&shared, patch(&json!({ "drift": [] }))).await;
    assert_eq!(plain.json["drift"], json!([]));
    assert_eq!(measure(&plain.json, "across")["value"], 20.5, "what isn't named stays");
    let long = json!({ "outline": { "kind": "rectangle", "width": "60", "height": "2 yd" } });
    let long = send(&shared, patch(&long)).await;
    assert_eq!(long.json["outline"]["height_in"], 72.0, "{}", long.json);
}

#[tokio::test]
async fn what_a_wish_cant_be_is_told_and_nothing_of_it_is_kept() {
    let folder = tempfile::tempdir().unwrap();
    let shared = with_scraps(&folder);
    let before = send(&shared, get("/api/quilts/Tide/wish")).await.json;
    for (change, told) in [
        (json!({ "spiral": "clockwise", "measures": { "across": "500" } }), "Finished width across"),
        (json!({ "measures": { "across": "2 1/0" } }), "Finished width across"),
        (json!({ "measures": { "sparks": "many" } }), "Sparks"),
        (json!({ "measures": { "width": "3" } }), "width"),
        (json!({ "outline": { "kind": "round", "sides": 9 } }), "5 to 8"),
        (json!({ "outline": { "kind": "rectangle", "width": "20" } }), "height"),
        (json!({ "outline": { "kind": "polygon" } }), "corners"),
        (json!({ "drift": ["rust", "colour of the sea"] }), "colour of the sea"),
        (json!({ "drift": ["rust"] }), "drift"),
        (json!({ "spare": ["no cloth"] }), ""),
    ] {
        let answer = send(&shared, patch(&change)).await;
        assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY, "{change}: {}", answer.json);
        let message = answer.json["error"]["message"].as_str().unwrap();
        assert!(message.contains(told) && !message.is_empty(), "{change}: {message}");
    }
    assert_eq!(send(&shared, get("/api/quilts/Tide/wish")).await.json, before);
    let nobody = send(&shared, get("/api/quilts/Nobody/wish")).await;
    assert_eq!(nobody.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn something_else_was_used_and_the_step_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let shared = with_scraps(&folder);
    let (tip, mark) = {
        let mut room = shared.writing();
        let at = room.head("Tide", "main").unwrap().at();
        let ask = GrowAsk { goal: Goal::Pieces(4), effort: Effort::QUICK, seed: 3, across_in: None };
        let tip = room.grow(&at, &ask, &mut ()).unwrap().head.tip.unwrap();
        let log = room.log("Tide", "main").unwrap();
        let lay = log.steps.iter().rev().find(|step| matches!(step.entry.step, Step::Lay { .. }));
        (tip.to_string(), lay.unwrap().entry.mark.0)
    };
    let stash = send(&shared, get("/api/stash")).await.json;
    let cloth = stash["cloths"][4].clone();
    let ask = |cloth: &Value, deep: &str| {
        let ask = json!({ "kind": "instead", "patch": mark, "cloth": cloth, "deep": deep });
        let body = json!({ "head": "main", "tip": tip, "ask": ask });
        post("/api/quilts/Tide/asks", &body.to_string(), "application/json")
    };
    for (cloth, deep) in [(&cloth["id"], "deep"), (&cloth["id"], "0"), (&json!("x"), "3")] {
        let answer = send(&shared, ask(cloth, deep)).await;
        assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", answer.json);
    }
    let answer = send(&shared, ask(&cloth["id"], "3 1/2")).await;
    assert_eq!(answer.status, StatusCode::OK, "{}", answer.json);
    assert!(answer.json["words"].as_str().unwrap().starts_with("Noted"), "{}", answer.json);
    let log = send(&shared, get("/api/quilts/Tide/log")).await.json;
    let entry = log["entries"].as_array().unwrap().iter().find(|entry| entry["mark"] == mark).unwrap();
    assert!(entry["sentence"].as_str().unwrap().contains(cloth["name"].as_str().unwrap()), "{entry}");
}
