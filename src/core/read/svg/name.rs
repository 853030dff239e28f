//! The names of an element, as editors write them.

use roxmltree::Node;

use super::shape::SHAPES;

/// The names an element answers to, best first, each with its rank: its id, the label an editor shows, the name it was
/// given before an id was made of it, and its id without the number that tells copies apart.
pub fn names(node: Node<'_, '_>) -> Vec<(u8, String)> {
    let mut names = Vec::new();
    let id = node.attribute("id").map(decoded).filter(|id| !automatic(id, node.tag_name().name()));
    let attribute = |name: &str| node.attributes().find(|one| one.name() == name).map(|one| decoded(one.value()));
    names.extend(id.clone().map(|id| (0, id)));
    names.extend(attribute("label").map(|label| (1, label)));
    names.extend(attribute("data-name").map(|name| (2, name)));
    names.extend(id.and_then(|id| Some((3, without_number(&id)?.to_string()))));
    names
}

/// An id as it was typed: editors write what an id cannot hold as `_x2E_`.
fn decoded(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once("_x") {
        out.push_str(before);
        let escape = after.split_once('_').and_then(|(code, rest)| Some((character(code)?, rest)));
        match escape {
            Some((c, after)) => {
                out.push(c);
                rest = after;
            }
            None => {
                out.push_str("_x");
                rest = after;
            }
        }
    }
    out.push_str(rest);
    out.trim().to_string()
}

fn character(code: &str) -> Option<char> {
    let hexadecimal = (2..=6).contains(&code.len()) && code.chars().all(|c| c.is_ascii_hexdigit());
    hexadecimal.then(|| u32::from_str_radix(code, 16).ok().and_then(char::from_u32)).flatten()
}

/// `SIDE_1_`, as editors tell a second SIDE apart, is SIDE.
fn without_number(id: &str) -> Option<&str> {
    let (name, number) = id.strip_suffix('_')?.rsplit_once('_')?;
    (!name.is_empty() && !number.is_empty() && number.chars().all(|c| c.is_ascii_digit())).then_some(name)
}

/// Whether an editor made the id of a kind of element and a number: `path123`, `circle12-4`. Some call every kind a path.
fn automatic(id: &str, tag: &str) -> bool {
    let mark = |c: char| c.is_ascii_digit() || c == '-' || c == '_';
    let made = |kind: &&str| {
        id.strip_prefix(*kind).is_some_and(|rest| rest.chars().all(mark) && rest.chars().any(|c| c.is_ascii_digit()))
    };
    SHAPES.iter().chain([&tag]).any(made)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn escapes_and_numbers_of_copies_come_off() {
        assert_eq!(decoded("SIDE_x2E_b"), "SIDE.b");
        assert_eq!(decoded("SIDE_x2e_line_x2E_smile "), "SIDE.line.smile");
        assert_eq!(decoded("a_x_b_xyz_c"), "a_x_b_xyz_c");
        assert_eq!(decoded("plain"), "plain");
        assert_eq!(without_number("SIDE_1_"), Some("SIDE"));
        assert_eq!(without_number("SIDE_12_"), Some("SIDE"));
        assert_eq!(without_number("SIDE_b_"), None);
        assert_eq!(without_number("SIDE_1"), None);
        assert!(automatic("path123", "path") && automatic("circle12-4", "circle") && automatic("path7", "circle"));
        assert!(!automatic("path", "path") && !automatic("b1", "circle") && !automatic("SIDE", "path"));
    }
}
