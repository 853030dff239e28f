//! Goes through the elements of a drawing without ever calling itself.

use std::collections::BTreeMap;
use std::rc::Rc;

use roxmltree::Node;

use crate::geom::{Affine, Path, Point, Segment, measure};
use crate::model::{Drawing, Traced};
use crate::read::rules::refused_content::{FOREIGN, PICTURE, TEXT};
use crate::words::{Phrase, say, words};

use super::limits::{Limits, NAMESPACE};
use super::remarks::{self, Remarks};
use super::shape::{self, Figure};
use super::style::Sheet;
use super::{name, transform};

words! {
    TOO_MANY_USED "read.svg.too-many-used" = "`use` makes more than {count} elements of it";
    TOO_DEEP "read.svg.too-deep" = "elements are more than {count} deep in each other";
    NESTED "read.svg.nested" = "a drawing within the drawing";
    SYMBOL_BOX "read.svg.symbol-box" = "a symbol with a viewBox";
    USE_NOTHING "read.svg.use-nothing" = "`use` refers to nothing in the drawing";
    USE_ITSELF "read.svg.use-itself" = "`use` refers to itself, or to what refers to more and more";
    PLACE_UNREADABLE "read.svg.place-unreadable" = "`x` or `y` cannot be read";
    TOO_FAR "read.svg.too-far" = "a number is too large, or leads a kilometre off the page";
}

/// The end of a closed line that lies as near its start, in mm, is moved onto it.
const CLOSED: f64 = 0.01;
/// Nothing lies farther from the corner of the page, mm.
const FARTHEST: f64 = 1e6;
/// `use` of `use` this deep is a loop or a bomb.
const USES: usize = 8;

/// Elements that only hold others.
const GROUPS: &[&str] = &["svg", "g", "a", "switch"];
/// Elements that are drawn only where something refers to them, or not at all.
const UNDRAWN: &[&str] = &[
    "defs",
    "symbol",
    "title",
    "desc",
    "metadata",
    "style",
    "view",
    "linearGradient",
    "radialGradient",
    "pattern",
    "clipPath",
    "mask",
    "marker",
    "filter",
    "color-profile",
    "cursor",
    "font",
    "solidColor",
    "script",
    "animate",
    "animateTransform",
    "animateMotion",
    "set",
];
/// Elements that hold words.
const WORDS: &[&str] = &["text", "flowRoot", "tspan", "textPath"];
/// Elements that hold something else than lines.
const OTHER: &[&str] = &["image", "foreignObject", "video", "audio", "canvas", "iframe"];

type Names = Rc<Vec<(u8, String)>>;

/// An element still to be looked at.
struct Task<'a, 'i> {
    node: Node<'a, 'i>,
    map: Affine,
    /// Names of the groups round it, innermost first.
    groups: Names,
    visible: bool,
    depth: usize,
    uses: usize,
    /// Names it is used under.
    named: Option<Names>,
}

/// One walk through a drawing.
pub struct Walk<'a, 'i, 'r> {
    sheet: &'r Sheet,
    ids: &'r BTreeMap<&'a str, Node<'a, 'i>>,
    limits: &'r Limits,
    remarks: &'r mut Remarks,
    drawing: Drawing,
    tasks: Vec<Task<'a, 'i>>,
}

impl<'a, 'i, 'r> Walk<'a, 'i, 'r> {
    /// A walk with what is known of the drawing.
    pub fn new(
        sheet: &'r Sheet,
        ids: &'r BTreeMap<&'a str, Node<'a, 'i>>,
        limits: &'r Limits,
        remarks: &'r mut Remarks,
    ) -> Self {
        Walk { sheet, ids, limits, remarks, drawing: Drawing::default(), tasks: Vec::new() }
    }

    /// Every shape below the root, mapped to the page.
    pub fn shapes(mut self, root: Node<'a, 'i>, page: Affine) -> Drawing {
        let groups = Rc::default();
        self.tasks.push(Task { node: root, map: page, groups, visible: true, depth: 0, uses: 0, named: None });
        let mut seen = 0;
        while let Some(task) = self.tasks.pop() {
            seen += 1;
            if seen > self.limits.nodes {
                self.remarks.broken(root, say!(TOO_MANY_USED, count = self.limits.nodes));
                break;
            }
            self.one(task);
        }
        self.drawing
    }

    fn one(&mut self, mut task: Task<'a, 'i>) {
        let node = task.node;
        let tag = node.tag_name().name();
        if !node.is_element() || node.tag_name().namespace() != Some(NAMESPACE) || self.undrawn(&task, tag) {
            return;
        }
        if task.depth > self.limits.depth {
            self.remarks.broken(node, say!(TOO_DEEP, count = self.limits.depth));
            self.tasks.clear();
            return;
        }
        let look = self.sheet.look(node);
        if look.gone {
            return;
        }
        task.visible = look.visible.unwrap_or(task.visible);
        let draws = shape::SHAPES.contains(&tag);
        if !draws && !GROUPS.contains(&tag) && tag != "use" && task.named.is_none() {
            self.refuse(&task, tag);
            return;
        }
        look.moving.iter().for_each(|property| self.remarks.strange(node, Phrase::from(format!("`{property}`"))));
        match node.attribute("transform").map(transform::map) {
            Some(Ok(map)) => task.map = map.then(task.map),
            Some(Err(error)) => {
                self.remarks.broken(node, say!(remarks::UNREADABLE, attribute = "transform", error));
                return;
            }
            None => {}
        }
        match tag {
            "use" => self.follow(task),
            _ if draws => self.trace(&task),
            "svg" if task.depth > 0 => self.remarks.strange(node, NESTED.into()),
            _ => self.enter(task),
        }
    }

