//! Makes the view data printable: cleans every string, and says which characters the built-in fonts lack.

use serde_json::Value;

use backtack_core::glyphs;

/// A character that was replaced in the view data.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Replaced {
    /// Where: the path of the field in the view data, `sheets[3].groups[0].rows[2].item`.
    pub field: String,
    /// The character.
    pub character: char,
}

/// Cleans every string of the view data in place (keys are ours and stay), and reports what was replaced.
pub fn clean(data: &mut Value) -> Vec<Replaced> {
    let mut out = Vec::new();
    walk(data, &mut String::new(), &mut out);
    out
}

fn walk(value: &mut Value, path: &mut String, out: &mut Vec<Replaced>) {
    let stem = path.len();
    match value {
        Value::String(text) => {
            let found = glyphs::missing(text);
            out.extend(found.into_iter().map(|character| Replaced { field: path.clone(), character }));
            *text = glyphs::clean(text);
        }
        Value::Array(items) => {
            for (index, item) in items.iter_mut().enumerate() {
                path.push_str(&format!("[{index}]"));
                walk(item, path, out);
                path.truncate(stem);
            }
        }
        Value::Object(fields) => {
            for (name, item) in fields.iter_mut() {
                path.push_str(if stem == 0 { "" } else { "." });
                path.push_str(name);
                walk(item, path, out);
                path.truncate(stem);
            }
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_replacement_says_where_it_stood() {
        let mut data = serde_json::json!({"sheets": [{"head": {"title": "x\u{5d0}"}}]});
        let found = clean(&mut data);
        assert_eq!(found, [Replaced { field: "sheets[0].head.title".into(), character: '\u{5d0}' }]);
        assert_eq!(data["sheets"][0]["head"]["title"], "x□");
    }
}
