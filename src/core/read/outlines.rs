//! Reads where outlines come from: shapes with their measures and points, or drawings.

use crate::model::{Extent, Follow, OutlineSource, PlacedPoint, ShapeSource, Side, Stated, SvgSource, Value};
use crate::source::Spanned;
use crate::units::{Dimension, Quantity};
use crate::words::{say, words};

use super::reader::{Reader, is_id};
use super::rules;
use super::section::Section;
use super::tree::{Fields, Kind, Node};
use super::values::BY_FACTORY;
use crate::grammar::keys;

words! {
    POINT "read.outlines.point" = "point";
    POINTS "read.outlines.points" = "a table { p = \"nw-ne 40 mm\" }";
    WRITE_OUTLINE "read.outlines.write-outline" = "write outline = { shape = \"rectangle\", width = \"..\", height = \"..\" }, or \"by factory\"";
    NO_TABLE "read.outlines.no-table" = "an outline is a table";
    WANTED "read.outlines.wanted" = "a table { shape = .. }";
    OUTLINE "read.outlines.outline" = "the outline";
    ADD_SHAPE "read.outlines.add-shape" = "add shape = \"..\": {shapes}";
    NO_SHAPE "read.outlines.no-shape" = "the outline names no shape";
    ADD_COUNT "read.outlines.add-count" = "add count = 6, or how many strips make the ball";
    NO_COUNT "read.outlines.no-count" = "a gore needs `count`";
    NEEDS "read.outlines.needs" = "a {shape} needs `{key}`";
    ADD "read.outlines.add" = "add {key} = \"200 mm\", or what it is";
    ADD_CORNERS "read.outlines.add-corners" = "add corners = [[\"a\", \"0 mm\", \"0 mm\"], [\"b\", \"80 mm\", \"0 mm\"], ..]";
    NO_CORNERS "read.outlines.no-corners" = "a polygon needs `corners`";
    CORNERS "read.outlines.corners" = "a list of [\"id\", \"x\", \"y\"]";
    CORNER "read.outlines.corner" = "lists of [\"id\", \"x\", \"y\"]";
    CORNER_LENGTHS "read.outlines.corner-lengths" = "lists of an id and two lengths";
    WRITE_EDGE "read.outlines.write-edge" = "write the edge and how far along it: \"nw-ne 40 mm\" or \"nw-ne 50 %\"";
    NO_EDGE "read.outlines.no-edge" = "point {id} lies on no edge";
    ON_EDGE "read.outlines.on-edge" = "a point lies on an edge";
    EXAMPLE "read.outlines.example" = "\"nw-ne 40 mm\"";
}

/// Behind the distance of a point: it holds in every size.
const FIXED: &str = " fixed";

impl Reader {
    /// The outline of a piece: a table, `"by factory"`, or either by size.
    pub fn outline(&mut self, section: &Section<'_>) -> Option<Value<OutlineSource>> {
        let node = section.node("outline")?;
        let by_size = match &node.kind {
            Kind::Table(fields) => fields.keys().any(|key| key == "else" || self.codes.contains(key)),
            _ => false,
        };
        if by_size {
            return self.value("outline", node, |reader, node| reader.shape(node));
        }
        match &node.kind {
            Kind::Table(fields) if !fields.contains_key("withheld") => {
                let span = node.span;
                self.shape(node).map(|shape| Value::same(Stated::plain(shape, span)))
            }
            Kind::Text(text) if text.trim() != BY_FACTORY => {
                let help = WRITE_OUTLINE;
                self.findings.push(rules::bad_value(NO_TABLE, node.span, help));
                None
            }
            _ => self.stated("outline", node, |reader, node| reader.shape(node)).map(Value::same),
        }
    }

