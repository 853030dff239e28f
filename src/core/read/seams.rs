//! Reads seams, openings and what is caught in them.

use crate::model::{
    Close, Ease, EdgeFinish, EdgeFinishKind, Entry, Held, Joint, JointKind, Layer, Model, SeamSide, StitchUse,
    TrimLayer,
};
use crate::source::Spanned;
use crate::words::{Phrase, say, words};

use super::declared::Declarations;
use super::reader::Reader;
use super::rules;
use super::section::Section;
use super::tree::{Kind, Node};
use crate::grammar::keys;
use crate::source::nearest;

words! {
    STITCH "read.seams.stitch" = "the stitch";
    CLOSING "read.seams.closing" = "the closing";
    TAPE "read.seams.tape" = "the tape";
    BOTH "read.seams.both" = "{id} (a seam and an opening)";
    WRITE "read.seams.write" = "write \"{near}\"";
    DECLARE_STITCH "read.seams.declare-stitch" = "declare [stitch.{id}], or write { type = \"301\", density = \"4 st/cm\", thread = \"..\" }";
    NO_STITCH "read.seams.no-stitch" = "no stitch is called \"{id}\"";
    NO_SIDE "read.seams.no-side" = "{what} has no side {side}";
    ADD "read.seams.add" = "add {side} = \"PIECE:point-point\"";
    CAUGHT "read.seams.caught" = "what is caught";
    EDGES_TRIM "read.seams.edges-trim" = "edges, { edge = \"..\", on = \"..\" }, or { trim = \"..\" }";
    BOTH_HELD "read.seams.both-held" = "one table names edges and a trim";
    ONE_EACH "read.seams.one-each" = "write a table for each: { edge = \"..\", on = \"..\" }, { trim = \"..\", on = \"..\" }";
    OF_TRIM "read.seams.of-trim" = "`{key}` is of a trim, and edges are caught";
    TAKE_OUT "read.seams.take-out" = "take `{key}` out: edges are as long as they are drawn";
    NONE_HELD "read.seams.none-held" = "nothing is named that is caught";
    ADD_HELD "read.seams.add-held" = "add edge = \"PIECE:point-point\", or trim = \"..\"";
    NO_TRIM "read.seams.no-trim" = "{what} names no trim";
    ADD_TRIM "read.seams.add-trim" = "add trim = \"..\"";
    WRITE_SIDE "read.seams.write-side" = "write {key} = { side = \"b\", {amount} = \"3 %\" }";
    NO_AMOUNT "read.seams.no-amount" = "`{key}` names a side and an amount";
    NO_EDGE "read.seams.no-edge" = "{what} lies on no edge";
    ADD_ON "read.seams.add-on" = "add on = \"PIECE:point-point\"";
}

impl Reader {
    /// Seams, openings and finishes.
    pub fn seams(&mut self, declared: &Declarations, model: &mut Model) {
        let seams = self.each(declared, "seam", |reader, section, entry| reader.joint(section, entry, JointKind::Seam));
        let openings =
            self.each(declared, "opening", |reader, section, entry| reader.joint(section, entry, JointKind::Opening));
        model.joints = seams;
        for (id, mut opening) in openings {
            let Some(seam) = model.joints.get(&id) else {
                model.joints.insert(id, opening);
                continue;
            };
            let finding = rules::shared_id(say!(BOTH, id = &id), &id, seam.entry.span(), opening.entry.span());
            self.findings.push(finding);
            // It is sewn all the same, under a name that nobody can write, so that one slip is one finding.
            let name = format!("{id} (opening)");
            opening.entry.id.value.clone_from(&name);
            self.misnamed("opening", [&id, &name]);
            model.joints.insert(name, opening);
        }
        model.edge_finishes =
            self.each(declared, "edge-finish", |reader, section, entry| reader.edge_finish_of(section, entry));
    }

