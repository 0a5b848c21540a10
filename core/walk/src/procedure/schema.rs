//! The shape of a procedure's file as a JSON Schema (draft 2020-12), for editors that help while one writes. It says less than
//! `check` does: what passes it may still have faults, and what `check` takes passes it.

use serde_json::{Map, Value, json};

use super::shape::{Fate, Subject};
use super::tongue::TONGUES;

/// The schema, as JSON text that ends with a line feed.
pub fn schema() -> String {
    // Keys are texts and numbers whole: nothing here that JSON cannot say.
    let text = serde_json::to_string_pretty(&whole()).unwrap_or_default();
    text + "\n"
}

fn whole() -> Value {
    let mut top = table(
        &[
            ("id", ("what it goes by; keep it from edition to edition", pattern("^[a-z0-9./-]{1,24}$"))),
            (
                "version",
                (
                    "count up with each edition: an authority approves one text of a version",
                    whole_number(1, 9_999),
                ),
            ),
            ("title", ("what it is for, on one line of a small screen", text(60))),
            ("about", ("a sentence or two on what it is for", text(220))),
            (
                "source",
                (
                    "where points come from that do not say so: published NAME, common practice, user's own",
                    source(),
                ),
            ),
            (
                "subject",
                ("what it inspects; a load where it says nothing", words(&Subject::ALL.map(Subject::word))),
            ),
            ("round", ("what is written once and walked for each value", list_of("round"))),
            ("point", ("a point that several cards use", list_of("point"))),
            ("station", ("a place that the inspector stops at", list_of("station"))),
        ],
        &["title", "about"],
        &["id", "version", "title", "source", "station"],
    );
    let said = [
        ("$schema", json!("https://json-schema.org/draft/2020-12/schema")),
        ("title", json!("A procedure that an inspector walks")),
        (
            "$defs",
            json!({ "round": round(), "column": column(), "point": point(), "station": station(), "card": card() }),
        ),
    ];
    if let Some(object) = top.as_object_mut() {
        object.extend(said.into_iter().map(|(key, value)| (key.to_owned(), value)));
    }
    top
}

type Key = (&'static str, (&'static str, Value));

fn table(keys: &[Key], spanish: &[&str], required: &[&str]) -> Value {
    let mut properties = Map::new();
    for (key, (says, shape)) in keys {
        let mut shape = shape.clone();
        if let Some(object) = shape.as_object_mut() {
            object.insert("description".into(), json!(says));
        }
        properties.insert((*key).to_owned(), shape);
    }
    let es: Map<String, Value> = keys
        .iter()
        .filter(|(key, _)| spanish.contains(key))
        .map(|(key, (_, shape))| ((*key).to_owned(), shape.clone()))
        .collect();
    properties.insert(
        "es".into(),
        json!({ "type": "object", "description": "the same in Spanish", "properties": es.clone(), "additionalProperties": false }),
    );
    let others = format!("^({})$", TONGUES.join("|"));
    let told = json!({ "type": "object", "description": "the same in another language", "properties": es, "additionalProperties": false });
    json!({
        "type": "object",
        "properties": properties,
        "patternProperties": { others: told },
        "required": required,
        "additionalProperties": false,
    })
}

fn round() -> Value {
    table(
        &[
            ("name", ("what {placeholders} call it", short())),
            (
                "values",
                (
                    "stand in ids",
                    json!({ "type": "array", "minItems": 1, "maxItems": 24, "items": pattern("^[a-z0-9-]{1,6}$") }),
                ),
            ),
            ("words", ("what texts say instead of the values, one a value", texts(40))),
            ("column", ("further words, for {round.column}", list_of("column"))),
        ],
        &["words"],
        &["name", "values"],
    )
}

fn column() -> Value {
    table(
        &[("name", ("what {round.name} calls it", short())), ("words", ("one a value", texts(40)))],
        &["words"],
        &["name", "words"],
    )
}