    fn shape(&mut self, node: &Node) -> Option<OutlineSource> {
        let Kind::Table(fields) = &node.kind else { return self.refuse("outline", WANTED, node) };
        let keys = keys::outline();
        let what = OUTLINE.into();
        let section = Section { fields, keys: &keys, what: &what, span: node.span };
        self.report_unknown(&section, false);
        let shape = self.source(&section)?;
        let side = match self.choice(&section, "is").map(|word| word.value) {
            Some(word) if word == "cut line" => Side::CutLine,
            _ => Side::SewLine,
        };
        let fold = self.edge(&section, "fold");
        let points = self.placed(&section);
        Some(OutlineSource { shape, side, fold, points, span: node.span })
    }

    fn source(&mut self, section: &Section<'_>) -> Option<ShapeSource> {
        if let Some(path) = self.word(section, "svg") {
            let (file, id) = match path.value.split_once('#') {
                Some((file, id)) => (file.to_string(), Some(id.to_string())),
                None => (path.value.clone(), None),
            };
            return Some(ShapeSource::Svg(SvgSource { path: Spanned::new(file, path.span), id }));
        }
        let Some(shape) = self.choice(section, "shape") else {
            if section.node("shape").is_none() {
                let help = say!(ADD_SHAPE, shapes = keys::SHAPES.join(", "));
                self.findings.push(rules::bad_value(NO_SHAPE, section.span, help));
            }
            return None;
        };
        let need = |reader: &mut Reader, key: &str| reader.needed(section, key, &shape);
        match shape.value.as_str() {
            "rectangle" => {
                let (width, height) = (need(self, "width"), need(self, "height"));
                Some(ShapeSource::Rectangle { width: width?, height: height? })
            }
            "rounded rectangle" => {
                let (width, height, radius) = (need(self, "width"), need(self, "height"), need(self, "radius"));
                Some(ShapeSource::RoundedRectangle { width: width?, height: height?, radius: radius? })
            }
            "circle" if section.node("circumference").is_some() => {
                Some(ShapeSource::Circle { extent: need(self, "circumference")?, round: true })
            }
            "circle" => Some(ShapeSource::Circle { extent: need(self, "diameter")?, round: false }),
            "ellipse" => {
                let (width, height) = (need(self, "width"), need(self, "height"));
                Some(ShapeSource::Ellipse { width: width?, height: height? })
            }
            "gore" => {
                let diameter = need(self, "diameter");
                let count = self.whole(section, "count");
                if section.node("count").is_none() {
                    let help = ADD_COUNT;
                    self.findings.push(rules::bad_value(NO_COUNT, shape.span, help));
                }
                Some(ShapeSource::Gore { count: count?, diameter: diameter? })
            }
            _ => self.corners(section, &shape),
        }
    }

    /// A length that a shape cannot do without.
    fn needed(&mut self, section: &Section<'_>, key: &str, shape: &Spanned<String>) -> Option<Value<Extent>> {
        if section.node(key).is_none() {
            let message = say!(NEEDS, shape = &shape.value, key);
            self.findings.push(rules::bad_value(message, shape.span, say!(ADD, key)));
        }
        let node = section.node(key)?;
        self.value(key, node, |reader, node| reader.extent(key, node))
    }

    /// A length, or the edges it follows: `"along LID:n-e-s-w-n"`, `"along LID:n-e + 2 %"`.
    fn extent(&mut self, key: &str, node: &Node) -> Option<Extent> {
        let written = match &node.kind {
            Kind::Text(text) => text.trim().strip_prefix("along "),
            _ => None,
        };
        let Some(written) = written else { return self.plain_length(key, node).map(Extent::Length) };
        let signed = |sign: &str| written.split_once(sign).map(|(chain, more)| (chain, Some(more)));
        let (chain, more) = signed(" + ").or_else(|| signed(" - ")).unwrap_or((written, None));
        let less = written.contains(" - ");
        let edges = Node { kind: Kind::Text(chain.trim().to_string()), span: node.span };
        let chain = self.chain_at(key, &edges, None)?;
        let more = match more.map(|more| Quantity::parse(more, &[Dimension::Length, Dimension::Percent])) {
            Some(Ok(more)) => Some((less, more)),
            Some(Err(error)) => {
                self.findings.push(rules::bad_quantity(key, &error, node.span, None));
                return None;
            }
            None => None,
        };
        Some(Extent::Along(Follow { chain, more, span: node.span }))
    }