    /// Stitches declared to be shared.
    pub fn stitches(&mut self, declared: &Declarations, model: &mut Model) {
        let all = self.each(declared, "stitch", |reader, section, entry| (entry, reader.stitch_table(section)));
        for (id, (entry, stitch)) in all {
            model.stitches.insert(id.clone(), entry);
            self.stitches.insert(id, stitch);
        }
    }

    fn stitch_table(&mut self, section: &Section<'_>) -> StitchUse {
        StitchUse {
            kind: self.word(section, "type"),
            density: self.quantity(section, "density"),
            thread: self.word(section, "thread"),
            width: self.quantity(section, "width"),
            needle: self.text(section, "needle"),
            span: Some(section.span),
            shared: None,
        }
    }

    /// The stitch at a key: a table, or the id of a shared one.
    pub fn stitch_use(&mut self, section: &Section<'_>, key: &str) -> StitchUse {
        let Some(node) = section.node(key) else { return StitchUse::default() };
        if let Kind::Text(id) = &node.kind {
            if let Some(found) = self.stitches.get(id.trim()) {
                let shared = Some(Spanned::new(id.trim().to_string(), node.span));
                return StitchUse { span: Some(node.span), shared, ..found.clone() };
            }
            let known: Vec<&str> = self.stitches.keys().map(String::as_str).collect();
            let help = match nearest(id, known.iter().copied()) {
                Some(near) => say!(WRITE, near),
                None => say!(DECLARE_STITCH, id),
            };
            let message = say!(NO_STITCH, id);
            self.findings.push(rules::bad_value(message, node.span, help));
            return StitchUse::default();
        }
        let what = STITCH.into();
        match self.table(section, key, &what) {
            Some(inner) => self.stitch_table(&inner),
            None => StitchUse::default(),
        }
    }

    fn joint(&mut self, section: &Section<'_>, entry: Entry, kind: JointKind) -> Joint {
        for side in ["a", "b"] {
            if section.node(side).is_none() {
                let message = say!(NO_SIDE, what = section.what, side);
                let help = say!(ADD, side);
                self.findings.push(rules::bad_value(message, section.span, help));
            }
        }
        let close = if kind == JointKind::Opening { self.close(section) } else { None };
        Joint {
            kind,
            a: self.chain(section, "a"),
            b: self.chain(section, "b"),
            between: self.between(section),
            on: self.chain(section, "on"),
            mirrored: self.flag(section, "mirrored"),
            stitch: self.stitch_use(section, "stitch"),
            ease: self.ease(section, "ease", "up_to"),
            gather: self.ease(section, "gather", "ratio"),
            stretch: self.ease(section, "stretch", "ratio"),
            close,
            girth: self.quantity_by(section, "girth"),
            note: self.text(section, "note"),
            means: self.means(section),
            entry,
        }
    }

    /// How an opening is closed. A word in place of the table is reported, and taken for how.
    fn close(&mut self, section: &Section<'_>) -> Option<Close> {
        let node = section.node("close")?;
        let what = CLOSING.into();
        match self.table(section, "close", &what) {
            Some(inner) => Some(Close {
                by: self.text(&inner, "by"),
                trim: self.word(&inner, "trim"),
                note: self.text(&inner, "note"),
                span: inner.span,
            }),
            None => Some(Close { by: self.text(section, "close"), trim: None, note: None, span: node.span }),
        }
    }

    fn between(&mut self, section: &Section<'_>) -> Vec<Layer> {
        let Some(node) = section.node("between") else { return Vec::new() };
        node.one_or_more().iter().flat_map(|one| self.layers_of(one)).collect()
    }

    /// One layer, or several that lie along one stretch.
    fn layers_of(&mut self, node: &Node) -> Vec<Layer> {
        match &node.kind {
            Kind::Text(_) => {
                let chain = self.chain_at("between", node, None);
                chain.into_iter().map(|chain| Layer { held: Held::Chain(chain), on: None }).collect()
            }
            Kind::Table(fields) => {
                let keys = keys::layer();
                let what = CAUGHT.into();
                let section = Section { fields, keys: &keys, what: &what, span: node.span };
                self.report_unknown(&section, false);
                let on = self.chain(&section, "on");
                self.held(&section).into_iter().map(|held| Layer { held, on: on.clone() }).collect()
            }
            _ => self.refuse("between", EDGES_TRIM, node).into_iter().collect(),
        }
    }