fn station() -> Value {
    table(
        &[
            ("id", ("stands first in the ids of its points", short())),
            ("each", ("a round: the station is walked for each of its values", short())),
            ("title", ("where the inspector stops", text(200))),
            ("card", ("one physical motion: one trace, one look", list_of("card"))),
        ],
        &["title"],
        &["id", "title", "card"],
    )
}

fn card() -> Value {
    table(
        &[
            ("id", ("stands second in the ids of its points", short())),
            ("each", ("a round: the card is walked for each of its values", short())),
            ("title", ("what is looked at", text(200))),
            ("motion", ("what eyes and hands do; it is spoken", text(400))),
            ("use", ("shared points, before the card's own", json!({ "type": "array", "items": short() }))),
            ("point", ("what is judged on it", list_of("point"))),
        ],
        &["title", "motion"],
        &["id", "title", "motion"],
    )
}

fn point() -> Value {
    let fate = |fate: Fate| {
        let says = match fate {
            Fate::InPlace => "deficiencies that are corrected where the load stands, and looked at again",
            Fate::Rerig => "deficiencies for which the load is rigged anew and inspected anew",
            Fate::NewTag => "faults of the paper: a new tag, and an inspection under it",
            Fate::Reject => "deficiencies that take the piece out of service by its serial",
        };
        (fate.key(), (says, texts(200)))
    };
    let [in_place, rerig, new_tag, reject] = Fate::ALL.map(fate);
    table(
        &[
            ("id", ("stands last in its id", short())),
            ("each", ("a round: the point is asked for each of its values", short())),
            (
                "kind",
                (
                    "how it is answered; a look where it says nothing",
                    words(&["look", "count", "choice", "measure", "serial", "text"]),
                ),
            ),
            ("prompt", ("what the screen says", text(200))),
            ("speak", ("what is spoken; the prompt without it", text(400))),
            in_place,
            rerig,
            new_tag,
            reject,
            (
                "again",
                (
                    "a correction here disturbs the others: the whole card is inspected again",
                    words(&["card"]),
                ),
            ),
            ("when", ("a condition of the tag under which the point counts", short())),
            ("fit_for", ("a measure of time: for how long a piece is fit", flag())),
            ("not_applicable", ("may be answered not applicable, with a reason", flag())),
            ("piece", ("whose serial a rejected piece has, as the tag calls that kind", text(200))),
            ("source", ("published NAME, common practice, user's own, or user's own: WORDS", source())),
            ("expect", ("of a count: the right number", whole_number(0, 9_999))),
            ("links_of_leg", ("of a count: the tag's link count of this leg", text(60))),
            ("of_manual", ("of a count: what the manual says; kept and not judged", flag())),
            ("options", ("of a choice: two to nine", texts(200))),
            (
                "right",
                (
                    "of a choice: those that are good",
                    json!({ "type": "array", "minItems": 1, "items": text(200) }),
                ),
            ),
            ("least", ("of a measure, with its unit: 2 in", text(30))),
            ("most", ("of a measure, with its unit: 3 in", text(30))),
            ("unit", ("of a measure that is held against the manual: psi", text(10))),
            ("optional", ("of a serial or a text: may be left out", flag())),
            ("equipment", ("of a serial: whose, as the tag calls that kind", text(60))),
        ],
        &["prompt", "speak", "in_place", "rerig", "new_tag", "reject", "options"],
        &["id", "prompt"],
    )
}

fn text(most: u32) -> Value {
    json!({ "type": "string", "minLength": 1, "maxLength": most })
}

fn texts(most: u32) -> Value {
    json!({ "type": "array", "items": text(most) })
}

fn pattern(pattern: &str) -> Value {
    json!({ "type": "string", "pattern": pattern })
}

fn short() -> Value {
    pattern("^[a-z0-9-]+$")
}

fn flag() -> Value {
    json!({ "type": "boolean" })
}

fn whole_number(least: u32, most: u32) -> Value {
    json!({ "type": "integer", "minimum": least, "maximum": most })
}

fn words(known: &[&str]) -> Value {
    json!({ "type": "string", "enum": known })
}

