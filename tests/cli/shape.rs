//! `comparison.json` is as its schema says. Of JSON Schema (draft 2020-12) the words that the schema uses are
//! understood; any other is an error here, so that none is passed over.

use super::comparing::storm;
use serde_json::Value;
use std::fs;

const SCHEMA: &str = include_str!("../../src/report/comparison/comparison.schema.json");

/// What of a value is not as its schema says, with the way to it.
fn faults(value: &Value, schema: &Value, whole: &Value, way: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (word, rule) in schema.as_object().unwrap() {
        let is =
            |holds: bool| if holds { vec![] } else { vec![format!("{way}: {word} {rule}, found {value}")] };
        found.extend(match (word.as_str(), value) {
            ("$schema" | "title" | "description" | "$defs", _) => vec![],
            ("properties", Value::Object(fields)) => {
                let known = fields.iter().filter_map(|(name, field)| Some((name, field, rule.get(name)?)));
                known
                    .flat_map(|(name, field, rule)| faults(field, rule, whole, &format!("{way}/{name}")))
                    .collect()
            }
            ("required", Value::Object(fields)) => {
                is(rule.as_array().unwrap().iter().all(|name| fields.contains_key(name.as_str().unwrap())))
            }
            ("additionalProperties", Value::Object(fields)) => {
                let named = |name: &&String| schema["properties"].get(name.as_str()).is_some();
                let others = fields.keys().filter(|name| !named(name));
                match rule {
                    Value::Bool(false) => {
                        others.map(|name| format!("{way}: {name} is not in the schema")).collect()
                    }
                    rule => others.flat_map(|name| faults(&fields[name], rule, whole, way)).collect(),
                }
            }
            ("items", Value::Array(items)) => items
                .iter()
                .enumerate()
                .flat_map(|(number, item)| faults(item, rule, whole, &format!("{way}/{number}")))
                .collect(),
            ("$ref", _) => {
                let target = whole.pointer(rule.as_str().unwrap().trim_start_matches('#')).unwrap();
                faults(value, target, whole, way)
            }
            ("anyOf", _) => {
                is(rule.as_array().unwrap().iter().any(|one| faults(value, one, whole, way).is_empty()))
            }
            ("const", _) => is(value == rule),
            ("minimum", Value::Number(number)) => is(number.as_f64() >= rule.as_f64()),
            ("pattern", Value::String(text)) => {
                // The one pattern of the schema: an amount.
                assert_eq!(rule, r"^-?[0-9]+(\.[0-9]+)?$");
                let (whole, part) = text.split_once('.').unwrap_or((text, "0"));
                let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
                is(digits(whole.strip_prefix('-').unwrap_or(whole)) && digits(part))
            }
            ("type", _) => is(match rule.as_str().unwrap() {
                "object" => value.is_object(),
                "array" => value.is_array(),
                "string" => value.is_string(),
                "boolean" => value.is_boolean(),
                "null" => value.is_null(),
                "number" => value.is_number(),
                "integer" => value.is_i64() || value.is_u64(),
                other => panic!("{other} is no type"),
            }),
            ("properties" | "required" | "additionalProperties" | "items" | "minimum" | "pattern", _) => {
                vec![]
            }
            (other, _) => panic!("{other} is not understood"),
        });
    }
    found
}

#[test]
fn the_data_is_as_its_schema_says() {
    let storm = storm();
    storm.run("compare storm prices").ended(0);
    let data: Value =
        serde_json::from_slice(&fs::read(storm.path("storm-compared/comparison.json")).unwrap()).unwrap();
    let schema: Value = serde_json::from_str(SCHEMA).unwrap();
    assert_eq!(faults(&data, &schema, &schema, ""), Vec::<String>::new());
}

#[test]
fn data_of_another_shape_is_found() {
    let schema: Value = serde_json::from_str(SCHEMA).unwrap();
    let storm = storm();
    storm.run("compare storm prices").ended(0);
    let data: Value =
        serde_json::from_slice(&fs::read(storm.path("storm-compared/comparison.json")).unwrap()).unwrap();
    for (way, wrong) in [
        ("/format", serde_json::json!(2)),
        ("/overall/money/0/difference", serde_json::json!(4.5)),
        ("/overall/money/0/difference", serde_json::json!("1e5")),
        ("/statistics/0/definition", serde_json::json!({"says": "a number"})),
        ("/assessors/0", serde_json::json!({"who": "Ada"})),
    ] {
        let mut data = data.clone();
        *data.pointer_mut(way).unwrap() = wrong;
        assert!(!faults(&data, &schema, &schema, "").is_empty(), "{way}");
    }
}