    /// Whether an element is passed over in silence; what a `use` refers to is drawn wherever it stands.
    fn undrawn(&self, task: &Task<'_, '_>, tag: &str) -> bool {
        UNDRAWN.contains(&tag) && !(task.named.is_some() && tag == "symbol")
    }

    fn refuse(&mut self, task: &Task<'a, 'i>, tag: &str) {
        if WORDS.contains(&tag) || tag.starts_with("flow") {
            self.remarks.refused(task.node, TEXT);
        } else if OTHER.contains(&tag) {
            self.remarks.refused(task.node, if tag == "image" { PICTURE } else { FOREIGN });
        } else {
            self.remarks.strange(task.node, Phrase::from(format!("`{tag}`")));
        }
    }

    fn enter(&mut self, task: Task<'a, 'i>) {
        let node = task.node;
        if node.tag_name().name() == "symbol" && node.has_attribute("viewBox") {
            if !self.sheet.is_of_view() {
                self.remarks.strange(node, SYMBOL_BOX.into());
            }
            return;
        }
        let own = task.named.unwrap_or_else(|| Rc::new(name::names(node)));
        let groups = if own.is_empty() {
            task.groups
        } else {
            // Every further group out stands behind those within.
            let outer = task.groups.iter().take(32).map(|(rank, name)| (rank.saturating_add(4).min(80), name.clone()));
            Rc::new(own.iter().cloned().chain(outer).collect())
        };
        let depth = task.depth + 1;
        for child in node.children().rev() {
            let groups = Rc::clone(&groups);
            let (map, visible, uses) = (task.map, task.visible, task.uses);
            self.tasks.push(Task { node: child, map, groups, visible, depth, uses, named: None });
        }
    }

    fn follow(&mut self, mut task: Task<'a, 'i>) {
        let node = task.node;
        let href = node.attributes().find(|one| one.name() == "href").map(|one| one.value());
        let Some(target) = href.and_then(|href| self.ids.get(href.strip_prefix('#')?)) else {
            // What lies outside the file was refused already.
            if href.is_none_or(|href| href.starts_with('#')) {
                self.remarks.broken(node, USE_NOTHING.into());
            }
            return;
        };
        if task.uses >= USES {
            self.remarks.broken(node, USE_ITSELF.into());
            self.tasks.clear();
            return;
        }
        let by = |name| node.attribute(name).map_or(Ok(0.0), |text| text.trim().trim_end_matches("px").parse::<f64>());
        match (by("x"), by("y")) {
            (Ok(x), Ok(y)) => task.map = Affine::translation(Point::new(x, y)).then(task.map),
            _ => {
                self.remarks.broken(node, PLACE_UNREADABLE.into());
                return;
            }
        }
        let names = task.named.unwrap_or_else(|| Rc::new(name::names(node)));
        self.tasks.push(Task { node: *target, depth: task.depth + 1, uses: task.uses + 1, named: Some(names), ..task });
    }

    fn trace(&mut self, task: &Task<'a, 'i>) {
        let figure = match shape::figure(task.node) {
            Ok(figure) => figure,
            Err((attribute, error)) => {
                self.remarks.broken(task.node, say!(remarks::UNREADABLE, attribute, error));
                return;
            }
        };
        if figure.lines.is_empty() || !task.visible {
            return;
        }
        let Some(shape) = self.traced(task, figure) else {
            self.remarks.broken(task.node, TOO_FAR.into());
            return;
        };
        let own = task.named.clone().unwrap_or_else(|| Rc::new(name::names(task.node)));
        self.drawing.add(shape, &own, &task.groups, task.uses > 0);
    }

    fn traced(&self, task: &Task<'a, 'i>, figure: Figure) -> Option<Traced> {
        let map = task.map;
        let paths: Vec<Path> = figure.lines.iter().map(|(path, closed)| line(path, *closed, &map)).collect();
        if !paths.iter().all(Path::is_finite) {
            return None;
        }
        let bounds = paths.iter().map(measure::bbox).reduce(|a, b| a.with(b.min).with(b.max))?;
        if [bounds.min, bounds.max].iter().any(|at| at.x.abs().max(at.y.abs()) > FARTHEST) {
            return None;
        }
        let centre = figure.centre.map_or(bounds.middle(), |centre| map.apply(centre));
        let size = bounds.width().max(bounds.height());
        Some(Traced { paths, centre, size, round: figure.centre.is_some(), span: self.remarks.place(task.node) })
    }
}

/// A line on the page, closed if it was.
fn line(path: &Path, closed: bool, map: &Affine) -> Path {
    let mut path = path.transformed(map);
    let start = path.start;
    if closed && path.end() != start {
        let near = path.end().distance(start) <= CLOSED;
        match path.segments.last_mut() {
            Some(Segment::Line(end) | Segment::Cubic(_, _, end)) if near => *end = start,
            _ => path.segments.push(Segment::Line(start)),
        }
    }
    path
}