fn source() -> Value {
    json!({ "type": "string", "pattern": "^(published .+|common practice|user's own(: .+)?)$" })
}

fn list_of(name: &str) -> Value {
    json!({ "type": "array", "minItems": 1, "items": { "$ref": format!("#/$defs/{name}") } })
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::super::{BUILT_IN, RELEASED, check, template};
    use super::*;
    use slingseal_words::ProcedureId;

    /// A file with every table, each of which has Spanish.
    const EVERY: &str = r#"id = "x"
version = 1
title = "X"
es.title = "X"
source = "common practice"
[[round]]
name = "leg"
values = ["1"]
words = ["one"]
es.words = ["uno"]
[[round.column]]
name = "hand"
words = ["left"]
es.words = ["izquierdo"]
[[point]]
id = "shared"
prompt = "Leg {leg} on the {leg.hand}"
es.prompt = "Ramal {leg}"
rerig = ["bad"]
[[station]]
id = "s"
each = "leg"
title = "S"
es.title = "S"
[[station.card]]
id = "c"
title = "C"
es.title = "C"
motion = "Look."
use = ["shared"]
[[station.card.point]]
id = "p"
KIND
prompt = "P"
es.prompt = "P"
rerig = ["bad"]
"#;
    const STRANGE: &str = "qqqqqqqqqqqqqqqqqqqqqqqqqqqqqq";

    fn every(kind: &str) -> String {
        EVERY.replace("KIND", kind)
    }

    /// The keys that the checker knows in the table behind a header: it lists them where one is strange.
    fn known(text: &str, header: &str, es: bool) -> BTreeSet<String> {
        let strange = if es { format!("es.{STRANGE} = 1\n") } else { format!("{STRANGE} = 1\n") };
        let with = match text.find(header).filter(|_| !header.is_empty()) {
            Some(at) => {
                let (before, after) = text.split_at(at + header.len() + 1);
                format!("{before}{strange}{after}")
            }
            None => format!("{strange}{text}"),
        };
        let faults = check(&with).expect_err("a strange key").to_string();
        let line = faults.lines().find(|line| line.contains(STRANGE)).expect("it is named").to_owned();
        let list = line.split("known here: ").nth(1).unwrap_or_else(|| panic!("{line}")).to_owned();
        list.split(", ").map(str::to_owned).collect()
    }

    fn keys(of: &Value) -> BTreeSet<String> {
        of["properties"].as_object().expect("properties").keys().cloned().collect()
    }

    #[test]
    fn it_knows_the_keys_that_the_checker_knows_and_no_others() {
        let schema: Value = serde_json::from_str(&schema()).unwrap();
        let look = every("kind = \"look\"");
        assert_eq!(check(&look).err().map(|faults| faults.to_string()), None);
        let defs = &schema["$defs"];
        for (header, of) in [
            ("", &schema),
            ("[[round]]", &defs["round"]),
            ("[[round.column]]", &defs["column"]),
            ("[[station]]", &defs["station"]),
            ("[[station.card]]", &defs["card"]),
        ] {
            let mut ours = keys(of);
            // The checker looks for Spanish before anything else, and lists it where a table may have it.
            ours.remove("es");
            let mut theirs = known(&look, header, false);
            theirs.remove("es");
            assert_eq!(ours, theirs, "{header}");
            assert_eq!(keys(&of["properties"]["es"]), known(&look, header, true), "{header} in Spanish");
        }
        let kinds = [
            "kind = \"look\"",
            "kind = \"count\"\nexpect = 3",
            "kind = \"choice\"\noptions = [\"a\", \"b\"]\nright = [\"a\"]",
            "kind = \"measure\"\nleast = \"2 in\"",
            "kind = \"serial\"",
            "kind = \"text\"",
        ];
        let (mut theirs, mut spanish) = (BTreeSet::new(), BTreeSet::new());
        for kind in kinds {
            let text = every(kind);
            assert_eq!(check(&text).err().map(|faults| faults.to_string()), None, "{kind}");
            theirs.extend(known(&text, "[[station.card.point]]", false));
            spanish.extend(known(&text, "[[station.card.point]]", true));
        }
        theirs.remove("es");
        let mut ours = keys(&defs["point"]);
        ours.remove("es");
        assert_eq!(ours, theirs);
        assert_eq!(keys(&defs["point"]["properties"]["es"]), spanish);
    }

    /// As much of JSON Schema as the schema uses.
    fn fits(value: &Value, shape: &Value, whole: &Value) -> Result<(), String> {
        if let Some(name) = shape["$ref"].as_str().and_then(|name| name.strip_prefix("#/$defs/")) {
            return fits(value, &whole["$defs"][name], whole);
        }
        let kind = match value {
            Value::String(_) => "string",
            Value::Bool(_) => "boolean",
            Value::Array(_) => "array",
            Value::Object(_) => "object",
            Value::Number(_) => "integer",
            Value::Null => "null",
        };
        if shape["type"] != kind {
            return Err(format!("{value} is no {}", shape["type"]));
        }
        if shape["enum"].as_array().is_some_and(|known| !known.contains(value)) {
            return Err(format!("{value} is none of {}", shape["enum"]));
        }
        if let Some(most) = shape["maxLength"].as_u64()
            && value.as_str().is_some_and(|text| text.chars().count() as u64 > most)
        {
            return Err(format!("{value} is longer than {most}"));
        }
        if let (Some(least), Some(number)) = (shape["minimum"].as_i64(), value.as_i64())
            && number < least
        {
            return Err(format!("{number} is below {least}"));
        }
        for item in value.as_array().into_iter().flatten() {
            fits(item, &shape["items"], whole)?;
        }
        if let Some(object) = value.as_object() {
            for key in shape["required"].as_array().into_iter().flatten().filter_map(Value::as_str) {
                if !object.contains_key(key) {
                    return Err(format!("{key} is missing"));
                }
            }
            for (key, value) in object {
                let shape = &shape["properties"][key];
                if shape.is_null() {
                    return Err(format!("{key} is not known"));
                }
                fits(value, shape, whole)?;
            }
        }
        Ok(())
    }

    #[test]
    fn what_the_checker_takes_fits_it() {
        let whole: Value = serde_json::from_str(&schema()).unwrap();
        let own = template(&ProcedureId::new("crate").unwrap());
        let all = BUILT_IN.iter().chain(RELEASED).map(|plain| plain.text).chain([own.as_str()]);
        for text in all {
            let value: Value = serde_json::to_value(toml::from_str::<toml::Value>(text).unwrap()).unwrap();
            assert_eq!(fits(&value, &whole, &whole), Ok(()), "{}", text.lines().next().unwrap_or_default());
        }
    }

    /// What it refuses, the checker refuses.
    #[test]
    fn what_does_not_fit_it_is_a_fault() {
        let whole: Value = serde_json::from_str(&schema()).unwrap();
        let good = every("kind = \"look\"");
        for (from, to) in [
            ("version = 1", "version = 0"),
            ("version = 1", "version = \"1\""),
            ("title = \"X\"\n", ""),
            ("id = \"x\"", "idd = \"x\""),
            ("kind = \"look\"", "kind = \"glance\""),
            ("rerig = [\"bad\"]", "rerig = \"bad\""),
            ("kind = \"look\"", "kind = \"look\"\nagain = \"station\""),
            ("kind = \"look\"", "kind = \"look\"\nnot_applicable = \"yes\""),
            ("source = \"common practice\"", "source = \"common practice\"\nsubject = \"person\""),
        ] {
            let bad = good.replacen(from, to, 1);
            assert_ne!(bad, good, "{from}");
            let value: Value = serde_json::to_value(toml::from_str::<toml::Value>(&bad).unwrap()).unwrap();
            assert!(fits(&value, &whole, &whole).is_err(), "{to}");
            assert!(check(&bad).is_err(), "{to}");
        }
    }
}