    fn corners(&mut self, section: &Section<'_>, shape: &Spanned<String>) -> Option<ShapeSource> {
        let Some(node) = section.node("corners") else {
            let help = ADD_CORNERS;
            self.findings.push(rules::bad_value(NO_CORNERS, shape.span, help));
            return None;
        };
        let Kind::List(list) = &node.kind else {
            return self.refuse("corners", CORNERS, node);
        };
        let corners: Vec<_> = list.iter().filter_map(|one| self.corner(one)).collect();
        (corners.len() == list.len()).then_some(ShapeSource::Polygon(corners))
    }

    fn corner(&mut self, node: &Node) -> Option<(Spanned<String>, Value<Quantity>, Value<Quantity>)> {
        let Kind::List(list) = &node.kind else {
            return self.refuse("corners", CORNER, node);
        };
        let [id, x, y] = list.as_slice() else { return self.refuse("corners", CORNER_LENGTHS, node) };
        let name = self.plain_text("corners", id)?;
        if !is_id(&name, false) {
            self.findings.push(rules::bad_id(&name, POINT, false, id.span));
            return None;
        }
        Some((Spanned::new(name, id.span), self.length("x", x)?, self.length("y", y)?))
    }

    /// Extra points: `p = "nw-ne 40 mm"`.
    fn placed(&mut self, section: &Section<'_>) -> Vec<PlacedPoint> {
        let Some(node) = section.node("points") else { return Vec::new() };
        let Kind::Table(fields) = &node.kind else {
            self.refuse::<()>("points", POINTS, node);
            return Vec::new();
        };
        self.placed_each(fields)
    }

    fn placed_each(&mut self, fields: &Fields) -> Vec<PlacedPoint> {
        let mut all = Vec::new();
        for (id, (place, node)) in fields {
            if !is_id(id, false) {
                self.findings.push(rules::bad_id(id, POINT, false, *place));
                continue;
            }
            // By size or not, the edge is the same: it is read from the first value that has one.
            let mut edge = None;
            for text in texts(node) {
                edge = edge.or_else(|| split(text).map(|(edge, _)| edge));
            }
            let Some(edge) = edge else {
                let help = WRITE_EDGE;
                self.findings.push(rules::bad_value(say!(NO_EDGE, id), node.span, help));
                continue;
            };
            let fixed = texts(node).iter().any(|text| text.trim().ends_with(FIXED));
            let at = self.value("points", node, |reader, node| reader.distance(node));
            if let Some(at) = at {
                all.push(PlacedPoint { id: Spanned::new(id.clone(), *place), edge, at, fixed });
            }
        }
        all
    }

    fn distance(&mut self, node: &Node) -> Option<Quantity> {
        let text = self.plain_text("points", node)?;
        let text = text.trim().trim_end_matches(FIXED);
        let rest = split(text).map(|(_, rest)| rest);
        let parsed = rest.map(|rest| Quantity::parse(&rest, &[Dimension::Length, Dimension::Percent]));
        match parsed {
            Some(Ok(quantity)) => Some(quantity),
            Some(Err(error)) => {
                self.findings.push(rules::bad_quantity("points", &error, node.span, None));
                None
            }
            None => {
                self.findings.push(rules::bad_value(ON_EDGE, node.span, EXAMPLE));
                None
            }
        }
    }
}

/// Every text of a value, whether it is one or by size.
fn texts(node: &Node) -> Vec<&str> {
    match &node.kind {
        Kind::Text(text) => vec![text],
        Kind::Table(fields) => fields.values().flat_map(|(_, node)| texts(node)).collect(),
        _ => Vec::new(),
    }
}

/// `nw-ne 40 mm` into its edge and the rest.
fn split(text: &str) -> Option<((String, String), String)> {
    let (edge, rest) = text.trim().split_once(' ')?;
    let (a, b) = edge.split_once('-')?;
    (is_id(a, false) && is_id(b, false)).then(|| ((a.to_string(), b.to_string()), rest.trim().to_string()))
}