    /// What a table says is caught: edges in needle order, or length goods.
    fn held(&mut self, section: &Section<'_>) -> Vec<Held> {
        match (section.node("edge"), section.node("trim")) {
            (Some(_), Some(_)) => {
                self.findings.push(rules::bad_value(BOTH_HELD, section.span, ONE_EACH));
                Vec::new()
            }
            (None, None) => {
                self.findings.push(rules::bad_value(NONE_HELD, section.span, ADD_HELD));
                Vec::new()
            }
            (None, Some(_)) => self.trim_layer(section).map(Held::Trim).into_iter().collect(),
            (Some(edge), None) => {
                self.only_of_trims(section);
                let list = edge.one_or_more().iter();
                list.filter_map(|one| self.chain_at("edge", one, None)).map(Held::Chain).collect()
            }
        }
    }

    /// Refuses what only length goods have beside edges, so that nothing written is dropped.
    fn only_of_trims(&mut self, section: &Section<'_>) {
        for key in keys::trim_layer() {
            let Some(node) = section.node(key.name) else { continue };
            self.findings.push(rules::bad_value(
                say!(OF_TRIM, key = key.name),
                node.span,
                say!(TAKE_OUT, key = key.name),
            ));
        }
    }

    fn trim_layer(&mut self, section: &Section<'_>) -> Option<TrimLayer> {
        let Some(trim) = self.word(section, "trim") else {
            let message = say!(NO_TRIM, what = section.what);
            self.findings.push(rules::bad_value(message, section.span, ADD_TRIM));
            return None;
        };
        Some(TrimLayer { trim, ratio: self.number(section, "ratio"), laps: self.quantity(section, "laps") })
    }

    fn ease(&mut self, section: &Section<'_>, key: &str, amount: &str) -> Option<Ease> {
        let what = Phrase::from(format!("`{key}`"));
        let node = section.node(key)?;
        let inner = self.table(section, key, &what)?;
        let side = self.choice(&inner, "side");
        let value = self.quantity(&inner, amount);
        match (side, value) {
            (Some(side), Some(amount)) => {
                let side = if side.value == "a" { SeamSide::A } else { SeamSide::B };
                Some(Ease { side, amount, span: node.span })
            }
            _ => {
                let help = say!(WRITE_SIDE, key, amount);
                self.findings.push(rules::bad_value(say!(NO_AMOUNT, key), node.span, help));
                None
            }
        }
    }

    fn edge_finish_of(&mut self, section: &Section<'_>, entry: Entry) -> EdgeFinish {
        let kind = self.choice(section, "by").and_then(|word| {
            let kind = match word.value.as_str() {
                "raw" => EdgeFinishKind::Raw,
                "hem" => EdgeFinishKind::Hem,
                "bound" => EdgeFinishKind::Bound,
                "fold" => EdgeFinishKind::Fold,
                "overlocked" => EdgeFinishKind::Overlocked,
                _ => return None,
            };
            Some(Spanned::new(kind, word.span))
        });
        let what = TAPE.into();
        let tape = self.table(section, "tape", &what).and_then(|inner| self.trim_layer(&inner));
        if section.node("on").is_none() {
            let message = say!(NO_EDGE, what = section.what);
            self.findings.push(rules::bad_value(message, section.span, ADD_ON));
        }
        EdgeFinish {
            kind,
            on: self.chain(section, "on"),
            mirrored: self.flag(section, "mirrored"),
            tape,
            stitch: self.stitch_use(section, "stitch"),
            note: self.text(section, "note"),
            means: self.means(section),
            entry,
        }
    }
}
