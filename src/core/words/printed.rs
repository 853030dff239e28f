//! Makes strings of the phrases in JSON, in the languages of a package: what templates and other writers are given.

use serde_json::{Map, Value};

use super::language::{Language, Languages};
use super::phrase::{CAPITAL, ROW, WORD, capital, filled, is_frame};

/// The same data with every phrase as it is printed: in the first language, and on a second line in the second one, where
/// that says something else.
pub fn printed(data: Value, languages: Languages) -> Value {
    match data {
        Value::Object(fields) if is_phrase(&fields) => Value::String(lines(&Value::Object(fields), languages)),
        Value::Object(fields) => {
            Value::Object(fields.into_iter().map(|(name, value)| (name, printed(value, languages))).collect())
        }
        Value::Array(items) => Value::Array(items.into_iter().map(|item| printed(item, languages)).collect()),
        other => other,
    }
}

fn is_phrase(fields: &Map<String, Value>) -> bool {
    [WORD, ROW, CAPITAL].iter().any(|key| fields.contains_key(*key))
}

fn lines(phrase: &Value, languages: Languages) -> String {
    let first = text(phrase, languages.first);
    let second = languages.second.filter(|second| speaks(phrase, *second)).map(|second| spoken(phrase, second));
    match second.filter(|second| *second != first) {
        Some(second) => format!("{first}\n{second}"),
        None => first,
    }
}

fn text(phrase: &Value, language: Language) -> String {
    match phrase {
        Value::String(text) => text.clone(),
        Value::Object(fields) if fields.contains_key(CAPITAL) => {
            capital(&fields.get(CAPITAL).map_or(String::new(), |phrase| self::text(phrase, language)))
        }
        Value::Object(fields) => match word(fields) {
            Some((key, en)) => {
                let text = language.text(key).unwrap_or(en);
                let with = fields.get("with").and_then(Value::as_object);
                filled(text, |name| with.and_then(|with| with.get(name)).map(|value| self::text(value, language)))
            }
            None => row(fields).iter().map(|item| text(item, language)).collect::<Vec<_>>().join(between(fields)),
        },
        _ => String::new(),
    }
}

/// The second line: without the items of a row that are the same in every language.
fn spoken(phrase: &Value, language: Language) -> String {
    match phrase.as_object().filter(|fields| word(fields).is_none()) {
        Some(fields) => match fields.get(CAPITAL) {
            Some(phrase) => capital(&spoken(phrase, language)),
            None => {
                let items = row(fields).iter().filter(|item| speaks(item, language));
                items.map(|item| spoken(item, language)).collect::<Vec<_>>().join(between(fields))
            }
        },
        None => text(phrase, language),
    }
}

/// Whether it says anything in this language that it does not say in every other.
fn speaks(phrase: &Value, language: Language) -> bool {
    let Value::Object(fields) = phrase else { return false };
    if let Some(phrase) = fields.get(CAPITAL) {
        return speaks(phrase, language);
    }
    match word(fields) {
        Some((_, en)) if is_frame(en) => {
            let with = fields.get("with").and_then(Value::as_object);
            with.into_iter().flat_map(Map::values).any(|value| speaks(value, language))
        }
        Some((key, _)) => language == Language::English || language.text(key).is_some(),
        None => row(fields).iter().any(|item| speaks(item, language)),
    }
}

fn word(fields: &Map<String, Value>) -> Option<(&str, &str)> {
    Some((fields.get(WORD)?.as_str()?, fields.get("en")?.as_str()?))
}

fn between(fields: &Map<String, Value>) -> &str {
    fields.get("between").and_then(Value::as_str).unwrap_or_default()
}

fn row(fields: &Map<String, Value>) -> &[Value] {
    fields.get(ROW).and_then(Value::as_array).map_or(&[], Vec::as_slice)
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::words::{Phrase, Word, say};

    const PIECES: Word = Word { key: "test.pieces", en: "{count} of {what}" };
    const PIECE: Word = Word { key: "piece", en: "Piece" };
    const FRAME: Word = Word { key: "test.frame", en: "{what}: {name}" };

    #[test]
    fn phrases_in_json_print_as_phrases_do() {
        let all = [Languages::default(), Languages::both(Language::English, Language::SimplifiedChinese)];
        let phrases = [
            Phrase::from("Puffin"),
            Phrase::from(PIECE),
            say!(PIECES, count = 3usize, what = PIECE),
            Phrase::list([Phrase::from(PIECE), Phrase::from("TOP")]),
            Phrase::list(["piece", "part"]).capital(),
            say!(FRAME, what = PIECE, name = "TOP"),
            Phrase::lines([say!(FRAME, what = "A", name = "B"), Phrase::list([Phrase::from(PIECE), "C".into()])]),
            say!(PIECES, count = 3usize, what = PIECE).capital(),
        ];
        for languages in all {
            for phrase in &phrases {
                let data = json!({ "rows": [{ "cell": phrase }] });
                assert_eq!(printed(data, languages)["rows"][0]["cell"], json!(phrase.print(languages)));
            }
        }
    }
}
