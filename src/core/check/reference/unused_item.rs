//! Rule: a material, colour, stitch or party that nothing uses.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::mention::{Mention, Wanted, known, mentions};
use crate::model::{Article, ArticleKind, Entry, Model, Stated, StitchUse, Value, kind};
use crate::parties::Party;
use crate::parties::model::named;
use crate::source::Help;
use crate::source::nearest;
use crate::words::{Phrase, say, words};

/// Something declared that nothing uses.
pub const RULE: Rule = Rule {
    code: "unused-item",
    family: "reference",
    severity: Severity::Should,
    summary: "a material, colour, stitch or party that nothing uses",
    explanation: "A factory that finds an article in the bill of materials looks for the place where it goes, and asks. \
                  Either its use was forgotten, or it is left over from an earlier idea.",
    failing: "[fabric.felt]\nmass = \"180 g/m2\"\n# and no piece is cut from it",
    passing: "[fabric.felt]\nmass = \"180 g/m2\"\n[piece.EAR]\nmaterial = \"felt\"",
    source: "common practice",
};

words! {
    ROLE "unused-item.role" = "name it as the `material` of a piece or the `filling` of a stuffing, or take it out";
    FITTED "unused-item.fitted" = "name it where it is fitted, in a [step.ID]: trim = \"{id}\"; or take it out";
    BETWEEN "unused-item.between" = "name it in the seam it lies in: between = [{ trim = \"{id}\" }]; or take it out";
    FABRIC "unused-item.fabric" = "name it as the `material` of a piece, or take it out";
    THREAD "unused-item.thread" = "name it as the `thread` of a stitch, or take it out";
    FILLING "unused-item.filling" = "name it as the `filling` of a stuffing, or take it out";
    TRIM "unused-item.trim" = "say how many go into one product: use = \"1 pc\"; or name it in a seam or step, or take it out";
    COLOUR "unused-item.colour" = "add it to the `colours` of what is bought in it: colours = [\"{id}\"], or take it out";
    STITCH "unused-item.stitch" = "name it where it is sewn: stitch = \"{id}\", or take it out";
    PARTY "unused-item.party" = "name it under [style]: owner = \"{id}\" or factory = \"{id}\", or take it out";
    MESSAGE "unused-item.message" = "nothing uses {what}";
    HERE "unused-item.here" = "not used";
}

/// Reports articles, roles, colours and stitches that nothing mentions.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    if model.lacks("piece") {
        return;
    }
    let used = Used::of(model);
    for (id, role) in &model.roles {
        if !used.materials.contains(id.as_str()) {
            findings.push(unused("role", id, &role.entry, place(model, id)));
        }
    }
    for (id, article) in &model.articles {
        let each = article.properties.contains_key("use");
        if used.materials.contains(id.as_str()) || used.articles.contains(id.as_str()) || each {
            continue;
        }
        let help = match article.kind {
            crate::model::ArticleKind::Fabric => FABRIC,
            crate::model::ArticleKind::Thread => THREAD,
            crate::model::ArticleKind::Filling => FILLING,
            crate::model::ArticleKind::Trim => TRIM,
        };
        findings.push(unused(article.kind.word(), id, &article.entry, help));
    }
    for (id, colour) in model.colours.iter().filter(|(id, _)| !used.colours.contains(id.as_str())) {
        findings.push(unused("colour", id, &colour.entry, say!(COLOUR, id)));
    }
    let named: Vec<&str> = named(&model.style).map(|(id, _)| id.value.as_str()).collect();
    // Where one of the two is misspelt, it is not known which party is meant.
    let clear = named.iter().all(|id| model.parties.contains_key(*id));
    let spare = |id: &str, party: &Party| clear && party.is_for_the_style() && !named.contains(&id);
    for (id, party) in model.parties.iter().filter(|(id, party)| spare(id, party)) {
        findings.push(unused("party", id, &party.entry, say!(PARTY, id)));
    }
    for (id, entry) in model.stitches.iter().filter(|(id, _)| !used.stitches.contains(id.as_str())) {
        findings.push(unused("stitch", id, entry, say!(STITCH, id)));
    }
}

/// Where a role of what its colourways give it goes.
fn place(model: &Model, id: &str) -> Phrase {
    let article = model.colourways.keys().find_map(|way| Some(model.resolve(id, way)?.0));
    match article.map(|article| (article.kind, article)) {
        Some((ArticleKind::Fabric, _)) => FABRIC.into(),
        Some((ArticleKind::Thread, _)) => THREAD.into(),
        Some((ArticleKind::Filling, _)) => FILLING.into(),
        Some((ArticleKind::Trim, article)) if is_label(article) => say!(BETWEEN, id),
        Some((ArticleKind::Trim, _)) => say!(FITTED, id),
        None => ROLE.into(),
    }
}

fn is_label(article: &Article) -> bool {
    let types = article.text("type").into_iter().flat_map(Value::all).filter_map(Stated::known);
    types.into_iter().any(|text| text.to_lowercase().contains("label"))
}

fn unused(table: &str, id: &str, entry: &Entry, help: impl Into<Help>) -> Finding {
    Finding::new(&RULE, say!(MESSAGE, what = kind::named(table, id))).at(entry.span(), HERE).help(help)
}

/// Ids that something mentions.
struct Used<'a> {
    /// Roles and articles named directly.
    materials: BTreeSet<&'a str>,
    /// Articles named by colourways.
    articles: BTreeSet<&'a str>,
    colours: BTreeSet<&'a str>,
    stitches: BTreeSet<&'a str>,
}

impl<'a> Used<'a> {
    fn of(model: &'a Model) -> Used<'a> {
        let mut used = Used {
            materials: BTreeSet::new(),
            articles: BTreeSet::new(),
            colours: BTreeSet::new(),
            stitches: stitches(model).filter_map(|one| Some(one.shared.as_ref()?.value.as_str())).collect(),
        };
        for mention in mentions(model) {
            let id = meant(model, &mention);
            match mention.wanted {
                Wanted::Material(_) => used.materials.insert(id),
                Wanted::Of("colour") => used.colours.insert(id),
                _ => false,
            };
        }
        for written in model.colourways.values().flat_map(|colourway| colourway.roles.values()) {
            let (article, colour) = written.value.split_once('/').unwrap_or((&written.value, ""));
            used.articles.insert(article.trim());
            used.colours.insert(colour.trim());
        }
        used
    }
}

/// The id that is mentioned, or the one it is a misspelling of, so that one slip is one finding.
fn meant<'a>(model: &'a Model, mention: &Mention<'a>) -> &'a str {
    let known = known(model, mention.wanted);
    if known.contains(&mention.id) {
        return mention.id;
    }
    nearest(mention.id, known).unwrap_or(mention.id)
}

fn stitches(model: &Model) -> impl Iterator<Item = &StitchUse> {
    let joints = model.joints.values().map(|one| &one.stitch);
    joints
        .chain(model.edge_finishes.values().map(|one| &one.stitch))
        .chain(model.topstitches.values().map(|one| &one.stitch))
        .chain(model.attaches.values().map(|one| &one.stitch))
        .chain(std::iter::once(&model.work.stitch))
}
