//! What the sheets are filled from, and the names things go by on them.

use std::collections::BTreeMap;

use crate::compute::{Drawn, Figures, LayTasks, Lines, Number};
use crate::diag::{Findings, Severity};
use crate::model::{Assembly, Model, Picture, Stage, Stated, StitchUse, kind};
use crate::revision::Since;
use crate::samples::figures::SampleFigures;
use crate::source::{Sources, Span};
use crate::units::Date;
use crate::words::{Phrase, number, say, words};

use super::cell::{Cell, Coded, MARK, NOT_YET};

words! {
    SAMPLE "view.sample" = "Sample {id}, {name}";
    THING "view.thing" = "{kind} {id}, {name}";
    NAMED "view.named" = "{id}, {name}";
    OF_SIZE "view.of-size" = "{size} {value}";
    FOR_ROLES "view.for-roles" = "{roles}: {fabric}";
}

/// Everything a sheet may look at.
#[derive(Debug, Clone, Copy)]
pub struct View<'a> {
    /// The specification.
    pub model: &'a Model,
    /// What follows from it.
    pub assembly: &'a Assembly,
    /// The numbers.
    pub figures: &'a Figures,
    /// Sew and cut lines the figures were measured on.
    pub drawn: &'a Drawn,
    /// What is laid of each fabric.
    pub lays: &'a LayTasks,
    /// The files, for chains as they are written.
    pub sources: &'a Sources,
    /// Standing findings, settled.
    pub findings: &'a Findings,
    /// The next stage, and what would stand there; none at the last one, and in the document of an order.
    pub ahead: Option<(Stage, &'a Findings)>,
    /// The specification the findings point into: the own edition.
    pub asked: &'a Model,
    /// What is new; none before anything was sealed.
    pub since: Option<&'a Since>,
    /// What samples show, of what everyone may see.
    pub samples: &'a SampleFigures,
    /// The own edition's pictures by their paths, for those of comments.
    pub commented: &'a BTreeMap<String, Picture>,
    /// The order that is shown, in its own document.
    pub order: Option<&'a str>,
    /// Digest of the manifest of a revision that is sealed: `verify --head` takes it.
    pub sealed: Option<&'a str>,
    /// Short digest of the attached files.
    pub digest: &'a str,
}

impl<'a> View<'a> {
    /// Whether the foot of every page says that this is not released.
    pub fn has_notice(&self) -> bool {
        let open = self.findings.count(Severity::Should) > 0 && self.order.is_none();
        open || self.findings.count(Severity::Must) > 0
    }

    /// Known text for the page; empty for what the factory fills in or this edition withholds.
    pub fn text(&self, stated: Option<&'a Stated<String>>) -> &'a str {
        stated.and_then(Stated::known).map_or("", String::as_str)
    }

    /// Known date for the page; none for what the factory fills in or this edition withholds.
    pub fn date(&self, stated: Option<&Stated<Date>>) -> Option<Date> {
        stated.and_then(Stated::known).copied()
    }

    /// What the user wrote at a place, without the quotes.
    pub fn written(&self, span: Span) -> String {
        self.sources.text(span).trim_matches('"').to_string()
    }

    /// Something as a comment or an approval points at it: `piece.CROWN`, `plush/soot`; as it is written where it is not known.
    pub fn item(&self, written: &str) -> Phrase {
        if let Some((article, colour)) = written.split_once('/') {
            let colour = self.model.colours.get(colour).map_or(colour, |colour| colour.entry.title());
            return say!(NAMED, id = self.material(article), name = colour);
        }
        let (kind, id) = written.split_once('.').unwrap_or(("", written));
        if let Some(sample) = self.samples.samples.get(id).filter(|_| kind == "sample") {
            return say!(SAMPLE, id, name = &sample.name);
        }
        let model = self.model;
        let entry = match kind {
            "piece" => model.pieces.get(id).map(|one| &one.entry),
            "part" => model.parts.get(id).map(|one| &one.entry),
            "stuffing" => model.stuffings.get(id).map(|one| &one.entry),
            "point-of-measure" => model.measures.get(id).map(|one| &one.entry),
            "role" => model.roles.get(id).map(|one| &one.entry),
            "colour" => model.colours.get(id).map(|one| &one.entry),
            "seam" => model.joints.get(id).map(|one| &one.entry),
            _ => model.articles.get(id).map(|one| &one.entry),
        };
        match entry.filter(|entry| entry.title() != id) {
            Some(entry) if kind.is_empty() => say!(NAMED, id, name = entry.title()),
            Some(entry) => say!(THING, kind = kind::word(kind).capital(), id, name = entry.title()),
            None => written.into(),
        }
    }

    /// Whether another role without a name is the same article in some colourway.
    fn shares_article(&self, id: &str) -> bool {
        let article =
            |role: &str, way: &str| self.model.resolve(role, way).map(|(article, _)| article.entry.id.value.clone());
        let unnamed = self.model.roles.iter().filter(|(other, role)| *other != id && role.entry.name.is_none());
        unnamed.map(|(other, _)| other).any(|other| {
            self.model
                .ways()
                .into_iter()
                .any(|way| article(id, way).is_some() && article(id, way) == article(other, way))
        })
    }

    /// The name of a material for people: of the role, or of the article.
    pub fn material(&self, id: &str) -> String {
        if let Some(role) = self.model.roles.get(id) {
            if role.entry.name.is_some() {
                return role.entry.title().to_string();
            }
            let mut names: Vec<&str> = Vec::new();
            for colourway in self.model.ways() {
                if let Some((article, _)) = self.model.resolve(id, colourway)
                    && !names.contains(&article.entry.title())
                {
                    names.push(article.entry.title());
                }
            }
            return match names.as_slice() {
                [] => id.to_string(),
                // Two roles of one article are told apart by their ids.
                [_] if self.shares_article(id) => format!("{} ({id})", names.join(" / ")),
                _ => names.join(" / "),
            };
        }
        let article = id.split_once('/').map_or(id, |(article, _)| article);
        self.model.articles.get(article).map_or(id, |article| article.entry.title()).to_string()
    }

    /// A text, marked where the thing it names changed since the last sealed revision.
    pub fn marked(&self, kinds: &[&str], id: &str, text: impl Into<Phrase>) -> Phrase {
        let changed = self.since.is_some_and(|since| kinds.iter().any(|kind| since.marks.thing(kind, id)));
        if changed { Phrase::row([MARK.into(), text.into()], " ") } else { text.into() }
    }

    /// `Black plush: Short plush, pile 5 mm`: what a fabric is called, and what it is for.
    pub fn fabric_title<'m>(&self, article: &str, materials: impl IntoIterator<Item = &'m String>) -> Phrase {
        let fabric = self.material(article);
        let roles: Vec<String> =
            materials.into_iter().map(|material| self.material(material)).filter(|name| *name != fabric).collect();
        if roles.is_empty() { fabric.into() } else { say!(FOR_ROLES, roles = Phrase::list(roles), fabric) }
    }

