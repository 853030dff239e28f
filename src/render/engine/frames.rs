//! Walks the engine's frames and writes down where everything lies.

use typst::foundations::{Content, Value};
use typst::introspection::{MetadataElem, Tag};
use typst::layout::{Frame, FrameItem, Point, Rect, Transform};
use typst::text::TextItem;
use typst::visualize::{Paint, Shape};
use typst_layout::PagedDocument;

use crate::render::page::{Corner, Form, Mark, Page, Run};

/// What the templates' page markers begin with; the kind of sheet follows.
const MARKER: &str = "sheet:";

/// All pages; a page without a marker continues the sheet before it.
pub(super) fn pages(document: &PagedDocument) -> Vec<Page> {
    let mut out: Vec<Page> = Vec::new();
    for page in document.pages() {
        let size = page.frame.size();
        let sheet = out.last().map(|p| p.sheet.clone()).unwrap_or_default();
        let mut laid = Page { width: size.x.to_mm(), height: size.y.to_mm(), sheet, marks: Vec::new() };
        walk(&page.frame, Transform::identity(), &mut laid);
        out.push(laid);
    }
    out
}

/// The page on which each sheet begins, from 1.
pub(super) fn starts(document: &PagedDocument) -> Vec<usize> {
    let mut out = Vec::new();
    for (index, page) in document.pages().iter().enumerate() {
        out.extend(std::iter::repeat_n(index + 1, markers(&page.frame)));
    }
    out
}

/// How many sheets begin in a frame.
fn markers(frame: &Frame) -> usize {
    let count = |item: &FrameItem| match item {
        FrameItem::Group(group) => markers(&group.frame),
        FrameItem::Tag(Tag::Start(content, _)) => usize::from(marked(content).is_some()),
        _ => 0,
    };
    frame.items().map(|(_, item)| count(item)).sum()
}

/// The kind of sheet that begins at a marker.
fn marked(content: &Content) -> Option<&str> {
    match &content.to_packed::<MetadataElem>()?.value {
        Value::Str(text) => text.as_str().strip_prefix(MARKER),
        _ => None,
    }
}

fn walk(frame: &Frame, place: Transform, out: &mut Page) {
    for (at, item) in frame.items() {
        let here = place.pre_concat(Transform::translate(at.x, at.y));
        match item {
            FrameItem::Group(group) => walk(&group.frame, here.pre_concat(group.transform), out),
            FrameItem::Text(text) => out.marks.push(Mark::Text(run(text, here))),
            FrameItem::Shape(shape, _) => out.marks.push(Mark::Shape(form(shape, here))),
            FrameItem::Image(_, size, _) => {
                let area = Rect::from_pos_size(Point::zero(), *size);
                out.marks.push(Mark::Picture(corners(area, here)));
            }
            FrameItem::Tag(Tag::Start(content, _)) => {
                if let Some(kind) = marked(content) {
                    kind.clone_into(&mut out.sheet);
                }
            }
            FrameItem::Tag(Tag::End(..)) | FrameItem::Link(..) => {}
        }
    }
}

fn run(text: &TextItem, here: Transform) -> Run {
    let blank = text.text.trim().is_empty();
    let missing = text.glyphs.iter().any(|glyph| glyph.id == 0);
    let area = if blank { Rect::new(Point::zero(), Point::zero()) } else { text.bbox() };
    Run {
        text: text.text.to_string(),
        ink: corners(area, here),
        size: text.size.to_pt() * scale(here),
        colour: colour(&text.fill).unwrap_or([0; 3]),
        missing,
    }
}

fn form(shape: &Shape, here: Transform) -> Form {
    Form {
        corners: corners(shape.geometry.bbox(None), here),
        stroke: shape.stroke.as_ref().map(|s| s.thickness.to_mm() * scale(here)),
        fill: shape.fill.as_ref().and_then(colour),
    }
}

/// The four corners of a box where it lies on the page, mm.
fn corners(area: Rect, here: Transform) -> [Corner; 4] {
    let (a, b) = (area.min, area.max);
    [a, Point::new(b.x, a.y), b, Point::new(a.x, b.y)].map(|p| {
        let p = p.transform(here);
        [p.x.to_mm(), p.y.to_mm()]
    })
}

/// How much a transformation enlarges lengths.
fn scale(here: Transform) -> f64 {
    let (a, b) = (here.sx.get(), here.ky.get());
    (a * a + b * b).sqrt()
}

/// The colour of a plain paint as it shows on a screen.
fn colour(paint: &Paint) -> Option<[u8; 3]> {
    let Paint::Solid(colour) = paint else { return None };
    let rgb = colour.to_rgb();
    // Each part lies in 0..=1, so the product fits the byte it is rounded into.
    Some([rgb.red, rgb.green, rgb.blue].map(|part| (part * 255.0).round() as u8))
}
