//! An SVG file into a [`Drawing`], lines at true scale under the names of pieces and points, or into a [`View`].
//!
//! A strict subset is read. Nothing outside the file is ever opened, nothing in it is run, and every limit is a finding.

mod arc;
mod clean;
mod limits;
mod name;
mod page;
mod path;
mod remarks;
mod shape;
mod style;
mod transform;
mod value;
mod walk;

use std::borrow::Cow;
use std::collections::BTreeMap;

use roxmltree::{Document, Error, Node, ParsingOptions};

use crate::diag::Finding;
use crate::geom::length;
use crate::model::{Drawing, GAUGE, Unseen};
use crate::read::rules::refused_content::{ANIMATION, DOCTYPE, REFERENCE, SCRIPT};
use crate::source::{FileId, Span};
use crate::words::{Phrase, say, words};

use super::rules;
use limits::{LIMITS, NAMESPACE};
use page::Page;
use remarks::Remarks;
use style::Sheet;
use walk::Walk;

words! {
    NO_SIZE "read.svg.no-size" = "it says no size, neither `viewBox` nor `width` and `height`, or none to draw in";
    TOO_MANY_MADE "read.svg.too-many-made" = "`use` and patterns make more than {count} elements of it";
    TOO_LARGE "read.svg.too-large" = "it has more than {size} MB";
    TOO_MANY_ATTRIBUTES "read.svg.too-many-attributes" = "an element has more than {count} attributes";
    TOO_MANY "read.svg.too-many" = "it has more than {count} elements";
    NO_SVG "read.svg.no-svg" = "its first element is no `svg` of the name space {namespace}";
    IN_STYLESHEET "read.svg.in-stylesheet" = "in a stylesheet {what}";
}

/// What the gauge line measures, mm, and how far it may be off.
const GAUGE_LENGTH: (f64, f64) = (100.0, 0.1);

/// Attributes that may refer to something by `url(..)`.
const REFERRING: &[&str] =
    &["style", "fill", "stroke", "filter", "mask", "clip-path", "marker-start", "marker-mid", "marker-end"];

/// A view that was drawn.
#[derive(Debug)]
pub struct View {
    /// Written anew for the engine: what is drawn of it, and nothing else.
    pub clean: String,
    /// Width and height in units of the drawing.
    pub size: [f64; 2],
    page: Page,
    drawing: Drawing,
}

impl View {
    /// Where the middle of a named shape lies, in hundredths from the left and from the top.
    ///
    /// # Errors
    /// No shape has the name, or several do.
    pub fn spot(&self, name: &str) -> Result<Option<[f64; 2]>, Unseen> {
        self.drawing.named(name).map(|shape| self.page.share(shape.centre))
    }
}

/// Reads a drawing of outlines. What cannot be read is a finding, and everything else is read all the same; no drawing
/// comes of a file that is no SVG.
pub fn drawing(path: &str, text: &str, file: FileId) -> (Option<Drawing>, Vec<Finding>) {
    parsed(path, text, file, |document| {
        let mut remarks = Remarks::new(file, false);
        let content = read(document, &mut Sheet::new(false), &mut remarks);
        let mut findings = remarks.findings(path);
        if let Some(Content { page, drawing, span, .. }) = &content {
            findings.extend(scale(path, page, drawing, *span));
        }
        (content.map(|content| content.drawing), findings)
    })
}

/// Reads a view in the same way. None comes of what is too much to draw.
pub fn view(path: &str, text: &str, file: FileId) -> (Option<View>, Vec<Finding>) {
    parsed(path, text, file, |document| {
        let mut remarks = Remarks::new(file, true);
        let mut sheet = Sheet::new(true);
        let content = read(document, &mut sheet, &mut remarks);
        let view = content.and_then(|content| shown(document.root_element(), content, &sheet, &mut remarks));
        (view, remarks.findings(path))
    })
}

