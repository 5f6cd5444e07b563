//! The form of a card as a JSON Schema, so that an editor can check one while it is written.
//!
//! It says no more than the reader does: the parts of a scenario whose keys grow (`condition`, a vehicle's own table, the fields of an act)
//! are left open, and `lowside check` has the last word.

use lowside_session::predicate::Reading;
use lowside_units::{
    Duration, GaugePressure, Mass, Quantity, Ratio, RotationSpeed, Speed, Temperature,
    TemperatureDifference,
};
use serde_json::{Value, json};

use crate::card::{FORMAT, LONGEST, MOST, MOST_CONDITIONS, MOST_MINUTES, MOST_RUNGS};

/// Returns the JSON Schema (draft 2020-12) of a card.
pub fn card() -> Value {
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Card",
        "description": "A job card; scenarios/lessons/README.md says what each key is for.",
        "type": "object",
        "additionalProperties": false,
        "required": ["format", "title", "complaint", "scenario", "step"],
        "properties": {
            "format": { "const": FORMAT },
            "kind": { "enum": ["job"] },
            "title": part("text"),
            "complaint": part("text"),
            "rung": { "type": "integer", "minimum": 0, "maximum": MOST_RUNGS },
            "misconception": part("text"),
            "minutes": { "type": "integer", "minimum": 0, "maximum": MOST_MINUTES },
            "scenario": part("scenario"),
            "step": { "type": "array", "minItems": 1, "maxItems": MOST, "items": part("step") },
            "harm": { "type": "array", "maxItems": MOST, "items": part("harm") },
        },
        "$defs": {
            "text": object(&["en", "es"], &json!({ "en": sentence(), "es": sentence() })),
            "step": step(),
            "harm": object(&["title", "when"], &json!({
                "title": part("text"),
                "when": part("conditions"),
                "hold": part("duration"),
                "severity": { "enum": ["slight", "serious", "grave"] },
            })),
            "conditions": {
                "type": "array", "minItems": 1, "maxItems": MOST_CONDITIONS, "items": part("condition"),
            },
            "condition": condition(),
            "duration": quantity::<Duration>(),
            "scenario": scenario(),
        },
    })
}

fn part(name: &str) -> Value {
    json!({ "$ref": format!("#/$defs/{name}") })
}

fn object(required: &[&str], properties: &Value) -> Value {
    json!({
        "type": "object",
        "additionalProperties": false,
        "required": required,
        "properties": properties,
    })
}

fn sentence() -> Value {
    json!({ "type": "string", "minLength": 1, "maxLength": LONGEST })
}

fn step() -> Value {
    object(
        &["title", "reason", "accept", "hints", "goal"],
        &json!({
            "title": part("text"),
            "reason": part("text"),
            "accept": part("text"),
            "hints": { "type": "array", "minItems": 2, "maxItems": 2, "items": part("text") },
            "goal": part("conditions"),
            "hold": part("duration"),
            "to_the_end": { "type": "boolean" },
            "after": { "type": "array", "items": { "type": "integer", "minimum": 1 } },
        }),
    )
}

/// A condition: a switch is on or off, any other reading is compared.
fn condition() -> Value {
    let names = |switch| {
        let all = Reading::ALL.iter().filter(|r| r.is_switch() == switch);
        all.map(|r| r.name()).collect::<Vec<_>>().join("|")
    };
    let (switches, values) = (names(true), names(false));
    json!({
        "type": "string",
        "pattern": format!("^\\s*(({switches}) is\\s+(on|off)|({values})\\s*[<>].+)\\s*$"),
    })
}

/// A number and a unit; for a ratio a bare number too.
fn quantity<Q: Quantity>() -> Value {
    let names = Q::UNITS
        .iter()
        .flat_map(|u| u.names)
        .filter(|n| !n.is_empty());
    let names = names
        .map(|n| n.replace(' ', "\\s*"))
        .collect::<Vec<_>>()
        .join("|");
    let bare = Q::UNITS.iter().any(|u| u.names.contains(&""));
    let text = format!(
        "^\\s*[-+]?[0-9.]+([eE][-+]?[0-9]+)?\\s*({names}){}\\s*$",
        if bare { "?" } else { "" }
    );
    json!({ "type": "string", "pattern": text })
}

/// A share: text with or without a unit.
fn share() -> Value {
    json!({ "anyOf": [{ "type": "number" }, quantity::<Ratio>()] })
}

fn scenario() -> Value {
    let on = || json!({ "type": "boolean" });
    let kelvin = quantity::<Temperature>;
    let grams = quantity::<Mass>;
    object(
        &["format", "name", "vehicle"],
        &json!({
            "format": { "const": 1 },
            "name": { "type": "string", "minLength": 1, "maxLength": 200 },
            "until": part("duration"),
            "vehicle": { "type": ["string", "object"] },
            "day": object(&[], &json!({
                "ambient": kelvin(),
                "humidity": share(),
                "pressure": quantity::<lowside_units::AbsolutePressure>(),
                "sun": share(),
            })),
            "start": object(&[], &json!({
                "charge": grams(),
                "other_refrigerant": share(),
                "air": grams(),
                "water": grams(),
                "oil": grams(),
                "cabin": kelvin(),
            })),
            "engine": object(&[], &json!({ "on": on(), "speed": quantity::<RotationSpeed>() })),
            "controls": object(&[], &json!({
                "ac": on(),
                "blower": { "type": "integer", "minimum": 0 },
                "recirculation": on(),
                "road_speed": quantity::<Speed>(),
                "windows_open": on(),
            })),
            "condition": { "type": "object" },
            "scatter": object(&[], &json!({
                "charge": share(),
                "orifice": share(),
                "compressor": share(),
                "condenser_air": share(),
                "blower": share(),
                "switch": share(),
                "cabin": share(),
            })),
            "instruments": object(&[], &json!({
                "low_gauge": quantity::<GaugePressure>(),
                "high_gauge": quantity::<GaugePressure>(),
                "vent": quantity::<TemperatureDifference>(),
                "cabin": quantity::<TemperatureDifference>(),
                "clamp": quantity::<TemperatureDifference>(),
            })),
            "act": { "type": "array", "items": object(&[], &json!({
                "after": part("duration"),
                "when": part("condition"),
                "at_most": part("duration"),
                "act": { "type": "object", "required": ["do"], "properties": { "do": { "type": "string" } } },
            })) },
        }),
    )
}

#[cfg(test)]
mod tests;
