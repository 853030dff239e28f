//! SVG without comments, descriptions and what editors keep for themselves.

use roxmltree::{Attribute, Document, Node};

/// Name spaces whose attributes mean something in a drawing: those of XML and of links within it.
const SPACES: [&str; 2] = ["http://www.w3.org/XML/1998/namespace", "http://www.w3.org/1999/xlink"];
const SVG: &str = "http://www.w3.org/2000/svg";
/// Elements that are never drawn and only say something.
const TOLD: [&str; 3] = ["metadata", "title", "desc"];

/// An SVG drawing without comments, instructions, descriptions, and what editors keep of their own, but for the labels
/// that name shapes. None if it cannot be read.
pub fn bare(bytes: &[u8]) -> Option<Vec<u8>> {
    let text = std::str::from_utf8(bytes).ok()?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let document = Document::parse(text).ok()?;
    let root = document.root_element();
    let mut gone: Vec<std::ops::Range<usize>> = Vec::new();
    for node in root.descendants() {
        if unseen(node) {
            gone.push(node.range());
        }
        gone.extend(node.attributes().filter(own).map(|one| one.range()));
    }
    // Whatever lies within something that goes begins after it.
    gone.sort_by_key(|range| (range.start, std::cmp::Reverse(range.end)));
    let mut out = String::with_capacity(text.len());
    let mut at = root.range().start;
    for range in gone {
        out.push_str(text.get(at..range.start.max(at))?);
        at = at.max(range.end);
    }
    out.push_str(text.get(at..root.range().end)?);
    out.push('\n');
    Some(out.into_bytes())
}

fn unseen(node: Node<'_, '_>) -> bool {
    let name = node.tag_name();
    let foreign = node.is_element() && name.namespace() != Some(SVG) && node.parent_element().is_some();
    node.is_comment() || node.is_pi() || foreign || node.is_element() && TOLD.contains(&name.name())
}

/// Whether an attribute is an editor's own.
fn own(attribute: &Attribute<'_, '_>) -> bool {
    attribute.namespace().is_some_and(|space| !SPACES.contains(&space)) && attribute.name() != "label"
}