fn shown<'a>(root: Node<'a, '_>, content: Content<'a, '_>, sheet: &Sheet, remarks: &mut Remarks) -> Option<View> {
    let Content { page, drawing, ids, .. } = content;
    let Some(bounds) = page.bounds.filter(is_page) else {
        remarks.broken(root, NO_SIZE.into());
        return None;
    };
    let clean = clean::view(root, bounds, sheet, &ids, &LIMITS);
    if clean::drawn(&clean) > LIMITS.nodes {
        remarks.broken(root, say!(TOO_MANY_MADE, count = LIMITS.nodes));
    }
    let [_, _, width, height] = bounds;
    (!remarks.are_broken()).then_some(View { clean, size: [width, height], page, drawing })
}

/// Whether a page has sides that can be drawn in.
fn is_page(bounds: &[f64; 4]) -> bool {
    let [x, y, width, height] = *bounds;
    let fits = |value: f64| value.abs() <= 1e6;
    [x, y, width, height].into_iter().all(fits) && width.min(height) >= 1e-3 * width.max(height).max(1.0)
}

/// Hands on the elements of an SVG file; what is no such file is a finding.
fn parsed<T>(
    path: &str,
    text: &str,
    file: FileId,
    then: impl FnOnce(&Document<'_>) -> (Option<T>, Vec<Finding>),
) -> (Option<T>, Vec<Finding>) {
    let whole = |message: Phrase, at: usize| {
        let span = Span { file, start: at, end: text.ceil_char_boundary((at + 1).min(text.len())) };
        (None, vec![rules::broken_drawing(path, message).at(span, "")])
    };
    if text.len() > LIMITS.bytes {
        return whole(say!(TOO_LARGE, size = LIMITS.bytes >> 20), 0);
    }
    if let Some(at) = crowded(text) {
        return whole(say!(TOO_MANY_ATTRIBUTES, count = LIMITS.attributes), at);
    }
    let plain = without_doctype(text);
    let nodes = u32::try_from(LIMITS.nodes).unwrap_or(u32::MAX);
    let options = ParsingOptions { allow_dtd: false, nodes_limit: nodes, entity_resolver: None };
    match Document::parse_with_options(&plain, options) {
        Ok(document) => then(&document),
        Err(Error::DtdDetected) => {
            let at = plain.find("<!DOCTYPE").unwrap_or(0);
            let span = Span { file, start: at, end: (at + "<!DOCTYPE".len()).min(text.len()) };
            (None, vec![rules::refused_content(path, DOCTYPE).at(span, "")])
        }
        Err(Error::NodesLimitReached) => whole(say!(TOO_MANY, count = LIMITS.nodes), 0),
        Err(error) => {
            let at = byte(text, error.pos());
            whole(error.to_string().into(), at)
        }
    }
}

/// What a document holds.
struct Content<'a, 'i> {
    page: Page,
    /// The shapes on the page.
    drawing: Drawing,
    /// The place of the first element.
    span: Span,
    /// Elements by their ids.
    ids: BTreeMap<&'a str, Node<'a, 'i>>,
}

fn read<'a, 'i>(document: &'a Document<'i>, sheet: &mut Sheet, remarks: &mut Remarks) -> Option<Content<'a, 'i>> {
    let root = document.root_element();
    if !root.has_tag_name((NAMESPACE, "svg")) {
        remarks.broken(root, say!(NO_SVG, namespace = NAMESPACE));
        return None;
    }
    let mut ids = BTreeMap::new();
    for node in document.descendants() {
        survey(node, sheet, &mut ids, remarks);
    }
    if sheet.external {
        remarks.refused(root, REFERENCE);
    }
    sheet.strange.drain(..).for_each(|what| remarks.strange(root, say!(IN_STYLESHEET, what)));
    match Page::of(root) {
        Ok(page) => {
            let span = remarks.place(root);
            let drawing = Walk::new(sheet, &ids, &LIMITS, remarks).shapes(root, page.map);
            Some(Content { page, drawing, span, ids })
        }
        Err((attribute, error)) => {
            remarks.broken(root, say!(remarks::UNREADABLE, attribute, error));
            None
        }
    }
}

/// Looks at what matters wherever it stands: ids, stylesheets, and what reaches out of the file or moves.
fn survey<'a, 'i>(
    node: Node<'a, 'i>,
    sheet: &mut Sheet,
    ids: &mut BTreeMap<&'a str, Node<'a, 'i>>,
    remarks: &mut Remarks,
) {
    if node.pi().is_some_and(|pi| pi.target == "xml-stylesheet") {
        remarks.refused(node, REFERENCE);
    }
    if !node.is_element() || node.tag_name().namespace() != Some(NAMESPACE) {
        return;
    }
    if let Some(id) = node.attribute("id") {
        ids.entry(id).or_insert(node);
    }
    match node.tag_name().name() {
        "style" => node.children().filter_map(|one| one.text()).for_each(|text| sheet.add(text)),
        "script" => remarks.refused(node, SCRIPT),
        "animate" | "animateTransform" | "animateMotion" | "set" => remarks.refused(node, ANIMATION),
        _ => {}
    }
    for attribute in node.attributes() {
        let (name, value) = (attribute.name(), attribute.value());
        let outside = name == "href" && !value.starts_with('#') && !value.starts_with("data:");
        if outside || (REFERRING.contains(&name) && style::external(value)) {
            remarks.refused(node, REFERENCE);
        }
        if name.len() > 2 && name.starts_with("on") && attribute.namespace().is_none() {
            remarks.refused(node, SCRIPT);
        }
    }
}

/// Whether the drawing is as large as it says.
fn scale(path: &str, page: &Page, drawing: &Drawing, root: Span) -> Option<Finding> {
    if let Some((x, y)) = page.uneven {
        return Some(rules::unequal_scale(path, x, y, root));
    }
    match drawing.named(GAUGE) {
        Err(Unseen::Twice(_, places)) => Some(rules::gauge_twice(path, &places)),
        Err(Unseen::Nowhere(_)) => Some(rules::gauge_missing(path, page.pixels, root)),
        Ok(gauge) => {
            let measured: f64 = gauge.paths.iter().map(length).sum();
            let (wanted, most) = GAUGE_LENGTH;
            let off = (measured - wanted).abs() > most;
            off.then(|| rules::wrong_scale(path, measured, wanted / measured, gauge.span))
        }
    }
}

/// Where an element stands that has more attributes than are read: the parser compares each with each.
fn crowded(text: &str) -> Option<usize> {
    let (mut at, mut count) = (0, 0);
    for (index, byte) in text.bytes().enumerate() {
        match byte {
            b'<' => (at, count) = (index, 0),
            b'=' => count += 1,
            _ => {}
        }
        // Only a tag has attributes: stylesheets and letters may hold as many signs as they like.
        if count > LIMITS.attributes && text.as_bytes().get(at + 1).is_some_and(u8::is_ascii_alphabetic) {
            let tag = text.get(at..index).unwrap_or_default();
            if !tag.contains('>') {
                return Some(at);
            }
            count = 0;
        }
    }
    None
}

/// The text with a document type blanked out that only names the public one of SVG, as some editors write it. Nothing is
/// fetched for it, and it declares nothing.
fn without_doctype(text: &str) -> Cow<'_, str> {
    let head = text.find("<svg").unwrap_or(text.len());
    let found = text.get(..head).and_then(|head| head.find("<!DOCTYPE"));
    let Some((at, tag)) = found.and_then(|at| Some((at, text.get(at..)?.split_once('>')?.0))) else {
        return Cow::Borrowed(text);
    };
    if !tag.get(1..).is_some_and(plain) {
        return Cow::Borrowed(text);
    }
    let blank: String = tag.chars().map(|c| if c == '\n' { '\n' } else { ' ' }).collect();
    let rest = text.get(at + tag.len() + 1..).unwrap_or_default();
    Cow::Owned(format!("{}{blank} {rest}", text.get(..at).unwrap_or_default()))
}

fn plain(tag: &str) -> bool {
    tag.len() < 400 && tag.is_ascii() && !tag.contains(['[', '<'])
}

/// The byte at a place that is counted in lines and characters.
fn byte(text: &str, at: roxmltree::TextPos) -> usize {
    let row = usize::try_from(at.row).unwrap_or(1);
    let column = usize::try_from(at.col).unwrap_or(1);
    let line = text.split_inclusive('\n').take(row.saturating_sub(1)).map(str::len).sum::<usize>();
    let rest = text.get(line..).unwrap_or_default();
    line + rest.char_indices().nth(column.saturating_sub(1)).map_or(rest.len(), |(at, _)| at)
}
