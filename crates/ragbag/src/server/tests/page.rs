//! What a maker begins, bends and takes back on the page.

use super::jobs::with_scraps;
use super::{get, post, send, shared};
use crate::server::Shared;
use axum::http::StatusCode;
use serde_json::{Value, json};

const JSON: &str = "application/json";

async fn asked(shared: &Shared, tip: &Value, ask: Value) -> super::Answer {
    let body = json!({ "head": "main", "tip": tip, "ask": ask });
    send(shared, post("/api/quilts/Tide/asks", &body.to_string(), JSON)).await
}

/// A first patch laid from the first cloth; the tip.
pub(super) async fn laid(shared: &Shared) -> Value {
    let heap = send(shared, get("/api/stash")).await;
    let cloth = heap.json["cloths"][0]["id"].clone();
    let lay = json!({ "kind": "lay", "cloth": cloth, "wide": "3", "deep": "2 1/2" });
    let answer = asked(shared, &Value::Null, lay).await;
    assert_eq!((answer.status, &answer.json["problems"]), (StatusCode::OK, &Value::Null), "{}", answer.json);
    answer.json["tip"].clone()
}

#[tokio::test]
async fn an_empty_room_takes_scraps_and_quilts_and_gives_them_up_again() {
    let folder = tempfile::tempdir().unwrap();
    let shared = shared(&folder);
    let words = r#"{"kind":"words","words":"red stripe, about 3 by 5"}"#;
    let entered = send(&shared, post("/api/stash", words, JSON)).await;
    assert_eq!(entered.status, StatusCode::CREATED, "{}", entered.json);
    assert!(entered.json["words"].as_str().unwrap().contains("red stripe"), "{}", entered.json);
    let measured = r#"{"kind":"rectangle","name":"rust dot","width":"4 1/2","height":"178 mm"}"#;
    assert_eq!(send(&shared, post("/api/stash", measured, JSON)).await.status, StatusCode::CREATED);
    let heap = send(&shared, get("/api/stash")).await;
    let mut widths: Vec<f64> = heap.json["cloths"]
        .as_array()
        .unwrap()
        .iter()
        .map(|cloth| cloth["width_in"].as_f64().unwrap())
        .collect();
    widths.sort_by(f64::total_cmp);
    assert_eq!(widths, [3.0, 4.5]);
    let sizeless = send(&shared, post("/api/stash", r#"{"kind":"words","words":"red"}"#, JSON)).await;
    assert_eq!(sizeless.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(sizeless.json["error"]["hint"].is_string(), "{}", sizeless.json);

    let begun = send(&shared, post("/api/quilts", r#"{"name":" Ebb "}"#, JSON)).await;
    assert_eq!((begun.status, &begun.json["quilt"]), (StatusCode::CREATED, &"Ebb".into()));
    let again = send(&shared, post("/api/quilts", r#"{"name":"Ebb"}"#, JSON)).await;
    assert_eq!(again.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", again.json);

    let names = async || -> Vec<String> {
        let room = send(&shared, get("/api/workroom")).await;
        room.json["quilts"]
            .as_array()
            .unwrap()
            .iter()
            .map(|q| q["name"].as_str().unwrap().to_owned())
            .collect()
    };
    assert_eq!(names().await.len(), 2);
    let undo = || post("/api/undo", "", JSON);
    let undone = send(&shared, undo()).await;
    assert_eq!(undone.json["words"], "Undone: a quilt that was begun.");
    assert_eq!(names().await, ["Tide"]);
    let room = send(&shared, get("/api/workroom")).await;
    assert_eq!(room.json["undo"], "scraps put into the heap");
    for _ in 0..3 {
        assert_eq!(send(&shared, undo()).await.status, StatusCode::OK);
    }
    let nothing = send(&shared, undo()).await;
    assert_eq!(nothing.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", nothing.json);
}

#[tokio::test]
async fn a_first_patch_is_laid_in_the_size_that_was_told() {
    let folder = tempfile::tempdir().unwrap();
    let shared = with_scraps(&folder);
    let tip = laid(&shared).await;
    let table = send(&shared, get(&format!("/api/at/{}/table", tip.as_str().unwrap()))).await;
    assert_eq!(table.json["tops"][0]["patches"][0]["cut_in"], json!([3.0, 2.5]));
}

#[tokio::test(flavor = "multi_thread")]
async fn proposals_are_bent_and_taken_as_they_were_bent() {
    let folder = tempfile::tempdir().unwrap();
    let shared = with_scraps(&folder);
    let tip = laid(&shared).await;
    let plain = asked(&shared, &tip, json!({ "kind": "next", "count": 3 })).await;
    let side = plain.json["proposals"][0]["asked"].clone();
    assert!(side.is_string(), "{}", plain.json);
    let heap = send(&shared, get("/api/stash")).await;
    let cloth = heap.json["cloths"][17]["id"].clone();
    let bend = json!({ "cloth": cloth, "pieces": 1 });
    let next = json!({ "kind": "next", "side": side, "count": 3, "bend": bend });
    let bent = asked(&shared, &tip, next).await;
    let proposals = bent.json["proposals"].as_array().unwrap();
    assert!(!proposals.is_empty(), "{}", bent.json);
    assert!(proposals.iter().all(|one| one["cloth"] == cloth), "{}", bent.json);
    let take = json!({ "kind": "take", "proposal": 1, "side": side, "count": 3, "bend": bend });
    let taken = asked(&shared, &tip, take).await;
    let table = send(&shared, get(&format!("/api/at/{}/table", taken.json["tip"].as_str().unwrap()))).await;
    let patches = table.json["tops"][0]["patches"].as_array().unwrap();
    assert!(patches.len() == 2 && patches.iter().any(|patch| patch["cloth"] == cloth), "{}", table.json);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_bend_that_makes_no_sense_is_told_and_one_that_cannot_be_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let shared = with_scraps(&folder);
    let tip = laid(&shared).await;
    for bend in
        [json!({ "depth": "0" }), json!({ "depth": "deep" }), json!({ "tilt": 80 }), json!({ "pieces": 0 })]
    {
        let answer = asked(&shared, &tip, json!({ "kind": "next", "bend": bend })).await;
        assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY, "{bend}: {}", answer.json);
        assert!(answer.json["error"]["hint"].is_string(), "{bend}");
    }
    let none = asked(&shared, &tip, json!({ "kind": "next", "bend": { "depth": "20" } })).await;
    assert_eq!(none.json["proposals"], json!([]), "{}", none.json);
    assert!(none.json["words"].as_str().unwrap().contains("bent"), "{}", none.json);
}

#[tokio::test(flavor = "multi_thread")]
async fn what_was_refused_is_proposed_again_once_it_is_forgotten() {
    let folder = tempfile::tempdir().unwrap();
    let shared = with_scraps(&folder);
    let tip = laid(&shared).await;
    let names = |answer: &super::Answer| -> Vec<String> {
        let all = answer.json["proposals"].as_array().unwrap();
        all.iter().map(|one| format!("{} {}", one["asked"], one["cloth_name"])).collect()
    };
    let first = names(&asked(&shared, &tip, json!({ "kind": "next", "count": 3 })).await);
    let refuse = json!({ "kind": "refuse", "proposal": 1, "count": 3 });
    let after = names(&asked(&shared, &tip, refuse).await);
    assert!(!after.contains(&first[0]), "{first:?} {after:?}");
    let again = names(&asked(&shared, &tip, json!({ "kind": "forget_refusals", "count": 3 })).await);
    assert_eq!(again, first);
}
