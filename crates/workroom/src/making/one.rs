//! One stage of a plan by itself, as JSON: the same words as in the file, held to the same checks.

use super::file::PlanStage;
use super::read::{PlanProblem, read_plan};
use serde_json::{Map, Value};

/// Reads one stage: an object with the stage's name and, under it, what is chosen. A field that is `null`
/// is not said.
///
/// # Errors
/// What is wrong with it, as in a plan file; stages are counted from 1, so that this one is the first.
pub fn read_stage(asked: &Value) -> Result<PlanStage, PlanProblem> {
    if !asked.is_object() {
        return Err(PlanProblem::OneEach { no: 1, names: "nothing".to_owned() });
    }
    let mut said = asked.clone();
    forget_nulls(&mut said);
    let unreadable =
        |why| PlanProblem::Unreadable { line: 1, text: asked.to_string().chars().take(80).collect(), why };
    if has_empty_place(&said) {
        return Err(unreadable("A place of a list in it is empty."));
    }
    let plan = Value::Object(Map::from_iter([("stage".to_owned(), Value::Array(vec![said]))]));
    let text = toml::to_string(&plan).map_err(|_| unreadable("A number in it is too large."))?;
    let stage = read_plan(&text)?.stages.into_iter().next();
    stage.ok_or(PlanProblem::OneEach { no: 1, names: "nothing".to_owned() })
}

fn forget_nulls(value: &mut Value) {
    match value {
        Value::Object(fields) => {
            fields.retain(|_, field| !field.is_null());
            fields.values_mut().for_each(forget_nulls);
        }
        Value::Array(items) => items.iter_mut().for_each(forget_nulls),
        _ => {}
    }
}

/// Whether a list has a place that is `null`.
fn has_empty_place(value: &Value) -> bool {
    match value {
        Value::Object(fields) => fields.values().any(has_empty_place),
        Value::Array(items) => items.iter().any(|item| item.is_null() || has_empty_place(item)),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn a_stage_is_the_same_from_json_and_from_a_file() {
        let text = "[[stage]]\nborder = { cloth = \"ripple\", sewn_in = [2.5], order = \"mitred\" }\n";
        let file = read_plan(text).expect("a plan").stages;
        let asked =
            json!({ "border": { "cloth": "ripple", "sewn_in": [2.5], "order": "mitred", "print": null } });
        assert_eq!(vec![read_stage(&asked).expect("a stage")], file);
        let whole = json!({ "quilting": { "spacing_in": 1, "design": "lines" } });
        assert_eq!(read_stage(&whole).expect("a stage").name(), "quilting");
    }

    #[test]
    fn what_is_wrong_is_told_as_in_a_file() {
        let refused = |asked: Value| read_stage(&asked).expect_err("refused").to_string();
        assert!(refused(json!({ "quilting": { "spacng_in": 0.5 } })).contains("doesn't know `spacng_in`"));
        assert!(refused(json!({ "ring": { "cloth": 1 } })).contains("slice_in"));
        assert!(refused(json!({ "ring": {}, "border": {} })).contains("exactly one"));
        for nothing in [json!({}), json!(null), json!([]), json!(3)] {
            assert!(refused(nothing).contains("names nothing"));
        }
        assert!(refused(json!({ "hem": {} })).contains("hem"));
        assert!(read_stage(&json!({ "layers": { "backing": { "cloth": u64::MAX } } })).is_err());
        assert!(refused(json!({ "border": { "sewn_in": [2, null] } })).ends_with("a list in it is empty."));
    }
}
