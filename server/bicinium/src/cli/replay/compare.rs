//! Where two messages differ, in words. It must not know what they are about.

use serde_json::Value;

/// The longest piece of a message that is shown, in characters.
const SHOWN: usize = 160;

/// The first place at which the two differ, with what stands there; `None` if they are the same.
pub(super) fn difference(recorded: &Value, now: &Value) -> Option<String> {
    let (place, recorded, now) = first(String::new(), recorded, now)?;
    let at = if place.is_empty() { String::new() } else { format!(" at {place}") };
    Some(format!("{at}: recorded {}, now {}", shown(recorded), shown(now)))
}

type Place<'v> = (String, Option<&'v Value>, Option<&'v Value>);

fn first<'v>(place: String, recorded: &'v Value, now: &'v Value) -> Option<Place<'v>> {
    match (recorded, now) {
        _ if recorded == now => None,
        (Value::Object(old), Value::Object(new)) => {
            let names = old.keys().chain(new.keys().filter(|name| !old.contains_key(*name)));
            let dot = if place.is_empty() { "" } else { "." };
            let inner =
                |name: &String| (format!("{place}{dot}{name}"), old.get(name), new.get(name));
            names.map(inner).find_map(below)
        }
        (Value::Array(old), Value::Array(new)) => {
            let inner = |at: usize| (format!("{place}[{at}]"), old.get(at), new.get(at));
            (0..old.len().max(new.len())).map(inner).find_map(below)
        }
        _ => Some((place, Some(recorded), Some(now))),
    }
}

fn below((place, recorded, now): Place<'_>) -> Option<Place<'_>> {
    match (recorded, now) {
        (Some(recorded), Some(now)) => first(place, recorded, now),
        _ => Some((place, recorded, now)),
    }
}

fn shown(value: Option<&Value>) -> String {
    let Some(value) = value else { return "nothing".to_owned() };
    let text = value.to_string();
    match text.char_indices().nth(SHOWN) {
        Some((end, _)) => format!("{} …", &text[..end]),
        None => text,
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::difference;

    #[test]
    fn the_first_place_is_named() {
        let recorded = json!({"a": [1, {"b": "x"}], "c": 2});
        assert_eq!(difference(&recorded, &recorded.clone()), None);
        for (now, words) in [
            (json!({"a": [1, {"b": "y"}], "c": 3}), " at a[1].b: recorded \"x\", now \"y\""),
            (json!({"a": [1], "c": 2}), " at a[1]: recorded {\"b\":\"x\"}, now nothing"),
            (json!({"a": [1, {"b": "x"}], "c": 2, "d": 0}), " at d: recorded nothing, now 0"),
            (json!(7), ": recorded {\"a\":[1,{\"b\":\"x\"}],\"c\":2}, now 7"),
        ] {
            assert_eq!(difference(&recorded, &now).as_deref(), Some(words));
        }
    }
}