    /// The stitch of a seam: its own, or the one all seams have.
    pub fn stitch<'b>(&self, own: &'b StitchUse) -> &'b StitchUse
    where
        'a: 'b,
    {
        if own.kind.is_some() { own } else { &self.model.work.stitch }
    }

    /// The first size in which the sew line of a piece is known, with the lines.
    pub fn shown(&self, piece: &str) -> Option<(&'a str, &'a Lines)> {
        let known =
            |size: &'a str| Some((size, self.drawn.get(piece, size).filter(|lines| lines.sew.known().is_some())?));
        self.sizes().into_iter().find_map(known)
    }

    /// One phrase for each size: alone where all are the same, else behind the sizes in their order: `S 5 mm, L 6 mm`.
    pub fn in_sizes(&self, text: impl Fn(&str) -> Phrase) -> Phrase {
        let all: Vec<(&str, Phrase)> = self.sizes().into_iter().map(|size| (size, text(size))).collect();
        let known = |value: Phrase| if value.is_empty() { NOT_YET.into() } else { value };
        match all.as_slice() {
            [(_, first), rest @ ..] if rest.iter().all(|(_, text)| text == first) => first.clone(),
            _ => Phrase::list(all.into_iter().map(|(size, value)| say!(OF_SIZE, size, value = known(value)))),
        }
    }

    /// One cell for each size that has one, in their order.
    pub fn cells(&self, cell: impl Fn(&str) -> Option<Cell>) -> Cell {
        let coded = |size: &str| Some(Coded { code: size.to_string(), cell: cell(size)? });
        Cell::By(self.sizes().into_iter().filter_map(coded).collect())
    }

    /// The sizes as codes, in order.
    pub fn sizes(&self) -> Vec<&'a str> {
        self.model.sizes.iter().map(|size| size.entry.id.value.as_str()).collect()
    }
}

/// The first letter in upper case.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or(String::new(), |first| first.to_uppercase().chain(chars).collect())
}

/// A length in metres, to the millimetre.
pub fn metres(mm: Number) -> Cell {
    Cell::fixed(Number::new(mm.get() / 1000.0), 3, "m")
}

/// A computed length as a cell: up to a tenth of a millimetre, without its unit.
pub fn mm(value: Number) -> Cell {
    Cell::amount(value, 1, "")
}

/// A computed length in mm as the sheets write it, without its unit.
pub fn length(value: Number) -> String {
    millimetres(value.get())
}

/// A length in mm as the sheets write it, without its unit.
pub fn millimetres(value: f64) -> String {
    number::shortened(&number::number(Number::new(value), 1))
}
